"""Portfolios: the verdicts are those of the judge, bad files cost nothing, and what is kept is not judged again."""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path

import pytest

from speccheck.judge import Verdict
from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.report.all_codes import all_rules
from speccheck.review import judge_schedule
from speccheck.review.outcome import Standing, outcome_of
from speccheck.review.portfolio import Run, entries, judging, run_portfolio
from speccheck.review.portfolio.store import LineResult
from speccheck.review.portfolio.tallies import VERDICTS, tallies
from speccheck.schedule import read_schedule
from tests.review.portfolio_schedules import (
    judged,
    loaded,
    request_of,
    results_of,
    rows_of,
    totals_of,
    write_csv,
    write_portfolio,
    write_ruleset,
)
from tests.some import some

HELP = "name a new folder, or that of an earlier run of a portfolio"
BY_HAND = (
    ("A", "chilled water", "outdoor", "2", "1/2", "PVC", "tape"),  # fails 1 and 2, and both recommendations
    ("B", "chilled water", "conditioned", "2", "1", "", "factory adhesive"),  # complies with 1 against its advice
    ("C", "steam", "outdoor", "2", "1", "aluminum", "factory adhesive"),  # complies with 2
    ("D", "chilled water", "conditioned", "2", "TBD", "", ""),  # thickness and closure are not known
    ("E", "steam", "conditioned", "2", "1", "", "tape"),  # no mandatory clause applies
)


@pytest.fixture
def ruleset(tmp_path: Path) -> Path:
    """The ruleset that anybody can count by."""
    return write_ruleset(tmp_path)


def test_verdicts_counted_by_hand(tmp_path: Path, ruleset: Path) -> None:
    """Five lines with known verdicts come out in the counts by clause, by line and by schedule."""
    write_csv(tmp_path / "all/one.csv", BY_HAND)
    write_csv(tmp_path / "all/two.csv", BY_HAND[2:3])
    totals = totals_of(judged(tmp_path / "all", ruleset, tmp_path / "out"), ruleset)
    fails, unknown, complies, outside = Verdict.FAILS, Verdict.CANNOT_TELL, Verdict.COMPLIES, Verdict.NOT_APPLICABLE
    unstated = Verdict.NOT_CHECKED
    counted = [(one.clause.name, one.mandatory, dict(one.counts), one.failing_schedules) for one in totals.clauses]
    assert counted == [
        ("1", True, {fails: 1, unknown: 1, complies: 1, unstated: 0, outside: 3}, 1),
        ("1", False, {fails: 2, unknown: 1, complies: 0, unstated: 0, outside: 3}, 1),
        ("2", True, {fails: 1, unknown: 0, complies: 2, unstated: 0, outside: 3}, 1),
        ("3", False, {fails: 2, unknown: 1, complies: 3, unstated: 0, outside: 0}, 1),
    ]
    assert totals.lines == {fails: 1, unknown: 1, complies: 3, unstated: 0, outside: 1}
    assert totals.requirements == {fails: 2, unknown: 1, complies: 3, unstated: 0, outside: 6}
    assert totals.schedules == {Standing.FAILS: 1, Standing.COMPLIES: 1}
    assert (totals.status, [tally.name for tally in totals.worst]) == (1, ["one.csv"])


def test_verdicts_are_those_of_the_judge(tmp_path: Path, ruleset: Path) -> None:
    """Every mark kept of every schedule is the verdict that the reference judge gives on that line."""
    portfolio = write_portfolio(tmp_path / "all", 8, 12)
    run = judged(portfolio, ruleset, tmp_path / "out")
    expected: Counter[tuple[str, int, Verdict]] = Counter()
    found: Counter[tuple[str, int, Verdict]] = Counter()
    for tally in tallies(run.results(), loaded(ruleset)):
        schedule = read_schedule(portfolio / tally.name, loaded(ruleset).vocabulary)
        for row in judge_schedule(schedule, loaded(ruleset)).cells:
            expected.update((tally.name, number, cell.verdict) for number, cell in enumerate(row))
        for number in range(3):
            for verdict, count in zip(VERDICTS, tally.counts[number], strict=True):
                found[tally.name, number, verdict] += int(count)
    assert +found == expected
    assert len({name for name, _, _ in expected}) == 8


def test_bad_files_are_reported_and_skipped(tmp_path: Path, ruleset: Path) -> None:
    """Files that cannot be used cost no other its verdicts, and the exit status says that some were skipped."""
    portfolio = tmp_path / "all"
    write_csv(portfolio / "good.csv", BY_HAND[2:3])
    for name, content in {
        "a.xlsx": b"no workbook",
        "b.json": b'{"not": "a list"}',
        "c.csv": b"nothing,here\n1,2\n",
        "d.csv": b"",
        "e.xls": b"old",
        "f.json": b"[{",
        "g.csv": b"\x00\x01\x02",
    }.items():
        (portfolio / name).write_bytes(content)
    (portfolio / "notes.pdf").write_bytes(b"%PDF")
    (portfolio / "~$open.xlsx").write_bytes(b"lock")
    (portfolio / "gone.csv").symlink_to(tmp_path / "nowhere")
    run = judged(portfolio, ruleset, tmp_path / "out")
    totals = totals_of(run, ruleset)
    assert totals.schedules == {Standing.COMPLIES: 1, Standing.NOT_READ: 9}
    assert totals.status == 3
    assert run.left == {".xlsx": 1}
    assert {tally.name: tally.outcome.problem for tally in totals.not_read} == {
        "a.xlsx": "`a.xlsx` is not a complete .xlsx workbook",
        "b.json": "this is not a list of objects",
        "c.csv": "no row of the file reads as the header of a schedule",
        "d.csv": "no row of the file reads as the header of a schedule",
        "e.xls": "no row of the file reads as the header of a schedule",
        "f.json": "this is not JSON here",
        "g.csv": "`g.csv` is not text",
        "gone.csv": "`gone.csv` is not a file that can be opened",
        "notes.pdf": "`notes.pdf` is damaged and cannot be read as a PDF",
    }


def test_order_is_that_of_names(tmp_path: Path, ruleset: Path) -> None:
    """Schedules come in the order of their names, each folder where its own name stands; the output is not judged.

    Two of them are the same file in two folders, and are judged once.
    """
    portfolio = tmp_path / "all"
    for name in ("b.csv", "a/z.csv", "c/a.csv", "a.csv", "C.csv"):
        write_csv(portfolio / name, BY_HAND)
    run = judged(portfolio, ruleset, portfolio / "out")
    again = judged(portfolio, ruleset, portfolio / "out")
    names = [name for name, _ in again.results()]
    assert names == ["C.csv", "a/z.csv", "a.csv", "b.csv", "c/a.csv"]
    assert (run.judged, again.judged, again.kept) == (4, 0, 5)


def test_only_what_changed_is_judged_again(tmp_path: Path, ruleset: Path) -> None:
    """A changed schedule is judged again, one that moved is not; another ruleset judges all of them again."""
    portfolio = write_portfolio(tmp_path / "all", 6, 3)
    judged(portfolio, ruleset, tmp_path / "out")
    write_csv(portfolio / "schedule-000.csv", rows_of(99, 3))
    (portfolio / "moved").mkdir()
    (portfolio / "schedule-002.csv").rename(portfolio / "moved/schedule-002.csv")
    run = judged(portfolio, ruleset, tmp_path / "out")
    assert (run.judged, run.kept) == (1, 5)
    other = tmp_path / "other.clauses"
    other.write_text(ruleset.read_text().replace("at least 1 in", "at least 1-1/2 in"))
    commented = tmp_path / "commented.clauses"
    commented.write_text(f"-- {'a remark'}\n{ruleset.read_text()}")
    assert judged(portfolio, other, tmp_path / "out").judged == 6
    assert judged(portfolio, commented, tmp_path / "out").judged == 0


def test_torn_result_is_judged_again(tmp_path: Path, ruleset: Path) -> None:
    """A result whose end is missing, as after a failure of the disk, does not count as kept."""
    portfolio = write_portfolio(tmp_path / "all", 3, 3)
    first = judged(portfolio, ruleset, tmp_path / "out")
    before = totals_of(first, ruleset)
    for number, torn in enumerate(sorted((tmp_path / "out/results").rglob("*.jsonl"))[:2]):
        torn.write_bytes(torn.read_bytes()[: -12 if number else 0])
    run = judged(portfolio, ruleset, tmp_path / "out")
    assert (run.judged, run.kept) == (2, 1)
    assert totals_of(run, ruleset).requirements == before.requirements


def test_fault_of_the_program_costs_one_schedule(
    tmp_path: Path, ruleset: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the program fails on a schedule, the others are judged, and the next run tries it again."""
    portfolio = write_portfolio(tmp_path / "all", 4, 3)

    def failing(path: Path, *others: object, **named: object) -> object:
        if path.name == "schedule-002.csv":
            raise IndexError("a fault of ours")
        return read_schedule(path, *others, **named)  # type: ignore[arg-type]

    with monkeypatch.context() as patched:
        patched.setattr(judging, "read_schedule", failing)
        run = judged(portfolio, ruleset, tmp_path / "out")
    results = dict(results_of(run))
    assert [found.diagnostics for found in results["schedule-002.csv"]] == [
        (
            Diagnostic(
                "V503",
                Severity.ERROR,
                "the program failed on it (IndexError)",
                Place("schedule-002.csv"),
                "please report it with the file",
            ),
        )
    ]
    assert totals_of(run, ruleset).schedules[Standing.NOT_READ] == 1
    again = judged(portfolio, ruleset, tmp_path / "out")
    assert (again.judged, again.kept) == (1, 3)
    assert totals_of(again, ruleset).schedules[Standing.NOT_READ] == 0


def test_folder_and_file_that_cannot_be_opened(tmp_path: Path, ruleset: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What the system refuses to open, at once or while it is read, is reported and costs no other its verdicts."""
    portfolio = write_portfolio(tmp_path / "all", 4, 3)
    sorted_as_ever = entries._sorted

    def refusing(folder: Path) -> object:
        if folder.name == "plant-0":
            raise PermissionError(13, "Permission denied")
        return sorted_as_ever(folder)

    def failing(path: Path, *others: object, **named: object) -> object:
        if path.name == "schedule-002.csv":
            raise PermissionError(13, "Permission denied")
        return read_schedule(path, *others, **named)  # type: ignore[arg-type]

    monkeypatch.setattr(entries, "_sorted", refusing)
    monkeypatch.setattr(judging, "read_schedule", failing)
    totals = totals_of(judged(portfolio, ruleset, tmp_path / "out"), ruleset)
    assert {tally.name: tally.outcome.problem for tally in totals.not_read} == {
        "plant-0": "`plant-0` is not a file that can be opened",
        "schedule-002.csv": "it cannot be read: permission denied",
    }
    assert totals.schedules.total() == 4


def test_schedule_that_changes_while_it_is_judged(
    tmp_path: Path, ruleset: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is not known which state was judged, so neither counts, and the next run judges it."""
    write_csv(tmp_path / "all/one.csv", BY_HAND)

    def written_to(path: Path, *others: object, **named: object) -> object:
        found = read_schedule(path, *others, **named)  # type: ignore[arg-type]
        write_csv(path, BY_HAND[:2])
        return found

    with monkeypatch.context() as patched:
        patched.setattr(judging, "read_schedule", written_to)
        run = judged(tmp_path / "all", ruleset, tmp_path / "out")
    ((_, results),) = results_of(run)
    assert [found.diagnostics for found in results] == [
        (
            Diagnostic(
                "V504",
                Severity.ERROR,
                "the file changed while it was being judged",
                Place("one.csv"),
                "run again when nobody writes to it",
            ),
        )
    ]
    again = judged(tmp_path / "all", ruleset, tmp_path / "out")
    assert (again.judged, totals_of(again, ruleset).lines.total()) == (1, 2)


@pytest.mark.parametrize(
    ("into", "code", "message", "help"),
    [
        ("all", "V502", "`all` holds the schedules themselves", HELP),
        (".", "V502", "`{}` holds the schedules themselves", HELP),
        ("rules.clauses", "V502", "`rules.clauses` is no folder", HELP),
        ("full", "V502", "`full` has files in it that are no results of a portfolio", HELP),
    ],
)
def test_output_folder_that_cannot_be_used(
    tmp_path: Path, ruleset: Path, into: str, code: str, message: str, help: str
) -> None:
    """The schedules, other files and folders of somebody else are left alone."""
    write_csv(tmp_path / "all/one.csv", BY_HAND)
    (tmp_path / "full").mkdir()
    (tmp_path / "full/thesis.txt").write_text("mine")
    found = run_portfolio(request_of(tmp_path / "all", ruleset, tmp_path / into))
    assert found == Diagnostic(code, Severity.ERROR, message.format(tmp_path.name), Place(), help)
    assert code in all_rules()
    assert [path.name for path in (tmp_path / "full").iterdir()] == ["thesis.txt"]


def test_portfolio_that_is_not_there(tmp_path: Path, ruleset: Path) -> None:
    """A name that is neither a folder nor a file is said, and no output folder is made."""
    found = run_portfolio(request_of(tmp_path / "nowhere", ruleset, tmp_path / "out"))
    message, help = "`nowhere` is neither a folder nor a file", "name the folder of the schedules"
    assert found == Diagnostic("V501", Severity.ERROR, message, Place(), help)
    assert not (tmp_path / "out").exists()


def test_empty_portfolio_is_no_pass(tmp_path: Path, ruleset: Path) -> None:
    """A folder without schedules has nothing that complies: the exit status says so."""
    (tmp_path / "all").mkdir()
    totals = totals_of(judged(tmp_path / "all", ruleset, tmp_path / "out"), ruleset)
    assert (totals.status, totals.clauses, totals.schedules.total()) == (3, [], 0)


def test_reasons_are_those_of_the_judge(tmp_path: Path, ruleset: Path) -> None:
    """Where reasons are asked for, each requirement that is a finding has the judge's sentence."""
    write_csv(tmp_path / "all/one.csv", BY_HAND)
    run = run_portfolio(request_of(tmp_path / "all", ruleset, tmp_path / "out", reasons=True))
    assert isinstance(run, Run)
    ((_, (found,)),) = results_of(run)
    cells = judge_schedule(read_schedule(tmp_path / "all/one.csv", loaded(ruleset).vocabulary), loaded(ruleset)).cells
    assert {(line, clause) for line, clause in found.reasons} == {(0, 0), (0, 1), (0, 2), (3, 0), (3, 2), (4, 2)}
    assert all(text == cells[line][clause].reason for (line, clause), text in some(found.reasons.items()))


def test_manifest_has_no_path_of_the_machine(tmp_path: Path, ruleset: Path) -> None:
    """The manifest names files as the portfolio does, and nothing kept holds the folder that it lies in."""
    portfolio = write_portfolio(tmp_path / "all", 4, 3)
    (portfolio / "bad.json").write_text("[")
    run = judged(portfolio, ruleset, tmp_path / "out")
    lines = [json.loads(line) for line in (tmp_path / "out/manifest.jsonl").read_text().splitlines()]
    assert [line["file"] for line in lines] == [name for name, _ in run.results()]
    kept = [path.read_text() for path in (tmp_path / "out").rglob("*.jsonl")]
    assert not any(str(tmp_path) in text for text in kept)


def test_marks_are_kept_with_the_place_of_the_line(tmp_path: Path, ruleset: Path) -> None:
    """Of each line its name, its cell and its marks are kept: three clauses, then the advice of two of them."""
    write_csv(tmp_path / "all/one.csv", BY_HAND[:2])
    ((_, (found,)),) = results_of(judged(tmp_path / "all", ruleset, tmp_path / "out"))
    assert found.lines == (LineResult("A", "", "A2", "FFFFF"), LineResult("B", "", "A3", "+-+F+"))


RELATIONS = """
relation 4 "One closure in a place"
  alike in location
  shall have the same jacket

relation 5 "A line beside each"
  where service is steam
  beside where service is chilled water
  alike in location
  shall have a line
"""


def test_relations_between_lines_count_as_in_a_check_of_the_schedule_alone(tmp_path: Path, ruleset: Path) -> None:
    """Each schedule of a portfolio has the relations, the outcome and the standing that it has when it is checked."""
    ruleset.write_text(ruleset.read_text(encoding="utf-8") + RELATIONS, encoding="utf-8")
    portfolio = write_portfolio(tmp_path / "all", 6, 5)
    for again in (False, True):  # judged, and read back from what was kept
        run = judged(portfolio, ruleset, tmp_path / "out")
        standing = {}
        for tally in tallies(run.results(), loaded(ruleset)):
            schedule = read_schedule(portfolio / tally.name, loaded(ruleset).vocabulary)
            alone = outcome_of(judge_schedule(schedule, loaded(ruleset)))
            assert (tally.outcome.relations, tally.outcome.standing) == (alone.relations, alone.standing), again
            standing[tally.name] = alone.relations
        assert {verdict for found in standing.values() for verdict in found} >= {Verdict.FAILS, Verdict.CANNOT_TELL}
