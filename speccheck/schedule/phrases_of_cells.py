"""Cells that hold more than one value: the value of their own column, and what they say of others beside it."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

from speccheck.language.vocabulary.terms import Term, Vocabulary
from speccheck.language.vocabulary.values import BareUnits, NotGiven, Value, read_value, write_value
from speccheck.phrases import DENYING, Span, read_cell
from speccheck.phrases.cells import WHERE
from speccheck.phrases.terminals import PLACE, is_never_served
from speccheck.phrases.words import key_of
from speccheck.quantities import Misread, Quantity
from speccheck.schedule.lines import Datum

_LAYERS = re.compile(r"(?P<count>[2-5])\s*(?:layers?|x|@)\s*(?:of\s+|@\s*)?(?P<each>.+)", re.IGNORECASE)
_ENDS_IN_A_WORD = re.compile(r"\w\s+$")
_HAS_UNIT = re.compile(r"[^\d\s.,/-]")
_LIKE = 0.06  # as 40 mm stand for 1-1/2 in
_ONE_DEGREE = 1.2  # kelvin


def phrase_value(text: str, term: Term, vocabulary: Vocabulary, bare: BareUnits) -> tuple[Value, str, str] | None:
    """Return the one value that the words of a cell state of its own term, how it was read, and what was not, or None.

    There is none where the words state several, may stand for several, or hold others that nobody knows. Words in
    brackets that nobody knows, or that say where a system runs, are a remark, and the last text quotes them ("" for
    none).
    """
    phrase = read_cell(text, term, vocabulary, bare)
    values = phrase.values_of(term.name)
    if len(values) != 1 or phrase.alternatives or any(asked.term is term for asked in phrase.questions):
        return None
    if any(
        not (_in_brackets(text, span.start) or _says_where(text, span, term, vocabulary)) for span in phrase.left_over
    ):
        return None
    remarks = [span for span in phrase.left_over if not _says_again(text, span, values[0], term, vocabulary, bare)]
    if any(word in DENYING for span in remarks for word in key_of(span.text)):
        return None
    if term.kind.ordered and any(_says_another(text, span, values[0], term, vocabulary, bare) for span in remarks):
        return None
    note = f"read as {write_value(values[0], term)}"
    return values[0], note, " and ".join(f"`{span.text}`" for span in remarks)


def _says_where(text: str, span: Span, own: Term, vocabulary: Vocabulary) -> bool:
    """Whether words left over say where a system runs, or what it serves: "serving AHU-1", "Garage" of an exhaust.

    Right behind a service, a room is rather a part of its name: "mixed air plenum".
    """
    if WHERE.match(text, span.start):
        return True
    term = vocabulary.terms.get(PLACE)
    if term is None or not own.tells_apart:
        return False
    said = read_cell(span.text, term, vocabulary)
    if not said.facts or said.left_over or said.questions:
        return False
    behind_a_word = _ENDS_IN_A_WORD.search(text[: span.start]) is not None
    return not behind_a_word or all(is_never_served(fact.value, span.text) for fact in said.facts)


def _in_brackets(text: str, place: int) -> bool:
    return any(text.count(opening, 0, place) > text.count(closing, 0, place) for opening, closing in ("()", "[]"))


def _says_another(text: str, span: Span, value: Value, term: Term, vocabulary: Vocabulary, bare: BareUnits) -> bool:
    """Whether brackets hold another amount of the same term: the 2" of `1" (2" outdoors)`, which is no mere remark.

    The same amount in another unit is none, and neither are layers that come to it: `2" (2 layers of 1")`.
    """
    inner = _inside(text, span)
    layers = _LAYERS.fullmatch(inner.strip())
    other = read_value(layers["each"], term, bare) if layers else None
    if isinstance(value, Quantity) and isinstance(other, Quantity) and layers:
        return not math.isclose(float(layers["count"]) * other.value, value.value, rel_tol=_LIKE)
    said = read_cell(inner, term, vocabulary, bare).values_of(term.name)
    return any(not are_alike(value, each) for each in said)


def _says_again(text: str, span: Span, value: Value, term: Term, vocabulary: Vocabulary, bare: BareUnits) -> bool:
    """Whether brackets hold nothing but the same amount once more, as in another unit: `2" (DN 50)`, `1" (25 mm)`.

    A figure alone is no amount in brackets: the 1 of `1" (1)` is the mark of a note.
    """
    inner = _inside(text, span).strip()
    if not term.kind.ordered or not _HAS_UNIT.search(inner):
        return False
    other = read_value(inner, term, bare)
    return not isinstance(other, Misread | NotGiven) and are_alike(value, other)


def _inside(text: str, span: Span) -> str:
    """Return the words in the brackets in which some words stand."""
    begin = max(text.rfind(opening, 0, span.start + 1) for opening in "([") + 1
    return re.split(r"[)\]]", text[begin:])[0]


def are_alike(value: Value, other: Value) -> bool:
    """Whether two values are one but for rounding in another unit."""
    if isinstance(value, Quantity) and isinstance(other, Quantity):
        near = _ONE_DEGREE if value.dimension == "temperature" else _LIKE * abs(value.value)
        return abs(value.value - other.value) <= near
    return value == other


def says_of_others_alone(text: str, term: Term, vocabulary: Vocabulary, bare: BareUnits) -> bool:
    """Whether a cell that states no value of its own term is understood all the same: `7/8" OD` among nominal sizes."""
    phrase = read_cell(text, term, vocabulary, bare)
    open_ = phrase.left_over or phrase.questions or phrase.alternatives
    return bool(phrase.facts) and not open_ and all(fact.term is not term for fact in phrase.facts)


def facts_beside(datum: Datum, term: Term, vocabulary: Vocabulary, system: str) -> Iterator[tuple[str, Datum]]:
    """Yield the terms of which a cell of another term states one value, each with its datum.

    Only a cell whose own value was read, or that states none and is understood, says anything of other terms.
    """
    bare = BareUnits(system=system)
    if not datum.text or (
        isinstance(datum.value, NotGiven) and not says_of_others_alone(datum.text, term, vocabulary, bare)
    ):
        return
    phrase = read_cell(datum.text, term, vocabulary, bare)
    if phrase.alternatives:
        return
    for name in dict.fromkeys(fact.term.name for fact in phrase.facts):
        values = phrase.values_of(name)
        if name != term.name and len(values) == 1:
            fact = next(fact for fact in phrase.facts if fact.term.name == name)
            words = datum.text[fact.start : fact.end]
            yield (
                name,
                Datum(values[0], words, datum.place, f"from `{datum.text}` in the column of `{term.name}`", True),
            )
