"""Proposing: the example that would notice a change which none of the examples of a ruleset notices.

It is sought near the examples that are there, so that it differs from one of them in as little as can be; where none
lies near, the regions of the clause before and after the change say whether there is one at all. What is proposed was
judged twice: by the clause as it is written, which gives the verdict that the example expects, and by the clause as it
would be after the change, which gives another one.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import islice

from speccheck.judge.examples import comes_out, example_line
from speccheck.language.core import Expected, Ruleset, Table
from speccheck.language.core.walking import comparisons, conditions_of
from speccheck.proofread.finite_amounts import is_plain
from speccheck.proofread.revisions import Revised, compare_revisions
from speccheck.proofread.searching import ExampleSearch, ProposedExample
from speccheck.proofread.steps import same_cells
from speccheck.proofread.typing_errors import TypingError
from speccheck.proofread.verdicts import ClauseJudge

# How many lines near an example are tried before the regions of the clause are asked.
FEW = 60


@dataclass(frozen=True)
class Answer:
    """What became of the search for one change: a proposal, or none.

    `same` says that there can be none: the clauses make the same of every line that states what they ask for.
    """

    change: TypingError
    proposal: ProposedExample | None
    same: bool = False


def answers(ruleset: Ruleset, changes: Iterable[TypingError], tries: int = 1_500) -> Iterator[Answer]:
    """Yield for each change an example that notices it; one that was proposed for an earlier change comes first."""
    proposed: list[ProposedExample] = []
    for change in changes:
        changed = change.applied(ruleset)
        earlier = (noticing(changed, one) for one in proposed if one.clause in change.clauses)
        found = next((one for one in earlier if one is not None), None)
        answer = Answer(change, found) if found is not None else _sought(ruleset, changed, change, tries)
        proposed += [answer.proposal] if answer.proposal else []
        yield answer


def noticing(changed: Ruleset, proposal: ProposedExample) -> ProposedExample | None:
    """Return the proposal with its verdict after another change, None where it does not notice that one."""
    judge = ClauseJudge(changed, changed.clauses[proposal.clause])
    cell = judge.verdict(example_line(proposal.example, changed.units))
    return None if comes_out(proposal.example, cell) else replace(proposal, after=cell.verdict)


def _sought(ruleset: Ruleset, changed: Ruleset, change: TypingError, tries: int) -> Answer:
    """Return an example near those that are there; where none lies very near, the one that the regions come to.

    An example of which the clause can tell is preferred to one of which it cannot.
    """
    near, doubtful = _near(ruleset, changed, change, min(FEW, tries))
    if near is not None:
        return Answer(change, near)
    anywhere = _anywhere(ruleset, changed, change)
    if anywhere.proposal is not None:
        return anywhere
    if tries > FEW:
        near, doubtful = _near(ruleset, changed, change, tries)
    return Answer(change, near or doubtful) if near or doubtful else anywhere


def _near(
    ruleset: Ruleset, changed: Ruleset, change: TypingError, tries: int
) -> tuple[ProposedExample | None, ProposedExample | None]:
    """Return an example near those that are there of which the clause can tell, and one of which it cannot.

    Each is None where so many tries for each clause show none.
    """
    doubtful: ProposedExample | None = None
    for number in change.clauses:
        search = ExampleSearch(ruleset, changed, change, number)
        for texts in islice(search.texts(), tries):
            found = search.tried(texts)
            if found is not None and found.example.expected is not Expected.CANNOT_TELL:
                return found, doubtful
            doubtful = doubtful or found
    return None, doubtful


def _anywhere(ruleset: Ruleset, changed: Ruleset, change: TypingError) -> Answer:
    """Return the example that the regions of a clause before and after a change come to.

    Clauses that compare amounts with one another have no regions that settle this, and are left open.
    """
    same = True
    for number in change.clauses:
        if isinstance(change.old, Table) and isinstance(change.new, Table) and same_cells(change.old, change.new):
            continue
        if not all(map(is_plain, comparisons(conditions_of(ruleset.clauses[number])))):
            same = False
            continue
        before = replace(ruleset, clauses=(ruleset.clauses[number],))
        after = replace(changed, clauses=(changed.clauses[number],))
        for revised in compare_revisions(before, after):
            if isinstance(revised, Revised) and revised.incomplete:
                continue
            same = False
            if isinstance(revised, Revised) and revised.example:
                search = ExampleSearch(ruleset, changed, change, number)
                found = search.tried({one.term.name: one.text for one in revised.example})
                if found is not None:
                    return Answer(change, found)
    return Answer(change, None, same)
