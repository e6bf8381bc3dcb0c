"""Documents resolved: what has to be submitted, its kind looked up, its conditions resolved as those of a clause."""

from __future__ import annotations

from collections.abc import Sequence

from speccheck.english import did_you_mean
from speccheck.language.core import Age, DocumentKind, RequiredDocument, Ruleset
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
        message = f"document `{item.name.text}` does not say what is to be submitted"
        names.error("L314", message, item.name, f"write `submit` and one of {kinds}")
        return None
    found = _KINDS.get(fold(named[0].text))
    if found is None:
        help = did_you_mean(named[0].text, [kind.value for kind in DocumentKind], f"write one of {kinds}")
        names.error("L314", f"`{named[0].text}` is no kind of document", named[0], help)
    return found


def _term(names: Names, words: Words) -> Term | None:
    """Return a term for each value of which there is to be a document: a choice, words or a product's name."""
    term = names.term(words.text)
    if term is None:
        names.unknown(words)
        return None
    if term.kind.form not in (Form.CHOICE, Form.TEXT):
        message = f"`{term.name}` is {term.kind.described}, of which no document is asked for each value"
        names.error("L314", message, words, "name a term of choices or of words, such as `insulation`")
        return None
    return term
