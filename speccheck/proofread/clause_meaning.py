"""Which parts of a clause say something else than in another edition, and what the assumptions of a ruleset say.

Whether a clause means something else at all is told by `revisions`, for every system; this says where to look for it.
Names of definitions, units, the order of conditions joined by "and" or "or", and words beside the conditions do not
count; what the conditions are made of does. The form is nested tuples of plain values.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import assert_never

from speccheck.language.core import (
    Adjusted,
    Amount,
    Arithmetic,
    AskedIf,
    Band,
    CellSays,
    Clause,
    Comparison,
    Condition,
    Every,
    Given,
    Holds,
    Includes,
    Literal,
    Lookup,
    NamedAmount,
    NamedCondition,
    Negation,
    OneOf,
    OrEqual,
    Readings,
    Relation,
    Some,
    Table,
    TermValue,
)
from speccheck.language.core.walking import plain
from speccheck.language.vocabulary.values import Single
from speccheck.quantities import NominalSize, Quantity

Meaning = tuple[object, ...]
_DIGITS = 9  # significant digits that are left after units were converted


def part_meanings(clause: Clause) -> dict[str, Meaning]:
    """Return what each part of a clause means, by the words in which reports call the part."""
    return {
        "where it applies": _joined("every", clause.scope),
        "judged only where": _joined("every", clause.judged_only),
        "exceptions": _joined("some", [part.condition for part in clause.exceptions]),
        "requirement": _joined("every", clause.shall),
        "advice": _joined("every", clause.should),
    }


def conditions_meaning(conditions: Iterable[Condition]) -> Meaning:
    """Return what conditions mean that are all to hold."""
    return _joined("every", conditions)


def _joined(joint: str, parts: Iterable[Condition]) -> Meaning:
    """Return what conditions mean together; conditions joined in the same way inside them are laid flat."""
    flat: dict[Meaning, None] = {}
    for part in parts:
        meaning = condition_meaning(part)
        inside = meaning[1:] if meaning and meaning[0] == joint else (meaning,)
        flat.update(dict.fromkeys(inside))  # type: ignore[arg-type]
    if len(flat) == 1:
        return next(iter(flat))
    return (joint, *sorted(flat, key=repr))


def condition_meaning(node: Condition) -> Meaning:
    """Return what a condition means."""
    match node:
        case Comparison(left, Relation() as relation, right):
            return ("compare", amount_meaning(left), str(relation), amount_meaning(right))
        case Comparison() | AskedIf():
            return condition_meaning(plain(node))
        case OneOf(amount, options):
            return ("one of", amount_meaning(amount), *sorted(map(value_meaning, options), key=repr))
        case Includes(term, inclusion, options):
            return ("set", term.name, str(inclusion), *sorted(options))
        case Given(term):
            return ("given", term.name)
        case Holds(term):
            return ("holds", term.name)
        case CellSays(table, word):
            return ("cell", table_meaning(table), str(word))
        case Negation(part):
            inner = condition_meaning(part)
            return inner[1] if inner[0] == "not" else ("not", inner)  # type: ignore[return-value]
        case Every(parts):
            return _joined("every", parts)
        case Some(parts):
            return _joined("some", parts)
        case Readings(parts):
            return _joined("readings", parts)
        case OrEqual(part):
            return ("or equal", condition_meaning(part))
        case NamedCondition(_, condition):
            return condition_meaning(condition)
        case _:
            assert_never(node)


def amount_meaning(node: Amount) -> Meaning:
    """Return what an amount means."""
    match node:
        case Literal(value):
            return ("value", value_meaning(value))
        case TermValue(term):
            return ("term", term.name)
        case Lookup(table):
            return ("table", table_meaning(table))
        case Arithmetic(operation, left, right):
            return ("calculate", str(operation), amount_meaning(left), amount_meaning(right))
        case Adjusted(thickness, stated, proposed, diameter):
            return ("adjusted", *(amount_meaning(part) for part in (thickness, stated, proposed, diameter)))
        case NamedAmount(_, amount):
            return amount_meaning(amount)
        case _:
            assert_never(node)


def table_meaning(table: Table) -> Meaning:
    """Return what a table means: its axes, bands and cells."""
    axes = tuple((axis.term.name, *map(_band_meaning, axis.bands)) for axis in table.axes)
    cells = tuple(tuple(None if cell is None else value_meaning(cell.value) for cell in row) for row in table.cells)
    return (axes, cells, table.words)


def _band_meaning(band: Band) -> object:
    if band.interval is None:
        return tuple(sorted(band.choices))
    interval = band.interval
    ends = ((interval.low, interval.low_closed), (interval.high, interval.high_closed))
    return tuple(None if end is None else (value_meaning(end), closed) for end, closed in ends)


def value_meaning(value: Single) -> object:
    """Return a plain value, in SI units, that is the same whatever unit it was written in."""
    if isinstance(value, Quantity):
        return (value.dimension, float(f"{value.value:.{_DIGITS}g}"))
    if isinstance(value, NominalSize):
        return ("size", str(value.inches))
    if isinstance(value, frozenset):
        return tuple(sorted(value))
    return value
