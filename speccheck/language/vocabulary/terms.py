"""Vocabularies: the terms that clauses speak of, their kinds and values, and what contractors write for them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from functools import cached_property

from speccheck.language.diagnostics import Place
from speccheck.quantities import Interval, NominalSize, Quantity


class Form(StrEnum):
    """The shape of a value."""

    QUANTITY = "quantity"
    SIZE = "nominal size"
    CHOICE = "one of"
    SET = "any of"
    YES_NO = "yes or no"
    COUNT = "count"
    NUMBER = "number"
    TEXT = "text"


@dataclass(frozen=True, slots=True)
class Kind:
    """A form and, for a physical quantity, the name of its dimension ("length", "temperature difference", ...)."""

    form: Form
    dimension: str = ""

    def __str__(self) -> str:
        return self.dimension or str(self.form)

    @property
    def described(self) -> str:
        """The kind with its article, as a sentence needs it."""
        phrases = {Form.CHOICE: "a choice from a list", Form.SET: "a set of choices", Form.YES_NO: "a yes or no"}
        name = str(self)
        return phrases.get(self.form, f"{'an' if name[0] in 'aeiou' else 'a'} {name}")

    @property
    def ordered(self) -> bool:
        """Whether values of this kind can be more or less than one another."""
        return self.form in (Form.QUANTITY, Form.SIZE, Form.COUNT, Form.NUMBER)

    @property
    def counted_from_nothing(self) -> bool:
        """Whether values of this kind have shares, totals and multiples; temperatures and dates have none."""
        return self.form in (Form.QUANTITY, Form.COUNT, Form.NUMBER) and self.dimension not in ("temperature", "date")


SIZE = Kind(Form.SIZE)
CHOICE = Kind(Form.CHOICE)
SET = Kind(Form.SET)
YES_NO = Kind(Form.YES_NO)
COUNT = Kind(Form.COUNT)
NUMBER = Kind(Form.NUMBER)
DATE = Kind(Form.COUNT, "date")  # days, counted: compared exactly, as whole numbers are
TEXT = Kind(Form.TEXT)


def quantity_kind(dimension: str) -> Kind:
    """Return the kind of physical quantities of `dimension`."""
    return Kind(Form.QUANTITY, dimension)


@dataclass(frozen=True, slots=True)
class Choice:
    """One allowed value of a term, with the other ways it is written.

    `part_of` names the value of the same term that this one belongs to, as a valve belongs to its pipe.
    """

    name: str
    also: tuple[str, ...] = ()
    meaning: str = ""
    part_of: str = ""


@dataclass(frozen=True, slots=True)
class Either:
    """Words, folded by `fold`, that stand for any of several values of a term: "HWS" for two waters."""

    words: tuple[str, ...]
    values: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Family:
    """Names, as they are written, by which clauses mean several values of a term at once."""

    names: tuple[str, ...]
    values: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Sensible:
    """What the values of a term sensibly are; where `where` is not "", for those `values` of that term.

    A range for amounts and sizes; for a term with a list, or of yes or no, the `options` that are left.
    """

    range: Interval[Quantity] | Interval[NominalSize] | Interval[float] | None
    where: str = ""
    values: tuple[str, ...] = ()
    options: tuple[str | bool, ...] = ()

    @property
    def has_upper_end(self) -> bool:
        """Whether it is a range with an upper end."""
        return self.range is not None and self.range.high is not None

    def allows(self, value: object) -> bool:
        """Say whether a single value of the term is a sensible one."""
        return value in self.options if self.range is None else self.range.contains(value)  # type: ignore[arg-type]


@dataclass(frozen=True, slots=True)
class Inferred:
    """The value that a line means without stating it, where it states one of `values` of the term `where`.

    Where `given` is not "", it has to state that term too.
    """

    value: str
    where: str
    values: tuple[str, ...]
    given: str = ""


@dataclass(frozen=True)
class Term:
    """A thing that clauses speak of and schedules state.

    `inch_pound` and `metric` are the units in which its values are usually written, canonical spelling.
    `none_is` is the amount that the word "none" stands for, in SI units (infinity for "unlimited"), or None
    where "none" says nothing about this term. `computed` terms are worked out from others; what a schedule states for
    one is not verified, and counts for nothing, unless it is `computed_or_stated`.
    `proposed` terms are what a contractor proposes; the building and its design set the others. `of` names the term
    whose property this is, such as the insulation of a conductivity; `measured` terms are properties of a thing that is
    no term itself. `ordered` says that its values are listed from the least to the most, so that clauses can ask for at
    least one of them.

    `tells_apart` says that its values tell one system of the building from another; `tabulated` that they stand in
    the cells of tables with sizes, services or places across; `never_compared` that two lines
    which differ in it may be the same, as names and remarks; `needs_evidence` that product data have to show it.
    `stated_at` names the term at whose value this one is stated, `dates` those whose report it dates.

    `beside` names the terms in whose cells words and amounts of this one are read as well. `either` has the words that
    stand for several values, `families` the names by which clauses mean several, `together` the groups of values that
    stand in one schedule and settle such words, and
    `sensible` the ranges and lists outside which a value is doubtful (`sensible_numbers` where nothing states a unit of
    it), `inferred` the values that other data leave no
    doubt of. `yes_also` and `no_also` are the words of schedules that answer yes and no: "concealed" and "exposed".
    By the names that it had `formerly`, which are among `also`, clauses may still call a term.
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
    measured: bool = False
    ordered: bool = False
    tells_apart: bool = False
    tabulated: bool = False
    never_compared: bool = False
    needs_evidence: bool = False
    stated_at: str = ""
    dates: tuple[str, ...] = ()
    beside: tuple[str, ...] = ()
    either: tuple[Either, ...] = ()
    families: tuple[Family, ...] = ()
    together: tuple[tuple[str, ...], ...] = ()
    sensible: tuple[Sensible, ...] = ()
    sensible_numbers: tuple[Sensible, ...] = ()
    inferred: tuple[Inferred, ...] = ()
    yes_also: tuple[str, ...] = ()
    no_also: tuple[str, ...] = ()
    formerly: tuple[str, ...] = ()
    computed_or_stated: bool = False
    place: Place = field(default=Place(), compare=False)

    @property
    def is_property(self) -> bool:
        """Whether it is a property of what was chosen, which only another choice changes, and no choice of its own."""
        return bool(self.of) or self.measured

    @property
    def only_computed(self) -> bool:
        """Whether nothing that a line states for it can stand: it is worked out, or it is not known."""
        return self.computed and not self.computed_or_stated

    @cached_property
    def folded_names(self) -> tuple[str, ...]:
        """Its name and what contractors write for it, folded by `fold`."""
        return tuple(fold(name) for name in (self.name, *self.also))

    @cached_property
    def answers(self) -> Mapping[str, bool]:
        """The words, folded by `fold`, that answer yes and no to this term beside "yes" and "no" themselves."""
        return {fold(words): answer for answer in (True, False) for words in (self.no_also, self.yes_also)[answer]}

    @cached_property
    def choice_names(self) -> Mapping[str, str]:
        """Every spelling of every choice, folded by `fold`, to the name of the choice."""
        spellings: dict[str, str] = {}
        for choice in self.choices:
            for spelling in (choice.name, *choice.also):
                spellings.setdefault(fold(spelling), choice.name)
        return spellings

    @cached_property
    def family_values(self) -> Mapping[str, tuple[str, ...]]:
        """Every name of a family, folded by `fold`, to the values that it means."""
        return {fold(name): family.values for family in self.families for name in family.names}

    @property
    def of_choices(self) -> bool:
        """Whether the values come out of a closed list."""
        return self.kind.form in (Form.CHOICE, Form.SET)


@dataclass(frozen=True, slots=True)
class Addition:
    """What a vocabulary adds to a term of another one: values of its list, families, and what schedules call it."""

    term: str
    choices: tuple[Choice, ...] = ()
    families: tuple[Family, ...] = ()
    also: tuple[str, ...] = ()
    place: Place = field(default=Place(), compare=False)

    def to(self, term: Term) -> Term:
        """Return a term with what is added to it, before "none", which ends a list; what it has stays as it is."""
        known = {choice.name for choice in term.choices}
        added = [choice for choice in self.choices if choice.name not in known]
        before = [choice for choice in term.choices if choice.name != "none"]
        after = [choice for choice in term.choices if choice.name == "none"]
        families = [family for family in self.families if family not in term.families]
        also = [words for words in self.also if words not in term.also]
        return replace(
            term,
            choices=(*before, *added, *after),
            families=(*term.families, *families),
            also=(*term.also, *also),
        )


@dataclass(frozen=True)
class Vocabulary:
    """Terms by name, in the order in which they were written; `additions` are for terms of other vocabularies."""

    name: str
    terms: Mapping[str, Term]
    edition: str = ""
    covers: str = ""
    cautions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    additions: tuple[Addition, ...] = ()

    def extended(self, additions: Iterable[Addition]) -> Vocabulary:
        """Return the vocabulary with what others add to its terms; the same one where they add nothing."""
        mine = [one for one in additions if one.term in self.terms]
        terms = dict(self.terms)
        for one in mine:
            terms[one.term] = one.to(terms[one.term])
        return replace(self, terms=terms) if mine else self

    @cached_property
    def spellings(self) -> Mapping[str, str]:
        """Every spelling of every term, folded by `fold`, to the name of the term; names win over synonyms."""
        folded = {fold(name): name for name in self.terms}
        for term in self.terms.values():
            for spelling in term.also:
                folded.setdefault(fold(spelling), term.name)
        return folded

    @cached_property
    def tabulated(self) -> tuple[Term, ...]:
        """The terms whose values stand in the cells of cross tables, likeliest first."""
        return tuple(term for term in self.terms.values() if term.tabulated)

    def find(self, spelling: str) -> Term | None:
        """Return the term that goes by `spelling`, be it its name or what contractors write for it."""
        name = self.spellings.get(fold(spelling))
        return self.terms[name] if name is not None else None

    def called(self, name: str) -> Term | None:
        """Return the term with this name, or one that it had formerly; no other synonym counts in a ruleset."""
        found = self.find(name)
        return found if found is not None and fold(name) in map(fold, (found.name, *found.formerly)) else None


def fold(text: str) -> str:
    """Return `text` as it is compared: lower case, without full stops; hyphens and runs of space are one space."""
    return re.sub(r"[\s\-–—_]+", " ", text.replace(".", " ")).strip().casefold()
