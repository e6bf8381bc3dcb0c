"""The layout of a text that cannot be parsed: which of its lines begin items and parts, and where strings are open.

In: any text. Out: the lines on which something begins, found without a parser, so that the rest of a file can still
be read when a part of it cannot.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

FILE_WORDS = ("ruleset", "vocabulary")
ITEM_WORDS = (
    "not checked",
    "clause",
    "document",
    "relation",
    "define",
    "assume",
    "scope",
    "statement",
    "table",
    "term",
    "heading",
    "add",
)
HEADER_WORDS = (
    *(
        "taken",
        "edition",
        "jurisdiction",
        "verified",
        "speaks",
        "builds",
        "units",
        "tolerance",
        "lets",
        "covers",
        "leaves",
    ),
    *("stocked", "changes", "caution", "note"),
)
PARTS_OF: Mapping[str, tuple[str, ...]] = {
    "ruleset": HEADER_WORDS,
    "vocabulary": HEADER_WORDS,
    "clause": (
        *("source", "wording", "reason", "subject", "replaces", "caution", "note"),
        *("where", "judged", "shall", "should", "except", "example", "draft", "todo"),
    ),
    "document": (
        *("source", "wording", "reason", "caution", "note"),
        *("submit", "dated", "where", "except"),
    ),
    "relation": (
        *("source", "wording", "reason", "caution", "note"),
        *("where", "beside", "alike", "shall", "except"),
    ),
    "not checked": ("because", "wording"),
    "define": ("source", "caution", "note", "as", "equal"),
    "assume": ("source", "caution", "note", "where"),
    "scope": ("source", "caution", "note", "where", "except"),
    "statement": ("source", "caution", "note", "subject", "where", "that"),
    "table": ("source", "caution", "note", "replaces", "by"),
    "term": (
        *(
            "also",
            "formerly",
            "means",
            "in",
            "yes",
            "no",
            "none",
            "computed",
            "ordered",
            "of",
            "measured",
            "proposed",
            "not",
            "one",
            "any",
        ),
        *(
            "tells",
            "never",
            "needs",
            "stated",
            "dates",
            "beside",
            "together",
            "either",
            "family",
            "sensible",
            "inferred",
        ),
    ),
    "heading": (),
    "add": ("also", "family", "one", "any"),
}
BEGINNINGS = frozenset((*ITEM_WORDS, *HEADER_WORDS, *PARTS_OF["clause"], "not"))
# Without these an item has no meaning, so that an error in one of them spoils the whole item.
ESSENTIAL = ("because", "as", "equal", "that", "by", "one", "any", "yes")

_FIRST_WORD = re.compile(r"[ \t]*(not[ \t]+checked|[A-Za-z]+)\b")
# What the eye takes as one thing: a comment, the number of a clause, inches, a string that is closed or not.
_THINGS = re.compile(
    r'--[^\n]*|\b(?:clause|document|relation|checked|replaces)[ \t]+[\w.()/-]+|[\d½¼¾⅛⅜⅝⅞][ \t]?"|"[^"]*"|"'
)

_ITEM_NAME = re.compile(
    r"[ \t]*(?:define|table|clause|document|relation|not[ \t]+checked)[ \t]+"
    r'(?:"([^"]*)"|(.+?))(?=[ \t]+(?:as|equal|in|of)\b|[ \t]*(?:"|--|$))'
)


@dataclass(frozen=True, slots=True)
class Start:
    """A line on which a part or an item begins: its number, its first word, and the sort of item that it is in."""

    line: int
    word: str
    item: str

    @property
    def spoils_item(self) -> bool:
        """Whether the item has no meaning without what begins here."""
        return self.word in (*FILE_WORDS, *ITEM_WORDS, *ESSENTIAL)


@dataclass(frozen=True, slots=True)
class Layout:
    """The starts of a text in order, and the offset of the first quotation mark that is not closed, or None."""

    starts: tuple[Start, ...]
    open_quote: int | None

    def at(self, line: int) -> Start | None:
        """Return what begins on `line` or last began above it."""
        return next((start for start in reversed(self.starts) if start.line <= line), None)

    def begins(self, line: int) -> bool:
        """Say whether a part or an item begins on `line`."""
        return any(start.line == line for start in self.starts)

    def end(self, line: int, *, of_item: bool) -> int | None:
        """Return the line on which the next part, or the next item, begins behind `line`; None at the end."""
        return next((s.line for s in self.starts if s.line > line and (not of_item or s.word in ITEM_WORDS)), None)


def layout_of(text: str) -> Layout:
    """Return the layout of a text."""
    masked, open_quote = _masked(text)
    return Layout(tuple(_starts(masked)), open_quote)


def _starts(masked: str) -> Iterator[Start]:
    item = "ruleset"
    for number, row in enumerate(masked.split("\n"), start=1):
        match = _FIRST_WORD.match(row)
        word = " ".join(match.group(1).split()) if match else ""
        if word in (*FILE_WORDS, *ITEM_WORDS) and "|" not in row:
            item = word
            yield Start(number, word, item)
        elif word in PARTS_OF[item] and "|" not in row:
            yield Start(number, word, item)


def _masked(text: str) -> tuple[str, int | None]:
    """Return the text with strings and comments made blank, line ends kept, and where a string is left open.

    A mark that closes nothing but looks like the beginning of other words shows that the one before it was not closed:
    the open string then ends with its line.
    """
    out, place, first_open = [], 0, None
    while match := _THINGS.search(text, place):
        out.append(text[place : match.start()])
        thing, end = match.group(), match.end()
        if thing.startswith('"') and not _is_closed(text, match):
            first_open = match.start() if first_open is None else first_open
            line_end = text.find("\n", match.start())
            end = len(text) if line_end < 0 else line_end
        kept = thing.startswith(("clause", "document", "relation", "checked", "replaces")) or thing[0] not in '-"'
        out.append(text[match.start() : end] if kept else re.sub(r"[^\n]", " ", text[match.start() : end]))
        place = end
    return "".join([*out, text[place:]]), first_open


def _is_closed(text: str, match: re.Match[str]) -> bool:
    """Say whether a string ends where its second mark stands: what follows a string is never a word without a space."""
    if len(match.group()) < 2:
        return False
    after = text[match.end() : match.end() + 1]
    return "\n" not in match.group() or not after or after.isspace() or after in ",)-"


def item_name(line: str) -> str:
    """Return the name of the definition, table or clause that a line begins, or ""."""
    match = _ITEM_NAME.match(line)
    return " ".join((match.group(1) or match.group(2) or "").split()) if match else ""
