"""Where a clause differs from the words of its paragraph: the number, the wording, a direction, an amount.

The words are searched for amounts with their relation ("not less than 1-1/2 inches"). Each must be an amount of the
clause, and point the same way there. What is said of words alone is not compared: that is read by a person.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import TypeGuard

from speccheck.language.core import (
    Clause,
    Comparison,
    Condition,
    LineRelation,
    Literal,
    Lookup,
    Negation,
    OneOf,
    Relation,
    RequiredDocument,
    TermValue,
    UncheckedParagraph,
)
from speccheck.language.core.relations import by_order
from speccheck.language.core.walking import Node, conditions_of, inner
from speccheck.language.core.wording import value_text
from speccheck.phrases.worded_amounts import WordedAmount, amounts_in
from speccheck.quantities import NominalSize, Quantity, as_quantity, as_size, unit_dimensions
from speccheck.quantities import read as read_amount
from speccheck.specification.blocks import Paragraph
from speccheck.specification.matching import Entry, number_of, plain_words
from speccheck.specification.papers_asked import age_said


class Difference(StrEnum):
    """What differs between a paragraph, or a table, and what stands for it."""

    NUMBER = "has another number"
    WORDING = "is worded otherwise"
    DIRECTION = "points the other way"
    AMOUNT = "has another amount"
    CELL = "has another cell"


@dataclass(frozen=True, slots=True)
class Differs:
    """One difference: the clause or the table, what sort it is, and the words for it."""

    name: str
    sort: Difference
    words: str


_RELATIONS = {relation.limit.strip(): relation for relation in Relation if relation.is_limit}
Value = Quantity | NominalSize | float


@dataclass(frozen=True, slots=True)
class _Stated:
    """An amount that words or a clause hold something against: how, which of several values it can be, of what."""

    relation: Relation | None
    values: tuple[Value, ...]
    term: str = ""


def differences(
    paragraph: Paragraph, entries: tuple[Entry, ...], read: tuple[Condition, ...] = ()
) -> Iterator[Differs]:
    """Yield how the entries of a ruleset differ from the paragraph that they stand for.

    `read` has the conditions that the words were read as, where they were understood as a whole: then each amount is
    held against those of its own term.
    """
    for one in entries:
        if paragraph.number and number_of(one, {paragraph.number}) != paragraph.number:
            yield Differs(one.name, Difference.NUMBER, f"it is paragraph {paragraph.number} of the section")
        if one.wording and not _same_words(one, paragraph):
            yield Differs(one.name, Difference.WORDING, f"the section says: {paragraph.text}")
    asking = [one for one in entries if isinstance(one, Clause | LineRelation) and one.is_confirmed]
    if asking:
        yield from _amounts(paragraph, asking, read)
    for one in entries:
        if isinstance(one, RequiredDocument) and one.is_confirmed:
            yield from _age(paragraph, one)


def _age(paragraph: Paragraph, document: RequiredDocument) -> Iterator[Differs]:
    """Yield that a document may be older or newer than the words say, or of any age where they give one."""
    said = age_said(paragraph.text)
    if said and (document.within is None or _in_months(said) != _in_months(str(document.within))):
        has = f"`{document.within}`" if document.within is not None else "no age"
        yield Differs(document.name, Difference.AMOUNT, f"the section says `{said}`, the document {has}")


def _in_months(age: str) -> tuple[int, str]:
    """Return an age with years as months, and weeks as days, so that 2 years and 24 months are one."""
    number, unit = age.rstrip("s").split()
    times, base = {"year": (12, "month"), "week": (7, "day")}.get(unit, (1, unit))
    return int(number) * times, base


def _conditions(entry: Clause | LineRelation) -> tuple[Condition, ...]:
    """Return all conditions of a clause, or of a relation with the total that it asks for."""
    if isinstance(entry, Clause):
        return tuple(conditions_of(entry))
    return (*entry.conditions, *([entry.total] if entry.total is not None else []))


def _same_words(entry: Entry, paragraph: Paragraph) -> bool:
    """Whether a clause has words of the paragraph, and a paragraph that nothing checks all of them."""
    words, whole = plain_words(entry.wording), plain_words(paragraph.text)
    return words == whole if isinstance(entry, UncheckedParagraph) else words in whole


def _amounts(
    paragraph: Paragraph, clauses: list[Clause | LineRelation], read: tuple[Condition, ...]
) -> Iterator[Differs]:
    """Yield a difference for each amount of the words that the clauses lack, or have with the opposite direction."""
    stated = [one for clause in clauses for condition in _conditions(clause) for one in _stated(condition, False)]
    worded = [one for condition in read for one in _stated(condition, False) if one.term] or _worded(paragraph.text)
    name = ", ".join(clause.name for clause in clauses)
    for amount in worded:
        alike = [one for one in stated if _comparable(amount, one)]
        same = [one for one in alike if any(_equal(a, b) for a in amount.values for b in one.values)]
        shown = " ".join(filter(None, [amount.term, *_said(amount)]))
        if alike and not same:
            has = ", ".join(dict.fromkeys(" ".join(_said(one)) for one in alike[:6]))
            yield Differs(name, Difference.AMOUNT, f"the section says `{shown}`, the clause `{has}`")
        elif _opposite(amount.relation, [one.relation for one in same]):
            has = " ".join(_said(same[0]))
            yield Differs(name, Difference.DIRECTION, f"the section says `{shown}`, the clause `{has}`")


def _said(amount: _Stated) -> list[str]:
    """Return the words of an amount: its relation, and the value it most likely is."""
    relation = "" if amount.relation is None else amount.relation.limit.strip()
    return list(filter(None, [relation, value_text(amount.values[-1])]))


def _opposite(worded: Relation | None, relations: list[Relation | None]) -> bool:
    """Whether words point one way and every place where the clause has the amount points the other way."""
    if worded is None or not worded.is_limit:
        return False
    limits = [relation for relation in relations if relation is not None and relation.is_limit]
    return (
        bool(limits)
        and len(limits) == len(relations)
        and all(one.is_minimum is not worded.is_minimum for one in limits)
    )


# ---- amounts of a clause, and of words ---------------------------------------------------------------------------


def _stated(node: Node, turned: bool) -> Iterator[_Stated]:
    """Yield the amounts that a condition holds something against, with the relation as it stands under "not"."""
    match node:
        case Comparison(left, relation, Literal(value)) if _is_amount(value):
            term = left.term.name if isinstance(left, TermValue) else ""
            yield _Stated(by_order(relation.denial if turned and relation.is_limit else relation), (value,), term)
        case Literal(value) if _is_amount(value):
            yield _Stated(None, (value,))
        case OneOf(amount, options):
            term = amount.term.name if isinstance(amount, TermValue) else ""
            yield from (_Stated(None, (value,), term) for value in options if _is_amount(value))
        case Lookup(table):
            cells = (cell.value for row in table.cells for cell in row if cell is not None)
            bands = (band.interval for axis in table.axes for band in axis.bands if band.interval is not None)
            ends = (end for interval in bands for end in (interval.low, interval.high))
            yield from (_Stated(None, (value,)) for value in (*cells, *ends) if _is_amount(value))
        case Negation(denied):
            yield from _stated(denied, not turned)
        case _:
            for part in inner(node):
                yield from _stated(part, turned)


def _is_amount(value: object) -> TypeGuard[Value]:
    return isinstance(value, Quantity | NominalSize | int | float) and not isinstance(value, bool)


def _worded(text: str) -> list[_Stated]:
    """Return the amounts of a text; a bare number counts where it is said how it is to be met: "not more than 25"."""
    found = []
    for amount in amounts_in(text):
        values = _values(amount)
        if values:
            found.append(_Stated(_RELATIONS.get(amount.relation), values))
    return found


def _values(amount: WordedAmount) -> tuple[Value, ...]:
    """Return what the words of an amount can mean: a size, and a quantity of each dimension that its unit has."""
    if not amount.unit and not amount.text[0].isalpha():
        return (float(amount.text),) if amount.relation and re.fullmatch(r"[\d.]+", amount.text) else ()
    reading = read_amount(amount.text)
    found = [as_size(reading, "inch-pound"), *(as_quantity(reading, one) for one in unit_dimensions(amount.unit))]
    return tuple(one for one in found if isinstance(one, Quantity | NominalSize))


def _comparable(one: _Stated, other: _Stated) -> bool:
    """Whether two amounts can be the same: of one term where both say of which, and of one kind."""
    if one.term and one.term != other.term:
        return False
    return any(_kind(a) == _kind(b) for a in one.values for b in other.values)


def _kind(value: Value) -> str:
    return value.dimension if isinstance(value, Quantity) else "size" if isinstance(value, NominalSize) else "number"


def _equal(one: Value, other: Value) -> bool:
    if isinstance(one, Quantity) and isinstance(other, Quantity):
        return one.dimension == other.dimension and math.isclose(one.value, other.value, rel_tol=1e-6, abs_tol=1e-9)
    return one == other
