"""The words of a vocabulary, ready to be found in a text: for each term its own values and those of terms beside it."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from typing import NamedTuple

from speccheck.language.vocabulary.terms import Form, Term, Vocabulary
from speccheck.phrases.kept import kept_by_vocabulary
from speccheck.phrases.words import PREPOSITIONS, Word, key_of

_SHORTEST_INSIDE = 2  # single letters and bare numbers name a value only where they are the whole cell


class Meaning(NamedTuple):
    """A value of a term that words name; `values` has more than one where the words stand for any of several."""

    term: Term
    values: tuple[str, ...]


class Found(NamedTuple):
    """The meanings of the longest run of words at a place, the expected term's first, and how many words it has."""

    meanings: tuple[Meaning, ...]
    length: int


Spelled = dict[tuple[str, ...], list[Meaning]]


class Lexicon:
    """The spellings of one term's cells."""

    def __init__(self, vocabulary: Vocabulary, term: Term) -> None:
        self.term = term
        self._all = tuple(vocabulary.terms.values())
        self.beside = tuple(other for other in vocabulary.terms.values() if term.name in other.beside)
        self._spelled: Spelled = {}
        self._longest: dict[str, int] = {}
        for each in (term, *self.beside):
            if each.kind.form in (Form.CHOICE, Form.SET):
                self._add_values(each)
            for words, answer in each.answers.items():
                self._add(words, Meaning(each, ("yes" if answer else "no",)))

    def _add_values(self, term: Term) -> None:
        for choice in term.choices:
            for spelling in (choice.name, *choice.also):
                self._add(spelling, Meaning(term, (choice.name,)))
        for either in term.either:
            for words in either.words:
                self._add(words, Meaning(term, either.values))

    def _add(self, spelling: str, meaning: Meaning) -> None:
        key = key_of(spelling)
        if not key or len("".join(key)) < _SHORTEST_INSIDE:
            return
        if len(key) == 1 and (key[0].isdecimal() or key[0] in PREPOSITIONS):
            return
        known = self._spelled.setdefault(key, [])
        if all(each.term is not meaning.term for each in known):
            known.append(meaning)
        self._longest[key[0]] = max(self._longest.get(key[0], 0), len(key))

    def find(self, words: Sequence[Word], start: int) -> Found | None:
        """Return what the longest run of words at a place names, or None."""
        longest = min(self._longest.get(words[start].folded, 0), len(words) - start)
        for length in range(longest, 0, -1):
            meanings = self._spelled.get(tuple(word.folded for word in words[start : start + length]))
            if meanings:
                return Found(tuple(meanings), length)
        return None

    def begins(self, word: str) -> bool:
        """Whether a name of some value begins with a word."""
        return word in self._longest

    def named(self, key: tuple[str, ...]) -> Meaning | None:
        """Return the value of the expected term that these words name, in this or any other order of the words."""
        for meaning in self._spelled.get(key, ()):
            if meaning.term is self.term:
                return meaning
        return self._unordered.get(tuple(sorted(key)))

    @cached_property
    def _unordered(self) -> dict[tuple[str, ...], Meaning]:
        """The values of the expected term by their words in the order of the alphabet; what names two names none."""
        found: dict[tuple[str, ...], Meaning | None] = {}
        for key, meanings in self._spelled.items():
            for meaning in meanings:
                if meaning.term is self.term:
                    same = found.setdefault(tuple(sorted(key)), meaning)
                    if same is not None and same.values != meaning.values:
                        found[tuple(sorted(key))] = None
        return {key: meaning for key, meaning in found.items() if meaning is not None}

    def amounts_of(self, term: Term) -> tuple[Term, ...]:
        """Return the measured terms that stand first of all beside the values of a term: the thickness of a jacket."""
        return tuple(
            other for other in self._all if other.beside[:1] == (term.name,) and other.kind.form is Form.QUANTITY
        )

    @cached_property
    def names_of_amounts(self) -> dict[str, list[tuple[tuple[str, ...], Term]]]:
        """The names of the term and of those beside it that have amounts, by their first words, long names first."""
        found: dict[str, list[tuple[tuple[str, ...], Term]]] = {}
        for term in (self.term, *self.beside):
            for spelling in (term.name, *term.also) if term.kind.ordered else ():
                key = key_of(spelling)
                if key:
                    found.setdefault(key[0], []).append((key, term))
        return {first: sorted(names, key=lambda name: -len(name[0])) for first, names in found.items()}

    @cached_property
    def words_of_terms(self) -> frozenset[str]:
        """The words by which the term and those beside it go: "jacket" between "aluminum" and "0.016 in"."""
        return frozenset(
            word for term in (self.term, *self.beside) for name in (term.name, *term.also) for word in key_of(name)
        )

    @cached_property
    def own_words(self) -> frozenset[str]:
        """The words by which the term itself goes: "jacket" behind "PVC" changes nothing in a cell of jackets."""
        return frozenset(word for spelling in (self.term.name, *self.term.also) for word in key_of(spelling))


@kept_by_vocabulary
def _lexicons(vocabulary: Vocabulary) -> dict[str, Lexicon]:
    """Return the lexicons of a vocabulary, which are filled as they are asked for."""
    return {}


def lexicon_of(vocabulary: Vocabulary, term: Term) -> Lexicon:
    """Return the lexicon of a term; it is made once."""
    lexicons = _lexicons(vocabulary)
    if term.name not in lexicons:
        lexicons[term.name] = Lexicon(vocabulary, term)
    return lexicons[term.name]
