"""Which clause stands for which paragraph of a section: by its words first, then by its number.

A section that was revised has paragraphs put in and taken out, and the numbers behind them move: a clause whose words
stand in the section is that paragraph's clause whatever its number, and one of which most words do is of what is left.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from difflib import SequenceMatcher

from speccheck.language.clause_names import paragraph_of
from speccheck.language.core import Clause, LineRelation, RequiredDocument, UncheckedParagraph
from speccheck.specification.blocks import Paragraph

# How many of the words of a paragraph with another number have to be those of a clause, to be its words changed, and of
# the paragraph with its own number at most.
ALIKE, UNLIKE = 0.75, 0.5
Entry = Clause | LineRelation | RequiredDocument | UncheckedParagraph
_MARKS = str.maketrans({"″": '"', "“": '"', "”": '"', "’": "'", "–": "-", "—": "-", "\u00a0": " "})


def plain_words(text: str) -> str:
    """Return words as they are compared: one blank between them, marks of inches and quotation alike."""
    return " ".join(text.translate(_MARKS).split()).rstrip(".")


def number_of(entry: Entry, numbers: Collection[str]) -> str:
    """Return the number of the paragraph that an entry stands for: "2.1.A-2" is of 2.1.A too, and "5.B" of 5.

    `numbers` are those of the section: a paragraph that has the entry's own name is the one.
    """
    name = entry.name
    return next((one for one in (name, paragraph_of(name)) if one in numbers), re.sub(r"-\d+$", "", name))


def matched(paragraphs: Sequence[Paragraph], entries: Sequence[Entry]) -> Mapping[int, tuple[Entry, ...]]:
    """Return the entries of a ruleset that stand for each paragraph, by its position; nothing for those without any."""
    found: dict[int, list[Entry]] = {}
    left = list(entries)

    def take(position: int, fitting: Sequence[Entry]) -> None:
        for entry in fitting:
            left.remove(entry)
        if fitting:
            found.setdefault(position, []).extend(fitting)

    numbers = {paragraph.number for paragraph in paragraphs}

    def of(entry: Entry) -> str:
        return number_of(entry, numbers)

    words = [plain_words(paragraph.text) for paragraph in paragraphs]
    for position, paragraph in enumerate(paragraphs):
        take(position, [one for one in left if of(one) == paragraph.number and _says(one, words[position])])
    for position in range(len(paragraphs)):
        if position not in found:
            whole = [one for one in left if one.wording and plain_words(one.wording) == words[position]]
            take(position, [one for one in whole if of(one) == of(whole[0])])
    for entry in [one for one in left if one.wording]:
        likeness = {at: _likeness(entry, words[at]) for at in range(len(paragraphs)) if at not in found}
        nearest = max(likeness, key=lambda at: likeness[at], default=None)
        own = max((likeness[at] for at in likeness if paragraphs[at].number == of(entry)), default=0.0)
        if nearest is not None and own < UNLIKE and likeness[nearest] >= ALIKE:
            take(nearest, [entry])
    for position, paragraph in enumerate(paragraphs):
        moved = any(of(one) != paragraph.number for one in found.get(position, ()))
        if paragraph.number and not moved:
            take(position, [one for one in left if of(one) == paragraph.number])
    return {position: tuple(fitting) for position, fitting in found.items() if fitting}


def _likeness(entry: Entry, words: str) -> float:
    """Return the share of words that an entry and a paragraph have in common, in their order."""
    return SequenceMatcher(None, plain_words(entry.wording).split(), words.split(), autojunk=False).ratio()


def _says(entry: Entry, words: str) -> bool:
    """Whether the words of an entry stand in those of a paragraph, as a whole or in part."""
    return bool(entry.wording) and plain_words(entry.wording) in words
