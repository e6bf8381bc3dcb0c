"""The core: what a ruleset means, with every name resolved, every unit converted and every kind checked.

Everything that works with clauses (the judge, the columns, the proofreader, the prose, the editor) reads this core and
nothing else. There are four kinds of amount and eight kinds of condition; a reader matches on all of them, so that a
new kind of node shows itself in each reader.

Plain values inside are those of `speccheck.quantities` (quantities in SI units), numbers, words and sets of words.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from speccheck.language.diagnostics import Place
from speccheck.language.kinds import Kind
from speccheck.language.values import Single
from speccheck.language.vocabulary import Term, Vocabulary
from speccheck.quantities import Interval, NominalSize, Quantity

# ---- amounts: nodes that have a value ----------------------------------------------------------------------------


class Operation(StrEnum):
    """What an `Arithmetic` node does with its two amounts."""

    PLUS = "plus"
    MINUS = "minus"
    TIMES = "times"
    DIVIDED_BY = "divided by"
    LARGER = "larger of"
    SMALLER = "smaller of"


@dataclass(frozen=True, slots=True)
class Literal:
    """A value that the clause states."""

    value: Single
    kind: Kind
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class TermValue:
    """The value that the line states for a term."""

    term: Term
    place: Place = field(default=Place(), compare=False)

    @property
    def kind(self) -> Kind:
        """The kind of the term."""
        return self.term.kind


@dataclass(frozen=True, slots=True)
class Lookup:
    """The cell of a table for the line's values of its axes."""

    table: Table
    place: Place = field(default=Place(), compare=False)

    @property
    def kind(self) -> Kind:
        """The kind of the table's cells."""
        return self.table.kind


@dataclass(frozen=True, slots=True)
class Arithmetic:
    """Two amounts put together; the kind of the result was worked out when the clause was resolved."""

    operation: Operation
    left: Amount
    right: Amount
    kind: Kind
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Adjusted:
    """A thickness adjusted from the stated conductivity to the proposed one, around a pipe of an outside diameter.

    T = r [(1 + t/r)^(K/k) - 1], as the energy codes have it for conductivities outside the range of their tables.
    """

    thickness: Amount
    stated: Amount
    proposed: Amount
    diameter: Amount
    place: Place = field(default=Place(), compare=False)

    @property
    def kind(self) -> Kind:
        """The kind of the thickness: a length."""
        return self.thickness.kind


@dataclass(frozen=True, slots=True)
class NamedAmount:
    """An amount that a definition gave a name."""

    name: str
    amount: Amount
    place: Place = field(default=Place(), compare=False)

    @property
    def kind(self) -> Kind:
        """The kind of the amount behind the name."""
        return self.amount.kind


Amount = Literal | TermValue | Lookup | Arithmetic | Adjusted | NamedAmount

# ---- conditions: nodes that hold, do not hold, or are not known --------------------------------------------------


class Relation(StrEnum):
    """How a `Comparison` compares its left amount with its right one."""

    EQUAL = "is"
    NOT_EQUAL = "is not"
    AT_LEAST = "is at least"
    AT_MOST = "is at most"
    LESS_THAN = "is less than"
    MORE_THAN = "is more than"


class Inclusion(StrEnum):
    """What an `Includes` node asks of a set."""

    ALL = "include"
    ANY = "include any of"
    NONE = "exclude"


@dataclass(frozen=True, slots=True)
class Comparison:
    """One amount compared with another of the same kind."""

    left: Amount
    relation: Relation
    right: Amount
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class OneOf:
    """An amount that is to be among the stated values."""

    amount: Amount
    options: tuple[Single, ...]
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Includes:
    """A set that is to include all of, any of or none of the stated choices."""

    term: Term
    inclusion: Inclusion
    options: tuple[str, ...]
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Given:
    """Whether the line states the term at all; never itself not known."""

    term: Term
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Holds:
    """A yes-or-no term that is to be yes."""

    term: Term
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Negation:
    """A condition that is not to hold."""

    part: Condition
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Every:
    """Conditions that are all to hold."""

    parts: tuple[Condition, ...]
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Some:
    """Conditions of which at least one is to hold."""

    parts: tuple[Condition, ...]
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class NamedCondition:
    """A condition that a definition gave a name."""

    name: str
    condition: Condition
    place: Place = field(default=Place(), compare=False)


Condition = Comparison | OneOf | Includes | Given | Holds | Negation | Every | Some | NamedCondition

# ---- tables ------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Band:
    """One row or column heading of a table: an interval of amounts, or a list of choices, and its words."""

    text: str
    interval: Interval[Quantity] | Interval[NominalSize] | Interval[float] | None = None
    choices: tuple[str, ...] = ()
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Axis:
    """What a table is read by: a term and its bands in the order in which they are written."""

    term: Term
    bands: tuple[Band, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """A table with one or two axes; `cells[row][column]` is None where the table has a dash (not covered).

    A table with one axis has one column. `of` is the term from whose list the cells are taken, where they are choices.
    """

    name: str
    kind: Kind
    axes: tuple[Axis, ...]
    cells: tuple[tuple[Literal | None, ...], ...]
    unit: str = ""
    of: Term | None = None
    sources: tuple[Source, ...] = ()
    cautions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    ruleset: str = ""
    place: Place = field(default=Place(), compare=False)


# ---- clauses -----------------------------------------------------------------------------------------------------


class Confidence(StrEnum):
    """How sure a published value is."""

    SEEN = "seen"
    SECOND_HAND = "second hand"
    FROM_MEMORY = "from memory"
    COMMON_PRACTICE = "common practice"
    COMPUTED = "computed"
    NOT_STATED = ""


@dataclass(frozen=True, slots=True)
class Source:
    """Where a clause or a table comes from, and how sure that is."""

    text: str
    confidence: Confidence = Confidence.NOT_STATED

    def __str__(self) -> str:
        return f"{self.text} ({self.confidence})" if self.confidence else self.text


@dataclass(frozen=True, slots=True)
class ExceptionPart:
    """A condition that takes lines out of a clause, and the reason that the clause gives for it."""

    condition: Condition
    because: str = ""
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Assumption:
    """A value that stands for a term where a line does not state it, and where the conditions of `scope` all hold."""

    term: Term
    value: Single
    scope: tuple[Condition, ...] = ()
    sources: tuple[Source, ...] = ()
    notes: tuple[str, ...] = ()
    ruleset: str = ""
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class SubjectScope:
    """The systems that the clauses of a subject are to govern: those that meet all conditions and no exception."""

    subject: str
    conditions: tuple[Condition, ...] = ()
    exceptions: tuple[ExceptionPart, ...] = ()
    sources: tuple[Source, ...] = ()
    notes: tuple[str, ...] = ()
    ruleset: str = ""
    place: Place = field(default=Place(), compare=False)


class Never(StrEnum):
    """What a statement says will never be."""

    FALLS = "falls"
    RISES = "rises"
    LOOSER = "looser"
    STRICTER = "stricter"


@dataclass(frozen=True, slots=True)
class AmountTrend:
    """That an amount never falls, or never rises, as a term grows and all else stays as it is."""

    amount: Amount
    never: Never
    term: Term


@dataclass(frozen=True, slots=True)
class DemandTrend:
    """That clauses are never looser, or never stricter, as a term grows and all else stays as it is.

    They are looser on a line where they accept it and would not accept it with a smaller value of the term.
    """

    never: Never
    term: Term


@dataclass(frozen=True, slots=True)
class DemandContrast:
    """That clauses are never looser, or never stricter, with one value of a term than with another."""

    never: Never
    term: Term
    first: Single
    second: Single


Claim = AmountTrend | DemandTrend | DemandContrast


@dataclass(frozen=True, slots=True)
class Statement:
    """What the writer holds to be true of the rules as a whole, on lines that meet the conditions.

    It asks nothing of a schedule. With a `subject` it speaks of the clauses of that subject alone.
    """

    title: str
    claim: Claim
    conditions: tuple[Condition, ...] = ()
    subject: str = ""
    sources: tuple[Source, ...] = ()
    notes: tuple[str, ...] = ()
    ruleset: str = ""
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


@dataclass(frozen=True, slots=True)
class Ruleset:
    """Clauses that are judged together, with all that they stand on.

    `clauses` holds those of the rulesets built on first (without the replaced ones), then its own, in written order.
    `tolerance` is relative. `nominal_metric` says that a nominal metric size may stand for its nominal inch size.
    `stocked` has the values in which terms can be had; `cheapest_first` names terms in the order of what changing
    them costs. Neither bears on a verdict: they are for those who look for what would comply.
    """

    name: str
    vocabulary: Vocabulary
    clauses: tuple[Clause, ...]
    tables: Mapping[str, Table] = field(default_factory=dict)
    definitions: Mapping[str, Condition | Amount] = field(default_factory=dict)
    assumptions: tuple[Assumption, ...] = ()
    scopes: tuple[SubjectScope, ...] = ()
    statements: tuple[Statement, ...] = ()
    edition: str = ""
    units: str = "inch-pound"
    tolerance: float = 1e-6
    nominal_metric: bool = False
    stocked: Mapping[str, tuple[Single, ...]] = field(default_factory=dict)
    cheapest_first: tuple[str, ...] = ()
    covers: str = ""
    leaves_out: str = ""
    cautions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    builds_on: tuple[str, ...] = ()
    replaced: tuple[str, ...] = ()
