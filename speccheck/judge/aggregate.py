"""Summing up: from the judgements of all cases of a line to the one cell of the matrix."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from speccheck.judge.cell import Cell, Grounds, RangePart, Stated
from speccheck.judge.evaluation import ConditionOutcome
from speccheck.judge.explain import explain
from speccheck.judge.judgement import Basis, Judgement, Verdict, table_uses
from speccheck.judge.lookup import TableUse
from speccheck.judge.operations import NominalStandIn
from speccheck.judge.unknown import Unknown
from speccheck.language.core import Clause

# The worst verdict of the cases is that of the line; a case to which the clause does not apply weighs least.
WORST_FIRST = (Verdict.FAILS, Verdict.CANNOT_TELL, Verdict.COMPLIES, Verdict.NOT_CHECKED, Verdict.NOT_APPLICABLE)


def worst_of(verdicts: Iterable[Verdict | None]) -> Verdict | None:
    """Return the verdict that weighs most, None where there is none."""
    found = set(verdicts)
    return next((verdict for verdict in WORST_FIRST if verdict in found), None)


# Of how many cases the reasons are compared with one another before the first one stands for all, and alone is kept.
MOST_REASONS = 200


def sum_up(clause: Clause, judgements: Sequence[Judgement], stated: Stated, system: str) -> Cell:
    """Return the cell for the judgements of all cases of a line: one where it covers no range, none of too many.

    `stated` has the ranges of the line, by term name.
    """
    mandatory = bool(clause.shall)
    if not judgements:
        advice = Verdict.CANNOT_TELL if clause.should else None
        return Cell(
            Verdict.CANNOT_TELL,
            advice,
            mandatory,
            basis=Basis.NOT_KNOWN,
            grounds=Grounds(clause, system=system),
            explainer=explain,
        )
    worst = next(verdict for verdict in WORST_FIRST if any(one.verdict is verdict for one in judgements))
    deciding = tuple(judgement for judgement in judgements if judgement.verdict is worst)
    advising = _advising(judgements)
    grounds = Grounds(
        clause,
        deciding if len(deciding) <= MOST_REASONS else deciding[:1],
        advising,
        _uses(deciding),
        _stand_ins(deciding),
        _range_part(judgements, worst, stated),
        _others(deciding),
        frozenset().union(*(one.worked_out for one in judgements if one.workings)),
        tuple(dict.fromkeys(value for one in deciding for value in one.assumed)),
        system,
    )
    return Cell(
        worst,
        advising.advice if advising else None,
        mandatory,
        basis=deciding[0].basis,
        grounds=grounds,
        explainer=explain,
        missing=_missing(deciding),
    )


_WHOLE = RangePart()
_PASSED_BY = (Verdict.NOT_CHECKED, Verdict.NOT_APPLICABLE)


def _uses(deciding: Sequence[Judgement]) -> tuple[TableUse, ...]:
    """Return the table cells that went into a verdict; one that leaves the clause aside rests on none."""
    return () if deciding[0].verdict in _PASSED_BY else table_uses(_outcomes(deciding))


def _stand_ins(deciding: Sequence[Judgement]) -> tuple[NominalStandIn, ...]:
    """Return the nominal metric sizes that were compared as inch sizes."""
    return tuple(dict.fromkeys(_stand_ins_in(_outcomes(deciding))))


def _stand_ins_in(outcomes: Iterable[ConditionOutcome]) -> Iterator[NominalStandIn]:
    for outcome in outcomes:
        if outcome.stand_in is not None:
            yield outcome.stand_in
        yield from _stand_ins_in(outcome.parts)


def _outcomes(deciding: Sequence[Judgement]) -> Iterator[ConditionOutcome]:
    return (outcome for one in deciding for outcome in one.outcomes)


def _range_part(judgements: Sequence[Judgement], worst: Verdict, stated: Stated) -> RangePart:
    """Return for which cases of a range the verdict holds; a line without ranges has one case, and nothing to tell."""
    if not judgements[0].varied:
        return _WHOLE
    return RangePart(tuple(one.varied for one in judgements), tuple(one.verdict is worst for one in judgements), stated)


def _others(deciding: Sequence[Judgement]) -> tuple[Unknown, ...]:
    """Return the missing data of cases that cannot be determined which the first of them does not lack."""
    if len(deciding) < 2 or deciding[0].verdict is not Verdict.CANNOT_TELL:
        return ()
    named = deciding[0].unknown
    others = (one for case in deciding[1:] for one in case.unknown if one.term and one not in named)
    return tuple(dict.fromkeys(others))


def _missing(deciding: Sequence[Judgement]) -> tuple[str, ...]:
    """Return the names of the terms that would settle a verdict."""
    if deciding[0].verdict is Verdict.NOT_CHECKED:
        return tuple(dict.fromkeys(one.term for judgement in deciding for one in judgement.unstated if one.term))
    if deciding[0].verdict is not Verdict.CANNOT_TELL:
        return ()
    return tuple(dict.fromkeys(unknown.term for one in deciding for unknown in one.unknown if unknown.term))


def _advising(judgements: Sequence[Judgement]) -> Judgement | None:
    """Return the judgement whose advice weighs most, None where the clause advises nothing."""
    for verdict in WORST_FIRST:
        for judgement in judgements:
            if judgement.advice is verdict:
                return judgement
    return None
