"""Amounts among words: where a number begins, how far it goes, and which term it is a value of."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from typing import NamedTuple

from speccheck.language.vocabulary.terms import Form, Kind, Term
from speccheck.language.vocabulary.values import NO_UNITS, BareUnits, NotGiven, Value, read_value
from speccheck.phrases.lexicon import Lexicon
from speccheck.phrases.words import HARMLESS, JOINING, Word
from speccheck.quantities import Interval, Misread, Quantity, read
from speccheck.quantities.units import RUN_TOGETHER, SPELLINGS

_MOST_WORDS = 14  # `.23 BTU·in/hr·ft²·°F` are eleven
_FEWEST_LETTERS_OF_A_NAME = 5  # shorter words may be units
_BEGINS = frozenset(
    {"<", ">", "≤", "≥", "up", "max", "maximum", "min", "minimum", "over", "under", "above", "below", "r", "nps", "dn"}
)
# The words of units, and those of `grammar/quantity.lark` that make a range or a limit: no other can be in an amount.
_OF_RANGES = """
    over above exceeding more greater larger than at least not no less smaller under below minimum min maximum max up to
    but and or including most bigger lower down thru through incl inclusive from between nps ips dn nominal nom ga gauge
    gage rh relative humidity per sq cu square cubic density dens mean
"""
_RANGE_WORDS = frozenset(_OF_RANGES.split())
_IN_AMOUNTS = _RANGE_WORDS | {word for unit in (*SPELLINGS, *RUN_TOGETHER) for word in re.findall(r"[^\W\d_]+", unit)}
_PARTED = re.compile(r"(?P<first>[^/]+?)\s*/\s*(?P<second>[^/]+)")
_TURNED = re.compile(
    r"(?P<first>\d[\d.]*)\s*(?P<unit>°?\s*[FC]?)\s*[-–—]\s*(?P<second>\d[\d.]*\s*°?\s*[FC]?)", re.IGNORECASE
)
_FLOWS = re.compile(r"\b(?:EWT|LWT|EFT|LFT|supply|return|flow|entering|leaving|sup|ret)\b\.?", re.IGNORECASE)
_INDEX_WORDS = re.compile(
    r"(?<![^\W_])(?:class\s+(?:A|I|1)|FHC|FSI|SDI|FSR|SDR|rated|rating)(?![^\W_])\s*:?", re.IGNORECASE
)
_FLOW_NAME = re.compile(r"(?<![^\W_])(?:supply|return|sup\.?|ret\.?|[SR])(?![^\W_])", re.IGNORECASE)
_DEGREES = re.compile(r"-?\d+(?:\.\d+)?\s*(?:°|º|deg(?:rees?)?\.?)?\s*(?:[FC](?![^\W_]))?", re.IGNORECASE)
_PARTING = re.compile(r"[\s,;:/()&]+|\band\b", re.IGNORECASE)
_ENDED = re.compile(
    r"(?P<before><=?|>=?|[≤≥]|less than|under|up to|max(?:imum)?\.?)?\s*[\d.]+"
    r"\s*(?P<behind>max(?:imum)?\.?|or less|and under)?",
    re.IGNORECASE,
)
# A density in pounds is one for each cubic foot: `3/4 lb`, `1.5# density`. Common practice, no source.
_POUNDS = re.compile(r"(?P<number>.*\d)\s*(?:#|lbs?\.?|pounds?)(?:\s*(?:density|dens\.?))?", re.IGNORECASE)
_GAUGE_PRESSURE = re.compile(r"\bpsig\b", re.IGNORECASE)
_MEASURED_AT = frozenset({"@", "at"})


class Amount(NamedTuple):
    """An amount: the term that it is a value of (None where no term near can have it), its value, how many words.

    `named` is how many words right before it name its term: the "k =" of "k = 0.23".
    """

    term: Term | None
    value: Value
    length: int
    named: int = 0


def amount_at(
    text: str, words: Sequence[Word], place: int, lexicon: Lexicon, bare: BareUnits, stated: Collection[str]
) -> Amount | None:
    """Return the longest amount that begins at a word, or None.

    It is a value of the expected term where that has none yet, else of the term beside it that its unit, or the name
    before it ("k = 0.23"), tells. `stated` names the terms that have a value already.
    """
    first = words[place].folded
    if not (first[0].isdigit() or first[0] == "." or first in _BEGINS or (not first[0].isalnum() and first in "<>≤≥")):
        return None
    named, before = _named_before(words, place, lexicon)
    if _goes_on_from_letters(text, words[place].start):
        return None
    start = (
        max(words[place].start - 1, 0)
        if words[place].start
        and text[words[place].start - 1] in "-−"
        and (words[place].start == 1 or text[words[place].start - 2].isspace())
        else words[place].start
    )
    for length in range(_most_words(text, words, place, lexicon), 0, -1):
        part = text[start : words[place + length - 1].end]
        part = _GAUGE_PRESSURE.sub("psi", part)
        end = words[place + length - 1].end
        if part[-1].isdecimal() and text[end : end + 1].isalpha():
            continue  # the 20 of "20A" is no number by itself
        if isinstance(read(part), Misread) and not _PARTED.fullmatch(_FLOWS.sub(" ", part).strip(" ()")):
            continue
        owners = [] if named is not None else _owners(words, place, length, lexicon)
        ours = [each for each in owners if each is lexicon.term or each in lexicon.beside]
        system = BareUnits(system=bare.system)
        whole_number = words[place].folded.isdecimal() and _has_no_unit(part)
        candidates = [(each, system) for each in ours if each.name not in stated and not whole_number]
        for term, units in (*candidates, *_terms(words, place, lexicon, bare, stated, named)):
            if "°" in part or "º" in part:
                units = units if units.unit else BareUnits(system=bare.system)
            value = _value(part, term, units)
            if isinstance(value, Misread | NotGiven) or (term in owners and not _is_sensible(value, term)):
                continue
            if term is not lexicon.term and _is_perhaps_a_size(term, value):
                return None
            if named is None and _has_no_unit(part) and _goes_on(words, place + length, lexicon):
                return None
            if any(each is not term and each.kind == term.kind and _is_sensible(value, each) for each in owners):
                return None
            return Amount(term, value, length, before)
    return None


def _most_words(text: str, words: Sequence[Word], place: int, lexicon: Lexicon) -> int:
    """Return how many words an amount may have at most.

    It ends before a word with which a value begins, or that is no word of any amount.
    """
    most = min(_MOST_WORDS, len(words) - place)
    for length in range(1, most):
        at = place + length
        flow = _FLOWS.fullmatch(words[at].folded) is not None
        if _begins_a_value(words, at, lexicon) and not (flow and _parts_a_pair(words, place, at)):
            return length
        if not flow and _is_in_no_amount(text[words[at].start : words[at].end]):
            return length
    return most


def _begins_a_value(words: Sequence[Word], at: int, lexicon: Lexicon) -> bool:
    """Whether a long word begins a value, as the "below" of "below grade" does, and not that of "15 psi and below"."""
    word = words[at].folded
    if len(word) < _FEWEST_LETTERS_OF_A_NAME or not word.isalpha() or not lexicon.begins(word):
        return False
    return word not in _RANGE_WORDS or lexicon.find(words, at) is not None


def _is_in_no_amount(word: str) -> bool:
    """Whether a word has letters and is none of a unit, a range or a limit."""
    return word[0].isalpha() and word.rstrip("²³").casefold() not in _IN_AMOUNTS


def _parts_a_pair(words: Sequence[Word], start: int, place: int) -> bool:
    """Whether a word stands at a slash, or behind one: the words of "42 F supply / 54 F return" are part of it."""
    return any(word.folded == "/" for word in words[start : place + 2])


def _goes_on_from_letters(text: str, start: int) -> bool:
    """Whether a figure is the end of a name: the 4.2 of "R-4.2", the 1 of "AHU-1"."""
    return start > 1 and text[start - 1] in "-–" and text[start - 2].isalpha()


def _is_perhaps_a_size(term: Term, value: Value) -> bool:
    """Whether an amount is a length without one of its ends, as of the sizes that "fiberglass up to 2 in" is for."""
    return term.kind.dimension == "length" and isinstance(value, Interval) and None in (value.low, value.high)


def _has_no_unit(part: str) -> bool:
    return not any(character.isalpha() or character in "\"'°%″′" for character in part)


def _goes_on(words: Sequence[Word], end: int, lexicon: Lexicon) -> bool:
    """Whether a bare number is followed by a word that nobody knows, which may be its unit: "3.5 pcf", "2 layers"."""
    if end >= len(words):
        return False
    word = words[end].folded
    known = word in JOINING | HARMLESS | lexicon.own_words or lexicon.find(words, end) is not None
    return not known and not word[0].isdecimal()


def _owners(words: Sequence[Word], place: int, length: int, lexicon: Lexicon) -> list[Term]:
    """Return the terms that an amount is most likely a value of, by the value that it stands beside.

    The 0.016 of "aluminum 0.016 in" is a thickness of the jacket and none of insulation, as it is sensible for that.
    """
    neighbors = _neighbors(words, place, length, lexicon)
    beside = (other for neighbor in neighbors for other in lexicon.amounts_of(neighbor))
    return [other for other in beside if any(not each.where and each.has_upper_end for each in other.sensible)]


def _neighbors(words: Sequence[Word], place: int, length: int, lexicon: Lexicon) -> Iterator[Term]:
    """Yield the terms whose values stand right behind, or right before, an amount."""
    behind = lexicon.find(words, place + length) if place + length < len(words) else None
    if behind is not None:
        yield behind.meanings[0].term
        return
    for start in range(place - 1, max(place - 5, -1), -1):
        found = lexicon.find(words, start)
        if found is not None:
            yield found.meanings[0].term
            return
        if words[start].folded not in JOINING | HARMLESS | lexicon.words_of_terms:
            return


def _is_sensible(value: Value, term: Term) -> bool:
    """Whether a value lies in the range that the vocabulary gives for a term by itself, which has an upper end."""
    by_itself = [each for each in term.sensible if not each.where]
    ends = [end for end in (value.low, value.high) if end is not None] if isinstance(value, Interval) else [value]
    return bool(by_itself) and all(each.has_upper_end and each.allows(end) for each in by_itself for end in ends)


def _value(part: str, term: Term, units: BareUnits) -> Value | NotGiven | Misread:
    """Read an amount; two temperatures with a slash between them are the range between them."""
    if term.kind.dimension == "density":
        return read_value(in_pounds(part), term, units)
    between = (
        _between(_FLOWS.sub(" ", part).strip(" ()"), term, units)
        if term.kind.dimension == "temperature" and "/" in part
        else None
    )
    return between if between is not None else read_value(part, term, units)


def in_pounds(text: str) -> str:
    """Return a density in pounds alone as one in pounds for each cubic foot."""
    found = _POUNDS.fullmatch(text.strip())
    return f"{found['number']} lb/ft3" if found is not None else text


def _terms(
    words: Sequence[Word], place: int, lexicon: Lexicon, bare: BareUnits, stated: Collection[str], named: Term | None
) -> list[tuple[Term, BareUnits]]:
    """Return the terms that an amount may be a value of, with what its bare numbers are in, likeliest first.

    A bare fraction or decimal is of the first term beside that has sensible values: ".016 alum", "1-1/2 fiberglass".
    """
    system = BareUnits(system=bare.system)
    before = words[place - 1].folded if place else ""
    stated_at = {term.stated_at for term in (lexicon.term, *lexicon.beside) if term.name in stated and term.stated_at}
    at = [term for term in lexicon.beside if term.name in stated_at]
    if named is not None:
        return [(named, bare if named is lexicon.term else system)]
    degrees = system if words[place].folded.isdecimal() else NO_UNITS  # 0.036 without a unit is no temperature
    measured = [(term, degrees) for term in at if before in (*_MEASURED_AT, "/", "(")]
    own = [(lexicon.term, bare)] if lexicon.term.name not in stated and lexicon.term.kind.ordered else []
    free = _told_by_unit(lexicon, stated)
    others = [(term, NO_UNITS) for term in free]
    limited = [term for term in free if any(not each.where and each.has_upper_end for each in term.sensible)]
    usual = [(term, system) for term in limited][:1]
    return [*measured, *own, *others, *([] if words[place].folded.isdecimal() else usual)]


def _told_by_unit(lexicon: Lexicon, stated: Collection[str]) -> list[Term]:
    """Return the measured terms beside that an amount may be a value of by its unit alone.

    Of several that have one unit it is the one that stands first of all beside this term and has a sensible range: a
    length beside an insulation is its thickness, and a temperature may be anything.
    """
    by_kind: dict[Kind, list[Term]] = {}
    for term in lexicon.beside:
        if term.kind.form is Form.QUANTITY and term.kind != lexicon.term.kind:
            by_kind.setdefault(term.kind, []).append(term)
    usual = [
        next((each for each in terms if len(terms) == 1 or _is_usual(each, lexicon.term)), None)
        for terms in by_kind.values()
    ]
    return [term for term in usual if term is not None and term.name not in stated]


def _is_usual(term: Term, beside: Term) -> bool:
    return term.beside[:1] == (beside.name,) and any(not each.where for each in term.sensible)


def _named_before(words: Sequence[Word], place: int, lexicon: Lexicon) -> tuple[Term | None, int]:
    """Return the term whose name stands before an amount, with or without "=", and how many words that is."""
    end = place - 1 if place and words[place - 1].folded in "=:" else place
    if not end:
        return None, 0
    for key, term in lexicon.names_of_amounts.get(words[end - 1].folded, ()):
        if tuple(word.folded for word in words[max(end - len(key), 0) : end]) == key:
            return term, place - end + len(key)
    return None, 0


def pair_of(text: str, lexicon: Lexicon, bare: BareUnits) -> list[tuple[Term, Value]]:
    """Return what two numbers that make up a whole text say: "180/160" of temperatures, "25/50" of fire indexes.

    Two temperatures are the range between them, whichever comes first; two numbers where just one term beside has
    numbers too are one of each.
    """
    term = lexicon.term
    if term.kind.dimension == "temperature":
        value = _between(_FLOWS.sub(" ", text).strip(" ()"), term, bare) or _supply_and_return(text, term, bare)
        return [(term, value)] if value is not None else []
    parts = _PARTED.fullmatch(" ".join(_INDEX_WORDS.sub(" ", text).split()).strip("() "))
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
    if {found[0][0].casefold() for found in _FLOWS.finditer(rest)} == {"e", "l"}:
        kinds, rest = {"r"}, _FLOWS.sub(" ", rest)  # "LWT 44, EWT 54"
    amounts = [found[0].strip() for found in _DEGREES.finditer(rest)]
    if "r" not in kinds or len(amounts) != 2 or _PARTING.sub("", _DEGREES.sub(" ", rest)):
        return None
    return _between(" / ".join(amounts), term, bare)


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
    if isinstance(values[0], Quantity) and isinstance(values[1], Quantity):
        stated = [
            read_value(part, term) for part in (parts["first"] + (parts.groupdict().get("unit") or ""), parts["second"])
        ]
        if isinstance(stated[0], Misread) and isinstance(stated[1], Quantity):  # "70/50 °C"
            values[0] = read_value(parts["first"], term, BareUnits(unit=stated[1].unit))
    first, second = values
    if not isinstance(first, Quantity) or not isinstance(second, Quantity):
        return None
    low, high = sorted((first, second), key=lambda each: each.value)
    return low if low.value == high.value else Interval(low, high)
