"""Comparing two values: what is equal, less and more, and what is said of nominal sizes."""

from __future__ import annotations

import math
import tomllib
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from speccheck.judge.explain.causes import stand_in_text
from speccheck.judge.operations import NOMINAL_INCHES, Rules, compare
from speccheck.language.core import Relation
from speccheck.language.vocabulary.terms import Term, quantity_kind
from speccheck.language.vocabulary.values import read_value
from speccheck.quantities import ALL_SIZES, Quantity

CASES = tomllib.loads((Path(__file__).parent / "comparing.toml").read_text(encoding="utf-8"))["case"]


def quantity(text: str) -> Quantity:
    """Return a length or a temperature as a schedule states it."""
    kind = "temperature" if text[-1] in "FC" else "length"
    found = read_value(text, Term("it", quantity_kind(kind)))
    assert isinstance(found, Quantity), found
    return found


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["shows"])
def test_amounts_stand_to_one_another_as_stated(case: dict[str, Any]) -> None:
    """Exactly the stated relations stand; the note is there where a nominal size made the difference."""
    rules = Rules(**case.get("rules", {}))
    left, right = quantity(case["left"]), quantity(case["right"])
    found = {relation: compare(left, relation, right, rules) for relation in Relation}
    assert [str(relation) for relation, (stands, _) in found.items() if stands] == [
        str(relation) for relation in Relation if relation in case["stands"]
    ]
    plain = Rules(rules.tolerance)
    for relation, (stands, stand_in) in found.items():
        differs = stands is not compare(left, relation, right, plain)[0]
        assert (stand_in and stand_in_text(stand_in)) == (case["note"] if differs else None)


@pytest.mark.parametrize("relation", list(Relation))
def test_nominal_sizes_keep_the_order_of_their_list(relation: Relation) -> None:
    """Each two nominal pipe sizes stand to one another as their places in the list do."""
    meaning = {
        Relation.EQUAL: int.__eq__,
        Relation.NOT_EQUAL: int.__ne__,
        Relation.AT_LEAST: int.__ge__,
        Relation.AT_MOST: int.__le__,
        Relation.LESS_THAN: int.__lt__,
        Relation.MORE_THAN: int.__gt__,
    }[relation]
    for first, left in enumerate(ALL_SIZES):
        for second, right in enumerate(ALL_SIZES):
            assert compare(left, relation, right, Rules(tolerance=0.5)) == (meaning(first, second), None)


def test_unlimited_is_beyond_every_amount_and_equal_to_itself() -> None:
    """An amount without limit is more than any other one and neither more nor less than itself."""
    unlimited, some = Quantity(float("inf"), "length", "ft"), Quantity(1e300, "length", "ft")
    assert compare(unlimited, Relation.MORE_THAN, some, Rules()) == (True, None)
    assert compare(unlimited, Relation.EQUAL, unlimited, Rules()) == (True, None)
    assert compare(unlimited, Relation.MORE_THAN, unlimited, Rules()) == (False, None)


def test_nominal_metric_thicknesses_lie_near_the_inches_that_they_stand_for() -> None:
    """Each nominal size in mm is within 2.1 mm of its inches, or is these rounded; no inches have more than the two."""
    assert all(abs(millimetres - float(inches) * 25.4) < 2.1 for millimetres, inches in NOMINAL_INCHES.items())
    for inches in set(NOMINAL_INCHES.values()):
        sizes = [millimetres for millimetres, stood_for in NOMINAL_INCHES.items() if stood_for == inches]
        assert set(sizes[1:]) <= {math.floor(inches * Fraction("25.4") + Fraction(1, 2))}, sizes
        assert len(sizes) == len(set(sizes))
