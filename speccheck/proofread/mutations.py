"""How good the examples of a ruleset are: which slips of the pen they would notice, and which example would.

In: a `Ruleset`. Out: an `Adequacy`: each change that was tried, with the example that notices it. An example notices a
change where its clause, changed, gives another verdict on it than the example says. A change that no example notices
is a rule that nobody has tried; a proposed example shows the difference, judged by the clause as it is written and as
it would be after the change.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from speccheck.engine.examples import comes_out, example_line
from speccheck.language.core import Example, Ruleset
from speccheck.proofread.changes import Change, changes_of
from speccheck.proofread.verdicts import ClauseJudge
from speccheck.submittal.lines import Line

Tried = tuple[Example, Line]


@dataclass(frozen=True)
class Trial:
    """One change that was tried, and the label of the clause and the title of the example that notices it, if any."""

    change: Change
    noticed_by: tuple[str, str] | None


@dataclass(frozen=True)
class Adequacy:
    """All changes of a ruleset that were tried, in the order in which it is written."""

    trials: tuple[Trial, ...]

    @property
    def unnoticed(self) -> tuple[Change, ...]:
        """The changes that no example notices."""
        return tuple(trial.change for trial in self.trials if trial.noticed_by is None)

    @property
    def share(self) -> float:
        """The share of changes that are noticed, from 0 to 1; 1 where there was nothing to change."""
        return 1 - len(self.unnoticed) / len(self.trials) if self.trials else 1.0


def adequacy(ruleset: Ruleset) -> Adequacy:
    """Return which changes of what a ruleset says are noticed by the examples of its clauses."""
    lines = [
        [(example, example_line(example, ruleset.units)) for example in clause.examples] for clause in ruleset.clauses
    ]
    kept = [_right(ClauseJudge(ruleset, clause), listed) for clause, listed in zip(ruleset.clauses, lines, strict=True)]
    return Adequacy(tuple(Trial(change, _noticed_by(ruleset, change, kept)) for change in changes_of(ruleset)))


def _right(judge: ClauseJudge, examples: Iterable[Tried]) -> list[Tried]:
    """Return the examples that come out as they say; the others show a mistake, and are no measure of anything."""
    return [(example, line) for example, line in examples if comes_out(example, judge.cell(line))]


def _noticed_by(ruleset: Ruleset, change: Change, lines: Sequence[Sequence[Tried]]) -> tuple[str, str] | None:
    """Return the clause and the title of the first example that does not come out as it says after a change."""
    changed = change.applied(ruleset)
    for number in change.clauses:
        judge = ClauseJudge(changed, changed.clauses[number])
        for example, line in lines[number]:
            if not comes_out(example, judge.cell(line)):
                return ruleset.clauses[number].label, example.title
    return None
