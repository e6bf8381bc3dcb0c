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
    "P105": (
        "gap between clauses",
        "Two clauses demand the same of systems below and above a narrow band of a temperature, a size or another "
        "amount, and in the band itself no clause demands it. A band that starts late is mostly a typing error; where "
        "nothing is to be asked in between, a `scope` says so.",
    ),
    "P106": (
        "table with an odd step",
        "Along an axis of the table all steps but one go the same way: the thickness rises with the size of the pipe, "
        "and falls once. Mostly two digits of one cell were mistaken.",
    ),
    "P201": (
        "clauses that cannot be met together",
        "Both clauses apply to a system, each could be met alone, and whatever meets the one fails the other.",
    ),
    "P202": (
        "two limits for one system",
        "Two clauses set different limits for the same thing of one system. Both can be met, and the stricter "
        "one governs; a reader who finds only the other one will not know.",
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
    "P313": (
        "alternative that adds nothing",
        "An alternative lets in nothing that the others do not let in, or a requirement asks for nothing that the "
        "others do not ask for. One of them was mostly meant otherwise.",
    ),
    "P316": (
        "document or relation that is of no line",
        "No line can meet all the conditions under which a document has to be submitted or a relation holds, or all "
        "those of the lines that are to stand beside it.",
    ),
    "P314": (
        "condition that holds for the last alternative alone",
        "`and` goes before `or`: in `service is A or service is B and concealed` the last condition is for B alone, "
        "and a reader will take it to be for both. Write `service is one of A, B and concealed`, or `service is A or "
        "concealed and service is B`.",
    ),
    "P315": (
        "omission that helps",
        "A line fails the clause where it states a datum, and not where it leaves the datum out, because a condition "
        "asks whether it is given. Whoever says less is told better. Ask for the datum plainly, so that a line without "
        "it cannot be determined; or write `judged only where ... is stated`, which the report counts and asks for; or "
        "`assume` what stands for it.",
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
    "P505": (
        "rules for all clauses changed by a revision",
        "The revision compares values by another tolerance, lets nominal metric sizes stand for inch sizes, or assumes "
        "something else where a schedule states nothing. Verdicts can turn although no clause has changed.",
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
    "P703": (
        "limit of the wording that is not that of the rule",
        "The wording and the rule limit by the same number and not in the same way: `not less than` beside `at most`, "
        "or `over 140 F` beside `is at least 140 F`, which differ at 140 F itself. One of the two is wrong.",
    ),
    "P704": (
        "number of the rule that the wording does not say",
        "The rule limits something by a number that its wording, which has other numbers of the kind, does not say.",
    ),
    "P705": (
        "choice of the wording that the rule does not list",
        "The wording names a material, a service, a place or another choice beside those of the rule, or instead of "
        "them, and the rule does not list it.",
    ),
    "P706": (
        "choice of the rule that the wording does not name",
        "The rule lists a material, a service, a place or another choice that the list of its wording leaves out.",
    ),
    "P707": (
        "condition of the wording that the rule does not ask for",
        "The wording says of which places, services or parts it speaks, and the rule has no condition on them, so that "
        "it applies to all others too.",
    ),
    "P708": (
        "duty of the wording that is not that of the rule",
        "The wording advises or permits what the rule requires with `shall`, or requires what the rule only advises "
        "with `should`.",
    ),
    "P709": (
        "reference that leads nowhere",
        "The wording refers to a clause, an article or a paragraph of a number that the ruleset does not have.",
    ),
    "P710": (
        "wording of another clause",
        "Two clauses of different numbers have the same wording, word for word. Clauses of one paragraph may share it: "
        "those whose numbers begin alike, as 2.1.A and 2.1.B do.",
    ),
    "P711": (
        "all or any",
        "The wording asks for all of a list (`valves, flanges and hangers`) and the rule for any one of it, or the "
        "other way round. Write `include` for all, and `include any of` where one is enough.",
    ),
    "P712": (
        "wording the other way round",
        "The wording forbids what the rule asks for (`shall not be used`), or names as wanted what the rule forbids.",
    ),
    "P713": (
        "number of another term",
        "The wording says a number of one term (`ambient temperature below 32 F`), and the rule limits another one of "
        "the same kind by it.",
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
