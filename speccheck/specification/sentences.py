"""Sentences of a section read as a clause: for which lines it is, what it asks, and which words were not understood.

`parting` parts a sentence into pieces. Each is read by itself: names of the vocabulary, amounts with their relation,
and words that hold a sentence together. A word that is none of these is left over, and a sentence with words left over
is not understood as a whole: nothing is dropped in silence. One that can be understood in two ways is in doubt.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from speccheck.english import NUMBER_WORDS
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.specification.conditions import conditions_in
from speccheck.specification.parting import Parted, partings
from speccheck.specification.pieces import asked_term, singular_words
from speccheck.specification.plain_words import plain_words_of
from speccheck.specification.required_values import asked_in


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence as clause text: conditions behind `where`, what is asked, with which word, and what was left over.

    `excepts` has the conditions behind `except where`, each of which alone takes a line out.
    """

    where: tuple[str, ...] = ()
    asks: tuple[str, ...] = ()
    keyword: str = "shall"
    left_over: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()
    excepts: tuple[str, ...] = ()

    @property
    def is_understood(self) -> bool:
        """Whether every word was understood, and something is asked."""
        return bool(self.asks) and not self.left_over and not self.doubts


MOST_CHARACTERS = 1_000
"""What is longer is not read: the ways to part a sentence grow with its length, and the time with their pieces."""

# "One" counts nothing: "one of", "one side".
_COUNTED = "|".join(word for word, number in NUMBER_WORDS.items() if number > 1)
_NUMBER_WORD = re.compile(rf"\b({_COUNTED})\b(?=\s+(?!faces|ends)\w)", re.IGNORECASE)
_BOTH_SHALL = re.compile(
    r"(?P<first>.+?\b(?:shall|must)\b.+?),?\s+and\s+(?P<second>(?:(?!\b(?:shall|must)\b).)+?\b(?:shall|must)\b.+)", re.I
)


def sentences_of(text: str) -> list[str]:
    """Return the sentences of a paragraph; a full stop in an abbreviation or a number ends none."""
    parts = re.split(r"(?<=[a-z)\]%\"″])[.;]\s+(?=[A-Z])|(?<=[a-z\d])\.$", text.strip())
    found = [part.strip(" .;") for part in parts if part and part.strip(" .;")]
    return [half for part in found for half in _halves(part)]


def _halves(text: str) -> list[str]:
    """Return the sentences of which "X shall ... and Y shall ..." is made; a leading condition is said of both."""
    both = _BOTH_SHALL.fullmatch(text)
    if both is None:
        return [text]
    leading = re.match(r"(?:where|when|for|on|in|at|if)\s+[^,]+,\s*", text, re.IGNORECASE)
    return [both["first"], f"{leading[0] if leading else ''}{both['second']}"]


def read_sentence(text: str, vocabulary: Vocabulary, *, piping: bool = False) -> Sentence:
    """Return a sentence of a section as the text of conditions and requirements.

    `piping` says that "piping" is a condition, as in a section on ducts and tanks too.
    """
    if len(text) > MOST_CHARACTERS:
        return Sentence(doubts=(f"it has more than {MOST_CHARACTERS:,} characters",))
    plain = _NUMBER_WORD.sub(lambda found: str(NUMBER_WORDS[found[1].casefold()]), plain_words_of(text))
    read = [_read(parted, vocabulary, piping) for parted in partings(plain)]
    whole = _fullest(dict.fromkeys(_in_order(one) for one in read if one.is_understood))
    whole = [one for one in whole if _names_what_it_asks(one, plain)] or whole
    if len(whole) > 1:
        told = "; or ".join(" and ".join((*one.where, *one.asks)) for one in whole[:2])
        return Sentence(doubts=(f"it can be understood in several ways: {told}",))
    if whole:
        return next(one for one in read if one.is_understood and _in_order(one) == whole[0])
    if not read:
        return Sentence(left_over=(text,))
    return min(read, key=lambda one: (not one.asks, len(" ".join(one.left_over).split()), len(one.doubts)))


def _fullest(sentences: Iterable[Sentence]) -> list[Sentence]:
    """Return sentences without those that say less than another of them: words were taken to say nothing there."""
    found = list(sentences)
    said = [frozenset((*one.where, *one.asks, *one.excepts)) for one in found]
    return [one for one, mine in zip(found, said, strict=True) if not any(mine < other for other in said)]


def _names_what_it_asks(one: Sentence, text: str) -> bool:
    """Whether all words of the terms that are asked stand in a sentence: where they do, no other term is meant."""
    words = singular_words(text)
    return all(singular_words(asked_term(ask)) <= words for ask in one.asks)


def _in_order(one: Sentence) -> Sentence:
    """Return a sentence with its conditions in the order of the alphabet, so that two that mean the same are equal."""
    return Sentence(tuple(sorted(one.where)), tuple(sorted(one.asks)), one.keyword, excepts=tuple(sorted(one.excepts)))


def _read(parted: Parted, vocabulary: Vocabulary, piping: bool) -> Sentence:
    """Read the pieces of a sentence that was parted in one way."""
    where = [conditions_in(piece, vocabulary, piping=piping) for piece in parted.where]
    excepts = [conditions_in(piece, vocabulary, piping=piping) for piece in parted.excepts]
    asked = asked_in(parted, vocabulary)
    pieces = (*where, *excepts, asked)
    empty = ["it was not understood for which lines it is"] if any(not one.texts for one in (*where, *excepts)) else []
    conditions = dict.fromkeys(text for one in where for text in one.texts)
    kept = [one for one in conditions if not _is_subject(one, asked.texts)]
    clashing = {term for term in map(_term, kept) if [_term(one) for one in kept].count(term) > 1 and term in _CHOSEN}
    clashing |= {term for term in map(_term, kept) if [_term(one) for one in kept if _IS.search(one)].count(term) > 1}
    both = {_term(one) for one in kept} & set(map(asked_term, asked.texts))
    return Sentence(
        tuple(kept),
        tuple(dict.fromkeys(asked.texts)),
        parted.keyword,
        tuple(words for one in pieces for words in one.left_over),
        (
            *(doubt for one in pieces for doubt in one.doubts),
            *empty,
            *(f"two conditions on {one}" for one in clashing),
            *(f"the {one} says for which lines it is, and is asked too" for one in sorted(both)),
        ),
        tuple(" and ".join(one.texts) for one in excepts if one.texts),
    )


_IS = re.compile(r" is (?:DN|NPS|-?[\d.])")  # an amount without a relation: two of a term hold of no line
_CHOSEN = frozenset({"service", "component", "location", "insulation", "jacket"})


def _term(condition: str) -> str:
    return condition.split(" is ")[0]


def _is_subject(condition: str, asks: Iterable[str]) -> bool:
    """Whether a condition names the part that is asked about: `component is fitting` before `fitting cover`."""
    term, _, values = condition.partition(" is ")
    names = [ask.split(" be ")[0] for ask in asks]
    return (
        term == "component"
        and bool(names)
        and all(any(value in name.split() for value in values.removeprefix("one of ").split(", ")) for name in names)
    )
