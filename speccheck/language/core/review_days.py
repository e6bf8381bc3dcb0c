"""The day of the review, which whoever reviews states, and days counted back from it, which nobody states, as terms.

"At most 24 months old" is a comparison with the day 24 months before the review, which is worked out on each line.
"""

from __future__ import annotations

import re

from speccheck.language.core.documents import Age
from speccheck.language.vocabulary.terms import DATE, Term

DAY_OF_REVIEW = Term("day of the review", DATE, meaning="the day on which the schedule is reviewed, by the calendar")
_COUNTED_BACK = re.compile(r"day (?P<number>\d+) (?P<unit>day|week|month|year)s? before the review")


def counted_back(age: Age) -> Term:
    """Return the day that lies so long before that of the review, as a term."""
    meaning = "the day that lies so long before that of the review, by the calendar"
    return Term(f"day {age} before the review", DATE, meaning=meaning, computed=True)


def age_of(name: str) -> Age | None:
    """Return how long before the review the day lies that a term is, None for any other term."""
    found = _COUNTED_BACK.fullmatch(name)
    return None if found is None else Age(int(found["number"]), found["unit"])
