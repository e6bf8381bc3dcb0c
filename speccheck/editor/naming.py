"""Naming: the names that a text can use, and the longest of them at a position in it.

Names are runs of words, so that the parser's tree would be needed to tell them apart; but a writer asks for help just
where the text cannot be parsed yet. Names are therefore looked for in the words of the line.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from speccheck.language.core import Amount, Condition, Ruleset, Table
from speccheck.language.vocabulary.terms import Choice, Term, Vocabulary, fold

# The most words that a name is looked for in.
LONGEST = 8
_WORD = re.compile(r"[^\s,|\"()]+")


@dataclass(frozen=True)
class Definition:
    """A name that a ruleset gave a condition or an amount, with its sources and notes where the text has them."""

    name: str
    meaning: Condition | Amount
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True)
class ChoiceOf:
    """A value of the list of a term."""

    choice: Choice
    term: Term


Name = Term | Definition | Table | ChoiceOf


@dataclass(frozen=True)
class NameAt:
    """A name in a line of text: everything that it can stand for, and the columns from and to which it runs, from 0."""

    meanings: tuple[Name, ...]
    start: int
    end: int


def names_in(
    ruleset: Ruleset | None, vocabulary: Vocabulary | None, remarks: Mapping[str, tuple[str, ...]]
) -> dict[str, tuple[Name, ...]]:
    """Return the names of definitions, tables, terms and values, folded; `remarks` are those of definitions."""
    found: dict[str, list[Name]] = {}
    if ruleset is not None:
        for name, meaning in ruleset.definitions.items():
            found.setdefault(fold(name), []).append(Definition(name, meaning, remarks.get(fold(name), ())))
        for table in ruleset.tables.values():
            found.setdefault(fold(table.name), []).append(table)
    for term in vocabulary.terms.values() if vocabulary is not None else ():
        found.setdefault(fold(term.name), []).insert(0, term)
        for choice in term.choices:
            found.setdefault(fold(choice.name), []).append(ChoiceOf(choice, term))
    return {name: tuple(meanings) for name, meanings in found.items()}


def name_at(line: str, column: int, names: Mapping[str, tuple[Name, ...]]) -> NameAt | None:
    """Return the longest name around a column of a line, from 0, None where there is none."""
    words = list(_WORD.finditer(line))
    here = next((place for place, word in enumerate(words) if word.start() <= column <= word.end()), None)
    if here is None:
        return None
    best: NameAt | None = None
    for first in range(max(here - LONGEST, 0), here + 1):
        for last in range(here, min(first + LONGEST, len(words))):
            start, end = words[first].start(), words[last].end()
            meanings = names.get(fold(line[start:end]), ())
            if meanings and (best is None or end - start > best.end - best.start):
                best = NameAt(meanings, start, end)
    return best


def name_meant(line: str, column: int, names: Mapping[str, tuple[Name, ...]]) -> NameAt | None:
    """Return the name around a column with what it likely stands for: a value is one of a term named before it."""
    named = name_at(line, column, names)
    if named is None:
        return None
    before = {term.name for term in terms_before(line[: named.start], names)}
    likely = [one for one in named.meanings if isinstance(one, ChoiceOf) and one.term.name in before]
    return replace(named, meanings=tuple(likely)) if likely else named


def terms_before(line: str, names: Mapping[str, tuple[Name, ...]]) -> tuple[Term, ...]:
    """Return the terms that a line names, the last one first: values that follow are likely theirs."""
    found: dict[str, Term] = {}
    for word in reversed(list(_WORD.finditer(line))):
        named = name_at(line, word.start(), names)
        for meaning in named.meanings if named is not None else ():
            if isinstance(meaning, Term):
                found.setdefault(meaning.name, meaning)
    return tuple(found.values())
