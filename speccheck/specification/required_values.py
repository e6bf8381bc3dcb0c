"""What a piece of a sentence asks: "not less than 1-1/2 inches thick", "an aluminum or PVC jacket"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from speccheck.language.vocabulary.terms import Form, Term, Vocabulary
from speccheck.phrases.names import JOINING, Named, index_of, named_in, spellings, tokens_of
from speccheck.phrases.worded_amounts import WordedAmount, amounts_in
from speccheck.quantities import unit_dimensions
from speccheck.specification.owners import NOUNS, owner_of
from speccheck.specification.parting import Parted
from speccheck.specification.pieces import Piece, parted_by_or, placed, rest_of, singular_words, turned

_ASKED_WORDS = JOINING | {
    *(
        "have",
        "shall",
        "must",
        "should",
        "made",
        "complete",
        "limit",
        "intervals",
        "centers",
        "center",
        "spaced",
        "apart",
    ),
    *("every", "either", "both", "located", "set", "placed", "index", "rating", "minimum", "maximum"),
}
# Terms whose values are said without their name: "Insulate with fiberglass", "ASTM C547".
_HOW = frozenset({"installed", "maximum", "minimum", "highest", "lowest"})  # these say how, and not of what
_COVERS = ("jacket", "facing", "vapor retarder")  # the same words stand for bands, shields, coatings and closures
_SAID_ALONE = ("insulation", "jacket", "facing", "vapor retarder", "insulation standard", "standard type")


@dataclass
class _Asking:
    """One piece while it is read: its names with their places, what was read so far, and where."""

    text: str
    vocabulary: Vocabulary
    heads: frozenset[str]
    subject: str = ""
    named: list[Named] = field(default_factory=list)
    places: list[tuple[int, int]] = field(default_factory=list)
    amounts: list[WordedAmount] = field(default_factory=list)
    spans: list[tuple[int, int]] = field(default_factory=list)
    terms: list[tuple[int, int, str]] = field(default_factory=list)
    piece: Piece = field(default_factory=Piece)

    def place_of(self, one: Named) -> tuple[int, int]:
        """Return where a name stands in the text."""
        return self.places[one.start][0], self.places[one.end - 1][1]

    def in_amount(self, start: int, end: int) -> bool:
        """Whether a place lies in an amount."""
        return any(one.start < end and start < one.end for one in self.amounts)

    def is_subject(self, start: int) -> bool:
        """Whether a place lies before the colon: what is named there is asked about."""
        return bool(self.subject) and self.text.startswith(self.subject) and start < len(self.subject)

    def is_taken(self, start: int, end: int) -> bool:
        """Whether a place lies in an amount, or in what was read."""
        return self.in_amount(start, end) or any(begin < end and start < stop for begin, stop in self.spans)


def asked_in(parted: Parted, vocabulary: Vocabulary) -> Piece:
    """Return what a parted sentence asks as clause text, each requirement on its own, and what was not understood."""
    text, negative = parted.asks, parted.negative
    tokens = tokens_of(text)
    one = _Asking(text, vocabulary, frozenset(parted.heads), parted.subject)
    one.places = placed(text, tokens)
    one.named = list(named_in(tokens, index_of(vocabulary)))
    one.amounts = list(amounts_in(text))
    for amount in one.amounts:
        _amount(one, amount)
    _choices(one, negative)
    _answers(one, negative)
    if parted.provided and not negative and not one.piece.texts:
        _there_at_all(one)
    _owners(one)
    inside = [(amount.start, amount.end) for amount in one.amounts]
    one.piece.left_over += rest_of(text, [*one.spans, *inside], _ASKED_WORDS | _said_by_amounts(one))
    one.piece.doubts += _of_its_subject(one)
    one.piece.doubts += (
        turned(text, [*one.spans, *inside]) + _for_between(one) + parted_by_or(text, one.terms, [*one.spans, *inside])
    )
    if negative and one.amounts:
        one.piece.doubts.append("an amount in a sentence that forbids something")
    return one.piece


def _said_by_amounts(one: _Asking) -> frozenset[str]:
    """Return the words of the names of measured terms: "pins" of the pin spacing, "lapped" of the overlap."""
    words = {word for start, end, term in one.terms if one.in_amount(start, end) for word in term.split()}
    verbs = {verb for verb, noun in NOUNS.items() if noun in words}
    return frozenset(words | {f"{word}s" for word in words} | verbs)


def _for_between(one: _Asking) -> list[str]:
    """Return a doubt for each "for" or "on" that stands between values of different terms: it says for which lines."""
    doubts = []
    chosen = sorted((start, end, term) for start, end, term in one.terms if not one.in_amount(start, end))
    for (_, end, term), (start, _, other) in pairwise(chosen):
        found = re.search(r"\b(?:for|on|over|around)\b", one.text[end:start], re.IGNORECASE)
        if found is not None and term != other:
            doubts.append(f"`{found[0]}` may say for which lines it is")
    return doubts


def _of_its_subject(one: _Asking) -> list[str]:
    """Return a doubt where a value stands before the verb, and more is asked behind it: "PVC jackets shall be ..."."""
    verb = re.search(r"\b(?:be|have)\b", one.text, re.IGNORECASE)
    if verb is None or len(one.piece.texts) < 2:
        return []
    before = [(start, end, term) for start, end, term in one.terms if end <= verb.start()]
    chosen = [place for place in before if one.vocabulary.terms[place[2]].kind.form is Form.CHOICE]
    behind = len(one.terms) > len(before)
    return [
        f"`{one.text[start:end]}` may be what is asked for, or that of which the rest is asked"
        for start, end, _ in chosen
        if behind
    ]


# ---- amounts -----------------------------------------------------------------------------------------------------


def _amount(one: _Asking, amount: WordedAmount) -> None:
    """Add what an amount asks of the term that it belongs to."""
    spoken = [(*one.place_of(name), one.vocabulary.terms[name.terms[0]]) for name in one.named if len(name.terms) == 1]
    measured = [
        (start, end, term) for start, end, term in spoken if term.kind.ordered and not one.in_amount(start, end)
    ]
    owner = owner_of(amount, one.text, measured, one.vocabulary, one.subject, insulates="insulation" in one.heads)
    if owner is None:
        one.piece.doubts.append(f"it is not said of what `{amount.text}` is an amount")
        return
    start, end, term = owner
    one.spans.append((start, end))
    relation = amount.relation
    if relation in ("more than", "less than"):
        one.piece.doubts.append(f"`{amount.text}` may be meant with or without its end")
    if not relation:
        relation = "at most" if term.name.endswith("spacing") else "at least" if term.name == "thickness" else ""
        if not relation:
            one.piece.doubts.append(f"`{amount.text}` is said without least or most")
    if not term.proposed and not term.computed:
        one.piece.doubts.append(f"nobody proposes the {term.name}; it may be a condition")
    one.piece.doubts += _of_which(one, term)
    if amount.unit and not set(unit_dimensions(amount.unit)) & {term.kind.dimension}:
        one.piece.doubts.append(f"`{amount.text}` is no {term.name}")
    one.terms.append((amount.start, amount.end, term.name))
    one.piece.texts.append(f"{term.name} be {relation} {amount.text}".replace("  ", " "))


def _of_which(one: _Asking, term: Term) -> list[str]:
    """Return a doubt where words name a term without what it is of, and others have the like: "VOC content"."""
    of, _, tail = term.name.partition(" ")
    others = [name for name in one.vocabulary.terms if name != term.name and name.partition(" ")[2] == tail]
    said = re.search(rf"\b{re.escape(of)}", f"{one.subject} {one.text}", re.IGNORECASE) is not None
    open_ = tail and others and not said and of not in _HOW
    return [f"it is not said of what `{tail}` is meant"] if open_ else []


# ---- names -------------------------------------------------------------------------------------------------------


def _choices(one: _Asking, negative: bool) -> None:
    """Add what named values ask: one of them, each of them for a set, none of them where the sentence forbids."""
    heads = one.heads | {name for each in one.named for name in (*each.terms, *_heads(each, one.vocabulary))}
    found: dict[str, list[tuple[str, int, int]]] = {}
    for each in one.named:
        start, end = one.place_of(each)
        if one.is_taken(start, end):
            continue
        others = frozenset(name for other in one.named if other is not each for name in other.terms) | one.heads
        if one.is_subject(start) or _is_said_by_term(one, each):
            continue
        chosen = _chosen(one, each, heads, others)
        if chosen is not None:
            found.setdefault(chosen[0], []).append((chosen[1], start, end))
            one.spans.append((start, end))
            one.terms.append((start, end, chosen[0]))
        elif each.terms and set(each.terms) & {term for other in one.named for term, _ in other.values}:
            one.spans.append((start, end))
    for name, values in found.items():
        _ask_choices(one, name, values, negative)


def _is_said_by_term(one: _Asking, each: Named) -> bool:
    """Whether words are part of the name of a term of which an amount was read: "coatings" of their VOC content."""
    words = {word.rstrip("s") for word in each.words.casefold().split()}
    return any(words < set(term.split()) for start, end, term in one.terms if one.in_amount(start, end))


def _ask_choices(one: _Asking, name: str, values: list[tuple[str, int, int]], negative: bool) -> None:
    """Add what the values named of one term ask."""
    listed = ", ".join(dict.fromkeys(value for value, _, _ in values))
    if "none" in listed.split(", "):
        one.piece.doubts.append("`none` may mean that nothing is asked, or that nothing may be there")
    if one.vocabulary.terms[name].kind.form is Form.SET:
        for (_, _, end), (_, start, _) in pairwise(values):
            if name != "excluded substances" and re.search(r"\bor\b", one.text[end:start], re.IGNORECASE):
                one.piece.doubts.append(f"one or all of these {name} may be meant")
        one.piece.texts.append(f"{name} {'exclude' if negative else 'include'} {listed}")
    elif negative:
        one.piece.doubts += _of_several(one, values)
        one.piece.texts.append(f"{name} be not one of {listed}")
    else:
        one.piece.texts.append(f"{name} be {'one of ' if ',' in listed else ''}{listed}")
        for (_, _, end), (value, start, _) in pairwise(values):
            if not re.search(r"\bor\b|,|/", one.text[end:start], re.IGNORECASE):
                one.piece.doubts.append(f"`{value}` is said beside another {name}, without `or` between them")


def _of_several(one: _Asking, values: Sequence[tuple[str, int, int]]) -> list[str]:
    """Return a doubt for each forbidden word alone that stands for values of several terms: "no PVC in plenums"."""
    places = {start for _, start, _ in values}
    alone = [each for each in one.named if one.place_of(each)[0] in places and len(each.words.split()) == 1]
    several = [each for each in alone if len({term for term, _ in each.values}) > 1]
    said = {term for each in one.named for term in each.terms}
    return [
        f"`{each.words}` is not only a {each.values[0][0]}"
        for each in several
        if not said & {t for t, _ in each.values}
    ]


def _heads(one: Named, vocabulary: Vocabulary) -> tuple[str, ...]:
    """Return the terms that single words of a name are: "jackets" of "PVC jackets"."""
    index = index_of(vocabulary)
    words = (spelling for word in one.words.split() for spelling in spellings([word]))
    return tuple(term for word in words for term in index.terms.get(word, ()))


def _chosen(one: _Asking, each: Named, heads: frozenset[str], others: frozenset[str]) -> tuple[str, str] | None:
    """Return the term and the value that words ask for: of a term that the piece names, or of one said alone.

    Only what is proposed can be asked for. What is a value of several terms, and is told apart by its own words only,
    is in doubt.
    """
    values = [(term, value) for term, value in each.values if one.vocabulary.terms[term].proposed]
    beside = [(term, value) for term, value in values if term in others]
    if len(beside) == 1:
        return beside[0]
    if set(each.terms) - {term for term, _ in each.values}:
        return None
    alone = [(term, value) for term, value in values if term in _SAID_ALONE]
    if not beside and len(alone) > 1 and len({value for _, value in alone}) == 1:
        one.piece.doubts.append(f"`{each.words}` may be meant as {' or '.join(term for term, _ in alone)}")
    last = each.words.casefold().split()[-1].rstrip("s")
    for choices in (
        [(term, value) for term, value in values if term in heads],
        [(term, value) for term, value in values if term.split()[-1] == last],
        alone,
    ):
        if choices is alone and any(term in _COVERS and len(values) > 1 for term, _ in alone):
            one.piece.doubts.append(f"`{each.words}` may be meant as {' or '.join(term for term, _ in values)}")
        if choices:
            return choices[0] if len(choices) == 1 else None
    return None


def _answers(one: _Asking, negative: bool) -> None:
    """Add the yes-or-no terms that a piece names."""
    for each in one.named:
        start, end = one.place_of(each)
        answered = [name for name in each.terms if one.vocabulary.terms[name].kind.form is Form.YES_NO]
        if len(answered) != 1 or len(each.terms) != 1 or each.values or one.is_taken(start, end):
            continue
        if not one.vocabulary.terms[answered[0]].proposed:
            continue  # "within reach": the building has it so or not, and nobody proposes it
        owner = one.vocabulary.terms[answered[0]].of
        if owner and any(term == owner for _, _, term in one.terms):
            words = f"the {owner} named may be what is asked for, or that of which `{each.words}` is asked"
            one.piece.doubts.append(words)
        one.piece.texts.append(f"{'not ' if negative else ''}{answered[0]}")
        one.spans.append((start, end))
        one.terms.append((start, end, answered[0]))


def _there_at_all(one: _Asking) -> None:
    """Add that something is to be there, where a sentence provides it and says no more of it."""
    for each in one.named:
        terms = [one.vocabulary.terms[name] for name in each.terms]
        if len(terms) == 1 and any(choice.name == "none" for choice in terms[0].choices):
            one.piece.texts.append(f"{terms[0].name} be not none")
            one.spans.append(one.place_of(each))
            one.terms.append((*one.place_of(each), terms[0].name))


def _owners(one: _Asking) -> None:
    """Take names as understood that only say of what a property is asked: "permeance of the vapor retarder"."""
    asked = {term for _, _, term in one.terms}
    words = {word for term in asked for word in _words_of(one.vocabulary.terms[term])}
    for each in one.named:
        start, end = one.place_of(each)
        mine = singular_words(each.words)
        owns = set(each.terms) & {one.vocabulary.terms[term].of for term in asked}
        named = any(mine <= {word.rstrip("s") for word in term.split()} for term in asked)
        if not one.is_taken(start, end) and (named or (each.terms and (owns or mine <= words))):
            one.spans.append((start, end))


def _words_of(term: Term) -> set[str]:
    """Return the words of a term's names, singular."""
    return {word for name in (term.name, *term.also) for word in singular_words(name)}
