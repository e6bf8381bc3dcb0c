"""The engine: verdicts on lines by clauses, with everything that led to them.

In: a `Ruleset` (floor `language`) and lines (floor `submittal`). Out: a `Cell` for each line and clause.

Files:

    kleene        three-valued logic
    comparing     two values of one kind, with tolerance
    calculating   arithmetic on values
    looking_up    the cells of tables
    completing    what the ruleset assumes of a case, then what is worked out from the rest
    computing     the terms that are worked out, by the floor `trade`
    curves        surface temperature and heat flow of one system against its thickness
    evaluating    a condition on one case, with its trace
    breakpoints   where in a range the verdict could change
    crossings     the same, for calculations
    judging       the judge: one clause on one line
    summing_up    the judgements of all cases of a line in one cell
    runs          for which sizes and temperatures a verdict holds
    explaining    the trace in words
    stating       the amounts of a comparison in words
    working_words the working of a computed value in words
    rounding      the digits that a reviewer would write of a value that was worked out
    judgement     verdicts and cells
    examples      the examples of a ruleset, judged
    columns       a package: the verdicts of the judge for all lines at once, without reasons
"""

from speccheck.judge.examples import Rehearsal, rehearse
from speccheck.judge.judgement import Basis, Cell, Step, Verdict
from speccheck.judge.judging import Judge, judge_lines

__all__ = ["Basis", "Cell", "Judge", "Rehearsal", "Step", "Verdict", "judge_lines", "rehearse"]
