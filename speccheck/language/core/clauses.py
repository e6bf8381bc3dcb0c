"""Clauses: when they apply, what they ask, what they leave out, and the examples that show it."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from speccheck.language.core.conditions import Condition, Given
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
    NOT_CHECKED = "not checked"
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


class Confirmable:
    """What a person has to confirm before it judges: nobody stands behind a draft, or what is left to do."""

    __slots__ = ()
    is_draft: bool
    todo: tuple[str, ...]

    @property
    def is_confirmed(self) -> bool:
        """Whether somebody stands behind it as it is."""
        return not self.is_draft and not self.todo


@dataclass(frozen=True, slots=True)
class Clause(Confirmable):
    """One clause: when it applies, what it asks, what it advises, what it leaves out, and where it comes from.

    `label` is the name by which reports call it: its number, with the ruleset's name where two rulesets share one.
    `called` is that name, as `builds on` has it; it is empty for a clause of the ruleset itself. A clause that is a
    draft, or has something left to do, judges nothing until a person has confirmed it.
    `judged_only` has the terms without which a line is not checked by it.
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
    judged_only: tuple[Given, ...] = ()
    examples: tuple[Example, ...] = ()
    replaces: tuple[str, str] | None = None
    is_draft: bool = False
    todo: tuple[str, ...] = ()
    place: Place = field(default=Place(), compare=False)


class UncheckedReason(StrEnum):
    """Why no clause checks a paragraph of a section."""

    DOCUMENT = "document"
    ACT_ON_SITE = "act on site"
    QUALIFICATION = "qualification"
    ORDER_OF_WORK = "order of work"
    MANUFACTURER = "left to the manufacturer"
    OTHER_SECTION = "other section"
    VAGUE = "vague"


@dataclass(frozen=True, slots=True)
class UncheckedParagraph:
    """A paragraph of the section that no clause checks: its number and title, the reason, and its words."""

    name: str
    title: str
    ruleset: str
    reason: UncheckedReason
    because: str = ""
    wording: str = ""
    place: Place = field(default=Place(), compare=False)
