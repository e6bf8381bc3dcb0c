"""What a portfolio comes to, in words that its reports share."""

from __future__ import annotations

from collections.abc import Mapping

from speccheck.english import agree, count, listed
from speccheck.judge.judgement import Verdict
from speccheck.report.wording import clause_label
from speccheck.review.outcome import Standing
from speccheck.review.portfolio.tallies import ClauseTotal, Totals

OUTCOMES: Mapping[Standing, tuple[str, str]] = {
    Standing.FAILS: ("does not comply", "do not comply"),
    Standing.CANNOT_TELL: ("cannot be determined to comply", "cannot be determined to comply"),
    Standing.COMPLIES: ("complies", "comply"),
    Standing.NOTHING: ("has no line to which a mandatory clause applies", "have no such line"),
    Standing.NOT_READ: ("could not be used and was skipped", "could not be used and were skipped"),
}
OUTCOMES_HEADINGS = ("Does not comply", "Cannot be determined", "Complies", "Not checked", "Not applicable")


def heading(totals: Totals) -> str:
    """Return the number of schedules and lines in one sentence."""
    schedules, lines = sum(totals.schedules.values()), sum(totals.lines.values())
    return f"{count(schedules, 'schedule')}, {count(lines, 'line')}."


def sentences(totals: Totals) -> tuple[str, ...]:
    """Return a sentence for each outcome that some schedule has, the gravest first, then on what was in doubt."""
    found = []
    for standing, (one, several) in OUTCOMES.items():
        number = totals.schedules[standing]
        if number:
            found.append(f"{count(number, 'schedule')} {agree(number, one, several)}.")
    if totals.warnings:
        cells = count(totals.warnings, "place")
        verb = agree(totals.warnings, "was", "were")
        found.append(f"{cells} in the schedules {verb} not understood or in doubt.")
    return tuple(found)


def left_sentence(left: Mapping[str, int]) -> str:
    """Return which files of the folder were read as no schedules; "" for none."""
    if not left:
        return ""
    kinds = [f"{number:,} {ending or 'without ending'}" for ending, number in left.items()]
    total = sum(left.values())
    return f"{count(total, 'file')} of other kinds {agree(total, 'was', 'were')} left alone: {listed(kinds)}."


def clause_name(total: ClauseTotal) -> str:
    """Return the label and the title of a clause, and whether this is its advice."""
    label = f"{clause_label(total.clause)} {total.clause.title}".strip()
    return label if total.mandatory else f"{label} (recommendation)"


def most_found_first(clauses: list[ClauseTotal]) -> list[ClauseTotal]:
    """Return the clauses with most fails first, then with most that cannot be determined; else in their order."""
    return sorted(clauses, key=lambda one: (-one.counts[Verdict.FAILS], -one.counts[Verdict.CANNOT_TELL]))
