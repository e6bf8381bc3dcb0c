"""What a piece of a sentence asks: "not less than 1-1/2 inches thick", "an aluminum or PVC jacket"."""

from __future__ import annotations

import re

from speccheck.language.vocabulary.terms import Form, Term, Vocabulary
from speccheck.specification.amounts import Amount, amounts_in
from speccheck.specification.pieces import JOINING, Piece, placed, rest_of
from speccheck.specification.words import Named, index_of, named_in, spellings, tokens_of

_OF_UNITS = {
    "in": "length",
    "ft": "length",
    "mm": "length",
    "m": "length",
    "mil": "length",
    "F": "temperature",
    "C": "temperature",
}
_DIMENSIONS = {"perm": "permeance", "lb/ft3": "density", "Btu.in/(h.ft2.F)": "conductivity", "W/(m.K)": "conductivity"}
_ASKED_WORDS = JOINING | {
    "have",
    "shall",
    "must",
    "made",
    "complete",
    "continuous",
    "intervals",
    "centers",
    "spaced",
    "apart",
    "every",
}
_PROPOSED_FIRST = ("insulation", "jacket", "facing", "vapor retarder", "seam closure")
_EVERY = re.compile(r"\b(?:every|spaced|intervals?|on\s+centers?|apart)\b", re.IGNORECASE)


def asked_in(text: str, vocabulary: Vocabulary, *, negative: bool = False) -> Piece:
    """Return what a piece asks as clause text, each requirement on its own, and what was not understood."""
    piece = Piece()
    tokens = tokens_of(text)
    places = placed(text, tokens)
    named = list(named_in(tokens, index_of(vocabulary)))
    spans: list[tuple[int, int]] = []
    amounts = amounts_in(text)
    inside = [(one.start, one.end) for one in amounts]
    for amount in amounts:
        _amount(amount, text, _spoken_of(named, places, inside, vocabulary), vocabulary, spans, piece)
    _choices(named, places, [*inside, *spans], vocabulary, negative, spans, piece)
    piece.left_over += rest_of(text, [*spans, *inside], _ASKED_WORDS)
    if negative and amounts:
        piece.doubts.append("an amount in a sentence that forbids something")
    return piece


def _spoken_of(
    named: list[Named], places: list[tuple[int, int]], inside: list[tuple[int, int]], vocabulary: Vocabulary
) -> list[tuple[int, int, Term]]:
    """Return the measured terms that a piece names, with where they stand."""
    found = []
    for one in named:
        start, end = places[one.start][0], places[one.end - 1][1]
        if any(begin < end and start < stop for begin, stop in inside) or len(one.terms) != 1:
            continue
        term = vocabulary.terms[one.terms[0]]
        if term.kind.ordered:
            found.append((start, end, term))
    return found


def _amount(
    amount: Amount,
    text: str,
    spoken: list[tuple[int, int, Term]],
    vocabulary: Vocabulary,
    spans: list[tuple[int, int]],
    piece: Piece,
) -> None:
    """Add what an amount asks of the term that it belongs to."""
    start, end, term = _belongs(amount, text, spoken, vocabulary)
    relation = amount.relation
    if term is None:
        piece.doubts.append(f"it is not said of what `{amount.text}` is an amount")
        return
    spans.append((start, end))
    if relation in ("more than", "less than"):
        piece.doubts.append(f"`{amount.text}` may be meant with or without its end")
    if not relation:
        relation = "at most" if term.name.endswith("spacing") else "at least" if term.name == "thickness" else ""
        if not relation:
            piece.doubts.append(f"`{amount.text}` is said without least or most")
    piece.texts.append(f"{term.name} be {relation} {amount.text}".replace("  ", " "))


def _belongs(
    amount: Amount, text: str, spoken: list[tuple[int, int, Term]], vocabulary: Vocabulary
) -> tuple[int, int, Term | None]:
    """Return the term that an amount is of: the nearest of its kind before it, or "thick" behind it."""
    dimension = _OF_UNITS.get(amount.unit) or _DIMENSIONS.get(amount.unit, "")
    behind = re.match(r"[\s-]*(?:thick|thickness|wall)\b", text[amount.end :], re.IGNORECASE)
    if behind is not None and dimension == "length":
        return amount.end, amount.end + behind.end(), _thickness_of(text, vocabulary)
    whole = _named_whole(text, dimension, vocabulary)
    if whole is not None:
        of_kind = [one for one in spoken if one[2].kind.dimension == dimension]
        start, end = of_kind[-1][:2] if of_kind else (amount.start, amount.end)
        return start, end, whole
    fitting = [one for one in spoken if one[1] <= amount.start and one[2].kind.dimension == dimension]
    fitting = fitting or [one for one in spoken if one[2].kind.dimension == dimension]
    if dimension == "length" and _EVERY.search(text):
        spacing = [one for one in spoken if one[2].name.endswith("spacing")]
        stops = re.search(r"vapou?r (?:stops?|dams?)", text, re.IGNORECASE)
        if not spacing and stops is not None:
            return (*stops.span(), vocabulary.terms.get("vapor stop spacing"))
        fitting = spacing or fitting
    if amount.text.startswith("R") and "installed resistance" in vocabulary.terms:
        term = vocabulary.terms["installed resistance"]
        places = [one[:2] for one in spoken if one[2] is term]
        start, end = places[-1] if places else (amount.start, amount.end)
        return start, end, term
    if dimension == "" and amount.unit == "":
        fitting = [one for one in spoken if one[2].kind.form in (Form.NUMBER, Form.COUNT)]
    return fitting[-1] if fitting else (amount.start, amount.end, None)


def _thickness_of(text: str, vocabulary: Vocabulary) -> Term | None:
    """Return whose thickness a piece speaks of: the jacket's where it names no insulation, None where it names both."""
    index = index_of(vocabulary)
    named = list(named_in(tokens_of(text), index))
    jacket = re.search(r"\bjackets?\b", text, re.IGNORECASE) is not None
    insulation = any(dict(one.values).get("insulation") for one in named) or re.search(r"\binsulation\b", text, re.I)
    if jacket and insulation:
        return None
    return vocabulary.terms.get("jacket thickness" if jacket else "thickness")


def _named_whole(text: str, dimension: str, vocabulary: Vocabulary) -> Term | None:
    """Return the term of a dimension whose name has several words, all of them in the piece: the one with most."""
    words = {word.rstrip("s") for word in re.findall(r"[a-z]+", text.casefold())}
    fitting = [
        term
        for term in vocabulary.terms.values()
        if term.kind.dimension == dimension
        and len(term.name.split()) > 1
        and {word.rstrip("s") for word in re.findall(r"[a-z]+", term.name.casefold())} <= words
    ]
    return max(fitting, key=lambda term: len(term.name.split()), default=None)


def _choices(
    named: list[Named],
    places: list[tuple[int, int]],
    taken: list[tuple[int, int]],
    vocabulary: Vocabulary,
    negative: bool,
    spans: list[tuple[int, int]],
    piece: Piece,
) -> None:
    """Add what named values ask: one of them, each of them for a set, none of them where the sentence forbids."""
    heads = {name for one in named for name in (*one.terms, *_heads(one, vocabulary))}
    found: dict[str, list[str]] = {}
    for one in named:
        start, end = places[one.start][0], places[one.end - 1][1]
        if any(begin < end and start < stop for begin, stop in taken):
            continue
        chosen = None if set(one.terms) - {term for term, _ in one.values} else _chosen(one, heads, vocabulary)
        if chosen is not None:
            found.setdefault(chosen[0], []).append(chosen[1])
            spans.append((start, end))
        elif one.terms and set(one.terms) & {term for other in named for term, _ in other.values if other is not one}:
            spans.append((start, end))
    for name, values in found.items():
        listed = ", ".join(dict.fromkeys(values))
        if vocabulary.terms[name].kind.form is Form.SET:
            piece.texts.append(f"{name} {'exclude' if negative else 'include'} {listed}")
        elif negative:
            piece.texts.append(f"{name} be not one of {listed}")
        else:
            piece.texts.append(f"{name} be {'one of ' if ',' in listed else ''}{listed}")


def _heads(one: Named, vocabulary: Vocabulary) -> tuple[str, ...]:
    """Return the terms that single words of a name are: "jackets" of "PVC jackets"."""
    index = index_of(vocabulary)
    words = (spelling for word in one.words.split() for spelling in spellings([word]))
    return tuple(term for word in words for term in index.terms.get(word, ()))


def _chosen(one: Named, heads: set[str], vocabulary: Vocabulary) -> tuple[str, str] | None:
    """Return the term and the value that words ask for: of a term that the piece names, or of one that is proposed."""
    named = [(term, value) for term, value in one.values if term in heads]
    if len(named) == 1:
        return named[0]
    proposed = [(term, value) for term, value in one.values if vocabulary.terms[term].proposed]
    if len({term for term, _ in proposed}) == 1 and len(proposed) == 1:
        return proposed[0]
    for term in _PROPOSED_FIRST:
        values = [value for name, value in proposed if name == term]
        if len(values) == 1 and not named and term in heads:
            return term, values[0]
    return None
