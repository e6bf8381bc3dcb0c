"""What to write instead of a text that is no quantity, where its writing shows what was meant."""

from __future__ import annotations

import re

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
