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
from speccheck.language.vocabulary import Vocabulary, fold
from speccheck.review.same_values import same
from speccheck.submittal.lines import Datum, Line, Schedule

PRODUCT = "product"
CONDUCTIVITY = "conductivity"
MEAN_TEMPERATURE = "conductivity mean temperature"
_AT_MEAN_TEMPERATURE = (CONDUCTIVITY, MEAN_TEMPERATURE)

# What a line states of its product, and product data have to show.
PROPERTIES = (
    "insulation",
    "insulation standard",
    "standard type",
    "standard grade",
    "density",
    "compressive strength",
    CONDUCTIVITY,
    MEAN_TEMPERATURE,
    "permeability",
    "lowest service temperature",
    "highest service temperature",
    "flame spread",
    "smoke developed",
    "fire test",
    "fire specimen mounting",
    "noncombustible",
    "stainless compliant",
    "water absorption",
    "facing",
    "facing permeance",
)
# The date of the report that shows a property, where one is asked for.
REPORT_DATES: Mapping[str, tuple[str, ...]] = {
    "fire report date": ("flame spread", "smoke developed"),
    "conductivity report date": (CONDUCTIVITY,),
    "permeability report date": ("permeability",),
}


@dataclass(frozen=True)
class Product:
    """One product and the rows that are about it, in the order of the file."""

    name: str
    rows: tuple[Line, ...]

    def shown(self, term: str) -> tuple[Datum, ...]:
        """Return what the rows state about a term."""
        data = (row.data[term] for row in self.rows if term in row.data)
        return tuple(datum for datum in data if not isinstance(datum.value, NotGiven))

    def shown_at(self, mean_temperature: Datum | None, rules: Rules) -> tuple[Datum, ...]:
        """Return the conductivities that are shown at a mean temperature; all of them where none is stated."""
        if mean_temperature is None or isinstance(mean_temperature.value, NotGiven):
            return self.shown(CONDUCTIVITY)
        rows = tuple(row for row in self.rows if self._is_at(row, mean_temperature, rules))
        return Product(self.name, rows).shown(CONDUCTIVITY)

    def _is_at(self, row: Line, mean_temperature: Datum, rules: Rules) -> bool:
        shown = row.data.get(MEAN_TEMPERATURE)
        return shown is not None and same(shown.value, mean_temperature.value, None, rules)

    def disagreements(self, vocabulary: Vocabulary, rules: Rules) -> Iterator[tuple[str, Datum, Datum]]:
        """Yield each property that two rows state differently; conductivities only at one mean temperature."""
        for term in PROPERTIES:
            if term in _AT_MEAN_TEMPERATURE:
                continue
            first, *others = self.shown(term) or (None,)
            for other in others:
                if (
                    first is not None
                    and other is not None
                    and not same(first.value, other.value, vocabulary.terms.get(term), rules)
                ):
                    yield term, first, other
                    break


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
