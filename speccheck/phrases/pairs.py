"""Pairs: two numbers that make up a whole cell: "180/160" and "180F supply, 160F return", "25/50" of fire indexes."""

from __future__ import annotations

import re

from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import BareUnits, NotGiven, Value, read_value
from speccheck.phrases.lexicon import Lexicon
from speccheck.quantities import Interval, Misread, Quantity

PARTED = re.compile(r"(?P<first>[^/]+?)\s*/\s*(?P<second>[^/]+)")
FLOWS = re.compile(r"\b(?:EWT|LWT|EFT|LFT|supply|return|flow|entering|leaving|sup|ret)\b\.?", re.IGNORECASE)
_TURNED = re.compile(
    r"(?P<first>\d[\d.]*)\s*(?P<unit>°?\s*[FC]?)\s*[-–—]\s*(?P<second>\d[\d.]*\s*°?\s*[FC]?)", re.IGNORECASE
)
_INDEX_WORDS = re.compile(
    r"(?<![^\W_])(?:class\s+(?:A|I|1)|FHC|FSI|SDI|FSR|SDR|rated|rating)(?![^\W_])\s*:?", re.IGNORECASE
)
_FLOW_NAME = re.compile(r"(?<![^\W_])(?:supply|return|sup\.?|ret\.?|[SR])(?![^\W_])", re.IGNORECASE)
_DEGREES = re.compile(r"-?\d+(?:\.\d+)?\s*(?:°|º|deg(?:rees?)?\.?)?\s*(?:[FC](?![^\W_]))?", re.IGNORECASE)
_FLOW_AND_RETURN = re.compile(  # 180F supply, 160F return
    r"\d+\s*(?:°|º)?\s*[FC]\s*(?:supply|sup\.?),?\s*(?:and|&)?\s*\d+\s*(?:°|º)?\s*[FC]\s*(?:return|ret\.?)",
    re.IGNORECASE,
)
_PARTING = re.compile(r"[\s,;:/()&]+|\band\b", re.IGNORECASE)
_ENDED = re.compile(
    r"(?P<before><=?|>=?|[≤≥]|less than|under|up to|max(?:imum)?\.?)?\s*[\d.]+"
    r"\s*(?P<behind>max(?:imum)?\.?|or less|and under)?",
    re.IGNORECASE,
)


def is_a_pair(part: str) -> bool:
    """Whether a text is two parts with a slash between them, or a supply and a return temperature with their degrees.

    Words of supply and return beside the slash count for nothing.
    """
    return PARTED.fullmatch(without_flows(part)) is not None or _FLOW_AND_RETURN.fullmatch(part) is not None


def temperatures(text: str, term: Term, bare: BareUnits) -> Value | None:
    """Return the range between two temperatures that a text states, however it parts them, None for another text."""
    return between(without_flows(text), term, bare) or _supply_and_return(text, term, bare)


def without_flows(text: str) -> str:
    """Return a text without the words that say which of two temperatures is meant."""
    return FLOWS.sub(" ", text).strip(" ()")


def pair_of(text: str, lexicon: Lexicon, bare: BareUnits) -> list[tuple[Term, Value]]:
    """Return what two numbers that make up a whole text say: "180/160" of temperatures, "25/50" of fire indexes.

    Two temperatures are the range between them, whichever comes first; two numbers where just one term beside has
    numbers too are one of each.
    """
    term = lexicon.term
    if term.kind.dimension == "temperature":
        value = temperatures(text, term, bare)
        return [(term, value)] if value is not None else []
    parts = PARTED.fullmatch(" ".join(_INDEX_WORDS.sub(" ", text).split()).strip("() "))
    partners = [other for other in lexicon.beside if other.kind.form is Form.NUMBER]
    if parts is None or term.kind.form is not Form.NUMBER or len(partners) != 1:
        return []
    first, second = _with_the_same_end(parts["first"], parts["second"])
    pairs = [(term, read_value(first, term)), (partners[0], read_value(second, partners[0]))]
    return (
        [(each, value) for each, value in pairs if isinstance(value, float | Interval)]
        if all(isinstance(value, float | Interval) for _, value in pairs)
        else []
    )


def _with_the_same_end(first: str, second: str) -> tuple[str, str]:
    """Return two numbers of a pair, with what is said of one of them, "25/50 max", said of both."""
    bounds = [_ENDED.fullmatch(each.strip()) for each in (first, second)]
    said = [found for found in bounds if found is not None and (found["before"] or found["behind"])]
    plain = [each.strip().replace(".", "", 1).isdecimal() for each in (first, second)]
    if len(said) != 1 or not any(plain):
        return first, second
    (found,) = said
    return tuple(  # type: ignore[return-value]
        f"{found['before'] or ''} {each.strip()} {found['behind'] or ''}".strip() if is_plain else each
        for each, is_plain in zip((first, second), plain, strict=True)
    )


def _supply_and_return(text: str, term: Term, bare: BareUnits) -> Value | None:
    """Return the range between two temperatures called supply and return: "180F supply, 160F return", "S 180 R 160".

    Of two, one may be called nothing: "140 (120 return)".
    """
    kinds = {found[0][0].casefold() for found in _FLOW_NAME.finditer(text)}
    rest = _FLOW_NAME.sub(" ", text)
    if {found[0][0].casefold() for found in FLOWS.finditer(rest)} == {"e", "l"}:
        kinds, rest = {"r"}, FLOWS.sub(" ", rest)  # "LWT 44, EWT 54"
    amounts = [found[0].strip() for found in _DEGREES.finditer(rest)]
    if "r" not in kinds or len(amounts) != 2 or _PARTING.sub("", _DEGREES.sub(" ", rest)):
        return None
    return between(" / ".join(amounts), term, bare)


def between(text: str, term: Term, bare: BareUnits) -> Value | None:
    """Return the range between two temperatures, the lower one first."""
    text = " ".join(text.split())
    parts = PARTED.fullmatch(text) or _TURNED.fullmatch(text)
    if parts is None:
        alone = read_value(text, term, bare)
        return alone if not isinstance(alone, Misread | NotGiven) else None
    written = (parts["first"] + (parts.groupdict().get("unit") or ""), parts["second"])
    values = [read_value(part, term, bare) for part in written]
    if isinstance(values[0], Misread) and isinstance(values[1], Quantity):
        values[0] = read_value(parts["first"], term, BareUnits(unit=values[1].unit))
    if isinstance(values[0], Quantity) and isinstance(values[1], Quantity):
        stated = [read_value(part, term) for part in written]
        if isinstance(stated[0], Misread) and isinstance(stated[1], Quantity):  # "70/50 °C"
            values[0] = read_value(parts["first"], term, BareUnits(unit=stated[1].unit))
    first, second = values
    if not isinstance(first, Quantity) or not isinstance(second, Quantity):
        return None
    low, high = sorted((first, second), key=lambda each: each.value)
    return low if low.value == high.value else Interval(low, high)
