"""Amounts in the words of a section: "not less than 1-1/2 inches thick", "at temperatures below 60 degrees F"."""

from __future__ import annotations

import re
from dataclasses import dataclass

_NUMBER = r"\d+(?:,\d{3})*(?:-\d+/\d+|\s\d+/\d+|\.\d+|/\d+|[½¼¾])?"
_UNITS = {
    r"(?:degrees?|deg\.?|°|º)\s*F(?:ahrenheit)?|F": "F",
    r"(?:degrees?|deg\.?|°|º)\s*C(?:elsius)?|C": "C",
    r"inch(?:es)?|in\.?|\"|″": "in",
    r"feet|foot|ft\.?|'": "ft",
    r"millimet(?:er|re)s?|mm": "mm",
    r"met(?:er|re)s?|m": "m",
    r"mils?": "mil",
    r"perm[-.·\s]in(?:ch)?(?:es)?": "perm.in",
    r"perms?": "perm",
    r"percent|%": "%",
    r"pounds? per cubic foot|pcf|lb/ft3": "lb/ft3",
    r"pounds? per square inch|psi": "psi",
    r"grams? per lit(?:er|re)|g/L": "g/L",
    r"Btu\W?in(?:ch)?\W*(?:per|/)\W*\(?h(?:ou)?r?\W*(?:sq\W*ft|ft2|sf)\W*(?:°|deg\.?\s*)?F\)?": "Btu.in/(h.ft2.F)",
    r"W/\(?m[.·\s]?K\)?": "W/(m.K)",
}
# What an amount of length is measured along: "3 inches wide", "12 inches long", "2 inches of insulation".
_ALONG = {"thick": "thickness", "wide": "width", "long": "length", "high": "height", "wall": "thickness"}
_LEAST = (
    r"(?:not|no)\s+(?:be\s+)?(?:less|thinner|lower|smaller|lighter)\s+than|not\s+(?:be\s+)?(?:below|under)"
    r"|at\s+least|(?:a\s+)?minimum(?:\s+of)?|min\.?"
)
_MOST = (
    r"(?:not|no)\s+(?:be\s+)?(?:more|greater|higher|larger|over)\s+than|not\s+(?:be\s+)?(?:above|over)"
    r"|not\s+(?:to\s+)?exceed(?:ing)?|at\s+most"
    r"|(?:a\s+)?maximum(?:\s+of)?|max\.?"
)
_OVER = r"(?:above|over|exceeding|greater\s+than|more\s+than|higher\s+than|larger\s+than)"
_UNDER = r"(?:below|under|less\s+than|lower\s+than|smaller\s+than)"
AMOUNT = re.compile(
    rf"(?:(?P<least>{_LEAST})\s+|(?P<most>{_MOST})\s+|(?P<over>{_OVER})\s+|(?P<under>{_UNDER})\s+)?"
    rf"(?<![\w.-])(?P<number>(?:R|NPS|DN)[- ]?\d+(?:\.\d+)?|{_NUMBER})"
    rf"\s*(?:-\s*)?(?P<unit>(?:{'|'.join(_UNITS)})(?![\w/]))?(?!\w)"
    rf"(?:[\s-]+(?P<along>{'|'.join(_ALONG)})\b)?"
    r"(?:\s*,?\s*(?:and|or)\s+(?P<more>more|over|higher|above|larger|greater|up|thicker|longer|wider)\b"
    r"|\s*,?\s*(?:and|or)\s+(?P<less>less|under|lower|below|smaller|thinner)\b"
    r"|\s*,?\s+(?P<minimum>minimum|min\.?)(?!\w)|\s*,?\s+(?P<maximum>maximum|max\.?)(?!\w))?",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Amount:
    """An amount of a sentence: its relation ("at least", ..., "" where none is said), its text, and where it stands.

    `along` is "thickness", "width", "length" or "height" where the words say what is measured, else "".
    """

    relation: str
    text: str
    unit: str
    start: int
    end: int
    along: str = ""


def amounts_in(text: str) -> list[Amount]:
    """Return the amounts of a text, from left to right."""
    return [_amount(found) for found in AMOUNT.finditer(text)]


def _amount(found: re.Match[str]) -> Amount:
    relation = ""
    for names, words in (
        (("least", "more", "minimum"), "at least"),
        (("most", "less", "maximum"), "at most"),
        (("over",), "more than"),
        (("under",), "less than"),
    ):
        if any(found[name] for name in names):
            relation = relation or words
    unit = _unit(found["unit"] or "")
    number = re.sub(r"\s(?=\d+/)", "-", found["number"])
    along = _ALONG.get((found["along"] or "").casefold(), "")
    return Amount(relation, f"{number} {unit}".strip(), unit, found.start(), found.end(), along)


def _unit(words: str) -> str:
    return next((unit for pattern, unit in _UNITS.items() if re.fullmatch(pattern, words, re.IGNORECASE)), words)
