"""Product data: what is shown of each product, and whether a stated value and a shown one mean the same.

A product may have several rows, for its conductivity at several mean temperatures. Rows that state one property
otherwise disagree, and then nothing is shown of it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property

from speccheck.judge.operations import Rules, compare
from speccheck.language.core import Relation
from speccheck.language.vocabulary.terms import Form, Term, Vocabulary, fold
from speccheck.language.vocabulary.values import NotGiven, Single, Value
from speccheck.quantities import Interval, NominalSize, Quantity
from speccheck.schedule.lines import Datum, Line, Schedule

FEWEST_DIGITS = 2
_DUST = 12  # significant digits of a number that units were converted in


def same(one: Value | NotGiven, other: Value | NotGiven, term: Term | None, rules: Rules) -> bool:
    """Return whether two values of a term mean the same. Two that are not given do, whatever stands in their place."""
    if isinstance(one, NotGiven) or isinstance(other, NotGiven):
        return isinstance(one, NotGiven) and isinstance(other, NotGiven)
    if isinstance(one, Interval) or isinstance(other, Interval):
        return _same_ranges(one, other, term, rules)
    return _same_single(one, other, term, rules)


def _same_ranges(one: Value, other: Value, term: Term | None, rules: Rules) -> bool:
    if not isinstance(one, Interval) or not isinstance(other, Interval):
        return False
    if (one.low_closed, one.high_closed) != (other.low_closed, other.high_closed):
        return False
    pairs = ((one.low, other.low), (one.high, other.high))
    return all(
        first is second if first is None or second is None else _same_single(first, second, term, rules)
        for first, second in pairs
    )


def _same_single(one: Single, other: Single, term: Term | None, rules: Rules) -> bool:
    if isinstance(one, str) and isinstance(other, str):
        return fold(one) == fold(other)
    if isinstance(one, Quantity) and isinstance(other, Quantity):
        if one.dimension != other.dimension:
            return False
        return compare(one, Relation.EQUAL, other, rules)[0] or _rounded(one, other) or _rounded(other, one)
    exact = term is not None and term.kind.form is Form.COUNT
    if exact or isinstance(one, str | bool | frozenset | NominalSize | Quantity):
        return type(one) is type(other) and one == other
    if isinstance(other, str | bool | frozenset | NominalSize | Quantity):
        return False
    return one == other or _is_rounding(other, one) or _is_rounding(one, other)


def _rounded(coarse: Quantity, fine: Quantity) -> bool:
    """Whether one quantity is the other one rounded, in its own unit."""
    if math.isinf(coarse.value) or math.isinf(fine.value):
        return False
    return _is_rounding(coarse.in_unit(coarse.unit), fine.in_unit(coarse.unit))


def _is_rounding(coarse: float, fine: float) -> bool:
    """Whether `coarse` is `fine` rounded to the places that it is written with."""
    written = Decimal(f"{coarse:.{_DUST}g}").normalize()
    digits, exponent = written.as_tuple().digits, written.as_tuple().exponent
    assert isinstance(exponent, int), coarse
    places = max(-exponent, 0)  # the zeros of a whole number count as written
    if len(digits) + max(exponent, 0) < FEWEST_DIGITS:
        return False
    half = Decimal(5).scaleb(-places - 1)
    return abs(Decimal(f"{fine:.{_DUST}g}") - written) <= half


def lies_in(stated: Value, whole: Value) -> bool:
    """Return whether a stated range holds the value or range `whole`, as "25 and under" holds 20."""
    if not isinstance(stated, Interval) or isinstance(whole, str | bool | frozenset | NominalSize):
        return False
    if isinstance(whole, Interval):
        return stated.holds(whole)  # type: ignore[arg-type]  # both are values of one term
    return stated.contains(whole)  # type: ignore[arg-type]


PRODUCT = "product"
FROM_PRODUCT_DATA = "from the product data of "
"""How the note begins of a datum that was taken from product data because a person asked for it."""


def properties(vocabulary: Vocabulary) -> tuple[Term, ...]:
    """Return what a line states of its product and product data have to show: the terms that are marked so."""
    return tuple(term for term in vocabulary.terms.values() if term.needs_evidence)


@dataclass(frozen=True)
class Product:
    """One product and the rows that are about it, in the order of the file."""

    name: str
    rows: tuple[Line, ...]

    def shown(self, term: str) -> tuple[Datum, ...]:
        """Return what the rows state about a term."""
        data = (row.data[term] for row in self.rows if term in row.data)
        return tuple(datum for datum in data if not isinstance(datum.value, NotGiven))

    def shown_at(self, term: Term, at: Datum | None, rules: Rules) -> tuple[Datum, ...]:
        """Return what is shown of a term at a value of the one that it is stated at; all of it where none is given."""
        if not term.stated_at or at is None or isinstance(at.value, NotGiven):
            return self.shown(term.name)
        rows = tuple(row for row in self.rows if _states(row, term.stated_at, at, rules))
        return Product(self.name, rows).shown(term.name)

    def disagreements(self, vocabulary: Vocabulary, rules: Rules) -> Iterator[tuple[str, Datum, Datum]]:
        """Yield each property that two rows state differently, at the same condition where it is stated at one."""
        conditions = {term.stated_at for term in vocabulary.terms.values()}
        for term in properties(vocabulary):
            if term.name in conditions:
                continue
            rows = [row for row in self.rows if term.name in row.data and _is_given(row.data[term.name])]
            pairs = (
                (one.data[term.name], other.data[term.name])
                for number, one in enumerate(rows)
                for other in rows[number + 1 :]
                if _at_one_condition(one, other, term, rules)
            )
            differing = (pair for pair in pairs if not same(pair[0].value, pair[1].value, term, rules))
            first = next(differing, None)
            if first is not None:
                yield term.name, *first


def _is_given(datum: Datum) -> bool:
    return not isinstance(datum.value, NotGiven)


def _at_one_condition(one: Line, other: Line, term: Term, rules: Rules) -> bool:
    """Whether two rows state a property at the same condition, or it is stated at none."""
    at = one.data.get(term.stated_at) if term.stated_at else None
    if not term.stated_at:
        return True
    return at is not None and _states(other, term.stated_at, at, rules)


def _states(row: Line, name: str, datum: Datum, rules: Rules) -> bool:
    shown = row.data.get(name)
    return shown is not None and same(shown.value, datum.value, None, rules)


@dataclass(frozen=True)
class ProductData:
    """All products of a file; `nameless` are the rows that name none."""

    products: tuple[Product, ...]
    nameless: tuple[Line, ...]

    @cached_property
    def _by_name(self) -> Mapping[str, Product]:
        return {fold(product.name): product for product in self.products}

    def find(self, name: str) -> Product | None:
        """Return the product of a name; case, hyphens and full stops do not count."""
        return self._by_name.get(fold(name))


def product_data(sheet: Schedule) -> ProductData:
    """Return the products of a file that was read as a schedule is."""
    rows: dict[str, list[Line]] = {}
    nameless = []
    for line in sheet.lines:
        name = product_name(line)
        if name:
            rows.setdefault(fold(name), []).append(line)
        else:
            nameless.append(line)
    products = tuple(_product(several) for several in rows.values())
    return ProductData(products, tuple(nameless))


def _product(rows: Sequence[Line]) -> Product:
    return Product(product_name(rows[0]), tuple(rows))


def product_name(line: Line) -> str:
    """Return the product that a line names, "" where it names none."""
    datum = line.data.get(PRODUCT)
    return datum.value if datum is not None and isinstance(datum.value, str) else ""
