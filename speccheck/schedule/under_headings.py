"""Under headings: the lines between a section heading and the next take what it says and none of them states."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from speccheck.language.diagnostics import Diagnostic
from speccheck.language.vocabulary.values import NotGiven, Value, read_value
from speccheck.quantities import Misread
from speccheck.schedule.accounting import Account
from speccheck.schedule.columns import ColumnUse
from speccheck.schedule.grid import Grid
from speccheck.schedule.header_words import HeaderReader
from speccheck.schedule.lines import Datum
from speccheck.schedule.mapping import ScheduleMapping
from speccheck.schedule.phrases_of_cells import facts_beside
from speccheck.schedule.rows import Row, RowKind
from speccheck.schedule.sections import section_note


def take_from_headings(
    grid: Grid,
    rows: Sequence[Row],
    data: Mapping[int, dict[str, Datum]],
    uses: Sequence[ColumnUse],
    reader: HeaderReader,
    mapping: ScheduleMapping,
    account: Account,
) -> Iterator[Diagnostic]:
    """Give the lines under each section heading what it says and none of them states; yield a note on each heading.

    Besides its words, a heading says what stands beside them in the columns of the table. The innermost comes first.
    """
    for heading in reversed([row for row in rows if row.kind is RowKind.SECTION]):
        under = [row.number for row in rows if row.kind is RowKind.LINE and heading.number in row.sections]
        column, *others = grid.columns_by_row[heading.number]
        text, place = grid.text(heading.number, column).strip(), grid.place(heading.number, column)
        elsewhere = {row: dict(_of_others_alone(data[row], reader, mapping)) for row in under}
        stated = {
            name for row in under for name, datum in data[row].items() if _states(datum) and name not in elsewhere[row]
        }
        words = text.strip(" *†‡\n") if not grid.cells[heading.number, column].trouble else ""
        said = reader.headings.said(words)
        choices = {name: value for name, value in said.items() if name not in stated} if under else {}
        if _is_contradicted(said, [data[row] for row in under]):
            choices = {}  # "Domestic water and drains" over lines of hot water says nothing of their flow
        for row in under:
            for name, value in choices.items():
                if name not in data[row] or not _says_something(data[row][name]) or name in elsewhere[row]:
                    for other, fact in elsewhere[row].get(name, {}).items():
                        data[row].setdefault(other, fact)
                    data[row][name] = Datum(value, text, place, "from the section heading", inferred=True)
        if reader.headings.understood(words):
            account.settle(grid, heading.number, column)
        else:
            account.heading(grid, heading.number, column)
        _take_cells(grid, heading.number, others, under, data, uses, account)
        yield section_note(text, choices, reader.vocabulary, place, len(under))


def _of_others_alone(
    data: Mapping[str, Datum], reader: HeaderReader, mapping: ScheduleMapping
) -> Iterator[tuple[str, dict[str, Datum]]]:
    """Yield each term of which a line has words that only say something of others, and that: "Supply" as a service."""
    for name, datum in data.items():
        term = reader.vocabulary.terms[name]
        if isinstance(datum.value, NotGiven) and term.tells_apart:
            said = dict(facts_beside(datum, term, reader.vocabulary, mapping.units))
            if said:
                yield name, said


def _is_contradicted(said: Mapping[str, Value], lines: Sequence[Mapping[str, Datum]]) -> bool:
    """Whether a line states another value of a list than the heading above it does."""
    return any(
        isinstance(value, str) and isinstance(line[name].value, str) and line[name].value != value
        for line in lines
        for name, value in said.items()
        if name in line and _states(line[name])
    )


def _take_cells(
    grid: Grid,
    heading: int,
    columns: Sequence[int],
    under: Sequence[int],
    data: Mapping[int, dict[str, Datum]],
    uses: Sequence[ColumnUse],
    account: Account,
) -> None:
    """Give the lines under a heading the values beside its words, where they state none themselves."""
    by_index = {use.index: use for use in uses}
    for column in columns:
        use = by_index.get(column)
        text, place = grid.text(heading, column).strip(), grid.place(heading, column)
        if use is None or use.term is None or use.term.proposed or grid.cells[heading, column].trouble:
            account.heading(grid, heading, column)
            continue
        value = read_value(text, use.term, use.bare)
        if isinstance(value, Misread | NotGiven) or (isinstance(value, str) and use.term.never_compared):
            account.heading(grid, heading, column)
            continue
        account.settle(grid, heading, column)
        for row in under:
            if not _says_something(data[row].get(use.term.name, Datum(NotGiven()))):
                data[row][use.term.name] = Datum(value, text, place, "from the section heading", inferred=True)


def _states(datum: Datum) -> bool:
    """Whether a datum stands on the line itself, be it a value or words in the place of one."""
    return _says_something(datum) and datum.note != "from the section heading"


def _says_something(datum: Datum) -> bool:
    """Whether a datum has any words, be they a value or in the place of one."""
    return not isinstance(datum.value, NotGiven) or bool(datum.value.text)
