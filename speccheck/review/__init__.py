"""The review: what a schedule and a ruleset make together, and what stands around them.

In: a `Schedule` (floor `schedule`) and a `Ruleset` (floor `language`); where there are any, a design list and product
data, read as schedules are, a register of accepted deviations, and the round before. Out: a `Matrix` of cells with its
findings, with observations on everything else, and with what became of the round before.

    schedule, ruleset --> judging --> Matrix --+--> accepting (deviations) --> Matrix
                                               +--> omissions, clashes, evidence --> observations
    Matrix of the round before ----------------+--> comparison

Files:

    accepting       accepted deviations in a matrix: shown as such, never as compliance
    messages        every sentence that a review says beside the verdicts
    conditions      A condition in the clause language that stands outside a ruleset, such as the lines of a deviation
    corrections     the corrections with which a line that does not comply would
    catalogue       the shipped rulesets as facts: document, edition, place, sources; and what is not there
    coverage        which sizes and temperatures of a design system no line of the schedule covers
    deviations      the register of deviations: what the engineer has accepted, for which lines, from which clause,
                    and until when
    documents       what the section asks to be submitted, checked against the register of what was received
    received        the register of what was received: documents, samples and reports, for which materials and lines
    line_relations  lines checked against one another: the same jacket, a line for each valve, a total length
    editions        two editions of a ruleset compared by meaning: clauses added, dropped, renumbered, changed, worded
                    anew
    evidence        the schedule checked against product data: what is shown, what differs, and what nothing shows
    filling_from_data
                    what a schedule leaves out filled in from product data where a person asks for it
    file_shapes     the shapes of the files that a reviewer writes: the register of deviations, and the notes
    intervals       ranges of plain numbers with open or closed ends, joined and taken from one another exactly
    line_matching   which line of a resubmittal is which line of the round before: matched by what they are, not by
                    name or row
    line_wording    what observations say of systems, sizes and values, in the trade's words
    matrix          every line against every clause, and what a review found beside it
    notes           the reviewer's own notes to lines and clauses, kept from round to round; with empty ones for
                    comments that have none yet
    observations    what a review finds beside the verdicts of the matrix, each with the lines that it is about
    omissions       the design list against the schedule: what was left out, what has no place in it, what two lines
                    claim and state differently
    outcome         what a whole schedule comes to: counts, whether all was read, exit status, sentences
    package         several files that a contractor sent as one submittal, read as one schedule
    portfolio       a whole folder of schedules, or a Parquet dataset of them, judged by one ruleset
    products        what is shown of each product, and whether a stated value and a shown one mean the same
    requirements    which clauses apply to a line, which may, and what each asks of it with the numbers for this line
    review_day      the day of the review, stated on every line where a clause asks how old something is
    reviewing       from a schedule and a ruleset to their whole review: verdicts, reasons, deviations, the design
                    list, product data
    rounds          what became of each finding, and what changed that no finding asked for
    sweep           every combination of stated values of terms, judged by a ruleset and counted
    system_extent   which systems of the building a line stands for, in the terms that the vocabulary marks to tell
                    systems apart
    yearly          what lines cost a year: those that do not comply as proposed and bare, and as corrected
    weather_file    weather files in the open EPW format: the hours of a year, and a ruleset that assumes them
"""

from speccheck.review.matrix import Matrix, MatrixFinding
from speccheck.review.outcome import Outcome, outcome_of
from speccheck.review.reviewing import judge_schedule

__all__ = ["Matrix", "MatrixFinding", "Outcome", "judge_schedule", "outcome_of"]
