"""Proposals found the plain way: every combination of all values that may be proposed, each judged as a whole."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import chain, combinations, product

from speccheck.judge import Verdict, judge_lines
from speccheck.judge.cell import Cell
from speccheck.language.core import Ruleset
from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import NotGiven, Single, read_value
from speccheck.schedule.lines import Datum, Line
from tests.review.mending.drawing import THICKNESSES

Changes = Mapping[str, Single]
Price = tuple[tuple[int, ...], tuple[int, ...]]
SETTLED = (Verdict.COMPLIES, Verdict.NOT_APPLICABLE)
# Of what is not stocked: every limit that a drawn clause can name, and values beside and between them.
FEET = ("1 ft", "5.5 ft", "6 ft", "9 ft", "10 ft", "12 ft", "15 ft", "16 ft")
CONDUCTIVITIES = (0.2, 0.25, 0.27, 0.28, 0.3, 0.4)


def cheapest(line: Line, ruleset: Ruleset, names: Sequence[str]) -> tuple[Price, list[Changes]] | None:
    """Return the lowest price at which a line can be made to comply, and all changes that do at this price."""
    before = judge_lines(ruleset, [line])[0]
    if all(_is_met(was, was, names) for was in before):
        return price({}, ruleset), [{}]
    subsets = chain.from_iterable(combinations(names, count) for count in range(1, len(names) + 1))
    for chosen in sorted(subsets, key=lambda subset: price(dict.fromkeys(subset, 0.0), ruleset)):
        found = [
            changes for changes in _changes(line, ruleset, chosen) if _mends(line, changes, before, ruleset, names)
        ]
        if found:
            return price(found[0], ruleset), found
    return None


def _mends(line: Line, changes: Changes, before: Sequence[Cell], ruleset: Ruleset, names: Sequence[str]) -> bool:
    after = judge_lines(ruleset, [stating(line, changes, ruleset)])[0]
    return all(_is_met(cell, was, names) for cell, was in zip(after, before, strict=True))


def _is_met(cell: Cell, was: Cell, names: Sequence[str]) -> bool:
    """Say whether a clause is settled; one that waited for more than the contractor's data need only not fail."""
    if cell.verdict in SETTLED:
        return True
    waited_for_others = was.verdict is Verdict.CANNOT_TELL and not (was.missing and set(was.missing) <= set(names))
    return cell.verdict is Verdict.CANNOT_TELL and waited_for_others


def stating(line: Line, changes: Changes, ruleset: Ruleset) -> Line:
    """Return the line with changes; the conductivity of another material is not known unless it is stated."""
    data = {name: datum for name, datum in line.data.items() if ruleset.vocabulary.terms[name].of not in changes}
    return Line(line.name, {**data, **{name: Datum(value) for name, value in changes.items()}})


def price(changes: Changes, ruleset: Ruleset) -> Price:
    """Return how many properties and other terms without a place in the order are changed, then each it names.

    What the order names comes from its end. A property is what `of` or `measured` says of a term.
    """
    order, terms = ruleset.cheapest_first, ruleset.vocabulary.terms
    unnamed = [bool(terms[name].of or terms[name].measured) for name in changes if name not in order]
    positions = list(terms)
    weight = (unnamed.count(True), unnamed.count(False), *(int(name in changes) for name in reversed(order)))
    return weight, tuple(sorted(positions.index(name) for name in changes))


def _changes(line: Line, ruleset: Ruleset, names: Sequence[str]) -> Iterator[Changes]:
    """Yield all changes of exactly these terms."""
    values = [list(_other_values(ruleset.vocabulary.terms[name], line)) for name in names]
    for combination in product(*values):
        yield dict(zip(names, combination, strict=True))


def _other_values(term: Term, line: Line) -> Iterator[Single]:
    datum = line.data.get(term.name)
    present = None if datum is None or isinstance(datum.value, NotGiven) else datum.value
    for value in _values(term):
        if value != present or term.of:
            yield value


def _values(term: Term) -> Sequence[Single]:
    """Return all values that may be proposed for a term, none of them `none`; sets in all combinations."""
    names = [choice.name for choice in term.choices if choice.name != "none"]
    match term.kind.form:
        case Form.CHOICE:
            return names
        case Form.SET:
            subsets = chain.from_iterable(combinations(names, count) for count in range(len(names) + 1))
            return [frozenset(subset) for subset in subsets]
        case Form.YES_NO:
            return (True, False)
        case Form.COUNT:
            return [float(number) for number in range(1, 5)]
        case Form.NUMBER:
            return CONDUCTIVITIES
        case _:
            texts = THICKNESSES if term.name == "thickness" else FEET
            return [read_value(text, term) for text in texts]  # type: ignore[misc]
