"""Explaining: from the trace of an evaluation to steps of working and sentences with the values in them."""

from __future__ import annotations

from collections.abc import Iterable

from speccheck.engine.evaluating import Amounted, Outcome, TableUse, Unknown, place_in
from speccheck.engine.judgement import Step
from speccheck.language.core import (
    Amount,
    Comparison,
    Given,
    Holds,
    Includes,
    Inclusion,
    Literal,
    NamedAmount,
    NamedCondition,
    OneOf,
    Relation,
)
from speccheck.language.values import Single
from speccheck.language.wording import amount_text, condition_text, value_text
from speccheck.quantities import Quantity

RELATION_WORDS = {
    Relation.EQUAL: "",
    Relation.NOT_EQUAL: "other than ",
    Relation.AT_LEAST: "at least ",
    Relation.AT_MOST: "at most ",
    Relation.LESS_THAN: "less than ",
    Relation.MORE_THAN: "more than ",
}


class Explainer:
    """Explains outcomes with sizes written in one system of units ("inch-pound" or "metric")."""

    def __init__(self, system: str) -> None:
        self.system = system

    def steps(self, part: str, outcomes: Iterable[Outcome]) -> tuple[Step, ...]:
        """Return the working of the outcomes of one part of a clause, outer conditions first."""
        return tuple(step for outcome in outcomes for step in self._steps(part, outcome, 0))

    def _steps(self, part: str, outcome: Outcome, depth: int) -> Iterable[Step]:
        text = condition_text(outcome.node, be=part in ("shall", "should") and depth == 0, system=self.system)
        yield Step(part, depth, outcome.truth, text, "" if outcome.parts else self.fact(outcome))
        for inner in outcome.parts:
            yield from self._steps(part, inner, depth + 1)

    # ---- sentences -------------------------------------------------------------------------------

    def against(self, outcome: Outcome, *, required: bool) -> str:
        """Return why a condition does not hold; `required` words it as something that must hold."""
        if not outcome.parts:
            return self.fact(outcome, required=required)
        if isinstance(outcome.node, NamedCondition):
            return f"not {outcome.node.name}: {self.against(outcome.parts[0], required=required)}"
        failing = [part for part in outcome.parts if part.truth is False]
        if not failing:  # a negation whose part holds
            return f"{self.favour(outcome.parts[0])}, {'which is not allowed' if required else 'which is left out'}"
        return "; ".join(self.against(part, required=required) for part in failing)

    def favour(self, outcome: Outcome) -> str:
        """Return why a condition holds."""
        if not outcome.parts:
            return self.fact(outcome)
        if isinstance(outcome.node, NamedCondition):
            return f"{outcome.node.name}: {self.favour(outcome.parts[0])}"
        holding = [part for part in outcome.parts if part.truth is True]
        if not holding:
            return self.against(outcome.parts[0], required=False)
        return "; ".join(self.favour(part) for part in holding)

    def fact(self, outcome: Outcome, *, required: bool = False) -> str:
        """Return how the values of a condition without parts stand to one another."""
        if outcome.unknown:
            return "; ".join(unknown_text(unknown) for unknown in outcome.unknown)
        refused = " but must be " if required else " not "
        link = "," if outcome.truth else f",{refused.rstrip()}"
        match outcome.node:
            case Comparison():
                return self._comparison(outcome.node, outcome, link)
            case OneOf(amount, options):
                listed = ", ".join(value_text(option, self.system) for option in options)
                return f"{self._stated(amount, outcome.amounts[0])}{link} one of {listed}"
            case Includes():
                return self._includes(outcome.node, outcome)
            case Holds(term):
                return f"{term.name} is {'yes' if outcome.truth else 'no'}"
            case Given(term):
                return f"{term.name} is {'given' if outcome.truth else 'not given'}"
            case _:
                return condition_text(outcome.node, system=self.system)

    def _comparison(self, node: Comparison, outcome: Outcome, link: str) -> str:
        left, right = outcome.amounts
        stated = self._stated(node.left, left, right.value)
        if outcome.truth is (node.relation is Relation.EQUAL) and node.relation in (Relation.EQUAL, Relation.NOT_EQUAL):
            return (
                stated if isinstance(node.right, Literal) else f"{stated}, the same as {self._other(node.right, right)}"
            )
        return f"{stated}{link} {RELATION_WORDS[node.relation]}{self._other(node.right, right)}"

    def _stated(self, amount: Amount, found: Amounted, beside: Single | None = None) -> str:
        assert found.value is not None
        text = value_text(found.value, self.system) + _converted(found.value, beside)
        name = amount_text(amount, self.system)
        return f"{name} is {text}{_from_tables(found.uses)}" if not isinstance(amount, Literal) else text

    def _other(self, amount: Amount, found: Amounted) -> str:
        assert found.value is not None
        text = value_text(found.value, self.system)
        if isinstance(amount, Literal):
            return text
        if isinstance(amount, NamedAmount) and isinstance(amount.amount, Literal):
            return f"{text} ({amount.name})"
        if found.uses:
            return f"{text}{_from_tables(found.uses)}"
        return f"{text} ({amount_text(amount, self.system)})"

    def _includes(self, node: Includes, outcome: Outcome) -> str:
        value = outcome.amounts[0].value
        assert isinstance(value, frozenset)
        stated = f"{node.term.name} stated: {value_text(value, self.system)}"
        if node.inclusion is Inclusion.ALL:
            lacking = ", ".join(option for option in node.options if option not in value)
            return f"{stated}; lacking: {lacking}" if lacking else stated
        present = ", ".join(option for option in node.options if option in value)
        if node.inclusion is Inclusion.NONE:
            return f"{stated}; excluded: {present}" if present else stated
        return stated if present else f"{stated}; none of {', '.join(node.options)}"


def unknown_text(unknown: Unknown) -> str:
    """Return one missing datum or cause in words."""
    if not unknown.term:
        return unknown.why
    plain = unknown.why in ("", "blank", "not stated")
    return f"{unknown.term} is not given" + ("" if plain else f" ({unknown.why})")


def unknowns(outcomes: Iterable[Outcome]) -> tuple[Unknown, ...]:
    """Return what is missing in outcomes that are not known, each once, in the order in which it is met."""
    found: dict[Unknown, None] = {}
    for outcome in outcomes:
        if outcome.truth is None:
            found.update(dict.fromkeys(outcome.unknown))
            found.update(dict.fromkeys(unknowns(outcome.parts)))
    return tuple(found)


def table_uses(outcomes: Iterable[Outcome]) -> tuple[TableUse, ...]:
    """Return the table cells that went into outcomes."""
    found: dict[tuple[str, int, int], TableUse] = {}
    for outcome in outcomes:
        for amounted in outcome.amounts:
            for use in amounted.uses:
                found[use.table.name, use.row, use.column] = use
        for use in table_uses(outcome.parts):
            found[use.table.name, use.row, use.column] = use
    return tuple(found.values())


def notes(outcomes: Iterable[Outcome]) -> tuple[str, ...]:
    """Return the notes left by comparisons: nominal sizes that stood for others."""
    found: dict[str, None] = {}
    for outcome in outcomes:
        if outcome.note:
            found[outcome.note] = None
        found.update(dict.fromkeys(notes(outcome.parts)))
    return tuple(found)


def _from_tables(uses: Iterable[TableUse]) -> str:
    return "".join(f" ({use.table.name}, {place_in(use)})" for use in uses)


def _converted(value: Single, beside: Single | None) -> str:
    """Return the value in the unit of the value beside it, where the two differ."""
    if not isinstance(value, Quantity) or not isinstance(beside, Quantity) or value.unit == beside.unit:
        return ""
    if value.value in (float("inf"), float("-inf")):
        return ""
    return f" ({Quantity(value.value, value.dimension, beside.unit)})"
