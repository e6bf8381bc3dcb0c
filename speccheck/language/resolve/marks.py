"""The marks of terms checked: what a vocabulary says of a term beside its kind and its values."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from speccheck.english import did_you_mean
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.syntax.tree import Part, TermSyntax, TextPart, VocabularySyntax, Words
from speccheck.language.vocabulary.terms import Form, Term

# Marks that name other terms of the vocabulary.
NAMING_TERMS = ("property of", "stated at", "dates", "beside")
TELLS_APART = "tells systems apart"
# Of these any number tell systems apart; of sizes and of temperatures one each, whose ranges are held side by side.
SINGLE_VALUES = (Form.CHOICE, Form.SET, Form.YES_NO, Form.TEXT)


def check_marks(syntax: VocabularySyntax, terms: Mapping[str, Term], source: SourceText) -> Iterator[Diagnostic]:
    """Yield what is wrong with the marks of the terms of a vocabulary."""
    ranged: dict[str, str] = {}
    for item in syntax.items:
        if not isinstance(item, TermSyntax):
            continue
        term = next((term for term in terms.values() if term.place == item.place), None)
        for part in item.parts:
            if isinstance(part, TextPart) and part.keyword in NAMING_TERMS:
                yield from _unknown_terms(part, terms, source)
            elif isinstance(part, TextPart) and part.keyword == TELLS_APART and term is not None:
                yield from _cannot_tell_apart(term, part, ranged, source)
        if term is not None:
            yield from _unknown_wholes(item, term, source)


def _unknown_terms(part: TextPart, terms: Mapping[str, Term], source: SourceText) -> Iterator[Diagnostic]:
    for words in part.words:
        if words.text not in terms:
            message = f"`{words.text}` is no term of this vocabulary"
            yield source.error("L201", message, words.place, _meant(words, terms, "name a term of this vocabulary"))


def _cannot_tell_apart(term: Term, part: Part, ranged: dict[str, str], source: SourceText) -> Iterator[Diagnostic]:
    """Yield that a term is of a kind that cannot tell systems apart, or not together with another one."""
    if term.kind.form in SINGLE_VALUES:
        return
    kind = "nominal size" if term.kind.form is Form.SIZE else term.kind.dimension
    if kind not in ("nominal size", "temperature"):
        message = f"`{term.name}` is of the kind {term.kind}, which cannot tell systems apart"
        help = "choices, words, yes or no, one nominal size and one temperature can"
        yield source.error("L211", message, part.place, help)
    elif ranged.setdefault(kind, term.name) != term.name:
        message = f"`{term.name}` and `{ranged[kind]}` are both a {kind} that tells systems apart"
        yield source.error("L211", message, part.place, "leave the mark with one of them")


def _unknown_wholes(item: TermSyntax, term: Term, source: SourceText) -> Iterator[Diagnostic]:
    names = [choice.name for choice in term.choices]
    for choice in item.choices:
        whole = choice.part_of
        if whole is not None and (whole.text not in names or whole.text == choice.name.text):
            message = f"`{whole.text}` is no other value of `{term.name}`"
            help = _meant(whole, [name for name in names if name != choice.name.text], "name a value of the same list")
            yield source.error("L202", message, whole.place, help)


def _meant(words: Words, known: Mapping[str, Term] | list[str], otherwise: str) -> str:
    return did_you_mean(words.text, known, otherwise)
