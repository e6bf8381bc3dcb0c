"""Duct insulation: every cell of the shipped resistance tables against the published value, in inch and SI."""

from __future__ import annotations

import pytest

from speccheck.judge import Verdict
from tests.rulesets.proposing import judge_of, published, verdict

RULESET = "energy/ducts-ashrae-90.1"
ROWS = published("energy_duct_resistance")

# The classes of the inch-pound edition that the printed m2 K/W stand for; 0.64 may be a misprint of 0.62.
INCH_POUND = {"0.34": 1.9, "0.62": 3.5, "0.64": 3.5, "1.06": 6.0, "1.41": 8.0}
CLAUSES = {"combined supply": "90.1D-1.1", "cooling only supply": "90.1D-1.2", "return": "90.1D-1.3"}
TABLES = {
    "combined supply": "energy combined supply resistance",
    "cooling only supply": "energy cooling supply resistance",
    "return": "energy return resistance",
}
PLACES = {
    "exterior": ("outdoor",),
    "vented attic": ("vented attic",),
    "unvented attic above insulated ceiling": ("unvented attic insulated ceiling",),
    "unvented attic with roof insulation": ("unvented attic insulated roof",),
    "unconditioned space": ("unconditioned", "crawl space", "basement"),
    "indirectly conditioned space": ("indirectly conditioned", "plenum"),
    "buried": ("buried",),
}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['duct']}, zone {row['zone']}")
@pytest.mark.parametrize("place", PLACES)
def test_the_published_resistance_is_enough_and_a_hair_less_is_not(row: dict[str, str], place: str) -> None:
    """Each cell decides as printed: by its R-value, by the printed m2 K/W, and not at all where it says none.

    The cell that may be a misprint asks R-3.5 by one reading and what is printed by the other: between the two nothing
    can be determined.
    """
    for location in PLACES[place]:
        line = {"component": "duct", "duct kind": row["duct"], "climate zone": row["zone"], "location": location}
        if row[place] == "none":
            line["installed R-value"] = "none"
            assert verdict(RULESET, CLAUSES[row["duct"]], line) is Verdict.NOT_APPLICABLE
            continue
        asked = INCH_POUND[row[place]]
        for resistance, expected in (
            (f"R-{asked}", Verdict.CANNOT_TELL if row[place] == "0.64" else Verdict.COMPLIES),
            (f"{row[place]} m2.K/W", Verdict.COMPLIES),
            (f"R-{asked * 0.999:.6f}", Verdict.FAILS),
            (f"{asked * 0.17611 * 0.999:.6f} m2.K/W", Verdict.FAILS),
        ):
            line["installed R-value"] = resistance
            assert verdict(RULESET, CLAUSES[row["duct"]], line) is expected, line


@pytest.mark.parametrize(("duct", "table"), TABLES.items())
def test_the_shipped_tables_have_no_cells_beyond_the_published_ones(duct: str, table: str) -> None:
    """As many rows and columns as printed; the row for returns holds for all zones."""
    cells = judge_of(RULESET).ruleset.tables[table].cells
    zones = len({row["zone"] for row in ROWS if row["duct"] == duct})
    assert (len(cells), len(cells[0])) == ((len(PLACES), 1) if duct == "return" else (zones, len(PLACES)))


@pytest.mark.parametrize(("diameter", "asked"), [("2.999 in", 6.0), ("3 in", 8.0), ("76.2 mm", 8.0), ("76.1 mm", 6.0)])
def test_round_ducts_of_dwellings_are_insulated_by_diameter(diameter: str, asked: float) -> None:
    """IRC 2024, N1103.3.3 (seen): R-8 from 3 in of diameter on, R-6 below it, outside conditioned space."""
    line = {"component": "duct", "service": "supply air", "location": "vented attic", "duct diameter": diameter}
    for part, expected in ((1.0, Verdict.COMPLIES), (0.999, Verdict.FAILS)):
        line["installed R-value"] = f"R-{asked * part}"
        assert verdict("energy/irc-2024", "IRC-3.1", line) is expected
