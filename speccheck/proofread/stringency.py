"""Stringency: is every line that a specification accepts also accepted by the code that it must meet?

Clause by clause of the code. The specification is *looser* where it accepts a line (no clause of it fails, and each
complies or does not apply) that the clause of the code fails; it is *stricter* where a line complies with the clause of
the code and fails a clause of the specification that demands something of the same terms. Both: not comparable.
Neither: the same.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

from speccheck.engine import Verdict
from speccheck.language.core import Assignment, Ruleset
from speccheck.language.diagnostics import Place
from speccheck.proofread.accepted_lines import AcceptedLines
from speccheck.proofread.clause_regions import ClauseRegions, Reading, read_together
from speccheck.proofread.diagrams import EMPTY
from speccheck.proofread.findings import NOWHERE, Finding
from speccheck.proofread.lines import Absent, Lines, Shows
from speccheck.submittal.lines import Line


class Stringency(StrEnum):
    """How a specification stands to one clause of the code."""

    STRICTER = "stricter"
    SAME = "same"
    LOOSER = "looser"
    NOT_COMPARABLE = "stricter and looser"
    UNDECIDED = "not decided"


@dataclass(frozen=True, slots=True)
class ClauseStringency:
    """How the specification stands to one clause of the code, with the lines that show it.

    `matched` are the labels of the clauses of the specification that demand something of the same terms; where there
    are none, the specification does not ask for it. `looser` is a line that the specification accepts and the code does
    not, `stricter` one that complies with the code and fails the clause `stricter_by`; empty where there is none.
    """

    label: str
    title: str
    stringency: Stringency
    matched: tuple[str, ...]
    looser: tuple[Assignment, ...] = ()
    stricter: tuple[Assignment, ...] = ()
    stricter_by: str = ""
    place: Place = NOWHERE

    def finding(self, code: str) -> Finding | None:
        """Return the finding that the specification is looser than a clause of the code named `code`."""
        if not self.looser:
            return None
        message = f"the specification is looser than clause `{self.label}` of `{code}`"
        if not self.matched:
            message = f"the specification does not ask for what clause `{self.label}` of `{code}` asks for"
        help = "the specification accepts the line, the code does not"
        return Finding("P401", "looser than the code", (self.label,), message, help, self.looser, place=self.place)


def compare_stringency(specification: Ruleset, code: Ruleset) -> tuple[ClauseStringency, ...]:
    """Return how a specification stands to each mandatory clause of a code, in the order of the code."""
    readings = read_together((specification, code))
    comparing = _Comparing(readings[0], readings[1], Lines(readings))
    return tuple(comparing.clause(clause) for clause in readings[1].clauses if clause.mandatory)


@dataclass(frozen=True)
class _Comparing:
    specification: Reading
    code: Reading
    lines: Lines

    @cached_property
    def _mandatory(self) -> tuple[ClauseRegions, ...]:
        return tuple(clause for clause in self.specification.clauses if clause.mandatory)

    @cached_property
    def _looser(self) -> AcceptedLines:
        return AcceptedLines(self.specification, self._mandatory, self.code, self.lines)

    def clause(self, clause: ClauseRegions) -> ClauseStringency:
        """Return how the specification stands to one clause of the code."""
        matched = [one for one in self._mandatory if one.demanded & clause.demanded]
        looser = self._looser.line(clause, matched)
        stricter, by = self._stricter(clause, matched)
        return ClauseStringency(
            clause.label,
            clause.clause.title,
            _stringency(looser, stricter),
            tuple(one.label for one in matched),
            self.lines.example(looser) if isinstance(looser, Line) else (),
            self.lines.example(stricter) if isinstance(stricter, Line) else (),
            by,
            clause.clause.place,
        )

    # ---- stricter --------------------------------------------------------------------------------

    def _stricter(self, clause: ClauseRegions, matched: Sequence[ClauseRegions]) -> tuple[Line | Absent, str]:
        """Return a line that complies with the clause and fails one of the specification, and the label of that one."""
        diagrams, open_question = self.code.diagrams, False
        for one in matched:
            both = diagrams.both(diagrams.both(clause.applies, one.fails), clause.shall.holds)
            if both == EMPTY:
                continue
            region = diagrams.both(both, self.code.complete((clause, one)))
            line = self.lines.find(region, self._shows_stricter(clause, one))
            if isinstance(line, Line):
                return line, one.label
            open_question = open_question or line is Absent.UNDECIDED
        return (Absent.UNDECIDED if open_question else Absent.NONE), ""

    def _shows_stricter(self, clause: ClauseRegions, stricter: ClauseRegions) -> Shows:
        def shows(line: Line) -> bool:
            complies = self.code.judge.cell(clause.number, line).verdict is Verdict.COMPLIES
            return complies and self.specification.judge.cell(stricter.number, line).verdict is Verdict.FAILS

        return shows


def _stringency(looser: Line | Absent, stricter: Line | Absent) -> Stringency:
    if isinstance(looser, Line):
        return Stringency.NOT_COMPARABLE if isinstance(stricter, Line) else Stringency.LOOSER
    if looser is Absent.UNDECIDED or stricter is Absent.UNDECIDED:
        return Stringency.UNDECIDED
    return Stringency.STRICTER if isinstance(stricter, Line) else Stringency.SAME
