"""The judge: one clause on one line, with its reasons. Slow and plain; what it says is what the language means.

In: a `Clause` and a `Line`. Out: a `Cell`. A line that covers a range of sizes or temperatures is judged at each size
and at each temperature where the verdict could change; the worst of these verdicts is that of the line.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from speccheck.judge import logic
from speccheck.judge.aggregate import sum_up
from speccheck.judge.breakpoints import breakpoints
from speccheck.judge.completing import Completed, Needs, complete, complete_all, needs_of
from speccheck.judge.evaluation import NOT_STATED, Case, Outcome, evaluate
from speccheck.judge.explaining import table_uses
from speccheck.judge.judgement import AssumedValue, Basis, Cell, Verdict
from speccheck.judge.lookup import TableUse
from speccheck.judge.operations import Rules
from speccheck.judge.runs import Varied
from speccheck.language.core import Clause, Condition, Ruleset
from speccheck.language.core.walking import conditions_of
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import NotGiven, Value
from speccheck.physics.working import Working
from speccheck.quantities import Interval
from speccheck.schedule.expanding import CASES_LIMIT, cases_of
from speccheck.schedule.lines import Line

TOO_MANY = f"the ranges of the line stand for more than {CASES_LIMIT:,} cases; split the line"


@dataclass(slots=True)
class Judgement:
    """One clause on one case: the verdict, by which rule it came about, and the outcomes of all parts.

    `varied` has the sizes and temperatures of the case, where its line covers a range. `case` has all that was known,
    what was assumed and worked out included; `notes` and `workings` say how that came about. `assumed` are the
    values without which the verdict would be open.
    """

    verdict: Verdict
    basis: Basis
    scope: tuple[Outcome, ...]
    exceptions: tuple[Outcome, ...]
    shall: tuple[Outcome, ...]
    should: tuple[Outcome, ...] = ()
    advice: Verdict | None = None
    varied: Varied = ()
    notes: tuple[str, ...] = ()
    assumed: tuple[AssumedValue, ...] = ()
    workings: tuple[Working, ...] = ()
    case: Case = field(default_factory=dict)
    judged_only: tuple[Outcome, ...] = ()

    @property
    def uses(self) -> tuple[TableUse, ...]:
        """The table cells that were looked up."""
        return table_uses((*self.scope, *self.exceptions, *self.shall, *self.should))

    @property
    def worked_out(self) -> frozenset[str]:
        """The names of the terms whose values were worked out."""
        return frozenset(working.name for working in self.workings if working.value is not None)


@dataclass(frozen=True)
class _Reading:
    """What is worked out once for each clause: its conditions, and what they and its scope alone need of a line."""

    conditions: tuple[Condition, ...]
    needs: Needs
    scope_needs: Needs


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
    _cells: dict[tuple[int, tuple[Value | NotGiven, ...]], Cell] = field(default_factory=dict)
    _outside: dict[tuple[int, tuple[Value | NotGiven, ...]], Cell | None] = field(default_factory=dict)

    @cached_property
    def rules(self) -> Rules:
        """How the ruleset compares values."""
        return Rules(self.ruleset.tolerance, self.ruleset.nominal_metric, self.ruleset.units)

    @cached_property
    def _readings(self) -> tuple[_Reading, ...]:
        return tuple(
            _Reading(conditions_of(clause), self._needs(conditions_of(clause)), self._needs(clause.scope))
            for clause in self.ruleset.clauses
        )

    @cached_property
    def _reading_of(self) -> dict[int, _Reading]:
        """The same by the identity of the clauses, because hashing a clause means hashing all that is in it."""
        return {id(clause): reading for clause, reading in zip(self.ruleset.clauses, self._readings, strict=True)}

    def may_assume(self, number: int, line: Line) -> bool:
        """Say whether clause `number` may take something that the ruleset assumes, as the line does not state it."""
        assumed = (line.data.get(one.term.name) for one in self._readings[number].needs.assumptions)
        return any(datum is None or isinstance(datum.value, NotGiven) for datum in assumed)

    def _needs(self, conditions: Sequence[Condition]) -> Needs:
        return replace(needs_of(conditions, self.ruleset), as_stated=self.as_stated)

    def cell(self, number: int, line: Line) -> Cell:
        """Return what clause `number` (its place in the ruleset) makes of a line."""
        clause, reading = self.ruleset.clauses[number], self._readings[number]
        key = (number, _stated(line, reading.scope_needs.terms))
        if key not in self._outside:
            self._outside[key] = self._cell_outside(clause, reading, line)
        outside = self._outside[key]
        if outside is not None:
            return outside
        key = (number, _stated(line, reading.needs.terms))
        if key not in self._cells:
            judgements = self._judgements(clause, reading.conditions, reading.needs, line)
            self._cells[key] = self._cell(clause, judgements, line)
        return self._cells[key]

    def _cell_outside(self, clause: Clause, reading: _Reading, line: Line) -> Cell | None:
        """Return the cell of a line that is out of the scope of a clause in all its cases, None for any other line."""
        bare = replace(clause, exceptions=(), judged_only=())
        judgements = self._judgements(bare, clause.scope, reading.scope_needs, line)
        if not judgements or any(one.basis is not Basis.OUT_OF_SCOPE or one.assumed for one in judgements):
            return None
        return self._cell(clause, judgements, line)

    def _cell(self, clause: Clause, judgements: Sequence[Judgement], line: Line) -> Cell:
        if not judgements:
            return _too_many(clause)
        stated = {name: line.data[name].value for name, _ in judgements[0].varied}
        return sum_up(clause, judgements, stated, self.ruleset.units)

    def row(self, line: Line) -> tuple[Cell, ...]:
        """Return what each clause of the ruleset makes of a line."""
        return tuple(self.cell(number, line) for number in range(len(self.ruleset.clauses)))

    def judgements(self, clause: Clause, line: Line) -> tuple[Judgement, ...]:
        """Return the judgement of each case of a line by a clause; none where there are too many cases."""
        reading = self._reading_of.get(id(clause))
        if reading is None:
            conditions = conditions_of(clause)
            return self._judgements(clause, conditions, self._needs(conditions), line)
        return self._judgements(clause, reading.conditions, reading.needs, line)

    def _judgements(
        self, clause: Clause, conditions: Sequence[Condition], needs: Needs, line: Line
    ) -> tuple[Judgement, ...]:
        stated = {term.name: line.data[term.name].value for term in needs.terms if term.name in line.data}
        if not any(isinstance(value, Interval) for value in stated.values()):
            return self._judge_all(clause, [(stated, ())], needs)  # type: ignore[list-item]
        cases = cases_of(line, needs.terms, breakpoints((*conditions, *needs.scopes), stated, self.rules, needs.inputs))
        if cases is None:
            return ()
        return self._judge_all(clause, [(case.values, case.varied) for case in cases], needs)

    def _judge_all(self, clause: Clause, cases: Sequence[tuple[Case, Varied]], needs: Needs) -> tuple[Judgement, ...]:
        """Return the judgement of each case, completed with what is assumed and worked out."""
        judged = []
        for whole, (bare, varied) in zip(
            complete_all([case for case, _ in cases], needs, self.rules), cases, strict=True
        ):
            one = judge_case(clause, whole.case, self.rules, varied)
            if whole.notes or whole.workings:
                stands_on = self._stands_on(clause, one, whole, bare, needs)
                one = replace(one, notes=whole.notes, assumed=stands_on, workings=whole.workings, case=whole.case)
            judged.append(one)
        return tuple(judged)

    def _stands_on(
        self, clause: Clause, judgement: Judgement, whole: Completed, bare: Case, needs: Needs
    ) -> tuple[AssumedValue, ...]:
        """Return the assumptions that a verdict stands on: all, where it would be open without them.

        A verdict that is the same whatever the value is stands on no assumption, and a fail is no pass to be told of.
        """
        if not whole.assumed or judgement.verdict not in (Verdict.COMPLIES, Verdict.NOT_APPLICABLE):
            return ()
        without = complete(bare, replace(needs, assumptions=()), self.rules)
        open_then = judge_case(clause, without.case, self.rules).verdict is Verdict.CANNOT_TELL
        return whole.assumed if open_then else ()


def _stated(line: Line, terms: Iterable[Term]) -> tuple[Value | NotGiven, ...]:
    """Return what a line states for terms."""
    data = line.data
    return tuple(data[term.name].value if term.name in data else NOT_STATED for term in terms)


def _too_many(clause: Clause) -> Cell:
    """Return the cell of a line whose ranges stand for more cases than are tried."""
    found = Cell(Verdict.CANNOT_TELL, Basis.NOT_KNOWN, TOO_MANY, mandatory=bool(clause.shall))
    return replace(found, advice=Verdict.CANNOT_TELL, advice_reason=TOO_MANY) if clause.should else found


def judge_case(clause: Clause, case: Case, rules: Rules, varied: Varied = ()) -> Judgement:
    """Return what a clause makes of a case, by the rules of the language.

    Out of scope: not applicable. What it is judged only with not stated: not checked.
    In scope and the requirement met: complies. In scope and not met: does not comply.
    Scope not known and the requirement met: complies, for it does either way. All else: cannot tell.
    """
    scope = _evaluate_all(clause.scope, case, rules)
    in_scope = logic.every(outcome.truth for outcome in scope)
    if in_scope is False:
        return Judgement(Verdict.NOT_APPLICABLE, Basis.OUT_OF_SCOPE, scope, (), (), varied=varied, advice=_none(clause))
    exceptions = _evaluate_all([part.condition for part in clause.exceptions], case, rules)
    excepted = logic.some(outcome.truth for outcome in exceptions)
    if excepted is True:
        return Judgement(
            Verdict.NOT_APPLICABLE, Basis.EXCEPTED, scope, exceptions, (), varied=varied, advice=_none(clause)
        )
    stated = _evaluate_all(clause.judged_only, case, rules)
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
    shall = _evaluate_all(clause.shall or clause.should, case, rules)
    should = _evaluate_all(clause.should, case, rules)
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


def _evaluate_all(conditions: Sequence[Condition], case: Case, rules: Rules) -> tuple[Outcome, ...]:
    return tuple(evaluate(condition, case, rules) for condition in conditions)


def judge_lines(ruleset: Ruleset, lines: Iterable[Line]) -> tuple[tuple[Cell, ...], ...]:
    """Return the cells of all lines: one row a line, one cell a clause."""
    judge = Judge(ruleset)
    return tuple(judge.row(line) for line in lines)
