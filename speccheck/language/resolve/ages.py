"""Ages: "at most 24 months old" is said of a date: one that is not before a day counted back from the review.

That day is a term of its own, which no schedule states (`core/review_days.py`). A date that lies after the review is
no age.
"""

from __future__ import annotations

from typing import TypeGuard

from speccheck.language.core import Age, Comparison, Condition, Every, Relation, TermValue
from speccheck.language.core.review_days import DAY_OF_REVIEW, counted_back
from speccheck.language.messages.meaning import AGE_OF_NO_DATE, AGE_WITH_TWO_ENDS
from speccheck.language.resolve.names import Names
from speccheck.language.syntax.tree import Compared, Measure
from speccheck.language.vocabulary.terms import DATE

# How old it is, and on which side of the day counted back from the review its date then lies.
_DATED = {
    "is at most": Relation.AT_LEAST,
    "is at least": Relation.AT_MOST,
    "is less than": Relation.MORE_THAN,
    "is more than": Relation.LESS_THAN,
}


def says_age(measure: object) -> TypeGuard[Measure]:
    """Whether an amount is an age: "24 months old"."""
    return isinstance(measure, Measure) and _age(measure) is not None


def _age(measure: Measure) -> Age | None:
    return Age.read(measure.text.removesuffix(" old")) if measure.text.endswith(" old") else None


def resolve_age(names: Names, syntax: Compared, left: object) -> Condition | None:
    """Return what a comparison with an age means, or None after its error was reported."""
    measure = next(one for one in syntax.others if says_age(one))
    relation = _DATED.get(syntax.relation)
    if relation is None:
        names.tell(AGE_WITH_TWO_ENDS, measure.place, age=measure.text)
        return None
    if not isinstance(left, TermValue) or left.kind != DATE:
        names.tell(AGE_OF_NO_DATE, measure.place, age=measure.text)
        return None
    age = _age(measure)
    assert age is not None, measure
    dated = Comparison(left, relation, TermValue(counted_back(age), measure.place), syntax.place)
    if syntax.relation not in ("is at most", "is less than"):
        return dated
    # A date that is still to come is no age.
    past = Comparison(left, Relation.AT_MOST, TermValue(DAY_OF_REVIEW, measure.place), syntax.place)
    return Every((dated, past), syntax.place)
