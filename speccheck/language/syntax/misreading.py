"""What to say of text that the parser cannot read, and how to go on behind it.

The parser names its tokens for itself; nothing of that is shown. A writer sees the words that could have stood there.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from speccheck.english import nearest
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.messages.parsing import (
    BEHIND_AN_AMOUNT,
    CANNOT_STAND_HERE,
    FILE_EMPTY,
    FILE_ENDS_BEHIND,
    INCH_MARK_ENDS_WORDS,
    IS_MISSING,
    MISSPELT_KEYWORD,
    QUOTE_NOT_CLOSED,
    SOMETHING_MISSING,
)
from speccheck.language.messages.tables import CELL_EMPTY, CELL_NOT_READ, HEADING_EMPTY, HEADING_NOT_READ
from speccheck.language.syntax.expecting import expectation, keywords
from speccheck.language.syntax.layout import BEGINNINGS, FILE_WORDS, ITEM_WORDS, PARTS_OF, Layout, layout_of
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.syntax.tree import Words
from speccheck.language.syntax.words_of_sections import AFTER_NOT, BEHIND_AMOUNTS, INSTEAD, SAYS_NOTHING

if TYPE_CHECKING:
    from lark import Lark, Token

SIGNS = {
    **dict.fromkeys((">=", "≥", "=>"), "is at least"),
    **dict.fromkeys(("<=", "≤", "=<"), "is at most"),
    **dict.fromkeys(("!=", "<>", "≠"), "is not"),
    **dict.fromkeys(("=", "=="), "is"),
    ">": "is more than",
    "<": "is less than",
    "+": "plus",
    "*": "times",
    "/": "divided by",
    "&": "and",
}
# How near a word must come to a keyword to be read as a misspelt one ("shal", "exept"); "service" is no "source".
MISSPELT = 0.8
_ANY_BEGINNING = sorted({*ITEM_WORDS, *(word for words in PARTS_OF.values() for word in words)})
_OFFENDING = re.compile(r'"[^"\n]*"?|[\w.\-/½¼¾°%]+|[<>=!≤≥≠]+|\S')


@dataclass(frozen=True, slots=True)
class Stop:
    """Where the parser stopped: the offset (None at the end of the text), the token before, what could have stood.

    `swallowed` says that there begins a part whose keyword would be read as a name, because more was to come before it.
    """

    offset: int | None
    before: Token | None
    accepted: frozenset[str]
    swallowed: bool = False


@dataclass(frozen=True, slots=True)
class Misreading:
    """What to say of an error, and the lines to leave out so that the rest can be read: from `first` to before `end`.

    `end` is None at the end of the text. Where `first` is 0 nothing can be read without what stands there.
    """

    diagnostic: Diagnostic
    first: int
    end: int | None


def find_stop(parser: Lark, text: str) -> Stop | None:
    """Return where the parser stops in a text that it cannot read whole, or takes a keyword for a name; None if not."""
    from lark.exceptions import UnexpectedInput, UnexpectedToken

    running = parser.parse_interactive(text, start="start")
    read: list[Token] = []
    offset = None
    try:
        for token in running.iter_parse():
            if is_swallowed(text, token):
                before = find_stop(parser, text[: token.start_pos])
                if before is None:  # nothing more was to come: a part that does not belong here
                    return Stop(token.start_pos, read[-1] if read else None, _accepted_after(parser, text, token))
                return Stop(token.start_pos, before.before, before.accepted, swallowed=True)
            read.append(token)
    except UnexpectedInput as problem:
        offset = problem.pos_in_stream
        if isinstance(problem, UnexpectedToken) and read and problem.token is read[-1]:
            read.pop()
    accepted = frozenset(running.accepts())  # type: ignore[no-untyped-call]
    return None if offset is None and "$END" in accepted else Stop(offset, read[-1] if read else None, accepted)


def _accepted_after(parser: Lark, text: str, token: Token) -> frozenset[str]:
    """Return what could stand in the place of a token before which a text is whole."""
    running = parser.parse_interactive(text[: token.start_pos], start="start")
    running.exhaust_lexer()
    return frozenset(running.accepts())  # type: ignore[no-untyped-call]


def is_swallowed(text: str, token: Token) -> bool:
    """Say whether a token is the keyword of a part, at the beginning of a line, that is read as a word of a name."""
    return token.type == "WORD" and token in BEGINNINGS and _first_on_line(text, token.start_pos)


def describe_stop(parser: Lark, stop: Stop, source: SourceText, text: str) -> Misreading:
    """Return what to say of the place where the parser stopped."""
    layout = layout_of(text)
    place = _place_of(source, text, stop.offset) if stop.offset is not None else None
    if layout.open_quote is not None and (stop.offset is None or layout.open_quote <= stop.offset):
        return _open_quote(source, text, layout)
    if place is not None and not stop.swallowed:
        misspelt = misspelt_keyword(source, text, place.line)
        if misspelt is not None:
            return misspelt
    help = expectation(parser, stop.accepted, at_line_start=place is None or _first_on_line(text, stop.offset))
    if place is None or stop.swallowed or _ends_early(stop, text, layout, place):
        return _missing(source, stop, layout, help, at_end=place is None)
    said = _said_otherwise(source, stop, place)
    if said is not None:
        return _left_out(layout, said)
    inch_mark = _inch_mark(source, stop, place)
    if inch_mark is not None:
        return _left_out(layout, inch_mark)
    word = source.lines[place.line - 1][place.column - 1 :][: place.length]
    if word in SIGNS:
        help = f"write `{SIGNS[word]}`"
    elif _inside_name(stop, text, layout) and f"`{word}`" in keywords(parser):
        help = f"put a name that holds `{word}` in quotation marks, or {help}"
    return _left_out(layout, CANNOT_STAND_HERE.at(place, source, word=word, advice=help))


def _said_otherwise(source: SourceText, stop: Stop, place: Place) -> Diagnostic | None:
    """Return what to say where a word stands that sections use and the language has another one for.

    It is where the parser stopped, or the word just before, which it took for the end of a name.
    """
    words = source.lines[place.line - 1]
    word, ahead = words[place.column - 1 :][: place.length], words[: place.column - 1].split()
    help = _instead_of(word, ahead)
    if help:
        return CANNOT_STAND_HERE.at(place, source, word=word, advice=help)
    before = stop.before
    if before is None or before.type != "WORD" or before.line != place.line:
        return None
    there = Place(source.name, place.line, before.column or 1, len(before))
    if str(before) in INSTEAD:
        return CANNOT_STAND_HERE.at(there, source, word=before, advice=INSTEAD[str(before)])
    if word[:1].isdigit() and ahead[-1:] == [str(before)] and "IS" in stop.accepted:
        return IS_MISSING.at(place, source, word=word)
    return None


def _instead_of(word: str, ahead: list[str]) -> str:
    """Return what to write in place of a word with these words ahead of it on its line, or nothing."""
    if word in AFTER_NOT and ahead[-1:] == ["not"]:
        return AFTER_NOT[word].format(word)
    if word in INSTEAD and (word != "," or not _in_list(" ".join(ahead))):
        return INSTEAD[word]
    behind_amount = len(ahead) > 1 and ahead[-2][-1:].isdigit()
    if word in SAYS_NOTHING and behind_amount:
        return f"leave out `{word}` and what follows: the term says what is measured"
    if word == "to" and behind_amount:
        return "write `from` before the first of the two amounts"
    return ""


def _in_list(words: str) -> bool:
    """Whether words end within a list, in which a comma has its place."""
    return re.search(r"\b(?:one of|any of|include|exclude|speaks|beside|also|together|dates)\b", words) is not None


def describe_heading_error(source: SourceText, piece: Words) -> Diagnostic:
    """Return what to say of the heading of a row or column that cannot be read."""
    if not piece.text:
        return HEADING_EMPTY.at(piece.place, source)
    return HEADING_NOT_READ.at(piece.place, source, heading=piece.text)


def describe_cell_error(source: SourceText, piece: Words) -> Diagnostic:
    """Return what to say of a cell of a table that cannot be read."""
    return CELL_NOT_READ.at(piece.place, source, cell=piece.text) if piece.text else CELL_EMPTY.at(piece.place, source)


# What stands at the end of a line whose sentence goes on, so that no part begins on the next one.
_GOES_ON = re.compile(r"(?:,|\b(?:and|or|not|of|is|are|be|to|than|least|most|plus|minus|times|by))$")


def misspelt_keyword(source: SourceText, text: str, line: int) -> Misreading | None:
    """Return what to say of a line that begins with a word that is nearly a keyword of the item it stands in."""
    lines = text.split("\n")
    match = re.match(r"[ \t]*([A-Za-z]{4,})\b", lines[line - 1])
    before = next((one.split("--")[0].rstrip() for one in reversed(lines[: line - 1]) if one.strip()), "")
    if match is None or _GOES_ON.search(before) or nearest(match.group(1), _ANY_BEGINNING, MISSPELT) is None:
        return None
    layout = layout_of(text)
    start = layout.at(line)
    if start is None or layout.begins(line):
        return None
    close = nearest(match.group(1), (*PARTS_OF[start.item], *ITEM_WORDS), MISSPELT)
    if close is None or close == match.group(1):
        return None
    place = Place(source.name, line, match.start(1) + 1, len(match.group(1)))
    found = MISSPELT_KEYWORD.at(place, source, near=close, word=match.group(1))
    return Misreading(found, line, layout.end(line, of_item=close in ITEM_WORDS))


def _open_quote(source: SourceText, text: str, layout: Layout) -> Misreading:
    assert layout.open_quote is not None
    found = _place_of(source, text, layout.open_quote)
    rest = source.lines[found.line - 1][found.column - 1 :].rstrip()
    place = Place(source.name, found.line, found.column, max(len(rest), 1))
    return _left_out(layout, QUOTE_NOT_CLOSED.at(place, source))


def _inside_name(stop: Stop, text: str, layout: Layout) -> bool:
    """Say whether the parser stopped behind a word of a name, on its line; values of a list are never in marks."""
    if stop.before is None or stop.before.type != "WORD" or _first_on_line(text, stop.offset):
        return False
    start = layout.at(stop.before.line or 1)
    return start is None or start.item != "term" or start.word == "term"


def _inch_mark(source: SourceText, stop: Stop, place: Place) -> Diagnostic | None:
    """Return what to say where words in quotation marks end at an inch mark, and go on behind it."""
    before = stop.before
    if (
        before is None
        or before.type != "STRING"
        or not re.search(r'[\d½¼¾⅛⅜⅝⅞] ?"$', before)
        or before.end_line != place.line
    ):
        return None
    mark = Place(source.name, place.line, (before.end_column or 2) - 1, 1)
    return INCH_MARK_ENDS_WORDS.at(mark, source)


def _missing(source: SourceText, stop: Stop, layout: Layout, help: str, *, at_end: bool) -> Misreading:
    """Return what to say where a part or the file ends before it is complete."""
    said = FILE_ENDS_BEHIND if at_end else SOMETHING_MISSING
    if stop.before is None:
        return Misreading(FILE_EMPTY.at(Place(source.name, 1, 1, 1), source, advice=help), 0, None)
    last = str(stop.before).rstrip().split("\n")[-1]
    if last in BEHIND_AMOUNTS and re.search(rf"\b(?:or|and)\s+{last}\s*$", _up_to(source, stop.before)):
        return _left_out(layout, _behind_an_amount(source, stop.before, last))
    line = (stop.before.line or 1) + str(stop.before).rstrip().count("\n")
    column = (stop.before.column or 1) if line == stop.before.line else 1
    shown = last if len(last) <= 40 else f"...{last[-37:]}"
    place = Place(source.name, line, column, len(last))
    return _left_out(layout, said.at(place, source, word=shown, advice=help))


def _behind_an_amount(source: SourceText, before: Token, word: str) -> Diagnostic:
    """Return what to say of "or larger" behind an amount, of which the parser took the second word for a name."""
    joined = re.search(rf"\b(?:or|and)\s+{word}\s*$", _up_to(source, before))
    assert joined is not None
    words = joined[0].strip()
    place = Place(source.name, before.line or 1, joined.start() + 1, len(words))
    return BEHIND_AN_AMOUNT.at(place, source, words=words, instead=BEHIND_AMOUNTS[word])


def _up_to(source: SourceText, token: Token) -> str:
    """Return the line of a token up to its end."""
    return source.lines[(token.line or 1) - 1][: (token.column or 1) - 1 + len(token)]


def _left_out(layout: Layout, diagnostic: Diagnostic) -> Misreading:
    """Return which lines are left out for an error: the part that holds it, or all of an item that it spoils."""
    line = diagnostic.place.line
    start = layout.at(line)
    if start is None or start.word in FILE_WORDS or layout.starts[0].word not in FILE_WORDS:
        return Misreading(diagnostic, 0, None)
    first = start.line
    if start.spoils_item:
        first = max(s.line for s in layout.starts if s.line <= line and s.word in ITEM_WORDS)
    return Misreading(diagnostic, first, layout.end(line, of_item=start.spoils_item))


def _place_of(source: SourceText, text: str, offset: int) -> Place:
    """Return the place of the word or mark at an offset."""
    line = min(text.count("\n", 0, offset) + 1, len(source.lines))
    column = offset - (text.rfind("\n", 0, offset) + 1) + 1
    match = _OFFENDING.match(source.lines[line - 1], column - 1)
    return Place(source.name, line, column, len(match.group()) if match else 1)


def _first_on_line(text: str, offset: int | None) -> bool:
    return offset is not None and not text[text.rfind("\n", 0, offset) + 1 : offset].strip()


def _ends_early(stop: Stop, text: str, layout: Layout, place: Place) -> bool:
    """Say whether the next part begins where what stands before cannot end."""
    incomplete = stop.before is not None and not stop.accepted & {"$END", "CLAUSE", "TERM"}
    return incomplete and _first_on_line(text, stop.offset) and layout.begins(place.line)
