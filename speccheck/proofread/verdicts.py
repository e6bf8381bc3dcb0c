"""Verdicts on many lines without reasons, for trying very many of them; and those that turn from one edition to the
next.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property

from speccheck.judge import Judge
from speccheck.judge.aggregate import worst_of
from speccheck.judge.breakpoints import breakpoints
from speccheck.judge.cell import Cell
from speccheck.judge.completing import Needs, complete, needs_of
from speccheck.judge.evaluation import Case
from speccheck.judge.judgement import BareVerdict, Judgement, Verdict
from speccheck.judge.judging import judge_case
from speccheck.judge.operations import Rules
from speccheck.judge.outcomes import Outcomes
from speccheck.language.core import Clause, Ruleset
from speccheck.language.core.walking import conditions_of
from speccheck.proofread.matching import paired_editions
from speccheck.quantities import Interval
from speccheck.schedule.expanding import cases_of
from speccheck.schedule.lines import Line, Schedule


class ClauseJudge:
    """Judges lines by one clause of a ruleset; what the clause needs of a line is found out once."""

    def __init__(self, ruleset: Ruleset, clause: Clause) -> None:
        self.clause = clause
        self.ruleset = ruleset
        self.rules = Rules.of(ruleset)

    @cached_property
    def needs(self) -> Needs:
        """What the clause needs of a line."""
        return needs_of(conditions_of(self.clause), self.ruleset)

    @cached_property
    def _conditions(self) -> Outcomes:
        """What conditions came to on the cases so far."""
        return Outcomes(self.rules)

    def verdict(self, line: Line) -> BareVerdict:
        """Return the verdicts on a line, without how they came about."""
        judgements = list(self._judgements(line))
        mandatory = bool(self.clause.shall)
        if not judgements:
            return BareVerdict(Verdict.CANNOT_TELL, mandatory=mandatory)
        verdict = worst_of(judgement.verdict for judgement in judgements)
        assert verdict is not None, judgements
        advice = worst_of(judgement.advice for judgement in judgements)
        return BareVerdict(verdict, advice, mandatory)

    def case(self, line: Line) -> Case:
        """Return what is known of a line that covers no range, with what is assumed and worked out."""
        stated = {name: datum.value for name, datum in line.data.items() if not isinstance(datum.value, Interval)}
        return complete(stated, self.needs, self._conditions).case

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
        return judge_case(self.clause, complete(case, self.needs, self._conditions).case, self._conditions)


@dataclass(frozen=True, slots=True)
class TurnedVerdict:
    """A line and a clause with another verdict than before; None is that there was, or is, no such clause."""

    line: str
    label: str
    before: Verdict | None
    after: Verdict | None
    reason: str


def turned_verdicts(
    base: Ruleset,
    revised: Ruleset,
    before: Schedule,
    after: Schedule,
) -> tuple[TurnedVerdict, ...]:
    """Return the verdicts that turn, line by line; `before` and `after` are one schedule read for each ruleset.

    Clauses are paired as the comparison of editions pairs them: one that was only renumbered with what it was.
    """
    judges = Judge(base), Judge(revised)
    pairs = _pairs(base, revised)
    return tuple(
        turned
        for old, new in zip(before.lines, after.lines, strict=False)
        if old.name == new.name
        for turned in _turned(judges, pairs, old, new)
    )


def _pairs(base: Ruleset, revised: Ruleset) -> tuple[tuple[int | None, int | None], ...]:
    """Return the places of each clause before and after: of one number, replaced or renumbered; None for no clause."""
    places = paired_editions(base, revised)
    gone = sorted(set(range(len(base.clauses))) - set(places.values()))
    kept = ((places.get(place), place) for place in range(len(revised.clauses)))
    return (*kept, *((place, None) for place in gone))


def _turned(
    judges: tuple[Judge, Judge], pairs: tuple[tuple[int | None, int | None], ...], old: Line, new: Line
) -> Iterator[TurnedVerdict]:
    for places in pairs:
        cells = [_cell(judge, place, line) for judge, place, line in zip(judges, places, (old, new), strict=True)]
        verdicts = [Verdict.NOT_APPLICABLE if cell is None else cell.verdict for cell in cells]
        if verdicts[0] is verdicts[1]:
            continue
        label = judges[1].ruleset.clauses[places[1]].label if places[1] is not None else ""
        label = label or judges[0].ruleset.clauses[places[0] or 0].label
        reason = cells[1].reason if cells[1] is not None else "the clause is gone"
        yield TurnedVerdict(
            new.name, label, cells[0].verdict if cells[0] else None, cells[1].verdict if cells[1] else None, reason
        )


def _cell(judge: Judge, place: int | None, line: Line) -> Cell | None:
    return None if place is None else judge.cell(place, line)
