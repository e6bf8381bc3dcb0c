"""What must not change what is understood: the order of columns and lines, blank rows, notation and units, the file."""

from __future__ import annotations

import csv
import json
import random
import tempfile
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.language.vocabulary.values import NotGiven
from speccheck.schedule import Schedule, read_schedule
from tests.schedule.building import small_vocabulary
from tests.strategies.schedules import Table, rewritten, tables


def understood(schedule: Schedule) -> dict[str, dict[str, object]]:
    """Return what a schedule says, by line and term; quantities to nine digits, words for nothing as nothing."""
    return {
        line.name: {
            name: None if isinstance(datum.value, NotGiven) else _plain(datum.value)
            for name, datum in line.data.items()
            if name != "mark"
        }
        for line in schedule.lines
    }


def _plain(value: object) -> object:
    """Return a value without the unit that it was written in."""
    if hasattr(value, "low"):
        return _plain(value.low), _plain(value.high)  # type: ignore[attr-defined]
    number = getattr(value, "value", None)
    return value if number is None else f"{number:.9g}"


def read_rows(rows: list[list[str]]) -> Schedule:
    """Read rows through a .csv file."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "lines.csv"
        with path.open("w", encoding="utf-8", newline="") as file:
            csv.writer(file).writerows(rows)
        return read_schedule(path, small_vocabulary())


def read_table(table: Table) -> Schedule:
    """Read a table through a .csv file."""
    return read_rows([table.header, *table.rows])


@settings(max_examples=60, deadline=None)
@given(tables(), st.randoms(use_true_random=False))
def test_the_order_of_columns_and_lines_changes_nothing(table: Table, shuffle: random.Random) -> None:
    """A schedule with its columns and lines in another order says the same of each line.

    Every grouping column is switched off by a first column that is filled on every line.
    """
    filled = Table([*table.header, "Notes"], [[*row, "n"] for row in table.rows])
    order = list(range(1, len(filled.header) - 1))
    shuffle.shuffle(order)
    order = [len(filled.header) - 1, 0, *order]
    rows = list(filled.rows)
    shuffle.shuffle(rows)
    moved = Table([filled.header[index] for index in order], [[row[index] for index in order] for row in rows])
    first = Table(["Notes", *table.header], [["n", *row] for row in table.rows])
    assert understood(read_table(moved)) == understood(read_table(first))


@settings(max_examples=60, deadline=None)
@given(tables(), st.data())
def test_blank_rows_change_nothing_that_is_stated(table: Table, data: st.DataObject) -> None:
    """Blank rows between lines take away only blanks that repeat the value above, and add nothing."""
    rows = [table.header]
    for row in table.rows:
        rows += [[""] * len(row)] * data.draw(st.integers(0, 2)) + [row]
    apart, together = understood(read_rows(rows)), understood(read_table(table))
    assert apart.keys() == together.keys()
    for name, terms in apart.items():
        for term, value in terms.items():
            assert value in (together[name][term], None)


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_the_way_a_value_is_written_changes_nothing(data: st.DataObject) -> None:
    """Synonyms, units, fractions and marks: each cell may be written in any of the ways that mean the same."""
    table = data.draw(tables())
    assert understood(read_table(data.draw(rewritten(table)))) == understood(read_table(table))


@settings(max_examples=40, deadline=None)
@given(tables(), st.sampled_from(["Thk (in)", "Thk, inches", 'Thickness ["]', "Insul. thk. in"]))
def test_a_unit_may_stand_in_the_header_or_in_the_cell(table: Table, header: str) -> None:
    """A thickness of 1.5 under a header that says inches is a thickness of 1.5 in."""
    column = table.header.index("Thk")
    in_cells = [[*row[:column], "1.5 in", *row[column + 1 :]] for row in table.rows]
    in_header = [[*row[:column], "1.5", *row[column + 1 :]] for row in table.rows]
    other = [*table.header[:column], header, *table.header[column + 1 :]]
    assert understood(read_rows([other, *in_header])) == understood(read_rows([table.header, *in_cells]))


@settings(max_examples=40, deadline=None)
@given(tables())
def test_the_kind_of_file_changes_nothing(table: Table) -> None:
    """The same table as .csv, .json and .xlsx says the same; a blank in JSON never repeats the value above."""
    import openpyxl

    with tempfile.TemporaryDirectory() as folder:
        book = openpyxl.Workbook()
        sheet = book.active
        assert sheet is not None
        for row in [table.header, *table.rows]:
            sheet.append(row)
        book.save(Path(folder) / "lines.xlsx")
        lines = [dict(zip(table.header, row, strict=True)) for row in table.rows]
        (Path(folder) / "lines.json").write_text(json.dumps(lines), encoding="utf-8")
        in_workbook = understood(read_schedule(Path(folder) / "lines.xlsx", small_vocabulary()))
        in_json = understood(read_schedule(Path(folder) / "lines.json", small_vocabulary()))
    in_text = understood(read_table(table))
    assert in_workbook == in_text
    for name, terms in in_json.items():
        for term, value in terms.items():
            assert value in (in_text[name][term], None)


@settings(max_examples=30, deadline=None)
@given(tables())
def test_reading_twice_gives_the_same(table: Table) -> None:
    """The same file read twice gives equal schedules, diagnostics and all."""
    assert read_table(table) == read_table(table)
