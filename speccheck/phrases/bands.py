"""Bands of sizes, as they head the columns and rows of a schedule: `<1"`, `1½" - 3"`, `4" & larger`, "DN 15-32".

A band is a nominal size, a range of nominal sizes, or, where the words say so (`7/8 OD`, "Ø 9.52 ~ Ø 25.40"), an
outside diameter. Nothing is rounded: a number that is no nominal size makes no band.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import lru_cache

from speccheck.quantities import Interval, Misread, NominalSize, Quantity, as_quantity, as_size, listed_unit, read
from speccheck.quantities.amounts import Reading
from speccheck.quantities.marks import plain
from speccheck.quantities.sizes import NOMINAL_SIZES, System

_NPS = frozenset(size.inches for size in NOMINAL_SIZES)
BandValue = NominalSize | Quantity | Interval[NominalSize] | Interval[Quantity]

# Words around a size that do not change it. "Run-outs" and the like do, so that they are not among them.
_BEFORE = re.compile(
    r"^(?:(?:for\s+)?(?:nominal|nom\.?|pipe|piping|tube|line|runs?)?\s*(?:sizes?|dia(?:meter)?s?\.?)(?![a-z])\s*(?:of\b|:)?"
    r"|(?:for|pipes?|piping|tubes?|nominal|nom\.?)(?![a-z]))\s*",
    re.IGNORECASE,
)
_BEHIND = re.compile(
    r"\s*(?<![a-z])(?:nominal\s+|nom\.?\s+)?(?:pipe\s+size|pipe\s+sizes|pipes?|piping|dia(?:meter)?s?\.?|sizes?|nps|ips)$",
    re.IGNORECASE,
)
_ALL = re.compile(
    r"(?:all|any)(?:\s+(?:(?:pipe|line|nominal)\s+)?(?:sizes?|diameters?))?|(?:sizes?:?\s+)?all", re.IGNORECASE
)
_OUTSIDE = re.compile(
    r"(?<![a-z])(?:o\.?d\.?|outside\s+dia(?:meter|\.)?|outer\s+dia(?:meter|\.)?)(?![a-z])", re.IGNORECASE
)
_DIAMETER_SIGN = re.compile(r"[ØøΦφ⌀]\s*")
_UP_THROUGH = re.compile(
    r"^(?:up\s+(?:thru\b|through\b|to\s+(?:(?:and|&)\s+)?incl(?:uding|usive(?:\s+of)?)?\b\.?)"
    r"|(?:thru|through|to)(?=\s+(?:DN\s*)?[.\d]))",
    re.IGNORECASE,
)
# Ends of ranges in German, French, Spanish and Italian. Common practice, no source.
_ELSEWHERE = (
    (
        re.compile(
            r"^(?:bis\s+(?:einschl\.?\s+)?|jusqu(?:'|’)?(?:à|au)?\s+|hasta\s+|fino\s+a\s+)(?=\S)", re.IGNORECASE
        ),
        "up to ",
    ),
    (re.compile(r"^(?:über|uber|plus\s+de|más\s+de|mayor\s+de|oltre)\s+", re.IGNORECASE), "over "),
    (re.compile(r"^(?:unter|kleiner(?:\s+als)?|moins\s+de|menor\s+de|meno\s+di)\s+", re.IGNORECASE), "under "),
    (
        re.compile(r"^(?:ab|à\s+partir\s+d[eu]|desde|a\s+partir\s+de|da)\s+(?=\S+(?:\s+\S+)?$)", re.IGNORECASE),
        "at least ",
    ),
    (re.compile(r"^(?:von|de|desde|da)\s+(?=.*\s(?:bis|à|a|hasta)\s)", re.IGNORECASE), ""),
    (re.compile(r"(?<=\d)\s+(?:bis|à|a|hasta)\s+(?=(?:DN\s*)?\d)", re.IGNORECASE), " to "),
    (
        re.compile(
            r"\s+(?:und|oder)\s+(?:größer|mehr|darüber)$|\s+et\s+(?:plus|au-delà)$|\s+y\s+(?:más|mayores?)$",
            re.IGNORECASE,
        ),
        " and larger",
    ),
    (
        re.compile(r"\s+(?:und|oder)\s+(?:kleiner|weniger|darunter)$|\s+et\s+moins$|\s+y\s+menores?$", re.IGNORECASE),
        " and smaller",
    ),
    (
        re.compile(
            r"^(?:alle(?:\s+Nennweiten)?|tous(?:\s+(?:DN|diamètres))?|todos(?:\s+los\s+diámetros)?|tutti)$",
            re.IGNORECASE,
        ),
        "all sizes",
    ),
)
_PLUS = re.compile(r"\s*(?:and\s+)?plus$", re.IGNORECASE)
_NO_LOWER_END = re.compile(r"^0(?:\.0*)?\s*(?:in\.?|\"|mm)?\s*(?:-|to\b|thru\b|through\b)\s*(?=[.\d])", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class SizeBand:
    """A band of sizes: the term that it is a value of ("pipe size" or "pipe outside diameter"), and the value."""

    term: str
    value: BandValue


@lru_cache(maxsize=16384)
def read_size_band(text: str, bare: System | None = None) -> SizeBand | Misread:
    """Return the band of sizes that a whole text states, or why it states none.

    `bare` says what whole numbers without a unit are, "inch-pound" (inches) or "metric" (DN); without it they are
    what only one of the two can be, as "300 and above" is DN, and else a `Misread` that says so. A diameter sign or
    "OD" makes it an outside diameter, of which a bare number is in millimetres from 8 up and a fraction in inches.
    "All sizes" is the range without ends.
    """
    words = " ".join(plain(text).split()).strip(" :;,")
    for pattern, english in _ELSEWHERE if words[:1].isalpha() or " " in words else ():
        words = pattern.sub(english, words)
    if _ALL.fullmatch(words):
        return SizeBand("pipe size", Interval(None, None))
    outside = bool(_OUTSIDE.search(words) or _DIAMETER_SIGN.search(words))
    words = _DIAMETER_SIGN.sub("", _OUTSIDE.sub(" ", words)).replace("~", " to ")
    words = " ".join(_BEHIND.sub("", _BEFORE.sub("", words.strip())).split())
    words = _PLUS.sub(" and over", _UP_THROUGH.sub("up to", words))
    below = _NO_LOWER_END.match(words)
    reading = read(words if below is None else f"up to {words[below.end() :]}")
    if isinstance(reading, Misread):
        return replace(reading, text=text, start=0, end=len(text))
    if any(amount.unit is not None and listed_unit(amount.unit) is None for amount in reading.amounts):
        # The large library of units need not be asked of words: no size has a unit that is not in the trade's table.
        return Misread(text, f"`{text}` is no size", "write a nominal size, such as 2 in or DN 50", 0, len(text))
    if outside and not _OUTSIDE.search(text) and _are_nominal_inches(reading):
        help = "write `2 in` for a nominal size, and `2 in OD` for an outside diameter"
        return Misread(text, f"`{text}` may be a nominal size or an outside diameter", help, 0, len(text))
    if outside:
        return _outside(text, reading)
    size = as_size(reading, bare)
    return (
        replace(size, text=text, start=0, end=len(text)) if isinstance(size, Misread) else SizeBand("pipe size", size)
    )


def _are_nominal_inches(reading: Reading) -> bool:
    """Whether diameters in inches are all sizes that pipes have: behind a diameter sign they may be either."""
    return all(
        amount.unit is not None and listed_unit(amount.unit) == "in" and amount.number in _NPS
        for amount in reading.amounts
    )


def _outside(text: str, reading: Reading) -> SizeBand | Misread:
    """Return a band of outside diameters; without a unit, fractions are in inches and 8 and more in millimetres."""
    amounts = reading.amounts
    unit = None
    if all(amount.unit is None for amount in amounts):
        if any(amount.is_fraction for amount in amounts):
            unit = "in"
        elif all(amount.number >= 8 for amount in amounts):
            unit = "mm"
    value = as_quantity(reading, "length", unit)
    if isinstance(value, Misread):
        return Misread(text, value.message, "write the diameter with its unit, such as 7/8 in or 22 mm", 0, len(text))
    return SizeBand("pipe outside diameter", value)
