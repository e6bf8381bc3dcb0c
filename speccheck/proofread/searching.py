"""Searching: lines near the examples of a clause, tried until one comes out otherwise after a change.

Examples are taken as they stand, then with more and more of their data replaced: by what settles a condition that was
left out, by values at and between limits before and after the change, by every value worth a trial.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from speccheck.judge.evaluation import amount
from speccheck.judge.examples import comes_out
from speccheck.judge.judgement import BareVerdict, Verdict
from speccheck.language.core import (
    Assignment,
    Condition,
    Example,
    ExceptionPart,
    Expected,
    Ruleset,
    Table,
    TermValue,
)
from speccheck.language.core.walking import (
    Node,
    comparing_conditions,
    comparisons,
    conditions_of,
    inner,
    tables_of,
    terms_of,
    walk,
)
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import Single, read_value
from speccheck.proofread.trial_values import Texts, TrialValues
from speccheck.proofread.typing_errors import TypingError
from speccheck.proofread.verdicts import ClauseJudge
from speccheck.quantities import Misread, Quantity
from speccheck.schedule.lines import Datum, Line

EXPECTATIONS = {
    Verdict.COMPLIES: Expected.COMPLIES,
    Verdict.FAILS: Expected.FAILS,
    Verdict.NOT_CHECKED: Expected.NOT_CHECKED,
    Verdict.NOT_APPLICABLE: Expected.DOES_NOT_APPLY,
    Verdict.CANNOT_TELL: Expected.CANNOT_TELL,
}

# How many data the title of an example tells.
MOST_TOLD = 3


@dataclass(frozen=True)
class ProposedExample:
    """An example for the clause with this number in its ruleset, and the verdict that it would have after a change."""

    clause: int
    example: Example
    after: Verdict


class ExampleSearch:
    """The search for an example of one clause that comes out otherwise after a change."""

    def __init__(self, ruleset: Ruleset, changed: Ruleset, change: TypingError, number: int) -> None:
        self.number = number
        self.system = ruleset.units
        self.change = change
        self.clause = ruleset.clauses[number]
        self.before = ClauseJudge(ruleset, self.clause)
        self.after = ClauseJudge(changed, changed.clauses[number])
        self.conditions = conditions_of(self.clause)
        needed = [TermValue(term) for term in self.before.needs.terms]
        self.values = TrialValues((*self.conditions, *conditions_of(self.after.clause), *needed), ruleset)
        self.involved = [term.name for term in terms_of(_around(change, self.conditions))]

    def texts(self) -> Iterator[dict[str, str]]:
        """Yield lines to try as texts by term: examples with more and more of their data replaced."""
        bases = self._bases()
        edits = [{}, *self._turning()]
        everything = [name for name in self.values.terms if name not in self.involved]
        for edit in edits:
            for base in bases:
                yield merged(base, edit)
                yield from self._at_limits(merged(base, edit))
        for further in (self.involved, everything):
            for edit in edits:
                for base in bases:
                    for more in self.values.single(further):
                        yield merged(base, edit, more)
        for base in bases:
            for one in self.values.single(self.involved):
                yield from self._at_limits(merged(base, one))
                for other in self.values.single(self.values.terms):
                    yield merged(base, one, other)

    def _bases(self) -> list[dict[str, str]]:
        written = [{one.term.name: one.text for one in example.data} for example in self.clause.examples]
        found: list[dict[str, str]] = []
        for base in [*written, {}]:
            if base not in found and all(self._is_single(name, text) for name, text in base.items()):
                found.append(base)
        return found

    def _is_single(self, name: str, text: str) -> bool:
        return name not in self.values.terms or self.values.read(name, text) is not None

    def _turning(self) -> Iterator[Texts]:
        """Yield texts that settle the condition that is left out, either way."""
        condition = _condition(self.change)
        excepted = isinstance(self.change.old, ExceptionPart)
        if condition is not None:
            for truth in (excepted, not excepted):
                yield from self.values.ways(condition, truth)

    def _at_limits(self, texts: Mapping[str, str]) -> Iterator[dict[str, str]]:
        """Yield a line with a term at, or halfway between, what it is compared with before and after the change."""
        line = self._line(texts)
        if line is None:
            return
        before, after = self.before.case(line), self.after.case(line)
        pairs = zip(comparisons(self.conditions), comparisons(conditions_of(self.after.clause)), strict=False)
        for one, other in pairs:
            if isinstance(one.left, TermValue):
                limits = [
                    amount(node.right, case, self.before.rules).value for node, case in ((one, before), (other, after))
                ]
                for text in _between(limits):
                    yield merged(texts, {one.left.term.name: text})

    def tried(self, texts: Mapping[str, str]) -> ProposedExample | None:
        """Return the example that a line makes, where the change would give it another verdict.

        An example that states nothing cannot be written.
        """
        line = self._line(texts) if texts else None
        if line is None:
            return None
        cell, changed = self.before.verdict(line), self.after.verdict(line)
        expected = _expected(cell)
        data = tuple(Assignment(self._term(name), text) for name, text in texts.items())
        example = Example(self._title(texts), expected, data)
        return None if comes_out(example, changed) else ProposedExample(self.number, example, changed.verdict)

    def _line(self, texts: Mapping[str, str]) -> Line | None:
        data: dict[str, Datum] = {}
        for name, text in texts.items():
            value = read_value(text, self._term(name), self.values.bare)
            if isinstance(value, Misread):
                return None
            data[name] = Datum(value, text)
        return Line("", data)

    def _term(self, name: str) -> Term:
        return self.before.ruleset.vocabulary.terms[name]

    def _title(self, texts: Mapping[str, str]) -> str:
        """Return what sets a line apart: its data on the terms that the change is about."""
        told = [f"{name} {texts.get(name, 'not stated')}" for name in self.involved]
        title = ", ".join(told[:MOST_TOLD])
        return title if len(told) <= MOST_TOLD else f"{title} and more"


def merged(*texts: Mapping[str, str | None]) -> dict[str, str]:
    """Return texts of lines put together; later ones count, and None takes a text out."""
    joined = {name: text for one in texts for name, text in one.items()}
    return {name: text for name, text in joined.items() if text is not None}


def _expected(cell: BareVerdict) -> Expected:
    if cell.mandatory and cell.verdict is Verdict.COMPLIES and cell.advice is Verdict.FAILS:
        return Expected.COMPLIES_AGAINST_ADVICE
    return EXPECTATIONS[cell.verdict]


def _condition(change: TypingError) -> Condition | None:
    """Return the condition that a change leaves out."""
    if change.new is not None or isinstance(change.old, Table):
        return None
    return change.old.condition if isinstance(change.old, ExceptionPart) else change.old  # type: ignore[return-value]


def _around(change: TypingError, conditions: tuple[Condition, ...]) -> list[Node]:
    """Return the nodes whose terms a change is about: the condition itself, or the comparisons that it stands in."""
    condition = _condition(change)
    if condition is not None:
        return [condition]
    return [node for node in comparing_conditions(conditions) if _holds(node, change)]


def _holds(node: Condition, change: TypingError) -> bool:
    if isinstance(change.old, Table):
        return change.old in tables_of([node])
    return node is change.old or any(part is change.old for part in walk(inner(node)))


def _between(limits: list[Single | None]) -> Iterator[str]:
    """Yield texts of the amounts at and between two limits."""
    found = [limit for limit in limits if isinstance(limit, Quantity) and abs(limit.value) < 1e9]
    for limit in found:
        yield str(limit)
    if len(found) == 2 and found[0].value != found[1].value:
        middle = Quantity((found[0].value + found[1].value) / 2, found[0].dimension, found[0].unit)
        yield str(middle)
