"""Records: rows of a dataset, of which most are read at once by the columns, and the others as a sheet would be.

A row is plain where every cell is a value by itself: then the columns read it as the reader of schedules does. Anything
else (words with several meanings, several facts in a cell, amounts in doubt, remarks) goes through that reader, so that
one cell has one meaning by whichever way it comes in.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from speccheck.judge.vectorized import CellTexts
from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import BareUnits, NotGiven, Value, read_value
from speccheck.quantities import Misread
from speccheck.review.portfolio.matrices import judged_schedule
from speccheck.review.portfolio.request import LoadedRules
from speccheck.review.portfolio.store import ScheduleResult
from speccheck.schedule.doubtful import doubt, senseless
from speccheck.schedule.fill_down import is_ditto
from speccheck.schedule.grid import Grid, GridCell, column_letters
from speccheck.schedule.header_words import MARK_TERMS
from speccheck.schedule.schedule import read_grids
from speccheck.schedule.unstated_units import states_no_unit

Read = Value | NotGiven


def plain_rows(
    cells: Mapping[str, CellTexts], terms: Mapping[str, tuple[Term, str]], rules: LoadedRules
) -> NDArray[np.bool_]:
    """Return, for each row, whether every cell of it is plain; `terms` has each term with the unit of its header."""
    values = {
        name: [_value(text, term, BareUnits(unit, rules.units)) for text in cells[name].texts]
        for name, (term, unit) in terms.items()
    }
    numbers = {name: np.asarray(cells[name].numbers) for name in terms}
    plain = np.ones(max(map(len, numbers.values()), default=0), np.bool_)
    for name, (term, _) in terms.items():
        plain &= _of_each(numbers[name], [value is not None for value in values[name]])
        for other in {sensible.where for sensible in term.sensible} & terms.keys():
            plain &= _sensible_beside(term, other, values, numbers)
    return plain


def _of_each(numbers: NDArray[np.intp], found: Sequence[bool]) -> NDArray[np.bool_]:
    """Return, for each row, what was found of its text; a blank cell is plain."""
    return np.array([*found, True], np.bool_)[numbers]


def _value(text: str, term: Term, bare: BareUnits) -> Read | None:
    """Return what a text is by itself, None where that is not plain."""
    if term.kind.form is Form.TEXT:
        return None if term.never_compared and term.name not in MARK_TERMS and any(map(str.isalnum, text)) else text
    value = read_value(text.strip(), term, bare)
    if isinstance(value, Misread) or is_ditto(text, term):
        return None
    assumed = not bare.unit and bool(term.sensible_numbers) and states_no_unit(text.strip(), term)
    return value if doubt(text.strip(), value, term, unit_assumed=assumed) is None else None


def _sensible_beside(
    term: Term, other: str, values: Mapping[str, Sequence[Read | None]], numbers: Mapping[str, NDArray[np.intp]]
) -> NDArray[np.bool_]:
    """Return, for each row, whether a value is sensible beside that of another term; each pair is asked once."""
    pairs, rows = np.unique(np.stack([numbers[term.name], numbers[other]]), axis=1, return_inverse=True)
    found = []
    for mine, its in pairs.T:
        value, beside = ((*values[name], None)[number] for name, number in ((term.name, mine), (other, its)))
        asked = value is not None and beside is not None
        found.append(not asked or senseless(value, term, {other: beside}) is None)
    return np.array(found, np.bool_)[rows.reshape(-1)]


def as_a_sheet(
    names: Sequence[str],
    rows: Sequence[Sequence[str]],
    before: int,
    file: str,
    left_out: int | None,
    rules: LoadedRules,
) -> ScheduleResult:
    """Return the result of rows that are read as those of a sheet are; `before` counts the rows before them.

    Rows are records: a blank cell says nothing, and repeats nothing. The column `left_out` names the schedule.
    """
    columns = [place for place in range(len(names)) if place != left_out]
    texts = [names, *rows]
    cells = {
        (row, column): GridCell(text[place])
        for row, text in enumerate(texts)
        for column, place in enumerate(columns)
        if text[place].strip()
    }
    pointers = {
        (row, column): f"{column_letters(column)}{before + row}" if row else f"column {names[columns[column]]}"
        for row, column in cells
    }
    mapping = replace(
        rules.mapping,
        units=rules.units or rules.mapping.units,
        header_rows=(1,),
        repeat_blanks=rules.mapping.repeat_blanks or (),
    )
    schedule = read_grids(file, [Grid(file, "", cells, pointers=pointers)], [], rules.headers, mapping)
    return judged_schedule(schedule, rules)
