"""Saddles and shields under insulated pipe, checked against the printed tables cell by cell.

Sources: ASHRAE Handbook - Fundamentals 2021 (SI), chapter 23, Tables 10 and 11 (seen); MSS SP-58, type 40 (second hand
and from memory).
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from speccheck.judge import Verdict
from tests.rulesets.proposing import published, verdict

SADDLES = "supports/saddles-ashrae-handbook"
SHIELDS = "supports/shields-sp-58"

# The printed metric figures and the inch figures that they round: both are to be read alike.
SPACINGS = dict(
    zip(("1.2", "1.5", "1.8", "2.1", "2.4", "2.7", "3.0", "3.3", "3.7"), map(str, range(4, 13)), strict=True)
)
THICKNESSES = {"13": "1/2 in", "25": "1 in", "38": "1-1/2 in", "50": "2 in", "75": "3 in"}
# Right under the next printed thickness a row still holds; the last row holds up to 3 in itself.
UNDER_NEXT = {"13": "24.9 mm", "25": "37.9 mm", "38": "49.9 mm", "50": "74.9 mm", "75": "3 in"}

# Sizes at both ends of what each printed size stands for: the next larger one than the printed size below, and itself.
CLAUSE_OF = {"25": "1.1", "50": "1.2", "80": "1.3"}
FIBER_SIZES = {
    "25": ("1/2 in", "DN 25", "1 in"),
    "50": ("1-1/4 in", "DN 50", "2 in"),
    "80": ("2-1/2 in", "DN 80", "3 in"),
}
FOAM_SIZES = {
    "80": ("1/2 in", "DN 80", "3 in"),
    "100": ("3-1/2 in", "DN 100", "4 in"),
    "150": ("5 in", "DN 150", "6 in"),
    "200": ("8 in", "DN 200"),
    "250": ("10 in", "DN 250"),
    "300": ("12 in", "DN 300"),
    "400": ("14 in", "DN 400", "16 in"),
}


def cells(rows: list[dict[str, str]]) -> list[tuple[dict[str, str], str, int]]:
    """Return each filled cell: its row, its printed spacing and its length."""
    return [(row, spacing, int(row[spacing])) for row in rows for spacing in SPACINGS if row[spacing]]


def spacings_of(printed: str) -> tuple[str, ...]:
    """Return spacings that a column stands for: as printed, in whole feet, and right past the column before it."""
    feet = int(SPACINGS[printed])
    before = (f"{feet - 1}.1 ft",) if feet > 4 else ("2 ft",)
    return (f"{printed} m", f"{feet} ft", *before)


def assert_least_length(clause: str, line: dict[str, str], millimetres: int) -> None:
    """Check that a saddle of the printed length complies, in mm and in whole inches, and one 1 mm shorter does not."""
    inches = -(-millimetres * 10 // 254)
    for words, expected in (
        (f"{millimetres} mm", Verdict.COMPLIES),
        (f"{inches} in", Verdict.COMPLIES),
        (f"{millimetres - 1} mm", Verdict.FAILS),
        (f"{(millimetres - 1) / 25.4:.4f} in", Verdict.FAILS),
    ):
        assert verdict(SADDLES, clause, {**line, "shield length": words}) is expected, (line, words)


@pytest.mark.parametrize(("row", "spacing", "length"), cells(published("saddles_glass_fiber")))
def test_each_cell_of_the_table_of_saddles_under_glass_fiber(row: dict[str, str], spacing: str, length: int) -> None:
    """Each printed length holds at both ends of the sizes, thicknesses and spacings that its cell stands for."""
    printed = row["thickness"].split(" and ")
    thicknesses = [words for one in printed for words in (f"{one} mm", THICKNESSES[one], UNDER_NEXT[one])]
    for size in FIBER_SIZES[row["size"]]:
        for thickness in thicknesses:
            for apart in spacings_of(spacing):
                line = {"insulation": "fiberglass", "pipe size": size, "thickness": thickness, "hanger spacing": apart}
                assert_least_length(CLAUSE_OF[row["size"]], line, length)


@pytest.mark.parametrize(("row", "spacing", "length"), cells(published("saddles_polyisocyanurate")))
def test_each_cell_of_the_table_of_saddles_under_polyisocyanurate(
    row: dict[str, str], spacing: str, length: int
) -> None:
    """Each printed length holds at both ends of the sizes, thicknesses and spacings that its cell stands for."""
    for size in FOAM_SIZES[row["size"]]:
        for thickness in ("13 mm", "1/2 in", "75 mm", "3 in"):
            for apart in spacings_of(spacing):
                foam = {"insulation": "polyisocyanurate", "pipe size": size, "thickness": thickness}
                assert_least_length("2.1", {**foam, "hanger spacing": apart}, length)


@pytest.mark.parametrize("row", [row for row in published("saddles_glass_fiber") if not all(row.values())])
def test_an_empty_cell_of_the_printed_table_is_not_filled(row: dict[str, str]) -> None:
    """Where the printed table is empty the clause says that it cannot tell, whatever the saddle."""
    line = {
        "insulation": "fiberglass",
        "pipe size": f"DN {row['size']}",
        "thickness": f"{row['thickness'].split(' and ')[0]} mm",
        "shield length": "900 mm",
    }
    for spacing in (spacing for spacing in SPACINGS if not row[spacing]):
        stated = {**line, "hanger spacing": f"{spacing} m"}
        assert verdict(SADDLES, CLAUSE_OF[row["size"]], stated) is Verdict.CANNOT_TELL


def sizes_and_limits(table: str) -> Iterator[tuple[str, dict[str, str]]]:
    """Yield both ends of each row of a table of shields with the row."""
    for row in published("shields_type_40"):
        if row["table"] == table:
            yield row["low"], row
            yield row["high"], row


@pytest.mark.parametrize(("table", "clause"), [("short", "1.1"), ("full", "2.1")])
def test_each_row_of_the_tables_of_shields_by_length(table: str, clause: str) -> None:
    """Each length holds at both ends of its row, in inches and in mm."""
    for size, row in sizes_and_limits(table):
        length = int(row["length"])
        for words, expected in (
            (f"{length} in", Verdict.COMPLIES),
            (f"{length * 25.4:.1f} mm", Verdict.COMPLIES),
            (f"{length - 1}-15/16 in", Verdict.FAILS),
            (f"{length * 25.4 - 1:.1f} mm", Verdict.FAILS),
        ):
            stated = {"insulation": "fiberglass", "pipe size": f"{size} in", "shield length": words}
            assert verdict(SHIELDS, clause, stated) is expected, stated


def test_each_row_of_the_table_of_shields_by_thickness_and_gauge() -> None:
    """Each thickness and each gauge holds at both ends of its row; the next thinner sheet does not comply."""
    for size, row in sizes_and_limits("full"):
        pipe = {"insulation": "fiberglass", "pipe size": f"{size} in"}
        least = float(row["thickness"])
        for words, expected in (
            (f"{row['thickness']} in", Verdict.COMPLIES),
            (f"{least * 25.4 + 0.001:.3f} mm", Verdict.COMPLIES),
            (f"{least - 0.0005:.4f} in", Verdict.FAILS),
            (f"{least * 25.4 - 0.01:.3f} mm", Verdict.FAILS),
        ):
            assert verdict(SHIELDS, "2.2", {**pipe, "shield thickness": words}) is expected, (size, words)
        gauge = int(row["gauge"])
        assert verdict(SHIELDS, "2.3", {**pipe, "shield gauge": f"{gauge} ga"}) is Verdict.COMPLIES
        assert verdict(SHIELDS, "2.3", {**pipe, "shield gauge": f"{gauge + 2} ga"}) is Verdict.FAILS
