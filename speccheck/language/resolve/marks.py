"""The marks of terms checked: what a vocabulary says of a term beside its kind and its values."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from speccheck.english import nearest
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.messages.meaning import (
    CANNOT_TELL_APART,
    NAME_WITH_OF,
    NO_OTHER_VALUE,
    NO_TERM_HERE,
    TWO_RANGES_TELL_APART,
)
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.syntax.tree import Part, TermSyntax, TextPart, VocabularySyntax
from speccheck.language.vocabulary.terms import Form, Term

# Marks that name other terms of the vocabulary.
OF = "property of"
NAMING_TERMS = (OF, "stated at", "dates", "beside")
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
                yield from _unknown_terms(item, part, terms, source)
            elif isinstance(part, TextPart) and part.keyword == TELLS_APART and term is not None:
                yield from _cannot_tell_apart(term, part, ranged, source)
        if term is not None:
            yield from _unknown_wholes(item, term, source)


def _unknown_terms(
    item: TermSyntax, part: TextPart, terms: Mapping[str, Term], source: SourceText
) -> Iterator[Diagnostic]:
    for words in part.words:
        near = nearest(words.text, terms)
        if words.text not in terms and part.keyword == OF and part.place.line == item.place.line and near is None:
            whole = f'"{item.name.text} of {words.text}"'
            yield NAME_WITH_OF.at(words.place, source, words=words.text, whole=whole)
        elif words.text not in terms:
            yield NO_TERM_HERE.at(words.place, source, near=near, words=words.text)


def _cannot_tell_apart(term: Term, part: Part, ranged: dict[str, str], source: SourceText) -> Iterator[Diagnostic]:
    """Yield that a term is of a kind that cannot tell systems apart, or not together with another one."""
    if term.kind.form in SINGLE_VALUES:
        return
    kind = "nominal size" if term.kind.form is Form.SIZE else term.kind.dimension
    if kind not in ("nominal size", "temperature"):
        yield CANNOT_TELL_APART.at(part.place, source, term=term.name, kind=term.kind)
    elif ranged.setdefault(kind, term.name) != term.name:
        yield TWO_RANGES_TELL_APART.at(part.place, source, term=term.name, ranged=ranged[kind], kind=kind)


def _unknown_wholes(item: TermSyntax, term: Term, source: SourceText) -> Iterator[Diagnostic]:
    names = [choice.name for choice in term.choices]
    for choice in item.choices:
        whole = choice.part_of
        if whole is not None and (whole.text not in names or whole.text == choice.name.text):
            near = nearest(whole.text, [name for name in names if name != choice.name.text])
            yield NO_OTHER_VALUE.at(whole.place, source, near=near, value=whole.text, term=term.name)
