"""Facts: what a phrase says, with the words that say it, by their place in the text."""

from __future__ import annotations

from dataclasses import dataclass

from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import Value


@dataclass(frozen=True, slots=True)
class Fact:
    """A value of a term, and the words that say it, by their place in the text."""

    term: Term
    value: Value
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class OpenWords:
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
    questions: tuple[OpenWords, ...] = ()
    left_over: tuple[Span, ...] = ()
    alternatives: bool = False

    def values_of(self, name: str) -> tuple[Value, ...]:
        """Return the different values that the text states of a term, in the order of the text."""
        return tuple(dict.fromkeys(fact.value for fact in self.facts if fact.term.name == name))
