"""Words of a sentence that name values and terms of the vocabulary: the longest run first, each word used once."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from speccheck.language.vocabulary.terms import Form, Vocabulary, fold
from speccheck.phrases.kept import kept_by_vocabulary

# Words that hold a sentence together and say nothing else.
# fmt: off
JOINING = frozenset(
    {
        "a", "an", "the", "all", "each", "and", "or", "of", "with", "to", "be", "is", "are", "in", "on", "at",
        "for", "by", "any", "such", "this", "that", "these", "as", "its", "their", "where", "it", "which",
        "nominal", "pipe", "pipes", "piping", "size", "sizes", "system", "systems", "line", "lines",
        "service", "services", "operating", "installed", "thick", "thickness", "insulation", "insulated",
        "temperature", "temperatures", "provided", "furnished",
    }
)
# fmt: on
LONGEST_NAME = 7


@dataclass(frozen=True, slots=True)
class Named:
    """A run of words, from `start` to `end` (not in it), and what it may name: terms, or terms with one value."""

    start: int
    end: int
    words: str
    values: tuple[tuple[str, str], ...] = ()
    terms: tuple[str, ...] = ()


@dataclass(frozen=True)
class Index:
    """The names of a vocabulary by their folded spelling, plurals of the trade included."""

    values: dict[str, tuple[tuple[str, str], ...]]
    terms: dict[str, tuple[str, ...]]


@kept_by_vocabulary
def index_of(vocabulary: Vocabulary) -> Index:
    """Return the index of a vocabulary, made once."""
    values: dict[str, list[tuple[str, str]]] = {}
    named: dict[str, list[str]] = {}
    for name, term in vocabulary.terms.items():
        for spelling in (name, *term.also):
            named.setdefault(fold(spelling), []).append(name)
        if term.kind.form not in (Form.CHOICE, Form.SET):
            continue
        for choice in term.choices:
            for spelling in (choice.name, *choice.also):
                entry = values.setdefault(fold(spelling), [])
                if (name, choice.name) not in entry:
                    entry.append((name, choice.name))
    return Index(
        {key: tuple(found) for key, found in values.items()},
        {key: tuple(dict.fromkeys(found)) for key, found in named.items()},
    )


def tokens_of(text: str) -> list[str]:
    """Return the words and marks of a text; numbers keep their fractions and units stay words of their own."""
    return re.findall(r"\d+(?:[-.,/]\d+)*(?:/\d+)?%?|[^\W\d_]+(?:[-'&/][^\W\d_]+)*|[^\s\w]", text)


def spellings(words: Sequence[str]) -> Iterator[str]:
    """Yield the folded spellings under which a run of words may stand in a vocabulary, singular ones last."""
    whole = fold(" ".join(words))
    yield whole
    for ending, instead in (("ies", "y"), ("es", ""), ("s", "")):
        if whole.endswith(ending):
            yield whole[: -len(ending)] + instead
    for tail in (" piping", " pipes", " pipe", " systems", " system", " lines", " line", " ductwork", " ducts"):
        if whole.endswith(tail):
            yield whole.removesuffix(tail)


def named_in(tokens: Sequence[str], index: Index) -> Iterator[Named]:
    """Yield the runs of words that name values or terms, from left to right, the longest at each place."""
    at = 0
    while at < len(tokens):
        found = next(
            (
                one
                for end in range(min(len(tokens), at + LONGEST_NAME), at, -1)
                if tokens[at][0].isalpha() and (one := _named(tokens, at, end, index)) is not None
            ),
            None,
        )
        if found is not None:
            yield found
        at = found.end if found is not None else at + 1


def _named(tokens: Sequence[str], start: int, end: int, index: Index) -> Named | None:
    words = tokens[start:end]
    if all(len(word) == 1 for word in words):
        return None
    joining = all(word.casefold() in JOINING for word in words)
    if not all(word[0].isalnum() or word in "/&" for word in words) or not words[-1][0].isalnum():
        return None
    for spelling in spellings(words):
        values, terms = () if joining else index.values.get(spelling, ()), index.terms.get(spelling, ())
        if values or terms:
            return Named(start, end, " ".join(words), values, terms)
    return None
