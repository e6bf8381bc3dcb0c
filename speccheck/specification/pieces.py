"""What reading one piece of a sentence gives, and the words that hold a sentence together and say nothing else."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

# fmt: off
JOINING = frozenset(
    {
        "a", "an", "the", "all", "each", "and", "or", "of", "with", "to", "be", "is", "are", "in", "on", "at",
        "for", "by", "any", "such", "this", "that", "these", "as", "its", "their", "where", "it", "which",
        "not", "nominal", "pipe", "pipes", "piping", "size", "sizes", "system", "systems", "line", "lines",
        "service", "services", "operating", "installed", "thick", "thickness", "insulation", "insulated",
        "temperature", "temperatures", "provided", "furnished",
    }
)
# fmt: on


@dataclass
class Piece:
    """The texts that a piece of a sentence became, the words that were not understood, and what is in doubt."""

    texts: list[str] = field(default_factory=list)
    left_over: list[str] = field(default_factory=list)
    doubts: list[str] = field(default_factory=list)


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
