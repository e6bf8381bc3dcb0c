"""Strategies for the core: amounts, conditions, tables, clauses and rulesets of every kind of node, and lines for them.

They draw the core itself, checked for kinds as a resolved ruleset is, so that any reader of the core can be tried on
them. `NODES` names all kinds of node; a test holds that each of them is drawn.
"""

from __future__ import annotations

from collections.abc import Collection
from math import prod
from typing import get_args

from hypothesis import strategies as st

from speccheck.language.core import (
    Adjusted,
    Amount,
    Arithmetic,
    AskedIf,
    Axis,
    Band,
    CellSays,
    CellWord,
    Clause,
    Comparison,
    Condition,
    Every,
    ExceptionPart,
    Given,
    Holds,
    Includes,
    Inclusion,
    Literal,
    Lookup,
    NamedAmount,
    NamedCondition,
    Negation,
    OneOf,
    Operation,
    OrEqual,
    Readings,
    Relation,
    Ruleset,
    Some,
    Table,
    TermValue,
    Within,
)
from speccheck.language.core.relations import AnyRelation
from speccheck.language.core.walking import conditions_of, terms_of
from speccheck.language.resolve.amounts import kind_of
from speccheck.language.vocabulary.terms import CHOICE, COUNT, NUMBER, SIZE, TEXT, YES_NO, Form, Kind, Term, Vocabulary
from speccheck.language.vocabulary.values import NotGiven, Value
from speccheck.quantities import Interval, Quantity
from speccheck.quantities.meaning import quantity
from speccheck.schedule.lines import Datum, Line
from tests.strategies.values import (
    CONDUCTIVITY,
    DIFFERENCE,
    LENGTH,
    MISSING,
    RATIO,
    RESISTANCE,
    TEMPERATURE,
    bare,
    intervals,
    singles,
    vocabularies,
)

NODES: tuple[type, ...] = (*get_args(Amount), *get_args(Condition))
ORDERED = (LENGTH, TEMPERATURE, DIFFERENCE, CONDUCTIVITY, RESISTANCE, RATIO, SIZE, COUNT, NUMBER)
UNORDERED = (Relation.EQUAL, Relation.NOT_EQUAL)

# For each kind the calculations that come to it: the operation and the kinds of its two amounts.
CALCULATIONS: dict[Kind, list[tuple[Operation, Kind, Kind]]] = {kind: [] for kind in ORDERED}
for _operation in Operation:
    for _left in ORDERED:
        for _right in ORDERED:
            _result = kind_of(_operation, _left, _right)
            if _result in CALCULATIONS:
                CALCULATIONS[_result].append((_operation, _left, _right))


def has_shares(kind: Kind) -> bool:
    """Say whether an amount can be within a share of another of its kind."""
    return kind.ordered and kind != SIZE and kind.dimension != "temperature"


def of_kind(vocabulary: Vocabulary, *kinds: Kind) -> list[Term]:
    """Return the terms of some kinds."""
    return [term for term in vocabulary.terms.values() if term.kind in kinds]


# ---- amounts -----------------------------------------------------------------------------------------------------


@st.composite
def amounts(draw: st.DrawFn, vocabulary: Vocabulary, kind: Kind, of: Term | None = None, depth: int = 2) -> Amount:
    """Draw an amount of a kind that has an order, or a choice of the list of `of`; `depth` bounds what is inside."""
    forms = ["literal", "term", "term"]
    if depth > 0:
        forms += ["lookup", "named"]
        forms += ["arithmetic"] if CALCULATIONS.get(kind) else []
        forms += ["adjusted"] if kind == LENGTH else []
    match draw(st.sampled_from(forms)):
        case "literal":
            return Literal(draw(singles(kind, of)), kind)
        case "lookup":
            return Lookup(draw(tables(vocabulary, kind, of)))
        case "named":
            meaning = draw(amounts(vocabulary, kind, of, depth - 1))
            return NamedAmount(f"amount {draw(st.integers(1, 9))}", meaning)
        case "arithmetic":
            operation, left, right = draw(st.sampled_from(CALCULATIONS[kind]))
            first = draw(amounts(vocabulary, left, None, depth - 1))
            return Arithmetic(operation, first, draw(amounts(vocabulary, right, None, depth - 1)), kind)
        case "adjusted":
            wanted = (LENGTH, CONDUCTIVITY, CONDUCTIVITY, LENGTH)
            parts: list[Amount] = [draw(amounts(vocabulary, part, None, depth - 1)) for part in wanted]
            return Adjusted(parts[0], parts[1], parts[2], parts[3])
        case _:
            return TermValue(of if of is not None else draw(st.sampled_from(of_kind(vocabulary, kind))))


# ---- tables ------------------------------------------------------------------------------------------------------


@st.composite
def tables(draw: st.DrawFn, vocabulary: Vocabulary, kind: Kind, of: Term | None = None) -> Table:
    """Draw a table with cells of a kind, some of them dashes or words, and with one to three axes that leave gaps."""
    read_by = st.sampled_from(of_kind(vocabulary, *ORDERED, CHOICE, YES_NO))
    axes = tuple(Axis(term, draw(bands(term))) for term in draw(st.lists(read_by, min_size=1, max_size=3, unique=True)))
    columns = len(axes[-1].bands) if len(axes) > 1 else 1
    cell = st.builds(Literal, singles(kind, of), st.just(kind))
    count = prod(len(axis.bands) for axis in axes[: max(1, len(axes) - 1)])
    rows = tuple(tuple(draw(st.none() | cell | cell) for _ in range(columns)) for _ in range(count))
    words: tuple[tuple[CellWord | None, ...], ...] = ()
    if draw(st.booleans()):
        word = st.none() | st.sampled_from(CellWord)
        words = tuple(tuple(draw(word) if one is None else None for one in row) for row in rows)
    return Table(f"table {draw(st.integers(1, 99))}", kind, axes, rows, words, of=of)


@st.composite
def bands(draw: st.DrawFn, term: Term) -> tuple[Band, ...]:
    """Draw bands of an axis that do not overlap, rising, with or without gaps between them."""
    if term.kind.form is Form.YES_NO:
        answers = draw(st.lists(st.sampled_from(["yes", "no"]), min_size=1, max_size=2, unique=True))
        return tuple(Band(answer, choices=(answer,)) for answer in answers)
    if term.kind.form is Form.CHOICE:
        return draw(_lists_of_choices(term))
    marks = sorted(draw(st.lists(singles(term.kind), min_size=1, max_size=4, unique_by=bare)), key=bare)
    found: list[Band] = []
    taken = False  # whether the mark belongs to the band before it
    if draw(st.booleans()):
        taken = draw(st.booleans())
        found.append(_band(Interval(None, marks[0], True, taken)))
    for low, high in zip(marks, [*marks[1:], None], strict=True):
        closed, open_again = not taken and draw(st.booleans()), draw(st.booleans())
        taken = False
        if open_again or not found:
            taken = high is not None and draw(st.booleans())
            found.append(_band(Interval(low, high, closed, taken if high is not None else True)))
    return tuple(found)


@st.composite
def _lists_of_choices(draw: st.DrawFn, term: Term) -> tuple[Band, ...]:
    names = draw(st.permutations([choice.name for choice in term.choices]))
    cut = draw(st.integers(1, len(names) - 1))
    lists = [names[:cut], names[cut:]][: draw(st.integers(1, 2))]
    return tuple(Band(", ".join(listed), choices=tuple(listed)) for listed in lists)


def _band(interval: Interval) -> Band:  # type: ignore[type-arg]
    return Band(str(interval), interval)


# ---- conditions --------------------------------------------------------------------------------------------------


@st.composite
def comparisons(draw: st.DrawFn, vocabulary: Vocabulary) -> Comparison:
    """Draw a comparison of two amounts of one kind."""
    kind = draw(st.sampled_from([*ORDERED, LENGTH, TEMPERATURE, SIZE, CHOICE, TEXT]))
    relation: AnyRelation = draw(st.sampled_from(list(Relation) if kind.ordered else UNORDERED))
    if has_shares(kind) and draw(st.booleans()):
        relation = Within(Quantity(draw(st.sampled_from((0.05, 0.1, 0.5))), "ratio", "%"), draw(st.booleans()))
    elif kind in (LENGTH, TEMPERATURE) and draw(st.booleans()):
        near = draw(st.sampled_from(["1/2 in", "10 mm"] if kind == LENGTH else ["5 F", "3 K"]))
        dimension = "length" if kind == LENGTH else "temperature difference"
        relation = Within(quantity(near, dimension), draw(st.booleans()))
    if kind.form is Form.TEXT:
        term = draw(st.sampled_from(of_kind(vocabulary, kind)))
        return Comparison(TermValue(term), relation, Literal(draw(singles(kind)), kind))
    of = draw(st.sampled_from(of_kind(vocabulary, CHOICE))) if kind.form is Form.CHOICE else None
    left, right = draw(amounts(vocabulary, kind, of)), draw(amounts(vocabulary, kind, of))
    return Comparison(left, relation, right)


@st.composite
def one_ofs(draw: st.DrawFn, vocabulary: Vocabulary) -> OneOf:
    """Draw an amount that is to be one of several."""
    kind = draw(st.sampled_from([*ORDERED, CHOICE]))
    of = draw(st.sampled_from(of_kind(vocabulary, CHOICE))) if kind.form is Form.CHOICE else None
    options = draw(st.lists(singles(kind, of), min_size=1, max_size=3, unique=True))
    return OneOf(draw(amounts(vocabulary, kind, of, 1)), tuple(options))


@st.composite
def inclusions(draw: st.DrawFn, vocabulary: Vocabulary) -> Includes:
    """Draw a set that is to include all of, any of or none of some choices."""
    term = vocabulary.terms["stops"]
    names = st.sampled_from([choice.name for choice in term.choices])
    options = draw(st.lists(names, min_size=1, max_size=3, unique=True))
    return Includes(term, draw(st.sampled_from(Inclusion)), tuple(options))


@st.composite
def conditions(draw: st.DrawFn, vocabulary: Vocabulary, depth: int = 2) -> Condition:
    """Draw a condition; `depth` bounds how far others are inside it."""
    if depth > 0 and draw(st.booleans()):
        inner = conditions(vocabulary, depth - 1)
        parts = st.lists(inner, min_size=2, max_size=3).map(tuple)
        named = st.builds(NamedCondition, st.sampled_from(["cold", "wet", "hot"]), inner)
        return draw(st.builds(Every, parts) | st.builds(Some, parts) | st.builds(Negation, inner) | named)
    answers = st.sampled_from(of_kind(vocabulary, YES_NO)).map(Holds)
    given = st.sampled_from(list(vocabulary.terms.values())).map(Given)
    says = st.builds(CellSays, tables(vocabulary, LENGTH), st.sampled_from(CellWord))
    compared = comparisons(vocabulary)
    return draw(compared | compared | one_ofs(vocabulary) | inclusions(vocabulary) | answers | given | says)


# ---- clauses, rulesets, lines ------------------------------------------------------------------------------------


@st.composite
def requirements(draw: st.DrawFn, vocabulary: Vocabulary) -> Condition:
    """Draw what a clause asks, now and then with a condition of its own, and with what it asks otherwise."""
    asked = draw(conditions(vocabulary))
    if not draw(st.integers(0, 5)):
        return OrEqual(asked)
    if not draw(st.integers(0, 5)):
        return Readings((asked, draw(conditions(vocabulary))))
    if draw(st.integers(0, 3)):
        return asked
    otherwise = draw(requirements(vocabulary)) if draw(st.booleans()) else None
    return AskedIf(asked, draw(conditions(vocabulary)), otherwise)


@st.composite
def clauses(draw: st.DrawFn, vocabulary: Vocabulary, name: str = "1") -> Clause:
    """Draw a clause with each of its parts there or not; it asks for something or advises something."""
    some = st.lists(conditions(vocabulary), max_size=2).map(tuple)
    asked = st.lists(requirements(vocabulary), max_size=2).map(tuple)
    shall = draw(asked)
    terms = st.sampled_from(tuple(vocabulary.terms.values()))
    return Clause(
        name=name,
        title="drawn",
        ruleset="drawn",
        label=name,
        scope=draw(some),
        shall=shall,
        should=draw(asked) if shall else (draw(requirements(vocabulary)),),
        exceptions=tuple(ExceptionPart(one, draw(st.sampled_from(["", "of tape"]))) for one in draw(some)),
        judged_only=tuple(Given(term) for term in draw(st.lists(terms, max_size=2)) if draw(st.booleans())),
    )


@st.composite
def rulesets(draw: st.DrawFn, *, nominal_metric: bool | None = None) -> Ruleset:
    """Draw a ruleset of one to three clauses, with a fine or a wide tolerance, and with nominal sizes or without."""
    vocabulary = draw(vocabularies())
    count = draw(st.integers(1, 3))
    return Ruleset(
        name="drawn",
        vocabulary=vocabulary,
        clauses=tuple(draw(clauses(vocabulary, str(number + 1))) for number in range(count)),
        units=draw(st.sampled_from(["inch-pound", "metric"])),
        tolerance=draw(st.sampled_from([1e-6, 1e-6, 0.01])),
        nominal_metric=draw(st.booleans()) if nominal_metric is None else nominal_metric,
    )


@st.composite
def lines(draw: st.DrawFn, vocabulary: Vocabulary, *, ranged: Collection[str] = (), missing: bool = True) -> Line:
    """Draw a line: a value for each term; with `missing`, words that say nothing or no such column for some.

    The terms named by `ranged` have a range.
    """
    data: dict[str, Datum] = {}
    for name, term in vocabulary.terms.items():
        lot = draw(st.integers(0, 7)) if missing and name not in ranged else 7
        if lot == 0:
            continue
        value: Value | NotGiven = draw(intervals(term.kind) if name in ranged else singles(term.kind, term))
        data[name] = Datum(draw(st.sampled_from(MISSING)) if lot == 1 else value)
    return Line("1", data)


@st.composite
def judged(
    draw: st.DrawFn, *, ranges: bool = False, missing: bool = True, nominal_metric: bool | None = None
) -> tuple[Ruleset, Line]:
    """Draw a ruleset and a line; with `ranges` one or two of the terms that the clauses draw on have a range."""
    ruleset = draw(rulesets(nominal_metric=nominal_metric))
    met = terms_of(condition for clause in ruleset.clauses for condition in conditions_of(clause))
    ordered = [term.name for term in met if term.kind.ordered]
    ranged: list[str] = []
    if ranges and ordered:
        ranged = draw(st.lists(st.sampled_from(ordered), min_size=1, max_size=2, unique=True))
    return ruleset, draw(lines(ruleset.vocabulary, ranged=ranged, missing=missing))
