"""Lines with one datum taken away at a time: what a schedule that says less is told instead."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from speccheck.judge.examples import example_line
from speccheck.judge.judgement import Verdict
from speccheck.judge.vectorized import columns_of, judge_columns
from speccheck.judge.vectorized.conditions import VERDICTS
from speccheck.judge.vectorized.from_lines import terms_drawn_on
from speccheck.language import load_ruleset
from speccheck.language.core import Clause, Ruleset
from speccheck.language.vocabulary.values import NotGiven
from speccheck.schedule import read_schedule
from speccheck.schedule.lines import Datum, Line

DAIRY = Path(__file__).parents[2] / "examples" / "dairy"
DEMO = str(DAIRY / "project.clauses")

WORSE = (Verdict.FAILS, Verdict.CANNOT_TELL)


@dataclass(frozen=True, slots=True)
class Improvement:
    """A verdict that got better when a line no longer stated something: from which one to which one."""

    clause: Clause
    line: Line
    datum: str
    before: Verdict
    after: Verdict

    @property
    def by_rule(self) -> bool:
        """Whether the clause itself says that it judges only lines that state the datum."""
        return self.after is Verdict.NOT_CHECKED and any(one.term.name == self.datum for one in self.clause.judged_only)


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
    """Return a line without a datum: absent, where `words` is None, else with words that are no value."""
    data = {name: value for name, value in line.data.items() if name != datum}
    if words is not None:
        data[datum] = Datum(NotGiven(words, "not stated"), words)
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
    return len(taken), [
        Improvement(
            ruleset.clauses[column],
            lines[taken[row][0]],
            taken[row][1],
            VERDICTS[int(before[row, column])],
            VERDICTS[int(found[row, column])],
        )
        for row, column in zip(rows.tolist(), columns.tolist(), strict=True)
    ]
