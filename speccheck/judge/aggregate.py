"""Summing up: from the judgements of all cases of a line to the one cell of the matrix."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

from speccheck.judge.evaluation import Outcome, Unknown, unknowns
from speccheck.judge.explaining import Explainer, Mood, notes, table_uses, unknown_text
from speccheck.judge.judgement import AssumedValue, Basis, Cell, Step, Verdict
from speccheck.judge.runs import Stated, holding, spans
from speccheck.judge.working import working_steps
from speccheck.language.core import Clause, Confidence, Source, Table
from speccheck.language.core.wording import value_text

if TYPE_CHECKING:
    from speccheck.judge.judging import Judgement

# The worst verdict of the cases is that of the line; a case to which the clause does not apply weighs least.
WORST_FIRST = (Verdict.FAILS, Verdict.CANNOT_TELL, Verdict.COMPLIES, Verdict.NOT_CHECKED, Verdict.NOT_APPLICABLE)


def worst_of(verdicts: Iterable[Verdict | None]) -> Verdict | None:
    """Return the verdict that weighs most, None where there is none."""
    found = set(verdicts)
    return next((verdict for verdict in WORST_FIRST if verdict in found), None)


# Of how many cases the reasons are compared with one another before the first one stands for all.
MOST_REASONS = 200


def sum_up(clause: Clause, judgements: Sequence[Judgement], stated: Stated, system: str) -> Cell:
    """Return the cell for the judgements of all cases of a line (one, where the line covers no range).

    `stated` has the ranges of the line, by term name.
    """
    worst = next(verdict for verdict in WORST_FIRST if any(one.verdict is verdict for one in judgements))
    deciding = [judgement for judgement in judgements if judgement.verdict is worst]
    first = deciding[0]
    explainer = _explainer(system, frozenset().union(*(one.worked_out for one in judgements if one.workings)))
    tried, holds = [one.varied for one in judgements], [one.verdict is worst for one in judgements]
    advising = _advising(judgements)
    assumed = _assumed(deciding)
    return Cell(
        verdict=worst,
        basis=first.basis,
        reason=_reason_for_all(clause, deciding, explainer, spans(tried, holds, stated, system))
        + _on(worst, assumed, system),
        steps=_steps(first, explainer),
        missing=_missing(deciding),
        at=holding(tried, holds, stated, system),
        notes=_notes(clause, deciding),
        advice=advising.advice if advising else None,
        advice_reason=_advice_reason(clause, advising, explainer) if advising else "",
        mandatory=bool(clause.shall),
        assumed=assumed,
    )


def _assumed(deciding: Sequence[Judgement]) -> tuple[AssumedValue, ...]:
    """Return the assumed values that a verdict stands on, each once."""
    return tuple(dict.fromkeys(value for one in deciding for value in one.assumed))


def _on(verdict: Verdict, assumed: Sequence[AssumedValue], system: str) -> str:
    """Return in words that a verdict stands on assumptions."""
    stands = "complies" if verdict is Verdict.COMPLIES else "does not apply"
    holding = " and ".join(f"{one.term} {value_text(one.value, system)} holds" for one in assumed)
    return f"; {stands} on the assumption that {holding}" if assumed else ""


@lru_cache
def _explainer(system: str, worked_out: frozenset[str]) -> Explainer:
    """Return the explainer of cases in which some terms were worked out; most have none, and share one."""
    return Explainer(system, worked_out=worked_out)


def _reason_for_all(
    clause: Clause, deciding: Sequence[Judgement], explainer: Explainer, instead: Mapping[str, str]
) -> str:
    """Return the reason of all deciding cases in one sentence where they share it, otherwise that of the first one.

    The data that only other cases miss are named behind it.
    """
    if instead and len(deciding) <= MOST_REASONS:
        for_all = Explainer(explainer.system, instead, explainer.worked_out)
        shared = {reason(clause, judgement, for_all) for judgement in deciding}
        if len(shared) == 1:
            return shared.pop()
    named = unknowns_of(deciding[0])
    others = dict.fromkeys(one for case in deciding[1:] for one in unknowns_of(case) if one.term and one not in named)
    missing = others if deciding[0].verdict is Verdict.CANNOT_TELL else ()
    return "; ".join(filter(None, (reason(clause, deciding[0], explainer), unknown_text(missing))))


def reason(clause: Clause, judgement: Judgement, explainer: Explainer) -> str:
    """Return one sentence that says why the verdict is what it is."""
    match judgement.basis:
        case Basis.OUT_OF_SCOPE:
            failing = next(outcome for outcome in judgement.scope if outcome.truth is False)
            return explainer.against(failing, Mood.SCOPE)
        case Basis.EXCEPTED:
            return _exception(clause, judgement, explainer)
        case Basis.NOT_STATED:
            return f"{unknown_text(unstated(judgement))}, and the clause is judged only where it is"
        case Basis.MET:
            return explainer.all_hold(judgement.shall)
        case Basis.MET_EITHER_WAY:
            missing = unknown_text(unknowns((*judgement.scope, *judgement.exceptions)))
            return f"{explainer.all_hold(judgement.shall)}; complies whether or not the clause applies ({missing})"
        case Basis.NOT_MET:
            return _failing(judgement.shall, explainer, _mood(clause))
        case Basis.NOT_KNOWN:
            return _not_known(judgement, explainer, _mood(clause))


def _mood(clause: Clause) -> Mood:
    """Return how to word what a clause asks for: a clause without `shall` advises."""
    return Mood.REQUIRED if clause.shall else Mood.ADVISED


def _failing(outcomes: Sequence[Outcome], explainer: Explainer, mood: Mood) -> str:
    """Return why those of the conditions asked for that do not hold do not; "" where there are none."""
    return "; ".join(explainer.against(outcome, mood) for outcome in outcomes if outcome.truth is False)


def _exception(clause: Clause, judgement: Judgement, explainer: Explainer) -> str:
    position = next(n for n, outcome in enumerate(judgement.exceptions) if outcome.truth is True)
    because = clause.exceptions[position].because
    stated = explainer.favour(judgement.exceptions[position])
    return f"excepted: {stated}" + (f", because {because}" if because else "")


def _not_known(judgement: Judgement, explainer: Explainer, mood: Mood) -> str:
    scope = unknowns((*judgement.scope, *judgement.exceptions))
    failing = _failing(judgement.shall, explainer, mood)
    if scope and failing:
        words = unknown_text(scope)
        return f"{words}, so that it is not known whether the clause applies; if it does: {failing}"
    return unknown_text(unknowns_of(judgement))


def unstated(judgement: Judgement) -> tuple[Unknown, ...]:
    """Return what a case does not state of that without which its clause does not judge it."""
    open_ones = (outcome for outcome in judgement.judged_only if outcome.truth is False)
    return tuple(unknown for outcome in open_ones for amount in outcome.amounts for unknown in amount.unknown)


def unknowns_of(judgement: Judgement) -> tuple[Unknown, ...]:
    """Return what would settle a case that cannot be determined: what the scope and the requirement lack."""
    parts = (*judgement.scope, *judgement.exceptions)
    failing = any(outcome.truth is False for outcome in judgement.shall)
    return unknowns(parts if failing else (*parts, *judgement.shall))


def _missing(deciding: Sequence[Judgement]) -> tuple[str, ...]:
    if deciding[0].verdict is Verdict.NOT_CHECKED:
        return tuple(dict.fromkeys(one.term for judgement in deciding for one in unstated(judgement) if one.term))
    if deciding[0].verdict is not Verdict.CANNOT_TELL:
        return ()
    return tuple(dict.fromkeys(unknown.term for one in deciding for unknown in unknowns_of(one) if unknown.term))


def _steps(judgement: Judgement, explainer: Explainer) -> tuple[Step, ...]:
    parts = (
        ("where", judgement.scope),
        ("judged only where", judgement.judged_only),
        ("except", judgement.exceptions),
        ("shall", judgement.shall if judgement.shall != judgement.should else ()),
        ("should", judgement.should),
    )
    worked_out = (step for working in judgement.workings for step in working_steps(working, explainer.system))
    return (*(step for part, outcomes in parts for step in explainer.steps(part, outcomes)), *worked_out)


def _notes(clause: Clause, deciding: Sequence[Judgement]) -> tuple[str, ...]:
    """Return the remarks that go with the numbers of the deciding cases; of what was worked out, those of the first."""
    outcomes = [outcome for one in deciding for outcome in (*one.scope, *one.exceptions, *one.shall, *one.should)]
    found = dict.fromkeys((*deciding[0].notes, *notes(outcomes)))
    if deciding[0].verdict in (Verdict.NOT_CHECKED, Verdict.NOT_APPLICABLE):
        return tuple(found)
    for use in table_uses(outcomes):
        found.update(dict.fromkeys(_source_of(use.table, source) for source in use.table.sources))
        found.update(dict.fromkeys(use.table.notes))
    if any(source.confidence is Confidence.FROM_MEMORY for source in clause.sources):
        found["the clause rests on a published value written from memory; check it before relying on it"] = None
    return tuple(found)


def _source_of(table: Table, source: Source) -> str:
    """Return a source of a table behind the name of the table, where the source does not begin with that."""
    name = table.published_as
    return str(source) if source.text.startswith(name) else f"{name}: {source}"


def _advising(judgements: Sequence[Judgement]) -> Judgement | None:
    """Return the judgement whose advice weighs most, None where the clause advises nothing."""
    for verdict in WORST_FIRST:
        for judgement in judgements:
            if judgement.advice is verdict:
                return judgement
    return None


def _advice_reason(clause: Clause, judgement: Judgement, explainer: Explainer) -> str:
    if judgement.advice is Verdict.FAILS:
        return _failing(judgement.should, explainer, Mood.ADVISED)
    if judgement.advice is Verdict.CANNOT_TELL:
        parts = (*judgement.scope, *judgement.exceptions, *judgement.should)
        return unknown_text(unknowns(parts))
    if judgement.advice is Verdict.COMPLIES:
        return explainer.all_hold(judgement.should)
    return reason(clause, judgement, explainer)
