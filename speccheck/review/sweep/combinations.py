"""Combinations: every value of each term with every value of all others, as columns, block by block."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import prod

import numpy as np
from numpy.typing import NDArray

from speccheck.engine.columns import CellTexts
from speccheck.review.sweep.values import SweptTerm

BLOCK = 131_072
"""Combinations in a block: a dozen columns of them take some megabytes."""


@dataclass(frozen=True, slots=True)
class Block:
    """Some combinations: for each term, the position of its value in each of them."""

    terms: tuple[SweptTerm, ...]
    positions: tuple[NDArray[np.intp], ...]

    def cells(self) -> dict[str, CellTexts]:
        """Return the combinations as columns of cell texts."""
        pairs = zip(self.terms, self.positions, strict=True)
        return {swept.term.name: CellTexts(swept.texts, positions) for swept, positions in pairs}

    def words(self, row: int) -> tuple[str, ...]:
        """Return a combination in words: the terms that take several values, each with its value."""
        pairs = zip(self.terms, self.positions, strict=True)
        return tuple(f"{swept.term.name} {swept.texts[at[row]]}" for swept, at in pairs if len(swept.texts) > 1)


def count_of(terms: Sequence[SweptTerm]) -> int:
    """Return how many combinations there are."""
    return prod(len(swept.texts) for swept in terms)


def blocks_of(terms: Sequence[SweptTerm]) -> Iterator[Block]:
    """Yield all combinations in their order: the values of the last term change fastest."""
    shape, total = tuple(len(swept.texts) for swept in terms), count_of(terms)
    for start in range(0, total, BLOCK):
        numbers = np.arange(start, min(start + BLOCK, total))
        yield Block(tuple(terms), tuple(np.unravel_index(numbers, shape)))
