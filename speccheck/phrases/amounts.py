"""Amounts among words: where a number begins, how far it goes, and which term it is a value of."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from typing import NamedTuple

from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import NO_UNITS, BareUnits, NotGiven, Value, read_value
from speccheck.phrases.lexicon import Lexicon
from speccheck.phrases.words import Word, key_of
from speccheck.quantities import Interval, Misread, Quantity, read

_MOST_WORDS = 10
_BEGINS = frozenset(
    {"<", ">", "≤", "≥", "up", "max", "maximum", "min", "minimum", "over", "under", "above", "below", "r", "nps", "dn"}
)
_PARTED = re.compile(r"(?P<first>[^/]+?)\s*/\s*(?P<second>[^/]+)")
_TURNED = re.compile(
    r"(?P<first>\d[\d.]*)\s*(?P<unit>°?\s*[FC]?)\s*[-–—]\s*(?P<second>\d[\d.]*\s*°?\s*[FC]?)", re.IGNORECASE
)
_FLOWS = re.compile(r"\b(?:EWT|LWT|EFT|LFT|supply|return|flow|entering|leaving|sup|ret)\b\.?", re.IGNORECASE)
_GAUGE_PRESSURE = re.compile(r"\bpsig\b", re.IGNORECASE)
_MEASURED_AT = frozenset({"@", "at"})


class Amount(NamedTuple):
    """An amount: the term that it is a value of (None where no term near can have it), its value, how many words."""

    term: Term | None
    value: Value
    length: int


def amount_at(
    text: str, words: Sequence[Word], place: int, lexicon: Lexicon, bare: BareUnits, stated: Collection[str]
) -> Amount | None:
    """Return the longest amount that begins at a word, or None.

    It is a value of the expected term where that has none yet, else of the term beside it that its unit, or the name
    before it ("k = 0.23"), tells. `stated` names the terms that have a value already.
    """
    first = words[place].folded
    named = _named_before(words, place, lexicon)
    if not (first[0].isdigit() or first[0] == "." or first in _BEGINS or (not first[0].isalnum() and first in "<>≤≥")):
        return None
    start = (
        max(words[place].start - 1, 0)
        if words[place].start
        and text[words[place].start - 1] in "-−"
        and (words[place].start == 1 or text[words[place].start - 2].isspace())
        else words[place].start
    )
    for length in range(min(_MOST_WORDS, len(words) - place), 0, -1):
        part = text[start : words[place + length - 1].end]
        part = _GAUGE_PRESSURE.sub("psi", part)
        if isinstance(read(part), Misread) and not _PARTED.fullmatch(part):
            continue
        for term, units in _terms(words, place, lexicon, bare, stated, named):
            if "°" in part or "º" in part:
                units = units if units.unit else BareUnits(system=bare.system)
            value = _value(part, term, units)
            if not isinstance(value, Misread | NotGiven):
                return Amount(term, value, length)
    return None


def _value(part: str, term: Term, units: BareUnits) -> Value | NotGiven | Misread:
    """Read an amount; two temperatures with a slash between them are the range between them."""
    between = _between(part, term, units) if term.kind.dimension == "temperature" and "/" in part else None
    return between if between is not None else read_value(part, term, units)


def _terms(
    words: Sequence[Word], place: int, lexicon: Lexicon, bare: BareUnits, stated: Collection[str], named: Term | None
) -> list[tuple[Term, BareUnits]]:
    """Return the terms that an amount may be a value of, with what its bare numbers are in, likeliest first."""
    system = BareUnits(system=bare.system)
    before = words[place - 1].folded if place else ""
    at = [term for term in lexicon.beside if term.name == lexicon.term.stated_at]
    if named is not None:
        return [(named, bare if named is lexicon.term else system)]
    measured = [(term, system) for term in at if before in (*_MEASURED_AT, "/", "(") and lexicon.term.name in stated]
    own = [(lexicon.term, bare)] if lexicon.term.name not in stated and lexicon.term.kind.ordered else []
    others = [
        (term, NO_UNITS) for term in lexicon.beside if term.kind.form is Form.QUANTITY and term.name not in stated
    ]
    return [*measured, *own, *others]


def _named_before(words: Sequence[Word], place: int, lexicon: Lexicon) -> Term | None:
    """Return the term whose name stands before an amount, with or without "=": "k = 0.23"."""
    end = place - 1 if place and words[place - 1].folded in "=:" else place
    for term in (lexicon.term, *lexicon.beside):
        for spelling in (term.name, *term.also):
            key = key_of(spelling)
            if key and tuple(word.folded for word in words[max(end - len(key), 0) : end]) == key and term.kind.ordered:
                return term
    return None


def pair_of(text: str, lexicon: Lexicon, bare: BareUnits) -> list[tuple[Term, Value]]:
    """Return what two numbers that make up a whole text say: "180/160" of temperatures, "25/50" of fire indexes.

    Two temperatures are the range between them, whichever comes first; two numbers where just one term beside has
    numbers too are one of each.
    """
    term = lexicon.term
    if term.kind.dimension == "temperature":
        value = _between(_FLOWS.sub(" ", text).strip(" ()"), term, bare)
        return [(term, value)] if value is not None else []
    parts = _PARTED.fullmatch(text.strip())
    partners = [other for other in lexicon.beside if other.kind.form is Form.NUMBER]
    if parts is None or term.kind.form is not Form.NUMBER or len(partners) != 1:
        return []
    pairs = [(term, read_value(parts["first"], term)), (partners[0], read_value(parts["second"], partners[0]))]
    return (
        [(each, value) for each, value in pairs if isinstance(value, float)]
        if all(isinstance(value, float) for _, value in pairs)
        else []
    )


def _between(text: str, term: Term, bare: BareUnits) -> Value | None:
    """Return the range between two temperatures, the lower one first."""
    text = " ".join(text.split())
    parts = _PARTED.fullmatch(text) or _TURNED.fullmatch(text)
    if parts is None:
        alone = read_value(text, term, bare)
        return alone if not isinstance(alone, Misread | NotGiven) else None
    values = [
        read_value(part, term, bare)
        for part in (parts["first"] + (parts.groupdict().get("unit") or ""), parts["second"])
    ]
    if isinstance(values[0], Misread) and isinstance(values[1], Quantity):
        values[0] = read_value(parts["first"], term, BareUnits(unit=values[1].unit))
    first, second = values
    if not isinstance(first, Quantity) or not isinstance(second, Quantity):
        return None
    low, high = sorted((first, second), key=lambda each: each.value)
    return low if low.value == high.value else Interval(low, high)
