"""Cells that hold more than one value: the value of their own column, and what they say of others beside it."""

from __future__ import annotations

from collections.abc import Iterator

from speccheck.language.vocabulary.terms import Term, Vocabulary
from speccheck.language.vocabulary.values import BareUnits, NotGiven, Value, write_value
from speccheck.phrases import DENYING, read_cell
from speccheck.phrases.words import key_of
from speccheck.schedule.lines import Datum


def phrase_value(text: str, term: Term, vocabulary: Vocabulary, bare: BareUnits) -> tuple[Value, str, str] | None:
    """Return the one value that the words of a cell state of its own term, how it was read, and what was not, or None.

    There is none where the words state several, may stand for several, or hold others that nobody knows. Words in
    brackets that nobody knows are a remark, and the last text quotes them ("" for none).
    """
    phrase = read_cell(text, term, vocabulary, bare)
    values = phrase.values_of(term.name)
    if len(values) != 1 or phrase.alternatives or any(asked.term is term for asked in phrase.questions):
        return None
    remarks = [span for span in phrase.left_over if _in_brackets(text, span.start)]
    if len(remarks) < len(phrase.left_over):
        return None
    if any(word in DENYING for span in remarks for word in key_of(span.text)):
        return None
    note = f"read as {write_value(values[0], term)}"
    return values[0], note, " and ".join(f"`{span.text}`" for span in remarks)


def _in_brackets(text: str, place: int) -> bool:
    return any(text.count(opening, 0, place) > text.count(closing, 0, place) for opening, closing in ("()", "[]"))


def facts_beside(datum: Datum, term: Term, vocabulary: Vocabulary, system: str) -> Iterator[tuple[str, Datum]]:
    """Yield the terms of which a cell of another term states one value, each with its datum.

    Only a cell whose own value was read says anything of other terms.
    """
    if isinstance(datum.value, NotGiven) or not datum.text:
        return
    phrase = read_cell(datum.text, term, vocabulary, BareUnits(system=system))
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
