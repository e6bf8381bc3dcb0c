"""What the headings and the first columns of a section's table say: bands of sizes and temperatures, names, or neither.

A label is read to the terms that it speaks of, each with a heading in the words of the language: "Chilled water, 40 to
60°F" is the service chilled water and the operating temperature `40 F to 60 F`. A label with a word left over is none.
"""

from __future__ import annotations

import re

from speccheck.language.vocabulary.terms import Form, Vocabulary
from speccheck.phrases.bands import read_size_band
from speccheck.phrases.names import index_of, named_in, tokens_of
from speccheck.phrases.worded_amounts import amounts_in
from speccheck.quantities import Interval, Misread, NominalSize
from speccheck.specification.conditions import conditions_in

Label = dict[str, str]
_TEMPERATURE = re.compile(r"(?P<over>over\s+)?(?P<low>-?\d+)\s*(?:-|to|through|thru)\s*(?P<high>-?\d+)", re.IGNORECASE)
_IN_MILLIMETRES = re.compile(r"\bmm\b|\bmillim", re.IGNORECASE)
_WORDED = {"at least": "{} and over", "at most": "{} and under", "more than": "over {}", "less than": "under {}"}
_SIGNS = (
    ("≤", "at most "),
    ("<=", "at most "),
    ("≥", "at least "),
    (">=", "at least "),
    ("<", "under "),
    (">", "over "),
)
_CONDITION = re.compile(r"(?P<term>.+?) is (?:one of )?(?P<values>.+)")


def read_label(text: str, heading: str, vocabulary: Vocabulary) -> Label | None:
    """Return the terms of a label with their headings, or None; `heading` is what stands above its column."""
    words = " ".join(text.replace("–", "-").replace("—", "-").split())
    term = choice_term(heading, vocabulary)
    values = choices_of(words, term, vocabulary) if term else None
    if values:
        return {term: values}
    unit = _temperature_unit(words, heading)
    if unit:
        band = _temperature(words, unit)
        if band is not None:
            return {"operating temperature": band}
    else:
        size = _size(words, heading)
        if size is not None:
            return {"pipe size": size}
    return _named(words, vocabulary)


def choice_term(heading: str, vocabulary: Vocabulary) -> str:
    """Return the term with a closed list that a heading names: "Insulation material", "Service"; "" for none."""
    words = re.sub(r"\b(?:materials?|types?|required|field-applied)\b", "", heading, flags=re.IGNORECASE)
    found = {name for named in named_in(tokens_of(words), index_of(vocabulary)) for name in named.terms}
    chosen = [name for name in found if vocabulary.terms[name].kind.form is Form.CHOICE]
    return chosen[0] if len(chosen) == 1 else ""


def choices_of(words: str, term: str, vocabulary: Vocabulary) -> str | None:
    """Return the values of a term that words name, parted by commas, or None where they say more or something else."""
    tokens = tokens_of(words)
    found: list[str] = []
    covered = 0
    for named in named_in(tokens, index_of(vocabulary)):
        values = [value for name, value in named.values if name == term]
        if len(values) != 1:
            return None
        found += values
        covered += named.end - named.start
    left = [word for word in tokens if word.casefold() in ("or", "and", ",", "/", "&")]
    return ", ".join(dict.fromkeys(found)) if found and covered + len(left) == len(tokens) else None


def condition_of(term: str, band: str) -> str:
    """Return the condition that a heading of the language makes of its term."""
    for pattern, written in (
        (r"over (.+) to under (.+)", "{0} is more than {1} and {0} is less than {2}"),
        (r"over (.+) to (.+)", "{0} is over {1} to {2}"),
        (r"(.+) to under (.+)", "{0} is from {1} to under {2}"),
        (r"(.+) to (.+)", "{0} is between {1} and {2}"),
        (r"under (.+)", "{0} is less than {1}"),
        (r"over (.+)", "{0} is more than {1}"),
        (r"up to (.+)|(.+) and under", "{0} is at most {1}"),
        (r"(.+) and over", "{0} is at least {1}"),
    ):
        found = re.fullmatch(pattern, band)
        if found is not None and any(letter.isdigit() for letter in band):
            return written.format(term, *filter(None, found.groups()))
    return f"{term} is {'one of ' if ',' in band else ''}{band}"


def _temperature_unit(words: str, heading: str) -> str:
    """Return the unit of a temperature that a label, or the heading above it, has: "F", "C" or ""."""
    for text in (words, heading):
        found = re.search(r"(?:°|º|deg(?:rees)?\.?|\d)\s*([FC])\b|\(([FC])\)", text, re.IGNORECASE)
        if found is not None:
            return (found[1] or found[2]).upper()
    return ""


def _temperature(words: str, unit: str) -> str | None:
    """Return a band of temperatures in the words of the language: "105 F to 140 F", "over 350 F", "under 40 F"."""
    plain = re.sub(rf"\s*(?:°|º|\bdeg(?:rees)?\.?)?\s*(?<![a-z]){unit}\b|[°º]", "", words, flags=re.IGNORECASE).strip()
    for sign, said in _SIGNS:
        plain = plain.replace(sign, said)
    found = _TEMPERATURE.fullmatch(" ".join(plain.split()))
    if found is not None:
        return f"{'over ' if found['over'] else ''}{found['low']} {unit} to {found['high']} {unit}"
    amounts = amounts_in(plain)
    if len(amounts) != 1 or not amounts[0].relation or amounts[0].unit:
        return None
    whole = (amounts[0].start, amounts[0].end) == (0, len(plain))
    return _WORDED[amounts[0].relation].format(f"{amounts[0].text} {unit}") if whole else None


def _size(text: str, heading: str) -> str | None:
    """Return a band of nominal sizes in the words of the language, in DN where the label or its heading has DN.

    A bare number under a heading in millimetres is no nominal size in inches, nor is it known to be one in DN.
    """
    in_dn = re.search(r"\bDN\b", f"{heading} {text}") is not None
    if in_dn and not re.search(r"\bDN\b", text):
        text = re.sub(r"(?<![\w.])(?=\d)", "DN ", text)
    elif not in_dn and _IN_MILLIMETRES.search(heading) and not re.search(r"thick", heading, re.IGNORECASE):
        return None
    band = read_size_band(text, "inch-pound")
    if isinstance(band, Misread) or band.term != "pipe size":
        return None
    value = band.value
    if isinstance(value, NominalSize):
        return _size_name(value, in_dn)
    if not isinstance(value, Interval) or (value.low is None and value.high is None):
        return None
    low, high = (_size_name(end, in_dn) if isinstance(end, NominalSize) else None for end in (value.low, value.high))
    if low is None:
        return f"{'up to' if value.high_closed else 'under'} {high}"
    if high is None:
        return f"{low} and over" if value.low_closed else f"over {low}"
    start = f"{low} to" if value.low_closed else f"over {low} to"
    return f"{start} {'' if value.high_closed else 'under '}{high}"


def _size_name(size: NominalSize, in_dn: bool) -> str:
    return size.written("metric") if in_dn else str(size)


def _named(words: str, vocabulary: Vocabulary) -> Label | None:
    """Return the terms of which a label names values, and bands of temperature among them."""
    piece = conditions_in(words, vocabulary)
    if not piece.texts or piece.left_over or piece.doubts:
        return None
    label: Label = {}
    for text in piece.texts:
        found = _CONDITION.fullmatch(text)
        if found is None or found["term"] in label:
            return None
        term = vocabulary.terms[found["term"]]
        band = found["values"] if term.kind.form is Form.CHOICE else _as_band(found["values"])
        if band is None:
            return None
        label[term.name] = band
    return label


def _as_band(words: str) -> str | None:
    """Return a relation of a condition as a heading of a table."""
    for said, written in _WORDED.items():
        if words.startswith(f"{said} "):
            return written.format(words.removeprefix(f"{said} "))
    found = re.fullmatch(r"between (.+) and (.+)", words)
    return f"{found[1]} to {found[2]}" if found is not None else None
