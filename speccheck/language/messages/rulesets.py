"""What is said of the clauses, documents, relations and definitions of a ruleset, and of what it builds on."""

from __future__ import annotations

from speccheck.language.diagnostic_rules import Rule
from speccheck.language.diagnostics import Severity

DEFINED_TWICE = Rule(
    "L301",
    "defined twice",
    "Two clauses of a ruleset, two tables, two definitions or two terms have the same name, or two terms "
    "or values share a synonym.",
)
NUMBER_TAKEN = DEFINED_TWICE.says(
    "{what} `{number}` has the number of a clause or of another {other}",
    "correct the number, or leave out one of the two",
)
TERM_TWICE = DEFINED_TWICE.says("the term `{term}` is defined twice", "give one of them another name")
SPELLING_OF_TWO_VALUES = DEFINED_TWICE.says(
    "`{words}` stands for two values of `{term}`, `{owner}` and `{other}`", "leave it with one of them"
)
SPELLING_OF_TWO_TERMS = DEFINED_TWICE.says(
    "`{words}` stands for two terms, `{owner}` and `{other}`", "leave it with one of them"
)
PARAGRAPH_TWICE = DEFINED_TWICE.says(
    "paragraph `{paragraph}` is said not to be checked, and stands as a clause or twice",
    "leave out one of the two, or correct the number",
)
BASES_CLASH = DEFINED_TWICE.says(
    "`{first}` and `{second}` give the name `{name}` two meanings", "build on one of them, or rename it in one"
)
TABLE_NAME_TAKEN = DEFINED_TWICE.says("the name `{name}` is taken already", "give the table another name")
CLAUSE_TWICE = DEFINED_TWICE.says("clause `{clause}` stands twice", "give one of them another number")
DEFINITION_NAME_TAKEN = DEFINED_TWICE.says("the name `{name}` is taken already", "give the definition another name")
VALUE_TWICE_IN_ORDER = DEFINED_TWICE.says("`{value}` stands twice in one order", "leave one of them out")
WORDS_OF_ONE_AND_SEVERAL = DEFINED_TWICE.says(
    "`{words}` stands for `{owner}` alone, and for one of several values of `{term}`", "leave it in one place"
)

DEFINITION_CIRCLE = Rule(
    "L302",
    "circle of definitions",
    "A definition stands on itself, directly or through others. Every evaluation must end, so this is not allowed.",
)
DEFINITIONS_IN_CIRCLE = DEFINITION_CIRCLE.says(
    "the definitions go round in a circle: {definitions}", "say one of them without the others"
)

RULESET_CIRCLE = Rule(
    "L303",
    "rulesets build on one another in a circle",
    "A ruleset builds on itself, directly or through others.",
)
RULESETS_IN_CIRCLE = RULESET_CIRCLE.says(
    "the rulesets build on one another in a circle: {rulesets}", "leave this one out"
)

FILE_NOT_FOUND = Rule(
    "L304",
    "ruleset or vocabulary not found",
    "The name after `builds on` or `speaks` is looked for beside the file and among the shipped rulesets.",
)
NAMED_FILE_NOT_FOUND = FILE_NOT_FOUND.says(
    "`{name}` is neither beside this file nor shipped", "put `{file}` beside this file"
)
EDITION_NOT_FOUND = FILE_NOT_FOUND.says(
    "`{name}` is neither beside this file nor shipped",
    'these editions of it are shipped: {editions}; write `builds on "{ruleset}" edition {last}`',
)

NOTHING_REPLACED = Rule(
    "L305",
    "replaced clause not found",
    "`replaces` names a clause of a ruleset that this one builds on.",
)
REPLACED_TABLE_NOT_FOUND = NOTHING_REPLACED.says(
    "no ruleset `{ruleset}` that this one builds on has a table `{table}`", "check both names and `builds on`"
)
REPLACED_HEADING_NOT_FOUND = NOTHING_REPLACED.says(
    "`{table}` of `{ruleset}` has no heading `{heading}`", "write headings as that table has them, or replace all of it"
)
TABLE_CANNOT_REPLACE = NOTHING_REPLACED.says(
    "`{table}` of `{ruleset}` is read where this table cannot stand for it",
    "let its cells be of the same kind; where it is read as if, replace those clauses too",
)
REPLACES_SEVERAL = NOTHING_REPLACED.says(
    "`{clause}` is the number of {number} clauses", 'say which: `replaces ... of "..."`'
)
REPLACES_OF_NO_BASE = NOTHING_REPLACED.says(
    "this ruleset does not build on `{ruleset}`", "name a ruleset as `builds on` does"
)
REPLACES_NO_CLAUSE = NOTHING_REPLACED.says(
    "no ruleset that this one builds on has a clause `{clause}`", "check the number and `builds on`"
)

NO_VOCABULARY = Rule(
    "L306",
    "no vocabulary",
    "A ruleset says with `speaks` from which vocabulary it draws its terms.",
)
NO_VOCABULARY_SPOKEN = NO_VOCABULARY.says("the ruleset speaks no vocabulary", "add `speaks mechanical insulation`")

NO_REQUIREMENT = Rule(
    "L307",
    "clause without requirement",
    "A clause needs at least one `shall` or `should`.",
)
CLAUSE_ASKS_FOR_NOTHING = NO_REQUIREMENT.says("clause `{clause}` asks for nothing", "add a `shall` or a `should`")

NO_CLAUSE = Rule(
    "L308",
    "ruleset that judges nothing",
    "The ruleset has no clause and asks for no document, so that nothing could ever fail. That is not "
    "the same as complying.",
)
NOTHING_TO_JUDGE = NO_CLAUSE.says(
    "the ruleset has no clause and judges nothing", "add a clause, or build on a ruleset that has some"
)

PART_TWICE = Rule(
    "L309",
    "part said twice",
    "Parts such as `wording` or `edition` stand once in a clause or a header.",
)
KEYWORD_TWICE = PART_TWICE.says("`{keyword}` is said twice", "join the two, or leave one out")
STOCKED_TWICE = PART_TWICE.says("the stocked values of `{term}` are said twice", "join the two, or leave one out")

UNCHECKABLE_STATEMENT = Rule(
    "L310",
    "statement that cannot be checked against the rules",
    "A statement speaks of an amount or of the clauses while a term grows, which must be a size, a "
    "quantity or a count; or it holds the clauses for one value of a term against those for another "
    "value of the same term.",
)
TERM_DOES_NOT_GROW = UNCHECKABLE_STATEMENT.says(
    "`{term}` is {kind} and does not grow", "name a size, a quantity or a count"
)
STATED_NOT_ASKED = UNCHECKABLE_STATEMENT.says(
    "`{term}` is what a line states, not what is asked of it",
    "name a table or an amount, or say `clauses are never looser as ... grows`",
)
NEITHER_RISES_NOR_FALLS = UNCHECKABLE_STATEMENT.says("{kind} neither rises nor falls", "name a table or an amount")
NOT_TWO_VALUES_OF_ONE_TERM = UNCHECKABLE_STATEMENT.says(
    "the two conditions are not two values of one term",
    "write `where location is outdoor, than where location is conditioned`",
)

UNCONFIRMED = Rule(
    "L311",
    "clause that nobody has confirmed",
    "A clause, a document or a relation with the line `draft` was written by the program from the words "
    "of a section, and one with `todo` has something left to do. No schedule is judged by a ruleset that "
    "has one: a person reads it beside its wording, corrects it, and takes the line out.",
)
NOT_FINISHED = UNCONFIRMED.says(
    "{what} `{name}` is not finished: {left}",
    "write the {what} as the wording means it, and take the line `todo` out; or say `not checked`",
)
NOT_CONFIRMED = UNCONFIRMED.says(
    "{what} `{name}` is a draft that nobody has confirmed",
    "read it beside its wording, and take the line `draft` out if it says the same",
)

MISPLACED_WHERE = Rule(
    "L312",
    "condition on the line of a requirement",
    "`shall A where B` reads as if B belonged to that requirement alone. In this language every `where` "
    "of a clause limits the whole clause, so that another requirement of it would silently hold for "
    "fewer lines.",
)
WHERE_BEHIND_REQUIREMENT = MISPLACED_WHERE.says(
    "`where` behind `{keyword}` would limit the whole clause, not this requirement alone",
    "write `if` for a condition of this requirement alone; put a `where` of the clause on a line of its own",
)

SHARED_TERM = Rule(
    "L313",
    "term in two vocabularies",
    "Two vocabularies that the ruleset speaks say different things of one term. The first to be named counts.",
    Severity.WARNING,
)
TERM_OF_TWO_VOCABULARIES = SHARED_TERM.says(
    "`{term}` is a term of `{first}` and of `{second}`, which say different things of it",
    "what `{first}` says counts; name the vocabulary first whose term the clauses mean",
)

UNASKABLE_DOCUMENT = Rule(
    "L314",
    "document that cannot be asked for",
    "A `document` says with `submit` what is to be submitted, from a closed list: data sheet, "
    "certificate, test report, sample, installer's qualification, installation instructions, shop "
    "drawing, warranty. `of each` names terms of choices or words, each value of which wants a document "
    "of its own.",
)
DOCUMENT_WITHOUT_KIND = UNASKABLE_DOCUMENT.says(
    "document `{document}` does not say what is to be submitted", "write `submit` and one of {kinds}"
)
NO_KIND_OF_DOCUMENT = UNASKABLE_DOCUMENT.says("`{words}` is no kind of document", "write one of {kinds}")
NO_DOCUMENT_FOR_EACH = UNASKABLE_DOCUMENT.says(
    "`{term}` is {kind}, of which no document is asked for each value",
    "name a term of choices or of words, such as `insulation`",
)

EMPTY_RELATION = Rule(
    "L315",
    "relation that holds nothing together",
    "A relation says with `alike in` which lines belong together, and asks for one thing: that they have "
    "the same values (`shall have the same`), that each has a line beside it (`shall have a line`), or "
    "what they come to together (`shall total`).",
)
RELATION_ASKS_NOT_ONE_THING = EMPTY_RELATION.says(
    "relation `{relation}` has to ask for one thing of its lines", "write one of {asks}"
)
RELATION_WITHOUT_GROUPS = EMPTY_RELATION.says(
    "relation `{relation}` does not say which lines belong together", "write {wanted}"
)
TOTAL_WITHOUT_LIMIT = EMPTY_RELATION.says(
    "a total compares an amount that adds up with a stated limit", "write `shall total run length be at most 50 ft`"
)
