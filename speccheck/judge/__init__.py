"""The judge: verdicts on lines by clauses, with everything that led to them.

In: a `Ruleset` (floor `language`) and lines (floor `schedule`). Out: a `Cell` for each line and clause.

Files:

    aggregate     from the judgements of all cases of a line to the one cell of the matrix
    breakpoints   the values of a term at which the verdict of a clause could change
    cell          a cell of the matrix: the verdict, and the facts that led to it
    completing    what the ruleset assumes where a line states nothing, then what is worked out from the rest
    computing     terms that are worked out from the others of a case by the physics of the floor `physics`
    courses       what a line asks for beside its surface and its heat flow, and how that runs over one of its inputs
    crossings     the values of a range at which a calculation reaches what it is compared with
    curves        the surface temperature and the heat flow of one system against the thickness of its insulation
    evaluation    what an amount is and whether a condition holds on one case, with the trace of how that came about
    examples      examples of a ruleset judged: does each come out as it says, and which clauses and table cells does
                  none touch
    explain       the facts of a cell put into words, once, when somebody asks for them
    judgement     verdicts, the rules by which they come about, and one clause judged on one case
    judging       one clause on one line, with everything that led to its verdict
    logic         what is known of a whole from what is known of its parts
    lookup        the cell of a table for the values of its axes, and between which bands a value falls outside of them
    operations    two values calculated with and compared: with the ruleset's tolerance, and with nominal metric sizes
                  where it lets them
    outcomes      conditions evaluated once for all cases that agree in what these draw on
    unknown       what is not known: the term whose value would settle it, and why
    vectorized    the clauses of a ruleset evaluated over NumPy columns, with the same verdicts as the judge
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from speccheck.judge.cell import Cell, Explanation, Step
from speccheck.judge.judgement import AssumedValue, BareVerdict, Basis, Verdict
from speccheck.judge.judging import Judge, judge_lines

if TYPE_CHECKING:
    from speccheck.judge.examples import Rehearsal, rehearse

__all__ = [
    "AssumedValue",
    "BareVerdict",
    "Basis",
    "Cell",
    "Explanation",
    "Judge",
    "Rehearsal",
    "Step",
    "Verdict",
    "judge_lines",
    "rehearse",
]


def __getattr__(name: str) -> Any:
    """Return what judges examples, imported when it is first asked for: who checks a schedule judges none."""
    if name not in ("Rehearsal", "rehearse"):
        raise AttributeError(f"module `speccheck.judge` has no attribute `{name}`")
    from speccheck.judge import examples

    return getattr(examples, name)
