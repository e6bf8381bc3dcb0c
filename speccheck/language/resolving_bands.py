"""Bands of tables resolved: the headings of rows and columns read, and checked so that no value falls into two."""

from __future__ import annotations

from itertools import combinations
from typing import Any

from speccheck.language.core import Axis, Band
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.kinds import Form
from speccheck.language.literals import amount_of, resolve_literal
from speccheck.language.names import Names
from speccheck.language.resolving_amounts import resolve_choice
from speccheck.language.syntax import BandSyntax, Measure, TableSyntax, Words
from speccheck.language.vocabulary import Term
from speccheck.quantities import Interval

# For each form of band: whether its values are the low end, the high end or both, and which ends belong to it.
BAND_ENDS = {
    "under": ("high", True, False),
    "up to": ("high", True, True),
    "only": ("same", True, True),
    "to": ("both", True, True),
    "to under": ("both", True, False),
    "over to": ("both", False, True),
    "over to under": ("both", False, False),
    "and over": ("low", True, True),
    "over": ("low", False, True),
}


def resolve_axes(names: Names, syntax: TableSyntax, terms: list[Term]) -> tuple[Axis, ...] | None:
    """Return the axes of a table, one for each of `terms`, or None after errors of their bands were reported."""
    headings = [[row.band for row in syntax.rows], list(syntax.columns)]
    axes = []
    for term, bands in zip(terms, headings, strict=False):
        resolved = [_band(names, band, term) for band in bands]
        whole = tuple(band for band in resolved if band is not None)
        if len(whole) < len(bands) or not _apart(names, whole):
            return None
        axes.append(Axis(term, whole))
    return tuple(axes)


def _band(names: Names, syntax: BandSyntax, term: Term) -> Band | None:
    if term.kind.form is Form.CHOICE:
        found = [
            resolve_choice(names, value if isinstance(value, Words) else Words(value.text, value.place), term)
            for value in syntax.values
        ]
        choices = tuple(choice for choice in found if choice is not None)
        return Band(syntax.text, choices=choices, place=syntax.place) if len(choices) == len(found) else None
    if syntax.form == "choices":
        message = f"`{syntax.text}` is not a band of `{term.name}`, {term.kind.described}"
        names.report(names.source.error("L404", message, syntax.place, "write `A to B`, `under B` or `A and over`"))
        return None
    values: list[Any] = []
    for value in syntax.values:
        assert isinstance(value, Measure), value
        literal = resolve_literal(value, term.kind, names.source)
        if isinstance(literal, Diagnostic):
            names.report(literal)
            return None
        values.append(literal.value)
    interval = _interval(syntax.form, values)
    if _is_empty(interval):
        message = f"`{syntax.text}` holds nothing"
        names.report(names.source.error("L210", message, syntax.place, "write the lower end first"))
        return None
    return Band(syntax.text, interval, place=syntax.place)


def _interval(form: str, values: list[Any]) -> Interval[Any]:
    ends, low_closed, high_closed = BAND_ENDS[form]
    low = None if ends == "high" else values[0]
    high = None if ends == "low" else values[-1]
    return Interval(low, high, low_closed, high_closed)


def _is_empty(interval: Interval[Any]) -> bool:
    """Say whether no value lies between the two ends."""
    if interval.low is None or interval.high is None:
        return False
    low, high = amount_of(interval.low), amount_of(interval.high)
    return low > high or (low == high and not (interval.low_closed and interval.high_closed))


def _apart(names: Names, bands: tuple[Band, ...]) -> bool:
    """Check that no value lies in two of the bands."""
    clear = True
    for first, second in combinations(bands, 2):
        shared = set(first.choices) & set(second.choices)
        if shared or (first.interval and second.interval and _overlap(first.interval, second.interval)):
            message = f"`{second.text}` overlaps `{first.text}`"
            ends = "let one end where the other begins: `A to under B`, then `B to C`"
            help = "name each value once" if shared else ends
            names.report(names.source.error("L403", message, second.place, help))
            clear = False
    return clear


def _overlap(first: Interval[Any], second: Interval[Any]) -> bool:
    """Say whether two intervals share a value."""
    return _reaches(first, second) and _reaches(second, first)


def _reaches(lower: Interval[Any], upper: Interval[Any]) -> bool:
    """Say whether the high end of `lower` lies at or above the low end of `upper`, so that they could meet."""
    if lower.high is None or upper.low is None:
        return True
    high, low = amount_of(lower.high), amount_of(upper.low)
    return high > low or (high == low and lower.high_closed and upper.low_closed)
