"""What a portfolio comes to, in words that its reports share."""

from __future__ import annotations

from collections.abc import Mapping

from speccheck.judge.judgement import Verdict
from speccheck.report.wording import clause_label, count, listed
from speccheck.review.portfolio.tallies import ClauseTotal, Outcome, Totals

OUTCOMES: Mapping[Outcome, tuple[str, str]] = {
    Outcome.FAILS: ("does not comply", "do not comply"),
    Outcome.CANNOT_TELL: ("cannot be told to comply", "cannot be told to comply"),
    Outcome.COMPLIES: ("complies", "comply"),
    Outcome.NOTHING: ("has no line to which a mandatory clause applies", "have no such line"),
    Outcome.NOT_READ: ("could not be used and was skipped", "could not be used and were skipped"),
}
OUTCOMES_HEADINGS = ("Does not comply", "Cannot tell", "Complies", "Not applicable")

STATUS_MEANINGS: Mapping[int, str] = {
    0: "all that was judged complies",
    1: "something does not comply",
    2: "nothing fails, but something cannot be told",
    3: "a schedule could not be used and was skipped, or nothing was judged",
}


def heading(totals: Totals) -> str:
    """Return the number of schedules and lines in one sentence."""
    schedules, lines = sum(totals.schedules.values()), sum(totals.lines.values())
    return f"{thousands(schedules, 'schedule')}, {thousands(lines, 'line')}."


def sentences(totals: Totals) -> tuple[str, ...]:
    """Return a sentence for each outcome that some schedule has, the gravest first, then on what was in doubt."""
    found = []
    for outcome, (one, several) in OUTCOMES.items():
        number = totals.schedules[outcome]
        if number:
            found.append(f"{thousands(number, 'schedule')} {one if number == 1 else several}.")
    if totals.warnings:
        cells = thousands(totals.warnings, "place")
        verb = "was" if totals.warnings == 1 else "were"
        found.append(f"{cells} in the schedules {verb} not understood or in doubt.")
    return tuple(found)


def left_sentence(left: Mapping[str, int]) -> str:
    """Return which files of the folder were taken for no schedules; "" for none."""
    if not left:
        return ""
    kinds = [f"{number:,} {ending or 'without ending'}" for ending, number in left.items()]
    total = sum(left.values())
    return f"{thousands(total, 'file')} of other kinds {'was' if total == 1 else 'were'} left alone: {listed(kinds)}."


def clause_name(total: ClauseTotal) -> str:
    """Return the label and the title of a clause, and whether this is its advice."""
    label = f"{clause_label(total.clause)} {total.clause.title}".strip()
    return label if total.mandatory else f"{label} (advice)"


def most_found_first(clauses: list[ClauseTotal]) -> list[ClauseTotal]:
    """Return the clauses with most fails first, then with most that cannot be told; else in their order."""
    return sorted(clauses, key=lambda one: (-one.counts[Verdict.FAILS], -one.counts[Verdict.CANNOT_TELL]))


def thousands(number: int, noun: str) -> str:
    """Return "1 line", "12,000 lines": the number with its noun."""
    return count(number, noun).replace(str(number), f"{number:,}", 1)
