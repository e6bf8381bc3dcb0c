"""Vocabularies: the terms that clauses speak of, their kinds and values, and what contractors write for them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from speccheck.language.diagnostics import Place
from speccheck.language.kinds import Form, Kind


@dataclass(frozen=True, slots=True)
class Choice:
    """One allowed value of a term, with the other ways it is written.

    `part_of` names the value of the same term that this one belongs to, as a valve belongs to its pipe.
    """

    name: str
    also: tuple[str, ...] = ()
    meaning: str = ""
    part_of: str = ""


@dataclass(frozen=True)
class Term:
    """A thing that clauses speak of and schedules state.

    `inch_pound` and `metric` are the units in which its values are usually written, canonical spelling.
    `none_is` is the amount that the word "none" stands for, in SI units (infinity for "unlimited"), or None
    where "none" says nothing about this term. `computed` terms are worked out and never read from a schedule alone.
    `proposed` terms are what a contractor proposes; the building and its design set the others. `of` names the term
    whose property this is, such as the insulation of a conductivity.

    `tells_apart` says that its values tell one system of the building from another; `never_compared` that two lines
    which differ in it may be the same, as names and remarks; `needs_evidence` that product data have to show it.
    `stated_at` names the term at whose value this one is stated, `dates` those whose report it dates.
    """

    name: str
    kind: Kind
    choices: tuple[Choice, ...] = ()
    also: tuple[str, ...] = ()
    meaning: str = ""
    heading: str = ""
    inch_pound: str = ""
    metric: str = ""
    none_is: float | None = None
    computed: bool = False
    proposed: bool = False
    of: str = ""
    tells_apart: bool = False
    never_compared: bool = False
    needs_evidence: bool = False
    stated_at: str = ""
    dates: tuple[str, ...] = ()
    place: Place = field(default=Place(), compare=False)

    @cached_property
    def choice_names(self) -> Mapping[str, str]:
        """Every spelling of every choice, folded by `fold`, to the name of the choice."""
        spellings: dict[str, str] = {}
        for choice in self.choices:
            for spelling in (choice.name, *choice.also):
                spellings.setdefault(fold(spelling), choice.name)
        return spellings

    @property
    def of_choices(self) -> bool:
        """Whether the values come out of a closed list."""
        return self.kind.form in (Form.CHOICE, Form.SET)


@dataclass(frozen=True)
class Vocabulary:
    """Terms by name, in the order in which they were written."""

    name: str
    terms: Mapping[str, Term]
    edition: str = ""
    covers: str = ""
    cautions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()

    @cached_property
    def spellings(self) -> Mapping[str, str]:
        """Every spelling of every term, folded by `fold`, to the name of the term; names win over synonyms."""
        folded = {fold(name): name for name in self.terms}
        for term in self.terms.values():
            for spelling in term.also:
                folded.setdefault(fold(spelling), term.name)
        return folded

    def find(self, spelling: str) -> Term | None:
        """Return the term that goes by `spelling`, be it its name or what contractors write for it."""
        name = self.spellings.get(fold(spelling))
        return self.terms[name] if name is not None else None


def fold(text: str) -> str:
    """Return `text` as it is compared: lower case, without full stops; hyphens and runs of space are one space."""
    return re.sub(r"[\s\-–—_]+", " ", text.replace(".", " ")).strip().casefold()
