"""The judge: one clause on one line, with its reasons. Slow and plain; what it says is what the language means.

In: a `Clause` and a `Line`. Out: a `Cell`. A line that covers a range of sizes or temperatures is judged at each size
and at each temperature where the verdict could change; the worst of these verdicts is that of the line.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import islice
from typing import TypeVar

from speccheck.judge import logic
from speccheck.judge.aggregate import sum_up
from speccheck.judge.breakpoints import Limits
from speccheck.judge.cell import Cell
from speccheck.judge.completing import Completed, Needs, complete_all, needs_of
from speccheck.judge.evaluation import NOT_STATED, Case
from speccheck.judge.judgement import Basis, Judgement, Varied, Verdict
from speccheck.judge.operations import Rules
from speccheck.judge.outcomes import Outcomes
from speccheck.language.core import Clause, Condition, Ruleset
from speccheck.language.core.walking import conditions_of
from speccheck.language.vocabulary.values import NotGiven, Value
from speccheck.quantities import Interval
from speccheck.schedule.expanding import cases_of
from speccheck.schedule.lines import Line

# From so many cases on, those that were gathered are worked out and judged.
TOGETHER = 2_000

Told = TypeVar("Told")


@dataclass(frozen=True)
class _Reading:
    """What is worked out once for a clause, or for its scope alone: its conditions, and what they need of a line."""

    clause: Clause
    conditions: tuple[Condition, ...]
    needs: Needs

    @cached_property
    def limits(self) -> Limits:
        """What of them and of the assumptions can set breakpoints."""
        return Limits.of((*self.conditions, *self.needs.scopes), self.needs.inputs)


_Key = tuple[int, tuple[Value | NotGiven, ...]]
_Cases = Sequence[tuple[Case, Varied]]


@dataclass(frozen=True)
class Judge:
    """Judges lines by the clauses of one ruleset.

    With `as_stated`, what a line states for a computed term stands where it cannot be worked out: proofreading asks
    what could be, and reviews never do.

    Lines that state the same for a clause are judged by it once; lines that state the same for its scope, and are out
    of it, share one cell whatever else they state.
    """

    ruleset: Ruleset
    as_stated: bool = False
    _cells: dict[_Key, Cell] = field(default_factory=dict)
    _outside: dict[_Key, Cell | None] = field(default_factory=dict)

    @cached_property
    def rules(self) -> Rules:
        """How the ruleset compares values."""
        return Rules.of(self.ruleset)

    @cached_property
    def _conditions(self) -> Outcomes:
        """What conditions came to on the cases so far."""
        return Outcomes(self.rules)

    @cached_property
    def _readings(self) -> tuple[_Reading, ...]:
        return tuple(self._read(clause) for clause in self.ruleset.clauses)

    @cached_property
    def _scopes(self) -> tuple[_Reading, ...]:
        """The same of the clauses without all but their scopes."""
        return tuple(
            _Reading(replace(clause, exceptions=(), judged_only=()), clause.scope, self._needs(clause.scope))
            for clause in self.ruleset.clauses
        )

    @cached_property
    def _reading_of(self) -> dict[int, _Reading]:
        """The same by the identity of the clauses, because hashing a clause means hashing all that is in it."""
        return {id(reading.clause): reading for reading in self._readings}

    def _read(self, clause: Clause) -> _Reading:
        conditions = conditions_of(clause)
        return _Reading(clause, conditions, self._needs(conditions))

    def _needs(self, conditions: Sequence[Condition]) -> Needs:
        return replace(needs_of(conditions, self.ruleset), as_stated=self.as_stated)

    def may_assume(self, number: int, line: Line) -> bool:
        """Say whether clause `number` may take something that the ruleset assumes, as the line does not state it."""
        assumed = (line.data.get(one.term.name) for one in self._readings[number].needs.assumptions)
        return any(datum is None or isinstance(datum.value, NotGiven) for datum in assumed)

    def cell(self, number: int, line: Line) -> Cell:
        """Return what clause `number` (its place in the ruleset) makes of a line."""
        return self.column(number, (line,))[0]

    def row(self, line: Line) -> tuple[Cell, ...]:
        """Return what each clause of the ruleset makes of a line."""
        return tuple(self.cell(number, line) for number in range(len(self.ruleset.clauses)))

    def column(self, number: int, lines: Sequence[Line]) -> tuple[Cell, ...]:
        """Return what clause `number` makes of each line; what is computed is worked out for many lines in one go."""
        outside = self._judged(number, self._scopes[number], lines, self._outside, self._cell_outside)
        rest = [line for line, cell in zip(lines, outside, strict=True) if cell is None]
        inside = iter(self._judged(number, self._readings[number], rest, self._cells, self._cell))
        return tuple(cell or next(inside) for cell in outside)

    def _judged(
        self,
        number: int,
        reading: _Reading,
        lines: Sequence[Line],
        known: dict[_Key, Told],
        told: Callable[[Clause, Sequence[Judgement], Line], Told],
    ) -> list[Told]:
        """Return what is told of each line; of lines that state the same, once."""
        keys = [_key(number, reading, line) for line in lines]
        fresh = {key: line for key, line in zip(reversed(keys), reversed(lines), strict=True) if key not in known}
        for (key, line), judgements in zip(fresh.items(), self._judgements(reading, fresh.values()), strict=True):
            known[key] = told(reading.clause, judgements, line)
        return [known[key] for key in keys]

    def _cell_outside(self, clause: Clause, judgements: Sequence[Judgement], line: Line) -> Cell | None:
        """Return the cell of a line that is out of the scope of a clause in all its cases, None for any other line."""
        return self._cell(clause, judgements, line) if _are_outside(judgements) else None

    def _cell(self, clause: Clause, judgements: Sequence[Judgement], line: Line) -> Cell:
        stated = {name: line.data[name].value for name, _ in judgements[0].varied} if judgements else {}
        return sum_up(clause, judgements, stated, self.ruleset.units)

    def judgements(self, clause: Clause, line: Line) -> tuple[Judgement, ...]:
        """Return the judgement of each case of a line by a clause; none where there are too many cases."""
        reading = self._reading_of.get(id(clause)) or self._read(clause)
        return next(self._judgements(reading, [line]))

    def needs(self, number: int) -> Needs:
        """Return what clause `number` needs of a line."""
        return self._readings[number].needs

    def scope_needs(self, number: int) -> Needs:
        """Return what the scope of clause `number` needs of a line."""
        return self._scopes[number].needs

    def is_out_of_scope(self, number: int, line: Line) -> bool:
        """Say whether a line is out of the scope of clause `number` in all its cases."""
        return _are_outside(next(self._judgements(self._scopes[number], [line], assumptions_told=False)))

    def state(self, number: int, line: Line, *, of_scope: bool = False) -> Hashable:
        """Return what clause `number`, or its scope, sees of a line: lines of the same state are judged alike by it."""
        return _key(number, (self._scopes if of_scope else self._readings)[number], line)

    def verdicts(self, number: int, lines: Iterable[Line]) -> Iterator[tuple[Judgement, ...]]:
        """Yield the judgements of each line by clause `number`, which say nothing of what they stand on."""
        return self._judgements(self._readings[number], lines, assumptions_told=False)

    def _judgements(
        self, reading: _Reading, lines: Iterable[Line], *, assumptions_told: bool = True
    ) -> Iterator[tuple[Judgement, ...]]:
        """Yield the judgements of the cases of each line."""
        for some in _together(self._cases(reading, line) for line in lines):
            cases = [case for one in some for case in one]
            judged = iter(self._judge_all(reading.clause, cases, reading.needs, assumptions_told))
            yield from (tuple(islice(judged, len(one))) for one in some)

    def _cases(self, reading: _Reading, line: Line) -> _Cases:
        """Return the cases of a line; none where there are too many."""
        needs = reading.needs
        stated = {term.name: line.data[term.name].value for term in needs.terms if term.name in line.data}
        if not any(isinstance(value, Interval) for value in stated.values()):
            return [(stated, ())]  # type: ignore[list-item]
        tried = reading.limits.breakpoints(stated, self.rules)
        return [(case.values, case.varied) for case in cases_of(line, needs.terms, tried) or ()]

    def _judge_all(self, clause: Clause, cases: _Cases, needs: Needs, assumptions_told: bool) -> list[Judgement]:
        """Return the judgement of each case, completed with what is assumed and worked out."""
        completed = complete_all([case for case, _ in cases], needs, self._conditions)
        judged = [
            judge_case(clause, whole.case, self._conditions, varied)
            for whole, (_, varied) in zip(completed, cases, strict=True)
        ]
        open_without = self._open_without(clause, judged, completed, cases, needs) if assumptions_told else set()
        for place, (one, whole) in enumerate(zip(judged, completed, strict=True)):
            if whole.notes or whole.workings:
                one.notes, one.workings, one.case = whole.notes, whole.workings, whole.case
                one.assumed = whole.assumed if place in open_without else ()
        return judged

    def _open_without(
        self, clause: Clause, judged: Sequence[Judgement], completed: Sequence[Completed], cases: _Cases, needs: Needs
    ) -> set[int]:
        """Return the places of the verdicts that stand on assumptions, for they would be open without them.

        A verdict that is the same whatever the value is stands on no assumption, and a fail is no pass to be told of.
        """
        passing = (Verdict.COMPLIES, Verdict.NOT_APPLICABLE)
        places = [n for n, one in enumerate(judged) if completed[n].assumed and one.verdict in passing]
        without = complete_all([cases[n][0] for n in places], replace(needs, assumptions=()), self._conditions)
        verdicts = (judge_case(clause, whole.case, self._conditions).verdict for whole in without)
        return {n for n, verdict in zip(places, verdicts, strict=True) if verdict is Verdict.CANNOT_TELL}


def _are_outside(judgements: Sequence[Judgement]) -> bool:
    """Say whether a line is out of scope in all its cases, and stands on no assumption that would be told of."""
    return bool(judgements) and all(one.basis is Basis.OUT_OF_SCOPE and not one.assumed for one in judgements)


def _together(cases: Iterable[_Cases]) -> Iterator[list[_Cases]]:
    """Yield the cases of some lines at a time: enough for the physics to work them out in one go, and no heap."""
    some: list[_Cases] = []
    count = 0
    for one in cases:
        some.append(one)
        count += len(one)
        if count >= TOGETHER:
            yield some
            some, count = [], 0
    yield some


def _key(number: int, reading: _Reading, line: Line) -> _Key:
    """Return the number of a clause and what a line states for it."""
    data = line.data
    return number, tuple(data[term.name].value if term.name in data else NOT_STATED for term in reading.needs.terms)


def judge_case(clause: Clause, case: Case, conditions: Outcomes, varied: Varied = ()) -> Judgement:
    """Return what a clause makes of a case, by the rules of the language.

    Out of scope: not applicable. What it is judged only with not stated: not checked.
    In scope and the requirement met: complies. In scope and not met: does not comply.
    Scope not known and the requirement met: complies, for it does either way. All else: cannot tell.
    """
    scope = conditions.of(clause.scope, case)
    in_scope = logic.every(outcome.truth for outcome in scope)
    if in_scope is False:
        return Judgement(Verdict.NOT_APPLICABLE, Basis.OUT_OF_SCOPE, scope, (), (), varied=varied, advice=_none(clause))
    exceptions = conditions.of([part.condition for part in clause.exceptions], case)
    excepted = logic.some(outcome.truth for outcome in exceptions)
    if excepted is True:
        return Judgement(
            Verdict.NOT_APPLICABLE, Basis.EXCEPTED, scope, exceptions, (), varied=varied, advice=_none(clause)
        )
    stated = conditions.of(clause.judged_only, case)
    if logic.every(outcome.truth for outcome in stated) is False:
        advice = Verdict.NOT_CHECKED if clause.should else None
        return Judgement(
            Verdict.NOT_CHECKED,
            Basis.NOT_STATED,
            scope,
            exceptions,
            (),
            varied=varied,
            advice=advice,
            judged_only=stated,
        )
    applies = logic.every((in_scope, logic.negation(excepted)))
    shall = conditions.of(clause.shall or clause.should, case)
    should = conditions.of(clause.should, case)
    verdict, basis = _verdict(applies, logic.every(outcome.truth for outcome in shall))
    advice = _verdict(applies, logic.every(outcome.truth for outcome in should))[0] if should else None
    return Judgement(verdict, basis, scope, exceptions, shall, should, advice, varied)


def _verdict(applies: logic.Truth, met: logic.Truth) -> tuple[Verdict, Basis]:
    if met is True:
        return Verdict.COMPLIES, Basis.MET if applies else Basis.MET_EITHER_WAY
    if met is False and applies:
        return Verdict.FAILS, Basis.NOT_MET
    return Verdict.CANNOT_TELL, Basis.NOT_KNOWN


def _none(clause: Clause) -> Verdict | None:
    return Verdict.NOT_APPLICABLE if clause.should else None


def judge_lines(
    ruleset: Ruleset, lines: Sequence[Line], numbers: Iterable[int] | None = None
) -> tuple[tuple[Cell, ...], ...]:
    """Return the cells of all lines: one row a line, one cell a clause.

    `numbers` are those of all clauses, for somebody who watches them go by.
    """
    judge = Judge(ruleset)
    columns = [judge.column(number, lines) for number in (numbers or range(len(ruleset.clauses)))]
    return tuple(tuple(column[row] for column in columns) for row in range(len(lines)))
