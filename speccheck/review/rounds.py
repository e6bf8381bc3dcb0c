"""Two rounds compared: what became of each finding, and what changed that no finding asked for.

In: the matrices of the round before and of the resubmittal (they may be by two rulesets). Out: a `RoundComparison`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cached_property

from speccheck.judge.cell import Cell
from speccheck.judge.completing import needs_of
from speccheck.judge.judgement import Verdict
from speccheck.judge.operations import Rules
from speccheck.language.core import Clause, Ruleset
from speccheck.language.core.walking import conditions_of
from speccheck.language.diagnostics import NOWHERE, Place
from speccheck.language.vocabulary.values import NotGiven
from speccheck.review.editions import ClauseChange, compare_clauses, pair_clauses
from speccheck.review.line_matching import Matching, Pair, changed_terms, match_lines
from speccheck.review.line_wording import LineWording
from speccheck.review.matrix import Matrix
from speccheck.schedule.lines import Line

OPEN = (Verdict.FAILS, Verdict.CANNOT_TELL)


class Fate(StrEnum):
    """What became of a finding."""

    NEW = "new"
    STILL_OPEN = "still open"
    CLOSED = "closed"
    ACCEPTED = "accepted as a deviation"
    NO_LONGER_APPLIES = "closed because the clause no longer applies"
    LINE_DROPPED = "gone with its line"
    CLAUSE_DROPPED = "gone with its clause"


@dataclass(frozen=True, slots=True)
class Followed:
    """One finding followed from round to round: its line and clause then and now, and what the cells say.

    `old` and `now` are None where the line or the clause is not in that round.
    """

    fate: Fate
    line: str
    clause: str
    title: str
    old: Cell | None
    now: Cell | None

    @property
    def words(self) -> str:
        """The verdicts then and now, and the reason that counts."""
        then, after = (str(cell.verdict) if cell else "not judged" for cell in (self.old, self.now))
        cell = self.now or self.old
        assert cell is not None
        return f"{then} then, {after} now: {cell.reason}" if then != after else cell.reason


class ChangeKind(StrEnum):
    """How a term of a line changed."""

    ASKED = "a finding asked for it"
    SILENT = "no finding asked for it"
    NEWLY_STATED = "stated for the first time"


@dataclass(frozen=True, slots=True)
class TermChange:
    """One term of one line that says something else: the words then and now.

    What was not given before and is now contradicts nothing, so that it is no silent change.
    """

    line: str
    term: str
    old: str
    now: str
    kind: ChangeKind
    place: Place = NOWHERE


@dataclass(frozen=True)
class RoundComparison:
    """What became of the round before.

    `renamed` has the old and the new name of lines that have another; `clauses` what changed in the ruleset, where
    the two rounds were judged by two.
    """

    old_name: str
    new_name: str
    followed: tuple[Followed, ...]
    changes: tuple[TermChange, ...]
    added: tuple[str, ...]
    dropped: tuple[str, ...]
    renamed: tuple[tuple[str, str], ...]
    clauses: tuple[ClauseChange, ...] = ()
    rulesets: tuple[str, str] = ("", "")

    def with_fate(self, *fates: Fate) -> tuple[Followed, ...]:
        """Return the findings with one of some fates, in the order of the fates."""
        return tuple(one for fate in fates for one in self.followed if one.fate is fate)

    @cached_property
    def silent(self) -> tuple[TermChange, ...]:
        """The changes that no finding asked for."""
        return self.of_kind(ChangeKind.SILENT)

    def of_kind(self, kind: ChangeKind) -> tuple[TermChange, ...]:
        """Return the changes of one kind, in the order of the lines."""
        return tuple(change for change in self.changes if change.kind is kind)

    @property
    def nothing(self) -> bool:
        """Whether the two rounds say the same, open findings or not."""
        moved = any(one.fate is not Fate.STILL_OPEN for one in self.followed)
        return not (moved or self.changes or self.added or self.dropped or self.renamed or self.clauses)


def compare_rounds(old: Matrix, new: Matrix) -> Matrix:
    """Return the matrix of the resubmittal with its comparison to the round before."""
    return replace(new, comparison=_Rounds(old, new).comparison())


class _Rounds:
    """The work of comparing two rounds."""

    def __init__(self, old: Matrix, new: Matrix) -> None:
        self.old, self.new = old, new
        ruleset = new.ruleset
        self.rules = Rules.of(ruleset)
        self.wording = LineWording.of(ruleset)
        self.lines: Matching = match_lines(old.schedule.lines, new.schedule.lines, ruleset.vocabulary, self.rules)
        self.clauses: Mapping[int, int] = pair_clauses(old.ruleset, ruleset)

    def comparison(self) -> RoundComparison:
        """Return all of it."""
        old, new = self.old.schedule.lines, self.new.schedule.lines
        pairs = self.lines.pairs
        same_ruleset = self.old.ruleset is self.new.ruleset
        return RoundComparison(
            self.old.schedule.name,
            self.new.schedule.name,
            tuple(self._followed()),
            tuple(change for pair in pairs for change in self._changes(pair)),
            tuple(new[index].name for index in self.lines.added),
            tuple(old[index].name for index in self.lines.dropped),
            tuple((old[p.old].name, new[p.new].name) for p in pairs if old[p.old].name != new[p.new].name),
            () if same_ruleset else compare_clauses(self.old.ruleset, self.new.ruleset),
            (_called(self.old.ruleset), _called(self.new.ruleset)),
        )

    # ---- findings ------------------------------------------------------------------------------------------------

    def _followed(self) -> Iterator[Followed]:
        """Yield every finding of either round: by the lines of the resubmittal, then those of dropped lines."""
        before = {pair.new: pair.old for pair in self.lines.pairs}
        for row, line in enumerate(self.new.schedule.lines):
            yield from self._of_line(before.get(row), row, line)
        for row in self.lines.dropped:
            for clause, cell in zip(self.old.ruleset.clauses, self.old.told[row], strict=True):
                if _is_open(cell):
                    yield _follow(Fate.LINE_DROPPED, self.old.schedule.lines[row], clause, cell, None)

    def _of_line(self, was: int | None, row: int, line: Line) -> Iterator[Followed]:
        before = {now: old for old, now in self.clauses.items()}
        for column, clause in enumerate(self.new.ruleset.clauses):
            old = None
            if was is not None and column in before:
                old = self.old.told[was][before[column]]
            fate = _fate(old, self.new.told[row][column])
            if fate is not None:
                yield _follow(fate, line, clause, old, self.new.told[row][column])
        for column, clause in enumerate(self.old.ruleset.clauses):
            if was is not None and column not in self.clauses and _is_open(self.old.told[was][column]):
                yield _follow(Fate.CLAUSE_DROPPED, line, clause, self.old.told[was][column], None)

    # ---- changes -------------------------------------------------------------------------------------------------

    def _changes(self, pair: Pair) -> Iterator[TermChange]:
        old, new = self.old.schedule.lines[pair.old], self.new.schedule.lines[pair.new]
        terms = changed_terms(old, new, self.wording.vocabulary, self.rules)
        asked = self._asked(pair.old) if terms else frozenset()
        for term in terms:
            then, now = old.data.get(term), new.data.get(term)
            kind = ChangeKind.ASKED if term in asked else ChangeKind.SILENT
            if kind is ChangeKind.SILENT and (then is None or isinstance(then.value, NotGiven)):
                kind = ChangeKind.NEWLY_STATED
            words = self.wording.datum(then, term), self.wording.datum(now, term)
            yield TermChange(new.name, term, *words, kind, new.place if now is None else now.place)

    def _asked(self, row: int) -> frozenset[str]:
        """Return the terms that the findings on a line of the round before asked to be changed or stated.

        A clause that is not met, and advice that is not followed, ask for another proposal in the terms that they
        speak of, never for another building: another size or temperature is a change that was not requested, unless
        it was missing.
        """
        asked: set[str] = set()
        for clause, cell in zip(self.old.ruleset.clauses, self.old.told[row], strict=True):
            if cell.verdict is Verdict.CANNOT_TELL:
                asked |= set(cell.missing)
            if Verdict.FAILS in (cell.verdict, cell.advice) or cell.verdict in (*OPEN, Verdict.ACCEPTED):
                asked |= self._proposed_terms(clause)
        return frozenset(asked)

    def _proposed_terms(self, clause: Clause) -> set[str]:
        """Return the terms that a contractor proposes and that a verdict of the clause stands on.

        These are the terms that the clause speaks of, what computed ones are worked out from, and what decides what
        is assumed of any of them. A vocabulary that does not say what is proposed leaves every term open to change.
        """
        needed = needs_of(conditions_of(clause), self.old.ruleset).terms
        says = any(term.proposed for term in self.old.ruleset.vocabulary.terms.values())
        return {term.name for term in needed if term.proposed or not says}


def _fate(old: Cell | None, now: Cell) -> Fate | None:
    """Return what became of the finding of a cell, None where it is none in either round."""
    was_open = old is not None and _is_open(old)
    if _is_open(now):
        return Fate.STILL_OPEN if was_open else Fate.NEW
    if not was_open:
        return None
    if now.verdict is Verdict.ACCEPTED:
        return Fate.ACCEPTED
    return Fate.NO_LONGER_APPLIES if now.verdict is Verdict.NOT_APPLICABLE else Fate.CLOSED


def _is_open(cell: Cell) -> bool:
    return cell.mandatory and cell.verdict in OPEN


def _follow(fate: Fate, line: Line, clause: Clause, old: Cell | None, now: Cell | None) -> Followed:
    return Followed(fate, line.name, clause.label, clause.title, old, now)


def _called(ruleset: Ruleset) -> str:
    return f"{ruleset.name}, {ruleset.edition}" if ruleset.edition else ruleset.name
