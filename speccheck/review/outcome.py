"""The outcome: what a whole schedule comes to. Every report and every exit status draws on this one.

In: a `Matrix`, or the counts of a schedule in a portfolio. Out: an `Outcome`: the counts, whether everything was read,
the standing, its exit status, and the sentences that say so.

A schedule complies only where every mandatory requirement that applies is met or accepted, nothing that stands beside
the ruleset leaves a question open, and nothing in the file is left that a person has yet to read.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from speccheck.english import agree, count, listed
from speccheck.judge.cell import Cell
from speccheck.judge.judgement import Verdict
from speccheck.language.diagnostics import Severity
from speccheck.review.documents import DocumentStanding
from speccheck.review.matrix import AGAINST_ADVICE, Matrix
from speccheck.schedule.lines import CellCount, Schedule, UnreadKind
from speccheck.schedule.messages.tables import HIDDEN_CELLS

MOST_NAMED = 8
"""How many lines that no clause speaks of are named."""


class Standing(StrEnum):
    """Where a schedule stands, the gravest first."""

    NOT_READ = "not read"
    FAILS = "does not comply"
    CANNOT_TELL = "cannot be determined"
    NOTHING = "no clause applies"
    COMPLIES = "complies"


STATUS: Mapping[Standing, int] = {
    Standing.COMPLIES: 0,
    Standing.FAILS: 1,
    Standing.CANNOT_TELL: 2,
    Standing.NOTHING: 3,
    Standing.NOT_READ: 3,
}
"""The exit status of each standing."""

STATUS_MEANINGS: Mapping[int, str] = {
    0: "all that was judged complies",
    1: "something does not comply",
    2: "nothing fails, but something cannot be determined",
    3: "the schedule could not be used, or nothing was judged; this is not a pass",
}

_VERBS: Mapping[Verdict, tuple[str, str]] = {
    Verdict.FAILS: ("does not comply", "do not comply"),
    Verdict.CANNOT_TELL: ("cannot be determined", "cannot be determined"),
    Verdict.ACCEPTED: ("is accepted as a deviation", "are accepted as deviations"),
    Verdict.COMPLIES: ("complies", "comply"),
}

_PLURALS: Mapping[UnreadKind, str] = {
    UnreadKind.REMARK: "remarks",
    UnreadKind.CELL: "filled cells",
    UnreadKind.PICTURE: "pictures",
    UnreadKind.HIDDEN_SHEET: "hidden sheets",
    UnreadKind.HIDDEN_LINES: "hidden rows or columns",
    UnreadKind.OTHER: "other contents",
}


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a schedule comes to, in counts.

    `requirements` counts the cells of mandatory clauses by their verdict, `lines` the lines that have at least one
    such cell. `unjudged` counts the lines to which no mandatory clause applies, of which the first are named.
    `recommendations` counts recommendations that are not followed or cannot be judged, `observations` what was found
    beside the ruleset, by what found it, `open_observations` those that leave a question open. `unread` counts what a
    person has yet to read, `cells` the filled cells. `not_checked` counts requirements that were not checked for want
    of data, `assumed` those that are met on an assumption. `documents` counts what is asked to be submitted by how it
    stands against what was received, `relations` how lines stand to one another. `problem` is the error that made the
    file unusable.
    """

    line_count: int
    requirements: Mapping[Verdict, int]
    lines: Mapping[Verdict, int]
    unjudged: int = 0
    unjudged_names: tuple[str, ...] = ()
    recommendations: int = 0
    observations: Mapping[str, int] = field(default_factory=dict)
    open_observations: int = 0
    unread: Mapping[UnreadKind, int] = field(default_factory=dict)
    cells: CellCount | None = None
    warnings: int = 0
    assumed: int = 0
    documents: Mapping[DocumentStanding, int] = field(default_factory=dict)
    relations: Mapping[Verdict, int] = field(default_factory=dict)
    problem: str = ""

    @property
    def not_checked(self) -> int:
        """How many requirements were not checked for want of data."""
        return self.requirements.get(Verdict.NOT_CHECKED, 0)

    @property
    def complete(self) -> bool:
        """Whether everything in the file was read, or set aside by a stated rule or by a person."""
        counted = self.cells is None or self.cells.accounted >= self.cells.filled
        return not self.problem and counted and not any(self.unread.values())

    @property
    def standing(self) -> Standing:
        """Where the schedule stands; what was not read or not decided is never a pass."""
        has = self.requirements.get
        if self.problem:
            return Standing.NOT_READ
        unsatisfied = self.documents.get(DocumentStanding.NOT_SATISFIED) or self.relations.get(Verdict.FAILS)
        if has(Verdict.FAILS) or unsatisfied:
            return Standing.FAILS
        if has(Verdict.CANNOT_TELL) or self._questions or not self.complete:
            return Standing.CANNOT_TELL
        if has(Verdict.COMPLIES) or has(Verdict.ACCEPTED) or self.relations.get(Verdict.COMPLIES):
            return Standing.COMPLIES
        return Standing.NOTHING

    @property
    def _questions(self) -> int:
        """How many questions stand open beside those of clauses."""
        documents, relations = self.documents.get(DocumentStanding.CANNOT_TELL, 0), self.relations
        return self.open_observations + documents + relations.get(Verdict.CANNOT_TELL, 0)

    @property
    def deviates(self) -> bool:
        """Whether it complies only because deviations were accepted."""
        return self.standing is Standing.COMPLIES and bool(self.requirements.get(Verdict.ACCEPTED))

    @property
    def status(self) -> int:
        """The exit status of a check."""
        return STATUS[self.standing]

    @property
    def meaning(self) -> str:
        """One sentence that says what it comes to, as the exit status does."""
        but = ", but for accepted deviations" if self.deviates else ""
        return f"{STATUS_MEANINGS[self.status].capitalize()}{but}."

    @property
    def heading(self) -> str:
        """The verdict on the whole schedule in one sentence."""
        match self.standing:
            case Standing.NOT_READ:
                return f"The schedule could not be used: {self.problem}."
            case Standing.FAILS:
                if not self.requirements.get(Verdict.FAILS) and self.relations.get(Verdict.FAILS):
                    return "The schedule does not comply: lines do not go together as the section asks."
                if not self.requirements.get(Verdict.FAILS):
                    return "The submittal does not comply: not all was received that is asked to be submitted."
                return "The schedule does not comply."
            case Standing.CANNOT_TELL:
                decided = not (self.requirements.get(Verdict.CANNOT_TELL) or self._questions)
                because = ": part of it was not read" if decided else ""
                return f"It cannot be determined whether the schedule complies{because}."
            case Standing.NOTHING:
                return "Nothing was judged: no mandatory clause applies to any line. This is not a pass."
            case Standing.COMPLIES:
                but = ", but for accepted deviations" if self.deviates else ""
                return f"The schedule complies with every clause that applies{but}."

    @property
    def details(self) -> tuple[str, ...]:
        """Sentences with the counts, the gravest first."""
        return (
            *_unread(self),
            *_counted(self),
            *_related(self),
            *_submitted(self),
            *_left_over(self),
            *_beside(self),
            *_read(self),
        )


def outcome_of(matrix: Matrix) -> Outcome:
    """Return the outcome of a matrix."""
    lines: Counter[Verdict] = Counter()
    for row in matrix.cells:
        lines.update({cell.verdict for cell in row if cell.mandatory})
    unjudged = unjudged_lines(matrix)
    observed = Counter(str(one.topic) for one in matrix.observations if one.diagnostic.severity is not Severity.NOTE)
    return Outcome(
        line_count=len(matrix.cells),
        requirements=matrix.counts,
        lines=lines,
        unjudged=len(unjudged),
        unjudged_names=unjudged[:MOST_NAMED],
        recommendations=sum(cell.advice in AGAINST_ADVICE for row in matrix.cells for cell in row),
        observations=observed,
        open_observations=sum(one.leaves_open for one in matrix.observations),
        unread=unread_of(matrix.schedule),
        cells=matrix.schedule.cells,
        warnings=warnings_of(matrix.schedule),
        documents=Counter(one.standing for one in matrix.documents),
        relations=Counter(one.verdict for one in matrix.relations),
        assumed=sum(
            cell.verdict is Verdict.COMPLIES and isinstance(cell, Cell) and bool(cell.assumed)
            for row in matrix.cells
            for cell in row
            if cell.mandatory
        ),
    )


def unread_of(schedule: Schedule) -> Mapping[UnreadKind, int]:
    """Return how much of each kind a person has yet to read; rows and columns left out count where they are told."""
    found = Counter(one.kind for one in schedule.unread)
    left_out = sum(one.code == HIDDEN_CELLS.code for one in schedule.diagnostics)
    if left_out:
        found[UnreadKind.HIDDEN_LINES] += left_out
    return found


def warnings_of(schedule: Schedule) -> int:
    """Return how many warnings the reading of a schedule gave."""
    return sum(one.severity is Severity.WARNING for one in schedule.diagnostics)


def unjudged_lines(matrix: Matrix) -> tuple[str, ...]:
    """Return the names of the lines to which no mandatory clause applies, none where the ruleset has no clauses."""
    if not matrix.ruleset.clauses:
        return ()
    lines = enumerate(matrix.schedule.lines)
    return tuple(line.name for index, line in lines if matrix.line_verdict(index) is Verdict.NOT_APPLICABLE)


def _unread(outcome: Outcome) -> Iterator[str]:
    """Yield what a person has to read, which keeps the schedule from being told to comply."""
    for kind in UnreadKind:
        number = outcome.unread.get(kind, 0)
        if number:
            verb = agree(number, "was", "were")
            it = agree(number, "it", "them")
            yield f"{count(number, str(kind), _PLURALS[kind])} {verb} not read as data: a person has to read {it}."


def _counted(outcome: Outcome) -> Iterator[str]:
    """Yield a sentence for each verdict that some cell has, the gravest first, then for what was not checked."""
    total = count(outcome.line_count, "line")
    for verdict, (one, several) in _VERBS.items():
        number = outcome.requirements.get(verdict, 0)
        if number:
            verb = agree(number, one, several)
            yield f"{count(number, 'requirement')} {verb}, on {outcome.lines.get(verdict, 0):,} of {total}."
    if outcome.assumed:
        yield f"{count(outcome.assumed, 'requirement')} {agree(outcome.assumed, 'is', 'are')} met on an assumption."
    if outcome.not_checked:
        verb = agree(outcome.not_checked, "was", "were")
        yield f"{count(outcome.not_checked, 'requirement')} {verb} not checked for want of data."


def _related(outcome: Outcome) -> Iterator[str]:
    """Yield a sentence for what lines do not have in common, and for what is not known of them."""
    for verdict, verbs in (
        (Verdict.FAILS, ("does not comply", "do not comply")),
        (Verdict.CANNOT_TELL, ("cannot be determined",) * 2),
    ):
        number = outcome.relations.get(verdict, 0)
        if number:
            yield f"{count(number, 'comparison')} of lines with one another {verbs[number > 1]}."


def _submitted(outcome: Outcome) -> Iterator[str]:
    """Yield a sentence for each way in which documents that are asked for stand, but for those that no line needs."""
    for standing in DocumentStanding:
        number = outcome.documents.get(standing, 0)
        if number and standing is not DocumentStanding.NOT_ASKED:
            verb = {True: "is", False: "are"}[number == 1] + " " if standing is not DocumentStanding.CANNOT_TELL else ""
            yield f"{count(number, 'document')} asked for {verb}{standing.value}."


def _left_over(outcome: Outcome) -> Iterator[str]:
    """Yield sentences on recommendations and on lines that no clause speaks of, which nobody should take for passes."""
    if outcome.recommendations:
        verb = agree(outcome.recommendations, "is", "are")
        yield f"{count(outcome.recommendations, 'recommendation')} {verb} not followed or cannot be determined."
    if outcome.unjudged:
        more = outcome.unjudged - len(outcome.unjudged_names)
        names = listed(outcome.unjudged_names + ((f"{more:,} more",) if more else ()))
        yield f"No mandatory clause applies to {agree(outcome.unjudged, 'line', 'lines')} {names}."


def _beside(outcome: Outcome) -> Iterator[str]:
    """Yield a sentence for each thing, beside the ruleset, that something was found by."""
    return (f"{count(number, 'finding')} by the {topic}." for topic, number in outcome.observations.items())


def _read(outcome: Outcome) -> Iterator[str]:
    """Yield sentences on the reading, which the verdicts alone would not show."""
    if outcome.warnings:
        yield f"{count(outcome.warnings, 'warning')} on how the schedule was read."
    if outcome.cells is not None:
        yield f"{outcome.cells.accounted:,} of {count(outcome.cells.filled, 'filled cell')} accounted for."
