"""Amounts resolved: names looked up, quantities read, the kinds of calculations worked out."""

from __future__ import annotations

from speccheck.english import first_of
from speccheck.language.core import Adjusted, Amount, Arithmetic, Literal, Lookup, NamedAmount, Operation, TermValue
from speccheck.language.diagnostic_rules import Wording
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.messages.meaning import (
    CONDITION_IS_NO_AMOUNT,
    EITHER_VALUE,
    EXCEPTION_IN_VALUE,
    FAMILY_OR_VALUE,
    NAME_OF_A_TERM,
    NO_LARGER_OR_SMALLER,
    NO_RESULT,
    NONE_DENIED,
    NOT_A_VALUE,
    OTHER_DIMENSION_NEEDED,
    SET_COMPARED_AS_ONE,
    TEMPERATURES_ADDED,
    TEMPERATURES_MULTIPLIED,
    VALUE_OF_ANOTHER_TERM,
    WORDS_OF_SEVERAL_VALUES,
)
from speccheck.language.resolve.advice import misspelt_value, owner_of
from speccheck.language.resolve.literals import DIFFERENCE, resolve_literal
from speccheck.language.resolve.names import Names
from speccheck.language.resolve.read_as import resolve_read_as
from speccheck.language.syntax.tree import Adjustment, AmountSyntax, CalculationSyntax, Measure, ReadAsSyntax, Words
from speccheck.language.syntax.words_of_sections import PRESENT
from speccheck.language.vocabulary.terms import CHOICE, DATE, NUMBER, TEXT, Form, Kind, Term, fold, quantity_kind

MOST_NAMED = 6  # of the values of a list
AMOUNT_NODES = (Literal, TermValue, Lookup, Arithmetic, Adjusted, NamedAmount)

# What becomes of dimensions that are multiplied or divided, beyond plain numbers.
QUOTIENTS = {
    ("length", "conductivity"): "thermal resistance",
    ("conductivity", "length"): "surface coefficient",
    ("length", "thermal resistance"): "conductivity",
    ("permeability", "length"): "permeance",
    ("permeability", "permeance"): "length",
}
PRODUCTS = {
    ("thermal resistance", "conductivity"): "length",
    ("permeance", "length"): "permeability",
    ("surface coefficient", "length"): "conductivity",
    ("length", "length"): "area",
}


def resolve_amount(
    names: Names, syntax: AmountSyntax, wanted: Kind | None = None, of: Term | None = None
) -> Amount | None:
    """Return the amount that `syntax` means, or None after its errors were reported.

    `wanted` is the kind that the place asks for, where it asks for one; `of` is the term on the other side of a
    comparison, whose values may be named here.
    """
    if isinstance(syntax, Measure):
        literal = resolve_literal(syntax, wanted, names.source)
        if isinstance(literal, Diagnostic):
            names.report(literal)
            return None
        return literal
    if isinstance(syntax, Words):
        return _resolve_name(names, syntax, of)
    if isinstance(syntax, ReadAsSyntax):
        return resolve_read_as(names, syntax)
    if isinstance(syntax, Adjustment):
        return _resolve_adjustment(names, syntax)
    return _resolve_calculation(names, syntax, wanted)


def resolve_choices(names: Names, words: Words, term: Term) -> tuple[str, ...]:
    """Return the values of `term` that `words` mean: a family, or the one that they name; none after errors."""
    family = term.family_values.get(fold(words.text))
    if family is not None:
        _warn_of_family(names, words, term, family)
        return family
    found = resolve_choice(names, words, term)
    return () if found is None else (found,)


def _warn_of_family(names: Names, words: Words, term: Term, family: tuple[str, ...]) -> None:
    """Tell the writer of words that mean several values in a clause, and one alone in a schedule.

    Before a vocabulary has the family, the clause meant that one value too.
    """
    alone = term.choice_names.get(fold(words.text))
    if alone is None:
        return
    listed = ", ".join(family)
    names_of_it = next(one.names for one in term.families if fold(words.text) in map(fold, one.names))
    plain = next((name for name in names_of_it if fold(name) not in term.choice_names), "")
    several = f"`{plain}`" if plain else f"`one of {listed}`"
    names.tell(FAMILY_OR_VALUE, words.place, words=words.text, values=listed, value=alone, several=several)


def resolve_choice(names: Names, words: Words, term: Term) -> str | None:
    """Return the value of `term` that `words` name, or None after reporting that the list does not have it."""
    found = term.choice_names.get(fold(words.text))
    if found is None:
        several = next((one.values for one in term.either if fold(words.text) in map(fold, one.words)), ())
        if several:
            listed = ", ".join(several)
            names.tell(WORDS_OF_SEVERAL_VALUES, words.place, words=words.text, term=term.name, values=listed)
            return None
        if words.text.startswith("either ") or " unless " in words.text:
            said = EXCEPTION_IN_VALUE if " unless " in words.text else EITHER_VALUE
            names.tell(said, words.place, value=words.text, term=term.name)
            return None
        if words.text in PRESENT and "none" in term.choice_names:
            names.tell(NONE_DENIED, words.place, value=words.text, term=term.name)
            return None
        _tell_unknown_value(names, words, term)
    return found


def _tell_unknown_value(names: Names, words: Words, term: Term) -> None:
    """Report a value that a list does not have: a misspelt one, one of something else, or what the list has."""
    near = misspelt_value(words.text, term)
    other, owner = names.vocabulary.find(words.text), owner_of(words.text, names.vocabulary, besides=term)
    if near is None and other is not None and other is not term:
        condition = other.name if other.kind.form is Form.YES_NO else f"{other.name} is ..."
        names.tell(NAME_OF_A_TERM, words.place, value=words.text, term=term.name, other=other.name, condition=condition)
    elif near is None and owner is not None:
        facts = {"other": owner[0].name, "meant": owner[1]}
        names.tell(VALUE_OF_ANOTHER_TERM, words.place, value=words.text, term=term.name, **facts)
    else:
        values = first_of([choice.name for choice in term.choices], MOST_NAMED)
        word = f'"{term.name}"' if " " in term.name else term.name
        names.tell(NOT_A_VALUE, words.place, near=near, value=words.text, term=term.name, values=values, word=word)


def _resolve_name(names: Names, words: Words, of: Term | None) -> Amount | None:
    if of is not None and of.kind.form is Form.CHOICE and fold(words.text) in of.choice_names:
        return Literal(of.choice_names[fold(words.text)], CHOICE, words.place)
    term = names.term(words.text)
    if term is not None:
        return _term_value(names, words, term)
    if names.is_definition(words.text):
        return _named_amount(names, words)
    table = names.table(words.text)
    if table is not None:
        return Lookup(table, words.place)
    if fold(words.text) in names.broken:
        return None
    if of is not None and of.kind.form is Form.CHOICE:
        resolve_choice(names, words, of)
    elif of is not None and of.kind.form is Form.TEXT:
        return Literal(words.text, TEXT, words.place)
    else:
        names.unknown(words)
    return None


def _term_value(names: Names, words: Words, term: Term) -> TermValue | None:
    if term.kind.form is Form.SET:
        names.tell(SET_COMPARED_AS_ONE, words.place, term=term.name)
        return None
    return TermValue(term, words.place)


def _named_amount(names: Names, words: Words) -> NamedAmount | None:
    meaning = names.definition(words.text)
    if isinstance(meaning, AMOUNT_NODES):
        return NamedAmount(names.definition_names[fold(words.text)], meaning, words.place)
    if meaning is not None:
        names.tell(CONDITION_IS_NO_AMOUNT, words.place, name=words.text)
    return None


def _resolve_calculation(names: Names, syntax: CalculationSyntax, wanted: Kind | None) -> Arithmetic | None:
    operation = Operation(syntax.operation)
    wanted_left, wanted_right = _wanted_parts(operation, wanted)
    left = resolve_amount(names, syntax.left, wanted_left)
    if left is not None and wanted_right is None and operation in (Operation.LARGER, Operation.SMALLER):
        wanted_right = left.kind
    right = resolve_amount(names, syntax.right, wanted_right)
    if left is None or right is None:
        return None
    kind = kind_of(operation, left.kind, right.kind)
    if kind is None:
        said = _complaint(operation, left.kind)
        facts = {"operation": operation, "left": left.kind.described, "right": right.kind.described}
        if said is TEMPERATURES_ADDED:
            right_text = f"`{syntax.right.text} difference`" if isinstance(syntax.right, Measure) else ""
            facts["difference"] = right_text or "`10 F difference` or `5 K difference`"
        names.tell(said, syntax.place, **facts)
        return None
    return Arithmetic(operation, left, right, kind, syntax.place)


def _resolve_adjustment(names: Names, syntax: Adjustment) -> Adjusted | None:
    """Return the adjusted thickness, each part checked for its dimension."""
    wanted = {"thickness": "length", "stated": "conductivity", "proposed": "conductivity", "diameter": "length"}
    found: dict[str, Amount] = {}
    for part, dimension in wanted.items():
        written: AmountSyntax = getattr(syntax, part)
        resolved = resolve_amount(names, written, quantity_kind(dimension))
        if resolved is not None and resolved.kind.dimension != dimension:
            names.tell(OTHER_DIMENSION_NEEDED, written.place, kind=resolved.kind.described, dimension=dimension)
        elif resolved is not None:
            found[part] = resolved
    return Adjusted(**found, place=syntax.place) if len(found) == len(wanted) else None


def _wanted_parts(operation: Operation, wanted: Kind | None) -> tuple[Kind | None, Kind | None]:
    """Return the kinds to read bare literals as, on either side; a temperature takes a stated difference."""
    if wanted is None or operation in (Operation.TIMES, Operation.DIVIDED_BY):
        return None, None
    if wanted.dimension == "temperature" and operation in (Operation.PLUS, Operation.MINUS):
        return wanted, None
    return wanted, wanted


def kind_of(operation: Operation, left: Kind, right: Kind) -> Kind | None:
    """Return the kind of a calculation, or None where the two do not go together."""
    if operation in (Operation.LARGER, Operation.SMALLER):
        return left if left.ordered and same_kind(left, right) else None
    if operation in (Operation.PLUS, Operation.MINUS):
        return _kind_of_sum(operation, left, right)
    return _kind_of_product(operation, left, right)


def same_kind(left: Kind, right: Kind) -> bool:
    """Say whether values of the two kinds can be compared; counts are numbers."""
    return left == right or (is_number(left) and is_number(right))


def is_number(kind: Kind) -> bool:
    """Say whether the kind is that of plain numbers; a ratio is one."""
    return (kind.form in (Form.COUNT, Form.NUMBER) and kind != DATE) or kind.dimension == "ratio"


def _kind_of_sum(operation: Operation, left: Kind, right: Kind) -> Kind | None:
    if left.dimension == "temperature":
        if right.dimension == DIFFERENCE:
            return left
        both = right.dimension == "temperature" and operation is Operation.MINUS
        return quantity_kind(DIFFERENCE) if both else None
    if is_number(left) and is_number(right):
        return left if left == right else NUMBER
    return left if left.form is Form.QUANTITY and left == right else None


def _kind_of_product(operation: Operation, left: Kind, right: Kind) -> Kind | None:
    if not (left.counted_from_nothing and right.counted_from_nothing):
        return None
    if is_number(right):
        return NUMBER if is_number(left) else left
    if operation is Operation.TIMES:
        if is_number(left):
            return right
        pair = (left.dimension, right.dimension)
        product = PRODUCTS.get(pair) or PRODUCTS.get(pair[::-1])
        return quantity_kind(product) if product else None
    if left == right:
        return NUMBER
    quotient = QUOTIENTS.get((left.dimension, right.dimension))
    return quantity_kind(quotient) if quotient else None


def _complaint(operation: Operation, left: Kind) -> Wording:
    if operation in (Operation.LARGER, Operation.SMALLER):
        return NO_LARGER_OR_SMALLER
    if left.dimension != "temperature":
        return NO_RESULT
    return TEMPERATURES_ADDED if operation in (Operation.PLUS, Operation.MINUS) else TEMPERATURES_MULTIPLIED
