"""What the cells of a line and the lines of a schedule settle together; the trade's habits are common practice."""

from __future__ import annotations

from pathlib import Path

from speccheck.language.loading import load_vocabulary
from speccheck.language.vocabulary.values import NotGiven
from speccheck.schedule import Schedule, read_schedule
from speccheck.shipped import shipped_folder


def read(tmp_path: Path, text: str) -> Schedule:
    """Read a comma-separated schedule against the shipped vocabulary."""
    file = tmp_path / "lines.csv"
    file.write_text(text, encoding="utf-8")
    return read_schedule(file, load_vocabulary(shipped_folder("rulesets") / "mechanical-insulation.clauses").vocabulary)


def stated(schedule: Schedule, term: str) -> list[object]:
    """Return the value of a term on each line, None where it is not given."""
    values = [line.data[term].value for line in schedule.lines]
    return [None if isinstance(value, NotGiven) else value for value in values]


def test_a_plumbing_schedule_settles_hot_water_supply(tmp_path: Path) -> None:
    """Among plumbing services HWS is domestic, among hydronic ones heating, and alone it is a question."""
    rows = "Mark,Service,Size (in),Thickness (in)\n1,HWS,2,1\n2,{},2,1\n"
    assert stated(read(tmp_path, rows.format("DCW")), "service")[0] == "domestic hot water"
    assert stated(read(tmp_path, rows.format("CHWS")), "service")[0] == "heating hot water"
    assert stated(read(tmp_path, rows.format("DHW")), "service")[0] == "heating hot water"
    alone = read(tmp_path, rows.format("steam"))
    assert stated(alone, "service")[0] is None
    asked = next(each for each in alone.diagnostics if each.code == "S317")
    assert asked.message == "`HWS` may be heating hot water or domestic hot water"


def test_celsius_under_fahrenheit_is_doubtful(tmp_path: Path) -> None:
    """Chilled water at 6 F and steam at 121 F cannot be: neither is a value, and the message says why."""
    schedule = read(
        tmp_path,
        "Mark,Service,Size (in),Operating temp (F)\n1,CHW,2,6\n2,steam,2,121\n3,CHW,2,44\n4,steam,2,250\n",
    )
    assert [value is None for value in stated(schedule, "operating temperature")] == [True, True, False, False]
    doubts = [each for each in schedule.diagnostics if each.code == "S312"]
    assert doubts[0].message == (
        "an `operating temperature` of 6 F is not sensible for `service` chilled water (30 F through 75 F), "
        "so it is in doubt"
    )
    assert doubts[0].help == "write the unit that is meant, perhaps C, or settle it in a mapping file"


def test_one_cell_states_several_terms(tmp_path: Path) -> None:
    """A facing in a cell of insulations is the line's facing, inferred, with the words that say it."""
    schedule = read(tmp_path, "Mark,Service,Insulation,Flame/Smoke\n1,CHW,FG w/ASJ,25/50\n")
    data = schedule.lines[0].data
    assert {name: data[name].value for name in ("insulation", "facing", "flame spread", "smoke developed")} == {
        "insulation": "fiberglass",
        "facing": "all-service jacket",
        "flame spread": 25.0,
        "smoke developed": 50.0,
    }
    assert data["facing"].inferred
    assert data["facing"].note == "from `FG w/ASJ` in the column of `insulation`"


def test_words_in_brackets_that_were_not_read_are_told(tmp_path: Path) -> None:
    """A value beside brackets that nobody understands is read, and a person is told of the brackets."""
    schedule = read(tmp_path, "Mark,Service,Insulation\n1,CHW,fiberglass (calcium silicate at hangers)\n")
    assert stated(schedule, "insulation") == ["fiberglass"]
    assert [(each.code, each.message) for each in schedule.diagnostics if each.code == "S318"] == [
        ("S318", "`calcium silicate` and `hangers` in `fiberglass (calcium silicate at hangers)` was not read")
    ]
