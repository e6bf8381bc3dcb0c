"""What a name that is not known was probably meant to be: a misspelt one, or terms that share a word with it.

A name that only looks a little like another is worse than none: whoever writes it gets a rule that they never meant.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from speccheck.english import nearest
from speccheck.language.vocabulary.terms import Form, Term, Vocabulary, fold

# How alike a name and a misspelling of it are at least: "insulaton" and "insulation", not "sealed" and "seamless".
MISSPELT = 0.8
SYNONYM_MISSPELT = 0.9
# How alike two names have to be of which the writer made one: there are few of these.
OWN = 0.7
MOST_LIKE = 3
SHORTEST = 4


def misspelt(name: str, known: Iterable[str]) -> str | None:
    """Return the known name that a name misspells, None where it is none; "penetration" misspells no longer name.

    In a short name two letters the other way round are a good part of it: "PCV" is PVC.
    """
    known = list(known)
    near = nearest(name, known, MISSPELT) or next(
        (one for one in known if sorted(fold(one)) == sorted(fold(name))), None
    )
    if near is None or _are_opposite(name, near):
        return None
    words, others = (set(fold(one).split()) for one in (name, near))
    return None if words < others or others < words else near


def misspelt_value(name: str, term: Term) -> str | None:
    """Return the value that a name misspells: its own name, or very nearly another one that schedules have for it."""
    near = misspelt(name, [choice.name for choice in term.choices])
    if near is not None:
        return near
    spellings = {spelling: one.name for one in term.choices for spelling in one.also}
    spelling = nearest(name, spellings, SYNONYM_MISSPELT)
    return None if spelling is None or _are_opposite(name, spelling) else spellings[spelling]


def _are_opposite(name: str, other: str) -> bool:
    """Whether one of two names denies the other: "sealed" and "unsealed"."""
    shorter, longer = sorted((fold(name), fold(other)), key=len)
    return any(longer == f"{denial}{shorter}" for denial in ("un", "non", "non ", "not ", "no ", "in"))


def like_it(name: str, vocabulary: Vocabulary) -> tuple[str, tuple[str, ...]]:
    """Return the word that some terms share with a name, and the first of these terms; "" and none where none does."""
    wanted = list(_telling(name))
    shared = {term.name: [word for word in wanted if word in set(_telling(term.name))] for term in _terms(vocabulary)}
    found = [one for one in shared if shared[one]]
    best = sorted(found, key=lambda one: (-len(shared[one]), len(one.split())))[:MOST_LIKE]
    return (shared[best[0]][0], tuple(best)) if best else ("", ())


def longer_names(name: str, vocabulary: Vocabulary) -> list[str]:
    """Return the first terms that have all words of a name and more in their own: "duct air velocity"."""
    wanted = set(fold(name).split())
    return [term.name for term in _terms(vocabulary) if wanted < set(fold(term.name).split())][:MOST_LIKE]


def owner_of(value: str, vocabulary: Vocabulary, besides: Term | None = None) -> tuple[Term, str] | None:
    """Return the term that has a value, and the value's name: one that tells systems apart, or the only one."""
    folded = fold(value)
    owners = [
        (term, term.choice_names[folded])
        for term in _terms(vocabulary)
        if term.kind.form is Form.CHOICE and term is not besides and folded in term.choice_names
    ]
    telling = [one for one in owners if one[0].tells_apart]
    return telling[0] if telling else owners[0] if len(owners) == 1 else None


def word_of(name: str) -> str:
    """Return the word by which to look for a term like a name: the last one that says anything."""
    return next(reversed(list(_telling(name))), name.split()[-1])


def _terms(vocabulary: Vocabulary) -> Iterable[Term]:
    return vocabulary.terms.values()


def _telling(name: str) -> Iterator[str]:
    """Yield the words of a name that say what it is of, each without the ending of many."""
    for word in re.findall(r"[^\W\d_]+", fold(name)):
        if len(word) >= SHORTEST:
            yield word[:-1] if word.endswith("s") and not word.endswith("ss") else word
