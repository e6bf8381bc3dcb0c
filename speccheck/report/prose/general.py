"""The first part of a section before any clause: summary, cautions, references, definitions, design conditions."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from speccheck.english import listed
from speccheck.language.core import LineRelation, RequiredDocument, Ruleset, Source
from speccheck.language.core.walking import conditions_of, names_of, tables_of
from speccheck.language.core.wording import document_sentence, relation_sentence
from speccheck.report.prose.articles import Draft, ProseParagraph
from speccheck.report.prose.words import assumption_sentence, definition_sentence, sentence

# A published source names its document up to the first of these; what follows says where in it.
_WITHIN = re.compile(
    r",? (?:Tables?|chapter|section|clause|article|notes?|appendix)\b|[,;:] | as (?:quoted|excerpted) in "
)
# A document has a designation (ASTM C534, MSS SP-58) or is called a handbook, a code and so on; all else says something
# of a source and is no reference.
_DOCUMENT = re.compile(
    r"\b[A-Z]{2,}(?:[- ][A-Z]{0,3}[- ]?\d)|\b(?:Handbook|Code|Guide|Manual|Rule|Standard|Directive|Regulation|Book)\b"
)


def general_articles(ruleset: Ruleset, *, own_only: bool, sources: bool = False) -> Iterator[Draft]:
    """Yield the articles on what the section is about, none of them empty."""
    summary = [sentence(f"this section covers {ruleset.covers}")] if ruleset.covers else []
    summary += [sentence(f"it does not cover {ruleset.leaves_out}")] if ruleset.leaves_out else []
    if ruleset.builds_on:
        where = "and are not written out here" if own_only else "and are written out below"
        summary.append(sentence(f"the requirements of these apply too, {where}: {'; '.join(ruleset.builds_on)}"))
    yield from _article("Summary", summary)
    yield from _article("Cautions", map(sentence, ruleset.cautions))
    yield from _article("References", references(ruleset))
    yield from _article("Definitions", _definitions(ruleset))
    if ruleset.documents:
        yield Draft("Submittals", [_required(one, ruleset) for one in ruleset.documents])
    if ruleset.relations:
        yield Draft("Lines beside one another", [_related(one, ruleset) for one in ruleset.relations])
    if ruleset.assumptions:
        yield Draft("Design conditions", [_assumed(ruleset, at, sources) for at in range(len(ruleset.assumptions))])
    yield from _article("Notes", map(sentence, ruleset.notes))


def _article(title: str, texts: Iterable[str]) -> Iterator[Draft]:
    paragraphs = [ProseParagraph(text) for text in texts]
    if paragraphs:
        yield Draft(title, paragraphs)


# ---- references --------------------------------------------------------------------------------------------------


def references(ruleset: Ruleset) -> list[str]:
    """Return the documents that sources name, each once; where in them stands beside each clause."""
    documents = {_document(source) for source in _sources(ruleset)}
    return sorted(filter(None, documents))


def _document(source: Source) -> str:
    """Return the document that a source names, "" where it names none."""
    within = _WITHIN.search(source.text)
    name = (source.text[: within.start()] if within else source.text).strip().rstrip(".").removeprefix("after ")
    return name if _DOCUMENT.search(name) and name[:1].isupper() else ""


def _sources(ruleset: Ruleset) -> Iterator[Source]:
    for clause in ruleset.clauses:
        yield from clause.sources
        for table in tables_of(conditions_of(clause)):
            yield from table.sources


# ---- definitions and design conditions ---------------------------------------------------------------------------


def _definitions(ruleset: Ruleset) -> Iterator[str]:
    """Yield the definitions that clauses and design conditions use."""
    used = [condition for clause in ruleset.clauses for condition in conditions_of(clause)]
    used += [condition for one in ruleset.assumptions for condition in one.scope]
    used += [condition for one in ruleset.documents for condition in one.conditions]
    used += [condition for one in ruleset.relations for condition in one.conditions]
    names = set(names_of(used))
    for name, meaning in ruleset.definitions.items():
        if name in names:
            yield definition_sentence(name, meaning, ruleset.units)


def _related(relation: LineRelation, ruleset: Ruleset) -> ProseParagraph:
    inner = tuple(f"Caution: {sentence(text)}" for text in relation.cautions)
    return ProseParagraph(sentence(relation_sentence(relation, ruleset.units)), relation.title, relation.name, inner)


def _required(document: RequiredDocument, ruleset: Ruleset) -> ProseParagraph:
    inner = tuple(f"Caution: {sentence(text)}" for text in document.cautions)
    return ProseParagraph(sentence(document_sentence(document, ruleset.units)), document.title, document.name, inner)


def _assumed(ruleset: Ruleset, at: int, sources: bool) -> ProseParagraph:
    assumption = ruleset.assumptions[at]
    if not sources:
        return ProseParagraph(assumption_sentence(assumption, ruleset.units))
    remarks = [f"Note: {sentence(text)}" for text in assumption.notes]
    if assumption.sources:
        remarks.append(f"Source: {listed(str(source) for source in assumption.sources)}.")
    return ProseParagraph(assumption_sentence(assumption, ruleset.units), remarks=tuple(remarks))
