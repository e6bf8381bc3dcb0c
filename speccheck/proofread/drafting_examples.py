"""Examples drafted for a person to answer: the few lines that tell most typing errors apart, without their verdicts.

Whoever fills in what was meant reviews the rule by answering and not by reading; a verdict of the rule's own would
bless a fault in it. Lines are told with the most valuable first: those that notice the most changes nobody notices yet.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from textwrap import wrap

from speccheck.language.core import Example, Ruleset
from speccheck.proofread.proposing import Answer
from speccheck.proofread.typing_errors import Change

UNANSWERED = "VERDICT"
WIDTH = 90
HEADER = f"""\
-- Lines for the examples of clauses. Write for each what you mean in the place of {UNANSWERED}: complies, complies
-- against advice, fails, does not apply, or cannot be determined. Then copy it into its clause; `speccheck test` says
-- on which lines the rule disagrees with you.
"""


@dataclass(frozen=True)
class DraftedExample:
    """A line for the clause with this number in its ruleset, and the changes that it would notice."""

    clause: int
    example: Example
    changes: tuple[Change, ...]

    def text(self, ruleset: Ruleset) -> str:
        """Return the line as a clause has it, its verdict left open, under a remark that names the clause."""
        stated = ", ".join(f"{one.term.name} {one.text}" for one in self.example.data)
        data = "\n          ".join(wrap(stated, WIDTH, break_long_words=False, break_on_hyphens=False))
        label = ruleset.clauses[self.clause].label
        return f'-- clause {label}\n  example "{self.example.title}" {UNANSWERED}\n          {data}\n'


def drafted(answers: Iterable[Answer]) -> tuple[DraftedExample, ...]:
    """Return the lines that were proposed, each once, those first that notice the most changes."""
    found: dict[tuple[int, tuple[str, ...]], list[Answer]] = {}
    for answer in answers:
        if answer.proposal is not None:
            stated = tuple(f"{one.term.name} {one.text}" for one in answer.proposal.example.data)
            found.setdefault((answer.proposal.clause, stated), []).append(answer)
    lines = [_drafted(group) for group in found.values()]
    return tuple(sorted(lines, key=lambda one: -len(one.changes)))


def _drafted(group: Sequence[Answer]) -> DraftedExample:
    proposal = group[0].proposal
    assert proposal is not None
    return DraftedExample(proposal.clause, proposal.example, tuple(answer.change for answer in group))


def drafted_text(lines: Iterable[DraftedExample], ruleset: Ruleset) -> str:
    """Return the lines as a block, by clause in the order of the ruleset."""
    ordered = sorted(lines, key=lambda one: one.clause)
    return "\n".join((HEADER, *(one.text(ruleset) for one in ordered)))
