"""Lines that claim the same system and disagree: which one would be built is not known."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from speccheck.engine.comparing import Rules
from speccheck.language.core import Ruleset
from speccheck.review import codes
from speccheck.review.disagreements import disagreeing
from speccheck.review.extents import Extent, extent_of, shared
from speccheck.review.line_wording import Wording
from speccheck.review.observations import Observation, warning
from speccheck.submittal.lines import Schedule

MOST_TOLD = 4


def clashing_lines(schedule: Schedule, ruleset: Ruleset) -> Iterator[Observation]:
    """Yield each pair of lines that stand for one system, at some size and temperature, and propose different things.

    What one of the two leaves open is no disagreement; neither are words that are never judged.
    """
    wording = Wording.of(ruleset)
    rules = Rules(ruleset.tolerance, ruleset.nominal_metric, ruleset.units)
    for one, other in combinations([extent_of(line, wording.terms) for line in schedule.lines], 2):
        common = shared(one, other)
        if common is None or not one.words:
            continue
        terms = tuple(disagreeing(one.line, other.line, wording, rules))
        if terms:
            sizes = f" at {wording.sizes(common[0])}" if common[0] else ""
            first, second = one.line, other.line
            message = f"lines `{first.name}` and `{second.name}` both stand for one system{sizes} and disagree: "
            message += "; ".join(_said(term, one, other, wording) for term in terms[:MOST_TOLD])
            if len(terms) > MOST_TOLD:
                message += f"; and {len(terms) - MOST_TOLD} more: {', '.join(terms[MOST_TOLD:])}"
            help = "ask which of the two is meant, or what tells the systems apart"
            yield warning(codes.LINES_CLASH, message, second.place, help, [first.name, second.name])


def _said(term: str, one: Extent, other: Extent, wording: Wording) -> str:
    first, second = (wording.datum(line.line.data[term], term) for line in (one, other))
    return f"{term} {first} and {second}"
