"""From text to a Reading, the one door for every number of a rule and of a schedule; or what to write instead."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache, lru_cache
from typing import TYPE_CHECKING, cast

from speccheck.parsers import load_parser
from speccheck.quantities.amounts import Reading, misread
from speccheck.quantities.marks import plain
from speccheck.quantities.values import Misread

if TYPE_CHECKING:
    import lark


HOW_TO_WRITE = "write a number with its unit, such as 1-1/2 in or 180 F, or a range, such as 2 in to 6 in"

_LAYERS = re.compile(
    r"^\s*\(?[2-5]\)?\s*(?:x|\*|@|layers?\b)[\s@]*(?:of\s+)?[\d.]|\d\s*[\"']*\s*\+\s*\d", re.IGNORECASE
)
_ALL = re.compile(r"\s*(?:all|any)\b", re.IGNORECASE)
_NOTE_MARK = re.compile(r"[*†‡§¹^]|\(?(?:see )?notes?\b|[(\[]\d{1,2}[)\]]", re.IGNORECASE)
_BRACKETED = re.compile(r"\s*\((\d[\d.]*)\)[^()\d]*")
# By what the offending part begins with, in plain characters.
_BY_PART = (
    (_NOTE_MARK, "write the value alone, for a note may change it"),
    (re.compile(r"[,;&/]|(?:and|or)\b"), "write a range such as 2 in to 4 in, or give each value a line of its own"),
    (re.compile(r"±|\+/?-"), "write the range, such as 175 F to 185 F"),
    (re.compile(r"@|at\b"), "write the value alone; what it was measured at belongs in a column of its own"),
    (re.compile(r"[(\[]"), "write one value in one unit, without brackets"),
)


def advice(plain_text: str, part: str = "") -> str:
    """Return the help line for a text of which `part` does not belong in a quantity; both in plain characters."""
    if _LAYERS.search(plain_text):
        return "write the thickness of all layers together, and their number in a column of its own"
    bracketed = _BRACKETED.fullmatch(plain_text)
    if bracketed is not None:
        return f"write -{bracketed[1]} if the brackets stand for a minus, else the number without brackets"
    if _ALL.match(plain_text):
        return "write the range, such as 1/2 in to 12 in"
    return next((help for begins, help in _BY_PART if begins.match(part)), HOW_TO_WRITE)


LONGEST_TEXT = 200
ONE_LINE = "write one number or one range, on one line of the cell"

# A break of the line inside a cell parts two values as often as it wraps one: "2", break, "1/2" is not 2-1/2 in.
_NEWLINES = re.compile(r"\s*[\r\n\v\f\u2028\u2029]+\s*")
_ON_TWO_LINES = re.compile(r"[\d½⅓⅔¼¾⅛⅜⅝⅞.][^\S\r\n]*[\r\n\v\f\u2028\u2029]\s*[-−–]?[\d½⅓⅔¼¾⅛⅜⅝⅞.]")
_HYPHEN_BEFORE_UNIT = re.compile(r"(?<=\d)-(?=(?:in|inch|inches|ft|foot|feet|mm)\b)", re.IGNORECASE)  # "2-in. wall"
_PART = re.compile(r"[,;]|[^\s,;]+")


@lru_cache(maxsize=65536)
def read(text: str) -> Reading | Misread:
    """Return what a text says, or why it says nothing; never raises. The same text is read once only."""
    if len(text) > LONGEST_TEXT:
        shown = text[:20]
        return Misread(
            text, f"`{shown}...` is too long for a number ({len(text)} characters)", HOW_TO_WRITE, 0, len(text)
        )
    apart = _ON_TWO_LINES.search(text)
    if apart is not None:
        return Misread(text, f"`{_NEWLINES.sub(' ', text).strip()}` has numbers on two lines", ONE_LINE, *apart.span())
    plain_text = _HYPHEN_BEFORE_UNIT.sub(" ", plain(text))
    if not plain_text.strip():
        return Misread(text, "there is no number here", HOW_TO_WRITE, 0, len(text))
    if not any(map(str.isdecimal, plain_text)):
        return misread(text, "{} is not a number", advice(plain_text))
    return _parse(text, plain_text)


def _parse(text: str, plain_text: str) -> Reading | Misread:
    """Parse the plain text and say what is wrong in the words of the text as written."""
    from lark.exceptions import UnexpectedInput, UnexpectedToken

    from speccheck.quantities.notation import Flaw

    try:
        found = cast("Reading | Flaw", _parser().parse(plain_text))
    except UnexpectedInput as error:
        at_end = isinstance(error, UnexpectedToken) and error.token.type == "$END"
        return _unexpected(text, plain_text, None if at_end else error.pos_in_stream)
    if isinstance(found, Flaw):
        return misread(text, found.message, found.help, found.start, found.end)
    reading = replace(found, text=text)
    return _backwards(reading) or reading


@cache
def _parser() -> lark.Lark:
    """Return the parser of the quantity grammar."""
    from speccheck.quantities.notation import AmountBuilder

    return load_parser("quantity", transformer=AmountBuilder())


def _unexpected(text: str, plain_text: str, position: int | None) -> Misread:
    """Say where the text stops being a quantity."""
    rest = _PART.search(plain_text, position) if position is not None else None
    if rest is None:
        return misread(text, "{} stops before the value is complete", HOW_TO_WRITE)
    help = advice(plain_text, plain_text[rest.start() :])
    return misread(text, "{} does not belong in a quantity", help, rest.start(), rest.end())


def _backwards(reading: Reading) -> Misread | None:
    """Refuse a range whose upper end is below its lower end, where both ends are in one unit."""
    low, high = reading.low, reading.high
    if low is None or high is None or (low.unit, low.designation) != (high.unit, high.designation):
        return None
    return misordered(reading, (low.number > high.number) - (low.number < high.number))


def misordered(reading: Reading, order: int) -> Misread | None:
    """Refuse a range whose lower end is above its upper end (`order` 1), or at it without belonging to it (0)."""
    if order > 0:
        return misread(reading.text, "the range {} runs backwards", "write the lower end first")
    if order == 0 and not (reading.low_closed and reading.high_closed):
        return misread(reading.text, "{} leaves no value between its ends", "write a range with two different ends")
    return None
