"""Workbooks as contractors send them, each a file of rows and of what has to be understood of them."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.schedule import read_schedule
from tests.schedule.building import (
    WORKBOOKS,
    case_of,
    small_vocabulary,
    write_workbook,
    written_columns,
    written_diagnostics,
    written_lines,
    written_remarks,
)


@pytest.mark.parametrize("path", sorted(WORKBOOKS.glob("*.toml")), ids=lambda path: path.stem)
def test_a_messy_workbook_is_understood_as_a_reader_would(path: Path, tmp_path: Path) -> None:
    """Lines, columns, remarks and whole diagnostics of each workbook are those that its file states by hand."""
    case = case_of(path)
    workbook = tmp_path / "case.xlsx"
    write_workbook(workbook, case["sheet"])
    schedule = read_schedule(workbook, small_vocabulary())
    expected = case["expected"]
    assert written_columns(schedule) == expected["columns"]
    assert written_lines(schedule) == expected["lines"]
    assert written_remarks(schedule) == expected["remarks"]
    assert written_diagnostics(schedule) == [text.strip() for text in expected["diagnostics"]]
