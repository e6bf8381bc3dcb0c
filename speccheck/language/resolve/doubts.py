"""What a vocabulary says of words and amounts beyond their values: several meanings, sensible values, inferences."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from speccheck.english import nearest
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.messages.meaning import (
    AMOUNT_NOT_READ,
    LIST_WITHOUT_UNIT,
    NO_ANSWER,
    NO_ANSWERS_OF_KIND,
    NO_TERM_HERE,
    VALUE_UNKNOWN,
)
from speccheck.language.messages.rulesets import WORDS_OF_ONE_AND_SEVERAL
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.syntax.tree import (
    AdditionSyntax,
    EitherPart,
    InferredPart,
    SensiblePart,
    TermSyntax,
    TextPart,
    VocabularySyntax,
    Words,
)
from speccheck.language.vocabulary.terms import Either, Family, Form, Inferred, Kind, Sensible, Term, fold
from speccheck.quantities import Interval, Misread, NominalSize, Quantity, as_number, as_quantity, as_size, read

ANSWERS = ("yes also", "no also")


def eithers(syntax: TermSyntax) -> tuple[Either, ...]:
    """Return the words of a term that stand for any of several of its values."""
    return tuple(
        Either(tuple(fold(words.text) for words in part.words), tuple(value.text for value in part.values))
        for part in syntax.parts
        if isinstance(part, EitherPart) and not part.family
    )


def families(syntax: TermSyntax | AdditionSyntax) -> tuple[Family, ...]:
    """Return the names of a term that mean several of its values at once."""
    return tuple(
        Family(tuple(words.text for words in part.words), tuple(value.text for value in part.values))
        for part in syntax.parts
        if isinstance(part, EitherPart) and part.family
    )


def groups(syntax: TermSyntax) -> tuple[tuple[str, ...], ...]:
    """Return the groups of values of a term that stand together in one schedule."""
    return tuple(
        tuple(words.text for words in part.words)
        for part in syntax.parts
        if isinstance(part, TextPart) and part.keyword == "together"
    )


def sensible_values(syntax: TermSyntax, kind: Kind) -> tuple[Sensible, ...]:
    """Return what the values of a term sensibly are, whatever unit they are in.

    What is no range of its kind is left out, and told by `check_doubts`.
    """
    return _sensible(syntax, kind, without_unit=False)


def sensible_numbers(syntax: TermSyntax, kind: Kind) -> tuple[Sensible, ...]:
    """Return what the numbers of a term sensibly are for which nothing states a unit."""
    return _sensible(syntax, kind, without_unit=True)


def _sensible(syntax: TermSyntax, kind: Kind, *, without_unit: bool) -> tuple[Sensible, ...]:
    found = []
    for part in syntax.parts:
        if isinstance(part, SensiblePart) and part.without_unit is without_unit and not (without_unit and part.options):
            range_ = None if part.options else _range(part, kind)
            if not isinstance(range_, Misread):
                values = tuple(value.text for value in part.values)
                options = tuple(one for one in _all_values(syntax, kind) if _is_left(one, part)) if part.options else ()
                found.append(Sensible(range_, part.where.text if part.where else "", values, options))
    return tuple(found)


def inferences(syntax: TermSyntax) -> tuple[Inferred, ...]:
    """Return the values of a term that other data leave no doubt of."""
    return tuple(
        Inferred(
            part.value.text,
            part.where.text,
            tuple(value.text for value in part.values),
            part.given.text if part.given else "",
        )
        for part in syntax.parts
        if isinstance(part, InferredPart)
    )


def _all_values(syntax: TermSyntax, kind: Kind) -> Sequence[str | bool]:
    return (True, False) if kind.form is Form.YES_NO else [choice.name.text for choice in syntax.choices]


def _is_left(value: str | bool, part: SensiblePart) -> bool:
    """Say whether a list leaves a value to a term, by naming it or by denying others."""
    name = value if isinstance(value, str) else "yes" if value else "no"
    return (name in {option.text for option in part.options}) is not part.denied


_Range = Interval[Quantity] | Interval[NominalSize] | Interval[float]


def _range(part: SensiblePart, kind: Kind) -> _Range | Misread:
    """Return the range of a part, in SI units, or why it is none of the kind."""
    reading = read(part.range.text)
    found: Quantity | NominalSize | float | _Range | Misread
    if kind.form is Form.QUANTITY:
        found = as_quantity(reading, kind.dimension)
    elif kind.form is Form.SIZE:
        found = as_size(reading)
    elif kind.form in (Form.NUMBER, Form.COUNT):
        found = as_number(reading)
    else:
        message = f"{kind.described} has no sensible range"
        return Misread(part.range.text, message, "leave it out", 0, len(part.range.text))
    if isinstance(found, Interval | Misread):
        return found
    return Misread(part.range.text, "a range needs two different ends", "write a range", 0, len(part.range.text))


def check_doubts(syntax: VocabularySyntax, terms: Mapping[str, Term], source: SourceText) -> Iterator[Diagnostic]:
    """Yield what is wrong with the words of several meanings, groups, ranges and inferences of a vocabulary."""
    for item in syntax.items:
        if not isinstance(item, TermSyntax):
            continue
        term = next((term for term in terms.values() if term.place == item.place), None)
        if term is None:
            continue
        for part in item.parts:
            if isinstance(part, EitherPart):
                yield from _wrong_words(part, term, source)
            elif isinstance(part, TextPart) and part.keyword == "together":
                yield from _unknown_values(part.words, term, source)
            elif isinstance(part, TextPart) and part.keyword in ANSWERS and term.kind.form is not Form.YES_NO:
                yield NO_ANSWERS_OF_KIND.at(part.place, source, term=term.name, kind=term.kind)
            elif isinstance(part, SensiblePart):
                yield from _wrong_range(part, term, terms, source)
            elif isinstance(part, InferredPart):
                yield from _wrong_inference(part, term, terms, source)


def _wrong_words(part: EitherPart, term: Term, source: SourceText) -> Iterator[Diagnostic]:
    names = {fold(choice.name): choice.name for choice in term.choices} if part.family else term.choice_names
    for words in part.words:
        owner = names.get(fold(words.text))
        if owner is not None:
            yield WORDS_OF_ONE_AND_SEVERAL.at(words.place, source, words=words.text, owner=owner, term=term.name)
    yield from _unknown_values(part.values, term, source)


def _wrong_range(part: SensiblePart, term: Term, terms: Mapping[str, Term], source: SourceText) -> Iterator[Diagnostic]:
    if part.options and part.without_unit:
        yield LIST_WITHOUT_UNIT.at(part.range.place, source, range=part.range.text)
    elif part.options:
        yield from _wrong_options(part, term, source)
    elif isinstance(range_ := _range(part, term.kind), Misread):
        yield AMOUNT_NOT_READ.at(part.range.place, source, sentence=range_.message, advice=range_.help)
    if part.where is not None:
        yield from _wrong_where(part.where, part.values, terms, source)


def _wrong_where(
    where: Words, values: tuple[Words, ...], terms: Mapping[str, Term], source: SourceText
) -> Iterator[Diagnostic]:
    """Yield what is wrong with the name of another term and its values."""
    other = terms.get(where.text)
    if other is None:
        yield NO_TERM_HERE.at(where.place, source, near=nearest(where.text, terms), words=where.text)
    else:
        yield from _unknown_values(values, other, source)


def _wrong_inference(
    part: InferredPart, term: Term, terms: Mapping[str, Term], source: SourceText
) -> Iterator[Diagnostic]:
    yield from _unknown_values((part.value,), term, source)
    yield from _wrong_where(part.where, part.values, terms, source)
    if part.given is not None:
        yield from _wrong_where(part.given, (), terms, source)


def _wrong_options(part: SensiblePart, term: Term, source: SourceText) -> Iterator[Diagnostic]:
    if term.kind.form is not Form.YES_NO:
        yield from _unknown_values(part.options, term, source)
        return
    for option in part.options:
        if option.text not in ("yes", "no"):
            yield NO_ANSWER.at(option.place, source, value=option.text, term=term.name)


def _unknown_values(values: tuple[Words, ...], term: Term, source: SourceText) -> Iterator[Diagnostic]:
    names = [choice.name for choice in term.choices]
    for value in values:
        if value.text not in names:
            yield VALUE_UNKNOWN.at(
                value.place, source, near=nearest(value.text, names), value=value.text, term=term.name
            )
