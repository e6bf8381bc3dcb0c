"""Values of a sweep: texts to terms with all their values, each in the words that a schedule would have."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from speccheck.english import nearest
from speccheck.language.core import Ruleset
from speccheck.language.diagnostic_rules import Wording
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.vocabulary.terms import Form, Term, Vocabulary, fold
from speccheck.language.vocabulary.values import BareUnits, read_value
from speccheck.quantities import Interval, Misread, NominalSize, Quantity, as_number, as_quantity, read, sizes_in
from speccheck.review.sweep.messages import (
    BEGINS_WITH_NO_TERM,
    NO_RANGE_BEFORE_STEPS,
    NO_TERM_STATED,
    NO_VALUE_STATED,
    RANGE_WITHOUT_STEPS,
    STATED_TWICE,
    STEP_NOT_READ,
    SWEPT_VALUE_NOT_READ,
    TOO_MANY_STEPS,
    TOO_MANY_VALUES,
)

MOST_VALUES = 10_000
"""How many values of one term are read, one by one or in steps."""
_TERMS = re.compile(r"[^;\n]+")
_VALUES = re.compile(r"[^,]+(?:,(?=\d{3}\b)[^,]+)*")  # the comma of 1,000 parts no values
_STEPS = re.compile(r"(.+?)\s+every\s+(.+)", re.IGNORECASE)
_FILE = "the sweep"


@dataclass(frozen=True, slots=True)
class SweptTerm:
    """A term and the values that it takes, as texts that `read_value` reads."""

    term: Term
    texts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Words:
    """Some words of a text, and where they stand in it."""

    words: str
    text: str
    start: int

    def part(self, words: str, start: int) -> _Words:
        """Return words that begin `start` characters into these, without blanks around them."""
        return _Words(words.strip(), self.text, self.start + start + len(words) - len(words.lstrip()))

    def tell(self, said: Wording, *, near: str | None = None, **facts: object) -> Diagnostic:
        """Return what is said of the words, at their place."""
        return said.at(Place(_FILE, 1, self.start + 1, len(self.words)), self.text, near=near, **facts)


def read_swept(texts: Sequence[str], ruleset: Ruleset) -> tuple[tuple[SweptTerm, ...], tuple[Diagnostic, ...]]:
    """Return the terms that texts state, with their values, and what is wrong with them.

    Numbers without a unit are in the units of the ruleset.
    """
    swept: dict[str, SweptTerm] = {}
    problems: list[Diagnostic] = []
    for piece in (piece for text in texts for piece in _pieces(text)):
        found = _stated(piece, ruleset.vocabulary)
        if isinstance(found, Diagnostic):
            problems.append(found)
            continue
        term, rest = found
        if term.name in swept:
            problems.append(piece.tell(STATED_TWICE, term=term.name))
        parted = _parted(rest)
        if len(parted) > MOST_VALUES:
            problems.append(piece.tell(TOO_MANY_VALUES, term=term.name, number=len(parted), most=MOST_VALUES))
            continue
        values = [_values(words, term, ruleset) for words in parted]
        problems += [one for one in values if isinstance(one, Diagnostic)]
        known = dict.fromkeys(text for several in values if not isinstance(several, Diagnostic) for text in several)
        swept.setdefault(term.name, SweptTerm(term, tuple(known)))
    if not swept and not problems:
        problems.append(_Words("", "", 0).tell(NO_TERM_STATED))
    return tuple(swept.values()), tuple(problems)


def _pieces(text: str) -> Iterator[_Words]:
    """Yield the words of each term of a text."""
    whole = _Words(text, text, 0)
    pieces = (whole.part(found[0], found.start()) for found in _TERMS.finditer(text))
    return (piece for piece in pieces if piece.words)


def _parted(rest: _Words) -> list[_Words]:
    """Return the words of each value; where there is none, the place of the missing one."""
    parts = [rest.part(found[0], found.start()) for found in _VALUES.finditer(rest.words)]
    return [part for part in parts if part.words] or [rest]


def _stated(piece: _Words, vocabulary: Vocabulary) -> tuple[Term, _Words] | Diagnostic:
    """Return the term that the longest run of words at the start names, and the rest."""
    # Hyphens may stand between the words of a name, and no name has more words than the longest.
    longest = 2 * max((len(name.split()) for name in vocabulary.spellings), default=1)
    ends = [found.end() for found in islice(re.finditer(r"\S+", piece.words), longest)]
    for end in reversed(ends):
        term = vocabulary.find(piece.words[:end].rstrip(":="))
        if term is not None:
            return term, piece.part(piece.words[end:], end)
    near = nearest(" ".join(piece.words.split()[:2]), vocabulary.terms)
    return piece.tell(BEGINS_WITH_NO_TERM, near=near and f"{near} ...", words=piece.words)


def _values(words: _Words, term: Term, ruleset: Ruleset) -> tuple[str, ...] | Diagnostic:
    """Return the texts of the values that some words stand for."""
    if fold(words.words) == "all" and (named := _all(term)):
        return named
    steps = _STEPS.fullmatch(words.words)
    if steps is not None:
        return _stepped(words, steps[1], steps[2], term, ruleset)
    value = read_value(words.words, term, BareUnits(system=ruleset.units))
    if isinstance(value, Misread):
        return words.tell(SWEPT_VALUE_NOT_READ, sentence=value.message, advice=value.help)
    if not words.words:
        return words.tell(NO_VALUE_STATED, term=term.name)
    if not isinstance(value, Interval):
        return (words.words,)
    if isinstance(value.low if value.low is not None else value.high, NominalSize):
        system = "metric" if ruleset.units == "metric" else "inch-pound"
        return tuple(size.written(system) for size in sizes_in(value))  # type: ignore[arg-type]
    return words.tell(RANGE_WITHOUT_STEPS, words=words.words)


def _all(term: Term) -> tuple[str, ...]:
    """Return every value of a term with a closed list; none for any other."""
    if term.kind.form is Form.YES_NO:
        return ("yes", "no")
    return tuple(dict.fromkeys(choice.name for choice in term.choices))


def _stepped(words: _Words, span: str, step: str, term: Term, ruleset: Ruleset) -> tuple[str, ...] | Diagnostic:
    """Return the values of a range from its low end on, in steps; the high end is one of them where a step meets it."""
    value = read_value(span, term, BareUnits(system=ruleset.units))
    if isinstance(value, Misread):
        return words.tell(SWEPT_VALUE_NOT_READ, sentence=value.message, advice=value.help)
    low, high = (value.low, value.high) if isinstance(value, Interval) else (None, None)
    if low is None or high is None or isinstance(low, NominalSize):
        return words.tell(NO_RANGE_BEFORE_STEPS, words=span)
    size = _step(step, low)
    if isinstance(size, Misread):
        return words.tell(STEP_NOT_READ, sentence=size.message, advice=size.help)
    first, last = _bare(low), _bare(high)  # type: ignore[arg-type]
    if size <= 0 or not 0 <= (last - first) / size <= MOST_VALUES:
        return words.tell(TOO_MANY_STEPS, words=words.words, most=MOST_VALUES)
    numbers = (first + number * size for number in range(math.floor((last - first) / size + 1e-9) + 1))
    kept = (_like(number, low) for number in numbers)
    return tuple(_written(one) for one in kept if value.contains(one))  # type: ignore[union-attr, arg-type]


def _step(text: str, low: object) -> float | Misread:
    """Return the size of a step in SI units, or as a plain number; steps of temperatures are differences."""
    if not isinstance(low, Quantity):
        number = as_number(read(text))
        return _one(number, text)
    difference = low.dimension == "temperature"
    found = as_quantity(read(text), "temperature difference" if difference else low.dimension, low.unit)
    return _one(found, text)


def _one(found: Quantity | float | Interval[Quantity] | Interval[float] | Misread, text: str) -> float | Misread:
    """Return the bare number of a step, which is no range."""
    if isinstance(found, Interval):
        return Misread(text, f"`{text}` is a range where a step is needed", "write one value", 0, len(text))
    return found if isinstance(found, Misread) else _bare(found)


def _bare(value: Quantity | float) -> float:
    return value.value if isinstance(value, Quantity) else float(value)


def _like(number: float, end: Quantity | float) -> Quantity | float:
    """Return a number as its low end is, to 12 digits, so that sums of steps show no dust."""
    if not isinstance(end, Quantity):
        return float(f"{number:.12g}")
    return Quantity(number, end.dimension, end.unit)


def _written(value: Quantity | float) -> str:
    """Write a value as a person would ("1-1/2 in"), or to 12 digits where that would not read back as the same."""
    if not isinstance(value, Quantity):
        return f"{value:.12g}"
    shown = str(value)
    back = as_quantity(read(shown), value.dimension, value.unit)
    if isinstance(back, Quantity) and math.isclose(back.value, value.value, rel_tol=1e-12, abs_tol=1e-12):
        return shown
    return f"{value.in_unit(value.unit):.12g} {value.unit}"
