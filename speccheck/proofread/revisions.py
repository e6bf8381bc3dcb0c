"""Revisions by meaning: which systems a revised ruleset treats differently from its base, clause by clause.

Clauses are matched as `matching` says. Two clauses mean the same where they make the same of every system, whatever
their words.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from speccheck.judge import Verdict
from speccheck.language.core import Assignment, Ruleset
from speccheck.language.diagnostic_rules import Wording
from speccheck.language.diagnostics import NOWHERE, Diagnostic, Place
from speccheck.proofread.clause_regions import ClauseRegions, Reading, read_together
from speccheck.proofread.decision_diagrams import EMPTY, Diagram
from speccheck.proofread.findings import Finding, Undecided
from speccheck.proofread.matching import changed_rules, is_renumbered, matched, meaning
from speccheck.proofread.messages.comparing import (
    ANOTHER_VERDICT,
    ANOTHER_VERDICT_WITHOUT_DATA,
    CLAUSE_GONE,
    CLAUSE_NEW,
    CLAUSE_RENUMBERED,
    FAILED_BY_GONE,
    FAILED_BY_NEW,
    LOOSER_NOW,
    RULES_CHANGED,
    STRICTER_NOW,
    WHETHER_CHANGED,
)
from speccheck.proofread.witnesses import Lines, NoWitness, Shows, shortened
from speccheck.schedule.lines import Line


class Change(StrEnum):
    """What became of a clause."""

    STRICTER = "stricter"
    LOOSER = "looser"
    ELSE = "treated differently"
    INCOMPLETE = "treated differently where data are left out"
    ADDED = "added"
    DROPPED = "dropped"
    RENUMBERED = "renumbered"
    RULES = "what holds for all clauses"

    @property
    def of_meaning(self) -> bool:
        """Whether a line could get another verdict by the change."""
        return self is not Change.RENUMBERED


_SAID: Mapping[Change, Wording] = {
    Change.STRICTER: STRICTER_NOW,
    Change.LOOSER: LOOSER_NOW,
    Change.ELSE: ANOTHER_VERDICT,
    Change.INCOMPLETE: ANOTHER_VERDICT_WITHOUT_DATA,
}


@dataclass(frozen=True, slots=True)
class Revised:
    """One change of meaning: of which clause (its label before and after; "" where there is none), and how.

    `example` is a line with another verdict than before: `before` and `after` say which, and `systems` for which other
    systems the same holds.
    """

    change: Change
    before_label: str
    after_label: str
    example: tuple[Assignment, ...] = ()
    before: Verdict | None = None
    after: Verdict | None = None
    systems: str = ""
    advice: bool = False
    place: Place = NOWHERE
    details: tuple[str, ...] = ()

    @property
    def incomplete(self) -> bool:
        """Whether only lines that leave out what the clause asks for are treated differently."""
        return self.change is Change.INCOMPLETE

    @property
    def finding(self) -> Finding:
        """The change as a finding."""
        labels = tuple(dict.fromkeys(label for label in (self.before_label, self.after_label) if label))
        return Finding(_said(self), labels, self.example, self.systems)


def _said(revised: Revised) -> Diagnostic:
    label, place = revised.after_label or revised.before_label, revised.place
    match revised.change:
        case Change.RULES:
            return RULES_CHANGED.at(place, changes="; ".join(revised.details))
        case Change.ADDED:
            return (FAILED_BY_NEW if revised.example else CLAUSE_NEW).at(place, clause=label)
        case Change.DROPPED:
            return (FAILED_BY_GONE if revised.example else CLAUSE_GONE).at(place, clause=label)
        case Change.RENUMBERED:
            return CLAUSE_RENUMBERED.at(place, before=revised.before_label, after=revised.after_label)
        case _:
            what = f"the advice of clause `{label}`" if revised.advice else f"clause `{label}`"
            before, after = revised.before or "no verdict", revised.after or "no verdict"
            return _SAID[revised.change].at(place, what=what, before=before, after=after)


def compare_revisions(base: Ruleset, revised: Ruleset) -> tuple[Revised | Undecided, ...]:
    """Return what a revised ruleset makes of systems that its base did not, in the order of the revised clauses.

    What changed for all clauses comes first. This is the only comparison of editions: `speccheck.review.editions` puts
    it in the words of the clauses.
    """
    before, after = read_together((base, revised))
    lines = Lines((after, before))
    found: list[Revised | Undecided] = []
    if details := changed_rules(base, revised):
        found.append(Revised(Change.RULES, "", "", details=details))
    pairs, added, dropped = matched(before.clauses, after.clauses)
    for old, new in pairs:
        pair = _Pair(before, after, old, new)
        found += _changes(pair, lines)
        if pair.same and is_renumbered(old.clause, new.clause):
            found.append(Revised(Change.RENUMBERED, old.label, new.label, place=new.clause.place))
    found += [_alone(after, lines, clause, Change.ADDED) for clause in added]
    found += [_alone(before, lines, clause, Change.DROPPED) for clause in dropped]
    return tuple(found)


# ---- changes -----------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class _Pair:
    """A clause before and after a revision."""

    before: Reading
    after: Reading
    old: ClauseRegions
    new: ClauseRegions

    @property
    def same(self) -> bool:
        """Whether the two make the same of every system."""
        return meaning(self.old) == meaning(self.new)

    @property
    def complete(self) -> Diagram:
        """The systems that state all that the two ask for."""
        return self.after.complete((self.old, self.new))

    def verdicts(self, line: Line) -> tuple[Verdict, Verdict]:
        """Return the verdict on a line before and after."""
        old, new = self.before.judge.cell(self.old.number, line), self.after.judge.cell(self.new.number, line)
        return old.verdict, new.verdict

    def advice(self, line: Line) -> tuple[Verdict | None, Verdict | None]:
        """Return the verdict on the advice, before and after."""
        old, new = self.before.judge.cell(self.old.number, line), self.after.judge.cell(self.new.number, line)
        return old.advice, new.advice


def _changes(pair: _Pair, lines: Lines) -> Iterator[Revised | Undecided]:
    """Yield how the revised clause differs from the one before it."""
    if pair.same:
        return
    diagrams, old, new = pair.after.diagrams, pair.old, pair.new
    found = False
    ways = (
        (Change.STRICTER, diagrams.without(_fails(new), _fails(old)), _turned(pair, to=True), False),
        (Change.LOOSER, diagrams.without(_fails(old), _fails(new)), _turned(pair, to=False), False),
        (Change.STRICTER, diagrams.without(_against(new), _against(old)), _advised(pair, to=True), True),
        (Change.LOOSER, diagrams.without(_against(old), _against(new)), _advised(pair, to=False), True),
    )
    for change, region, shows, advice in ways:
        whole = diagrams.both(region, pair.complete)
        change_found = tuple(_change(pair, lines, change, whole, shows, advice))
        found = found or bool(change_found)
        yield from change_found
    if not found:
        other = diagrams.negation(diagrams.some(_alike(old, new)))
        found = False
        for change, region in (
            (Change.ELSE, diagrams.both(other, pair.complete)),
            (Change.INCOMPLETE, other),
        ):
            change_found = tuple(() if found else _change(pair, lines, change, region, _differs(pair), False))
            found = found or bool(change_found)
            yield from change_found


def _change(
    pair: _Pair, lines: Lines, change: Change, region: Diagram, shows: Shows, advice: bool
) -> Iterator[Revised | Undecided]:
    """Yield one change, if there is a line that shows it."""
    if region == EMPTY:
        return
    labels, place = (pair.old.label, pair.new.label), pair.new.clause.place
    line = lines.any(region, shows)
    if isinstance(line, Line):
        given = pair.advice if advice else pair.verdicts
        verdicts = given(line)
        line = shortened(line, lambda shorter: given(shorter) == verdicts)
        yield Revised(change, *labels, lines.example(line), *verdicts, lines.systems(region), advice, place)
    elif line is NoWitness.UNDECIDED:
        question = WHETHER_CHANGED.at(place, clause=pair.new.label, change=change)
        yield Undecided(question, tuple(dict.fromkeys(labels)), line.value)


def _fails(clause: ClauseRegions) -> Diagram:
    return clause.fails if clause.mandatory else EMPTY


def _against(clause: ClauseRegions) -> Diagram:
    return clause.against_advice if clause.clause.should else EMPTY


def _alike(old: ClauseRegions, new: ClauseRegions) -> Iterator[Diagram]:
    """Yield the systems on which both clauses give the same verdict, verdict by verdict."""
    both, without, negation = old.diagrams.both, old.diagrams.without, old.diagrams.negation
    known = [
        (one.out, without(one.shall.holds, one.out), _fails(one)) if one.mandatory else (one.out, EMPTY, EMPTY)
        for one in (old, new)
    ]
    yield from (both(*pair) for pair in zip(*known, strict=True))
    yield both(*(negation(old.diagrams.some(one)) for one in known))


def _turned(pair: _Pair, *, to: bool) -> Shows:
    def shows(line: Line) -> bool:
        old, new = pair.verdicts(line)
        return (old is Verdict.FAILS, new is Verdict.FAILS) == (not to, to)

    return shows


def _advised(pair: _Pair, *, to: bool) -> Shows:
    def shows(line: Line) -> bool:
        old, new = pair.advice(line)
        return (old is Verdict.FAILS, new is Verdict.FAILS) == (not to, to)

    return shows


def _differs(pair: _Pair) -> Shows:
    def shows(line: Line) -> bool:
        old, new = pair.verdicts(line)
        return old is not new

    return shows


def _alone(reading: Reading, lines: Lines, clause: ClauseRegions, change: Change) -> Revised:
    """Return that a clause is new or gone, with a line that fails it where there is one."""

    def shows(line: Line) -> bool:
        return reading.judge.cell(clause.number, line).verdict is Verdict.FAILS

    line = lines.find(reading.diagrams.both(clause.fails, reading.complete([clause])), shows)
    shown = lines.example(line) if isinstance(line, Line) else ()
    verdict, place = Verdict.FAILS if shown else None, clause.clause.place
    if change is Change.ADDED:
        return Revised(change, "", clause.label, shown, None, verdict, place=place)
    return Revised(change, clause.label, "", shown, verdict, None, place=place)
