"""Strategies for the values of terms: a few round ones of each kind, so that they often meet the limits of clauses.

The vocabulary is small and has at least two terms of each kind that can be compared with one another.
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from speccheck.language.vocabulary.terms import (
    CHOICE,
    COUNT,
    NUMBER,
    SET,
    SIZE,
    TEXT,
    YES_NO,
    Choice,
    Form,
    Kind,
    Term,
    Vocabulary,
    quantity_kind,
)
from speccheck.language.vocabulary.values import NotGiven, Single
from speccheck.quantities import NOMINAL_SIZES, Interval, Quantity
from tests.strategies.quantities import si

LENGTH = quantity_kind("length")
TEMPERATURE = quantity_kind("temperature")
DIFFERENCE = quantity_kind("temperature difference")
CONDUCTIVITY = quantity_kind("conductivity")
RESISTANCE = quantity_kind("thermal resistance")
RATIO = quantity_kind("ratio")

# Round numbers of each dimension by unit. Some stand for nearly the same amount in two units.
NUMBERS: dict[str, dict[str, tuple[str, ...]]] = {
    "length": {
        "in": ("1/2", "3/4", "1", "3/2", "2", "3", "36"),
        "mm": ("13", "25", "127/5", "38", "254/5"),
        "ft": ("1/2", "3"),
    },
    "temperature": {"F": ("-20", "40", "60", "75", "105", "140", "141"), "C": ("5", "24", "60", "80")},
    "temperature difference": {"F": ("5", "10", "35"), "K": ("5", "10")},
    "conductivity": {"Btu.in/(h.ft2.F)": ("23/100", "1/4", "27/100"), "W/(m.K)": ("36/1000", "4/100")},
    "thermal resistance": {"h.ft2.F/Btu": ("4", "6"), "m2.K/W": ("1",)},
    "ratio": {"%": ("5", "50", "90")},
}
WHOLE = (0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0)
PLAIN = (0.0, 0.5, 2.0, 10.0, 25.0, 50.0)
WORDS = ("Type 1", "Type 2", "as = is")
SIZES = tuple(size for size in NOMINAL_SIZES if Fraction(1, 2) <= size.inches <= 8)
MISSING = (NotGiven(), NotGiven("TBD", "to be settled later"), NotGiven("-", "a dash says nothing"))


@st.composite
def vocabularies(draw: st.DrawFn) -> Vocabulary:
    """Draw a vocabulary: two terms or more of each kind, with lists of different lengths."""

    def listed(name: str, kind: Kind) -> Term:
        names = ("aluminum", "PVC", "canvas", "none", "paint")[: draw(st.integers(2, 5))]
        return Term(name, kind, tuple(Choice(one) for one in names))

    quantities = {
        "thickness": LENGTH,
        "spacing": LENGTH,
        "operating temperature": TEMPERATURE,
        "ambient temperature": TEMPERATURE,
        "temperature drop": DIFFERENCE,
        "conductivity": CONDUCTIVITY,
        "proposed conductivity": CONDUCTIVITY,
        "installed R-value": RESISTANCE,
        "humidity": RATIO,
    }
    terms = [Term(name, kind) for name, kind in quantities.items()]
    terms += [Term("pipe size", SIZE), Term("branch size", SIZE), Term("fasteners", COUNT), Term("rows", COUNT)]
    terms += [Term("flame spread", NUMBER), Term("product", TEXT), Term("maker", TEXT)]
    terms += [listed("jacket", CHOICE), listed("finish", CHOICE), listed("stops", SET)]
    terms += [Term("outdoor", YES_NO), Term("heated", YES_NO)]
    terms[1] = Term("spacing", LENGTH, none_is=math.inf)
    return Vocabulary("drawn", {term.name: term for term in draw(st.permutations(terms))})


def singles(kind: Kind, term: Term | None = None) -> st.SearchStrategy[Single]:
    """Draw a value of a kind; choices and sets are those of `term`, whose spacing may have no limit."""
    match kind.form:
        case Form.QUANTITY:
            found = st.sampled_from(_quantities(kind.dimension))
            if term is not None and term.none_is == math.inf:
                return found | st.just(Quantity(math.inf, "length", "ft"))
            return found
        case Form.SIZE:
            return st.sampled_from(SIZES)
        case Form.COUNT:
            return st.sampled_from(WHOLE)
        case Form.NUMBER:
            return st.sampled_from(PLAIN)
        case Form.TEXT:
            return st.sampled_from(WORDS)
        case Form.YES_NO:
            return st.booleans()
        case Form.CHOICE:
            assert term is not None
            return st.sampled_from([choice.name for choice in term.choices])
        case Form.SET:
            assert term is not None
            return st.frozensets(st.sampled_from([choice.name for choice in term.choices]))


def _quantities(dimension: str) -> list[Quantity]:
    return [
        Quantity(si(Fraction(number), unit, dimension), dimension, unit)
        for unit, numbers in NUMBERS[dimension].items()
        for number in numbers
    ]


@st.composite
def intervals(draw: st.DrawFn, kind: Kind) -> Interval[Any]:
    """Draw a range of sizes, counts, numbers or quantities of a kind, with an end or two, each open or closed."""
    ends = draw(st.lists(singles(kind), min_size=2, max_size=2, unique_by=bare))
    low, high = sorted(ends, key=bare)
    bounded = draw(st.sampled_from(["both", "both", "low", "high"]))
    low_closed, high_closed = draw(st.booleans()), draw(st.booleans())
    if bounded == "low":
        return Interval(low, None, low_closed)
    if bounded == "high":
        return Interval(None, high, True, high_closed)
    return Interval(low, high, low_closed, high_closed)


def bare(value: Any) -> float:
    """Return the number to order values by: SI, or inches of a nominal size."""
    return float(getattr(value, "value", getattr(value, "inches", value)))
