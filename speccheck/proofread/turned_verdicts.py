"""Verdicts that turn: the lines of a schedule on which a revised clause says something else than the one before it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from speccheck.engine import Cell, Judge, Verdict
from speccheck.language.core import Ruleset
from speccheck.proofread.findings import Undecided
from speccheck.proofread.matching import paired
from speccheck.proofread.revisions import Change, Revised
from speccheck.submittal.lines import Line, Schedule


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
    changes: Iterable[Revised | Undecided] = (),
) -> tuple[TurnedVerdict, ...]:
    """Return the verdicts that turn, line by line; `before` and `after` are one schedule read for each ruleset.

    `changes` are what the revision changes: a clause that was only renumbered is held against the one that it was.
    """
    judges = Judge(base), Judge(revised)
    pairs = _pairs(base, revised, changes)
    return tuple(
        turned
        for old, new in zip(before.lines, after.lines, strict=False)
        if old.name == new.name
        for turned in _turned(judges, pairs, old, new)
    )


def _pairs(
    base: Ruleset, revised: Ruleset, changes: Iterable[Revised | Undecided]
) -> tuple[tuple[int | None, int | None], ...]:
    """Return the places of each clause before and after: of one number, replaced or renumbered; None for no clause."""
    places: dict[int, int] = paired(base.clauses, revised.clauses)
    old_labels = {clause.label: place for place, clause in enumerate(base.clauses)}
    new_labels = {clause.label: place for place, clause in enumerate(revised.clauses)}
    for one in changes:
        if isinstance(one, Revised) and one.change is Change.RENUMBERED:
            places[new_labels[one.after_label]] = old_labels[one.before_label]
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
