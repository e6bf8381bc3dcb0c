"""What is worked out from a vocabulary once: kept beside it, for as long as few vocabularies are in use."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TypeVar

from speccheck.language.vocabulary.terms import Vocabulary

_MOST_VOCABULARIES = 50
_Made = TypeVar("_Made")


def kept_by_vocabulary(make: Callable[[Vocabulary], _Made]) -> Callable[[Vocabulary], _Made]:
    """Return `make` so that it works out what it makes of a vocabulary once.

    Vocabularies are known by identity, since comparing two of them takes longer than what is kept of most.
    """
    kept: dict[int, tuple[Vocabulary, _Made]] = {}

    @wraps(make)
    def made(vocabulary: Vocabulary) -> _Made:
        found = kept.get(id(vocabulary))
        if found is None:
            if len(kept) >= _MOST_VOCABULARIES:
                kept.clear()
            found = kept[id(vocabulary)] = (vocabulary, make(vocabulary))
        return found[1]

    return made
