"""Findings: what is wrong with the wording of a ruleset, each with a line of a schedule that shows it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from speccheck.language.core import Assignment
from speccheck.language.diagnostics import Diagnostic, Place


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing found: what is said of it and where, and the labels of the clauses.

    `example` states a line, each value in the words of a schedule cell, that shows the finding; it is empty where the
    finding is that there is no such line. `systems` says in words for which lines the finding holds, where that is
    more than the example.
    """

    said: Diagnostic
    clauses: tuple[str, ...]
    example: tuple[Assignment, ...] = ()
    systems: str = ""

    @property
    def code(self) -> str:
        """The code of the rule of proofreading."""
        return self.said.code

    @property
    def message(self) -> str:
        """What was found, in one sentence."""
        return self.said.message

    @property
    def help(self) -> str:
        """What to do about it, "" where that is plain."""
        return self.said.help

    @property
    def place(self) -> Place:
        """Where the wording stands."""
        return self.said.place

    @property
    def example_text(self) -> str:
        """The example as it is written in a clause: "service steam, pipe size 2 in"."""
        return ", ".join(f"{stated.term.name} {stated.text}" for stated in self.example)

    def diagnostic(self) -> Diagnostic:
        """Return the finding as a warning, for whatever shows diagnostics."""
        shown = f"for example {self.example_text}" if self.example else ""
        help = "; ".join(part for part in (self.help, shown) if part)
        return replace(self.said, help=help)


@dataclass(frozen=True, slots=True)
class Undecided:
    """A question that could not be answered: what was asked, about which clauses, and why there is no answer."""

    said: Diagnostic
    clauses: tuple[str, ...]
    why: str

    @property
    def code(self) -> str:
        """The code of the rule of proofreading."""
        return self.said.code

    @property
    def question(self) -> str:
        """What was asked: "whether clause `4` ever applies"."""
        return self.said.message

    @property
    def place(self) -> Place:
        """Where the wording stands."""
        return self.said.place

    @property
    def help(self) -> str:
        """What a person can do about it."""
        return self.said.help or "nothing was found to be wrong, and nothing proved to be right: read it yourself"


@dataclass(frozen=True, slots=True)
class Proofreading:
    """What proofreading came to: the findings, the questions that stay open, and what the writer says is meant."""

    findings: tuple[Finding, ...] = ()
    undecided: tuple[Undecided, ...] = ()
    meant: tuple[Finding, ...] = ()


def gathered(parts: Iterable[Finding | Undecided]) -> Proofreading:
    """Return findings and open questions sorted out, each in the order of its place and its code."""
    known = tuple(dict.fromkeys(parts))
    found = sorted((one for one in known if isinstance(one, Finding)), key=lambda one: (one.place, one.code))
    open_questions = sorted((one for one in known if isinstance(one, Undecided)), key=lambda one: (one.place, one.code))
    return Proofreading(tuple(found), tuple(open_questions))
