"""Amounts of a sentence with the value that each stands beside, by the rules by which cells are read.

`1-1/2 inch fiberglass and 0.016 inch aluminum jacket` has an amount of the insulation and one of the jacket.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from speccheck.language.vocabulary.terms import Term, Vocabulary
from speccheck.language.vocabulary.values import BareUnits
from speccheck.phrases.kept import kept_by_vocabulary
from speccheck.phrases.lexicon import lexicon_of
from speccheck.phrases.parsing import Node, tree_of
from speccheck.phrases.terminals import Source, Terminal, terminals_of
from speccheck.phrases.words import words_of

INSULATION = "insulation"


class Attached(NamedTuple):
    """Where an amount stands in a text, and the measured terms of the value beside it."""

    start: int
    end: int
    terms: tuple[Term, ...]


def attached_in(text: str, vocabulary: Vocabulary) -> tuple[Attached, ...]:
    """Return the amounts of a text that stand beside a value of a material, each with the terms that it may be of.

    Where an unknown word follows it may be of that: "0.020 inch aluminum bands", "aluminum jacket, 2 inch overlap".
    """
    return _reader(vocabulary)(text)


@kept_by_vocabulary
def _reader(vocabulary: Vocabulary) -> _Reader:
    return _Reader(vocabulary)


class _Reader:
    """Reads texts by one vocabulary, each once."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        insulation = vocabulary.terms.get(INSULATION)
        self._lexicon = lexicon_of(vocabulary, insulation) if insulation is not None else None
        self._read = lru_cache(maxsize=1024)(self._attached)

    def __call__(self, text: str) -> tuple[Attached, ...]:
        return self._read(text)

    def _attached(self, text: str) -> tuple[Attached, ...]:
        if self._lexicon is None:
            return ()
        source = Source(text, words_of(text), self._lexicon, BareUnits())
        terminals = terminals_of(source)
        unknown = {terminal.first for terminal in terminals if terminal.type == "WORD"}
        return tuple(
            Attached(source.words[amount.first].start, source.words[amount.end - 1].end, self._terms(value))
            for amount, value in _pairs(tree_of(terminals))
            if not unknown & {amount.end, value.end}
        )

    def _terms(self, value: Terminal) -> tuple[Term, ...]:
        return self._lexicon.amounts_of(value.meanings[0].term) if self._lexicon is not None else ()


def _pairs(node: Node) -> Iterator[tuple[Terminal, Terminal]]:
    """Yield each amount with the value that it stands beside."""
    if node.rule == "measured":
        yield node.terminals[0], node.nodes[-1].first
    elif node.rule == "described":
        yield from ((amount, node.first) for amount in node.terminals)
    for each in node.nodes:
        yield from _pairs(each)
