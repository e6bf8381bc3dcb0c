"""Choices in wording: services, places and materials that a text names, checked against those that the rule lists.

A choice is named by its own name or by what contractors write for it, whole words, one or many of it. What is part
of a longer name ("steel" in "stainless steel", "water" in "chilled water") is not named. What comes of
the two is in `wording_against_rule`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import assert_never

from speccheck.language.core import (
    Amount,
    CellSays,
    Clause,
    Comparison,
    Condition,
    Given,
    Holds,
    Includes,
    Inclusion,
    Literal,
    NamedCondition,
    OneOf,
    Relation,
    Ruleset,
    Table,
)
from speccheck.language.core.walking import Node, atoms, conditions_of, denied_in, inner, names_of, tables_of, terms_of
from speccheck.language.vocabulary.terms import Form, Term, Vocabulary
from speccheck.proofread.finite_amounts import term_of

# Shorter spellings stand for too much in a sentence ("CA", "tape" is still a word).
SHORTEST = 4
# "Next to outdoor air" speaks of what surrounds a system, not of what it carries.
_SURROUNDING = re.compile(
    r"\b(?:next|open|adjacent|exposed|close) to\s+(?:the\s+)?$|\b(?:vented|ventilated|in contact) with\s+(?:the\s+)?$",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class NamedChoice:
    """Words of a text that name a choice of some terms: (term, choice), with where they stand.

    `by_name` are those that the vocabulary calls by these words itself, and not only contractors.
    """

    text: str
    start: int
    end: int
    named: tuple[tuple[str, str], ...]

    @property
    def by_name(self) -> tuple[tuple[str, str], ...]:
        """The choices that go by these words themselves; a yes-or-no term goes by its own name."""
        words = singular(self.text).split()
        return tuple(
            (term, choice)
            for term, choice in self.named
            if choice == "yes" or set(singular(choice).split()) <= set(words)
        )


@dataclass(frozen=True)
class Listed:
    """The choices that a rule names: by term, those in lists written in the clause itself, and all words of names.

    `denied` are the terms of which it names choices that are not to be.
    """

    named: frozenset[tuple[str, str]]
    denied: frozenset[str]
    lists: tuple[tuple[Term, tuple[str, ...]], ...]
    terms: frozenset[str]
    words: frozenset[str]


def mentions(text: str, vocabulary: Vocabulary) -> tuple[NamedChoice, ...]:
    """Return the choices that a text names, the longest names first served, in the order in which they stand."""
    spellings, pattern = _spellings(_Held(vocabulary))
    found = []
    for match in pattern.finditer(text):
        named = spellings.get(singular(match[0]))
        if named and not _SURROUNDING.search(text, 0, match.start()):
            found.append(NamedChoice(" ".join(match[0].split()), match.start(), match.end(), named))
    return tuple(found)


def listed_in(clause: Clause, ruleset: Ruleset) -> Listed:
    """Return the choices that a clause names, through definitions, tables and assumptions too."""
    nodes = conditions_of(clause)
    terms = {term.name for term in terms_of(nodes)}
    assumed = [one for one in ruleset.assumptions if one.term.name in terms]
    everything = [*nodes, *(condition for one in assumed for condition in one.scope)]
    named = set(_choices(everything))
    named |= {(one.term.name, one.value) for one in assumed if isinstance(one.value, str)}
    lists = tuple(_lists(nodes))
    names = frozenset(term.name for term in terms_of(everything))
    return Listed(frozenset(named), frozenset(_denied(everything)), lists, names, frozenset(_name_words(everything)))


# ---- what a rule names -------------------------------------------------------------------------------------------


def _choices(nodes: Sequence[Condition]) -> Iterator[tuple[str, str]]:
    for atom in atoms(nodes):
        match atom:
            case Comparison(left, _, right):
                for one, other in ((left, right), (right, left)):
                    term = term_of(one)
                    if term is not None and isinstance(other, Literal) and isinstance(other.value, str):
                        yield term.name, other.value
            case Includes(term, _, options):
                yield from ((term.name, option) for option in options)
            case Holds(term):
                yield term.name, "yes"
            case Given() | CellSays():
                pass
            case _:
                assert_never(atom)
    for table in tables_of(nodes):
        yield from _table_choices(table)


def _table_choices(table: Table) -> Iterator[tuple[str, str]]:
    for axis in table.axes:
        for band in axis.bands:
            yield from ((axis.term.name, choice) for choice in band.choices or ())
    for row in table.cells:
        yield from (("", cell.value) for cell in row if cell is not None and isinstance(cell.value, str))


def _denied(nodes: Sequence[Condition]) -> Iterator[str]:
    """Yield the terms of which some nodes name a choice that is not to be."""
    yield from (term.name for term in terms_of(denied_in(nodes)))
    for atom in atoms(nodes):
        match atom:
            case Comparison(_, Relation.NOT_EQUAL, right):
                yield from (term.name for term in terms_of([atom]) if _is_choice(right))
            case Includes(term, Inclusion.NONE):
                yield term.name
            case Comparison() | Includes() | Given() | Holds() | CellSays():
                pass
            case _:
                assert_never(atom)


def _is_choice(amount: Amount) -> bool:
    return isinstance(amount, Literal) and amount.value != "none"


def _lists(nodes: Iterable[Node]) -> Iterator[tuple[Term, tuple[str, ...]]]:
    """Yield the lists of two choices or more that stand in conditions themselves, not behind a definition."""
    for node in nodes:
        if isinstance(node, OneOf):
            term = term_of(node.amount)
            options = tuple(option for option in node.options if isinstance(option, str))
            if term is not None and len(options) > 1:
                yield term, options
        elif isinstance(node, Includes) and len(node.options) > 1:
            yield node.term, node.options
        elif not isinstance(node, NamedCondition):
            yield from _lists(inner(node))


def _name_words(nodes: Sequence[Condition]) -> Iterator[str]:
    names = [*names_of(nodes), *(table.name for table in tables_of(nodes)), *(term.name for term in terms_of(nodes))]
    for name in names:
        yield from (singular(word) for word in re.split(r"[\s-]+", name))


# ---- what a text names -------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class _Held:
    """A vocabulary held by identity, because hashing one would mean hashing all its choices."""

    vocabulary: Vocabulary

    def __hash__(self) -> int:
        return id(self.vocabulary)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Held) and other.vocabulary is self.vocabulary


@lru_cache(maxsize=8)
def _spellings(held: _Held) -> tuple[dict[str, tuple[tuple[str, str], ...]], re.Pattern[str]]:
    found: dict[str, dict[tuple[str, str], None]] = {}
    for term in held.vocabulary.terms.values():
        for spelling, choice in _of_term(term):
            found.setdefault(singular(spelling), {})[term.name, choice] = None
        # The name of a term is a longer name in which that of a choice may stand: "operating temperature".
        found.setdefault(singular(term.name), {})
    longest = sorted(found, key=lambda one: (-len(one), one))
    words = "|".join(re.escape(one).replace(r"\ ", r"[\s-]+") for one in longest)
    return {one: tuple(named) for one, named in found.items()}, re.compile(
        rf"(?<![\w/-])(?:{words})(?:s|es)?(?![\w/-])", re.IGNORECASE
    )


def _of_term(term: Term) -> Iterator[tuple[str, str]]:
    if term.of_choices:
        for choice in term.choices:
            if choice.name != "none":
                yield from (
                    (spelling, choice.name) for spelling in (choice.name, *choice.also) if _is_telling(spelling)
                )
    elif term.kind.form is Form.YES_NO:
        yield term.name, "yes"


def _is_telling(spelling: str) -> bool:
    return (len(spelling) >= SHORTEST and not spelling.isupper()) or spelling in ("PVC", "CPVC")


def singular(text: str) -> str:
    """Return a text in lower case, its hyphens as spaces, its last word without the ending of many."""
    plain = " ".join(re.split(r"[\s-]+", text.casefold()))
    if plain.endswith(("sses", "shes", "ches", "xes")):
        return plain[:-2]
    return plain[:-1] if plain.endswith("s") and not plain.endswith("ss") else plain
