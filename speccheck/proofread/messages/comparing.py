"""What is said of a specification beside a code, of a revision, and of changes that no example notices."""

from __future__ import annotations

from speccheck.language.diagnostic_rules import Rule
from speccheck.language.diagnostics import Severity

LOOSER_THAN_CODE = Rule(
    "P401",
    "looser than the code",
    "The specification accepts a system that the code does not. The example line shows it.",
    Severity.WARNING,
)
LOOSER = LOOSER_THAN_CODE.says(
    "the specification is looser than clause `{clause}` of `{code}`{shortfall}",
    "the specification accepts the line, the code does not",
)
NOT_ASKED_FOR = LOOSER_THAN_CODE.says(
    "the specification does not ask for what clause `{clause}` of `{code}` asks for{shortfall}",
    "the specification accepts the line, the code does not",
)
STANDING_NOT_DECIDED = LOOSER_THAN_CODE.says(
    "how the specification stands to clause `{clause}`: no line was found that tells, and it was not "
    "shown that there is none",
    "",
)

MEANING_CHANGED = Rule(
    "P501",
    "meaning changed by a revision",
    "The revised clause gives another verdict than the clause before it on some systems.",
    Severity.WARNING,
)
STRICTER_NOW = MEANING_CHANGED.says("{what} is stricter on some systems", "`{before}` before, `{after}` after")
LOOSER_NOW = MEANING_CHANGED.says("{what} is looser on some systems", "`{before}` before, `{after}` after")
ANOTHER_VERDICT = MEANING_CHANGED.says(
    "{what} gives another verdict on some systems", "`{before}` before, `{after}` after"
)
ANOTHER_VERDICT_WITHOUT_DATA = MEANING_CHANGED.says(
    "{what} gives another verdict on lines that leave data out", "`{before}` before, `{after}` after"
)
WHETHER_CHANGED = MEANING_CHANGED.says("whether clause `{clause}` is {change} on any system", "")

CLAUSE_ADDED = Rule(
    "P502",
    "clause added by a revision",
    "The base had no clause of that number and none that means the same.",
    Severity.WARNING,
)
CLAUSE_NEW = CLAUSE_ADDED.says("clause `{clause}` is new", "")
FAILED_BY_NEW = CLAUSE_ADDED.says("clause `{clause}` is new", "the line fails it")

CLAUSE_DROPPED = Rule(
    "P503",
    "clause dropped by a revision",
    "The revision has no clause of that number and none that means the same.",
    Severity.WARNING,
)
CLAUSE_GONE = CLAUSE_DROPPED.says("clause `{clause}` is gone", "")
FAILED_BY_GONE = CLAUSE_DROPPED.says("clause `{clause}` is gone", "the line failed it")

RENUMBERED = Rule(
    "P504",
    "clause renumbered by a revision",
    "A clause of another number in the base means the same.",
    Severity.WARNING,
)
CLAUSE_RENUMBERED = RENUMBERED.says("clause `{before}` is now clause `{after}` and means the same", "")

RULES_FOR_ALL = Rule(
    "P505",
    "rules for all clauses changed by a revision",
    "The revision compares values by another tolerance, lets nominal metric sizes stand for inch sizes, "
    "or assumes something else where a schedule states nothing. Verdicts can turn although no clause has "
    "changed.",
    Severity.WARNING,
)
RULES_CHANGED = RULES_FOR_ALL.says("what holds for all clauses changed: {changes}", "")

UNNOTICED = Rule(
    "P601",
    "change that no example notices",
    "One number of the ruleset was put one step off, one limit taken in or out, one condition left out, "
    "or one cell of a table changed, and every example still came out as it says: nothing shows that "
    "what is written is what was meant. The help line proposes an example, judged by the clause as it is "
    "written. Read it before adding it: if the verdict is not what was meant, the clause is wrong.",
    Severity.WARNING,
)
NOTICED_BY_PROPOSAL = UNNOTICED.says("no example of {clauses} notices it where {change}", "{example}")
NOTICED_BY_NONE = UNNOTICED.says("no example of {clauses} notices it where {change}", "no example that would was found")
NOT_NOTICED = UNNOTICED.says("no example of {clauses} notices it where {change}", "add an example that would")

UNNOTICEABLE = Rule(
    "P602",
    "change that no example can notice",
    "The clause says the same with and without the change, of every line that states what it asks for. "
    "The wording may be redundant, or there for lines that leave something out.",
    Severity.NOTE,
)
CANNOT_BE_NOTICED = UNNOTICEABLE.says(
    "no example of {clauses} notices it where {change}", "no line that states everything can show it"
)
