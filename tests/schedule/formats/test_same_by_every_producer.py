"""Invented schedules written by libraries, by programs and as word processors do: the same lines and verdicts."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.language import parse_ruleset
from tests.schedule.formats.producers import OFFICE, Sheet
from tests.tools.format_trial import LESS, SAME, Facts, Papers, compared, facts_of, written_in_every_way

RULES = """ruleset "baths"
  speaks mechanical insulation
  units  inch-pound

clause 1 "hot"
  where service is heating hot water
  shall thickness be at least 1-1/2 in

clause 2 "cold"
  where service is chilled water
  shall insulation be elastomeric foam

clause 3 "outdoors"
  where location is outdoor
  shall jacket be aluminum
"""
SOURCES = {
    "flat": """
        Tidewater baths (invented): pipe insulation
        Mark | Service           | Size            | Op. Temp (°F) | Insulation  | Thk (in) | Jacket   | Location
        P-1  | chilled water     | 1/2" to 1-1/4"  | 42            | elastomeric | 1        | none     | mechanical room
        P-2  | chilled water     | 2" to 4"        | 42            | fiberglass  | 1-1/2    | PVC      | mechanical room
        P-3  | heating hot water | 2" to 4"        | 180           | fiberglass  | 2        | none     | ceiling plenum
        P-4  | heating hot water | 6"              | 180           | fiberglass  | 1        | aluminum | outdoor
        P-5  | domestic hot water| 3/4"            | 140           | fiberglass  | TBD      |          | chase
        P-6  | chilled water     | 8"              | 42            | elastomeric | 2        | PVC      | outdoor
    """,
    "groups": """
        Mark | Size   | Insulation  | Thickness | Jacket
        CHILLED WATER
        P-1  | 2"     | elastomeric | 1"        | none
        P-2  | 4"     | fiberglass  | 1-1/2"    | PVC
        HEATING HOT WATER, OUTDOOR
        P-3  | 2"     | fiberglass  | 1"        | aluminum
        P-4  | 6"     | fiberglass  | 2"        | PVC
    """,
    "sizes across": """
        Tidewater baths (invented)
        Service           | Material    | Under 1"  | 1" to 2" | 2-1/2" and larger
        Chilled water     | elastomeric | 1/2"      | 1"       | 1-1/2"
        Heating hot water | fiberglass  | 1"        | 1-1/2"   | 2"
    """,
}
SLOW = (
    "xlsx LibreOffice", "ods LibreOffice", "csv LibreOffice", "docx LibreOffice", "unruled pdf LibreOffice Writer"
)  # fmt: skip
"""Ways that `tests.tools.format_trial` tries, and that take too long here."""


def sheet(name: str) -> Sheet:
    """Return an invented schedule as a sheet."""
    rows = [[cell.strip() for cell in line.split("|")] for line in SOURCES[name].strip().splitlines()]
    width = max(map(len, rows))
    return Sheet("Lines", tuple(tuple(row + [""] * (width - len(row))) for row in rows))


@pytest.fixture(scope="module")
def papers(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Papers]:
    """Return the invented schedules as papers of every kind, by the way in which they were written."""
    return written_in_every_way({name: [sheet(name)] for name in SOURCES}, tmp_path_factory.mktemp("papers"), SLOW)


def told(path: Path) -> Facts:
    """Return what a paper says, and what becomes of it."""
    ruleset = parse_ruleset(RULES).ruleset
    assert ruleset is not None
    return facts_of(path, ruleset)


def test_the_verdicts_are_those_that_a_reviewer_reaches(papers: dict[str, Papers]) -> None:
    """By hand: P-2 is fiberglass on chilled water, P-4 is 1/2 in too thin, and P-6 is outdoors without aluminum."""
    verdicts = told(papers["xlsx openpyxl"]["flat"]).verdicts
    failed = [[clause for clause, verdict in line.items() if verdict == "does not comply"] for line in verdicts]
    assert failed == [[], ["2"], [], ["1"], [], ["3"]]
    across = told(papers["xlsx openpyxl"]["sizes across"]).verdicts
    assert [line["1"] for line in across if line["1"] != "not applicable"] == [
        "does not comply",
        "complies",
        "complies",
    ]


def test_every_way_of_writing_gives_the_same(papers: dict[str, Papers]) -> None:
    """Lines, values and verdicts are the same on every paper; only an unruled one may leave a cell unread."""
    ways = {way for way in papers if OFFICE or "LibreOffice" not in way}
    assert len(ways) >= 10
    differing = []
    for way in ways:
        for name, path in papers[way].items():
            kind, what = compared(told(papers["xlsx openpyxl"][name]), told(path))
            if kind != SAME and not (kind == LESS and way.startswith("unruled")):
                differing.append((way, name, kind, what))
    assert differing == []
