"""What a vocabulary says of words and amounts beyond their values: several meanings, sensible values, inferences."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from speccheck.english import did_you_mean
from speccheck.language.diagnostics import Diagnostic
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
                message = f"`{term.name}` is of the kind {term.kind}, to which nothing answers yes or no"
                yield source.error("L202", message, part.place, "leave it out, or make the term one of yes or no")
            elif isinstance(part, SensiblePart):
                yield from _wrong_range(part, term, terms, source)
            elif isinstance(part, InferredPart):
                yield from _wrong_inference(part, term, terms, source)


def _wrong_words(part: EitherPart, term: Term, source: SourceText) -> Iterator[Diagnostic]:
    names = {fold(choice.name): choice.name for choice in term.choices} if part.family else term.choice_names
    for words in part.words:
        owner = names.get(fold(words.text))
        if owner is not None:
            message = f"`{words.text}` stands for `{owner}` alone, and for one of several values of `{term.name}`"
            yield source.error("L301", message, words.place, "leave it in one place")
    yield from _unknown_values(part.values, term, source)


def _wrong_range(part: SensiblePart, term: Term, terms: Mapping[str, Term], source: SourceText) -> Iterator[Diagnostic]:
    if part.options and part.without_unit:
        message = f"`sensible {part.range.text} without unit` is a list, and only amounts have units"
        yield source.error("L205", message, part.range.place, "write a range, such as 3 mm to 5 in, or leave it out")
    elif part.options:
        yield from _wrong_options(part, term, source)
    elif isinstance(range_ := _range(part, term.kind), Misread):
        yield source.error("L205", range_.message, part.range.place, range_.help)
    if part.where is not None:
        yield from _wrong_where(part.where, part.values, terms, source)


def _wrong_where(
    where: Words, values: tuple[Words, ...], terms: Mapping[str, Term], source: SourceText
) -> Iterator[Diagnostic]:
    """Yield what is wrong with the name of another term and its values."""
    other = terms.get(where.text)
    if other is None:
        help = did_you_mean(where.text, terms, "name a term of this vocabulary")
        yield source.error("L201", f"`{where.text}` is no term of this vocabulary", where.place, help)
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
            yield source.error("L202", f"`{option.text}` is no value of `{term.name}`", option.place, "write yes or no")


def _unknown_values(values: tuple[Words, ...], term: Term, source: SourceText) -> Iterator[Diagnostic]:
    names = [choice.name for choice in term.choices]
    for value in values:
        if value.text not in names:
            help = did_you_mean(value.text, names, "name a value of the list")
            yield source.error("L202", f"`{value.text}` is no value of `{term.name}`", value.place, help)
