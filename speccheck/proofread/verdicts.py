"""Verdicts of one clause on many lines, by the judge, without reasons and working: for trying very many of them."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property

from speccheck.engine.breakpoints import breakpoints
from speccheck.engine.comparing import Rules
from speccheck.engine.completing import Needs, complete, needs_of
from speccheck.engine.evaluating import Case
from speccheck.engine.judgement import Basis, Cell, Verdict
from speccheck.engine.judging import Judgement, judge_case
from speccheck.engine.summing_up import WORST_FIRST
from speccheck.language.core import Clause, Ruleset
from speccheck.language.walking import conditions_of
from speccheck.quantities import Interval
from speccheck.submittal.expanding import cases_of
from speccheck.submittal.lines import Line


class ClauseJudge:
    """Judges lines by one clause of a ruleset; what the clause needs of a line is found out once."""

    def __init__(self, ruleset: Ruleset, clause: Clause) -> None:
        self.clause = clause
        self.ruleset = ruleset
        self.rules = Rules(ruleset.tolerance, ruleset.nominal_metric, ruleset.units)

    @cached_property
    def needs(self) -> Needs:
        """What the clause needs of a line."""
        return needs_of(conditions_of(self.clause), self.ruleset)

    def cell(self, line: Line) -> Cell:
        """Return the cell of a line with its verdicts alone."""
        judgements = list(self._judgements(line))
        mandatory = bool(self.clause.shall)
        if not judgements:
            return Cell(Verdict.CANNOT_TELL, Basis.NOT_KNOWN, "", mandatory=mandatory)
        verdict = worst(judgement.verdict for judgement in judgements)
        assert verdict is not None, judgements
        advice = worst(judgement.advice for judgement in judgements)
        return Cell(verdict, judgements[0].basis, "", advice=advice, mandatory=mandatory)

    def case(self, line: Line) -> Case:
        """Return what is known of a line that covers no range, with what is assumed and worked out."""
        stated = {name: datum.value for name, datum in line.data.items() if not isinstance(datum.value, Interval)}
        return complete(stated, self.needs, self.rules).case

    def _judgements(self, line: Line) -> Iterable[Judgement]:
        needs = self.needs
        stated = {term.name: line.data[term.name].value for term in needs.terms if term.name in line.data}
        single: Case = {name: value for name, value in stated.items() if not isinstance(value, Interval)}
        if len(single) == len(stated):
            return [self._judged(single)]
        nodes = (*conditions_of(self.clause), *needs.scopes)
        cases = cases_of(line, needs.terms, breakpoints(nodes, stated, self.rules, needs.inputs))
        return [] if cases is None else [self._judged(case.values) for case in cases]

    def _judged(self, case: Case) -> Judgement:
        return judge_case(self.clause, complete(case, self.needs, self.rules).case, self.rules)


def worst(verdicts: Iterable[Verdict | None]) -> Verdict | None:
    """Return the verdict that weighs most, None where there is none."""
    found = set(verdicts)
    return next((verdict for verdict in WORST_FIRST if verdict in found), None)
