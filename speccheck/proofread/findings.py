"""Findings: what is wrong with the wording of a ruleset, each with a line of a schedule that shows it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from speccheck.language.core import Assignment
from speccheck.language.diagnostics import Diagnostic, Place, Severity

NOWHERE = Place()


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing found: its code, what kind of thing it is, the labels of the clauses, one sentence, what to do.

    `example` states a line, each value in the words of a schedule cell, that shows the finding; it is empty where the
    finding is that there is no such line. `systems` says in words for which lines the finding holds, where that is
    more than the example. `place` is where the wording stands.
    """

    code: str
    kind: str
    clauses: tuple[str, ...]
    message: str
    help: str = ""
    example: tuple[Assignment, ...] = ()
    systems: str = ""
    place: Place = NOWHERE

    @property
    def example_text(self) -> str:
        """The example as it is written in a clause: "service steam, pipe size 2 in"."""
        return ", ".join(f"{stated.term.name} {stated.text}" for stated in self.example)

    def diagnostic(self) -> Diagnostic:
        """Return the finding as a warning, for whatever shows diagnostics."""
        shown = f"for example {self.example_text}" if self.example else ""
        help = "; ".join(part for part in (self.help, shown) if part)
        return Diagnostic(self.code, Severity.WARNING, self.message, self.place, help)


@dataclass(frozen=True, slots=True)
class Undecided:
    """A question that could not be answered: about which clauses, what was asked, why it is open, what to do."""

    code: str
    clauses: tuple[str, ...]
    question: str
    why: str
    place: Place = NOWHERE
    help: str = "nothing was found to be wrong, and nothing proved to be right: read it through yourself"


@dataclass(frozen=True, slots=True)
class Proofreading:
    """What proofreading came to: the findings, the questions that stay open, and what the writer says is meant."""

    findings: tuple[Finding, ...] = ()
    undecided: tuple[Undecided, ...] = ()
    meant: tuple[Finding, ...] = ()

    def __add__(self, other: Proofreading) -> Proofreading:
        return Proofreading(self.findings + other.findings, self.undecided + other.undecided, self.meant + other.meant)


def gathered(parts: Iterable[Finding | Undecided]) -> Proofreading:
    """Return findings and open questions sorted out, each in the order of its place and its code."""
    known = tuple(dict.fromkeys(parts))
    found = sorted((one for one in known if isinstance(one, Finding)), key=lambda one: (one.place, one.code))
    open_questions = sorted((one for one in known if isinstance(one, Undecided)), key=lambda one: (one.place, one.code))
    return Proofreading(tuple(found), tuple(open_questions))
