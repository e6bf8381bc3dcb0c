"""Legends beside a table, which the cells of its lines refer to. What the words mean is common practice, no source."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.schedule import Schedule, ScheduleMapping, read_schedule
from tests.schedule.building import write_workbook
from tests.schedule.test_header_texts import vocabulary


def read(tmp_path: Path, *rows: str, mapping: ScheduleMapping | None = None) -> Schedule:
    """Read a workbook of one sheet with these rows."""
    path = tmp_path / "lines.xlsx"
    write_workbook(path, [{"name": "Lines", "rows": "\n".join(rows)}])
    return read_schedule(path, vocabulary(), mapping, units="inch-pound")


LINES = ("Item | Service | Size | Insulation | Thk", "A | CHW | 2 | P-1 | 1", "B | HHW | 2 | Type P-2 | 2")
LEGEND = ("Type P-1: fiberglass, ASJ", "Type P-2 - calcium silicate w/ PVC jacket")


def test_lines_refer_to_the_legend(tmp_path: Path) -> None:
    """An entry gives each of its values to its term, with the cell of the entry as evidence, and is read."""
    schedule = read(tmp_path, *LINES, *LEGEND)
    first, second = schedule.lines
    assert (first.data["insulation"].value, first.data["facing"].value) == ("fiberglass", "all-service jacket")
    assert (second.data["insulation"].value, second.data["jacket"].value) == ("calcium silicate", "PVC")
    assert first.data["insulation"].note == "read as `fiberglass` by the legend in A4"
    assert (first.data["facing"].note, first.data["facing"].inferred) == (
        "read as `all-service jacket` by the legend in A4",
        True,
    )
    assert schedule.unread == ()


def test_a_column_of_marks_alone_is_read_by_the_legend(tmp_path: Path) -> None:
    """A column whose header names no term is the insulation where it holds nothing but marks of the legend."""
    schedule = read(tmp_path, "Item | Service | Size | Code | Thk", *LINES[1:], *LEGEND)
    assert [line.data["insulation"].value for line in schedule.lines] == ["fiberglass", "calcium silicate"]


@pytest.mark.parametrize(
    "legend",
    [
        ("Type P-1: fiberglass or elastomeric",),
        ("Type P-1: fiberglass, see detail 3",),
        ("Type P-1: fiberglass", "Type P-1: elastomeric"),
        ("Type P-9: fiberglass",),
        ("Type P-1: see drawings",),
    ],
)
def test_what_is_not_certain_is_no_legend(tmp_path: Path, legend: tuple[str, ...]) -> None:
    """Alternatives, words left over, two entries of one mark, and an entry that no cell names: a person reads them."""
    schedule = read(tmp_path, *LINES, *legend)
    assert schedule.lines[0].data["insulation"].text == "P-1"
    assert str(schedule.lines[0].data["insulation"].value).startswith("NotGiven")
    assert {one.text for one in schedule.unread} >= set(legend)


def test_the_mapping_file_comes_first(tmp_path: Path) -> None:
    """What a person says of a mark wins over the legend."""
    mapping = ScheduleMapping(legend={"P-1": {"insulation": "cellular glass"}})
    schedule = read(tmp_path, *LINES, *LEGEND, mapping=mapping)
    datum = schedule.lines[0].data["insulation"]
    assert (datum.value, datum.note) == ("cellular glass", "read as `cellular glass` by the mapping file")


def test_a_struck_or_hidden_legend_says_nothing(tmp_path: Path) -> None:
    """What a reviewer is not shown, or what was taken back, explains nothing."""
    path = tmp_path / "lines.xlsx"
    rows = "\n".join((*LINES, *LEGEND))
    write_workbook(path, [{"name": "Lines", "rows": rows, "struck": ["A4"], "hidden_rows": [5]}])
    schedule = read_schedule(path, vocabulary(), units="inch-pound")
    assert ["NotGiven" in str(line.data["insulation"].value) for line in schedule.lines] == [True, True]
