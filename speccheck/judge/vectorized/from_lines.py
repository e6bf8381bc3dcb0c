"""Filling: from the lines of schedules, or from columns of cell texts, to the columns of a ruleset's terms."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from speccheck.judge.completing import needs_of
from speccheck.judge.vectorized.column import Columns, SizeRanges
from speccheck.judge.vectorized.values import column_of, size_ranges
from speccheck.language.core import Ruleset
from speccheck.language.core.walking import conditions_of
from speccheck.language.vocabulary.choices import NotGiven
from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import BareUnits, Value, read_value
from speccheck.quantities import ALL_SIZES, Interval, Misread
from speccheck.schedule.expanding import CASES_LIMIT
from speccheck.schedule.lines import Datum, Line

_NOT_STATED = NotGiven("", "not stated")


@dataclass(frozen=True, slots=True)
class CellTexts:
    """The cells of one column of a schedule: the texts that occur, and the number of its text for each line.

    `unit` is what numbers without a unit are in, where the column's header says so. A number below 0 is a blank cell.
    """

    texts: Sequence[str]
    numbers: ArrayLike
    unit: str = ""


@dataclass(frozen=True, slots=True)
class _Given:
    """What lines state for one term: each value once, and the number of its value for each line."""

    values: Sequence[Value | NotGiven]
    numbers: NDArray[np.integer]


def terms_drawn_on(ruleset: Ruleset) -> dict[str, Term]:
    """Return the terms that the clauses of a ruleset draw on, with those that computed ones are worked out from."""
    conditions = [condition for clause in ruleset.clauses for condition in conditions_of(clause)]
    return {term.name: term for term in needs_of(conditions, ruleset).terms}


def columns_of(lines: Sequence[Line], ruleset: Ruleset) -> Columns:
    """Return what lines state for the terms that a ruleset draws on, as columns."""
    terms = terms_drawn_on(ruleset)
    given = {name: _given_by(lines, name) for name in terms}
    return _columns(len(lines), terms, given, ruleset, lines)


def columns_of_texts(cells: Mapping[str, CellTexts], ruleset: Ruleset, system: str = "") -> Columns:
    """Return the columns of schedules whose cells are given by term; each text that occurs is read once.

    `system` ("inch-pound" or "metric") says what numbers without a unit are in. What cannot be read is not given.
    """
    terms = terms_drawn_on(ruleset)
    count = max((len(np.asarray(column.numbers)) for column in cells.values()), default=0)
    given = {name: _read(cells[name], term, system) if name in cells else _blank(count) for name, term in terms.items()}
    return _columns(count, terms, given, ruleset, None)


def _given_by(lines: Sequence[Line], name: str) -> _Given:
    """Return what lines state for a term; values are told apart by identity, which readers of cells share."""
    known: dict[int, int] = {}
    values: list[Value | NotGiven] = []
    numbers: list[int] = []
    for line in lines:
        datum = line.data.get(name)
        value = _NOT_STATED if datum is None else datum.value
        number = known.get(id(value))
        if number is None:
            number = known[id(value)] = len(values)
            values.append(value)
        numbers.append(number)
    return _Given(values or [_NOT_STATED], np.array(numbers, np.intp))


def _read(cells: CellTexts, term: Term, system: str) -> _Given:
    bare = BareUnits(cells.unit, system)
    read = [read_value(text, term, bare) for text in cells.texts]
    values = [NotGiven(value.text, "cannot be read") if isinstance(value, Misread) else value for value in read]
    numbers = np.asarray(cells.numbers)
    if numbers.size and numbers.min() < 0:
        numbers = np.where(numbers < 0, len(values), numbers)
    return _Given([*values, _NOT_STATED], numbers)


def _blank(count: int) -> _Given:
    return _Given([_NOT_STATED], np.broadcast_to(np.intp(0), (count,)))


def _columns(
    count: int, terms: Mapping[str, Term], given: Mapping[str, _Given], ruleset: Ruleset, lines: Sequence[Line] | None
) -> Columns:
    """Return the columns of given values; `lines` are the lines themselves, where there are any."""
    assumed = [one.value for one in ruleset.assumptions if one.term.kind.form is Form.TEXT]
    texts = {text: code for code, text in enumerate(_texts(terms, given, assumed))}
    columns = {
        name: column_of(stated.values, terms[name], texts, units=ruleset.nominal_metric).take(stated.numbers)
        for name, stated in given.items()
    }
    sizes = {name: found for name, stated in given.items() if len((found := _size_ranges(terms[name], stated)).rows)}
    ranged = [_ranged_rows(stated) for name, stated in given.items() if terms[name].kind.form is not Form.SIZE]
    rows = sorted({int(row) for found in (*ranged, _in_many(count, sizes)) for row in found})
    return Columns(
        count,
        columns,
        sizes,
        {row: lines[row] if lines is not None else _line(row, given) for row in rows},
        texts,
    )


def _texts(terms: Mapping[str, Term], given: Mapping[str, _Given], assumed: Sequence[Value]) -> list[str]:
    """Return the free texts that occur and those that are assumed, each once."""
    found = (value for name, stated in given.items() if terms[name].kind.form is Form.TEXT for value in stated.values)
    return list(dict.fromkeys(value for value in (*found, *assumed) if isinstance(value, str)))


def _size_ranges(term: Term, stated: _Given) -> SizeRanges:
    """Return the rows that cover a range of sizes."""
    if term.kind.form is not Form.SIZE:
        return SizeRanges(np.empty(0, np.intp), np.empty(0, np.int8), np.empty(0, np.int8))
    first, last = size_ranges(stated.values)
    rows = np.flatnonzero((first >= 0)[stated.numbers])
    return SizeRanges(rows, first[stated.numbers[rows]], last[stated.numbers[rows]])


def _ranged_rows(stated: _Given) -> NDArray[np.intp]:
    """Return the rows that cover a range."""
    ranged = np.array([isinstance(value, Interval) for value in stated.values])
    return np.flatnonzero(ranged[stated.numbers]) if ranged.any() else np.empty(0, np.intp)


def _in_many(count: int, sizes: Mapping[str, SizeRanges]) -> NDArray[np.intp]:
    """Return the rows that cover ranges in so many terms of sizes that their cases could be too many to be tried."""
    times = np.zeros(count, np.int8)
    for found in sizes.values():
        times[found.rows] += 1
    return np.flatnonzero(times * math.log(len(ALL_SIZES)) > math.log(CASES_LIMIT))


def _line(row: int, given: Mapping[str, _Given]) -> Line:
    """Return what a row states as a line."""
    return Line(str(row + 1), {name: Datum(stated.values[stated.numbers[row]]) for name, stated in given.items()})
