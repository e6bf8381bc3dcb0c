"""Changes that no example notices, told as diagnostics with the example that would notice them."""

from __future__ import annotations

from speccheck.language.core import Ruleset
from speccheck.language.diagnostics import Diagnostic, Severity
from speccheck.proofread.changes import Change
from speccheck.proofread.mutations import Adequacy
from speccheck.proofread.proposing import Answer, answers
from speccheck.proofread.searching import Proposal

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
    message = f"no example of {_clauses(change, ruleset)} notices it where {change.words}"
    if answer.same:
        return Diagnostic("P602", Severity.NOTE, message, change.place, "no line that states everything can show it")
    help = "no example that would was found" if sought else "add an example that would"
    help = example_text(answer.proposal, ruleset) if answer.proposal else help
    return Diagnostic("P601", Severity.WARNING, message, change.place, help)


def example_text(proposal: Proposal, ruleset: Ruleset) -> str:
    """Return a proposed example as it is written in its clause, on one line."""
    example = proposal.example
    data = ", ".join(f"{stated.term.name} {stated.text}" for stated in example.data)
    return f'add to `{ruleset.clauses[proposal.clause].label}`: example "{example.title}" {example.expected} {data}'


def _clauses(change: Change, ruleset: Ruleset) -> str:
    labels = [f"`{ruleset.clauses[number].label}`" for number in change.clauses]
    more = f" and {len(labels) - MOST_NAMED} more" if len(labels) > MOST_NAMED else ""
    return ", ".join(labels[:MOST_NAMED]) + more
