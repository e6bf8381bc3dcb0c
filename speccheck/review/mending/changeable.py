"""Changeable terms: what a contractor proposes, as against what the building and its design set.

The vocabulary says which terms are proposed. Service, size, temperatures and location are not: a line that states
another one of them is another system, and not a mended proposal.
"""

from __future__ import annotations

from collections.abc import Collection

from speccheck.language.kinds import Form
from speccheck.language.vocabulary import Term, Vocabulary

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
