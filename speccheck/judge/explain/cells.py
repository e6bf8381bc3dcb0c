"""A cell in words: its reason, its working, the part of a range for which it holds, the notes that go with it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache

from speccheck.judge.cell import Cell, Explanation, Grounds, Step
from speccheck.judge.evaluation import ConditionOutcome, unknowns
from speccheck.judge.explain.causes import TOO_MANY, note_text, stand_in_text, unknown_text
from speccheck.judge.explain.conditions import Explainer, Mood
from speccheck.judge.explain.ranges import holding, spans
from speccheck.judge.explain.workings import working_steps
from speccheck.judge.judgement import AssumedValue, Basis, Judgement, Verdict
from speccheck.language.core import Clause, Confidence, Source, Table
from speccheck.language.core.wording import value_text


def explain(cell: Cell) -> Explanation:
    """Return a cell in words; sizes are written in the system of its grounds."""
    grounds = cell.grounds
    beside = tuple(one.words for one in cell.accepted), tuple(one.words for one in cell.from_data)
    if not grounds.deciding:
        return Explanation(TOO_MANY, notes=(*beside[0], *beside[1]), advice_reason=TOO_MANY if cell.advice else "")
    explainer = _explainer(grounds.system, grounds.worked_out)
    first, part, advising = grounds.deciding[0], grounds.part, grounds.advising
    return Explanation(
        _reason_for_all(grounds, explainer) + _on(first.verdict, grounds.assumed, grounds.system),
        _steps(first, explainer),
        holding(part, grounds.system),
        (*beside[0], *_notes(grounds), *beside[1]),
        _advice_reason(grounds.clause, advising, explainer) if advising is not None else "",
    )


def _on(verdict: Verdict, assumed: Sequence[AssumedValue], system: str) -> str:
    """Return that a verdict stands on assumptions."""
    stands = "complies" if verdict is Verdict.COMPLIES else "does not apply"
    holding = " and ".join(f"{one.term} {value_text(one.value, system)} holds" for one in assumed)
    return f"; {stands} on the assumption that {holding}" if assumed else ""


@lru_cache
def _explainer(system: str, worked_out: frozenset[str]) -> Explainer:
    """Return the explainer of cases in which some terms were worked out; most have none, and share one."""
    return Explainer(system, worked_out=worked_out)


def _reason_for_all(grounds: Grounds, explainer: Explainer) -> str:
    """Return the reason of all deciding cases in one sentence where they share it, otherwise that of the first one.

    The data that only other cases miss are named behind it.
    """
    clause, deciding = grounds.clause, grounds.deciding
    instead = _instead(grounds)
    if instead:
        for_all = Explainer(explainer.system, instead, explainer.worked_out)
        shared = {reason(clause, judgement, for_all) for judgement in deciding}
        if len(shared) == 1:
            return shared.pop()
    return "; ".join(
        filter(None, (reason(clause, deciding[0], explainer), unknown_text(grounds.others, grounds.system)))
    )


def _instead(grounds: Grounds) -> Mapping[str, str]:
    """Return the words for the values of a whole range; none where not all cases were kept to be told alike."""
    whole = len(grounds.deciding) == sum(grounds.part.holds)
    return spans(grounds.part, grounds.system) if whole else {}


def reason(clause: Clause, judgement: Judgement, explainer: Explainer) -> str:
    """Return one sentence that says why the verdict is what it is."""
    system = explainer.system
    match judgement.basis:
        case Basis.OUT_OF_SCOPE:
            failing = next(outcome for outcome in judgement.scope if outcome.truth is False)
            return explainer.against(failing, Mood.SCOPE)
        case Basis.EXCEPTED:
            return _exception(clause, judgement, explainer)
        case Basis.NOT_STATED:
            return f"{unknown_text(judgement.unstated, system)}, and the clause is judged only where it is"
        case Basis.MET:
            return explainer.all_hold(judgement.shall)
        case Basis.MET_EITHER_WAY:
            missing = unknown_text(unknowns((*judgement.scope, *judgement.exceptions)), system)
            return f"{explainer.all_hold(judgement.shall)}; complies whether or not the clause applies ({missing})"
        case Basis.NOT_MET:
            return _failing(judgement.shall, explainer, _mood(clause))
        case Basis.NOT_KNOWN:
            return _not_known(judgement, explainer, _mood(clause))


def _mood(clause: Clause) -> Mood:
    """Return how to word what a clause asks for: a clause without `shall` advises."""
    return Mood.REQUIRED if clause.shall else Mood.ADVISED


def _failing(outcomes: Sequence[ConditionOutcome], explainer: Explainer, mood: Mood) -> str:
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
        words = unknown_text(scope, explainer.system)
        return f"{words}, so that it is not known whether the clause applies; if it does: {failing}"
    return unknown_text(judgement.unknown, explainer.system)


def _steps(judgement: Judgement, explainer: Explainer) -> tuple[Step, ...]:
    parts = (
        ("where", judgement.scope),
        ("judged only where", judgement.judged_only),
        ("except", judgement.exceptions),
        ("shall", judgement.shall if judgement.shall != judgement.should else ()),
        ("should", judgement.should),
    )
    worked_out = (step for one in judgement.workings for step in working_steps(one.working, explainer.system))
    return (*(step for part, outcomes in parts for step in explainer.steps(part, outcomes)), *worked_out)


def _notes(grounds: Grounds) -> tuple[str, ...]:
    """Return the remarks that go with the numbers of the deciding cases; of what was worked out, those of the first."""
    first, stand_ins = grounds.deciding[0], grounds.stand_ins
    found = dict.fromkeys(note_text(note, grounds.system) for note in first.notes)
    found.update(dict.fromkeys(stand_in_text(stand_in) for stand_in in stand_ins))
    if first.verdict in (Verdict.NOT_CHECKED, Verdict.NOT_APPLICABLE):
        return tuple(found)
    for use in grounds.uses:
        found.update(dict.fromkeys(_source_of(use.table, source) for source in use.table.sources))
        found.update(dict.fromkeys(use.table.notes))
    if any(source.confidence is Confidence.FROM_MEMORY for source in grounds.clause.sources):
        found["the clause rests on a published value written from memory; check it before relying on it"] = None
    return tuple(found)


def _source_of(table: Table, source: Source) -> str:
    """Return a source of a table behind the name of the table, where the source does not begin with that."""
    name = table.published_as
    return str(source) if source.text.startswith(name) else f"{name}: {source}"


def _advice_reason(clause: Clause, judgement: Judgement, explainer: Explainer) -> str:
    if judgement.advice is Verdict.FAILS:
        return _failing(judgement.should, explainer, Mood.ADVISED)
    if judgement.advice is Verdict.CANNOT_TELL:
        parts = (*judgement.scope, *judgement.exceptions, *judgement.should)
        return unknown_text(unknowns(parts), explainer.system)
    if judgement.advice is Verdict.COMPLIES:
        return explainer.all_hold(judgement.should)
    return reason(clause, judgement, explainer)
