"""Systems in a sentence: `Domestic hot water, 140F: 1" fiberglass w/ ASJ up to 1-1/4", 1-1/2" above` proposes two.

Before a colon, a dash or "shall be insulated with" stands what all of them share; behind it each part is a system,
parted by commas or semicolons: a thickness, what it is made of, and the sizes that it is for. A part that names no
material takes those of the part before it, and "above" goes on from the size at which that part ended. Where any word
is left over nothing is read: a sentence that was not understood as a whole proposes nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from speccheck.language.vocabulary.terms import Form, Vocabulary
from speccheck.language.vocabulary.values import BareUnits, Value
from speccheck.phrases.bands import read_size_band
from speccheck.phrases.cells import read_cell
from speccheck.phrases.facts import Phrase
from speccheck.quantities import Interval, Misread, NominalSize, Quantity
from speccheck.quantities.sizes import System as UnitSystem

LONGEST = 400
_PARTS = re.compile(r"\s*;\s*|\s*,\s+(?=\.?\d)")
_ABOVE = re.compile(
    r"(?:\s|^)(?:(?:for|on)\s+)?(?:(?:and|&)\s+)?(?:above|over|larger|greater|bigger|up)(?:\s+(?:pipes?|sizes?))?$"
    r"|(?:\s|^)(?:(?:for|on)\s+)?(?:all\s+)?others?(?:\s+(?:pipes?|sizes?))?$",
    re.IGNORECASE,
)
_SAID_IN_WORDS = re.compile(
    r"\s+(?:(?:shall|will|to|must)\s+be|is|are)\s+(?:insulated|covered)\s+(?:with|by|in)\s+", re.IGNORECASE
)
_INSULATE = re.compile(r"(?:insulate|cover)\s+(?P<what>\S.*?)\s+with\s+", re.IGNORECASE)
# A dash before a colon parts what all share: `Heating hot water - 180F: 2" fiberglass`.
_PARTINGS_FROM_SHARED = (re.compile(r"\s*:\s*"), re.compile(r"\s+[-–—]\s+"))
_FOR = re.compile(r"\s(?:for|on)$", re.IGNORECASE)
# `1" up to 2"` is a thickness with its sizes, though it could be sizes as well; `1" to 2"` are sizes.
_THICKNESS_FIRST = re.compile(
    r"\S*\d\S*(?:\s*(?:in\.?|inch(?:es)?|mm))?\s+(?:thick\s+)?(?:up\s+to|for|on|over|above|below|under)\b",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Proposed:
    """One system of a sentence: its values by term name, and the words that it was read from."""

    values: Mapping[str, Value]
    text: str


@dataclass(frozen=True, slots=True)
class _Part:
    values: Mapping[str, Value]
    band: Value | None
    text: str


def read_systems(
    text: str, vocabulary: Vocabulary, bare: BareUnits, after: Value | None = None
) -> tuple[Proposed, ...]:
    """Return the systems that a sentence proposes, none where it is not understood as a whole.

    `bare` says what bare numbers are in, `after` are the sizes of what stands before it, from which "above" goes on.
    Each system has a thickness, and no two of them stand for the same sizes.
    """
    text = _SAID_IN_WORDS.sub(": ", " ".join(text.split()))
    told = _INSULATE.match(text)
    text = f"{told['what']}: {text[told.end() :]}" if told else text
    terms = [vocabulary.terms.get(name) for name in ("insulation", "thickness", "pipe size")]
    if not text or len(text) > LONGEST or None in terms:
        return ()
    between = next((found for pattern in _PARTINGS_FROM_SHARED if (found := pattern.search(text))), None)
    shared = _shared(text[: between.start()], vocabulary, bare) if between else {}
    if shared is None:
        return ()
    proposed, beside = _without_what_is_beside(
        (text[between.end() :] if between else text).strip(" ."), vocabulary, bare
    )
    if beside.keys() & shared.keys():
        return ()
    shared = {**shared, **beside}
    texts = [part for part in _PARTS.split(proposed) if part]
    shared, own = _with_material_first(shared, texts, vocabulary, bare)
    parts = list(_parts(own, vocabulary, bare, _upper_end(after)))
    if not parts or any(part is None for part in parts):
        return ()
    read = [part for part in parts if part is not None]
    if len(read) > 1 and (beside or any(part.band is None for part in read)):
        return ()  # nothing says of which of several a place behind them is
    if "pipe size" in shared and any(part.band is not None for part in read):
        return ()
    return tuple(_merged(shared, read))


def _shared(text: str, vocabulary: Vocabulary, bare: BareUnits) -> Mapping[str, Value] | None:
    """Return what the words before a colon say of all systems, sizes among them; None where they are not understood."""
    sizes = _sizes(text, bare)
    if sizes is not None:
        return {"pipe size": sizes}
    for words, band in _bands(text.strip(" ,-"), None, bare):
        said = shared_values(words, vocabulary, bare)
        if said is not None:
            return said if band is None else {**said, "pipe size": band}
    return None


def shared_values(text: str, vocabulary: Vocabulary, bare: BareUnits) -> Mapping[str, Value] | None:
    """Return what words say of a service and beside it; None where they name none, or are not understood as a whole."""
    service = next((term for term in vocabulary.terms.values() if term.kind.form is Form.CHOICE and term.either), None)
    phrase = read_cell(text.strip(" ,-"), service, vocabulary, bare) if service is not None else None
    return values_of(phrase) if phrase is not None and service is not None and phrase.values_of(service.name) else None


def values_of(phrase: Phrase) -> Mapping[str, Value] | None:
    """Return the one value of each term that a phrase states, None where anything of it is open."""
    names = dict.fromkeys(fact.term.name for fact in phrase.facts)
    values = {name: phrase.values_of(name) for name in names}
    if phrase.left_over or phrase.questions or phrase.alternatives or any(len(each) > 1 for each in values.values()):
        return None
    return {name: each[0] for name, each in values.items()}


def values_beside(text: str, vocabulary: Vocabulary, bare: BareUnits) -> Mapping[str, Value] | None:
    """Return what words say of where a system runs, or of its fire test: "in mechanical room", "concealed", "25/50"."""
    for term in (vocabulary.terms.get(name) for name in ("location", "flame spread")):
        values = values_of(read_cell(text, term, vocabulary, bare)) if term is not None else None
        if values:
            return values
    return None


def _without_what_is_beside(text: str, vocabulary: Vocabulary, bare: BareUnits) -> tuple[str, Mapping[str, Value]]:
    """Return what is proposed without the parts behind it that say where, or how it was tested; and what these say."""
    parts, said = text.split(", "), dict[str, Value]()
    while len(parts) > 1:
        values = values_beside(parts[-1], vocabulary, bare)
        if values is None or values.keys() & said.keys():
            break
        said |= values
        parts.pop()
    return ", ".join(parts), said


def _with_material_first(
    shared: Mapping[str, Value], parts: Sequence[str], vocabulary: Vocabulary, bare: BareUnits
) -> tuple[Mapping[str, Value], Sequence[str]]:
    """Return what all systems share with the material that stands before their thicknesses, and the other parts."""
    values = (
        values_of(read_cell(parts[0], vocabulary.terms["insulation"], vocabulary, bare)) if len(parts) > 1 else None
    )
    if not values or "insulation" not in values or "thickness" in values or values.keys() & shared.keys():
        return shared, parts
    return {**shared, **values}, parts[1:]


def _parts(
    texts: Sequence[str], vocabulary: Vocabulary, bare: BareUnits, end: NominalSize | None
) -> Iterator[_Part | None]:
    """Yield the parts of a sentence, None for one that is not understood; "above" begins at `end`."""
    before: NominalSize | None = None
    for words in _joined(texts, vocabulary, bare):
        part = _after(_part(words, end, vocabulary, bare), before)
        yield part
        end = before = _upper_end(part.band) if part is not None else None


def _after(part: _Part | None, end: NominalSize | None) -> _Part | None:
    """Return a part whose sizes have no lower end as those behind the sizes before it: `1" up to 2", 2" up to 4"`.

    None where they do not go beyond these, or where the part names a material of its own, for which sizes begin anew.
    """
    if part is None or end is None or not isinstance(part.band, Interval) or part.band.low is not None:
        return part
    high = _upper_end(part.band)
    if high is None or high <= end or "insulation" in part.values:
        return None
    return replace(part, band=Interval(end, high, low_closed=False, high_closed=part.band.high_closed))


def _upper_end(band: Value | None) -> NominalSize | None:
    """Return the upper end of a range of nominal sizes."""
    high = band.high if isinstance(band, Interval) else None
    return high if isinstance(high, NominalSize) else None


def _joined(parts: Sequence[str], vocabulary: Vocabulary, bare: BareUnits) -> list[str]:
    """Return the parts with those that hold no thickness, as `0.016 aluminum`, taken back to the part before."""
    found: list[str] = []
    for part in parts:
        values = values_of(read_cell(part, vocabulary.terms["insulation"], vocabulary, bare))
        sizes = _sizes(part, bare) is not None and not _THICKNESS_FIRST.match(part)
        goes_on = sizes or (values is not None and "thickness" not in values)
        if found and goes_on:
            found[-1] = f"{found[-1]}, {part}"
        else:
            found.append(part)
    return found


def _part(words: str, end: NominalSize | None, vocabulary: Vocabulary, bare: BareUnits) -> _Part | None:
    """Return what one part proposes: what stands before its sizes is read as a cell of insulation is."""
    for materials, band in _bands(words, end, bare):
        values = values_of(read_cell(materials, vocabulary.terms["insulation"], vocabulary, bare))
        if values is None or "thickness" not in values:
            values = values_of(read_cell(materials, vocabulary.terms["thickness"], vocabulary, bare))
        if values is not None and isinstance(values.get("thickness"), Quantity):
            return _Part(values, band, words)
    return None


def _bands(words: str, end: NominalSize | None, bare: BareUnits) -> Iterator[tuple[str, Value | None]]:
    """Yield the ways to part words into materials and sizes behind them, the longest sizes first, none last."""
    for found in re.finditer(r"\s+", words):
        materials, sizes = words[: found.start()], words[found.end() :]
        band = _sizes(sizes, bare)
        if band is not None:
            yield _FOR.sub("", materials), band
    above = _ABOVE.search(words)
    if above is not None and end is not None:
        yield words[: above.start()], Interval(end, None, low_closed=False)
    elif above is None:
        yield words, None


def _sizes(words: str, bare: BareUnits) -> Value | None:
    """Return the range of nominal sizes that words state, None where they state none."""
    system: UnitSystem | None = "inch-pound" if bare.system == "inch-pound" else None
    band = read_size_band(words, system)
    if isinstance(band, Misread) or band.term != "pipe size" or not isinstance(band.value, Interval):
        return None
    return band.value


def _merged(shared: Mapping[str, Value], parts: Sequence[_Part]) -> Iterator[Proposed]:
    """Yield the systems: each part with what all share, and where it names no insulation with what the last one has."""
    so_far: dict[str, Value] = {}
    for part in parts:
        so_far = dict(part.values) if "insulation" in part.values else {**so_far, **part.values}
        band = {"pipe size": part.band} if part.band is not None else {}
        yield Proposed({**shared, **so_far, **band}, part.text)
