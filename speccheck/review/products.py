"""Product data: what is shown of each product, out of rows that were read as lines of a schedule are.

A product may have several rows, for its conductivity at several mean temperatures. Rows that state one property
otherwise disagree, and then nothing is shown of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from speccheck.engine.comparing import Rules
from speccheck.language.values import NotGiven
from speccheck.language.vocabulary import Term, Vocabulary, fold
from speccheck.review.same_values import same
from speccheck.submittal.lines import Datum, Line, Schedule

PRODUCT = "product"


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
        """Yield each property that two rows state differently, but for those that are stated at several conditions."""
        conditions = {term.stated_at for term in vocabulary.terms.values()}
        for term in properties(vocabulary):
            if term.stated_at or term.name in conditions:
                continue
            first, *others = self.shown(term.name) or (None,)
            differing = (
                other for other in others if first and other and not same(first.value, other.value, term, rules)
            )
            if first is not None and (other := next(differing, None)) is not None:
                yield term.name, first, other


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
