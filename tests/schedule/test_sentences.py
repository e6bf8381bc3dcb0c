"""Schedules in sentences: a column of descriptions, and an outline without any table."""

from __future__ import annotations

from pathlib import Path

from speccheck.language.vocabulary.values import write_value
from speccheck.schedule import Line, Schedule, read_schedule
from tests.schedule.building import write_workbook
from tests.schedule.test_header_texts import vocabulary


def read(tmp_path: Path, *rows: str) -> Schedule:
    """Read a schedule of these rows, cells parted by bars, bare numbers in inch-pound units."""
    path = tmp_path / "lines.xlsx"
    write_workbook(path, [{"name": "Lines", "rows": "\n".join(rows)}])
    return read_schedule(path, vocabulary(), units="inch-pound")


def stated(line: Line) -> str:
    """Write what a line states of its sizes, its thickness and its insulation."""
    names = ("service", "pipe size", "thickness", "insulation")
    return "; ".join(
        write_value(line.data[name].value, vocabulary().terms[name])
        if name in line.data and not line.data[name].text.startswith("Use")
        else "-"
        for name in names
    )


def test_a_column_of_sentences_gives_a_line_for_each_part(tmp_path: Path) -> None:
    """The column names no term; its sentences do, and every datum says which sentence it is from."""
    schedule = read(
        tmp_path,
        "Item | Service | Description",
        'A | CHW | 1" fiberglass w/ ASJ up to 1-1/4", 1-1/2" above',
        'B | HHW | 2" fiberglass all sizes',
    )
    assert [(line.name, stated(line)) for line in schedule.lines] == [
        ('A, 1" fiberglass w/ ASJ up to 1-1/4"', "chilled water; 1-1/4 in and under; 1 in; fiberglass"),
        ('A, 1-1/2" above', "chilled water; over 1-1/4 in; 1-1/2 in; fiberglass"),
        ("B", "heating hot water; any; 2 in; fiberglass"),
    ]
    datum = schedule.lines[1].data["thickness"]
    assert (datum.place.cell, datum.inferred) == ("C2", True)
    assert datum.note == 'from the sentence `1" fiberglass w/ ASJ up to 1-1/4", 1-1/2" above`'
    assert schedule.cells is not None
    assert schedule.cells.filled == schedule.cells.accounted
    assert [str(one.severity) for one in schedule.diagnostics if one.severity != "note"] == []


def test_a_sentence_that_is_not_understood_leaves_its_line_open(tmp_path: Path) -> None:
    """One bad sentence among good ones gives a line without a thickness, and a warning."""
    schedule = read(
        tmp_path,
        "Item | Service | Description",
        'A | CHW | 1" fiberglass',
        'B | HHW | 2" fiberglass, see detail',
        'C | CHW | 1" elastomeric',
    )
    assert [line.name for line in schedule.lines] == ["A", "B", "C"]
    assert [str(found) for found in schedule.diagnostics if found.code == "S301"] == [
        'warning[S301]: the sentence `2" fiberglass, see detail` was not understood as a whole\n'
        "  at lines.xlsx sheet Lines C3\n"
        "  help: state what it says in columns of their own, a line for each range of sizes"
    ]


def test_a_sentence_that_another_cell_contradicts_proposes_nothing(tmp_path: Path) -> None:
    """The size of the row and the sizes of its sentence cannot both hold."""
    schedule = read(
        tmp_path,
        "Item | Service | Size | Description",
        'A | CHW | 2 | 1" fiberglass up to 1-1/4", 1-1/2" above',
        'B | CHW | 2 | 1" fiberglass',
    )
    assert [found.message for found in schedule.diagnostics if found.code == "S301"] == [
        'the sentence `1" fiberglass up to 1-1/4", 1-1/2" above` says another thing than the cells beside it'
    ]
    assert stated(schedule.lines[1]) == "chilled water; 2 in; 1 in; fiberglass"


def test_an_outline_without_a_table(tmp_path: Path) -> None:
    """Rows of one cell that propose systems are lines; what is no heading of theirs either waits for a person."""
    schedule = read(
        tmp_path,
        "Pipe insulation",
        'Domestic hot water, 140F: 1" fiberglass w/ ASJ up to 1-1/4", 1-1/2" above',
        'Chilled water: 1" elastomeric, all sizes',
        "All valves by others",
    )
    assert [stated(line) for line in schedule.lines] == [
        "domestic hot water; 1-1/4 in and under; 1 in; fiberglass",
        "domestic hot water; over 1-1/4 in; 1-1/2 in; fiberglass",
        "chilled water; any; 1 in; elastomeric foam",
    ]
    assert [one.text for one in schedule.unread] == ["All valves by others"]
