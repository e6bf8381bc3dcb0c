"""Cells with words left over in brackets: what is proposed counts once a person has seen the words."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.language import load_vocabulary
from speccheck.language.vocabulary.values import NotGiven
from speccheck.schedule import Schedule, ScheduleMapping, read_schedule


def read(tmp_path: Path, cell: str, mapping: ScheduleMapping | None = None, *, service: str = "CHW") -> Schedule:
    """Read a schedule of one line with a cell of insulation."""
    vocabulary = load_vocabulary("mechanical insulation").vocabulary
    assert vocabulary is not None
    path = tmp_path / "lines.csv"
    path.write_text(f'Mark,Service,Insulation,Thk\nA,{service},"{cell}",1 in\n', encoding="utf-8")
    return read_schedule(path, vocabulary, mapping)


def test_a_remark_in_brackets_waits_to_be_seen(tmp_path: Path) -> None:
    """What is proposed is not taken until somebody has seen the cell or said what it means."""
    cell = "fiberglass (elastomeric at valves)"
    schedule = read(tmp_path, cell)
    message = f"`elastomeric` and `valves` in `{cell}` were not read"
    assert schedule.lines[0].data["insulation"].value == NotGiven(cell, message)
    assert [(str(one.kind), one.text, one.lines) for one in schedule.unread] == [("filled cell", cell, ("A",))]
    for settled in (ScheduleMapping(seen=(cell,)), ScheduleMapping(values={"insulation": {cell: "fiberglass"}})):
        again = read(tmp_path, cell, settled)
        assert again.unread == ()
        assert again.lines[0].data["insulation"].value == "fiberglass"


def test_a_remark_beside_what_tells_systems_apart_leaves_it_as_it_is(tmp_path: Path) -> None:
    """`Chilled water (loop 2)` is chilled water; the words wait to be seen all the same."""
    schedule = read(tmp_path, "fiberglass", service="CHW (loop 2)")
    assert schedule.lines[0].data["service"].value == "chilled water"
    assert [one.text for one in schedule.unread] == ["CHW (loop 2)"]


@pytest.mark.parametrize("remark", ["N.I.C.", "deleted", "not at AHU-1", "PIR alternate", "existing", "was PIR"])
def test_a_remark_that_may_take_the_value_back_leaves_it_open(tmp_path: Path, remark: str) -> None:
    """Nothing is read of a cell whose brackets may say that it does not hold."""
    assert "not a value" in str(read(tmp_path, f"fiberglass ({remark})").diagnostics[0].message)


def test_the_mark_of_a_note_attaches_the_note(tmp_path: Path) -> None:
    """`PVC (2)` waits for its note to be read, on the lines that carry the mark, and for nothing else."""
    vocabulary = load_vocabulary("mechanical insulation").vocabulary
    assert vocabulary is not None
    path = tmp_path / "lines.csv"
    path.write_text(
        "Mark,Service,Thk,Jacket\nA,CHW,1 (1),PVC (2)\nB,CHW,1,PVC\n"
        "C,CHW,1,PVC (3)\nNotes:\n(1) 2 layers at valves\n2. Exposed piping only\n",
        encoding="utf-8",
    )
    schedule = read_schedule(path, vocabulary, units="inch-pound")
    line = schedule.lines[0]
    assert (str(line.data["thickness"].value), line.data["jacket"].value) == ("1 in", "PVC")
    assert [(one.text, one.lines) for one in schedule.unread if one.lines] == [
        ("(1) 2 layers at valves", ("A",)),
        ("2. Exposed piping only", ("A",)),
        ("PVC (3)", ("C",)),
    ]
    assert [found.message for found in schedule.diagnostics if found.code in ("S313", "S318")] == [
        "the text `1 (1)` carries the mark of the note `(1) 2 layers at valves`, which was not read",
        "the text `PVC (2)` carries the mark of the note `2. Exposed piping only`, which was not read",
        "`3` in `PVC (3)` was not read",
    ]
