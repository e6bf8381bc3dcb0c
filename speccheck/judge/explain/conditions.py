"""Explaining: from the trace of an evaluation to steps of working and sentences with the values in them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from enum import Enum

from speccheck.judge.cell import Step
from speccheck.judge.evaluation import ConditionOutcome, Said
from speccheck.judge.explain.amounts import Stating
from speccheck.judge.explain.causes import be, place_in, unknown_text
from speccheck.language.core import (
    AskedIf,
    CellSays,
    Comparison,
    Every,
    Given,
    Holds,
    Includes,
    Inclusion,
    Literal,
    NamedCondition,
    Negation,
    OneOf,
    OrEqual,
    Readings,
    Relation,
    Some,
    TermValue,
)
from speccheck.language.core.walking import terms_of
from speccheck.language.core.wording import condition_text, value_text

# How many values of a list a sentence names where one of them is met; the working names them all.
LISTED = 5


class Mood(Enum):
    """How to word a condition that does not hold: as a fact, as the clause's scope, as required, or as advised."""

    PLAIN = "plain"
    SCOPE = "scope"
    REQUIRED = "must"
    ADVISED = "should"

    @property
    def forbids(self) -> str:
        """What is said of a value that is not to be."""
        return "not recommended" if self is Mood.ADVISED else "not permitted"

    @property
    def asks(self) -> bool:
        """Whether the condition was asked for; the value of the mood is then the word for it."""
        return self in (Mood.REQUIRED, Mood.ADVISED)


class Explainer:
    """Explains outcomes with sizes written in one system of units ("inch-pound" or "metric").

    `instead` has the words to write for the value of a term, where a sentence is to stand for a whole range, and
    `worked_out` names the terms whose values nobody stated.
    """

    def __init__(
        self, system: str, instead: Mapping[str, str] | None = None, worked_out: frozenset[str] = frozenset()
    ) -> None:
        self.system = system
        self.worked_out = worked_out
        self.stating = Stating(system, instead or {}, worked_out)
        self._says_the_same = None if instead else (system, worked_out)

    def steps(self, part: str, outcomes: Iterable[ConditionOutcome]) -> tuple[Step, ...]:
        """Return the working of the outcomes of one part of a clause, outer conditions first."""
        return tuple([step for outcome in outcomes for step in self._steps_once(part, outcome)])

    def _steps_once(self, part: str, outcome: ConditionOutcome) -> tuple[Step, ...]:
        """Return the working of an outcome, which is written once for all cells that share it."""
        return self._once(outcome, part, lambda: tuple(self._steps(part, outcome, 0)))

    def _once(self, outcome: ConditionOutcome, what: str | Mood, say: Callable[[], Said]) -> Said:
        """Return something said of an outcome; what was said before, unless words of a range stand in it."""
        return say() if self._says_the_same is None else outcome.once((what, self._says_the_same), say)

    def _steps(self, part: str, outcome: ConditionOutcome, depth: int) -> Iterable[Step]:
        text = condition_text(outcome.node, be=part in ("shall", "should") and depth == 0, system=self.system)
        values = [amount.value for amount in outcome.amounts if amount.value is not None] if outcome.amounts else ()
        yield Step(part, depth, outcome.truth, text, "" if outcome.parts else self.fact(outcome), tuple(values))
        for inner in outcome.parts:
            yield from self._steps(part, inner, depth + 1)

    # ---- sentences -------------------------------------------------------------------------------

    def against(self, outcome: ConditionOutcome, mood: Mood) -> str:
        """Return why a condition does not hold."""
        match outcome.node:
            case NamedCondition(name):
                inner = Mood.PLAIN if mood is Mood.SCOPE else mood
                return f"not {name}: {self.against(outcome.parts[0], inner)}"
            case Negation():
                return self._against_negation(outcome.parts[0], mood)
            case Every():
                failing = [part for part in outcome.parts if part.truth is False]
                return "; ".join(self.against(part, mood) for part in failing)
            case Some():
                facts = "; ".join(self.against(part, Mood.PLAIN) for part in outcome.parts)
                return f"{_none_of(outcome.parts)} is met: {facts}" if mood.asks else facts
            case Readings():
                facts = "; by another reading ".join(self.against(part, mood) for part in outcome.parts)
                return f"by one reading {facts}"
            case AskedIf():
                return self._asked_if(outcome, [self.against(part, mood) for part in outcome.parts[1:]])
            case _:
                return self.fact(outcome, mood)

    def _asked_if(self, outcome: ConditionOutcome, facts: Sequence[str]) -> str:
        """Return what became of what is asked only by a condition, and why it is asked, or is not."""
        condition = outcome.parts[0]
        if condition.truth is None:
            return f"{' and '.join(facts)}, whichever of the two is asked" if len(facts) > 1 else facts[0]
        if outcome.node.by_table and facts:  # type: ignore[union-attr]
            return facts[0]
        why = self.favour(condition) if condition.truth else self.against(condition, Mood.PLAIN)
        return f"{facts[0]}, which is asked since {why}" if facts else f"nothing more is asked, since {why}"

    def _against_negation(self, part: ConditionOutcome, mood: Mood) -> str:
        """Return that the part of a negation holds."""
        if mood is Mood.PLAIN:
            return self.favour(part)
        if mood is Mood.SCOPE:
            if isinstance(part.node, NamedCondition):
                return f"the clause leaves out {self.favour(part)}"
            return f"{self.favour(part)}, which the clause leaves out"
        match part.node:
            case Holds(term):
                return f"{term.name} {be(term.name)} yes, but {mood.value} be no"
            case Given(term):
                return f"{term.name} {be(term.name)} given, but {mood.value} not be"
            case Comparison(_, Relation.EQUAL, _) | OneOf():
                return self._not_permitted(part, mood)
            case CellSays():
                return self.favour(part)
            case _:
                return f"this {mood.value} not hold, but does: {self.favour(part)}"

    def _not_permitted(self, part: ConditionOutcome, mood: Mood) -> str:
        """Return that a value is proposed that is not to be; of what may not be left out, that it is left out."""
        amount = part.amounts[0]
        if isinstance(part.node, Comparison) and isinstance(part.node.left, TermValue) and amount.value == "none":
            name, wanted = part.node.left.term.name, "recommended" if mood is Mood.ADVISED else "required"
            return f"no {name} proposed, {name} {wanted}"
        return f"{self.favour(part)}, {mood.forbids}"

    def favour(self, outcome: ConditionOutcome) -> str:
        """Return why a condition holds."""
        match outcome.node:
            case NamedCondition(name):
                return f"{name}: {self.favour(outcome.parts[0])}"
            case Negation():
                return self.against(outcome.parts[0], Mood.PLAIN)
            case Every():
                return self.all_hold(outcome.parts)
            case Some():
                return "; ".join(self.favour(part) for part in outcome.parts if part.truth is True)
            case AskedIf():
                return self._asked_if(outcome, [self.favour(part) for part in outcome.parts[1:]])
            case OrEqual():
                return self.favour(outcome.parts[0])
            case Readings():
                return "by one reading " + "; by another reading ".join(self.favour(part) for part in outcome.parts)
            case _:
                return self.fact(outcome)

    def all_hold(self, outcomes: Sequence[ConditionOutcome]) -> str:
        """Return why conditions that all hold do; two that hold one amount against two are one statement."""
        told = [outcome for outcome in outcomes if not _goes_without_saying(outcome, outcomes)]
        facts: list[str] = []
        for position, outcome in enumerate(told):
            if position and (limit := self._second_limit(told[position - 1], outcome)):
                facts[-1] += f" and {limit}"
            else:
                facts.append(self.favour(outcome))
        return "; ".join(facts)

    def _second_limit(self, first: ConditionOutcome, second: ConditionOutcome) -> str:
        """Return what the second of two comparisons of one amount adds to the first; "" where they are not such."""
        if not isinstance(first.node, Comparison) or not isinstance(second.node, Comparison):
            return ""
        if first.node.left != second.node.left or not (first.node.relation.is_limit and second.node.relation.is_limit):
            return ""
        stating = self.stating.apart(second.node.left, second.amounts[0], second.node.right, second.amounts[1])
        return second.node.relation.limit + stating.other(second.node.right, second.amounts[1])

    def fact(self, outcome: ConditionOutcome, mood: Mood = Mood.PLAIN) -> str:
        """Return how the values of a condition without parts stand to one another."""
        return self._once(outcome, mood, lambda: self._fact(outcome, mood))

    def _fact(self, outcome: ConditionOutcome, mood: Mood) -> str:
        if outcome.unknown:
            return unknown_text(outcome.unknown, self.system)
        asked = mood.asks and not outcome.truth
        link = f", but {mood.value} be" if asked else "," if outcome.truth else ", not"
        match outcome.node:
            case Comparison():
                return self._comparison(outcome.node, outcome, link, mood)
            case OneOf():
                return self._one_of(outcome.node, outcome, link)
            case Includes():
                return self._includes(outcome.node, outcome, mood)
            case Holds(term):
                answer = f"{term.name} {be(term.name)} {'yes' if outcome.truth else 'no'}"
                return answer + (f"{link} yes" if asked else "")
            case Given(term):
                answer = f"{term.name} {be(term.name)} {'given' if outcome.truth else 'not given'}"
                return answer + (link if asked else "")
            case CellSays(table, word):
                use = outcome.amounts[0].use
                at = f" at {place_in(use)}" if use is not None else ""
                return f"`{table.published_as}` {'says' if outcome.truth else 'does not say'} {word}{at}"
            case _:
                return condition_text(outcome.node, system=self.system)

    def _comparison(self, node: Comparison, outcome: ConditionOutcome, link: str, mood: Mood) -> str:
        left, right = outcome.amounts
        stating = self.stating.apart(node.left, left, node.right, right)
        stated = stating.stated(node.left, left, right.value)
        equal = outcome.truth is (node.relation is Relation.EQUAL)
        if node.relation.is_equality and equal:
            same = "" if isinstance(node.right, Literal) else f", the same as {stating.other(node.right, right)}"
            return self._not_permitted(outcome, mood) if link.endswith("be") else stated + same
        words = "not " if outcome.truth and node.relation is Relation.NOT_EQUAL else node.relation.limit
        if link.endswith(" be") and words.startswith("not "):
            link, words = f"{link.removesuffix('be')}not be", words.removeprefix("not ")
        elif link.endswith(" not") and words.startswith("not "):  # what is not "not within" is within
            link, words = link.removesuffix(" not"), words.removeprefix("not ")
        return f"{stated}{link} {words}{stating.other(node.right, right)}"

    def _one_of(self, node: OneOf, outcome: ConditionOutcome, link: str) -> str:
        found = outcome.amounts[0]
        stated = self.stating.among(node.amount, found, node.options).stated(node.amount, found)
        if outcome.truth and len(node.options) > LISTED:
            return stated
        options = ", ".join(value_text(option, self.system) for option in node.options)
        return f"{stated}{link} one of {options}"

    def _includes(self, node: Includes, outcome: ConditionOutcome, mood: Mood) -> str:
        value = outcome.amounts[0].value
        assert isinstance(value, frozenset)
        stated = f"{node.term.name} stated: {value_text(value, self.system)}"
        if outcome.truth:
            return stated
        if node.inclusion is Inclusion.ALL:
            return f"{stated}; lacking: {', '.join(option for option in node.options if option not in value)}"
        if node.inclusion is Inclusion.ANY:
            return f"{stated}; lacking any of {', '.join(node.options)}"
        present = ", ".join(option for option in node.options if option in value)
        verdict = {Mood.REQUIRED: "not allowed", Mood.ADVISED: "advised against"}.get(mood, "among them")
        return f"{stated}; {verdict}: {present}"


def _none_of(alternatives: Sequence[ConditionOutcome]) -> str:
    return "neither alternative" if len(alternatives) == 2 else f"none of {len(alternatives)} alternatives"


def _goes_without_saying(outcome: ConditionOutcome, others: Iterable[ConditionOutcome]) -> bool:
    """Say whether an outcome tells that a term is given of which another one tells the value."""
    node = outcome.node
    return isinstance(node, Given) and any(
        node.term in terms_of([other.node]) for other in others if not isinstance(other.node, Given)
    )
