"""What reading one piece of a sentence gives: texts, words left over, doubts."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

# Words that turn a piece into its opposite, or narrow it: where they are not read with something, nothing is.
_TURNING = re.compile(
    r"\b(?:not|no|nor|never|without|unless|except|only|neither|other than|rather than)\b", re.IGNORECASE
)
_OR = re.compile(r"\bor\b", re.IGNORECASE)


@dataclass
class Piece:
    """The texts that a piece of a sentence became, the words that were not understood, and what is in doubt."""

    texts: list[str] = field(default_factory=list)
    left_over: list[str] = field(default_factory=list)
    doubts: list[str] = field(default_factory=list)


def asked_term(ask: str) -> str:
    """Return the term of which a text asks: `thickness` of `thickness be at least 1 in`, `concealed` of its denial."""
    return ask.removeprefix("not ").split(" be ")[0]


def singular_words(text: str) -> set[str]:
    """Return the words of a text in lower case, each without the ending of many."""
    return {word.rstrip("s") for word in re.findall(r"[a-z]+", text.casefold())}


def rest_of(text: str, spans: Sequence[tuple[int, int]], joining: frozenset[str]) -> list[str]:
    """Return the runs of words outside `spans` that do more than hold the sentence together."""
    kept, at = "", 0
    for start, end in sorted(spans):
        kept += text[at : max(start, at)] + " | "
        at = max(at, end)
    kept += text[at:]
    runs = [" ".join(re.findall(r"[\w'/&%-]+", run)) for run in re.split(r"[|,;()]", kept)]
    left = []
    for run in runs:
        words = [word for word in run.split() if word.casefold() not in joining]
        if words:
            left.append(" ".join(words))
    return left


def placed(text: str, tokens: Sequence[str]) -> list[tuple[int, int]]:
    """Return where each token of a text stands in it."""
    spans, at = [], 0
    for token in tokens:
        start = text.index(token, at)
        at = start + len(token)
        spans.append((start, at))
    return spans


def turned(text: str, spans: Sequence[tuple[int, int]]) -> list[str]:
    """Return a doubt for each word outside `spans` that turns or narrows what a piece says."""
    outside = (found for found in _TURNING.finditer(text) if not _inside(found.start(), spans))
    return [f"`{found[0]}` was not read with anything" for found in outside]


def parted_by_or(text: str, named: Sequence[tuple[int, int, str]], spans: Sequence[tuple[int, int]]) -> list[str]:
    """Return a doubt for each "or" that stands between values of different terms, or of none.

    `named` has the values that were read, each with its place and its term.
    """
    doubts = []
    for found in _OR.finditer(text):
        if _inside(found.start(), spans):
            continue
        before = [term for start, end, term in sorted(named) if end <= found.start()]
        behind = [term for start, end, term in sorted(named) if start >= found.end()]
        if not before or not behind or before[-1] != behind[0]:
            doubts.append("`or` stands between different things")
    return doubts


def _inside(place: int, spans: Sequence[tuple[int, int]]) -> bool:
    return any(start <= place < end for start, end in spans)
