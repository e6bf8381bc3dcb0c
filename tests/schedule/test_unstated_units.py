"""Numbers for which nothing states a unit are values only where they make sense in one system of units alone.

Thicknesses of 6, 9, 13, 19 and 25 mm are those of elastomeric insulation in Europe (common practice, no source).
"""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.language.loading import load_vocabulary
from speccheck.language.vocabulary.values import NotGiven, write_value
from speccheck.schedule import Schedule, ScheduleMapping, read_schedule
from speccheck.shipped import shipped_folder

VOCABULARY = load_vocabulary(shipped_folder("rulesets") / "mechanical-insulation.clauses").vocabulary


def read(tmp_path: Path, header: str, texts: list[str], *, usual: str = "inch-pound", units: str = "") -> Schedule:
    """Read chilled water lines with one more column, against the shipped vocabulary."""
    rows = "".join(f"A{number},CHW,{text}\n" for number, text in enumerate(texts))
    file = tmp_path / "lines.csv"
    file.write_text(f"Mark,Service,{header}\n{rows}", encoding="utf-8")
    return read_schedule(file, VOCABULARY, ScheduleMapping(), usual_units=usual, units=units)


def stated(schedule: Schedule, name: str) -> list[str]:
    """Return the values of a term as they are written, "?" where none was read."""
    values = [line.data[name].value for line in schedule.lines]
    term = VOCABULARY.terms[name]
    return ["?" if isinstance(value, NotGiven) else write_value(value, term) for value in values]


@pytest.mark.parametrize(
    ("header", "texts", "usual", "expected"),
    [
        ("Thickness", ["9", "9"], "inch-pound", ["?", "?"]),
        ("Thickness", ["6", "9", "13", "19"], "inch-pound", ["?", "?", "?", "?"]),
        ("Thickness", ["1", "1.5", "25"], "inch-pound", ["1 in", "1-1/2 in", "?"]),
        ("Thickness", ["1", "1-1/2", "2"], "metric", ["?", "?", "?"]),
        ("Thickness", ["9", "25"], "metric", ["9 mm", "25 mm"]),
        ("Thickness (in)", ["6"], "inch-pound", ["6 in"]),
        ("Thickness", ["6 in"], "inch-pound", ["6 in"]),
        ("Thickness (mm)", ["9", "19"], "inch-pound", ["9 mm", "19 mm"]),
    ],
)
def test_thicknesses_without_a_unit(
    tmp_path: Path, header: str, texts: list[str], usual: str, expected: list[str]
) -> None:
    """Nine inches on a chilled water pipe is nine millimetres in a hurry; where a unit is stated, it stands."""
    assert stated(read(tmp_path, header, texts, usual=usual), "thickness") == expected


def test_sizes_that_are_both_are_open_beside_one_that_is_metric(tmp_path: Path) -> None:
    """20 is a size in inches and in DN; beside 25, which is no size in inches, nothing tells which is meant."""
    schedule = read(tmp_path, "Pipe size", ["20", "25", "2"])
    assert stated(schedule, "pipe size") == ["?", "?", "2 in"]
    doubt = next(each for each in schedule.diagnostics if each.code == "S312")
    assert doubt.place.cell == "C2"
    assert doubt.message == (
        "`20` may be in metric units: nothing states a unit, and `25` in C3 makes sense only in them"
    )
    assert doubt.help == "write the unit, in the header or behind the number, or settle it in a mapping file"
    assert stated(read(tmp_path, "Pipe size", ["20", "24"]), "pipe size") == ["20 in", "24 in"]


def test_a_person_who_states_the_units_is_believed(tmp_path: Path) -> None:
    """Where the call or a mapping file says what numbers are in, they are no guess."""
    assert stated(read(tmp_path, "Thickness", ["6"], units="inch-pound"), "thickness") == ["6 in"]
