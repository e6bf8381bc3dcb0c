"""The core: what a ruleset means, with every name resolved, every unit converted and every kind checked.

Everything that works with clauses (the judge, the columns, the proofreader, the prose, the editor) reads this core and
nothing else. There are six kinds of amount and eleven kinds of condition; a reader matches on all of them, so that a
new kind of node shows itself in each reader.

In: nothing but the values of `speccheck.quantities` (quantities in SI units), numbers, words and sets of words, terms
and places. Out: the nodes, all of them plain data. Import them from here.

Files:

    amounts     the nodes that have a value
    clauses     when they apply, what they ask, what they leave out, and the examples that show it
    conditions  the nodes that hold, do not hold, or are not known
    documents   what has to be submitted, for what, and how old it may be
    relations   how one amount is to stand to another: order, denial and words
    line_relations
                what lines of one system have to have in common, or what they come to together
    review_days the day of the review, and days counted back from it, as terms
    rulesets    the clauses that are judged together, with all that they stand on
    sources     where a clause or a table comes from, and how sure that is
    statements  what a ruleset says beside its clauses: what it assumes, what it is to govern, and what it holds of
                itself
    tables      bands on one or two axes, and the cells that they lead to
    walking     the nodes inside a node, and the terms and tables that a clause draws on
    wording     conditions and amounts of the core back in the words of the clause language
"""

from speccheck.language.core.amounts import (
    Adjusted,
    Amount,
    Arithmetic,
    Literal,
    Lookup,
    NamedAmount,
    Operation,
    TermValue,
)
from speccheck.language.core.clauses import (
    Assignment,
    Clause,
    Example,
    ExceptionPart,
    Expected,
    UncheckedParagraph,
    UncheckedReason,
)
from speccheck.language.core.conditions import (
    AskedIf,
    CellSays,
    Comparison,
    Condition,
    Every,
    Given,
    Holds,
    Includes,
    Inclusion,
    NamedCondition,
    Negation,
    OneOf,
    OrEqual,
    Readings,
    Some,
)
from speccheck.language.core.documents import Age, DocumentKind, RequiredDocument
from speccheck.language.core.line_relations import LineRelation
from speccheck.language.core.relations import Order, Relation, Within
from speccheck.language.core.rulesets import Ruleset
from speccheck.language.core.sources import Confidence, Source
from speccheck.language.core.statements import (
    AmountTrend,
    Assumption,
    Claim,
    DemandContrast,
    DemandTrend,
    Never,
    Statement,
    SubjectScope,
)
from speccheck.language.core.tables import Axis, Band, CellWord, Table

__all__ = [
    "Adjusted",
    "Age",
    "Amount",
    "AmountTrend",
    "Arithmetic",
    "AskedIf",
    "Assignment",
    "Assumption",
    "Axis",
    "Band",
    "CellSays",
    "CellWord",
    "Claim",
    "Clause",
    "Comparison",
    "Condition",
    "Confidence",
    "DemandContrast",
    "DemandTrend",
    "DocumentKind",
    "Every",
    "Example",
    "ExceptionPart",
    "Expected",
    "Given",
    "Holds",
    "Includes",
    "Inclusion",
    "LineRelation",
    "Literal",
    "Lookup",
    "NamedAmount",
    "NamedCondition",
    "Negation",
    "Never",
    "OneOf",
    "Operation",
    "OrEqual",
    "Order",
    "Readings",
    "Relation",
    "RequiredDocument",
    "Ruleset",
    "Some",
    "Source",
    "Statement",
    "SubjectScope",
    "Table",
    "TermValue",
    "UncheckedParagraph",
    "UncheckedReason",
    "Within",
]
