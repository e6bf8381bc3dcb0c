"""Words of a text with their places, folded as the vocabulary's spellings are, so that both meet whatever their marks.

"C 534", "C-534" and "C534" are the same two words; "A.S.J." is one; "w/" is "with", "&" and "+" are "and"; a plural is
its singular. Blanks, hyphens and full stops part words and are none themselves.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

_WORD = re.compile(
    r"(?P<initials>(?<![^\W_])(?:[^\W\d_]\.){2,}(?:[^\W\d_](?![^\W\d_]))?)"
    r"|(?P<with>\bw/o\b|\bw/(?!\(?m[²2]?\W?K\b)(?=\s*\.?[^\W_]))"
    r"|(?P<number>\.?\d+(?:[.,]\d+)*)"
    r"|(?P<word>[^\W\d_]+(?:['’][^\W\d_]+)?)"
    r"|(?P<mark>[^\s\-–—‐‑_.])",
    re.IGNORECASE,
)
_SAME = {
    "&": "and",
    "+": "and",
    "w/": "with",
    "w/o": "without",
    "colour": "color",
    "fibre": "fiber",
    "fibreglass": "fiberglass",
    "vapour": "vapor",
    "galvanised": "galvanized",
    "req'd": "required",
    "reqd": "required",
    "und": "and",
    "et": "and",
    "mit": "with",
    "avec": "with",
    "dev": "developed",
    "aluminium": "aluminum",
}
# Words that schedules shorten in every name that has them.
_IN_FULL = {
    "dom": "domestic",
    "htg": "heating",
    "clg": "ceiling",
    "mech": "mechanical",
    "elec": "electrical",
    "rm": "room",
    "bd": "board",
    "refrig": "refrigerant",
    "recirc": "recirculating",
    "recirculated": "recirculating",
    "recirculation": "recirculating",
    "circulating": "recirculating",
    "circulation": "recirculating",
    "temp": "temperature",
    "press": "pressure",
    "equip": "equipment",
    "flex": "flexible",
    "elast": "elastomeric",
    "alum": "aluminum",
    "galv": "galvanized",
    "jkt": "jacket",
    "jacketing": "jacket",
    "insul": "insulation",
    "sys": "system",
    "ductwork": "duct",
    "piping": "pipe",
    "rohrleitung": "pipe",
    "leitung": "pipe",
    "tuyauterie": "pipe",
    "tubería": "pipe",
}
# Words that join others, and inside a cell are never the abbreviation that they could be: FOR is fuel oil return.
PREPOSITIONS = frozenset(
    {"a", "all", "an", "and", "as", "at", "by", "for", "in", "of", "on", "or", "the", "to", "with"}
)
_JOINING_WORDS = """
    with and over of the for in on at to @ , ; : ( ) [ ] / = | a an as all type kind only system line pipe service
    insulation typ typical incl including plus supply return main factory applied
"""
# What says how something is made or looks, and never which it is; of temperatures, which of two is meant.
_HARMLESS_WORDS = """
    thick thk mean rigid molded moulded premolded preformed pre heavy density medium closed cell cellular white smooth
    standard duty sheet nominal new ewt lwt eft lft entering leaving water temperature flow
    fluid operating primary secondary vorlauf rücklauf départ retour ida mandata ritorno
"""
JOINING = frozenset(_JOINING_WORDS.split())
"""Words that join others, or say no more than the column does."""

HARMLESS = frozenset(_HARMLESS_WORDS.split())
"""Words that never say which of several values it is."""

SAYS_NOTHING = JOINING | HARMLESS
"""Words that leave nothing over."""
_LONGEST_SINGULAR = 4  # shorter words that end in s are abbreviations rather than plurals


class Word(NamedTuple):
    """A word as it is compared, and where it stands in the text."""

    folded: str
    start: int
    end: int


@lru_cache(maxsize=32768)
def words_of(text: str) -> tuple[Word, ...]:
    """Return the words of a text, each with its place."""
    return tuple(Word(_folded(match), *match.span()) for match in _WORD.finditer(text))


def key_of(text: str) -> tuple[str, ...]:
    """Return the words of a text as they are compared."""
    return tuple(word.folded for word in words_of(text))


def _folded(match: re.Match[str]) -> str:
    found = match[0].casefold().replace("’", "'")
    if match["initials"]:
        return found.replace(".", "")
    found = _SAME.get(found, found)
    if match["word"]:
        found = _IN_FULL.get(found, found)
        if (
            len(found) > _LONGEST_SINGULAR
            and found.endswith("s")
            and found[-2] not in "su"
            and set(found) & set("aeiou")
        ):
            found = found[:-1]
            found = _IN_FULL.get(found, found)
    return found
