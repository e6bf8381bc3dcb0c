"""Filling: what a line says by a merged cell, by a ditto mark, or by a blank under a value that groups lines.

Blanks are the dangerous case, since a blank may as well mean that nothing is given. The rule: a blank repeats the value
above it only in a *grouping column*: one of the first columns of the table, left of all that are filled on every line,
be they read or not; filled on the first line; the only one of its term, by which systems are told apart and which is
nothing that is proposed. And it does so only where every grouping column to the left of it is blank on that line too,
and no blank row, section heading or header lies between. A mapping file can replace the rule by a list of terms.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from speccheck.english import agree, count, noun
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.vocabulary.terms import Form, Term, fold
from speccheck.schedule.centered_labels import centered_labels
from speccheck.schedule.columns import ColumnUse
from speccheck.schedule.grid import Grid, column_letters
from speccheck.schedule.messages.cells import BLANKS_REPEAT, DITTO_OF_NOTHING
from speccheck.schedule.rows import Row

DITTO_MARKS = frozenset(
    {'"', "''", '""', '" "', "″", "”", "“", "‟", "〃", "’’", "do", "ditto", "same", "same as above", "as above", "idem"}
)
LONGEST_DITTO_MARK = 20


@dataclass(frozen=True, slots=True)
class Filled:
    """What a line says in one column: the cell that holds the words, and a note on how they came to this line.

    `across` says that the words stand in another column, over which and this one a cell is merged; `empty_ditto`
    that they are a ditto mark with nothing above.
    """

    origin: tuple[int, int]
    note: str = ""
    across: bool = False
    empty_ditto: bool = False


Fillings = dict[tuple[int, int], Filled]


def fill(
    grid: Grid, lines: Sequence[Row], uses: Sequence[ColumnUse], repeat_blanks: Sequence[str] | None
) -> tuple[Fillings, list[Diagnostic]]:
    """Return what each line says in each column, by row and column, for all cells that are not blank in the end.

    `lines` are the line rows of one table from the top down; `repeat_blanks` the terms that a mapping file names.
    """
    read = [use for use in uses if use.is_read]
    fillings, problems = _stated(grid, lines, read)
    columns = _grouping_columns(grid, lines, uses, fillings, repeat_blanks)
    repeated = _repeat(lines, columns, fillings, strict=repeat_blanks is None)
    for place, origin in repeated.items():
        fillings[place] = Filled(origin, f"repeated from {_cell_name(grid, origin)}")
    for place, label in _of_centered_labels(grid, lines, uses, fillings, repeat_blanks).items():
        fillings[place] = Filled(label, f"from {_cell_name(grid, label)}, in the middle of its lines")
    return fillings, problems + list(_notes(grid, columns, repeated))


def _of_centered_labels(
    grid: Grid,
    lines: Sequence[Row],
    uses: Sequence[ColumnUse],
    fillings: Fillings,
    repeat_blanks: Sequence[str] | None,
) -> dict[tuple[int, int], tuple[int, int]]:
    """Return the labels of blank cells in a first column whose labels stand in the middle of their lines."""
    use = next((use for use in uses if use.is_read and not use.names_lines), None)
    if use is None or use.term is None or not lines or repeat_blanks is not None or not _groups_lines(use.term):
        return {}
    blank = all((row.number, use.index) in fillings for row in lines) or (lines[0].number, use.index) in fillings
    found = {} if blank else centered_labels(grid, lines, use, uses)
    return {(row, use.index): (label, use.index) for row, label in found.items()}


def _stated(grid: Grid, lines: Sequence[Row], read: Sequence[ColumnUse]) -> tuple[Fillings, list[Diagnostic]]:
    """Return what lines say by their own cells, by merged cells and by ditto marks; and marks with nothing above."""
    fillings: Fillings = {}
    problems = []
    for use in read:
        above: Filled | None = None
        for row in lines:
            place = (row.number, use.index)
            above = None if row.after_gap else above
            found = _own(grid, place)
            if found is not None and not found.across and is_ditto(grid.text(*found.origin), use.term):
                if above is None:
                    problems.append(_nothing_above(grid, found.origin))
                    fillings[place] = Filled(found.origin, found.note, empty_ditto=True)
                    continue
                found = Filled(
                    above.origin, f"ditto mark in {_cell_name(grid, place)} for {_cell_name(grid, above.origin)}"
                )
            if found is not None:
                fillings[place] = found
            above = found
    return fillings, problems


def _own(grid: Grid, place: tuple[int, int]) -> Filled | None:
    """Return what stands in a cell itself or in the merged cell that covers it."""
    if place in grid.cells:
        return Filled(place)
    origin = grid.origin(*place)
    if origin == place or origin not in grid.cells:
        return None
    return Filled(origin, f"merged with {_cell_name(grid, origin)}", across=origin[1] != place[1])


def is_ditto(text: str, term: Term | None) -> bool:
    """Whether a text is a ditto mark, and not a value of the term that happens to be written like one."""
    if len(text) > LONGEST_DITTO_MARK:
        return False
    folded = fold(text)
    return folded in DITTO_MARKS and not (term is not None and folded in term.choice_names)


def _nothing_above(grid: Grid, place: tuple[int, int]) -> Diagnostic:
    """Say that a ditto mark repeats nothing."""
    return DITTO_OF_NOTHING.at(grid.place(*place), mark=grid.text(*place).strip())


def _grouping_columns(
    grid: Grid,
    lines: Sequence[Row],
    uses: Sequence[ColumnUse],
    fillings: Fillings,
    repeat_blanks: Sequence[str] | None,
) -> list[ColumnUse]:
    """Return the columns whose blanks may repeat the value above, from the left."""
    read = [use for use in uses if use.is_read]
    if repeat_blanks is not None:
        return [use for use in read if use.term is not None and use.term.name in repeat_blanks]
    times = Counter(use.column.term for use in read if use.across is None)
    leading: list[ColumnUse] = []
    stated = fillings.keys() | grid.cells.keys()
    whole = [all((row.number, use.index) in stated for row in lines) for use in uses]
    if not any(whole):
        return []
    for use in uses[: whole.index(True)]:
        if use.term is None or use.names_lines or times[use.term.name] > 1 or not _groups_lines(use.term):
            break
        if (lines[0].number, use.index) in fillings:
            leading.append(use)
    return leading


def _groups_lines(term: Term) -> bool:
    """Whether a value of a term may be said once for several lines: it tells systems apart, and is no proposal."""
    return term.tells_apart and not term.proposed and term.kind.form is not Form.SIZE


def _repeat(
    lines: Sequence[Row], columns: Sequence[ColumnUse], fillings: Mapping[tuple[int, int], Filled], strict: bool
) -> dict[tuple[int, int], tuple[int, int]]:
    """Return, for each blank cell that repeats one above, the cell that it repeats.

    `strict` holds to the whole rule; otherwise only section headings part the lines.
    """
    repeated: dict[tuple[int, int], tuple[int, int]] = {}
    above: dict[int, tuple[int, int]] = {}
    part: int | tuple[int, ...] | None = None
    for row in lines:
        this_part: int | tuple[int, ...] = row.run if strict else row.sections
        if this_part != part:
            above, part = {}, this_part
        only_blanks = True
        for position, use in enumerate(columns):
            place = (row.number, use.index)
            if place in fillings:
                only_blanks = False
                above[use.index] = fillings[place].origin
                if strict:
                    for right in columns[position + 1 :]:
                        above.pop(right.index, None)
            elif use.index in above and (only_blanks or not strict):
                repeated[place] = above[use.index]
    return repeated


def _notes(
    grid: Grid, columns: Sequence[ColumnUse], repeated: Mapping[tuple[int, int], tuple[int, int]]
) -> Iterator[Diagnostic]:
    """Yield a note for each column in which blanks were read as the value above."""
    for use in columns:
        rows = sorted(row for row, column in repeated if column == use.index)
        if rows and use.term is not None:
            yield BLANKS_REPEAT.at(
                use.column.place,
                cells=count(len(rows), "blank cell"),
                column=column_letters(use.index),
                term=use.term.name,
                repeat=agree(len(rows), "repeats", "repeat"),
                rows=row_list(rows),
            )


def row_list(rows: Sequence[int]) -> str:
    """Write row numbers from 0 as "rows 5 to 7, 9"."""
    parts: list[str] = []
    start = previous = rows[0]
    for row in (*rows[1:], None):
        if row is not None and row == previous + 1:
            previous = row
            continue
        parts.append(str(start + 1) if start == previous else f"{start + 1} to {previous + 1}")
        if row is not None:
            start = previous = row
    return f"{noun(len(rows), 'row')} {', '.join(parts)}"


def _cell_name(grid: Grid, place: tuple[int, int]) -> str:
    """Return the name of a cell, "B12"."""
    return grid.place(*place).cell
