"""The header of a ruleset alone, read without the parser: what a list of rulesets shows before any of them is loaded.

In: the text of a file. Out: its name and the texts of its header, as the parser would find them in a text without
mistakes.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import takewhile

from speccheck.language.syntax.layout import ITEM_WORDS, layout_of

_STRING_OR_COMMENT = re.compile(r'"([^"]*)"|--[^\n]*')


@dataclass(frozen=True, slots=True)
class RulesetHeader:
    """The name of a ruleset or a vocabulary, and the texts behind each first word of its header ("covers", "taken")."""

    name: str
    texts: Mapping[str, tuple[str, ...]]

    def text(self, word: str) -> str:
        """Return the first text behind a word of the header, "" where there is none."""
        return next(iter(self.texts.get(word, ())), "")


def read_header(text: str) -> RulesetHeader:
    """Return the header of a file; its name is "" where the text begins as no ruleset and no vocabulary does."""
    starts = layout_of(text).starts
    header = list(takewhile(lambda start: start.word not in ITEM_WORDS, starts))
    ends = [start.line for start in starts[1 : len(header) + 1]] + [len(text) + 1]
    lines = text.split("\n")
    found: dict[str, list[str]] = {}
    for start, end in zip(header, ends, strict=False):
        written = "\n".join(lines[start.line - 1 : end - 1])
        strings = (one[1] for one in _STRING_OR_COMMENT.finditer(written) if one[1] is not None)
        found.setdefault(start.word, []).extend(" ".join(one.split()) for one in strings)
    names = next((found[word] for word in ("ruleset", "vocabulary") if found.get(word)), [""])
    return RulesetHeader(names[0], {word: tuple(texts) for word, texts in found.items()})
