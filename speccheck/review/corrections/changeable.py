"""Which terms can be changed on a line: those that a contractor proposes, and of these the ones that help.

A term helps where some changes that meet the requirement would not meet it any more with that term as it was. Whatever
meets a requirement still does when all terms that never help are put back; so that one that helps is among the changes.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Hashable, Iterable, Mapping, Sequence
from itertools import product

from speccheck.language.vocabulary.terms import Form, Term, Vocabulary
from speccheck.language.vocabulary.values import Single
from speccheck.review.corrections.candidates import Candidates
from speccheck.review.corrections.requirements import Requirement

# A text says nothing that a clause could ask for, and a pipe keeps its size.
_FIXED_FORMS = (Form.TEXT, Form.SIZE)


def changeable_terms(vocabulary: Vocabulary, kept: Collection[str] = ()) -> tuple[Term, ...]:
    """Return the terms that a proposal may change, in the order of the vocabulary.

    `kept` names terms that the reviewer wants left as they are.
    """
    return tuple(
        term
        for term in vocabulary.terms.values()
        if term.proposed and not term.computed and term.kind.form not in _FIXED_FORMS and term.name not in kept
    )


# How many combinations of values are tried to find that out; beyond that every term may help.
MOST_COMBINATIONS = 300


def helpful_terms(
    requirement: Requirement,
    free: Sequence[str],
    decided: Mapping[str, Single],
    candidates: Mapping[str, Candidates],
) -> tuple[str, ...]:
    """Return those of the `free` terms of a requirement whose change can help to meet it, with others as `decided`."""
    if requirement.works_out or len(free) < 2:
        return tuple(free)
    choices: list[tuple[Single | None, ...]] = [(None, *candidates[name].values) for name in free]
    if math.prod(len(values) for values in choices) > MOST_COMBINATIONS:
        return tuple(free)
    choices = [tuple(_unlike(requirement, name, values)) for name, values in zip(free, choices, strict=True)]

    def met(values: Sequence[Single | None]) -> bool:
        changed = {name: value for name, value in zip(free, values, strict=True) if value is not None}
        return requirement.met({**decided, **changed})

    found: set[int] = set()
    for values in product(*choices):
        if not met(values):
            continue
        for position, value in enumerate(values):
            put_back = (*values[:position], None, *values[position + 1 :])
            if position not in found and value is not None and not met(put_back):
                found.add(position)
    return tuple(name for position, name in enumerate(free) if position in found)


def _unlike(requirement: Requirement, name: str, values: Sequence[Single | None]) -> Iterable[Single | None]:
    """Return the first of those values of a term that are alike to the clause of a requirement."""
    found: dict[Hashable, Single | None] = {}
    for value in values:
        found.setdefault(None if value is None else requirement.as_seen(name, value), value)
    return found.values()
