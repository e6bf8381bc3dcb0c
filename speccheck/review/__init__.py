"""The review: what a schedule and a ruleset make together, and what stands around them.

In: a `Schedule` (floor `submittal`) and a `Ruleset` (floor `language`); where there are any, a design list and product
data, read as schedules are, a register of accepted deviations, and the round before. Out: a `Matrix` of cells with its
findings, with observations on everything else, and with what became of the round before.

    schedule, ruleset --> judging --> Matrix --+--> accepting (deviations) --> Matrix
                                               +--> omissions, clashes, evidence --> observations
    Matrix of the round before ----------------+--> comparison

Files:

    matrix            the compliance matrix
    outcome           what a whole schedule comes to: counts, whether all was read, exit status, sentences
    judging           from a schedule and a ruleset to their matrix
    reviewing         a matrix held against everything else
    observations      what is found beside the verdicts; codes: what each of them means
    system_terms      which terms tell one system of the building from another
    extents           the systems that a line stands for
    spans             ranges of temperatures, exactly
    coverage          what of a design system no line covers
    omissions         the design list held against the schedule
    clashes           lines that claim one system and disagree
    disagreements     what two lines for one system state differently
    products          what product data show
    evidence          the schedule held against product data
    conditions        a condition in the clause language outside a ruleset
    deviations        the register of accepted deviations
    accepting         deviations in a matrix
    same_values       whether two values mean the same
    matching          which line of one round is which of another
    comparison        two rounds compared
    clause_meaning    what a clause means, to be compared
    clause_changes    two editions of a ruleset compared, clause by clause
    line_wording      systems, sizes and values in words
    requirements      which clauses apply to a line, and what they ask of it
    asking            what a condition asks for, in words
    mending           a package: the least changes with which a line would comply
    portfolio         a package: a whole folder of schedules, judged in streams
    sweep             a package: every combination of stated values, judged and counted
    notes             the reviewer's notes; keeping_notes: those for the next round
"""

from speccheck.review.matrix import Finding, Matrix
from speccheck.review.outcome import Outcome, outcome_of
from speccheck.review.reviewing import judge_schedule

__all__ = ["Finding", "Matrix", "Outcome", "judge_schedule", "outcome_of"]
