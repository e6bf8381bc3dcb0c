"""Resolving: the kinds of calculations, definitions in any order, tables, vocabularies."""

from __future__ import annotations

import math
from itertools import product
from pathlib import Path

import pint
import pytest

from speccheck.language import load_vocabulary, parse_ruleset
from speccheck.language.core import (
    Comparison,
    Every,
    Literal,
    Lookup,
    NamedAmount,
    NamedCondition,
    Operation,
    Ruleset,
    Table,
)
from speccheck.language.resolve.amounts import kind_of
from speccheck.language.vocabulary.terms import (
    CHOICE,
    COUNT,
    NUMBER,
    SIZE,
    TEXT,
    YES_NO,
    Kind,
    Vocabulary,
    quantity_kind,
)
from speccheck.quantities import Interval, NominalSize, Quantity

MISTAKES = Path(__file__).parent / "mistakes"
# SI units of the dimensions that amounts are multiplied and divided in, as pint writes them.
SI_UNITS = {
    "length": "m",
    "conductivity": "W/(m*K)",
    "thermal resistance": "m**2*K/W",
    "surface coefficient": "W/(m**2*K)",
    "permeability": "kg/(s*m*Pa)",
    "permeance": "kg/(s*m**2*Pa)",
    "speed": "m/s",
    "density": "kg/m**3",
    "pressure": "Pa",
    "time": "s",
    "heat flow": "W",
    "heat flow per length": "W/m",
    "heat flow per area": "W/m**2",
    "area": "m**2",
    "volume": "m**3",
    "mass": "kg",
}
REGISTRY: pint.UnitRegistry[float] = pint.UnitRegistry()


def resolved(body: str, header: str = "") -> Ruleset:
    """Return the ruleset with a body, which speaks the vocabulary of these tests."""
    loaded = parse_ruleset(f'ruleset "a"\n  speaks plain terms\n{header}\n{body}\n', "text.clauses", MISTAKES)
    assert loaded.usable, "\n".join(map(str, loaded.diagnostics))
    assert loaded.ruleset is not None
    return loaded.ruleset


def table_of(body: str) -> Table:
    """Return the only table of a ruleset."""
    ruleset = resolved(f'{body}\nclause 1 "b"\n  shall concealed')
    (table,) = ruleset.tables.values()
    return table


# ---- kinds of calculations ---------------------------------------------------------------------------------------


PRODUCTS = (
    ("length", "length"),
    ("thermal resistance", "conductivity"),
    ("conductivity", "thermal resistance"),
    ("permeance", "length"),
    ("length", "permeance"),
    ("surface coefficient", "length"),
    ("length", "surface coefficient"),
)
QUOTIENTS = (
    ("length", "conductivity"),
    ("conductivity", "length"),
    ("length", "thermal resistance"),
    ("permeability", "length"),
    ("permeability", "permeance"),
)


def kinds_of(operation: Operation) -> dict[tuple[str, str], Kind]:
    """Return the kind that each two dimensions come to, where they come to one."""
    found = {
        (left, right): kind_of(operation, quantity_kind(left), quantity_kind(right))
        for left, right in product(SI_UNITS, SI_UNITS)
    }
    return {pair: kind for pair, kind in found.items() if kind is not None}


def test_which_dimensions_are_multiplied_and_divided() -> None:
    """Only what means something in the trade: each of these, and what is divided by its like, which is a number."""
    assert set(kinds_of(Operation.TIMES)) == set(PRODUCTS)
    alike = {(name, name) for name in SI_UNITS}
    quotients = kinds_of(Operation.DIVIDED_BY)
    assert set(quotients) == {*QUOTIENTS, *alike}
    assert {quotients[pair] for pair in alike} == {NUMBER}


@pytest.mark.parametrize(("left", "right"), PRODUCTS)
def test_products_have_their_dimension(left: str, right: str) -> None:
    """The result has the dimension that pint finds for it."""
    kind = kinds_of(Operation.TIMES)[left, right]
    first, second = REGISTRY.Unit(SI_UNITS[left]), REGISTRY.Unit(SI_UNITS[right])
    assert (first * second).dimensionality == REGISTRY.Unit(SI_UNITS[kind.dimension]).dimensionality


@pytest.mark.parametrize(("left", "right"), QUOTIENTS)
def test_quotients_have_their_dimension(left: str, right: str) -> None:
    """The result has the dimension that pint finds for it."""
    kind = kinds_of(Operation.DIVIDED_BY)[left, right]
    first, second = REGISTRY.Unit(SI_UNITS[left]), REGISTRY.Unit(SI_UNITS[right])
    assert (first / second).dimensionality == REGISTRY.Unit(SI_UNITS[kind.dimension]).dimensionality


TEMPERATURE, DIFFERENCE, LENGTH = (quantity_kind(name) for name in ("temperature", "temperature difference", "length"))
RATIO = quantity_kind("ratio")


@pytest.mark.parametrize(
    ("left", "operation", "right", "kind"),
    [
        (TEMPERATURE, Operation.MINUS, TEMPERATURE, DIFFERENCE),
        (TEMPERATURE, Operation.PLUS, TEMPERATURE, None),
        (TEMPERATURE, Operation.PLUS, DIFFERENCE, TEMPERATURE),
        (TEMPERATURE, Operation.MINUS, DIFFERENCE, TEMPERATURE),
        (DIFFERENCE, Operation.PLUS, TEMPERATURE, None),
        (DIFFERENCE, Operation.MINUS, DIFFERENCE, DIFFERENCE),
        (TEMPERATURE, Operation.TIMES, NUMBER, None),
        (DIFFERENCE, Operation.TIMES, NUMBER, DIFFERENCE),
        (LENGTH, Operation.PLUS, LENGTH, LENGTH),
        (LENGTH, Operation.PLUS, NUMBER, None),
        (LENGTH, Operation.TIMES, RATIO, LENGTH),
        (LENGTH, Operation.DIVIDED_BY, COUNT, LENGTH),
        (COUNT, Operation.TIMES, LENGTH, LENGTH),
        (LENGTH, Operation.DIVIDED_BY, LENGTH, NUMBER),
        (COUNT, Operation.PLUS, COUNT, COUNT),
        (COUNT, Operation.PLUS, NUMBER, NUMBER),
        (LENGTH, Operation.LARGER, LENGTH, LENGTH),
        (LENGTH, Operation.SMALLER, TEMPERATURE, None),
        (TEMPERATURE, Operation.LARGER, TEMPERATURE, TEMPERATURE),
        (SIZE, Operation.LARGER, SIZE, SIZE),
        (SIZE, Operation.PLUS, SIZE, None),
        (CHOICE, Operation.LARGER, CHOICE, None),
        (TEXT, Operation.PLUS, TEXT, None),
        (YES_NO, Operation.TIMES, NUMBER, None),
    ],
    ids=str,
)
def test_what_can_be_put_together(left: Kind, operation: Operation, right: Kind, kind: Kind | None) -> None:
    """Temperatures and differences, numbers and amounts, and what is neither, go together as physics has it."""
    assert kind_of(operation, left, right) == kind


# ---- definitions, clauses ----------------------------------------------------------------------------------------


def test_definitions_stand_in_any_order() -> None:
    """A definition may use one that stands below it, and one that only stands in a clause below both."""
    ruleset = resolved(
        "define wet cold\n  as cold and concealed\n"
        "define cold\n  as operating temperature is under limit\n"
        "define limit\n  equal to 60 F\n"
        'clause 1 "b"\n  where wet cold\n  shall thickness be at least 1 in'
    )
    (scope,) = ruleset.clauses[0].scope
    assert isinstance(scope, NamedCondition)
    assert isinstance(scope.condition, Every)
    cold = scope.condition.parts[0]
    assert isinstance(cold, NamedCondition)
    assert isinstance(cold.condition, Comparison)
    assert isinstance(cold.condition.right, NamedAmount)
    assert cold.condition.right.amount == Literal(Quantity(288.70555555555556, "temperature", "F"), TEMPERATURE)


def test_names_are_compared_without_regard_to_case_and_hyphens() -> None:
    """Names of terms, definitions and tables are found however their case and hyphens are written."""
    ruleset = resolved(
        "define Pre-cooled\n  as Operating-Temperature is under 60 F\n"
        "table Needed in in\n  by service\n  STEAM | 1\n"
        'clause 1 "b"\n  where pre cooled\n  where service is Chilled-Water\n  shall thickness be at least needed'
    )
    (asked,) = ruleset.clauses[0].shall
    assert isinstance(asked, Comparison)
    assert isinstance(asked.right, Lookup)
    assert asked.right.table.axes[0].bands[0].choices == ("steam",)


@pytest.mark.parametrize(
    ("written", "value", "unit"),
    [("1-1/2 in", 0.0381, "in"), ("38 mm", 0.038, "mm"), ("1 ft", 0.3048, "ft"), ('3/4"', 0.01905, "in")],
)
def test_quantities_are_in_si(written: str, value: float, unit: str) -> None:
    """Quantities of clauses are SI in the core and keep their stated unit (1 in is 25.4 mm exactly)."""
    (asked,) = resolved(f'clause 1 "b"\n  shall thickness be {written}').clauses[0].shall
    assert isinstance(asked, Comparison)
    assert isinstance(asked.right, Literal)
    assert isinstance(asked.right.value, Quantity)
    assert math.isclose(asked.right.value.value, value, rel_tol=1e-12)
    assert asked.right.value.unit == unit


def test_range_is_two_comparisons() -> None:
    """A span holds where both of its ends do, each in or out as it is written."""
    (asked,) = resolved('clause 1 "b"\n  shall thickness be over 1 in to 2 in').clauses[0].shall
    assert isinstance(asked, Every)
    assert [str(part.relation) for part in asked.parts if isinstance(part, Comparison)] == [
        "is more than",
        "is at most",
    ]


# ---- tables ------------------------------------------------------------------------------------------------------

BANDS = {
    "under 2 in": (None, "2", True, False),
    "up to 2 in": (None, "2", True, True),
    "2 in and under": (None, "2", True, True),
    "2 in": ("2", "2", True, True),
    "1 in to 2 in": ("1", "2", True, True),
    "1 in to under 2 in": ("1", "2", True, False),
    "over 1 in to 2 in": ("1", "2", False, True),
    "over 1 in to under 3 in": ("1", "3", False, False),
    "2 in and over": ("2", None, True, True),
    "over 2 in": ("2", None, False, True),
}


@pytest.mark.parametrize("written", BANDS)
def test_bands_are_closed_and_open_as_written(written: str) -> None:
    """Each heading comes to the interval that its words say."""
    interval = table_of(f"table t in in\n  by pipe size\n  {written} | 1").axes[0].bands[0].interval
    assert isinstance(interval, Interval)
    ends = [end.inches if isinstance(end, NominalSize) else None for end in (interval.low, interval.high)]
    low, high, low_closed, high_closed = BANDS[written]
    assert ends == [low and int(low), high and int(high)]
    assert interval.low is None or interval.low_closed is low_closed
    assert interval.high is None or interval.high_closed is high_closed


def test_cells_take_the_unit_of_the_table() -> None:
    """A number in a cell is in the unit of the table; a cell may state its own; a dash is not covered."""
    table = table_of("table t in mm\n  by service\n  steam | 25.4\n  chilled water | 1 in\n  heating hot water | -")
    values = [cell.value.value for (cell,) in table.cells if cell is not None and isinstance(cell.value, Quantity)]
    assert values == [pytest.approx(0.0254, rel=1e-12), pytest.approx(0.0254, rel=1e-12)]
    assert table.cells[2] == (None,)


# ---- vocabularies ------------------------------------------------------------------------------------------------


def vocabulary_of(folder: Path, body: str) -> Vocabulary:
    """Return the vocabulary with a body."""
    (folder / "own.clauses").write_text(f'vocabulary "own"\n{body}\n', encoding="utf-8")
    loaded = load_vocabulary(folder / "own.clauses")
    assert [str(found) for found in loaded.diagnostics] == []
    assert loaded.vocabulary is not None
    return loaded.vocabulary


def test_kind_is_the_longest_at_the_end_of_the_name(tmp_path: Path) -> None:
    """`temperature drop temperature difference` is a difference called temperature drop; quoted names hold keywords."""
    terms = vocabulary_of(
        tmp_path,
        "term temperature drop temperature difference\nterm pipe size nominal size\n"
        'term heat flow heat flow per length\nterm "distance to wall" length\nterm text text',
    ).terms
    assert {name: str(term.kind) for name, term in terms.items()} == {
        "temperature drop": "temperature difference",
        "pipe size": "nominal size",
        "heat flow": "heat flow per length",
        "distance to wall": "length",
        "text": "text",
    }


def test_term_says_all_that_it_is(tmp_path: Path) -> None:
    """Units, synonyms, meaning, heading, what none stands for, and whether it is computed, reach the core."""
    terms = vocabulary_of(
        tmp_path,
        'heading "Sizes"\nterm gap length in in, cm also "joint gap", "space" means "what is left" none is 0 in\n'
        'term spacing length none is unlimited\nheading "Worked out"\nterm loss heat flow computed',
    ).terms
    gap, spacing, loss = terms.values()
    assert (gap.heading, gap.inch_pound, gap.metric, gap.also) == ("Sizes", "in", "cm", ("joint gap", "space"))
    assert (gap.meaning, gap.none_is, gap.computed) == ("what is left", 0.0, False)
    assert spacing.none_is == math.inf
    assert (loss.heading, loss.computed, loss.inch_pound, loss.metric) == ("Worked out", True, "Btu/h", "W")
