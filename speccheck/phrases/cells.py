"""Cells: what the words of a cell say of the term of its column, and of the terms that stand beside it.

`1-1/2" FG w/ ASJ` in a column of thicknesses states a thickness, an insulation and a facing. A word that nobody knows
is left over, and then the cell was not read as a whole; two values where one is asked for are a question.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from speccheck.language.vocabulary.terms import Form, Term, Vocabulary
from speccheck.language.vocabulary.values import NO_UNITS, BareUnits, NotGiven, Value, read_value
from speccheck.phrases.bands import read_size_band
from speccheck.phrases.facts import Fact, Phrase, Span
from speccheck.phrases.interpreting import Said
from speccheck.phrases.layers import THICKNESS, layers_at
from speccheck.phrases.lexicon import lexicon_of
from speccheck.phrases.listed_sizes import band_in, consecutive_sizes
from speccheck.phrases.owners import in_pounds
from speccheck.phrases.pairs import pair_of
from speccheck.phrases.parsing import tree_of
from speccheck.phrases.terminals import Source, terminals_of
from speccheck.phrases.weighing import spans_left, weigh
from speccheck.phrases.words import words_of
from speccheck.quantities import Interval, Misread, Quantity

LONGEST_CELL = 200
SERVICE = "service"
_SIZE_WORD = re.compile(r"\d\s*(?:\"|''|″|in\b|inch|mm\b)|\b(?:NPS|DN)\s*\d|\bsizes?\b", re.IGNORECASE)
_FOR_SIZES = re.compile(r"^(?:for|on|in)\s+(?:sizes\s+)?", re.IGNORECASE)
_DIAMETER = re.compile(r"\s*[ØøΦφ⌀]\s*")
_SUPPLY_AND_RETURN = re.compile(
    r"(?<![^\W_])[SF]\s*[/&+]\s*R(?![^\W_])"
    r"|(?<=[^\W_])[\s,(–—-]+(?:supply|sup\.?|flow)\s*(?:[/&+,–—-]|and)\s*(?:return\b|ret\b\.?)(?!\s*(?:air|duct))",
    re.IGNORECASE,
)
_DECIMAL_COMMA = re.compile(r"(?<![\d.,])(?![1-9]\d{0,2},\d{3}(?!\d))(\d+),(\d+)(?![\d.,])")
_DEGREES_BY_LETTER = re.compile(r"(?<=\d)(\s?)[oº](?=[CF](?!\w))")
# Where a system runs, or what it serves, is no part of what it carries; a person has to read it all the same.
WHERE = re.compile(
    r"(?<=\s)(?:within|near|serving|between|(?:down|up)stream\s+of|(?:from|to|at)(?!\s*\d))(?!\w)", re.IGNORECASE
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


def read_cell(text: str, term: Term, vocabulary: Vocabulary, bare: BareUnits = NO_UNITS) -> Phrase:
    """Return what the text of a cell says, in a column of `term`; `bare` says what its bare numbers are in.

    A text that `read_value` reads is one fact and nothing is left over. The same text is read once.
    """
    return _read(text, term.name, id(vocabulary), bare, _Kept(vocabulary))


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


def _with_sizes(text: str, term: Term, bare: BareUnits, kept: _Kept) -> Phrase | None:
    """Read a service with the sizes that it is for, before or behind it: "Chilled water piping 2 inch and smaller".

    The sizes say that they are lengths, by a unit or as nominal sizes do: a number alone may be anything.
    """
    size = kept.vocabulary.terms.get("pipe size")
    sized = size is not None and len(text) <= LONGEST_CELL and _SIZE_WORD.search(text) is not None
    for found in re.finditer(r"[\s,(–—-]+", text) if sized else ():
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
    said = Said(Source(text, words_of(_without_marks(text)), lexicon, bare))
    said.cell(tree_of(terminals_of(said.source)))
    weigh(said)
    return Phrase(text, tuple(said.facts), tuple(said.questions), tuple(spans_left(said)), said.alternatives)


def _as_a_whole(text: str, term: Term, bare: BareUnits, vocabulary: Vocabulary) -> Sequence[tuple[Term, Value]]:
    """Return what an amount that is written in a way of its own says: a density in pounds, sizes, layers, a pair."""
    if term.kind.dimension == "density":
        density = read_value(in_pounds(text), term, bare)
        return [] if isinstance(density, Misread | NotGiven) else [(term, density)]
    if term.kind.dimension == "length" and _DIAMETER.match(text):
        stated = read_value(_DIAMETER.sub(" ", text).replace("~", " to "), term, bare) if bare.unit else None
        band = band_in(text, bare)
        if isinstance(stated, Quantity | Interval):
            return [(term, stated)]
        return [(term, band.value)] if band and band.term == term.name else []
    if term.kind.form is Form.SIZE:
        band = band_in(text, bare) or consecutive_sizes(text, bare)
        return [(vocabulary.terms[band.term], band.value)] if band and band.term in vocabulary.terms else []
    if len(text) > LONGEST_CELL:
        return []
    lexicon = lexicon_of(vocabulary, term)
    layers = layers_at(text, 0, lexicon) if term.name == THICKNESS else None
    return layers.values if layers is not None and layers.length == len(text) else pair_of(text, lexicon, bare)


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
