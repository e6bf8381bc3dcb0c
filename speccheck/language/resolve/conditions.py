"""Conditions resolved: each comparison checked for kinds, each choice looked up in its list."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import assert_never

from speccheck.language.core import (
    Adjusted,
    Amount,
    Arithmetic,
    AskedIf,
    CellSays,
    CellWord,
    Comparison,
    Condition,
    Every,
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
    Order,
    OrEqual,
    Readings,
    Relation,
    Some,
    TermValue,
    Within,
)
from speccheck.language.core.relations import AnyRelation, of_words
from speccheck.language.core.walking import tables_of
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.messages.meaning import (
    ALL_OF_A_FAMILY,
    AMOUNT_IS_NO_CONDITION,
    CHOICE_INCLUDES,
    EMPTY_RANGE,
    KIND_WITHOUT_ORDER,
    KIND_WITHOUT_SHARES,
    KINDS_COMPARED,
    LIST_OF_AMOUNTS,
    NO_DISTANCE,
    NO_SHARE,
    NO_VALUE_BEYOND,
    ONLY_TERMS_ARE_GIVEN,
    TEMPERATURE_WITHOUT_SHARES,
    TERM_IS_NO_CONDITION,
    TERMS_OF_DIFFERENT_LISTS,
    VALUE_BEHIND_AND,
    VALUE_INCLUDES,
    VALUE_IS_NO_CONDITION,
    VALUE_OF_ANOTHER_LIST,
    YES_OR_NO_COMPARED,
)
from speccheck.language.resolve.ages import resolve_age, says_age
from speccheck.language.resolve.amounts import AMOUNT_NODES, resolve_amount, resolve_choices, same_kind
from speccheck.language.resolve.literals import amount_of, distance_kind, resolve_literal
from speccheck.language.resolve.names import Names
from speccheck.language.syntax.tree import (
    AmountSyntax,
    AskedIfSyntax,
    Compared,
    ConditionSyntax,
    Including,
    Joined,
    Measure,
    Not,
    OrEqualSyntax,
    Stated,
    Words,
)
from speccheck.language.vocabulary.terms import DATE, Form, Kind, Term, fold, quantity_kind
from speccheck.language.vocabulary.values import Single
from speccheck.quantities import Quantity

# A span is two comparisons that must both hold.
SPANS = {
    "is between": (Relation.AT_LEAST, Relation.AT_MOST),
    "is from to under": (Relation.AT_LEAST, Relation.LESS_THAN),
    "is over to": (Relation.MORE_THAN, Relation.AT_MOST),
}


JOINED: dict[str, type[Every | Some | Readings]] = {"and": Every, "or": Some, "or by another reading": Readings}


def resolve_condition(names: Names, syntax: ConditionSyntax) -> Condition | None:
    """Return the condition that `syntax` means, or None after its errors were reported."""
    match syntax:
        case Joined(joint, parts, place):
            if _lists_values(names, parts):
                return None
            found = [resolve_condition(names, part) for part in parts]
            whole = tuple(part for part in found if part is not None)
            if len(whole) < len(found):
                return None
            return JOINED[joint](whole, place)
        case Not(part, place):
            inner = resolve_condition(names, part)
            return None if inner is None else Negation(inner, place)
        case OrEqualSyntax(part, place):
            inner = resolve_condition(names, part)
            return None if inner is None else OrEqual(inner, place)
        case AskedIfSyntax():
            return _resolve_asked_if(names, syntax)
        case Stated(name):
            return _resolve_stated(names, name)
        case Including():
            return _resolve_including(names, syntax)
        case Compared():
            return _resolve_compared(names, syntax)


def _resolve_asked_if(names: Names, syntax: AskedIfSyntax) -> Condition | None:
    asked, condition = (resolve_condition(names, part) for part in (syntax.asked, syntax.condition))
    otherwise = None if syntax.otherwise is None else resolve_condition(names, syntax.otherwise)
    if asked is None or condition is None or (otherwise is None and syntax.otherwise is not None):
        return None
    return AskedIf(asked, condition, otherwise, syntax.place)


def _lists_values(names: Names, parts: Sequence[ConditionSyntax]) -> bool:
    """Report values that are joined as conditions are, "jacket is aluminum or PVC", and say whether there are any."""
    for before, part in pairwise(parts):
        value = part.part if isinstance(part, Not) else part
        if not (isinstance(value, Stated) and isinstance(before, Compared) and isinstance(before.left, Words)):
            continue
        term, name = names.term(before.left.text), value.name.text
        if term is None or not term.of_choices or names.term(name) is not None or names.is_definition(name):
            continue
        if fold(name) in term.choice_names and (isinstance(part, Not) or before.relation == "is given"):
            denied = "not " if isinstance(part, Not) else ""
            names.tell(VALUE_BEHIND_AND, value.name.place, value=name, term=term.name, denied=denied)
            return True
        if fold(name) in term.choice_names and before.relation in ("is", "is not") and len(before.others) == 1:
            first = before.others[0].text if isinstance(before.others[0], Words | Measure) else "A"
            first = first.removeprefix("either ")
            names.tell(
                VALUE_IS_NO_CONDITION,
                value.name.place,
                value=name,
                term=term.name,
                relation=before.relation,
                first=first,
            )
            return True
    return False


def _resolve_stated(names: Names, words: Words) -> Condition | None:
    term = names.term(words.text)
    if term is not None:
        if term.kind.form is Form.YES_NO:
            return Holds(term, words.place)
        verb = "include" if term.kind.form is Form.SET else "is"
        names.tell(TERM_IS_NO_CONDITION, words.place, term=term.name, kind=term.kind.described, verb=verb)
        return None
    if not names.is_definition(words.text):
        names.unknown(words)
        return None
    meaning = names.definition(words.text)
    if isinstance(meaning, AMOUNT_NODES):
        names.tell(AMOUNT_IS_NO_CONDITION, words.place, name=words.text)
        return None
    return None if meaning is None else NamedCondition(names.definition_names[fold(words.text)], meaning, words.place)


def _resolve_including(names: Names, syntax: Including) -> Condition | None:
    term = names.term(syntax.name.text)
    if term is None:
        names.unknown(syntax.name)
        return None
    if term.kind.form is not Form.SET:
        said = CHOICE_INCLUDES if term.of_choices else VALUE_INCLUDES
        names.tell(said, syntax.name.place, term=term.name, kind=term.kind.described)
        return None
    inclusion = Inclusion(syntax.inclusion)
    if inclusion is Inclusion.ALL and (family := _family(syntax.options, term)) is not None:
        names.tell(ALL_OF_A_FAMILY, family.place, family=family.text, term=term.name)
        return None
    found = [resolve_choices(names, _as_words(option), term) for option in syntax.options]
    known = tuple(dict.fromkeys(choice for several in found for choice in several))
    return Includes(term, inclusion, known, syntax.place) if all(found) else None


def _family(options: Sequence[AmountSyntax], term: Term | None) -> Words | None:
    """Return the first of some options that is a family of values, None where there is none."""
    if term is None:
        return None
    named = (option for option in options if isinstance(option, Words))
    return next((option for option in named if fold(option.text) in term.family_values), None)


def _as_words(option: Words | Measure) -> Words:
    return option if isinstance(option, Words) else Words(option.text, option.place)


def _resolve_compared(names: Names, syntax: Compared) -> Condition | None:
    if syntax.relation in ("is given", "is not given"):
        return _resolve_given(names, syntax)
    left, wanted = _resolve_left(names, syntax)
    if left is None:
        return None
    if any(map(says_age, syntax.others)):
        return resolve_age(names, syntax, left)
    if syntax.relation in ("is one of", "is not one of"):
        chosen = _resolve_one_of(names, syntax, left)
        return Negation(chosen, syntax.place) if chosen and syntax.relation == "is not one of" else chosen
    if syntax.relation in ("is within", "is not within"):
        return by_cells(_resolve_within(names, syntax, left))
    of = term_behind(left)
    if syntax.relation in ("is", "is not") and _family(syntax.others, of) is not None:
        chosen = _resolve_one_of(names, syntax, left)
        return Negation(chosen, syntax.place) if chosen and syntax.relation == "is not" else chosen
    others = [_named(of, one) for one in syntax.others]
    rights = [resolve_amount(names, other, wanted, of) for other in others]
    relations = SPANS.get(syntax.relation) or (of_words(syntax.relation),)
    if _holds_nothing(relations, rights):
        names.tell(EMPTY_RANGE, syntax.place)
        return None
    parts = [
        by_cells(_comparison(names, syntax, left, relation, right))
        for relation, right in zip(relations, rights, strict=True)
    ]
    whole = tuple(part for part in parts if part is not None)
    if len(whole) < len(relations):
        return None
    return whole[0] if len(whole) == 1 else Every(whole, syntax.place)


def _resolve_within(names: Names, syntax: Compared, left: Amount) -> Condition | None:
    """Return that an amount is to lie within a share of another, or a distance from it, where its kind has such."""
    measure, of = syntax.others
    assert isinstance(measure, Measure), measure
    if left.kind.form not in (Form.QUANTITY, Form.COUNT, Form.NUMBER) or left.kind == DATE:
        names.tell(KIND_WITHOUT_SHARES, syntax.place, kind=left.kind.described, share=measure.text)
        return None
    reach = distance_kind(measure, left.kind)
    share = resolve_literal(measure, reach or quantity_kind("ratio"), names.source)
    right = resolve_amount(names, of, left.kind)
    if isinstance(share, Diagnostic):
        names.report(share)
        return None
    assert isinstance(share.value, Quantity), share
    relation = Within(share.value, syntax.relation == "is not within")
    if reach is not None:
        if share.value.value <= 0:
            names.tell(NO_DISTANCE, measure.place, distance=measure.text)
            return None
        return _comparison(names, syntax, left, relation, right)
    if not 0 < share.value.value < 1:
        names.tell(NO_SHARE, measure.place, share=measure.text)
        return None
    if not left.kind.counted_from_nothing:
        names.tell(TEMPERATURE_WITHOUT_SHARES, syntax.place, share=measure.text)
        return None
    return _comparison(names, syntax, left, relation, right)


def _holds_nothing(relations: tuple[Relation, ...], ends: list[Amount | None]) -> bool:
    """Say whether the two ends of a span, where both are stated values, leave nothing between them."""
    values = [amount_of(end.value) for end in ends if isinstance(end, Literal) and end.kind.ordered]
    if len(relations) < 2 or len(values) < 2:
        return False
    open_ended = relations != SPANS["is between"]
    return values[0] > values[1] or (values[0] == values[1] and open_ended)


def _resolve_left(names: Names, syntax: Compared) -> tuple[Amount | None, Kind | None]:
    """Return the left amount and the kind to read the others as; a literal on the left takes the kind of the right."""
    if isinstance(syntax.left, Measure) and syntax.others and not isinstance(syntax.others[0], Measure):
        right = resolve_amount(names, syntax.others[0])
        if right is None:
            return None, None
        return resolve_amount(names, syntax.left, right.kind), right.kind
    if isinstance(syntax.left, Words):
        term = names.term(syntax.left.text)
        if term is not None and term.kind.form is Form.YES_NO:
            names.tell(YES_OR_NO_COMPARED, syntax.left.place, term=term.name)
            return None, None
    left = resolve_amount(names, syntax.left)
    return left, left.kind if left is not None else None


def _resolve_given(names: Names, syntax: Compared) -> Condition | None:
    if not isinstance(syntax.left, Words) or names.is_definition(syntax.left.text) or names.table(syntax.left.text):
        names.tell(ONLY_TERMS_ARE_GIVEN, syntax.left.place)
        return None
    term = names.term(syntax.left.text)
    if term is None:
        names.unknown(syntax.left)
        return None
    given = Given(term, syntax.place)
    return given if syntax.relation == "is given" else Negation(given, syntax.place)


def _resolve_one_of(names: Names, syntax: Compared, left: Amount) -> OneOf | None:
    of = term_behind(left)
    options: list[Single | None] = []
    for other in syntax.others:
        if isinstance(other, Words) and of is not None and of.of_choices:
            options += resolve_choices(names, other, of) or (None,)
            continue
        if isinstance(other, Measure):
            literal = resolve_literal(other, left.kind, names.source)
            if isinstance(literal, Diagnostic):
                names.report(literal)
                options.append(None)
            else:
                options.append(literal.value)
            continue
        amount = resolve_amount(names, other, left.kind, of)
        if amount is not None and not isinstance(amount, Literal):
            names.tell(LIST_OF_AMOUNTS, other.place)
        options.append(amount.value if isinstance(amount, Literal) else None)
    known = tuple(option for option in options if option is not None)
    return OneOf(left, tuple(dict.fromkeys(known)), syntax.place) if len(known) == len(options) else None


def term_behind(amount: Amount) -> Term | None:
    """Return the term whose list of values an amount draws from, be it through a table or a definition."""
    match amount:
        case TermValue(term):
            return term
        case Lookup(table):
            return table.of
        case NamedAmount(_, inner):
            return term_behind(inner)
        case Literal() | Arithmetic() | Adjusted():
            return None
        case _:
            assert_never(amount)


def by_cells(comparison: Condition | None) -> Condition | None:
    """Return a comparison that asks nothing, or cannot be met, where cells of the tables compared with say so."""
    found = comparison
    if comparison is None or found is None:
        return None
    for table in tables_of([comparison]):
        permitted, asked = (Negation(CellSays(table, word, comparison.place), comparison.place) for word in CellWord)
        if any(table.saying(CellWord.NOT_PERMITTED)):
            found = AskedIf(found, permitted, permitted, comparison.place, by_table=True)
        if any(table.saying(CellWord.NOTHING_REQUIRED)):
            found = AskedIf(found, asked, None, comparison.place, by_table=True)
    return found


def _named(of: Term | None, other: AmountSyntax) -> AmountSyntax:
    """Return a number with a unit that is a value of a list, as a gauge is, as its name."""
    if not isinstance(other, Measure) or of is None or of.kind.form is not Form.CHOICE:
        return other
    return Words(other.text, other.place) if of.ordered or fold(other.text) in of.choice_names else other


def _by_rank(
    names: Names, syntax: Compared, of: Term, left: Amount, relation: Relation, right: Amount
) -> Condition | None:
    """Return that a choice of an ordered list is at least, at most, less or more than another: one of those that are.

    Where the other one is not stated here, that is said of each value that it can have.
    """
    values = [choice.name for choice in of.choices]

    def among(limit: Single) -> OneOf:
        rank = values.index(str(limit))
        order = {at: Order.BELOW if at < rank else Order.AT if at == rank else Order.ABOVE for at in range(len(values))}
        options = tuple(value for at, value in enumerate(values) if order[at] in relation.order)
        return OneOf(left, options, syntax.place)

    if term_behind(right) not in (of, None) or right.kind.form is not Form.CHOICE:
        names.tell(VALUE_OF_ANOTHER_LIST, syntax.place, term=of.name)
        return None
    if isinstance(right, Literal):
        found = among(right.value)
        if not found.options:
            said = relation.behind("").strip()
            names.tell(NO_VALUE_BEYOND, syntax.place, term=of.name, relation=said, value=right.value)
        return found if found.options else None
    ways = (
        (Comparison(right, Relation.EQUAL, Literal(value, right.kind, syntax.place), syntax.place), among(value))
        for value in values
    )
    return Some(tuple(Every((same, one), syntax.place) for same, one in ways if one.options), syntax.place)


def _comparison(
    names: Names, syntax: Compared, left: Amount, relation: AnyRelation, right: Amount | None
) -> Condition | None:
    if right is None:
        return None
    if isinstance(right, TermValue) and right.term.kind.form is Form.YES_NO and left.kind != right.kind:
        names.tell(YES_OR_NO_COMPARED, syntax.others[0].place, term=right.term.name)
        return None
    if not same_kind(left.kind, right.kind):
        names.tell(KINDS_COMPARED, syntax.place, kind=left.kind.described, other=right.kind.described)
        return None
    if isinstance(relation, Relation) and relation.is_limit and (of := term_behind(left)) is not None and of.ordered:
        return _by_rank(names, syntax, of, left, relation, right)
    if relation.is_limit and not left.kind.ordered:
        names.tell(KIND_WITHOUT_ORDER, syntax.place, kind=left.kind.described, relation=relation)
        return None
    first, second = term_behind(left), term_behind(right)
    if first is not None and second is not None and left.kind.form is Form.CHOICE and first != second:
        names.tell(TERMS_OF_DIFFERENT_LISTS, syntax.place, first=first.name, second=second.name)
        return None
    return Comparison(left, relation, right, syntax.place)
