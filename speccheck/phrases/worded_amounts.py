"""Amounts in the words of a section or a clause: "not less than 1-1/2 inches thick", "below 60 degrees F".

The one finder of amounts in prose: where a number begins, its unit, how it is to be met, and what it is measured along.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from speccheck.quantities import listed_unit
from speccheck.quantities.marks import plain

_WHOLE = r"\d{1,3}(?:,\d{3})+|\d{1,3}(?:[ \u00a0\u202f]\d{3})+(?![\d/])|\d+"
_FIGURES = rf"(?:{_WHOLE})(?:\.\d+|[- ]?[½¼¾⅛⅜⅝⅞]|(?:[- ]\d+)?/\d+)?|\.\d+|[½¼¾⅛⅜⅝⅞]"
_NUMBER = re.compile(
    rf"(?<![\w.-])(?:(?P<mark>DN|NPS|RSI|R)[- ]?(?P<named>{_FIGURES})|(?P<number>[-−]?(?:{_FIGURES})))",
    re.IGNORECASE,
)
# Units that are written out in several words; of any other unit the table of quantities knows the spelling.
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
_WRITTEN_OUT = re.compile(rf"\s*(?:-\s*)?(?P<unit>(?:{'|'.join(_UNITS)})(?![\w/]))", re.IGNORECASE)
_SYMBOL = re.compile(r"[ -]?(?P<unit>(?:°\s?)?[A-Za-zµ](?:[\w²³·./^]|\([^\s()]*\))*|[\"″'′%°])(?!\w)")
# "2 in the plant room" is no length.
_NO_INCH = re.compile(r"\s+(?:the|a|an|each|all|any|which|this|that|its|place)\b")
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
_RELATION = re.compile(
    rf"(?:(?P<least>{_LEAST})|(?P<most>{_MOST})|(?P<over>{_OVER})|(?P<under>{_UNDER}))\s+$", re.IGNORECASE
)
_BEHIND = re.compile(
    rf"(?:[\s-]+(?P<along>{'|'.join(_ALONG)})\b)?"
    r"(?:\s*,?\s*(?:and|or)\s+(?P<more>more|over|higher|above|larger|greater|up|thicker|longer|wider)\b"
    r"|\s*,?\s*(?:and|or)\s+(?P<less>less|under|lower|below|smaller|thinner)\b"
    r"|\s*,?\s+(?P<minimum>minimum|min\.?)(?!\w)|\s*,?\s+(?P<maximum>maximum|max\.?)(?!\w))?",
    re.IGNORECASE,
)
_LONGEST_RELATION = 40
_BY_WORDS = (
    (("least", "more", "minimum"), "at least"),
    (("most", "less", "maximum"), "at most"),
    (("over",), "more than"),
    (("under",), "less than"),
)


@dataclass(frozen=True, slots=True)
class WordedAmount:
    """An amount of a sentence: its relation ("at least", ..., "" where none is said), its text, and where it stands.

    `along` is "thickness", "width", "length" or "height" where the words say what is measured, else "". `written` is
    the number with its unit as the sentence has it, from `number_start`; `mark` what stands before it: "DN", "R".
    """

    relation: str
    text: str
    unit: str
    start: int
    end: int
    along: str = ""
    written: str = ""
    number: str = ""
    mark: str = ""
    number_start: int = 0


@lru_cache(maxsize=4096)
def amounts_in(text: str) -> tuple[WordedAmount, ...]:
    """Return the amounts of a text, from left to right."""
    found: list[WordedAmount] = []
    at = 0
    while (number := _NUMBER.search(text, at)) is not None:
        amount = _amount(text, number, at)
        if amount is not None:
            found.append(amount)
        at = amount.end if amount is not None else number.end()
    return tuple(found)


def _amount(text: str, number: re.Match[str], after: int) -> WordedAmount | None:
    """Return the amount of which a number is part, None for a number that goes on as a word: "2nd", "3x"."""
    unit, written_end = _unit(text, number.end()) if not number["mark"] else ("", number.end())
    if text[written_end : written_end + 1].isalnum() or text[written_end : written_end + 1] == "_":
        return None
    behind = _BEHIND.match(text, written_end)
    before = _RELATION.search(text, max(after, number.start() - _LONGEST_RELATION), number.start())
    said = {**(behind.groupdict() if behind else {}), **(before.groupdict() if before else {})}
    relation = next((words for names, words in _BY_WORDS if any(said.get(name) for name in names)), "")
    figures = number["named"] or number["number"]
    words = re.sub(r"(?<=\d)\s(?=\d{3}(?![\d/]))", "", number[0])
    words = re.sub(r"(?<=\d)\s(?=\d+/)", "-", words)
    return WordedAmount(
        relation=relation,
        text=f"{words} {unit}".strip(),
        unit=unit,
        start=before.start() if before else number.start(),
        end=behind.end() if behind else written_end,
        along=_ALONG.get((said.get("along") or "").casefold(), ""),
        written=text[number.start() : written_end].rstrip("."),
        number=figures,
        mark=(number["mark"] or "").upper(),
        number_start=number.start(),
    )


def _unit(text: str, start: int) -> tuple[str, int]:
    """Return the canonical unit that stands at a place of a text and where it ends; "" and the place for none."""
    found = _WRITTEN_OUT.match(text, start)
    if found is not None:
        unit = next(unit for pattern, unit in _UNITS.items() if re.fullmatch(pattern, found["unit"], re.IGNORECASE))
        return ("", start) if found["unit"] == "in" and _NO_INCH.match(text, found.end()) else (unit, found.end())
    symbol = _SYMBOL.match(text, start)
    words = symbol["unit"].rstrip(".") if symbol is not None else ""
    listed = listed_unit(plain(words)) if words else None
    return (listed, symbol.start("unit") + len(words)) if listed is not None and symbol is not None else ("", start)
