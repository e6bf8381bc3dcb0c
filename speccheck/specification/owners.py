"""Of what an amount is an amount: "3 inches wide" behind "vapor stops" is the width of the vapor stops."""

from __future__ import annotations

import re
from collections.abc import Sequence

from speccheck.language.vocabulary.terms import Form, Term, Vocabulary
from speccheck.phrases.attached import attached_in
from speccheck.phrases.names import index_of, named_in, tokens_of
from speccheck.phrases.worded_amounts import WordedAmount
from speccheck.quantities import unit_dimensions
from speccheck.specification.pieces import singular_words

# "Jackets lapped 2 inches" have an overlap of that.
NOUNS = {"lapped": "overlap", "lap": "overlap", "overlapped": "overlap", "spaced": "spacing", "space": "spacing"}
_OF_THICKNESS = ("in", "mm", "mil")
Owner = tuple[int, int, Term]
_EVERY = re.compile(r"\b(?:every|spaced|intervals?|on\s+centers?|apart)\b", re.IGNORECASE)
_VAPOR_STOPS = re.compile(r"vapou?r (?:stops?|dams?)", re.IGNORECASE)
_OF = re.compile(r"\s+of\s+(?P<what>[\w-]+(?:\s+[\w-]+){0,2})", re.IGNORECASE)


def owner_of(
    amount: WordedAmount,
    text: str,
    measured: Sequence[Owner],
    vocabulary: Vocabulary,
    subject: str = "",
    *,
    insulates: bool = False,
) -> Owner | None:
    """Return the term that an amount is of, and where it is named; `measured` has the measured terms of the text.

    `subject` is what stands before a colon: "PVC jacket: 20 mils, minimum" is a thickness of the jacket. `insulates`
    says that the verb of the sentence does: "shall be insulated to not less than 19 mm".
    """
    found = _beside_a_value(amount, text, vocabulary) or _owner_in(amount, text, measured, vocabulary, subject)
    if (
        found is None
        and insulates
        and amount.unit in _OF_THICKNESS
        and not measured
        and "thickness" in vocabulary.terms
    ):
        return amount.start, amount.end, vocabulary.terms["thickness"]
    if found is None and subject and amount.unit in _OF_THICKNESS and not measured:
        term = _thickness_of(f"{subject} {text}", vocabulary)
        of_material = term is not None and (
            term.name != "thickness" or names_insulation(f"{subject} {text}", vocabulary)
        )
        found = (amount.start, amount.end, term) if of_material and term is not None else None
    return found


def _beside_a_value(amount: WordedAmount, text: str, vocabulary: Vocabulary) -> Owner | None:
    """Return the term of an amount that stands beside a value, as in cells: the jacket's of "0.016 inch aluminum"."""
    if amount.along not in ("", "thickness") or amount.unit not in _OF_THICKNESS:
        return None
    terms = [
        term
        for one in attached_in(text, vocabulary)
        if one.start <= amount.number_start < one.end
        for term in one.terms
        if term.kind.dimension in _dimensions(amount)
    ]
    return (amount.start, amount.end, terms[0]) if len(terms) == 1 else None


def _owner_in(
    amount: WordedAmount, text: str, measured: Sequence[Owner], vocabulary: Vocabulary, subject: str
) -> Owner | None:
    if _is_of_insulation(amount, text, vocabulary):
        term = vocabulary.terms.get("thickness")
        return None if term is None else (amount.start, amount.end, term)
    if amount.along:
        return _along(amount, text if text.startswith(subject) else f"{subject} {text}", vocabulary)
    dimensions = _dimensions(amount)
    fitting = [one for one in measured if one[2].kind.dimension in dimensions]
    whole = _named_whole(text, dimensions, vocabulary)
    if whole is not None:
        return (*(fitting[-1][:2] if fitting else (amount.start, amount.end)), whole)
    if amount.unit in ("in", "ft", "mm", "m") and _EVERY.search(text):
        spacing = [one for one in fitting if one[2].name.endswith("spacing")]
        stops = _VAPOR_STOPS.search(text)
        if not spacing and stops is not None and "vapor stop spacing" in vocabulary.terms:
            return (*stops.span(), vocabulary.terms["vapor stop spacing"])
        fitting = spacing or fitting
    if amount.text.startswith("R") and not fitting and "installed R-value" in vocabulary.terms:
        return amount.start, amount.end, vocabulary.terms["installed R-value"]
    if not amount.unit and amount.text[0].isdigit():
        fitting = [one for one in measured if one[2].kind.form in (Form.NUMBER, Form.COUNT)]
        nearest = min(fitting, key=lambda one: _distance(one, amount), default=None)
        return nearest
    before = [one for one in fitting if one[1] <= amount.start]
    return (before or fitting)[-1] if fitting else None


def _distance(owner: Owner, amount: WordedAmount) -> int:
    """Return how far a name stands from an amount; one behind it counts as further."""
    return amount.start - owner[1] if owner[1] <= amount.start else 2 * (owner[0] - amount.end)


def names_insulation(text: str, vocabulary: Vocabulary) -> bool:
    """Whether a text names an insulation."""
    return any("insulation" in dict(one.values) for one in named_in(tokens_of(text), index_of(vocabulary)))


def _dimensions(amount: WordedAmount) -> tuple[str, ...]:
    if amount.text[0].isalpha():
        return ("thermal resistance",) if amount.text.startswith("R") else ()
    return tuple(unit_dimensions(amount.unit)) if amount.unit else ()


def _is_of_insulation(amount: WordedAmount, text: str, vocabulary: Vocabulary) -> bool:
    """Whether an amount of length is one of insulation: "2 inches of mineral wool"."""
    found = _OF.match(text, amount.end)
    if found is None or "length" not in _dimensions(amount):
        return False
    first = next(iter(named_in(tokens_of(found["what"]), index_of(vocabulary))), None)
    return (
        first is not None and first.start == 0 and ("insulation" in dict(first.values) or "insulation" in first.terms)
    )


def _along(amount: WordedAmount, text: str, vocabulary: Vocabulary) -> Owner | None:
    """Return the thickness, width or length that is meant: the one of what the piece names, the insulation's else."""
    if amount.along == "thickness":
        term = _thickness_of(text, vocabulary)
        return None if term is None else (amount.start, amount.end, term)
    words = singular_words(text) | {amount.along}
    fitting = [
        term
        for term in vocabulary.terms.values()
        if term.name.split()[-1] == amount.along and {word.rstrip("s") for word in term.name.split()} <= words
    ]
    longest = max((len(term.name.split()) for term in fitting), default=0)
    best = [term for term in fitting if len(term.name.split()) == longest]
    return (amount.start, amount.end, best[0]) if len(best) == 1 and longest > 1 else None


def _thickness_of(text: str, vocabulary: Vocabulary) -> Term | None:
    """Return whose thickness a piece speaks of: the jacket's where it names no insulation, None where it names both."""
    if re.search(r"\bjackets?\b", text, re.IGNORECASE) is None:
        return vocabulary.terms.get("thickness")
    named = named_in(tokens_of(text), index_of(vocabulary))
    insulation = re.search(r"\binsulation\b", text, re.I) or any(dict(one.values).get("insulation") for one in named)
    return None if insulation else vocabulary.terms.get("jacket thickness")


def _named_whole(text: str, dimensions: Sequence[str], vocabulary: Vocabulary) -> Term | None:
    """Return the term of a dimension whose name has several words, all of them in the piece: the one with most."""
    words = singular_words(text)
    words |= {noun for verb, noun in NOUNS.items() if verb in words}
    fitting = [
        term
        for term in vocabulary.terms.values()
        if term.kind.dimension in dimensions
        and term.kind.dimension
        and len(term.name.split()) > 1
        and singular_words(term.name) <= words
    ]
    most = max((len(term.name.split()) for term in fitting), default=0)
    best = [term for term in fitting if len(term.name.split()) == most]
    together = [term for term in best if term.name.casefold() in text.casefold()]
    chosen = together if len(best) > 1 else best
    return chosen[0] if len(chosen) == 1 else None
