"""Relations between lines, checked: the same jacket on fittings as on their pipe, a line for each valve, a total.

Each finding names the lines that it is of. Nothing depends on the order of lines. What a line does not state leaves it
open whether it belongs to another one, and what the two have in common: that is never a pass and never a fail.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from speccheck.english import count, first_of, listed, noun
from speccheck.judge import Judge, Verdict
from speccheck.judge.logic import Truth, every
from speccheck.judge.operations import Rules, bare, compare
from speccheck.language.core import (
    Clause,
    Comparison,
    Condition,
    ExceptionPart,
    LineRelation,
    Literal,
    Relation,
    Ruleset,
    Some,
)
from speccheck.language.core.relations import AnyRelation
from speccheck.language.core.wording import value_text
from speccheck.language.vocabulary.terms import Term, fold
from speccheck.language.vocabulary.values import NotGiven, Single, Value
from speccheck.quantities import Interval, Quantity
from speccheck.schedule.lines import Line

MOST_NAMED = 8


@dataclass(frozen=True, slots=True)
class RelationFinding:
    """How lines stand to one another by a paragraph: which lines, the verdict, and why."""

    relation: LineRelation
    lines: tuple[str, ...]
    verdict: Verdict
    reason: str


def relations_of(ruleset: Ruleset, lines: Sequence[Line]) -> tuple[RelationFinding, ...]:
    """Return how the lines of a schedule stand to one another by each relation of a ruleset.

    What fails and what cannot be determined is told of each pair, line or group; what complies is told once.
    """
    return tuple(finding for one in ruleset.relations for finding in _of_relation(ruleset, one, lines))


def _of_relation(ruleset: Ruleset, relation: LineRelation, lines: Sequence[Line]) -> Iterator[RelationFinding]:
    checked = _Checked(relation, ruleset, lines)
    found = list(checked.findings())
    kept = [one for one in found if one.verdict in (Verdict.FAILS, Verdict.CANNOT_TELL)]
    yield from kept
    met = [one for one in found if one.verdict is Verdict.COMPLIES]
    if met:
        names = tuple(dict.fromkeys(name for one in met for name in one.lines))
        yield RelationFinding(relation, names, Verdict.COMPLIES, f"{count(len(met), 'comparison')} of lines made")
    if not found:
        yield RelationFinding(relation, (), Verdict.NOT_APPLICABLE, "no lines of the schedule belong together by it")


@dataclass(frozen=True, slots=True)
class _Member:
    """A line and whether the relation is of it."""

    line: Line
    truth: Truth


class _Checked:
    """One relation over the lines of a schedule."""

    def __init__(self, relation: LineRelation, ruleset: Ruleset, lines: Sequence[Line]) -> None:
        self.relation = relation
        self.rules = Rules.of(ruleset)
        self.lines = _members(ruleset, relation.scope, relation.exceptions, lines)
        self.beside = _members(ruleset, relation.beside, (), lines) if relation.beside else self.lines

    def findings(self) -> Iterator[RelationFinding]:
        """Yield what is found of each pair, line or group."""
        if self.relation.total is not None:
            return self._totals(self.relation.total)
        return self._lines_beside() if self.relation.has_line else self._pairs()

    def _finding(self, lines: Iterable[Line], truth: Truth, reason: str) -> RelationFinding:
        verdict = {True: Verdict.COMPLIES, False: Verdict.FAILS, None: Verdict.CANNOT_TELL}[truth]
        return RelationFinding(self.relation, tuple(line.name for line in lines), verdict, reason)

    # ---- the same -------------------------------------------------------------------------------------------------

    def _pairs(self) -> Iterator[RelationFinding]:
        """Yield for each two lines that belong together, or may, whether they state the same."""
        for one, other in self._two():
            belong, why = self._belong(one, other)
            if belong is False:
                continue
            compared = [(term, self._equal(term, one.line, other.line)) for term in self.relation.same]
            same = every(truth for _, truth in compared)
            truth = same if belong is True or same is True else None
            told = [self._told(term, one.line, other.line) for term, equal in compared if equal is same]
            yield self._finding(
                (one.line, other.line), truth, "; ".join([*told, *([why] if why and truth is None else [])])
            )

    def _two(self) -> Iterator[tuple[_Member, _Member]]:
        """Yield two lines at a time, each two once: of the lines of the relation, or one of them and one beside it."""
        if not self.relation.beside:
            yield from combinations(self.lines, 2)
            return
        met: set[frozenset[int]] = set()
        for one in self.lines:
            for other in self.beside:
                pair = frozenset((id(one.line), id(other.line)))
                if len(pair) == 2 and pair not in met:
                    met.add(pair)
                    yield one, other

    def _told(self, term: Term, one: Line, other: Line) -> str:
        words = [_stated(line, term) for line in (one, other)]
        if words[0] == words[1]:
            return f"{term.name} {words[0]} on both"
        return f"{term.name} {words[0]} on {one.name}, {words[1]} on {other.name}"

    # ---- a line beside each ---------------------------------------------------------------------------------------

    def _lines_beside(self) -> Iterator[RelationFinding]:
        """Yield for each line whether another one stands beside it that belongs to it."""
        for one in self.lines:
            others = [(other, self._belong(one, other)) for other in self.beside if other.line is not one.line]
            sure = [other.line for other, (truth, _) in others if truth is True]
            doubtful = [(other.line, why) for other, (truth, why) in others if truth is None]
            if sure:
                yield self._finding((one.line, *sure), True, f"{listed(line.name for line in sure)} beside it")
            elif doubtful:
                names = f"{noun(len(doubtful), 'line')} {first_of([line.name for line, _ in doubtful], MOST_NAMED)}"
                whys = "; ".join(dict.fromkeys(why for _, why in doubtful))
                yield self._finding([one.line], None, f"it is not known whether {names} stands beside it: {whys}")
            else:
                truth = False if one.truth is True else None
                doubt = "" if one.truth is True else ", and it is not known whether the line needs one"
                yield self._finding([one.line], truth, f"no line of the schedule stands beside it{doubt}")

    # ---- totals ---------------------------------------------------------------------------------------------------

    def _totals(self, total: Comparison) -> Iterator[RelationFinding]:
        """Yield for each group of lines that belong together what they come to."""
        groups: dict[frozenset[int], tuple[list[_Member], list[_Member]]] = {}
        for one in self.lines:
            if one.truth is not True:
                continue
            truths = [(other, True if other is one else self._belong(one, other)[0]) for other in self.lines]
            sure = [other for other, truth in truths if truth is True]
            groups.setdefault(frozenset(id(other.line) for other in sure), (sure, [o for o, t in truths if t is None]))
        for sure, doubtful in groups.values():
            yield self._total(total, sure, doubtful)

    def _total(self, total: Comparison, sure: Sequence[_Member], doubtful: Sequence[_Member]) -> RelationFinding:
        term, limit = total.left.term, total.right  # type: ignore[union-attr]
        assert isinstance(limit, Literal), total
        ends = [_ends(_value(one.line, term)) for one in sure]
        more = [_ends(_value(one.line, term))[1] for one in doubtful]
        low, high = sum(end[0] for end in ends), sum(end[1] for end in ends) + sum(more)
        truths = {self._meets(number, total.relation, limit.value) for number in (low, high)}
        truth = truths.pop() if len(truths) == 1 else None
        limited = f"{total.relation.behind('').strip()} {value_text(limit.value)}"
        words = f"{term.name} comes to {self._words(low, high, limit.value)}, to be {limited}"
        silent = [one.line.name for one in sure if isinstance(_value(one.line, term), NotGiven)]
        whys = [f"{term.name} is not given on {first_of(silent, MOST_NAMED)}"] if silent else []
        if doubtful:
            names = first_of([one.line.name for one in doubtful], MOST_NAMED)
            whys.append(f"it is not known whether {names} belongs to it")
        return self._finding([one.line for one in sure], truth, "; ".join([words, *(whys if truth is None else [])]))

    def _meets(self, number: float, relation: AnyRelation, limit: Single) -> bool:
        assert isinstance(relation, Relation), relation
        value = replace(limit, value=number) if isinstance(limit, Quantity) else number
        return compare(value, relation, limit, self.rules)[0]

    def _words(self, low: float, high: float, like: Single) -> str:
        told = [value_text(replace(like, value=end) if isinstance(like, Quantity) else end) for end in (low, high)]
        if low == high:
            return told[0]
        return f"{told[0]} or more" if math.isinf(high) else f"{told[0]} to {told[1]}"

    # ---- which lines belong together ------------------------------------------------------------------------------

    def _belong(self, one: _Member, other: _Member) -> tuple[Truth, str]:
        """Return whether two lines belong together, and why that is not known."""
        truths = [(term, _overlap(term, one.line, other.line)) for term in self.relation.alike]
        found = every((one.truth, other.truth, *(truth for _, truth in truths)))
        if found is not None:
            return found, ""
        silent = [
            f"{term.name} is not given on {line.name}"
            for term, truth in truths
            if truth is None
            for line in (one.line, other.line)
            if isinstance(_value(line, term), NotGiven)
        ]
        unsure = [f"it is not known whether it is of {m.line.name}" for m in (one, other) if m.truth is None]
        return None, "; ".join(dict.fromkeys([*silent, *unsure]))

    def _equal(self, term: Term, one: Line, other: Line) -> Truth:
        """Return whether two lines state the same for a term; of ranges only what lies apart is known to differ."""
        first, second = _value(one, term), _value(other, term)
        if isinstance(first, NotGiven) or isinstance(second, NotGiven):
            return None
        if isinstance(first, Interval) or isinstance(second, Interval):
            return None if _meet(first, second) else False
        if isinstance(first, str) and isinstance(second, str):
            return fold(first) == fold(second)
        return compare(first, Relation.EQUAL, second, self.rules)[0]


def _members(
    ruleset: Ruleset, scope: tuple[Condition, ...], exceptions: tuple[ExceptionPart, ...], lines: Sequence[Line]
) -> list[_Member]:
    """Return the lines that meet some conditions, or may; the judge is asked by a clause that no line can meet."""
    clause = Clause("1", "", ruleset.name, label="1", scope=scope, exceptions=exceptions, shall=(Some(()),))
    judge = Judge(replace(ruleset, clauses=(clause,)))
    known: dict[Verdict, Truth] = {Verdict.FAILS: True, Verdict.NOT_APPLICABLE: False}
    truths = [known.get(judge.cell(0, line).verdict) for line in lines]
    return [_Member(line, truth) for line, truth in zip(lines, truths, strict=True) if truth is not False]


def _value(line: Line, term: Term) -> Value | NotGiven:
    datum = line.data.get(term.name)
    return NotGiven("", "not stated") if datum is None else datum.value


def _stated(line: Line, term: Term) -> str:
    value = _value(line, term)
    return "not given" if isinstance(value, NotGiven) else line.data[term.name].text


def _overlap(term: Term, one: Line, other: Line) -> Truth:
    """Return whether the values of two lines for a term meet: the same value, or ranges that share one."""
    first, second = _value(one, term), _value(other, term)
    if isinstance(first, NotGiven) or isinstance(second, NotGiven):
        return None
    return _meet(first, second)


def _meet(first: Value, second: Value) -> bool:
    if isinstance(first, str) and isinstance(second, str):
        return fold(first) == fold(second)
    if isinstance(first, Interval) or isinstance(second, Interval):
        (low, high), (other_low, other_high) = _ends(first), _ends(second)
        return low <= other_high and other_low <= high
    return compare(first, Relation.EQUAL, second, Rules())[0]


def _ends(value: Value | NotGiven) -> tuple[float, float]:
    """Return the least and the greatest that an amount can be; what is not given is anything from 0 on."""
    if isinstance(value, NotGiven):
        return 0.0, math.inf
    if isinstance(value, Interval):
        low = -math.inf if value.low is None else bare(value.low)
        return low, math.inf if value.high is None else bare(value.high)
    return bare(value), bare(value)
