"""How good the examples of a ruleset are: which typing errors they would notice, and the example for those they would
not.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from speccheck.english import first_of
from speccheck.judge.examples import comes_out, example_line
from speccheck.language.core import Example, Ruleset
from speccheck.language.diagnostics import Diagnostic
from speccheck.proofread.messages.comparing import CANNOT_BE_NOTICED, NOT_NOTICED, NOTICED_BY_NONE, NOTICED_BY_PROPOSAL
from speccheck.proofread.proposing import Answer, answers
from speccheck.proofread.searching import ProposedExample
from speccheck.proofread.typing_errors import TypingError, changes_of
from speccheck.proofread.verdicts import ClauseJudge
from speccheck.schedule.lines import Line

Tried = tuple[Example, Line]


@dataclass(frozen=True)
class Trial:
    """One change that was tried, and the label of the clause and the title of the example that notices it, if any."""

    change: TypingError
    noticed_by: tuple[str, str] | None


@dataclass(frozen=True)
class Adequacy:
    """All changes of a ruleset that were tried, in the order in which it is written."""

    trials: tuple[Trial, ...]

    @property
    def unnoticed(self) -> tuple[TypingError, ...]:
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
    return [(example, line) for example, line in examples if comes_out(example, judge.verdict(line))]


def _noticed_by(ruleset: Ruleset, change: TypingError, lines: Sequence[Sequence[Tried]]) -> tuple[str, str] | None:
    """Return the clause and the title of the first example that does not come out as it says after a change."""
    changed = change.applied(ruleset)
    for number in change.clauses:
        judge = ClauseJudge(changed, changed.clauses[number])
        for example, line in lines[number]:
            if not comes_out(example, judge.verdict(line)):
                return ruleset.clauses[number].label, example.title
    return None


# How many clauses a message names.
MOST_NAMED = 3


def unnoticed(ruleset: Ruleset, found: Adequacy, *, propose: bool = True) -> tuple[Answer, ...]:
    """Return the changes that no example notices, with a proposal for each, or without proposals."""
    if not propose:
        return tuple(Answer(change, None) for change in found.unnoticed)
    return tuple(answers(ruleset, found.unnoticed))


def told(answer: Answer, ruleset: Ruleset, *, sought: bool = True) -> Diagnostic:
    """Return a warning for a change that goes unnoticed, a note for one that alters no verdict.

    `sought` says that an example which would notice it was looked for.
    """
    change = answer.change
    clauses = _clauses(change, ruleset)
    if answer.proposal and not answer.same:
        example = example_text(answer.proposal, ruleset)
        return NOTICED_BY_PROPOSAL.at(change.place, clauses=clauses, change=change.words, example=example)
    said = CANNOT_BE_NOTICED if answer.same else NOTICED_BY_NONE if sought else NOT_NOTICED
    return said.at(change.place, clauses=clauses, change=change.words)


def example_text(proposal: ProposedExample, ruleset: Ruleset) -> str:
    """Return a proposed example as it is written in its clause, on one line."""
    example = proposal.example
    data = ", ".join(f"{stated.term.name} {stated.text}" for stated in example.data)
    return f'add to `{ruleset.clauses[proposal.clause].label}`: example "{example.title}" {example.expected} {data}'


def _clauses(change: TypingError, ruleset: Ruleset) -> str:
    labels = [f"`{ruleset.clauses[number].label}`" for number in change.clauses]
    return first_of(labels, MOST_NAMED)
