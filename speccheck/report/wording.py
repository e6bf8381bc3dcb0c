"""The words that all reports share: the short mark of a cell, counts, the standing caution, what the whole comes to."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from speccheck.judge.judgement import Cell, Verdict
from speccheck.language.core import Clause, Ruleset
from speccheck.language.diagnostics import Severity
from speccheck.language.listing import listed as listed
from speccheck.review.matrix import Matrix
from speccheck.schedule.codes import LEAVES_PART_OUT
from speccheck.schedule.lines import Schedule

MARKS: Mapping[Verdict, str] = {
    Verdict.FAILS: "FAIL",
    Verdict.CANNOT_TELL: "ask",
    Verdict.ACCEPTED: "dev",
    Verdict.COMPLIES: "ok",
    Verdict.NOT_APPLICABLE: "–",
}

LEGEND: tuple[tuple[str, str], ...] = (
    (MARKS[Verdict.FAILS], "does not comply"),
    (MARKS[Verdict.CANNOT_TELL], "cannot tell: ask for the missing data"),
    (MARKS[Verdict.ACCEPTED], "does not comply, accepted as a deviation"),
    (MARKS[Verdict.COMPLIES], "complies"),
    (MARKS[Verdict.NOT_APPLICABLE], "not applicable"),
    ("( )", "in brackets: a clause of advice alone, which decides nothing"),
    ("*", "advice in the same clause is not followed or cannot be told"),
)

STANDING_CAUTIONS: tuple[str, ...] = (
    "This report is an aid to a reviewer and no approval. It judges only what the schedule states, by the clauses "
    "that were written down; the contract documents govern.",
    "Hot surfaces, fire ratings, adhesives and their solvents, and work at height can hurt people. Follow the adopted "
    "code, the maker's instructions and licensed practice.",
)


def mark(cell: Cell) -> str:
    """Return the short mark of a cell, which reads without colour; `LEGEND` says what the marks mean."""
    short = MARKS[cell.verdict]
    if not cell.mandatory:
        return short if cell.verdict is Verdict.NOT_APPLICABLE else f"({short.lower()})"
    return f"{short}*" if cell.advice in (Verdict.FAILS, Verdict.CANNOT_TELL) else short


def clause_label(clause: Clause) -> str:
    """Return the name by which reports call a clause."""
    return clause.label or clause.name


def count(number: int, singular: str, plural: str = "") -> str:
    """Return "1 line", "2 lines": the number with its noun."""
    return f"{number} {singular if number == 1 else plural or singular + 's'}"


def ruleset_heading(ruleset: Ruleset) -> str:
    """Return the ruleset's name with its edition."""
    return f"{ruleset.name}, {ruleset.edition}" if ruleset.edition else ruleset.name


def extent(matrix: Matrix) -> str:
    """Return how large a matrix is: "43 lines, 31 clauses"."""
    return f"{count(len(matrix.schedule.lines), 'line')}, {count(len(matrix.ruleset.clauses), 'clause')}"


def cautions(ruleset: Ruleset) -> tuple[str, ...]:
    """Return the standing cautions, then those of the ruleset and its vocabulary, each once."""
    return tuple(dict.fromkeys((*STANDING_CAUTIONS, *ruleset.cautions, *ruleset.vocabulary.cautions)))


@dataclass(frozen=True, slots=True)
class Outcome:
    """What the whole matrix comes to.

    `status` is the exit status of a check, `heading` the verdict in one sentence, `details` sentences with the counts.
    `deviates` says that it is 0 only because deviations were accepted.
    """

    status: int
    heading: str
    details: tuple[str, ...]
    deviates: bool = False

    @property
    def meaning(self) -> str:
        """One sentence that says what the exit status means."""
        but = ", but for accepted deviations" if self.deviates else ""
        return f"Exit status {self.status}: {STATUS_MEANINGS[self.status]}{but}."


STATUS_MEANINGS: Mapping[int, str] = {
    0: "all that was judged complies",
    1: "something does not comply",
    2: "nothing fails, but something cannot be told",
    3: "nothing could be judged; this is not a pass",
}


def outcome(matrix: Matrix) -> Outcome:
    """Return the outcome of a matrix; one in which no mandatory clause applies to any line is no pass (status 3)."""
    counts = matrix.counts
    details = (*_counted(matrix), *_left_over(matrix), *_beside(matrix), *_read(matrix.schedule))
    if counts.get(Verdict.FAILS):
        return Outcome(1, "The schedule does not comply.", details)
    if counts.get(Verdict.CANNOT_TELL) or any(one.leaves_open for one in matrix.observations):
        return Outcome(2, "It cannot be told whether the schedule complies.", details)
    if any(found.code in LEAVES_PART_OUT for found in matrix.schedule.diagnostics):
        return Outcome(2, "It cannot be told whether the schedule complies: part of it was not read.", details)
    if counts.get(Verdict.ACCEPTED):
        heading = "The schedule complies with every clause that applies, but for accepted deviations."
        return Outcome(0, heading, details, deviates=True)
    if counts.get(Verdict.COMPLIES):
        return Outcome(0, "The schedule complies with every clause that applies.", details)
    return Outcome(3, "Nothing was judged: no mandatory clause applies to any line. This is not a pass.", details)


def _counted(matrix: Matrix) -> tuple[str, ...]:
    """Return a sentence for each verdict that some cell has, the gravest first."""
    total = len(matrix.schedule.lines)
    sentences = []
    for verdict, words in (
        (Verdict.FAILS, "does not comply"),
        (Verdict.CANNOT_TELL, "cannot be told"),
        (Verdict.ACCEPTED, "is accepted as a deviation"),
        (Verdict.COMPLIES, "complies"),
    ):
        number = matrix.counts.get(verdict, 0)
        if number:
            lines = sum(any(cell.verdict is verdict and cell.mandatory for cell in row) for row in matrix.cells)
            verb = words if number == 1 else _of_several(words)
            sentences.append(f"{count(number, 'requirement')} {verb}, on {lines} of {count(total, 'line')}.")
    return tuple(sentences)


def _of_several(words: str) -> str:
    """Return "complies" as it is said of several things: "comply"."""
    first, _, rest = words.partition(" ")
    plural = {"does": "do", "complies": "comply", "is": "are"}.get(first, first)
    return f"{plural} {rest}".strip().replace("as a deviation", "as deviations")


def _beside(matrix: Matrix) -> tuple[str, ...]:
    """Return a sentence for each thing, beside the ruleset, that something was found by."""
    found = Counter(one.topic for one in matrix.observations if one.diagnostic.severity is not Severity.NOTE)
    return tuple(f"{count(number, 'finding')} by the {topic}." for topic, number in found.items())


def _left_over(matrix: Matrix) -> tuple[str, ...]:
    """Return sentences on advice and on lines that no clause speaks of, which nobody should take for passes."""
    sentences = []
    if matrix.advice:
        verb = "is" if len(matrix.advice) == 1 else "are"
        sentences.append(f"{count(len(matrix.advice), 'piece')} of advice {verb} not followed or unclear.")
    idle = unjudged_lines(matrix)
    if idle and matrix.ruleset.clauses:
        names = listed(idle[:8] + ((f"{len(idle) - 8} more",) if len(idle) > 8 else ()))
        sentences.append(f"No mandatory clause applies to {'line' if len(idle) == 1 else 'lines'} {names}.")
    return tuple(sentences)


def _read(schedule: Schedule) -> tuple[str, ...]:
    """Return a sentence on warnings of the reading, which the verdicts alone would not show."""
    number = sum(found.severity is Severity.WARNING for found in schedule.diagnostics)
    return (f"{count(number, 'warning')} on how the schedule was read.",) if number else ()


def unjudged_lines(matrix: Matrix) -> tuple[str, ...]:
    """Return the names of the lines to which no mandatory clause applies."""
    lines = enumerate(matrix.schedule.lines)
    return tuple(line.name for index, line in lines if matrix.line_verdict(index) is Verdict.NOT_APPLICABLE)
