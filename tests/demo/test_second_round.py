"""The dairy's second round: the program finds what a reviewer wrote down by hand, and nothing else."""

from __future__ import annotations

import datetime
import importlib.util
import tomllib
from collections.abc import Mapping
from functools import cache
from typing import Any

from openpyxl import load_workbook

from speccheck.language.diagnostics import has_errors
from speccheck.review import judge_schedule
from speccheck.review.deviations import read_register
from speccheck.review.matrix import Matrix
from speccheck.review.reviewing import review_matrix
from speccheck.review.rounds import ChangeKind, Fate, RoundComparison, compare_rounds
from speccheck.schedule import Schedule, read_schedule
from tests.demo.test_dairy import DAIRY, contents, label, matrix, ruleset

ROUND = DAIRY / "second-round"
DAY = datetime.date(2026, 3, 4)


def read(name: str) -> Schedule:
    """Return a file of the second round as it is read."""
    sheet = read_schedule(ROUND / name, ruleset().vocabulary)
    assert sheet.lines
    assert not has_errors(sheet.diagnostics)
    return sheet


@cache
def second_round() -> Matrix:
    """Return the resubmittal, judged, reviewed and checked against the first round."""
    register, problems = read_register(ROUND / "deviations.toml", ruleset())
    assert problems == ()
    reviewed = review_matrix(
        judge_schedule(read("resubmittal.xlsx"), ruleset()),
        design=read("design-list.csv"),
        products=read("products.toml"),
        register=register,
        on=DAY,
    )
    return compare_rounds(matrix(), reviewed)


@cache
def comparison() -> RoundComparison:
    """Return what became of the first round."""
    found = second_round().comparison
    assert found is not None
    return found


@cache
def written_by_hand() -> Mapping[str, Any]:
    """Return expected.toml."""
    return tomllib.loads((ROUND / "expected.toml").read_text(encoding="utf-8"))


def test_every_finding_is_followed_to_its_fate() -> None:
    """Closed, still open, new, accepted, gone: exactly the findings that the file names, each under its fate."""
    for fate in Fate:
        wanted = {
            (line, label(clause))
            for line, clauses in written_by_hand().get(str(fate), {}).items()
            for clause in clauses.split()
        }
        assert {(one.line, one.clause) for one in comparison().with_fate(fate)} == wanted, fate
    assert sum(len(comparison().with_fate(fate)) for fate in Fate) == len(comparison().followed)


def test_silent_change_is_the_only_one() -> None:
    """One datum was changed where no finding asked for it; the new column is no such change."""
    stated = written_by_hand()["lines"]
    silent = {(line, term, *values) for line, terms in stated["silent"].items() for term, values in terms.items()}
    assert {(one.line, one.term, one.old, one.now) for one in comparison().silent} == silent
    new = {(one.line, one.term) for one in comparison().of_kind(ChangeKind.NEWLY_STATED)}
    assert new == {(line, "product") for line in stated["product"].split()}


def test_lines_added_dropped_and_renamed() -> None:
    """A line is known again under its new name; one is new and one is gone."""
    stated = written_by_hand()["lines"]
    assert list(comparison().added) == stated["added"]
    assert list(comparison().dropped) == stated["dropped"]
    assert dict(comparison().renamed) == stated["renamed"]


def test_every_planted_omission_clash_and_gap_is_found_and_nothing_else() -> None:
    """What is found beside the verdicts is what the file says, code by code and line by line."""
    wanted = [(one["code"], one["lines"]) for one in written_by_hand()["observed"]]
    found = [(one.diagnostic.code, " ".join(one.lines)) for one in second_round().observations]
    assert sorted(found) == sorted(wanted)


def test_messages_name_sizes_values_and_products() -> None:
    """Each message holds the sizes, values and names that the file asks for."""
    left = list(second_round().observations)
    for one in written_by_hand()["observed"]:
        alike = [
            found
            for found in left
            if (found.diagnostic.code, " ".join(found.lines)) == (one["code"], one["lines"])
            and all(words in found.diagnostic.message for words in one["says"])
        ]
        assert alike, one
        left.remove(alike[0])
    assert left == []


def test_accepted_deviations_are_no_fails_and_no_passes() -> None:
    """With the expired deviation renewed and all else mended, nothing would count as a fail, and nothing as met."""
    accepted = {(one.line, one.clause) for one in comparison().with_fate(Fate.ACCEPTED)}
    cells = {(found.line.name, found.clause.label): found.cell for found in second_round()}
    assert {place for place, cell in cells.items() if cell.verdict == "accepted deviation"} == accepted
    for place in accepted:
        assert any(note.startswith("accepted deviation D-") for note in cells[place].notes), place


def test_resubmittal_is_the_one_that_the_changes_make() -> None:
    """resubmittal.xlsx holds, cell for cell, the first schedule with the changes of changes.toml."""
    import io

    spec = importlib.util.spec_from_file_location("make_resubmittal", ROUND / "make_resubmittal.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    made = module.workbook_bytes()
    assert contents(load_workbook(io.BytesIO(made))) == contents(load_workbook(ROUND / "resubmittal.xlsx"))
    assert module.workbook_bytes() == made
