"""What proofreading says of gaps and clashes of clauses, and of statements that do not hold."""

from __future__ import annotations

from speccheck.language.diagnostic_rules import Rule
from speccheck.language.diagnostics import Severity

HOLE_IN_TABLE = Rule(
    "P101",
    "table with a hole",
    "A clause applies to systems for which its table has no band, so that no verdict can be given "
    "however much the schedule states. Bands in whole degrees leave what lies between them uncovered: "
    "105 F to 140 F, then 141 F to 200 F, says nothing of 140.5 F. Let the next band begin right over "
    "the end of the one before: `over 140 F to 200 F`.",
    Severity.WARNING,
)
HOLE_BETWEEN_BANDS = HOLE_IN_TABLE.says(
    "`{table}` has a hole between `{first}` and `{second}`: {systems}",
    "let the next band begin where the one before ends: `over A to B`",
)
NO_BAND_FOR = HOLE_IN_TABLE.says(
    "`{table}` has no band for {systems}", "add a band, or narrow the clause to what the table covers"
)

DASH_IN_TABLE = Rule(
    "P102",
    "table with a dash that is looked up",
    "A clause applies to systems for which its table has a dash (not covered). Narrow the clause, or fill the cell.",
    Severity.WARNING,
)
DASHES_LOOKED_UP = DASH_IN_TABLE.says(
    "a clause looks up where `{table}` has a dash: {places}", "fill the cells, or leave these systems out of the clause"
)
MORE_DASHES_LOOKED_UP = DASH_IN_TABLE.says(
    "a clause looks up where `{table}` has a dash: {places}; and at {more} more places",
    "fill the cells, or leave these systems out of the clause",
)

UNGOVERNED = Rule(
    "P103",
    "system that no clause governs",
    "The ruleset says with `scope` which systems the clauses of a subject govern, and there are systems "
    "in it to which none of them applies.",
    Severity.WARNING,
)
NOT_GOVERNED = UNGOVERNED.says(
    "no clause governs `{subject}` of some systems in its scope: {systems}",
    "write a clause for them, widen one, or except them from the scope",
)
NOT_GOVERNED_WHERE = UNGOVERNED.says(
    "no clause governs `{subject}` of some systems in its scope: {systems}",
    "write a clause for them, widen one, or except them from the scope: `except where {condition} because ...`",
)
WHETHER_GOVERNED = UNGOVERNED.says("whether `{subject}` is governed for {systems}", "")

EMPTY_SCOPE = Rule(
    "P104",
    "scope without clause",
    "The ruleset says with `scope` which systems the clauses of a subject govern, but no clause has that subject.",
    Severity.WARNING,
)
NO_CLAUSE_OF_SUBJECT = EMPTY_SCOPE.says(
    "no mandatory clause has the subject `{subject}`",
    "write `subject {subject}` in the clauses that govern it, or leave the scope out",
)

GAP = Rule(
    "P105",
    "gap between clauses",
    "Two clauses demand the same of systems below and above a narrow band of a temperature, a size or "
    "another amount, and in the band itself no clause demands it. A band that starts late is mostly a "
    "typing error; where nothing is to be asked in between, a `scope` says so.",
    Severity.WARNING,
)
GAP_BETWEEN_BANDS = GAP.says(
    "clauses `{first}` and `{second}` leave a gap between their bands: {gap}",
    "let the one begin where the other ends, or declare with `scope` what the clauses are to govern",
)

ODD_STEP = Rule(
    "P106",
    "table with an odd step",
    "Along an axis of the table all steps but one go the same way: the thickness rises with the size of "
    "the pipe, and falls once. Mostly two digits of one cell were mistaken.",
    Severity.WARNING,
)
ONE_STEP_FALLS = ODD_STEP.says(
    "`{table}` falls from {was} to {now}, where all other steps rise",
    "correct the cell, or write in a note of the table that `P106 is meant`",
)
ONE_STEP_RISES = ODD_STEP.says(
    "`{table}` rises from {was} to {now}, where all other steps fall",
    "correct the cell, or write in a note of the table that `P106 is meant`",
)

CLASH = Rule(
    "P201",
    "clauses that cannot be met together",
    "Both clauses apply to a system, each could be met alone, and whatever meets the one fails the other.",
    Severity.WARNING,
)
NEVER_MET_TOGETHER = CLASH.says(
    "no line can meet both clauses `{first}` and `{second}` where both apply",
    "the line meets `{first}` and fails `{second}`; let one of them leave these systems out",
)
CANNOT_BE_MET_TOGETHER = CLASH.says(
    "clauses `{first}` and `{second}` cannot be met together",
    "the line meets `{first}` and fails `{second}`; let one of them leave these systems out",
)
WHETHER_MET_TOGETHER = CLASH.says(
    "whether clauses `{first}` and `{second}` can be met together",
    "read the two side by side; an example in either that meets both of them answers it",
)

LIMITS_TWICE = Rule(
    "P202",
    "two limits for one system",
    "Two clauses set different limits for the same thing of one system. Both can be met, and the "
    "stricter one governs; a reader who finds only the other one will not know.",
    Severity.WARNING,
)
TWO_LIMITS = LIMITS_TWICE.says(
    "clauses `{first}` and `{second}` set two limits of `{term}` for one system",
    "the stricter one governs; say so in the looser clause, or let it leave these systems out",
)

STATEMENT_FAILS = Rule(
    "P801",
    "statement that does not hold",
    "The rules do not do what a `statement` of the ruleset says. The message and the example line show "
    "where: with the two values that are named, and all else as the line states it.",
    Severity.WARNING,
)
STATEMENT_OF_DEMANDS_FAILS = STATEMENT_FAILS.says(
    "the statement `{statement}` does not hold: with {term} {accepted} a line is accepted that clause "
    "`{clause}` fails with {term} {failed}",
    "the line with {term} {accepted} or {failed}",
)
STATEMENT_OF_AMOUNT_FAILS = STATEMENT_FAILS.says(
    "the statement `{statement}` does not hold: {amount} {never} from {before} at {term} {from_value} to "
    "{after} at {to_value}",
    "",
)

STATEMENT_UNDECIDED = Rule(
    "P802",
    "statement that could not be decided",
    "No line speaks against the statement, and it was not proved for all: amounts are worked out from "
    "others, or the clauses part the systems in too many ways.",
    Severity.WARNING,
)
WHETHER_STATEMENT_HOLDS = STATEMENT_UNDECIDED.says("whether the statement `{statement}` holds", "")
