"""Column headers: names, units, brackets and groups."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.schedule import read_schedule
from speccheck.schedule.header_words import HeaderReader
from tests.schedule.building import small_vocabulary


@pytest.mark.parametrize(
    ("header", "term", "unit", "rest", "misfit"),
    [
        ("Thickness", "thickness", "", "", ""),
        ("INSUL. THK", "thickness", "", "", ""),
        ("Thk (in)", "thickness", "in", "", ""),
        ("Thk (in.)", "thickness", "in", "", ""),
        ('Thk "', "thickness", "in", "", ""),
        ("Thickness, inches", "thickness", "in", "", ""),
        ("Thickness - mm", "thickness", "mm", "", ""),
        ("Thk mm", "thickness", "mm", "", ""),
        ("Thk\n(mm)", "thickness", "mm", "", ""),
        ("Op. Temp, °F", "operating temperature", "F", "", ""),
        ("Op Temp (deg. C)", "operating temperature", "C", "", ""),
        ("Fluid temp [degF]", "operating temperature", "F", "", ""),
        ("k [Btu·in/h·ft²·°F]", "conductivity", "Btu.in/(h.ft2.F)", "", ""),
        ("k (Btu-in/(hr-ft2-F))", "conductivity", "Btu.in/(h.ft2.F)", "", ""),
        ("Conductivity, W/(m·K)", "conductivity", "W/(m.K)", "", ""),
        ("Conductivity: Btu·in/(h·ft²·°F)", "conductivity", "Btu.in/(h.ft2.F)", "", ""),
        ("k-value W/mK", "conductivity", "W/(m.K)", "", ""),
        ("RH %", "relative humidity", "%", "", ""),
        ("Perm", "permeance", "perm", "", ""),
        ("NPS", "pipe size", "NPS", "", ""),
        ("Size (NPS)", "pipe size", "NPS", "", ""),
        ("Size, DN", "pipe size", "DN", "", ""),
        ("Pipe Size (mm)", "pipe size", "mm", "", ""),
        ("Service (see note 2)", "service", "", "see note 2", ""),
        ("k @ 75 F mean", "conductivity", "", "@ 75 F mean", ""),
        ("Thk (°F)", "thickness", "", "", "°F"),
        ("Op. temp (in) (max)", "operating temperature", "", "max", "in"),
        ("Proposed thk (in)", "thickness", "in", "", ""),
        ("Thickness provided", "thickness", "", "", ""),
        ("Oper. temperature (F)", "operating temperature", "F", "", ""),
        ("Pipe sz.", "pipe size", "", "", ""),
        ("Thickness (jacket)", "jacket thickness", "", "", ""),
        ("Thickness (max)", "thickness", "", "max", ""),
        ("Thickness (in)¹", "thickness", "in", "", ""),
        ("Thickness* (in)", "thickness", "in", "", ""),
    ],
)
def test_a_header_of_one_cell(header: str, term: str, unit: str, rest: str, misfit: str) -> None:
    """A header gives its term, its unit where it has one that fits, and whatever else it says."""
    match = HeaderReader(small_vocabulary()).match(header)
    assert match is not None
    assert (match.name, match.unit, match.rest, match.misfit) == (term, unit, rest, misfit)


@pytest.mark.parametrize(
    "header",
    [
        "",
        "Finish",
        "in",
        "Thk of the wall as built",
        "(in)",
        "x" * 500,
        "Approved: yes",
        "Thickness (spec)",
        "Specified thk",
        "Thk (existing)",
        "Thk (req'd) (in)",
    ],
)
def test_a_header_that_names_nothing(header: str) -> None:
    """Other words name no term, and nothing is guessed from a likeness."""
    assert HeaderReader(small_vocabulary()).match(header) is None


@pytest.mark.parametrize(
    ("parts", "name", "unit"),
    [
        (("Pipe", "Size"), "pipe size", ""),
        (("Jacket", "Thickness (in)"), "jacket thickness", "in"),
        (("Insulation", "Thk"), "thickness", ""),
        (("Insulation", "Type"), "insulation", ""),
        (("Insulation", "k"), "conductivity", ""),
        (("Op. temp", "°F"), "operating temperature", "F"),
        (("Op. temp", "(°C)"), "operating temperature", "C"),
        (("Phase 1", "Thk", "in"), "thickness", "in"),
        (("Jacket", "k"), None, ""),
        (("Jacket", "Finish"), None, ""),
        (("Service", "Type"), "service", ""),
        (("Specified", "Thickness (in)"), None, ""),
        (("Existing", "Thk (in)"), None, ""),
        (("Proposed", "Thk (in)"), "thickness", "in"),
        (("Thickness (in)", "Jacket"), "jacket thickness", "in"),
    ],
)
def test_a_header_of_several_rows(parts: tuple[str, ...], name: str | None, unit: str) -> None:
    """A group above turns a name into another ("Jacket" over "Thickness"), or forbids to read it alone."""
    match = HeaderReader(small_vocabulary()).match_parts(parts)
    assert (None if match is None else match.name) == name
    assert match is None or match.unit == unit


def test_a_unit_that_does_not_fit_is_told_and_not_used(tmp_path: Path) -> None:
    """A thickness in °F is no thickness: the header is warned about, and its bare numbers cannot be read."""
    path = tmp_path / "lines.csv"
    path.write_text("Size,Thk (°F)\n2 in,1\n", encoding="utf-8")
    assert [str(found) for found in read_schedule(path, small_vocabulary()).diagnostics] == [
        "warning[S206]: the unit `°F` in the header `Thk (°F)` does not measure `thickness`\n  at lines.csv B1\n"
        "  help: write in or mm in the header",
        "warning[S301]: `thickness`: `1` has no unit\n  at lines.csv B2\n"
        "  help: write `1 in` or `1 mm`, or the unit in the column's header, "
        "or state the units of the schedule (--units)",
    ]


def test_the_system_of_units_of_a_schedule(tmp_path: Path) -> None:
    """With units stated for the schedule, bare numbers are in the usual unit of each term, and the datum says so."""
    path = tmp_path / "lines.csv"
    path.write_text("Size,Thk,Vapor stop spacing\n6,1,15\n", encoding="utf-8")
    inch, metric = (read_schedule(path, small_vocabulary(), units=units).lines[0] for units in ("inch-pound", "metric"))
    assert [str(datum.value) for datum in inch.data.values()] == ["NPS 6", "1 in", "15 ft"]
    assert [str(datum.value) for datum in metric.data.values()] == ["NPS 1/8", "1 mm", "15 m"]
    assert inch.data["thickness"].note == "unit of the inch-pound schedule"
