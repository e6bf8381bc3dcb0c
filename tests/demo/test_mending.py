"""The dairy: changes are found for every line that fails, and the corrected workbook breaks nothing."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from speccheck.judge import Verdict
from speccheck.report.workbook.corrected import correct_workbook
from speccheck.review import Matrix, judge_schedule
from speccheck.review.corrections import Mending, mend_schedule
from speccheck.schedule import read_mapping, read_schedule
from tests.demo.test_dairy import DAIRY, ruleset


def judged(path: Path) -> Matrix:
    """Return the matrix of a workbook by the specification of the dairy and its mapping file."""
    mapping, _ = read_mapping(DAIRY / "mapping.toml", ruleset().vocabulary)
    return judge_schedule(read_schedule(path, ruleset().vocabulary, mapping), ruleset())


@cache
def mendings() -> tuple[Matrix, tuple[Mending, ...]]:
    """Return the matrix of the dairy's schedule and what would make its lines comply."""
    matrix = judged(DAIRY / "schedule.xlsx")
    return matrix, tuple(mend_schedule(matrix, most=1))


def test_each_failing_line_has_a_proposal_that_complies() -> None:
    """Each line with a planted fault can be mended, and the changed line fails nowhere."""
    matrix, found = mendings()
    failing = {one.line.name for one in matrix.findings(Verdict.FAILS)}
    assert failing <= {one.line.name for one in found if one.proposals}
    verdicts = {
        cell.verdict for one in found for proposal in one.proposals for cell in proposal.cells if cell.mandatory
    }
    assert Verdict.FAILS not in verdicts


def test_corrected_workbook_breaks_nothing(tmp_path: Path) -> None:
    """Merged cells, ditto marks and headings and all: read again, it fails only where another product is needed.

    On these lines nothing but the properties of a product fails, and each such property is as it was.
    """
    matrix, found = mendings()
    corrected = correct_workbook(DAIRY / "schedule.xlsx", matrix, found)
    assert corrected.content is not None
    assert corrected.diagnostics == ()
    (tmp_path / "corrected.xlsx").write_bytes(corrected.content)
    again = judged(tmp_path / "corrected.xlsx")
    properties = {
        one.line.name: [change.term.name for change in one.proposals[0].changes if change.is_of_another_product]
        for one in found
    }
    assert {one.line.name for one in again.findings(Verdict.FAILS)} == {
        name for name, some in properties.items() if some
    }
    stated = {line.name: line.data for line in again.schedule.lines}
    for line in matrix.schedule.lines:
        for name in properties.get(line.name, ()):
            assert stated[line.name][name].text == line.data[name].text
    assert [line.name for line in again.schedule.lines] == [line.name for line in matrix.schedule.lines]
