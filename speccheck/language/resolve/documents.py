"""Documents resolved: what has to be submitted, its kind looked up, its conditions resolved as those of a clause."""

from __future__ import annotations

from collections.abc import Sequence

from speccheck.english import nearest
from speccheck.language.core import Age, DocumentKind, RequiredDocument, Ruleset
from speccheck.language.messages.rulesets import DOCUMENT_WITHOUT_KIND, NO_DOCUMENT_FOR_EACH, NO_KIND_OF_DOCUMENT
from speccheck.language.resolve.clauses import (
    check_once,
    is_draft,
    resolve_conditions,
    resolve_exceptions,
    sources_of,
    takes_its_number,
    texts_of,
    words_of,
)
from speccheck.language.resolve.names import Names
from speccheck.language.syntax.tree import DocumentSyntax, Item, Words
from speccheck.language.vocabulary.terms import Form, Term, fold

_KINDS = {fold(kind.value): kind for kind in DocumentKind}


def resolve_documents(
    names: Names, items: Sequence[Item], ruleset: str, bases: Sequence[Ruleset], taken: set[str]
) -> tuple[RequiredDocument, ...]:
    """Return what has to be submitted, that of the rulesets built on first; a number that is `taken` is an error."""
    found = {(one.ruleset, one.name): one for base in bases for one in base.documents}
    for item in items:
        if not isinstance(item, DocumentSyntax):
            continue
        if not takes_its_number(names, item.name, "document", "document", taken):
            continue
        document = _document(names, item, ruleset)
        if document is not None:
            found[ruleset, document.name] = document
    return tuple(found.values())


def _document(names: Names, item: DocumentSyntax, ruleset: str) -> RequiredDocument | None:
    check_once(names, item.parts)
    kind = _kind(names, item)
    each = [term for words in words_of(item.parts, "submit")[1:] if (term := _term(names, words)) is not None]
    if kind is None:
        return None
    ages = [Age.read(words.text) for words in words_of(item.parts, "dated within")]
    return RequiredDocument(
        item.name.text,
        item.title.text,
        ruleset,
        kind,
        tuple(each),
        resolve_conditions(names, item.parts, "where"),
        resolve_exceptions(names, item.parts),
        ages[0] if ages else None,
        sources_of(item.parts),
        "".join(texts_of(item.parts, "wording")[:1]),
        "".join(texts_of(item.parts, "reason")[:1]),
        texts_of(item.parts, "caution"),
        texts_of(item.parts, "note"),
        is_draft(item.parts),
        texts_of(item.parts, "todo"),
        item.place,
    )


def _kind(names: Names, item: DocumentSyntax) -> DocumentKind | None:
    """Return what is to be submitted, which has to be said once, or None after its errors were reported."""
    named = words_of(item.parts, "submit")
    kinds = ", ".join(f"`{kind}`" for kind in DocumentKind)
    if not named:
        names.tell(DOCUMENT_WITHOUT_KIND, item.name.place, document=item.name.text, kinds=kinds)
        return None
    found = _KINDS.get(fold(named[0].text))
    if found is None:
        names.tell(
            NO_KIND_OF_DOCUMENT,
            named[0].place,
            near=nearest(named[0].text, [kind.value for kind in DocumentKind]),
            words=named[0].text,
            kinds=kinds,
        )
    return found


def _term(names: Names, words: Words) -> Term | None:
    """Return a term for each value of which there is to be a document: a choice, words or a product's name."""
    term = names.term(words.text)
    if term is None:
        names.unknown(words)
        return None
    if term.kind.form not in (Form.CHOICE, Form.TEXT):
        names.tell(NO_DOCUMENT_FOR_EACH, words.place, term=term.name, kind=term.kind.described)
        return None
    return term
