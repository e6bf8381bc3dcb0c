"""Dates of test reports: a day in a sentence or row that speaks of the property that was tested, or of its report."""

from __future__ import annotations

import re
from collections.abc import Iterator

from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.phrases.words import key_of
from speccheck.quantities import Day, read_day
from speccheck.quantities.dates import MONTH
from speccheck.schedule.data_sheets.facts import SheetFact
from speccheck.schedule.data_sheets.mentions import SheetNames

_DATES = (
    re.compile(r"\b\d{4}-\d{1,2}-\d{1,2}\b"),
    re.compile(rf"\b(?:{MONTH})\.?\s+\d{{1,2}},?\s+\d{{4}}\b", re.IGNORECASE),
    re.compile(rf"\b\d{{1,2}}\.?\s+(?:{MONTH})\.?,?\s+\d{{4}}\b", re.IGNORECASE),
)


def dates_in(text: str, vocabulary: Vocabulary, names: SheetNames) -> Iterator[SheetFact]:
    """Yield the dates of reports in a text, each written as 2024-05-17, as the term that dates that report."""
    day = _day(text)
    if day is None or not re.search(r"report|test|dated|issued", text, re.IGNORECASE):
        return
    words = key_of(text)
    for term in vocabulary.terms.values():
        if term.dates and any(_speaks_of(words, vocabulary, name) for name in (term.name, *term.dates)):
            yield SheetFact(term, day, day)


def _speaks_of(words: tuple[str, ...], vocabulary: Vocabulary, name: str) -> bool:
    """Whether words name a term by one of its longer names."""
    term = vocabulary.terms[name]
    keys = (key_of(spelling) for spelling in (term.name, *term.also))
    return any(
        len("".join(key)) >= 4 and any(words[place : place + len(key)] == key for place in range(len(words)))
        for key in keys
    )


def _day(text: str) -> str | None:
    """Return the one day that a text has, None where it has none or several."""
    read = (read_day(written[0]) for pattern in _DATES for written in pattern.finditer(text))
    found = {str(day) for day in read if isinstance(day, Day)}
    return found.pop() if len(found) == 1 else None
