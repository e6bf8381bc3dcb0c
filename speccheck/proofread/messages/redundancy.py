"""What proofreading says of conditions, exceptions, clauses, tables and definitions that change nothing."""

from __future__ import annotations

from speccheck.language.diagnostic_rules import Rule
from speccheck.language.diagnostics import Severity

NEVER_APPLYING = Rule(
    "P301",
    "clause that never applies",
    "No system meets all that the clause says under `where`, so that it judges nothing.",
    Severity.WARNING,
)
NEVER_APPLIES = NEVER_APPLYING.says(
    "clause `{clause}` never applies: no line meets all its conditions",
    "correct the conditions, or leave the clause out",
)
WHETHER_APPLIES = NEVER_APPLYING.says("whether clause `{clause}` ever applies", "")

ALL_EXCEPTED = Rule(
    "P302",
    "exceptions that take out everything",
    "Every system to which the clause would apply is taken out by an exception, or the exceptions ask "
    "for what such systems do not state, so that it stays open whether the clause applies to any.",
    Severity.WARNING,
)
EXCEPTIONS_TAKE_OUT_ALL = ALL_EXCEPTED.says(
    "the exceptions of clause `{clause}` take out every line that it applies to",
    "narrow an exception, or leave the clause out",
)
EXCEPTIONS_LEAVE_ALL_OPEN = ALL_EXCEPTED.says(
    "the exceptions of clause `{clause}` leave it open for every line whether it applies",
    "narrow an exception, or leave the clause out",
)

NEVER_HOLDING = Rule(
    "P303",
    "condition that never holds",
    "No value that a schedule can state makes the condition true.",
    Severity.WARNING,
)
NEVER_HOLDS = NEVER_HOLDING.says("`{condition}` never holds", "correct the value, or leave the condition out")

ALWAYS_HOLDING = Rule(
    "P304",
    "condition that always holds",
    "Every value that a schedule can state makes the condition true, so that it asks nothing.",
    Severity.WARNING,
)
ALWAYS_HOLDS = ALWAYS_HOLDING.says(
    "`{condition}` holds whatever the schedule states", "leave it out, or correct the value"
)

REDUNDANT_CONDITION = Rule(
    "P305",
    "condition that changes nothing",
    "The other conditions under `where` say as much without it.",
    Severity.WARNING,
)
CHANGES_NOTHING = REDUNDANT_CONDITION.says(
    "`{words}` changes nothing: the other conditions of clause `{clause}` say as much", "leave it out"
)

REDUNDANT_EXCEPTION = Rule(
    "P306",
    "exception that takes out nothing",
    "No system to which the clause would apply meets the exception, or other exceptions take it out already.",
    Severity.WARNING,
)
TAKEN_OUT_BY_OTHERS = REDUNDANT_EXCEPTION.says(
    "the exception `{exception}` of clause `{clause}` takes nothing out: other exceptions take the same lines out",
    "leave it out, or correct it",
)
EXCEPTION_OF_NO_LINE = REDUNDANT_EXCEPTION.says(
    "the exception `{exception}` of clause `{clause}` takes nothing out: no line that it applies to meets it",
    "leave it out, or correct it",
)
WHETHER_EXCEPTION_TAKES_OUT = REDUNDANT_EXCEPTION.says("whether the exception `{exception}` takes any line out", "")

UNMEETABLE = Rule(
    "P307",
    "requirement that cannot be met",
    "The clause applies to some systems, and none of them can meet what it asks for.",
    Severity.WARNING,
)
CANNOT_BE_MET = UNMEETABLE.says(
    "no line can meet clause `{clause}`", "correct what it asks for; the line is one of those that fail it"
)
WHETHER_CAN_BE_MET = UNMEETABLE.says("whether any line can meet clause `{clause}`", "")

ALWAYS_MET = Rule(
    "P308",
    "requirement that is always met",
    "Every system to which the clause applies meets what it asks for, so that it asks for nothing.",
    Severity.WARNING,
)
ASKS_FOR_NOTHING = ALWAYS_MET.says("clause `{clause}` asks for nothing: every line that it applies to meets it", "")

IMPLIED = Rule(
    "P309",
    "clause that another implies",
    "Every system that fails the clause fails the other one as well, or one of several others together, "
    "so that it adds nothing.",
    Severity.WARNING,
)
ADDS_NOTHING_TO_SEVERAL = IMPLIED.says(
    "clause `{clause}` adds nothing: every line that fails it fails clause {others}",
    "leave it out, or say what it asks beyond them",
)
ADDS_NOTHING_TO_ANOTHER = IMPLIED.says(
    "clause `{clause}` adds nothing: every line that fails it fails clause `{other}`",
    "leave it out, or say what it asks beyond `{other}`",
)
TWO_ASK_THE_SAME = IMPLIED.says(
    "clause `{clause}` adds nothing: every line that fails it fails clause `{other}`", "leave one of the two out"
)
WHETHER_IMPLIED = IMPLIED.says("whether clause `{other}` implies clause `{clause}`", "")

UNUSED_PART = Rule(
    "P310",
    "part of a table that is never looked up",
    "No clause that reads the table applies to any system in that row, column or cell.",
    Severity.WARNING,
)
HEADING_NOT_LOOKED_UP = UNUSED_PART.says(
    "no clause ever looks up the {what} `{heading}` of `{table}`",
    "leave it out, or widen the clause that reads the table",
)
CELL_NOT_LOOKED_UP = UNUSED_PART.says(
    "no clause ever looks up the cell at {headings} of `{table}`",
    "leave it out, or widen the clause that reads the table",
)

UNUSED_TABLE = Rule(
    "P311",
    "table that no clause looks up",
    "Neither a clause nor a definition that a clause uses looks the table up.",
    Severity.WARNING,
)
TABLE_NOT_LOOKED_UP = UNUSED_TABLE.says(
    "no clause looks `{table}` up", "leave the table out, or write the clause that uses it"
)

UNUSED_DEFINITION = Rule(
    "P312",
    "definition that no clause uses",
    "No clause uses the definition, directly or through others.",
    Severity.WARNING,
)
DEFINITION_NOT_USED = UNUSED_DEFINITION.says(
    "no clause uses the definition `{name}`", "leave it out, or write the clause that uses it"
)

REDUNDANT_ALTERNATIVE = Rule(
    "P313",
    "alternative that adds nothing",
    "An alternative lets in nothing that the others do not let in, or a requirement asks for nothing "
    "that the others do not ask for. One of them was mostly meant otherwise.",
    Severity.WARNING,
)
ALTERNATIVE_ADDS_NOTHING = REDUNDANT_ALTERNATIVE.says(
    "the alternative `{condition}` adds nothing: the others let in as much without it",
    "leave it out, or correct it: one of them was meant otherwise",
)
ASKED_FOR_BESIDES = REDUNDANT_ALTERNATIVE.says(
    "`{condition}` adds nothing to what clause `{clause}` asks for anyway",
    "leave it out, or correct it: one of them was meant otherwise",
)

LAST_ALTERNATIVE_ALONE = Rule(
    "P314",
    "condition that holds for the last alternative alone",
    "`and` goes before `or`: in `service is A or service is B and concealed` the last condition is for B "
    "alone, and a reader will take it to be for both. Write `service is one of A, B and concealed`, or "
    "`service is A or concealed and service is B`.",
    Severity.WARNING,
)
AND_GOES_BEFORE_OR = LAST_ALTERNATIVE_ALONE.says(
    "`{condition}` holds for `{only}` alone: `and` goes before `or`",
    "write `is one of` and the condition after it, or the condition before its alternative; "
    "or write in a note that `P314 is meant`",
)

OMISSION_HELPS = Rule(
    "P315",
    "omission that helps",
    "A line fails the clause where it states a datum, and not where it leaves the datum out, because a "
    "condition asks whether it is given. Whoever says less is told better. Ask for the datum plainly, so "
    "that a line without it cannot be determined; or write `judged only where ... is stated`, which the "
    "report counts and asks for; or `assume` what stands for it.",
    Severity.WARNING,
)
MET_BY_WHAT_LEAVES_OUT = OMISSION_HELPS.says(
    "clause `{clause}` is met by a line that leaves `{term}` out, and fails the line that states it",
    "ask for it without `is given`, so that a line without it cannot be determined; or write `judged "
    "only where {term} is stated`, or `assume` a value",
)
NOT_FOR_WHAT_LEAVES_OUT = OMISSION_HELPS.says(
    "clause `{clause}` is not for a line that leaves `{term}` out, and fails the line that states it",
    "ask for it without `is given`, so that a line without it cannot be determined; or write `judged "
    "only where {term} is stated`, or `assume` a value",
)

OF_NO_USE = Rule(
    "P316",
    "document or relation that is of no line",
    "No line can meet all the conditions under which a document has to be submitted or a relation holds, "
    "or all those of the lines that are to stand beside it.",
    Severity.WARNING,
)
NEVER_ASKED_FOR = OF_NO_USE.says(
    "document `{name}` is never asked for: no line meets all its conditions",
    "correct the conditions, or leave the document out",
)
WHETHER_ASKED_FOR = OF_NO_USE.says("whether document `{name}` is never asked for", "")
OF_NO_LINE = OF_NO_USE.says(
    "relation `{name}` is of no line: no line meets all its conditions",
    "correct the conditions, or leave the relation out",
)
WHETHER_OF_NO_LINE = OF_NO_USE.says("whether relation `{name}` is of no line", "")
BESIDE_NO_LINE = OF_NO_USE.says(
    "relation `{name}` has no line to stand beside: no line meets all its conditions",
    "correct the conditions, or leave the relation out",
)
WHETHER_BESIDE_NO_LINE = OF_NO_USE.says("whether relation `{name}` has no line to stand beside", "")
