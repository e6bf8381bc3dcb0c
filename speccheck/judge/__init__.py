"""The judge: verdicts on lines by clauses, with everything that led to them.

In: a `Ruleset` (floor `language`) and lines (floor `schedule`). Out: a `Cell` for each line and clause.

Files:

    aggregate     summing up
    amount_words  the amounts of a comparison in words, each with its value and with what it was worked out from
    breakpoints   the values of a term at which the verdict of a clause could change
    completing    what the ruleset assumes where a line states nothing, then what is worked out from the rest
    computing     terms that are worked out from the others of a case by the physics of the floor `physics`
    courses       what a line asks for beside its surface and its heat flow, and how that runs over one of its inputs
    crossings     the values of a range at which a calculation reaches what it is compared with
    curves        the surface temperature and the heat flow of one system against the thickness of its insulation
    evaluation    what an amount is and whether a condition holds on one case, with the trace of how that came about
    examples      examples of a ruleset judged: does each come out as it says, and which clauses and table cells does
                  none touch
    explaining    from the trace of an evaluation to steps of working and sentences with the values in them
    judgement     the verdict of one clause on one line, and everything that led to it
    judging       one clause on one line, with its reasons
    logic         what is known of a whole from what is known of its parts
    lookup        the cell of a table for the values of its axes, and in words where a value falls outside the bands
    operations    two values calculated with and compared: with the ruleset's tolerance, and with nominal metric sizes
                  where it lets them
    outcomes      conditions evaluated once for all cases that agree in what these draw on
    runs          the sizes and the parts of ranges for which a verdict holds, in words
    vectorized    the clauses of a ruleset evaluated over NumPy columns, with the same verdicts as the judge
    working       the working of a computed value in words, in as many digits as a reviewer would write
"""

from speccheck.judge.examples import Rehearsal, rehearse
from speccheck.judge.judgement import AssumedValue, Basis, Cell, Step, Verdict
from speccheck.judge.judging import Judge, judge_lines

__all__ = ["AssumedValue", "Basis", "Cell", "Judge", "Rehearsal", "Step", "Verdict", "judge_lines", "rehearse"]
