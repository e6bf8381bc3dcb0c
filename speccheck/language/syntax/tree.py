"""The syntax tree: what a file says, word for word, with the place of every node; nothing is looked up yet.

Two trees are equal when they say the same in the same order; places and comments do not count.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from speccheck.language.diagnostics import NOWHERE, Place


@dataclass(frozen=True, slots=True)
class Words:
    """A name made of words, or any text taken as it stands (a string without its quotes, a row of a table)."""

    text: str
    place: Place = field(default=NOWHERE, compare=False)


# ---- amounts -----------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Measure:
    """A quantity in the trade's notation; `difference` where the word stands behind it."""

    text: str
    difference: bool = False
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class CalculationSyntax:
    """Two amounts and what is done with them ("plus", "minus", "times", "divided by", "larger of", "smaller of")."""

    operation: str
    left: AmountSyntax
    right: AmountSyntax
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Adjustment:
    """A thickness adjusted from one conductivity to another around a pipe of some outside diameter."""

    thickness: AmountSyntax
    stated: AmountSyntax
    proposed: AmountSyntax
    diameter: AmountSyntax
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class ReadAsSyntax:
    """A table read as if some terms had other values than the line's: pairs of a term and a value or another term."""

    table: Words
    values: tuple[tuple[Words, Words | Measure], ...]
    place: Place = field(default=NOWHERE, compare=False)


AmountSyntax = Words | Measure | CalculationSyntax | Adjustment | ReadAsSyntax

# ---- conditions --------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Compared:
    """An amount compared with others.

    `relation` is one of "is", "is not", "is at least", "is at most", "is less than", "is more than", "is between",
    "is from to under", "is over to", "is one of", "is not one of", "is given", "is not given", or, of a share and what
    it is a share of, "is within", "is not within".
    """

    left: AmountSyntax
    relation: str
    others: tuple[AmountSyntax, ...]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Stated:
    """A name that stands alone as a condition: a definition or a yes-or-no term."""

    name: Words
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Including:
    """A set compared with choices; `inclusion` is "include", "include any of" or "exclude"."""

    name: Words
    inclusion: str
    options: tuple[Words | Measure, ...]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Not:
    """A condition that is not to hold."""

    part: ConditionSyntax
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Joined:
    """Conditions joined by "and", by "or", or as readings of a disputed source by "or by another reading"."""

    joint: str
    parts: tuple[ConditionSyntax, ...]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class AskedIfSyntax:
    """What is asked where a condition holds, and what is asked otherwise, if anything is."""

    asked: ConditionSyntax
    condition: ConditionSyntax
    otherwise: ConditionSyntax | None = None
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class OrEqualSyntax:
    """What is asked, or what the reviewer approves as equal to it."""

    part: ConditionSyntax
    place: Place = field(default=NOWHERE, compare=False)


ConditionSyntax = Compared | Stated | Including | Not | Joined | AskedIfSyntax | OrEqualSyntax

# ---- parts of a ruleset ------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class TextPart:
    """A keyword with words behind it: edition, speaks, builds on, wording, reason, caution, note, subject, ..."""

    keyword: str
    words: tuple[Words, ...]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class SourcePart:
    """A source and how sure it is ("" where that is not said)."""

    text: Words
    confidence: str = ""
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class ConditionPart:
    """A where, shall, should, except or stocked part; `because` is the reason that an exception gives."""

    keyword: str
    condition: ConditionSyntax
    because: Words | None = None
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class ExamplePart:
    """An example: its title, the verdict it expects, and its data as one text for each stated value."""

    title: Words
    expected: str
    data: tuple[Words, ...]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class EitherPart:
    """Words that stand for any of several values of a term; of a `family`, clauses mean all of them."""

    words: tuple[Words, ...]
    values: tuple[Words, ...]
    family: bool = False
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class SensiblePart:
    """The range that the values of a term sensibly have, written in one text; for the `values` of `where`, if named.

    Where it is a list, `options` has its values, and `denied` says that it is of those that the term does not have.
    `without_unit` says that it is of numbers for which nothing states a unit.
    """

    range: Words
    where: Words | None = None
    values: tuple[Words, ...] = ()
    options: tuple[Words, ...] = ()
    denied: bool = False
    without_unit: bool = False
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class InferredPart:
    """The value that a line means without stating it, where another term has one of `values` and `given` is stated."""

    value: Words
    where: Words
    values: tuple[Words, ...]
    given: Words | None = None
    place: Place = field(default=NOWHERE, compare=False)


Part = TextPart | SourcePart | ConditionPart | ExamplePart | EitherPart | SensiblePart | InferredPart


@dataclass(frozen=True, slots=True)
class DefinitionSyntax:
    """A name for a condition or for an amount."""

    name: Words
    parts: tuple[Part, ...]
    meaning: ConditionSyntax | AmountSyntax
    is_amount: bool
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class BandSyntax:
    """A row or column heading of a table as it was read.

    `form` is "under", "up to", "only", "to", "to under", "over to", "over to under", "and over", "over" or "choices".
    """

    form: str
    values: tuple[Words | Measure, ...]
    text: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class CellWords:
    """A cell that says "not permitted" or "nothing required"."""

    text: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class TableRow:
    """A row of a table: its bands, one of each axis that goes down, and its cells; None is a dash."""

    bands: tuple[BandSyntax, ...]
    cells: tuple[Words | Measure | CellWords | None, ...]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class TableSyntax:
    """A table: what its cells are, the names of its axes, the bands of the axis across, and its rows.

    It is not `whole` where a heading or a cell could not be read.
    """

    name: Words
    unit: Words | None
    of: Words | None
    parts: tuple[Part, ...]
    axes: tuple[Words, ...]
    columns: tuple[BandSyntax, ...]
    rows: tuple[TableRow, ...]
    place: Place = field(default=NOWHERE, compare=False)
    whole: bool = field(default=True, compare=False)


@dataclass(frozen=True, slots=True)
class ClauseSyntax:
    """A clause and its parts in the order in which they are written; not `whole` where one could not be read."""

    name: Words
    title: Words
    parts: tuple[Part, ...]
    place: Place = field(default=NOWHERE, compare=False)
    whole: bool = field(default=True, compare=False)


@dataclass(frozen=True, slots=True)
class AssumptionSyntax:
    """A value that stands for a term where a schedule does not state it."""

    name: Words
    value: Words | Measure
    parts: tuple[Part, ...]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class ScopeSyntax:
    """The systems that the clauses of a subject are to govern."""

    subject: Words
    parts: tuple[Part, ...]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class StatementSyntax:
    """What the writer holds to be true of the rules as a whole.

    `form` is "falls", "rises" (of an amount and a term), "looser as", "stricter as" (of a term), "looser where" or
    "stricter where" (of two conditions).
    """

    title: Words
    parts: tuple[Part, ...]
    form: str
    of: tuple[AmountSyntax | ConditionSyntax, ...]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class DocumentSyntax:
    """Something that has to be submitted: its number and title, and its parts in the order in which they stand."""

    name: Words
    title: Words
    parts: tuple[Part, ...]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class RelationSyntax:
    """Lines that are held against one another: number and title, and the parts in the order in which they stand."""

    name: Words
    title: Words
    parts: tuple[Part, ...]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class UncheckedSyntax:
    """A paragraph of the section that no clause checks: its number and title, the reason, and more words about both."""

    name: Words
    title: Words
    reason: Words
    because: Words | None = None
    wording: Words | None = None
    place: Place = field(default=NOWHERE, compare=False)


Item = (
    DefinitionSyntax
    | AssumptionSyntax
    | ScopeSyntax
    | StatementSyntax
    | TableSyntax
    | ClauseSyntax
    | DocumentSyntax
    | RelationSyntax
    | UncheckedSyntax
)


@dataclass(frozen=True, slots=True)
class RulesetSyntax:
    """A file that holds a ruleset; `left_out` names the items that could not be read."""

    name: Words
    parts: tuple[Part, ...]
    items: tuple[Item, ...]
    place: Place = field(default=NOWHERE, compare=False)
    left_out: tuple[str, ...] = field(default=(), compare=False)


# ---- parts of a vocabulary ---------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class ChoiceSyntax:
    """One allowed value, what else it is called, what it means, and the value that it is a part of."""

    name: Words
    also: tuple[Words, ...] = ()
    meaning: Words | None = None
    part_of: Words | None = None


@dataclass(frozen=True, slots=True)
class TermSyntax:
    """A term: its name (with the kind behind it, where the kind is a word), its parts and its choices.

    `form` is "one of", "any of", "yes or no" or "" (the kind stands at the end of the name).
    """

    name: Words
    form: str
    parts: tuple[Part, ...]
    choices: tuple[ChoiceSyntax, ...]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class AdditionSyntax:
    """What a vocabulary adds to a term of another one; `form` is "one of", "any of", or "" without values."""

    name: Words
    form: str
    parts: tuple[Part, ...]
    choices: tuple[ChoiceSyntax, ...]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading under which the following terms are listed; `proposed` says that these are what contractors propose."""

    text: Words
    proposed: bool = False
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class VocabularySyntax:
    """A file that holds a vocabulary."""

    name: Words
    parts: tuple[Part, ...]
    items: tuple[Heading | TermSyntax | AdditionSyntax, ...]
    place: Place = field(default=NOWHERE, compare=False)


FileSyntax = RulesetSyntax | VocabularySyntax
