"""Number words in wording: "two inches" as "2 inches", "one and one-half inch" as "1-1/2 inch"; places are not kept."""

from __future__ import annotations

import re

_UNITS = (
    "inch|inches|foot|feet|mil|mils|percent|degrees?|hours?|layers?|coats?|sections?|millimet(?:er|re)s?|met(?:er|re)s?"
)
_ONES = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
]
_TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
_WHOLE = {word: number for number, word in enumerate(_ONES)} | {
    word: 10 * number for number, word in enumerate(_TENS, start=2)
}
_PARTS = {
    "half": "1/2",
    "one-half": "1/2",
    "a half": "1/2",
    "one half": "1/2",
    "quarter": "1/4",
    "one-quarter": "1/4",
    "one-fourth": "1/4",
    "three-quarter": "3/4",
    "three-quarters": "3/4",
    "three quarters": "3/4",
    "three-fourths": "3/4",
    "one-eighth": "1/8",
    "three-eighths": "3/8",
}
_whole = "|".join(sorted(_WHOLE, key=len, reverse=True))
_part = "|".join(sorted((re.escape(part) for part in _PARTS), key=len, reverse=True))
_HALF_AN_INCH = re.compile(rf"\b({_part})\s+(?:of\s+)?an?\s+(inch|foot)\b", re.IGNORECASE)
_MIXED = re.compile(rf"\b({_whole}|\d+)[ -]and[ -](?:an?\s)?({_part})(?=[ -](?:in\b|{_UNITS}))", re.IGNORECASE)
_PART = re.compile(rf"\b({_part})(?=[ -](?:{_UNITS})\b)", re.IGNORECASE)
_COMPOUND = re.compile(rf"\b({'|'.join(_TENS)})[ -]({'|'.join(_ONES[1:10])})\b", re.IGNORECASE)
_NUMBER = re.compile(rf"\b({_whole})\b", re.IGNORECASE)
_SAID_TWICE = re.compile(r"(\d+(?:-\d+/\d+)?)\s*\(\s*\1\s*\)")
_DEGREES = re.compile(r"\bdeg(?:rees?|\.)?\s*(F|C|Fahrenheit|Celsius)\b", re.IGNORECASE)


def with_digits(text: str) -> str:
    """Return a text with its number words as digits and its degrees as `F` and `C`, on one line."""
    text = " ".join(text.split())
    text = _HALF_AN_INCH.sub(lambda found: f"{_PARTS[found[1].lower()]} {found[2]}", text)
    text = _MIXED.sub(lambda found: f"{_digits(found[1])}-{_PARTS[found[2].lower()]}", text)
    text = _PART.sub(lambda found: _PARTS[found[1].lower()], text)
    text = _COMPOUND.sub(lambda found: str(_WHOLE[found[1].lower()] + _WHOLE[found[2].lower()]), text)
    text = _NUMBER.sub(lambda found: _digits(found[1]), text)
    text = _SAID_TWICE.sub(r"\1", text)
    text = _DEGREES.sub(lambda found: found[1][0].upper(), text)
    return re.sub(r"(?<=\d)\s+percent\b", " %", text, flags=re.IGNORECASE)


def _digits(word: str) -> str:
    return word if word.isdigit() else str(_WHOLE[word.lower()])
