"""Examples drafted for a person to answer: the few lines that tell most typing errors apart, without their verdicts.

Whoever fills in what was meant reviews the rule by answering and not by reading; a verdict of the rule's own would
bless a fault in it. Lines are told with the most valuable first: those that notice the most changes nobody notices yet.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from textwrap import wrap

from speccheck.language.core import Example, Ruleset
from speccheck.proofread.proposing import Answer, noticing
from speccheck.proofread.searching import ProposedExample
from speccheck.proofread.typing_errors import TypingError

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
    changes: tuple[TypingError, ...]

    def text(self, ruleset: Ruleset) -> str:
        """Return the line as a clause has it, its verdict left open, under a remark that names the clause."""
        stated = ", ".join(f"{one.term.name} {one.text}" for one in self.example.data)
        data = "\n          ".join(wrap(stated, WIDTH, break_long_words=False, break_on_hyphens=False))
        label = ruleset.clauses[self.clause].label
        return f'-- clause {label}\n  example "{self.example.title}" {UNANSWERED}\n          {data}\n'


def drafted(answers: Sequence[Answer], ruleset: Ruleset) -> tuple[DraftedExample, ...]:
    """Return few of the lines that were proposed, which together notice all changes that any of them notices.

    The line that notices the most changes comes first, then the one that notices most of the rest, and so on.
    """
    proposed: dict[tuple[int, tuple[str, ...]], ProposedExample] = {}
    for proposal in (answer.proposal for answer in answers if answer.proposal is not None):
        stated = tuple(f"{one.term.name} {one.text}" for one in proposal.example.data)
        proposed.setdefault((proposal.clause, stated), proposal)
    editions = [(answer.change, answer.change.applied(ruleset)) for answer in answers if answer.proposal is not None]
    return tuple(_fewest([(one, tuple(_noticed(one, editions))) for one in proposed.values()]))


def _noticed(proposal: ProposedExample, editions: Iterable[tuple[TypingError, Ruleset]]) -> Iterator[TypingError]:
    """Yield the changes that a line notices, of those that its clause depends on."""
    for change, changed in editions:
        if proposal.clause in change.clauses and noticing(changed, proposal) is not None:
            yield change


def _fewest(noticed: Sequence[tuple[ProposedExample, Sequence[TypingError]]]) -> Iterator[DraftedExample]:
    """Yield lines until no change is left that any of them notices, each time the one that notices most of the rest."""
    left = {id(change) for _, changes in noticed for change in changes}
    while left:
        proposal, changes = max(noticed, key=lambda one: sum(id(change) in left for change in one[1]))
        yield DraftedExample(
            proposal.clause, proposal.example, tuple(change for change in changes if id(change) in left)
        )
        left -= {id(change) for change in changes}


def drafted_text(lines: Iterable[DraftedExample], ruleset: Ruleset) -> str:
    """Return the lines as a block, by clause in the order of the ruleset."""
    ordered = sorted(lines, key=lambda one: one.clause)
    return "\n".join((HEADER, *(one.text(ruleset) for one in ordered)))
