"""Values: from values of a term, as they are read from cells, to a column of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from speccheck.judge.vectorized.column import NOT_GIVEN, CodeColumn, Column, NumberColumn, SetColumn
from speccheck.judge.vectorized.operand import SIZE_CODES, bare_number, codes_of
from speccheck.judge.vectorized.thresholds import unit_code
from speccheck.language.vocabulary.choices import NotGiven
from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import Value
from speccheck.quantities import Interval, sizes_in

_PART_TYPES = (np.uint8, np.uint16, np.uint32, np.uint64)
_BITS = 64


def column_of(values: Sequence[Value | NotGiven], term: Term, texts: Mapping[str, int], *, units: bool) -> Column:
    """Return the column of values of a term; a range is not given here. `units` asks for the units of lengths."""
    match term.kind.form:
        case Form.QUANTITY | Form.COUNT | Form.NUMBER:
            return _numbers(values, units=units and term.kind.dimension == "length")
        case Form.SIZE:
            return _codes(values, SIZE_CODES)
        case Form.CHOICE:
            return _codes(values, codes_of(term))
        case Form.YES_NO:
            return _codes(values, {False: 0, True: 1})
        case Form.TEXT:
            return _codes(values, texts)
        case Form.SET:
            return _sets(values, term)


def size_ranges(values: Sequence[Value | NotGiven]) -> tuple[NDArray[np.int8], NDArray[np.int8]]:
    """Return the codes (index in the list of sizes) of the first and last size of each range; -1 for no range."""
    first, last = np.full(len(values), NOT_GIVEN, np.int8), np.full(len(values), NOT_GIVEN, np.int8)
    for position, value in enumerate(values):
        sizes = sizes_in(value) if isinstance(value, Interval) else ()
        if sizes:
            first[position], last[position] = SIZE_CODES[sizes[0]], SIZE_CODES[sizes[-1]]
    return first, last


def _numbers(values: Sequence[Value | NotGiven], *, units: bool) -> NumberColumn:
    numbers = np.array([np.nan if isinstance(value, NotGiven | Interval) else bare_number(value) for value in values])
    if not units:
        return NumberColumn(numbers)
    kept = [0 if isinstance(value, NotGiven | Interval) else unit_code(value) for value in values]
    return NumberColumn(numbers, np.array(kept, np.int8))


def _codes(values: Sequence[Value | NotGiven], codes: Mapping[Any, int]) -> CodeColumn:
    found = [NOT_GIVEN if isinstance(value, NotGiven | Interval) else codes[value] for value in values]
    return CodeColumn(np.array(found, np.min_scalar_type(-max(len(codes), 1) - 1)))


def _sets(values: Sequence[Value | NotGiven], term: Term) -> SetColumn:
    codes = codes_of(term)
    bits = [sum(1 << codes[name] for name in value) if isinstance(value, frozenset) else 0 for value in values]
    parts: list[NDArray[Any]] = []
    for start in range(0, max(len(codes), 1), _BITS):
        width = min(len(codes) - start, _BITS)
        kind = next(one for one in _PART_TYPES if np.dtype(one).itemsize * 8 >= width)
        parts.append(np.array([value >> start & (1 << _BITS) - 1 for value in bits], kind))
    given = np.array([isinstance(value, frozenset) for value in values], np.bool_)
    return SetColumn(tuple(parts), given)
