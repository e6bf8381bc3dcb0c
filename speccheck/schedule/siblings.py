"""Siblings: two columns of one term, of which one has no value of it in any of its cells: units beside services.

"Duct System" over AHU-1 and AHU-2, beside "Service" over supply air, names the units. Its cells are told as not read,
as those of any column that was not understood; that they are no service makes no service beside them doubtful.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from speccheck.language.vocabulary.terms import Form, Term, Vocabulary
from speccheck.phrases import read_cell
from speccheck.schedule.columns import ColumnUse
from speccheck.schedule.grid import Grid
from speccheck.schedule.mapping import ScheduleMapping


def without_strangers(
    grid: Grid, rows: Sequence[int], uses: Sequence[ColumnUse], vocabulary: Vocabulary, mapping: ScheduleMapping
) -> list[ColumnUse]:
    """Return the uses of the columns; one without a value of its term, beside one that has some, is not understood.

    Only for terms with a list of values, and never where the mapping file says what the column is.
    """
    shared = Counter(use.term.name for use in uses if use.term is not None and use.across is None)
    found = list(uses)
    for name in (name for name, count in shared.items() if count > 1):
        several = [use for use in uses if use.term is not None and use.term.name == name and use.across is None]
        strangers = [use for use in several if not _has_values(grid, rows, use, vocabulary, mapping)]
        if len(strangers) == len(several):
            continue
        for use in strangers:
            column = replace(use.column, term="", note=f"not understood: none of its cells is a value of `{name}`")
            found[found.index(use)] = ColumnUse(use.index, column)
    return found


def _has_values(
    grid: Grid, rows: Sequence[int], use: ColumnUse, vocabulary: Vocabulary, mapping: ScheduleMapping
) -> bool:
    """Whether a column is to be kept: it has a value, or nothing at all, or somebody says what it is."""
    term = use.term
    if term is None or term.kind.form is not Form.CHOICE or mapping.key_of(use.column.header, use.index) is not None:
        return True
    texts = [text for row in rows if (text := grid.text(row, use.index).strip())]
    return not texts or any(_says(text, term, vocabulary, mapping, use) for text in texts)


def _says(text: str, term: Term, vocabulary: Vocabulary, mapping: ScheduleMapping, use: ColumnUse) -> bool:
    """Whether a cell gives, or may give, a value of the term."""
    if mapping.replaced(text, term) is not None:
        return True
    phrase = read_cell(text, term, vocabulary, use.bare)
    asked = any(question.term is term for question in phrase.questions)
    return asked or bool(phrase.values_of(term.name)) or not (phrase.facts or phrase.left_over)
