"""What the cells of a line and the lines of a schedule settle together; the trade's habits are common practice."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.judge import Verdict, judge_lines
from speccheck.judge.vectorized import columns_of, judge_columns
from speccheck.language import load_ruleset
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


def test_return_of_hot_water_under_plumbing_recirculates(tmp_path: Path) -> None:
    """HWR beside domestic cold water is what comes back of domestic hot water; beside chilled water it is heating."""
    rows = "Mark,Service,Size (in),Thk (in)\n1,HWR,2,1\n2,{},2,1\n"
    assert stated(read(tmp_path, rows.format("DCW")), "service")[0] == "domestic hot water recirculating"
    assert stated(read(tmp_path, rows.format("CHW")), "service")[0] == "heating hot water"


def test_a_material_may_go_by_two_names(tmp_path: Path) -> None:
    """Mineral fiber beside fiberglass may be fiberglass all the same: it is a question, and never mineral wool."""
    rows = "Mark,Service,Insulation,Size (in),Thk (in)\n1,CHW,Fiberglass,2,1\n2,steam,Mineral fiber,2,2\n"
    schedule = read(tmp_path, rows)
    assert stated(schedule, "insulation") == ["fiberglass", None]
    asked = next(each for each in schedule.diagnostics if each.code == "S317")
    assert asked.message == "`Mineral fiber` may be fiberglass or mineral wool"


def test_celsius_under_fahrenheit_is_doubtful(tmp_path: Path) -> None:
    """Chilled water at 6 F and steam at 121 F cannot be: neither is a value or accounted for, and it is said why."""
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
    assert schedule.cells is not None
    assert schedule.cells.filled - schedule.cells.accounted == 2


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
    """A value beside brackets that nobody understands is not taken, and a person is told of the brackets."""
    schedule = read(tmp_path, "Mark,Service,Insulation\n1,CHW,fiberglass (calcium silicate at hangers)\n")
    assert stated(schedule, "insulation") == [None]
    assert [(each.code, each.message) for each in schedule.diagnostics if each.code == "S318"] == [
        ("S318", "`calcium silicate` and `hangers` in `fiberglass (calcium silicate at hangers)` were not read")
    ]
    assert [each.place.cell for each in schedule.unread] == ["C2"]


def test_two_systems_in_a_cell_are_two_lines(tmp_path: Path) -> None:
    """ "DHW/DHWR" is a line each, which then settles what HWS means; what may be either of two is no line more."""
    schedule = read(tmp_path, "Mark,Service,Size (in)\n1,DHW/DHWR,2\n2,HWS/HWR,2\n3,CHW or steam,2\n")
    assert [(line.name, value) for line, value in zip(schedule.lines, stated(schedule, "service"), strict=True)] == [
        ("1 (domestic hot water)", "domestic hot water"),
        ("1 (domestic hot water recirculating)", "domestic hot water recirculating"),
        ("2", "heating hot water"),
        ("3", None),
    ]
    assert schedule.lines[0].data["service"].note == "one of the 2 that `DHW/DHWR` names"
    assert [each.code for each in schedule.diagnostics] == ["S301"]


def test_component_is_inferred_where_nothing_else_can_be_meant(tmp_path: Path) -> None:
    """A piping service with a nominal size is pipe, a duct service duct; what is stated, or open, is left alone."""
    schedule = read(tmp_path, "Mark,Service,Size (in)\n1,CHW,2\n2,supply air,\n3,CHW,\n4,who knows,2\n")
    found = [line.data.get("component") for line in schedule.lines]
    assert [one and (one.value, one.note, one.inferred) for one in found] == [
        ("pipe", "inferred from `service` chilled water and a `pipe size`", True),
        ("duct", "inferred from `service` supply air", True),
        None,
        None,
    ]
    stated_so = read(tmp_path, "Mark,Service,Size (in),Component\n1,CHW,2,valve\n2,CHW,2,\n")
    assert stated(stated_so, "component") == ["valve", None]


@pytest.mark.parametrize("words", ["All", "all sizes", "Any"])
def test_all_sizes_are_every_nominal_size(tmp_path: Path, words: str) -> None:
    """A line for all sizes is judged at each: 1/2 in is enough for NPS 2 and not for NPS 8, by judge and columns."""
    schedule = read(tmp_path, f"Mark,Service,Size,Thickness\n1,CHW,{words},1/2 in\n2,CHW,2 in,1/2 in\n")
    (tmp_path / "r.clauses").write_text(
        'ruleset "r"\n  speaks mechanical insulation\nclause 1 "a"\n  where pipe size is at least 4 in\n'
        "  shall thickness be at least 1 in\n",
        encoding="utf-8",
    )
    ruleset = load_ruleset(tmp_path / "r.clauses").ruleset
    assert ruleset is not None
    wanted = [Verdict.FAILS, Verdict.NOT_APPLICABLE]
    assert [row[0].verdict for row in judge_lines(ruleset, schedule.lines)] == wanted
    columns = judge_columns(ruleset, columns_of(schedule.lines, ruleset))
    assert [columns.verdict(row, 0) for row in range(2)] == wanted


def test_a_place_is_not_told_by_the_places_of_other_lines(tmp_path: Path) -> None:
    """A penthouse may be a mechanical room or outdoors, whichever of the two the line beside it is in."""
    for beside in ("Mechanical room", "Outdoors"):
        schedule = read(tmp_path, f"Mark,Service,Location\n1,CHW,{beside}\n2,CHW,Penthouse\n")
        assert stated(schedule, "location")[1] is None


def test_supply_and_return_are_air_beside_ducts_and_nothing_beside_pipes(tmp_path: Path) -> None:
    """As a service the two words are short for air where all other lines are; elsewhere they say only the flow."""
    rows = "Mark,Service,Insulation\n1,Supply,fiberglass\n2,Return,none\n3,{},fiberglass\n"
    ducts = read(tmp_path, rows.format("Outside air"))
    assert stated(ducts, "service") == ["supply air", "return air", "outdoor air"]
    assert ducts.lines[1].data["service"].inferred
    pipes = read(tmp_path, rows.format("CHW"))
    assert stated(pipes, "service") == [None, None, "chilled water"]
    assert [line.data["flow"].value for line in pipes.lines[:2]] == ["supply", "return"]
