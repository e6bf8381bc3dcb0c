"""The dairy: the program finds what a reviewer wrote down by hand, and nothing else."""

from __future__ import annotations

import importlib.util
import io
import re
import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from openpyxl import Workbook, load_workbook

from speccheck.judge.cell import Cell
from speccheck.judge.examples import rehearse
from speccheck.judge.judgement import Verdict
from speccheck.language import load_ruleset
from speccheck.language.core import Clause, Ruleset
from speccheck.review import judge_schedule
from speccheck.review.matrix import Matrix
from speccheck.schedule import read_mapping, read_schedule

DAIRY = Path(__file__).parents[2] / "examples" / "dairy"

# A verdict as expected.toml and the program both come to it: the word, then the sizes at which a line fails, or the
# terms that are missing.
Expectation = tuple[str, frozenset[str]]
Expectations = dict[tuple[str, str], Expectation]


@cache
def ruleset() -> Ruleset:
    """Return the specification of the dairy."""
    loaded = load_ruleset(DAIRY / "project.clauses")
    assert loaded.ruleset is not None, loaded.diagnostics
    return loaded.ruleset


@cache
def matrix(mapped: bool = False) -> Matrix:
    """Return the matrix of the workbook, read with or without the mapping file."""
    mapping, problems = read_mapping(DAIRY / "mapping.toml", ruleset().vocabulary) if mapped else (None, ())
    assert problems == ()
    return judge_schedule(read_schedule(DAIRY / "schedule.xlsx", ruleset().vocabulary, mapping), ruleset())


@cache
def written_by_hand() -> Mapping[str, Any]:
    """Return expected.toml."""
    return tomllib.loads((DAIRY / "expected.toml").read_text(encoding="utf-8"))


def own_clauses() -> list[Clause]:
    """Return the clauses that the project itself has, without those of the rulesets that it builds on."""
    return [clause for clause in ruleset().clauses if clause.ruleset == ruleset().name]


def label(token: str) -> str:
    """Return the label of a clause as reports have it: "fire/1.1" is "1.1" of the ruleset that is shipped as "fire"."""
    where, slash, number = token.partition("/")
    if not slash:
        return number or where
    shipped = load_ruleset(where).ruleset
    assert shipped is not None, where
    (found,) = (one for one in ruleset().clauses if one.name == number and one.ruleset == shipped.name)
    return found.label


def expected(lines: Mapping[str, Mapping[str, Any]], unchecked: str) -> Expectations:
    """Return the expectation of every line by every clause; a clause that a line does not name does not apply to it.

    `unchecked` names the clauses that judge no line for want of data.
    """
    found: Expectations = {}
    for name, line in lines.items():
        unknown = {**line.get("cannot-tell", {}), **line.get("advice-open", {})}
        stated: list[tuple[str, Expectation]] = [
            *((clause, ("fails", sizes_of(sizes))) for clause, sizes in line.get("fails", {}).items()),
            *((clause, ("cannot tell", frozenset(terms))) for clause, terms in unknown.items()),
            *((clause, ("against advice", frozenset())) for clause in line.get("against-advice", ())),
            *((clause, ("complies", frozenset())) for clause in line["complies"].split()),
            *((clause, ("not checked", frozenset())) for clause in unchecked.split()),
            *((clause, ("not checked", frozenset())) for clause in line.get("not-checked", "").split()),
        ]
        by_clause = {label(clause): expectation for clause, expectation in stated}
        assert len(by_clause) == len(stated), f"{name} names a clause twice"
        labels = [clause.label for clause in ruleset().clauses]
        assert set(by_clause) <= set(labels), f"{name} names a clause that the ruleset does not have"
        found |= {(name, each): by_clause.get(each, ("not applicable", frozenset())) for each in labels}
    return found


def sizes_of(text: str) -> frozenset[str]:
    """Return the sizes of "1-1/2, 2"."""
    return frozenset(size.strip() for size in text.split(",") if size.strip())


def judged(found: Matrix) -> Expectations:
    """Return what the program came to, in the shape of the expectations."""
    return {(each.line.name, each.clause.label): as_expectation(each.cell) for each in found}


def as_expectation(cell: Cell) -> Expectation:
    """Return a cell as the expectation that it would have met."""
    if cell.verdict is Verdict.FAILS:
        sizes = frozenset(size for at in cell.at for size in re.findall(r"(\d[\d/-]*) in\b", at))
        return ("fails", sizes) if cell.mandatory else ("against advice", frozenset())
    if cell.verdict is Verdict.CANNOT_TELL:
        return "cannot tell", frozenset(cell.missing)
    return cell.verdict.value, frozenset()


def differences(wanted: Expectations, got: Expectations) -> dict[tuple[str, str], tuple[Expectation, Expectation]]:
    """Return what was wanted and what came of each cell in which the two are not the same."""
    return {cell: (wanted[cell], got[cell]) for cell in wanted if wanted[cell] != got[cell]}


def test_finds_every_planted_fault_and_nothing_else() -> None:
    """Each of the cells, line by line and clause by clause, is what expected.toml says; no line is missing or new."""
    lines = written_by_hand()["lines"]
    assert [line.name for line in matrix().schedule.lines] == list(lines)
    wanted, got = expected(lines, written_by_hand()["not-checked"]), judged(matrix())
    assert wanted.keys() == got.keys()
    assert differences(wanted, got) == {}


def test_mapping_file_settles_what_was_open_and_changes_no_other_line() -> None:
    """With mapping.toml the jacket code is known, and the file is understood without a warning."""
    lines = written_by_hand()["lines"] | written_by_hand()["with-mapping"]
    assert differences(expected(lines, written_by_hand()["not-checked"]), judged(matrix(mapped=True))) == {}
    assert [each.message for each in matrix(mapped=True).schedule.diagnostics if each.severity != "note"] == []


def test_plain_check_says_what_it_did_not_understand() -> None:
    """Without the mapping file the jacket code and the column of revisions are reported at their places."""
    warnings = {each.message.split("`")[1] for each in matrix().schedule.diagnostics if each.severity != "note"}
    assert warnings == {"WJ-2", "Rev."}


def test_many_kinds_of_faults_were_planted() -> None:
    """At least 12 kinds of faults, in 40 lines or more, by 30 clauses or more, as the demonstration promises."""
    kinds = {clause for line in written_by_hand()["lines"].values() for clause in line.get("fails", {})}
    assert len(kinds) >= 12
    assert len(matrix().schedule.lines) >= 40
    assert len(own_clauses()) >= 30


def test_reasons_say_what_was_planted() -> None:
    """A line that fails or misses data says that it was planted; a line that says so does fail or miss data."""
    for name, line in written_by_hand()["lines"].items():
        assert line["why"].startswith("PLANTED") is ("fails" in line or "cannot-tell" in line), name


def test_readme_lists_the_planted_faults() -> None:
    """The tables of the README name the lines and clauses of expected.toml, no more and no fewer."""
    told = set()
    for row in (DAIRY / "README.md").read_text(encoding="utf-8").splitlines():
        found = re.fullmatch(r"\| .+ \| ([A-Z]+-\d+) \| ([^|`]*\d[^|`]*) \|", row)
        if found is not None:
            told |= {(found[1], clause) for clause in found[2].split(", ")}
    planted = {
        (name, clause)
        for name, line in written_by_hand()["lines"].items()
        for clause in (*line.get("fails", {}), *line.get("cannot-tell", {}))
    }
    assert told == planted


def test_readme_counts_clauses_and_lines() -> None:
    """The README says how many clauses the project has of its own and builds on, and how many lines there are."""
    text = " ".join((DAIRY / "README.md").read_text(encoding="utf-8").split())
    own = len(own_clauses())
    assert f"{own} clauses of its own" in text
    assert f"{len(ruleset().clauses) - own} clauses of five shipped rulesets" in text
    assert f"{len(matrix().schedule.lines)} lines on two sheets" in text


def test_ruleset_is_clean_and_its_examples_come_out() -> None:
    """The specification has no diagnostics, its examples are right, and they touch every clause and table cell."""
    assert load_ruleset(DAIRY / "project.clauses").diagnostics == ()
    assert [each.message for each in rehearse(ruleset()).diagnostics] == []


def test_clauses_have_examples_on_both_sides() -> None:
    """Each of the project's own clauses shows a line that complies, one that fails, one out of scope, one unknown."""
    for clause in own_clauses():
        shown = {example.expected.value.split(" against")[0] for example in clause.examples}
        assert {"complies", "fails", "does not apply", "cannot tell"} <= shown, clause.label


def test_workbook_is_the_one_that_the_text_shows() -> None:
    """schedule.xlsx holds, cell for cell and merge for merge, what make_schedule.py makes of schedule.txt."""
    made = made_workbook()
    assert contents(load_workbook(io.BytesIO(made))) == contents(load_workbook(DAIRY / "schedule.xlsx"))
    assert made_workbook() == made


def made_workbook() -> bytes:
    """Return the workbook made anew."""
    spec = importlib.util.spec_from_file_location("make_schedule", DAIRY / "make_schedule.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    made = module.workbook_bytes((DAIRY / "schedule.txt").read_text(encoding="utf-8"))
    assert isinstance(made, bytes)
    return made


def contents(workbook: Workbook) -> list[tuple[str, list[tuple[Any, ...]], list[str]]]:
    """Return the values and the merged ranges of every sheet."""
    return [
        (sheet.title, list(sheet.iter_rows(values_only=True)), sorted(str(each) for each in sheet.merged_cells.ranges))
        for sheet in workbook.worksheets
    ]
