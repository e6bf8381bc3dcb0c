"""Lines with one datum taken away at a time: what a schedule that says less is told instead."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from speccheck.judge import Judge
from speccheck.judge.examples import example_line
from speccheck.judge.judgement import Verdict
from speccheck.judge.vectorized import columns_of, judge_columns
from speccheck.judge.vectorized.conditions import CODES, VERDICTS
from speccheck.judge.vectorized.from_lines import terms_drawn_on
from speccheck.language import load_ruleset
from speccheck.language.core import Clause, Ruleset
from speccheck.language.core.walking import terms_of
from speccheck.language.vocabulary.values import BareUnits, NotGiven, read_value
from speccheck.schedule import read_schedule
from speccheck.schedule.lines import Datum, Line

DAIRY = Path(__file__).parents[2] / "examples" / "dairy"
DEMO = str(DAIRY / "project.clauses")

_NOT_JUDGED = (CODES[Verdict.NOT_APPLICABLE], CODES[Verdict.CANNOT_TELL])


@dataclass(frozen=True, slots=True)
class Improvement:
    """A verdict that got better when a line no longer stated something: from which one to which one.

    `taken_over` says that another clause, which asks for the same terms, then judges the line instead, without a pass.
    """

    clause: Clause
    line: Line
    datum: str
    before: Verdict
    after: Verdict
    taken_over: bool

    @property
    def by_rule(self) -> bool:
        """Whether the clause says itself that it judges only lines that state the datum, or another takes it over."""
        return self.taken_over or (
            self.after is Verdict.NOT_CHECKED and any(one.term.name == self.datum for one in self.clause.judged_only)
        )


@cache
def rules(name: str) -> Ruleset:
    """Return a shipped ruleset, or the one of the demo."""
    ruleset = load_ruleset(name).ruleset
    assert ruleset is not None, name
    return ruleset


def lines_of(name: str) -> tuple[Line, ...]:
    """Return the lines of all examples of a ruleset, and those of the demo's schedule."""
    examples = (
        example_line(example, rules(name).units) for clause in rules(name).clauses for example in clause.examples
    )
    return (*examples, *_demo_lines())


@cache
def _demo_lines() -> tuple[Line, ...]:
    return read_schedule(DAIRY / "schedule.xlsx", rules(DEMO).vocabulary).lines


def without(line: Line, datum: str, words: str | None) -> Line:
    """Return a line without a datum: absent, where `words` is None, else with a cell of those words."""
    data = {name: value for name, value in line.data.items() if name != datum}
    if words is not None:
        value = read_value(words, rules(DEMO).vocabulary.terms[datum], BareUnits())
        assert isinstance(value, NotGiven), words
        data[datum] = Datum(value, words)
    return Line(line.name, data, line.place)


def removals(lines: Sequence[Line], ruleset: Ruleset) -> Iterator[tuple[int, str]]:
    """Yield the place of a line, and a datum of it that its ruleset draws on."""
    drawn_on = terms_drawn_on(ruleset)
    for place, line in enumerate(lines):
        for datum, stated in line.data.items():
            if datum in drawn_on and not isinstance(stated.value, NotGiven):
                yield place, datum


def improvements(lines: Sequence[Line], ruleset: Ruleset, words: str | None = None) -> tuple[int, list[Improvement]]:
    """Return how many data were taken away, and each verdict that was better without one."""
    taken = list(removals(lines, ruleset))
    whole = judge_columns(ruleset, columns_of(lines, ruleset)).codes
    less = [without(lines[place], datum, words) for place, datum in taken]
    found = judge_columns(ruleset, columns_of(less, ruleset)).codes
    before = whole[[place for place, _ in taken]]
    rows, columns = ((before <= 0) & (found > 0)).nonzero()
    told = [
        Improvement(
            ruleset.clauses[column],
            lines[taken[row][0]],
            taken[row][1],
            VERDICTS[int(before[row, column])],
            VERDICTS[int(found[row, column])],
            int(found[row, column]) == CODES[Verdict.NOT_APPLICABLE]
            and _taken_over(ruleset, column, before[row], found[row]),
        )
        for row, column in zip(rows.tolist(), columns.tolist(), strict=True)
    ]
    return len(taken), [one for one in told if not on_assumption(one, ruleset, words)]


def _taken_over(ruleset: Ruleset, column: int, before: NDArray[np.int8], found: NDArray[np.int8]) -> bool:
    """Say whether a clause that asks for the same terms did not judge a line, and now does, without a pass."""
    asked = _asked(ruleset.clauses[column])
    return any(
        before[number] in _NOT_JUDGED and found[number] <= 0 and asked & _asked(clause)
        for number, clause in enumerate(ruleset.clauses)
    )


def _asked(clause: Clause) -> frozenset[str]:
    return frozenset(term.name for term in terms_of(clause.shall or clause.should))


def on_assumption(one: Improvement, ruleset: Ruleset, words: str | None) -> bool:
    """Say whether the verdict without the datum tells that it stands on what the ruleset assumes of that datum."""
    if one.datum not in {assumption.term.name for assumption in ruleset.assumptions}:
        return False
    cell = Judge(ruleset).cell(ruleset.clauses.index(one.clause), without(one.line, one.datum, words))
    return any(value.term == one.datum for value in cell.assumed)
