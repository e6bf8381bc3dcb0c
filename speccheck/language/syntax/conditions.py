"""Conditions and amounts: from the parser's tree to the syntax tree."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from speccheck.language.syntax.builder import node, only_node, token
from speccheck.language.syntax.tree import (
    Adjustment,
    AmountSyntax,
    AskedIfSyntax,
    CalculationSyntax,
    Compared,
    ConditionSyntax,
    Including,
    Joined,
    Measure,
    Not,
    OrEqualSyntax,
    ReadAsSyntax,
    Stated,
    Words,
)

if TYPE_CHECKING:
    from speccheck.language.syntax.builder import Builder, Node

_DEGREES = re.compile(r"\s*(?:degrees?|deg\.?)\s+([FC])$")
RELATIONS = {
    "equal": "is",
    "not_equal": "is not",
    "at_least": "is at least",
    "at_most": "is at most",
    "less_than": "is less than",
    "more_than": "is more than",
    "between": "is between",
    "from_to_under": "is from to under",
    "over_to": "is over to",
    "within": "is within",
    "not_within": "is not within",
    "one_of": "is one of",
    "not_one_of": "is not one of",
    "given": "is given",
    "not_given": "is not given",
}
OPERATIONS = {
    "plus": "plus",
    "minus": "minus",
    "times": "times",
    "divided_by": "divided by",
    "larger": "larger of",
    "smaller": "smaller of",
}
INCLUSIONS = {"include_all": "include", "include_any": "include any of", "include_none": "exclude"}
JOINTS = {"every": "and", "some": "or", "readings": "or by another reading"}


def build_condition(builder: Builder, tree: Node) -> ConditionSyntax:
    """Return the syntax of a condition."""
    place = builder.place(tree)
    if tree.data in JOINTS:
        return Joined(JOINTS[tree.data], tuple(build_condition(builder, node(part)) for part in tree.children), place)
    if tree.data == "asked_if":
        asked, condition, *otherwise = (build_condition(builder, node(part)) for part in tree.children)
        return AskedIfSyntax(asked, condition, otherwise[0] if otherwise else None, place)
    if tree.data == "or_equal":
        parts = tuple(build_condition(builder, node(part)) for part in tree.children)
        return OrEqualSyntax(parts[0] if len(parts) == 1 else Joined("or", parts, place), place)
    if tree.data == "negation":
        return Not(build_condition(builder, only_node(tree)), place)
    if tree.data == "holds":
        return Stated(builder.phrase(only_node(tree)), place)
    if tree.data in INCLUSIONS:
        name, options = map(node, tree.children)
        return Including(builder.phrase(name), INCLUSIONS[tree.data], _options(builder, options), place)
    left, predicate = map(node, tree.children)
    return Compared(build_amount(builder, left), RELATIONS[predicate.data], _others(builder, predicate), place)


def _others(builder: Builder, predicate: Node) -> tuple[AmountSyntax, ...]:
    if predicate.data in ("one_of", "not_one_of"):
        return _options(builder, only_node(predicate))
    return tuple(build_amount(builder, node(child)) for child in predicate.children)


def _options(builder: Builder, tree: Node) -> tuple[Words | Measure, ...]:
    return tuple(
        builder.phrase(option) if option.data == "phrase" else build_measure(builder, option)
        for option in map(node, tree.children)
    )


def build_amount(builder: Builder, tree: Node) -> AmountSyntax:
    """Return the syntax of an amount."""
    if tree.data in OPERATIONS:
        left, right = (build_amount(builder, node(child)) for child in tree.children)
        return CalculationSyntax(OPERATIONS[tree.data], left, right, builder.place(tree))
    if tree.data == "adjusted":
        thickness, stated, proposed, diameter = (build_amount(builder, node(child)) for child in tree.children)
        return Adjustment(thickness, stated, proposed, diameter, builder.place(tree))
    if tree.data == "read_as":
        return _build_read_as(builder, tree)
    return build_measure(builder, tree) if tree.data == "quantity" else builder.phrase(only_node(tree))


def _build_read_as(builder: Builder, tree: Node) -> ReadAsSyntax:
    name, *readings = map(node, tree.children)
    pairs = [tuple(map(node, reading.children)) for reading in readings]
    values = tuple(
        (builder.phrase(term), builder.phrase(value) if value.data == "phrase" else build_measure(builder, value))
        for term, value in pairs
    )
    return ReadAsSyntax(builder.phrase(name), values, builder.place(tree))


def build_measure(builder: Builder, tree: Node) -> Measure:
    """Return the syntax of a quantity; "60 degrees F" is `60 F`."""
    text = _DEGREES.sub(r" \1", " ".join(str(token(tree.children[0])).split()))
    return Measure(text, len(tree.children) > 1, builder.place(tree))
