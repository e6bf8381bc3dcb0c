"""Clauses: when they apply, what they ask, what they leave out, and the examples that show it."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from speccheck.language.core.conditions import Condition
from speccheck.language.core.sources import Source
from speccheck.language.diagnostics import Place
from speccheck.language.vocabulary.terms import Term


@dataclass(frozen=True, slots=True)
class ExceptionPart:
    """A condition that takes lines out of a clause, and the reason that the clause gives for it."""

    condition: Condition
    because: str = ""
    place: Place = field(default=Place(), compare=False)


class Expected(StrEnum):
    """What an example says that the clause makes of it."""

    COMPLIES = "complies"
    COMPLIES_AGAINST_ADVICE = "complies against advice"
    FAILS = "fails"
    DOES_NOT_APPLY = "does not apply"
    CANNOT_TELL = "cannot tell"


@dataclass(frozen=True, slots=True)
class Assignment:
    """One stated value of an example, in the words of a schedule cell."""

    term: Term
    text: str
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Example:
    """A line in a few words and what the clause is to make of it."""

    title: str
    expected: Expected
    data: tuple[Assignment, ...]
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Clause:
    """One clause: when it applies, what it asks, what it advises, what it leaves out, and where it comes from.

    `label` is the name by which reports call it: its number, with the ruleset's name where two rulesets share one.
    `called` is that name, as `builds on` has it; it is empty for a clause of the ruleset itself.
    """

    name: str
    title: str
    ruleset: str
    label: str = ""
    called: str = ""
    subject: str = ""
    sources: tuple[Source, ...] = ()
    wording: str = ""
    reason: str = ""
    cautions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    scope: tuple[Condition, ...] = ()
    shall: tuple[Condition, ...] = ()
    should: tuple[Condition, ...] = ()
    exceptions: tuple[ExceptionPart, ...] = ()
    examples: tuple[Example, ...] = ()
    replaces: tuple[str, str] | None = None
    place: Place = field(default=Place(), compare=False)
