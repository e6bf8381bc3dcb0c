"""Completing: what could be written at a position: words of the language, names, values of the term before it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from speccheck.editor.analysing import Analysis
from speccheck.editor.hovering import kind_words
from speccheck.editor.naming import terms_before
from speccheck.language.layout import ITEM_WORDS, PARTS_OF, layout_of

# Words that stand inside conditions and amounts.
CONDITION_WORDS = (
    *("is", "is not", "is at least", "is at most", "is less than", "is more than", "is between", "is one of"),
    *("is given", "is not given", "include", "include any of", "exclude", "and", "or", "not"),
    *("plus", "minus", "times", "divided by", "larger of", "smaller of"),
)
CONDITION_PARTS = ("where", "shall", "should", "except", "as", "equal", "that")


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
    if not before.strip():
        return
    ruleset = analysis.ruleset
    if ruleset is not None:
        yield from (Suggestion(name, "definition") for name in ruleset.definitions)
        yield from (Suggestion(table.name, "table", str(table.kind)) for table in ruleset.tables.values())
    if analysis.vocabulary is not None:
        for term in analysis.vocabulary.terms.values():
            yield Suggestion(term.name, "term", kind_words(term))
