"""Cells: what the words of a cell say of the term of its column, and of the terms that stand beside it.

`1-1/2" FG w/ ASJ` in a column of thicknesses states a thickness, an insulation and a facing. A word that nobody knows
is left over, and then the cell was not read as a whole; two values where one is asked for are a question.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from itertools import pairwise
from typing import cast

from speccheck.language.vocabulary.terms import Form, Term, Vocabulary
from speccheck.language.vocabulary.values import NO_UNITS, BareUnits, NotGiven, Value, read_value
from speccheck.phrases.amounts import amount_at, in_pounds, pair_of
from speccheck.phrases.bands import Band, read_size_band
from speccheck.phrases.layers import THICKNESS, layers_at
from speccheck.phrases.lexicon import Lexicon, Meaning, lexicon_of
from speccheck.phrases.words import HARMLESS, JOINING, Word, key_of, words_of
from speccheck.quantities import Interval, Misread, NominalSize, Quantity
from speccheck.quantities.sizes import NOMINAL_SIZES, System, sizes_in

LONGEST_CELL = 200
_SYSTEMS: dict[str, System] = {
    "in": "inch-pound",
    "NPS": "inch-pound",
    "inch-pound": "inch-pound",
    "mm": "metric",
    "DN": "metric",
    "metric": "metric",
}
SERVICE = "service"
_SIZE_WORD = re.compile(r"\d\s*(?:\"|''|″|in\b|inch|mm\b)|\b(?:NPS|DN)\s*\d|\bsizes?\b", re.IGNORECASE)
_FOR_SIZES = re.compile(r"^(?:for|on|in)\s+(?:sizes\s+)?", re.IGNORECASE)
_DIAMETER = re.compile(r"\s*[ØøΦφ⌀]\s*")
_LISTED = re.compile(r"\s*,\s*(?:(?:and|&)\s+)?|\s+(?:and|&)\s+", re.IGNORECASE)
_SIZES_LISTED = re.compile(r"\s*,\s+(?:(?:and|&)\s+)?|\s+(?:and|&|\+)\s+|(?<=[\"”″])\s*[/,&]\s*", re.IGNORECASE)
_ALTERNATIVES = frozenset({"or"})
_STANDARD = re.compile(
    r"\b(?:ASTM|UL|ANSI|ISO|EN|DIN|NFPA|BS)\s*-?\s*[A-Z]{0,2}\s*-?\d+[A-Z]?(?:[-/ ]?\d+)*", re.IGNORECASE
)
_SUPPLY_AND_RETURN = re.compile(
    r"(?<![^\W_])[SF]\s*[/&+]\s*R(?![^\W_])"
    r"|(?<=[^\W_])[\s,(–—-]+(?:supply|sup\.?|flow)\s*(?:[/&+,–—-]|and)\s*(?:return\b|ret\b\.?)(?!\s*(?:air|duct))",
    re.IGNORECASE,
)
_TO_AN_AMOUNT = re.compile(r"\s*to\s+[\d.½¼¾]", re.IGNORECASE)  # an end without a beginning, and no one amount
_DECIMAL_COMMA = re.compile(r"(?<![\d.,])(?![1-9]\d{0,2},\d{3}(?!\d))(\d+),(\d+)(?![\d.,])")
_DEGREES_BY_LETTER = re.compile(r"(?<=\d)(\s?)[oº](?=[CF](?!\w))")
# Where a system runs, or what it serves, is no part of what it carries; a person has to read it all the same.
WHERE = re.compile(
    r"(?<=\s)(?:within|near|serving|between|(?:down|up)stream\s+of|(?:from|to|at)(?!\s*\d))(?!\w)", re.IGNORECASE
)
PLACE = "location"
_NEVER_SERVED = frozenset({"outdoor", "buried", "slab"})
_WITHIN_WALLS = frozenset({"indoor", "indoors", "interior", "inside"})
_INSIDE = re.compile(
    r"(?<![^\W_])(?:in|within|inside|above|under|im|dans|en|nel|nella)\s+(?:the\s+|an?\s+)?$|^in\s", re.IGNORECASE
)
_BREAKS_OFF = re.compile(r"\d\s*[FC\"]?\s*[-–—/]\s*$")  # "35-": what goes on there is not known
# Words in a remark that may take back what the words before it say.
DENYING = frozenset(
    {"not", "no", "non", "none", "deleted", "void", "future", "existing", "alternate", "alternative", "alt", "where"}
    | {"or", "except", "excluding", "excl", "unless", "only", "nic", "omit", "omitted", "was", "formerly", "if"}
)
# Grades within a material standard: they do not say which material it is.
_GRADE = re.compile(r"\b(?:type|grade|class)\s+(?:[IVX]{1,4}|\d{1,2})[A-D]?(?![\w-])", re.IGNORECASE)
_TYPE_MARK = re.compile(r"\btype\s+(?:[A-Z]{1,2}\s*-\s*\d{1,2}[A-Z]?)(?!\w)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Fact:
    """A value of a term, and the words that say it, by their place in the text."""

    term: Term
    value: Value
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Question:
    """Words that stand for any of several values of a term."""

    term: Term
    values: tuple[str, ...]
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Span:
    """Words that were not understood, and their place in the text."""

    text: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Phrase:
    """What a text says: facts in the order of the text, questions, and the words left over."""

    text: str
    facts: tuple[Fact, ...] = ()
    questions: tuple[Question, ...] = ()
    left_over: tuple[Span, ...] = ()
    alternatives: bool = False

    def values_of(self, name: str) -> tuple[Value, ...]:
        """Return the different values that the text states of a term, in the order of the text."""
        return tuple(dict.fromkeys(fact.value for fact in self.facts if fact.term.name == name))


@dataclass
class _Scan:
    """A text while it is read from left to right."""

    text: str
    lexicon: Lexicon
    bare: BareUnits
    words: tuple[Word, ...]
    facts: list[Fact] = field(default_factory=list)
    questions: list[Question] = field(default_factory=list)
    left: list[Word] = field(default_factory=list)
    alternatives: bool = False


def read_cell(text: str, term: Term, vocabulary: Vocabulary, bare: BareUnits = NO_UNITS) -> Phrase:
    """Return what the text of a cell says, in a column of `term`; `bare` says what its bare numbers are in.

    A text that `read_value` reads is one fact and nothing is left over. The same text is read once.
    """
    return _read(text, term.name, id(vocabulary), bare, _Kept(vocabulary))


def _with_sizes(text: str, term: Term, bare: BareUnits, kept: _Kept) -> Phrase | None:
    """Read a service with the sizes that it is for, before or behind it: "Chilled water piping 2 inch and smaller".

    The sizes say that they are lengths, by a unit or as nominal sizes do: a number alone may be anything.
    """
    size = kept.vocabulary.terms.get("pipe size")
    for found in re.finditer(r"[\s,(–—-]+", text) if size is not None and _SIZE_WORD.search(text) else ():
        before, behind = text[: found.start()], text[found.end() :].rstrip(" )")
        for service, sizes in ((before, behind), (behind, before)):
            band = read_size_band(_FOR_SIZES.sub("", sizes), None)
            if size is None or isinstance(band, Misread) or band.term != size.name or not _SIZE_WORD.search(sizes):
                continue
            said = _read(service, term.name, id(kept.vocabulary), bare, kept)
            if said.values_of(term.name) and not (said.left_over or said.questions or said.alternatives):
                start = text.index(sizes)
                moved = [
                    replace(fact, start=text.index(service), end=text.index(service) + len(service))
                    for fact in said.facts
                ]
                return Phrase(text, (*moved, Fact(size, band.value, start, start + len(sizes))))
    return None


class _Kept:
    """A vocabulary beside its identity, so that a remembered reading is of that vocabulary and no other."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self.vocabulary = vocabulary

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Kept) and other.vocabulary is self.vocabulary

    def __hash__(self) -> int:
        return id(self.vocabulary)


@lru_cache(maxsize=16384)
def _read(text: str, name: str, identity: int, bare: BareUnits, kept: _Kept) -> Phrase:
    """Read a text; where that fails, what stands before words on where a system runs: "Exhaust near a wall"."""
    phrase = _read_whole(text, name, bare, kept)
    term = kept.vocabulary.terms[name]
    sized = _with_sizes(text, term, bare, kept) if phrase.left_over and name == SERVICE else None
    if sized is not None:
        return sized
    where = WHERE.search(text) if phrase.left_over and term.tells_apart and term.kind.form is Form.CHOICE else None
    if where is None or not where.start():
        return phrase
    head = _read(text[: where.start()].rstrip(" ,-–"), name, identity, bare, kept)
    if len(head.values_of(name)) != 1 or head.left_over or head.questions or head.alternatives:
        return phrase
    return Phrase(text, head.facts, left_over=(Span(text[where.start() :], where.start(), len(text)),))


def _read_whole(text: str, name: str, bare: BareUnits, kept: _Kept) -> Phrase:
    term = kept.vocabulary.terms[name]
    whole = read_value(text, term, bare)
    if isinstance(whole, Misread) and term.kind.ordered:
        text = as_numbers_are_read(text)
        whole = read_value(text, term, bare)
    if isinstance(whole, NotGiven):
        return Phrase(text)
    facts = [(term, whole)] if not isinstance(whole, Misread) else _as_a_whole(text, term, bare, kept.vocabulary)
    if facts:
        return Phrase(text, tuple(Fact(each, value, 0, len(text)) for each, value in facts))
    if len(text) > LONGEST_CELL:
        return Phrase(text, left_over=(Span(text, 0, len(text)),))
    lexicon = lexicon_of(kept.vocabulary, term)
    text = as_numbers_are_read(text)
    if term.kind.ordered and _BREAKS_OFF.search(text):
        return Phrase(text, left_over=(Span(text, 0, len(text)),))
    scan = _Scan(text, lexicon, bare, words_of(_without_marks(text)))
    if not _whole(scan):
        place = 0
        while place < len(scan.words):
            place += _step(scan, place)
    _answer(scan)
    _without_origins(scan)
    _without_rooms(scan)
    _give_way(scan)
    _remark_in_brackets(scan)
    _as_text_beside(scan)
    return Phrase(text, tuple(scan.facts), tuple(scan.questions), tuple(_spans(scan)), scan.alternatives)


def _as_a_whole(text: str, term: Term, bare: BareUnits, vocabulary: Vocabulary) -> Sequence[tuple[Term, Value]]:
    """Return what an amount that is written in a way of its own says: a density in pounds, sizes, layers, a pair."""
    if term.kind.dimension == "density":
        density = read_value(in_pounds(text), term, bare)
        return [] if isinstance(density, Misread | NotGiven) else [(term, density)]
    if term.kind.dimension == "length" and _DIAMETER.match(text):
        stated = read_value(_DIAMETER.sub(" ", text).replace("~", " to "), term, bare) if bare.unit else None
        band = _band(text, bare)
        if isinstance(stated, Quantity | Interval):
            return [(term, stated)]
        return [(term, band.value)] if band and band.term == term.name else []
    if term.kind.form is Form.SIZE:
        band = _band(text, bare) or _consecutive_sizes(text, bare)
        return [(vocabulary.terms[band.term], band.value)] if band and band.term in vocabulary.terms else []
    if len(text) > LONGEST_CELL:
        return []
    lexicon = lexicon_of(vocabulary, term)
    layers = layers_at(text, 0, lexicon) if term.name == THICKNESS else None
    return layers.values if layers is not None and layers.length == len(text) else pair_of(text, lexicon, bare)


def _band(text: str, bare: BareUnits) -> Band | None:
    """Return the sizes that a cell of nominal sizes states as the header of a band does: "All sizes", "7/8 OD"."""
    band = read_size_band(text, _SYSTEMS.get(bare.unit or bare.system))
    return None if isinstance(band, Misread) else band


def _consecutive_sizes(text: str, bare: BareUnits) -> Band | None:
    """Return the range of sizes that are listed one by one, none of those between them left out: `1/2", 3/4" & 1"`."""
    bands = [_band(part, bare) for part in _LISTED.split(text.strip())]
    sizes = [band.value for band in bands if band is not None and isinstance(band.value, NominalSize)]
    if len(sizes) < max(len(bands), 2):
        return None
    range_ = Interval(sizes[0], sizes[-1])
    between = [size for size in sizes_in(range_) if size in NOMINAL_SIZES]
    return Band("pipe size", range_) if sizes == between else None


def sizes_listed(text: str, bare: BareUnits) -> tuple[NominalSize | Interval[NominalSize], ...]:
    """Return the sizes, or bands of them, that a cell lists rising, some of those between them left out: `2" & 3"`.

    None of them where a part is no size, or where they do not rise: "1, 1/2" may be one size.
    """
    bands = [_band(part, bare) for part in _SIZES_LISTED.split(text.strip())]
    if len(bands) < 2 or not all(band is not None and band.term == "pipe size" for band in bands):
        return ()
    values = cast("tuple[NominalSize | Interval[NominalSize], ...]", tuple(band.value for band in bands if band))
    ends = [sizes_in(value) if isinstance(value, Interval) else (value,) for value in values]
    rising = all(ends) and all(before[-1] < after[0] for before, after in pairwise(ends))
    return values if rising else ()


def as_numbers_are_read(text: str) -> str:
    """Return a text of the same length with decimal points for commas, and degree signs for letters: "0,5", "4 oC".

    A comma before three digits stays, for it may part thousands.
    """
    return _DEGREES_BY_LETTER.sub(r"\1°", _DECIMAL_COMMA.sub(r"\1.\2", text))


def _without_marks(text: str) -> str:
    """Return the text with marks of types ("Type P-1", "Grade 1"), and "S/R", blanked out, places kept."""
    return _SUPPLY_AND_RETURN.sub(_blank, _GRADE.sub(_blank, _TYPE_MARK.sub(_blank, text)))


def _blank(found: re.Match[str]) -> str:
    return " " * len(found[0])


def _whole(scan: _Scan) -> bool:
    """Read a text whose words, in whatever order, are one spelling of the expected term: "Hot water (heating)"."""
    key = tuple(word.folded for word in scan.words if word.folded not in "()[],;:")
    meaning = scan.lexicon.named(key)
    if meaning is None:
        return False
    _take(scan, (meaning,), 0, len(scan.words))
    return True


def _step(scan: _Scan, place: int) -> int:
    """Read what stands at a word, and return how many words it took."""
    word = scan.words[place]
    tail = _shared_tail(scan, place)
    if tail:
        _take(scan, tail, place, 1)
        return 1
    found = scan.lexicon.find(scan.words, place)
    if found is not None:
        shared = _shared(scan, place, found.length)
        _take(scan, shared or found.meanings, place, found.length)
        return found.length
    layers = layers_at(scan.text, word.start, scan.lexicon)
    if layers is not None:
        end = word.start + layers.length
        scan.facts += [Fact(term, value, word.start, end) for term, value in layers.values]
        return max(1, sum(word.start <= each.start < end for each in scan.words))
    amount = amount_at(scan.text, scan.words, place, scan.lexicon, scan.bare, {fact.term.name for fact in scan.facts})
    if amount is not None:
        scan.left = [word for word in scan.left if word not in scan.words[place - amount.named : place]]
        scan.facts += [Fact(amount.term, amount.value, *_ends(scan, place, amount.length))] if amount.term else []
        return amount.length
    shared = _shared(scan, place, 1)
    if shared:
        _take(scan, shared, place, 1)
        return 1
    standard = _STANDARD.match(scan.text, word.start)
    if standard is not None:
        return sum(word.start <= each.start < standard.end() for each in scan.words)
    if word.folded in _ALTERNATIVES:
        scan.alternatives = True
    elif word.folded not in JOINING | HARMLESS | scan.lexicon.own_words or (
        place == 0 and _TO_AN_AMOUNT.match(scan.text)
    ):
        scan.left.append(word)
    return 1


def _ends(scan: _Scan, place: int, length: int) -> tuple[int, int]:
    return scan.words[place].start, scan.words[place + length - 1].end


def _take(scan: _Scan, meanings: Sequence[Meaning], place: int, length: int) -> None:
    """Note what words name: a fact, or a question where they stand for several values."""
    meaning = next((each for each in meanings if each.term is scan.lexicon.term), meanings[0])
    start, end = _ends(scan, place, length)
    if len(meaning.values) > 1:
        scan.questions.append(Question(meaning.term, meaning.values, start, end))
        return
    scan.facts.append(Fact(meaning.term, _value(meaning), start, end))


def _value(meaning: Meaning) -> Value:
    """Return the one value that words name, in the form of its term."""
    (name,) = meaning.values
    match meaning.term.kind.form:
        case Form.SET:
            return frozenset({name})
        case Form.YES_NO:
            return name == "yes"
        case _:
            return name


def _shared(scan: _Scan, place: int, length: int) -> tuple[Meaning, ...]:
    """Return what words name together with words that they share with their neighbor: "domestic cold & hot water".

    Behind "and" or a slash the first word of the value before counts as said again.
    """
    if place < 2 or scan.words[place - 1].folded not in ("and", "/") or not scan.facts:
        return ()
    before = [fact for fact in scan.facts if fact.term is scan.lexicon.term]
    if not before or before[-1].end > scan.words[place - 1].start:
        return ()
    first = key_of(scan.text[before[-1].start : before[-1].end])[:1]
    own = tuple(word.folded for word in scan.words[place : place + length])
    found = scan.lexicon.find([Word(each, 0, 0) for each in (*first, *own)], 0)
    alone = scan.lexicon.find(scan.words, place)
    if found is None or found.length != len(own) + 1:
        return ()
    if alone is not None and any(len(each.values) == 1 and each.term is scan.lexicon.term for each in alone.meanings):
        return ()
    return tuple(each for each in found.meanings if each.term is scan.lexicon.term)


def _shared_tail(scan: _Scan, place: int) -> tuple[Meaning, ...]:
    """Return what a word names with the last words of the name behind "and" or a slash: "supply & return air"."""
    if place + 2 >= len(scan.words) or scan.words[place + 1].folded not in ("and", "/"):
        return ()
    behind = scan.lexicon.find(scan.words, place + 2)
    term = scan.lexicon.term
    if behind is None or behind.length < 2 or all(each.term is not term for each in behind.meanings):
        return ()
    if _names_a_value(scan, place):
        return ()
    rest = [word.folded for word in scan.words[place + 3 : place + 2 + behind.length]]
    found = scan.lexicon.find([Word(each, 0, 0) for each in (scan.words[place].folded, *rest)], 0)
    if found is None or found.length != behind.length:
        return ()
    return tuple(each for each in found.meanings if each.term is term)


def _names_a_value(scan: _Scan, place: int) -> bool:
    """Whether a word by itself names one value of the expected term."""
    alone = scan.lexicon.find(scan.words, place)
    return alone is not None and any(
        each.term is scan.lexicon.term and len(each.values) == 1 for each in alone.meanings
    )


def _answer(scan: _Scan) -> None:
    """Drop a question that another word of the cell answers: `Mineral fiber (fiberglass)` is fiberglass."""
    for asked in list(scan.questions):
        own = {fact.value for fact in scan.facts if fact.term is asked.term}
        if len(own) == 1 and own <= set(asked.values):
            scan.questions.remove(asked)


def _without_origins(scan: _Scan) -> None:
    """Drop what stands right before a value and says where it comes from: the drain of "AHU cond. drain" is a pipe.

    Such words name a value of a term that the vocabulary infers otherwise from the value behind them.
    """
    for own in [fact for fact in scan.facts if fact.term is scan.lexicon.term]:
        for fact in [fact for fact in scan.facts if fact.term.inferred and not scan.text[fact.end : own.start].strip()]:
            inferred = {one.value for one in fact.term.inferred if own.value in one.values}
            whole = all(choice.part_of == "" for choice in fact.term.choices if choice.name == fact.value)
            if fact.end <= own.start and inferred and fact.value not in inferred and whole:
                scan.facts.remove(fact)


def _without_rooms(scan: _Scan) -> None:
    """Leave over the rooms beside a service: a garage may be what "Garage exhaust" serves, and not where it runs.

    No system serves what lies outdoors or in the ground, and "in" says where a system runs. Of two places neither is
    that of the whole system.
    """
    if scan.lexicon.term.name == PLACE:
        return
    places = [fact for fact in scan.facts if fact.term.name == PLACE]
    several = len({fact.value for fact in places}) > 1
    for fact in places:
        words = scan.text[fact.start : fact.end]
        inside = _INSIDE.search(scan.text[: fact.start]) or _INSIDE.match(f"{words} ")
        if several or not (inside or is_never_served(fact.value, words)):
            scan.facts.remove(fact)
            scan.left += [word for word in scan.words if fact.start <= word.start < fact.end]
    scan.left.sort(key=lambda word: word.start)


def is_never_served(place: Value, words: str) -> bool:
    """Whether a place, as words name it, is none that a system serves: outdoors, in the ground, or all within walls."""
    return place in _NEVER_SERVED or words.casefold() in _WITHIN_WALLS


def _give_way(scan: _Scan) -> None:
    """Where a cell names two values, one that a term beside can have is that term's: "ASJ + PVC" has a PVC jacket."""
    term = scan.lexicon.term
    own = [fact for fact in scan.facts if fact.term is term]
    if len({fact.value for fact in own}) < 2 or term.kind.form is not Form.CHOICE:
        return
    if len({_in_brackets(scan.text, fact.start) for fact in own if fact.value != "none"}) > 1:
        return  # `ASJ (PVC at fittings)`: what stands in brackets is a remark on the other
    for fact in own:
        others = scan.lexicon.find(words_of(scan.text[fact.start : fact.end]), 0)
        by_itself = others is not None and any(each.term is term for each in others.meanings)
        elsewhere = [each for each in others.meanings if each.term is not term] if others and by_itself else []
        alike = any(_are_alike(fact.value, other.value) for other in own if other is not fact)
        aside = [each for each in elsewhere if each.term.proposed or not alike]
        rest = {other.value for other in scan.facts if other.term is term and other is not fact}
        if aside and rest and fact.value != "none" and not scan.alternatives:
            scan.facts[scan.facts.index(fact)] = Fact(aside[0].term, _value(aside[0]), fact.start, fact.end)


def _are_alike(value: Value, other: Value) -> bool:
    """Whether two values are of one kind by the last words of their names, as supply air and return air are."""
    return str(value).split()[-1:] == str(other).split()[-1:] and value != other


def _remark_in_brackets(scan: _Scan) -> None:
    """Where brackets hold another value than the words before them, what they hold is a remark: left over."""
    term = scan.lexicon.term
    outside = [fact for fact in scan.facts if fact.term is term and not _in_brackets(scan.text, fact.start)]
    inside = [fact for fact in scan.facts if fact.term is term and _in_brackets(scan.text, fact.start)]
    if not outside or all(fact.value in {other.value for other in outside} for fact in inside):
        return
    for fact in inside:
        scan.facts.remove(fact)
        scan.left += [word for word in scan.words if fact.start <= word.start < fact.end]
    scan.left.sort(key=lambda word: word.start)


def _in_brackets(text: str, place: int) -> bool:
    return text.count("(", 0, place) > text.count(")", 0, place)


def _as_text_beside(scan: _Scan) -> None:
    """Give words left over to a term of free text beside: a room, by its number or before brackets with its kind."""
    others = [term for term in scan.lexicon.beside if term.kind.form is Form.TEXT]
    own = [fact for fact in scan.facts if fact.term is scan.lexicon.term]
    if len(others) != 1 or len({fact.value for fact in own}) != 1 or not scan.left:
        return
    kind_in_brackets = all(_in_brackets(scan.text, fact.start) for fact in own)
    outside = not any(_in_brackets(scan.text, word.start) for word in scan.left)
    if (kind_in_brackets and outside) or all(word.folded.isdecimal() for word in scan.left):
        start, end = scan.left[0].start, scan.left[-1].end
        scan.facts.append(Fact(others[0], scan.text[start:end], start, end))
        scan.left.clear()


def _own_spellings(scan: _Scan) -> frozenset[str]:
    """The words of all spellings of the values that were found: "foam" behind "polyiso" says nothing more."""
    found = {(fact.term.name, fact.value) for fact in scan.facts}
    return frozenset(
        word
        for term in (scan.lexicon.term, *scan.lexicon.beside)
        for choice in term.choices
        if (term.name, choice.name) in found
        for spelling in (choice.name, *choice.also)
        for word in key_of(spelling)
    )


def _spans(scan: _Scan) -> Iterator[Span]:
    """Yield the words left over, neighbors together."""
    start = end = -1
    last = None
    own = _own_spellings(scan) if scan.left else frozenset()
    for word in scan.left:
        if word.folded in own:
            continue
        index = scan.words.index(word)
        if last is not None and index == last + 1:
            end = word.end
        else:
            if last is not None:
                yield Span(scan.text[start:end], start, end)
            start, end = word.start, word.end
        last = index
    if last is not None:
        yield Span(scan.text[start:end], start, end)
