"""Completing: what could be written at a position: words of the language, names, values of the term before it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from speccheck.editor.analysing import Analysis
from speccheck.editor.hovering import kind_words
from speccheck.editor.naming import terms_before
from speccheck.language.core import Condition, Relation
from speccheck.language.syntax.layout import ITEM_WORDS, PARTS_OF, layout_of
from speccheck.language.vocabulary.terms import Kind

# Words that stand inside conditions and amounts.
CONDITION_WORDS = (
    *(relation.words for relation in Relation),
    *("is between", "is within", "is one of"),
    *("is given", "is not given", "include", "include any of", "exclude", "and", "or", "not"),
    *("if", "otherwise", "either", "or approved equal"),
    *("read as if", "and as if"),
    *("plus", "minus", "times", "divided by", "larger of", "smaller of"),
)
# Words behind which an amount stands that a term is compared with.
_COMPARING = re.compile(r"\b(?:is|be|not|at least|at most|less than|more than|between|within \S+ %? ?of|and)\s+\S*$")
_OWN, _TERMS, _OTHERS = range(3)


@dataclass(frozen=True, slots=True)
class Suggestion:
    """Something that could be written: the text, what sort of thing it is, and a word on it."""

    text: str
    sort: str
    detail: str = ""


def suggestions(analysis: Analysis, line: int, column: int) -> tuple[Suggestion, ...]:
    """Return what could be written at a line and a column, both from 0, the likeliest first."""
    row = analysis.source.lines[line] if line < len(analysis.source.lines) else ""
    before = row[:column]
    found = [*_part_words(analysis, line, before), *_values(analysis, before), *_names(analysis, before)]
    if len(before.split()) > 1:
        found += [Suggestion(word, "keyword") for word in CONDITION_WORDS]
    return tuple(dict.fromkeys(found))


def _part_words(analysis: Analysis, line: int, before: str) -> Iterator[Suggestion]:
    """Yield the words with which a line can begin, where nothing but the start of one stands before the position."""
    if len(before.split()) > 1 or (before.endswith(" ") and before.strip()):
        return
    starts = layout_of("\n".join((*analysis.source.lines[:line], "")))
    start = starts.at(line)
    item = start.item if start is not None else "ruleset"
    for word in PARTS_OF[item]:
        yield Suggestion(word, "keyword", f"part of {item}")
    for word in ITEM_WORDS:
        yield Suggestion(word, "keyword", "begins an item")


def _values(analysis: Analysis, before: str) -> Iterator[Suggestion]:
    """Yield the values of the term that stands last before the position."""
    for term in terms_before(before, analysis.names)[:1]:
        for choice in term.choices:
            yield Suggestion(choice.name, "value", choice.meaning or f"value of {term.name}")


def _names(analysis: Analysis, before: str) -> Iterator[Suggestion]:
    """Yield the names of definitions, tables and terms: what can be compared with the term before it comes first.

    The ruleset's own names come before terms, and those of rulesets that it builds on last.
    """
    if not before.strip():
        return
    named = terms_before(before, analysis.names)[:1] if _COMPARING.search(before) else ()
    kinds = [term.kind for term in named]
    ranked = sorted(_ranked(analysis), key=lambda one: (bool(kinds) and one[1] not in kinds, one[0]))
    yield from (suggestion for _, _, suggestion in ranked)


def _ranked(analysis: Analysis) -> Iterator[tuple[int, Kind | None, Suggestion]]:
    """Yield names with how far away they were written, and the kind of what is an amount."""
    ruleset, here = analysis.ruleset, analysis.path.name
    for name, meaning in ruleset.definitions.items() if ruleset is not None else ():
        kind = None if isinstance(meaning, Condition) else meaning.kind
        yield _OWN if meaning.place.file == here else _OTHERS, kind, Suggestion(name, "definition")
    for table in ruleset.tables.values() if ruleset is not None else ():
        rank = _OWN if table.place.file == here else _OTHERS
        yield rank, table.kind, Suggestion(table.name, "table", str(table.kind))
    for term in analysis.vocabulary.terms.values() if analysis.vocabulary is not None else ():
        yield _TERMS, term.kind, Suggestion(term.name, "term", kind_words(term))
