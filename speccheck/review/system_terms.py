"""Which terms tell one system of the building from another: those that the vocabulary marks so.

A vocabulary without these marks loses nothing but what stands on them: terms that are not marked tell no lines apart.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from speccheck.language.kinds import Form
from speccheck.language.vocabulary import Term, Vocabulary, fold


@dataclass(frozen=True)
class SystemTerms:
    """The terms of a vocabulary by which systems are known, in its order.

    Those of `single` have one value a line; `size` and `temperature` are ranges, "" where the vocabulary marks none.
    `wholes` has, by term, the values that are parts of others, as a valve is of its pipe, folded. `never_compared`
    are names and remarks, in which two lines that are the same may differ.
    """

    single: tuple[str, ...]
    size: str
    temperature: str
    wholes: Mapping[str, Mapping[str, str]]
    never_compared: frozenset[str]

    @classmethod
    def of(cls, vocabulary: Vocabulary) -> SystemTerms:
        """Return what a vocabulary marks."""
        marked = [term for term in vocabulary.terms.values() if term.tells_apart]
        size = next((term.name for term in marked if term.kind.form is Form.SIZE), "")
        temperature = next((term.name for term in marked if term.kind.form is Form.QUANTITY), "")
        single = tuple(term.name for term in marked if term.name not in (size, temperature))
        never = frozenset(term.name for term in vocabulary.terms.values() if term.never_compared)
        return cls(single, size, temperature, {term.name: _wholes(term) for term in marked}, never)

    @property
    def names(self) -> tuple[str, ...]:
        """All of them: single values first, then size and temperature."""
        return (*self.single, *filter(None, (self.size, self.temperature)))

    def is_compared(self, name: str) -> bool:
        """Say whether two lines for one system disagree where they state a term differently."""
        return name not in self.names and name not in self.never_compared


def _wholes(term: Term) -> Mapping[str, str]:
    return {fold(choice.name): fold(choice.part_of) for choice in term.choices if choice.part_of}
