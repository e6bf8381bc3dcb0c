"""The codes of findings of proofreading: a title and what a writer needs to know about each."""

from __future__ import annotations

from collections.abc import Mapping

DIAGNOSTICS: Mapping[str, tuple[str, str]] = {
    "P101": (
        "table with a hole",
        "A clause applies to systems for which its table has no band, so that no verdict can be given however much the "
        "schedule states. Bands in whole degrees leave what lies between them uncovered: 105 F to 140 F, then 141 F to "
        "200 F, says nothing of 140.5 F. Let the next band begin right over the end of the one before: `over 140 F to "
        "200 F`.",
    ),
    "P102": (
        "table with a dash that is looked up",
        "A clause applies to systems for which its table has a dash (not covered). Narrow the clause, or "
        "fill the cell.",
    ),
    "P103": (
        "system that no clause governs",
        "The ruleset says with `scope` which systems the clauses of a subject govern, and there are systems in it to "
        "which none of them applies.",
    ),
    "P104": (
        "scope without clause",
        "The ruleset says with `scope` which systems the clauses of a subject govern, but no clause has that subject.",
    ),
    "P201": (
        "clauses that cannot be met together",
        "Both clauses apply to a system, each could be met alone, and whatever meets the one fails the other.",
    ),
    "P301": (
        "clause that never applies",
        "No system meets all that the clause says under `where`, so that it judges nothing.",
    ),
    "P302": (
        "exceptions that take out everything",
        "Every system to which the clause would apply is taken out by an exception, or the exceptions ask for what "
        "such systems do not state, so that it stays open whether the clause applies to any.",
    ),
    "P303": (
        "condition that never holds",
        "No value that a schedule can state makes the condition true.",
    ),
    "P304": (
        "condition that always holds",
        "Every value that a schedule can state makes the condition true, so that it asks nothing.",
    ),
    "P305": (
        "condition that changes nothing",
        "The other conditions under `where` say as much without it.",
    ),
    "P306": (
        "exception that takes out nothing",
        "No system to which the clause would apply meets the exception, or other exceptions take it out already.",
    ),
    "P307": (
        "requirement that cannot be met",
        "The clause applies to some systems, and none of them can meet what it asks for.",
    ),
    "P308": (
        "requirement that is always met",
        "Every system to which the clause applies meets what it asks for, so that it asks for nothing.",
    ),
    "P309": (
        "clause that another implies",
        "Every system that fails the clause fails the other one as well, or one of several others together, so that it "
        "adds nothing.",
    ),
    "P310": (
        "part of a table that is never looked up",
        "No clause that reads the table applies to any system in that row, column or cell.",
    ),
    "P311": (
        "table that no clause looks up",
        "Neither a clause nor a definition that a clause uses looks the table up.",
    ),
    "P312": (
        "definition that no clause uses",
        "No clause uses the definition, directly or through others.",
    ),
    "P401": (
        "looser than the code",
        "The specification accepts a system that the code does not. The example line shows it.",
    ),
    "P501": (
        "meaning changed by a revision",
        "The revised clause gives another verdict than the clause before it on some systems.",
    ),
    "P502": (
        "clause added by a revision",
        "The base had no clause of that number and none that means the same.",
    ),
    "P503": (
        "clause dropped by a revision",
        "The revision has no clause of that number and none that means the same.",
    ),
    "P504": (
        "clause renumbered by a revision",
        "A clause of another number in the base means the same.",
    ),
    "P601": (
        "change that no example notices",
        "One number of the ruleset was put one step off, one limit taken in or out, one condition left out, or one "
        "cell of a table changed, and every example still came out as it says: nothing shows that what is written is "
        "what was meant. The help line proposes an example, judged by the clause as it is written. Read it before "
        "adding it: if the verdict is not what was meant, the clause is wrong.",
    ),
    "P602": (
        "change that no example can notice",
        "The clause says the same with and without the change, of every line that states what it asks for. The wording "
        "may be redundant, or there for lines that leave something out.",
    ),
    "P701": (
        "wording that cannot be judged",
        "A phrase of the wording leaves open what is asked (`as required`, `suitable`, `where exposed`), so that two "
        "readers can differ. Say by a number, a list or a definition what is meant.",
    ),
    "P702": (
        "wording that says another number than the rule",
        "The wording states a quantity of a kind that the rule beside it compares with numbers, and none of them is "
        "the one stated. One of the two is wrong.",
    ),
    "P801": (
        "statement that does not hold",
        "The rules do not do what a `statement` of the ruleset says. The message and the example line show where: with "
        "the two values that are named, and all else as the line states it.",
    ),
    "P802": (
        "statement that could not be decided",
        "No line speaks against the statement, and it was not proved for all: amounts are worked out from others, or "
        "the clauses part the systems in too many ways.",
    ),
}
