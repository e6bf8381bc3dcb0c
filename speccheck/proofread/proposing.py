"""Proposing: the example that would notice a change which none of the examples of a ruleset notices.

It is sought near the examples that are there, so that it differs from one of them in as little as can be; where none
lies near, the regions of the clause before and after the change say whether there is one at all. What is proposed was
judged twice: by the clause as it is written, which gives the verdict that the example expects, and by the clause as it
would be after the change, which gives another one.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import islice

from speccheck.engine.evaluating import amount
from speccheck.engine.examples import comes_out, example_line
from speccheck.engine.judgement import Cell, Verdict
from speccheck.language.core import (
    Assignment,
    Comparison,
    Condition,
    Example,
    ExceptionPart,
    Expected,
    OneOf,
    Ruleset,
    Table,
    TermValue,
)
from speccheck.language.values import Single, read_value
from speccheck.language.vocabulary import Term
from speccheck.language.walking import Node, conditions_of, inner, tables_of, terms_of, walk
from speccheck.proofread.band_limits import same_cells
from speccheck.proofread.changes import Change
from speccheck.proofread.revisions import Revised, compare_revisions
from speccheck.proofread.settled import comparisons_in, is_plain
from speccheck.proofread.trial_values import Texts, TrialValues
from speccheck.proofread.verdicts import ClauseJudge
from speccheck.quantities import Misread, Quantity
from speccheck.submittal.lines import Datum, Line

EXPECTATIONS = {
    Verdict.COMPLIES: Expected.COMPLIES,
    Verdict.FAILS: Expected.FAILS,
    Verdict.NOT_APPLICABLE: Expected.DOES_NOT_APPLY,
    Verdict.CANNOT_TELL: Expected.CANNOT_TELL,
}

# How many data the title of an example tells.
MOST_TOLD = 3


@dataclass(frozen=True)
class Proposal:
    """An example for the clause with this number in its ruleset, and the verdict that it would have after a change."""

    clause: int
    example: Example
    after: Verdict


@dataclass(frozen=True)
class Answer:
    """What became of the search for one change: a proposal, or none.

    `same` says that there can be none: the clauses make the same of every line that states what they ask for.
    """

    change: Change
    proposal: Proposal | None
    same: bool = False


def answers(ruleset: Ruleset, changes: Iterable[Change], tries: int = 1_500) -> Iterator[Answer]:
    """Yield for each change an example that notices it; one that was proposed for an earlier change comes first."""
    proposed: list[Proposal] = []
    for change in changes:
        changed = change.applied(ruleset)
        earlier = (_noticing(changed, one) for one in proposed if one.clause in change.clauses)
        found = next((one for one in earlier if one is not None), None)
        if found is None:
            found = _near(ruleset, changed, change, tries)
        answer = Answer(change, found) if found is not None else _anywhere(ruleset, changed, change)
        proposed += [answer.proposal] if answer.proposal else []
        yield answer


def means_the_same(ruleset: Ruleset, change: Change) -> bool:
    """Say whether it was proved that a change turns no verdict on any line that states what its clauses ask for."""
    return _anywhere(ruleset, change.applied(ruleset), change).same


def _noticing(changed: Ruleset, proposal: Proposal) -> Proposal | None:
    """Return the proposal with its verdict after another change, None where it does not notice that one."""
    judge = ClauseJudge(changed, changed.clauses[proposal.clause])
    cell = judge.cell(example_line(proposal.example, changed.units))
    return None if comes_out(proposal.example, cell) else replace(proposal, after=cell.verdict)


def _near(ruleset: Ruleset, changed: Ruleset, change: Change, tries: int) -> Proposal | None:
    """Return an example near those that are there, None where so many tries for each clause show none.

    An example of which the clause can tell is preferred to one of which it cannot.
    """
    doubtful: Proposal | None = None
    for number in change.clauses:
        search = _Search(ruleset, changed, change, number)
        for texts in islice(search.texts(), tries):
            found = search.tried(texts)
            if found is not None and found.example.expected is not Expected.CANNOT_TELL:
                return found
            doubtful = doubtful or found
    return doubtful


def _anywhere(ruleset: Ruleset, changed: Ruleset, change: Change) -> Answer:
    """Return the example that the regions of a clause before and after a change come to.

    Clauses that compare amounts with one another have no regions that settle this, and are left open.
    """
    same = True
    for number in change.clauses:
        if isinstance(change.old, Table) and isinstance(change.new, Table) and same_cells(change.old, change.new):
            continue
        if not all(is_plain(one) for node in conditions_of(ruleset.clauses[number]) for one in comparisons_in(node)):
            same = False
            continue
        before = replace(ruleset, clauses=(ruleset.clauses[number],))
        after = replace(changed, clauses=(changed.clauses[number],))
        for revised in compare_revisions(before, after):
            same = False
            if isinstance(revised, Revised) and revised.example:
                search = _Search(ruleset, changed, change, number)
                found = search.tried({one.term.name: one.text for one in revised.example})
                if found is not None:
                    return Answer(change, found)
    return Answer(change, None, same)


class _Search:
    """The search for an example of one clause that comes out otherwise after a change."""

    def __init__(self, ruleset: Ruleset, changed: Ruleset, change: Change, number: int) -> None:
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
        pairs = zip(walk(self.conditions), walk(conditions_of(self.after.clause)), strict=False)
        for one, other in pairs:
            if isinstance(one, Comparison) and isinstance(other, Comparison) and isinstance(one.left, TermValue):
                limits = [
                    amount(node.right, case, self.before.rules).value for node, case in ((one, before), (other, after))
                ]
                for text in _between(limits):
                    yield merged(texts, {one.left.term.name: text})

    def tried(self, texts: Mapping[str, str]) -> Proposal | None:
        """Return the example that a line makes, where the change would give it another verdict.

        An example that states nothing cannot be written.
        """
        line = self._line(texts) if texts else None
        if line is None:
            return None
        cell, changed = self.before.cell(line), self.after.cell(line)
        expected = _expected(cell)
        data = tuple(Assignment(self._term(name), text) for name, text in texts.items())
        example = Example(self._title(texts), expected, data)
        return None if comes_out(example, changed) else Proposal(self.number, example, changed.verdict)

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


def _expected(cell: Cell) -> Expected:
    if cell.mandatory and cell.verdict is Verdict.COMPLIES and cell.advice is Verdict.FAILS:
        return Expected.COMPLIES_AGAINST_ADVICE
    return EXPECTATIONS[cell.verdict]


def _condition(change: Change) -> Condition | None:
    """Return the condition that a change leaves out."""
    if change.new is not None or isinstance(change.old, Table):
        return None
    return change.old.condition if isinstance(change.old, ExceptionPart) else change.old  # type: ignore[return-value]


def _around(change: Change, conditions: tuple[Condition, ...]) -> list[Node]:
    """Return the nodes whose terms a change is about: the condition itself, or the comparisons that it stands in."""
    condition = _condition(change)
    if condition is not None:
        return [condition]
    comparisons = [node for node in walk(conditions) if isinstance(node, Comparison | OneOf)]
    return [node for node in comparisons if _holds(node, change)]


def _holds(node: Comparison | OneOf, change: Change) -> bool:
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
