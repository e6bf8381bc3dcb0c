"""Marked columns: several columns headed by values of one term, of which each line marks one: an X under "Fiberglass".

The mark says the value at its head. Where any line marks two of them, or says more than a mark, they are left alone.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping
from dataclasses import replace

from speccheck.language.vocabulary.terms import Form, Term
from speccheck.schedule.grid import Grid, GridCell
from speccheck.schedule.header import Header
from speccheck.schedule.header_words import HeaderReader, Match

_MARK = re.compile(r"[xX✓✔☑☒●•■]")
_FEWEST = 2


def with_marks_as_values(grid: Grid, header: Header, last: int, reader: HeaderReader) -> tuple[Grid, Header]:
    """Return the grid of a table and its header, such columns as one: the words over each mark, at the mark's place."""
    named = _headed_by_values(header, reader)
    for term in dict.fromkeys(named.values()):
        columns = {column for column, other in named.items() if other is term}
        marked = [at for at in grid.cells if header.last < at[0] <= last and at[1] in columns]
        several = any(times > 1 for times in Counter(row for row, _ in marked).values())
        marks = all(_MARK.fullmatch(grid.cells[at].text.strip()) and not grid.cells[at].trouble for at in marked)
        if len(columns) < _FEWEST or not marked or several or not marks:
            continue
        first = min(columns)
        values = {(row, first): GridCell(_words(header, column)) for row, column in marked}
        places = {(row, first): grid.place(row, column).cell for row, column in marked}
        cells = {at: cell for at, cell in grid.cells.items() if at not in marked}
        grid = replace(grid, cells={**cells, **values}, pointers={**grid.pointers, **places})
        titles = {column: title for column, title in header.titles.items() if column not in columns}
        titles[first] = " / ".join(_words(header, column) for column in sorted(columns))
        header = replace(header, titles=titles, matches={**header.matches, first: Match(term, by_cells=True)})
    return grid, header


def _headed_by_values(header: Header, reader: HeaderReader) -> Mapping[int, Term]:
    """Return the columns whose headers name one value of a term that no other column states, by column."""
    stated = {match.name for match in header.matches.values()}
    found: dict[int, Term] = {}
    for column in header.titles:
        facts = reader.headings.facts(_words(header, column)) if column not in header.matches else {}
        names = [name for name in facts if name not in stated]
        if len(facts) == 1 and names and reader.vocabulary.terms[names[0]].kind.form is Form.CHOICE:
            found[column] = reader.vocabulary.terms[names[0]]
    return found


def _words(header: Header, column: int) -> str:
    """Return the lowest words over a column."""
    return header.titles[column].split(" / ")[-1]
