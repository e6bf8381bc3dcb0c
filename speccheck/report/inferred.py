"""Inferred values: which data of the lines are not read as they stand, and where each came from, at a glance."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.report.line_words import shown, understood
from speccheck.schedule.lines import Schedule

MOST_NAMED = 5


@dataclass(frozen=True, slots=True)
class InferredValues:
    """One way in which values of a term came about, on how many lines, and some of them in words."""

    term: str
    note: str
    count: int
    some: tuple[str, ...]


def inferred_values(schedule: Schedule, vocabulary: Vocabulary, units: str) -> tuple[InferredValues, ...]:
    """Return the values of a schedule that carry where they came from, in the order of its lines."""
    found: dict[tuple[str, str], list[str]] = defaultdict(list)
    for line in schedule.lines:
        for name, datum in line.data.items():
            if datum.note:
                read_as = understood(datum, vocabulary.terms.get(name), units) or "not given"
                found[name, datum.note].append(f"{line.name}: {shown(datum)} read as {read_as}")
    return tuple(
        InferredValues(term, note, len(told), tuple(told[:MOST_NAMED])) for (term, note), told in found.items()
    )
