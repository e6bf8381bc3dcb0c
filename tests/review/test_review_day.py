"""How old something is on the day of the review, by whole checks: the day is stated, and no clock is asked."""

from __future__ import annotations

import datetime
import json
from pathlib import Path

import openpyxl
from click.testing import CliRunner

from speccheck.cli import speccheck

RULESET = """ruleset "dated"
  speaks mechanical insulation

clause 1 "Reports"
  shall fire report date be at most 24 months old
"""
SCHEDULE = "Mark,Service,Fire Report Date\nA,steam,2024-03-04\nB,steam,3 March 2024\nC,steam,5/6/2025\nD,steam,\n"


def verdicts(folder: Path, *more: str, schedule: str = "s.csv") -> dict[str, tuple[str, str]]:
    """Return the verdict and the reason on each line of a check."""
    (folder / "r.clauses").write_text(RULESET, encoding="utf-8")
    (folder / "s.csv").write_text(SCHEDULE, encoding="utf-8")
    into = folder / "out.json"
    names = [str(folder / schedule), "--against", str(folder / "r.clauses"), "--json", str(into), "--replace"]
    CliRunner().invoke(speccheck, ["check", *names, *more], standalone_mode=False)
    report = json.loads(into.read_text(encoding="utf-8"))
    return {"ABCD"[cell["line"]]: (cell["verdict"], cell["reason"]) for cell in report["cells"]}


def test_an_age_is_counted_back_from_the_stated_day(tmp_path: Path) -> None:
    """Two years to the day comply; what can be two dates, or is not stated, cannot be determined."""
    found = verdicts(tmp_path, "--on", "2026-03-04")
    assert found["A"][0] == "complies"
    assert found["B"] == (
        "does not comply",
        "fire report date is 2024-03-03, but must be at least 2024-03-04 (day 24 months before the review)",
    )
    assert (found["C"][0], found["D"][0]) == ("cannot be determined", "cannot be determined")


def test_a_date_of_a_spreadsheet_is_one(tmp_path: Path) -> None:
    """A cell that the program formats as a date is read as that day, and as 5/6/2025 nowhere."""
    workbook = openpyxl.Workbook()
    sheet = workbook.active
    rows = (("Mark", "Service", "Fire Report Date"), ("A", "steam", datetime.date(2024, 3, 4)))
    for row in (*rows, ("B", "steam", datetime.datetime(2024, 3, 3)), ("C", "steam", "none")):
        sheet.append(row)
    workbook.save(tmp_path / "s.xlsx")
    found = verdicts(tmp_path, "--on", "2026-03-04", schedule="s.xlsx")
    assert [found[line][0] for line in "ABC"] == ["complies", "does not comply", "cannot be determined"]


def test_without_the_day_no_age_is_known(tmp_path: Path) -> None:
    """Nothing complies, and nothing fails, on a day that nobody stated."""
    found = verdicts(tmp_path)
    assert {verdict for verdict, _ in found.values()} == {"cannot be determined"}
    assert found["A"][1] == "day of the review is not given"
