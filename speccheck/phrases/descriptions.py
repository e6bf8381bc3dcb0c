"""Descriptions, as lists of quantities have them: `Pipe insulation, fiberglass w/ ASJ, 1" thick, 2" NPS, chilled water`

The parts, between commas, semicolons, dashes and "x", say in any order of which service, for which size, how thick and
of what a system is. Which of two lengths is the size and which the thickness has to be said: by "thick", by "NPS" or
"pipe", by the material behind the one or the service behind the other. Where it is not, or where any word is left over,
nothing is read.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.language.vocabulary.values import BareUnits, Value, read_value
from speccheck.phrases.bands import read_size_band
from speccheck.phrases.cells import read_cell
from speccheck.phrases.systems import LONGEST, Proposed, shared_values, values_beside, values_of
from speccheck.quantities import Interval, Misread, Quantity

_PARTS = re.compile(r"\s*[,;:]\s+|\s+[-–—]\s+|\s+x\s+", re.IGNORECASE)
_SIZE_SAID = re.compile(r"(?<![^\W_])(?:NPS|IPS|DN|O\.?D\.?|pipes?|sizes?|dia(?:meter)?s?\.?)(?![^\W_])", re.IGNORECASE)
_THICKNESS_SAID = re.compile(r"(?<![^\W_])(?:thick(?:ness)?|thk\.?|wall)(?![^\W_])", re.IGNORECASE)
_LENGTH = r"(?P<size>\d[\d./ \-]*(?:\"|''|in\.?|inch(?:es)?|mm)?)"
_ANY_LENGTH = re.compile(_LENGTH.replace("?P<size>", "?:"), re.IGNORECASE)
_WORD = re.compile(r"[^\W\d_]{2,}")
_SIZE_BESIDE = (
    re.compile(rf"{_LENGTH}\s+(?P<rest>[^\W\d_].*)", re.IGNORECASE),
    re.compile(rf"(?P<rest>.*[^\W\d_])\s+{_LENGTH}", re.IGNORECASE),
)
_INSULATION_OF_PIPE = re.compile(r"(\d\S*\s+(?:pipes?|piping))\s+(?:insulation|insul\.?|covering)$", re.IGNORECASE)
_SAYS_NOTHING = re.compile(r"(?:pipes?|piping)?\s*(?:insulation|insul\.?|covering)", re.IGNORECASE)


def read_description(text: str, vocabulary: Vocabulary, bare: BareUnits) -> Proposed | None:
    """Return the one system that a description proposes, None where it is not understood as a whole.

    It has a thickness, which is said to be one unless a size stands beside it, and a service or a size. `bare` says
    what bare numbers are in.
    """
    text = " ".join(text.split())
    if not text or len(text) > LONGEST or not {"insulation", "thickness", "pipe size"} <= vocabulary.terms.keys():
        return None
    values: dict[str, Value] = {}
    for part in _PARTS.split(text.strip(" .")):
        said = _part(part, vocabulary, bare)
        if said is None or any(values.get(name, value) != value for name, value in said.items()):
            return None
        values.update(said)
    sized = values.keys() & {"pipe size", "pipe outside diameter"}
    whole = isinstance(values.get("thickness"), Quantity) and (sized or _THICKNESS_SAID.search(text))
    return Proposed(values, text) if whole and (sized or "service" in values) else None


def _part(text: str, vocabulary: Vocabulary, bare: BareUnits) -> Mapping[str, Value] | None:
    """Return what one part says, None where it is not understood, or does not say which of two lengths it is."""
    if _SAYS_NOTHING.fullmatch(text):
        return {}
    text = _INSULATION_OF_PIPE.sub(r"\1", text)
    return next((said for said in _readings(text, vocabulary, bare) if said is not None), None)


def _readings(text: str, vocabulary: Vocabulary, bare: BareUnits) -> Iterator[Mapping[str, Value] | None]:
    """Yield the ways in which a part may be meant, the surest first."""
    if _SIZE_SAID.search(text) and not _THICKNESS_SAID.search(text):
        yield _size(text, bare)
    yield shared_values(text, vocabulary, bare)
    yield _temperature(text, vocabulary)
    for pattern in _SIZE_BESIDE if not _THICKNESS_SAID.search(text) else ():
        found = pattern.fullmatch(text)
        size = _size(found["size"].strip(), bare) if found else None
        service = shared_values(found["rest"], vocabulary, bare) if found else None
        yield {**size, **service} if size is not None and service is not None else None
    for name in ("insulation", "jacket", "thickness") if _is_of_insulation(text) else ():
        if name in vocabulary.terms:
            yield values_of(read_cell(text, vocabulary.terms[name], vocabulary, bare)) or None
    yield values_beside(text, vocabulary, bare)


def _temperature(text: str, vocabulary: Vocabulary) -> Mapping[str, Value] | None:
    """Return the temperature of the system that a part states with its unit: "140F"."""
    terms = (term for term in vocabulary.terms.values() if term.tells_apart and term.kind.dimension == "temperature")
    term = next(terms, None)
    value = read_value(text, term) if term is not None else None
    return {term.name: value} if term is not None and isinstance(value, Quantity | Interval) else None


def _is_of_insulation(text: str) -> bool:
    """Whether a part says of a length that it is a thickness, or has words beside it."""
    return bool(_THICKNESS_SAID.search(text) or _WORD.search(_ANY_LENGTH.sub(" ", text)))


def _size(text: str, bare: BareUnits) -> Mapping[str, Value] | None:
    """Return the nominal sizes, or the outside diameters, that a part states."""
    band = read_size_band(text, "inch-pound" if bare.system == "inch-pound" else None)
    return None if isinstance(band, Misread) else {band.term: band.value}
