"""The energy codes' pipe tables: every cell of every shipped table against the published value, in inch and SI."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import cycle

import pytest

from speccheck.judge import Verdict
from speccheck.language.core import Literal, Ruleset, Table
from speccheck.language.resolve.literals import amount_of
from speccheck.quantities import Quantity
from tests.rulesets.energy_documents import DN, SIZES, USES, Row, Use, name_of, rows
from tests.rulesets.proposing import cell, judge_of, published, verdict

ROWS = rows()
EACH_ROW = pytest.mark.parametrize("row", ROWS, ids=name_of)


def temperature(degrees: float, metric: bool) -> tuple[str, str]:
    """Return a temperature of a document, as printed and in the other unit, a hair warmer where that is not exact."""
    other = degrees * 1.8 + 32 if metric else (degrees - 32) / 1.8
    return (f"{degrees} C", f"{other:.9f} F") if metric else (f"{degrees} F", f"{other:.9f} C")


def length(value: float, metric: bool) -> tuple[str, str]:
    """Return a length of a document in its own unit and in the other."""
    return (f"{value!r} mm", f"{value / 25.4!r} in") if metric else (f"{value!r} in", f"{value * 25.4!r} mm")


def part_of(cell: float, part: float, metric: bool) -> tuple[str, ...]:
    """Return a part of the thickness that a cell asks, in the document's unit and in the other.

    The SI excerpt lets nominal millimetres stand for inches: what its 51 mm is a rounding of, 2 in, is enough as well.
    """
    own, other = length(cell * part, metric)
    return (own, other, f"{round(cell / 25.4 * 4) / 4!r} in") if metric and part == 1.0 else (own, other)


def conductivity(value: float, metric: bool) -> str:
    """Return a conductivity in the unit of the document."""
    return f"{value!r} {'W/(m.K)' if metric else 'Btu.in/(h.ft2.F)'}"


def stated(row: Row, fluid: str, **more: str) -> dict[str, str]:
    """Return a line that falls under a row: a fluid and what else is stated."""
    return {
        **row.use.stated,
        "operating temperature": fluid,
        **{name.replace("_", " "): words for name, words in more.items()},
    }


def proposals(row: Row, column: str, part: float) -> Iterator[Mapping[str, str]]:
    """Yield lines at both ends of a cell, in both systems, with `part` of the thickness that the cell asks."""
    metric = row.use.metric
    k = conductivity((row.k_low + row.k_high) / 2, metric)
    for degrees in row.fluids:
        fluids = temperature(degrees, metric)
        thicknesses = part_of(row.thickness[column], part, metric)
        for size in SIZES[column]:
            sizes = (f"DN {DN[size]}", f"{size} in") if metric else (f"{size} in", f"DN {DN[size]}")
            for fluid, nominal, thickness in zip(cycle(fluids), cycle(sizes), thicknesses):
                yield stated(row, fluid, pipe_size=nominal, conductivity=k, thickness=thickness)


@EACH_ROW
@pytest.mark.parametrize("column", SIZES)
def test_the_published_thickness_is_enough_and_a_hair_less_is_not(row: Row, column: str) -> None:
    """Each cell, at the first and last size and the lowest and highest fluid of it, decides as printed.

    A hair less that another reading of the source still takes cannot be determined; half of it no reading takes.
    """
    other = row.other is not None and row.other.thickness[column] <= row.thickness[column] * 0.999
    for line in proposals(row, column, 1.0):
        assert verdict(row.use.ruleset, row.use.within, line) is Verdict.COMPLIES, line
    for line in proposals(row, column, 0.999):
        short = Verdict.CANNOT_TELL if other else Verdict.FAILS
        assert verdict(row.use.ruleset, row.use.within, line) is short, line
    for line in proposals(row, column, 0.5):
        assert verdict(row.use.ruleset, row.use.within, line) is Verdict.FAILS, line


@EACH_ROW
@pytest.mark.parametrize("column", SIZES)
def test_what_only_the_other_reading_takes_cannot_be_determined(row: Row, column: str) -> None:
    """The other reading's own cell is not enough by itself where the printed one asks for more."""
    if row.other is None or row.other.thickness[column] >= row.thickness[column] * 0.99:
        return
    k = conductivity((row.k_low + row.k_high) / 2, row.use.metric)
    for size in SIZES[column]:
        for part, expected in ((1.0, Verdict.CANNOT_TELL), (0.98, Verdict.FAILS)):
            thickness = f"{row.other.thickness[column] * part!r} mm"
            line = stated(row, f"{row.fluids[-1]} C", pipe_size=f"{size} in", conductivity=k, thickness=thickness)
            assert verdict(row.use.ruleset, row.use.within, line) is expected, line


@EACH_ROW
def test_the_table_holds_inside_the_range_of_conductivity_and_the_equation_outside(row: Row) -> None:
    """At both ends of the range the table decides; a little past them the clause with the equation does.

    Where two readings of the source have different ranges, both clauses are held between their ends.
    """
    metric = row.use.metric
    for degrees in row.fluids:
        for k, inside in ((row.k_low, True), (row.k_high, True), (row.k_low - 5e-4, False), (row.k_high + 5e-4, False)):
            line = stated(
                row,
                temperature(degrees, metric)[0],
                pipe_size="2 in",
                pipe_outside_diameter="2.375 in",
                conductivity=conductivity(k, metric),
                thickness="30 in",
            )
            table, equation = (verdict(row.use.ruleset, clause, line) for clause in (row.use.within, row.use.outside))
            decided = (Verdict.COMPLIES, Verdict.NOT_APPLICABLE)
            if row.other is not None and (row.other.k_low is None or row.other.k_high is None):
                held, other = (table, equation) if inside else (equation, table)
                assert held is Verdict.COMPLIES, line
                assert other in decided, line
            elif row.other is not None and inside != (row.other.k_low <= k <= row.other.k_high):
                assert (table, equation) == (Verdict.COMPLIES, Verdict.COMPLIES), line
            else:
                assert (table, equation) == (decided if inside else decided[::-1]), line


@pytest.mark.parametrize("row", [row for row in ROWS if row.other and row.other.k_low is None], ids=name_of)
def test_a_range_that_is_remembered_otherwise_leaves_the_upper_end_open(row: Row) -> None:
    """At the printed upper end of the range another reading asks for more by the equation: the sources disagree."""
    for fluid in temperature(row.fluids[-1], row.use.metric):
        thickness = f"{row.thickness['under_4']!r} mm"
        k = conductivity(row.k_high, row.use.metric)
        line = stated(
            row, fluid, pipe_size="2 in", pipe_outside_diameter="2.375 in", conductivity=k, thickness=thickness
        )
        assert verdict(row.use.ruleset, row.use.within, line) is Verdict.COMPLIES
        found = cell(row.use.ruleset, row.use.outside, line)
        assert found.verdict is Verdict.CANNOT_TELL
        assert "the sources disagree" in found.reason


@EACH_ROW
def test_conductivity_counts_at_the_mean_rating_temperature_or_hotter(row: Row) -> None:
    """A conductivity stated at the printed mean temperature counts, one stated cooler does not."""
    for degrees in row.fluids:
        for fluid in temperature(degrees, row.use.metric):
            for shift, expected in ((0.0, Verdict.COMPLIES), (-0.1, Verdict.FAILS)):
                for mean in temperature(row.mean + shift, row.use.metric):
                    line = stated(row, fluid, insulation="mineral wool", conductivity_mean_temperature=mean)
                    assert verdict(row.use.ruleset, row.use.rating, line) is expected, line


def shipped(table: Table, unit: str) -> list[list[float]]:
    """Return the cells of a shipped table in a unit, its rows in the order of their temperatures."""
    found = []
    for band, cells in zip(table.axes[0].bands, table.cells, strict=True):
        assert band.interval is not None
        low = amount_of(band.interval.low) if band.interval.low else 0.0
        values = [cell.value for cell in cells if cell is not None and isinstance(cell.value, Quantity)]
        found.append((low, [value.in_unit(unit) for value in values]))
    return [values for _, values in sorted(found)]


def defined(ruleset: Ruleset, name: str, unit: str, printed: list[Row]) -> list[list[float]]:
    """Return for each printed row the one value that a definition states for all of them."""
    amount = ruleset.definitions[name]
    assert isinstance(amount, Literal)
    assert isinstance(amount.value, Quantity)
    return [[amount.value.in_unit(unit)] for _ in printed]


@pytest.mark.parametrize("use", USES.values(), ids=[" ".join(key) for key in USES])
def test_the_shipped_tables_have_the_published_cells_and_no_other(use: Use) -> None:
    """Thickness, conductivities and mean temperature, row by row: nothing is missing and nothing is added."""
    printed = sorted((row for row in ROWS if row.use is use), key=lambda row: row.low or 0.0)
    ruleset = judge_of(use.ruleset).ruleset
    thickness_unit, conductivity_unit = ("mm", "W/(m.K)") if use.metric else ("in", "Btu.in/(h.ft2.F)")
    for name, unit, expected in (
        (use.thickness_table, thickness_unit, [list(row.thickness.values()) for row in printed]),
        (use.lowest_table, conductivity_unit, [[row.k_low] for row in printed]),
        (use.highest_table, conductivity_unit, [[row.k_high] for row in printed]),
        (use.rating_table, "C" if use.metric else "F", [[row.mean] for row in printed]),
    ):
        cells = shipped(ruleset.tables[name], unit) if name in ruleset.tables else defined(ruleset, name, unit, printed)
        assert cells == [pytest.approx(values, rel=1e-9) for values in expected], name


@pytest.mark.parametrize(
    "case", published("energy_other_conductivity"), ids=lambda case: f"{case['clause']} {case['size']}"
)
def test_another_conductivity_needs_the_thickness_of_the_equation(case: dict[str, str]) -> None:
    """The worked value is enough, one less by its printed accuracy is not, around the actual outside diameter."""
    line = {
        "service": case["service"],
        "location": "conditioned",
        "pipe size": f"{case['size']} in",
        "pipe outside diameter": f"{case['outside_diameter']} in",
        "operating temperature": f"{case['fluid']} F",
        "conductivity": f"{case['conductivity']} Btu.in/(h.ft2.F)",
    }
    needed, tolerance = float(case["thickness"]), float(case["tolerance"])
    for thickness, expected in ((needed + tolerance, Verdict.COMPLIES), (needed - tolerance, Verdict.FAILS)):
        line["thickness"] = f"{thickness!r} in"
        assert verdict(case["ruleset"], case["clause"], line) is expected


@pytest.mark.parametrize("row", published("energy_residential"), ids=lambda row: row["low"])
def test_hot_water_pipe_in_dwellings_has_the_published_thickness(row: dict[str, str]) -> None:
    """IRC 2024, Table N1103.5.2: thickness, range of conductivity and mean temperature of both rows, at both ends."""
    first = ["140.5 F"] if row["low"] == "141" else []
    for fluid in (*first, f"{row['low']} F", f"{row['high']} F"):
        line = {"service": "DHWR", "operating temperature": fluid, "pipe size": "1/2 in", "insulation": "rubber"}
        for k, part, table, equation in (
            (row["k_low"], 1.0, Verdict.COMPLIES, Verdict.NOT_APPLICABLE),
            (row["k_high"], 1.0, Verdict.COMPLIES, Verdict.NOT_APPLICABLE),
            (row["k_low"], 0.999, Verdict.FAILS, Verdict.NOT_APPLICABLE),
            (row["k_high"], 0.999, Verdict.FAILS, Verdict.NOT_APPLICABLE),
            (str(float(row["k_high"]) + 0.001), 9.0, Verdict.NOT_APPLICABLE, Verdict.COMPLIES),
            (str(float(row["k_low"]) - 0.001), 9.0, Verdict.NOT_APPLICABLE, Verdict.COMPLIES),
        ):
            line["conductivity"] = f"{k} Btu.in/(h.ft2.F)"
            line["pipe outside diameter"] = "0.84 in"
            for thickness in length(float(row["thickness"]) * part, metric=False):
                proposed = {**line, "thickness": thickness}
                assert verdict("energy/irc-2024", "IRC-2.1", proposed) is table, proposed
                assert verdict("energy/irc-2024", "IRC-2.2", proposed) is equation, proposed
        for shift, expected in ((0.0, Verdict.COMPLIES), (-0.1, Verdict.FAILS)):
            line["conductivity mean temperature"] = f"{float(row['mean']) + shift} F"
            assert verdict("energy/irc-2024", "IRC-2.3", line) is expected
