"""Rules of diagnostics: what each code stands for, and every sentence in which it is told.

A catalogue (`messages` of each floor) has the rules of one area and their wordings:

    NAME_NOT_KNOWN = Rule("L201", "name not known", "A name is neither a term nor ...")
    NO_SUCH_TABLE = NAME_NOT_KNOWN.says("`{table}` is no table", "name a table")

Whoever finds the mistake says where and which: `NO_SUCH_TABLE.at(place, source, table="losses")`. The page of
diagnostics, `guide` and the tests draw on the same objects.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from string import Formatter
from types import ModuleType
from typing import Protocol

from speccheck.english import meant
from speccheck.language.diagnostics import Diagnostic, Place, Severity


class Excerpts(Protocol):
    """A text that can show the line on which a place lies."""

    def excerpt(self, place: Place) -> str:
        """Return the line of the text at `place`, "" where there is none to show."""


@dataclass(frozen=True, slots=True)
class Rule:
    """One code: its title, what a person needs to know about it, and how much it weighs as a rule."""

    code: str
    title: str
    documentation: str
    severity: Severity = Severity.ERROR

    def says(self, message: str, help: str, severity: Severity | None = None) -> Wording:
        """Return a sentence of this rule, and what to write instead; both name their facts in braces.

        `help` is "" where there is nothing to write instead. `severity` is given where this sentence weighs otherwise.
        """
        return Wording(self, message, help, severity or self.severity)


@dataclass(frozen=True, slots=True)
class Wording:
    """One sentence of a rule: lower case, no full stop, the offending text in backticks, facts in braces."""

    rule: Rule
    message: str
    help: str
    severity: Severity

    @property
    def shown(self) -> str:
        """The sentence with dots in place of its facts, and what it says to write instead; "" where all is a fact."""
        told = (re.sub(r"\{\w+(:[^}]*)?\}", "...", text).format() for text in (self.message, self.help))
        return ": ".join(text for text in told if text.strip("."))

    @property
    def facts(self) -> frozenset[str]:
        """The names of the facts that the sentence and its help line are told with."""
        parts = Formatter().parse(self.message + self.help)
        return frozenset(name for _, name, _, _ in parts if name is not None)

    def weighing(self, severity: Severity) -> Wording:
        """Return the same sentence with another weight."""
        return replace(self, severity=severity)

    def at(
        self, place: Place, source: Excerpts | str = "", /, *, near: str | None = None, **facts: object
    ) -> Diagnostic:
        """Return the diagnostic at a place, with the line of `source` that it lies on, or that text itself.

        `near` is the known name that was probably meant, if there is one; the help line then asks for that.
        """
        excerpt = source if isinstance(source, str) else source.excerpt(place)
        message, help = self.message.format_map(facts), meant(near, self.help.format_map(facts))
        return Diagnostic(self.rule.code, self.severity, message, place, help, excerpt)


def rules_of(catalogue: ModuleType) -> Iterator[Rule]:
    """Yield the rules of a catalogue, in its order."""
    return (found for found in vars(catalogue).values() if isinstance(found, Rule))


def wordings_of(catalogue: ModuleType) -> Iterator[Wording]:
    """Yield the wordings of a catalogue, in its order."""
    return (found for found in vars(catalogue).values() if isinstance(found, Wording))
