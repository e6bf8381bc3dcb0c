"""The codes of the diagnostics of rulesets and vocabularies: a title and what a writer needs to know about each."""

from __future__ import annotations

from collections.abc import Mapping

DIAGNOSTICS: Mapping[str, tuple[str, str]] = {
    "L101": (
        "text that does not fit the language here",
        "The text up to this place reads well, and what stands here cannot follow it. The help line names what can. "
        "A name that holds one of the words of the language (`is`, `to`, `in`, `and`, ...) is written in quotation "
        "marks.",
    ),
    "L102": (
        "quotation mark not closed",
        "Words in quotation marks end with a second mark. Inch marks inside quotation marks are written ″ or in.",
    ),
    "L103": (
        "file ends too early",
        "The last clause, table, term or definition of the file is not complete.",
    ),
    "L104": (
        "file cannot be read",
        "The file is not there, is a folder, may not be opened, or is not text in UTF-8.",
    ),
    "L105": (
        "wrong sort of file",
        "A vocabulary was named where a ruleset is needed, or the other way round.",
    ),
    "L106": (
        "conditions nested too deeply",
        "Conditions, amounts and definitions stand inside one another up to 100 levels. Nobody can read more, and "
        "neither can the program.",
    ),
    "L201": (
        "name not known",
        "A name is neither a term of the vocabulary, nor a definition, a table or a value of the term beside it. The "
        "help line gives the nearest name that is known.",
    ),
    "L202": (
        "value not in the list",
        "A term with a closed list of values is compared with a value that the list does not have. Add the value to "
        "the vocabulary if the list is incomplete.",
    ),
    "L203": (
        "kinds that cannot be compared",
        "A length cannot be compared with a temperature, nor a temperature with a temperature difference, nor words "
        "with numbers. Values that have no order can be equal or not, but not more or less.",
    ),
    "L204": (
        "amounts that cannot be put together",
        "Lengths add to lengths. Two temperatures do not add; a temperature and a temperature difference do, and two "
        "temperatures subtract to a difference. Amounts are multiplied or divided by plain numbers, and divided by "
        "amounts of the same dimension.",
    ),
    "L205": (
        "quantity that cannot be read",
        "The text is not a quantity in the trade's notation, has no unit where one is needed, or is more than a place "
        "can take (a tolerance of 200 %).",
    ),
    "L206": (
        "a condition is needed here",
        "What stands here is an amount or a term that is not yes or no. Say what it is compared with.",
    ),
    "L207": (
        "an amount is needed here",
        "What stands here is a condition or a set. Only amounts can be compared or put together.",
    ),
    "L208": (
        "set needs include or exclude",
        "A term with several values at once is compared with choices with `include`, `include any of` or `exclude`.",
    ),
    "L209": (
        "kind not known",
        "The words behind the name of a term are not a kind. Kinds are: nominal size, one of, any of, yes or no, "
        "count, number, text, and the dimensions.",
    ),
    "L210": (
        "range that holds nothing",
        "A range runs from its lower to its upper end: `between 1 in and 2 in`, never `between 2 in and 1 in`, which "
        "no value could meet.",
    ),
    "L211": (
        "term that cannot tell systems apart",
        "`tells systems apart` marks the terms by whose values one system of the building is known from another: any "
        "number of choices, words and answers of yes or no, and one nominal size and one temperature, whose ranges are "
        "held side by side.",
    ),
    "L212": (
        "family that is also a word for one value",
        "A vocabulary that has families lets a clause mean several values by one name. Where a schedule says the same "
        "name for one of these values, clauses written before there was the family meant that value alone.",
    ),
    "L301": (
        "defined twice",
        "Two clauses of a ruleset, two tables, two definitions or two terms have the same name, or two terms or values "
        "share a synonym.",
    ),
    "L302": (
        "circle of definitions",
        "A definition stands on itself, directly or through others. Every evaluation must end, so this is not allowed.",
    ),
    "L303": (
        "rulesets build on one another in a circle",
        "A ruleset builds on itself, directly or through others.",
    ),
    "L304": (
        "ruleset or vocabulary not found",
        "The name after `builds on` or `speaks` is looked for beside the file and among the shipped rulesets.",
    ),
    "L305": (
        "replaced clause not found",
        "`replaces` names a clause of a ruleset that this one builds on.",
    ),
    "L306": (
        "no vocabulary",
        "A ruleset says with `speaks` from which vocabulary it draws its terms.",
    ),
    "L307": (
        "clause without requirement",
        "A clause needs at least one `shall` or `should`.",
    ),
    "L308": (
        "ruleset that judges nothing",
        "The ruleset has no clause and asks for no document, so that nothing could ever fail. That is not the "
        "same as complying.",
    ),
    "L309": (
        "part said twice",
        "Parts such as `wording` or `edition` stand once in a clause or a header.",
    ),
    "L310": (
        "statement that cannot be checked against the rules",
        "A statement speaks of an amount or of the clauses while a term grows, which must be a size, a quantity or a "
        "count; or it holds the clauses for one value of a term against those for another value of the same term.",
    ),
    "L311": (
        "clause that nobody has confirmed",
        "A clause, a document or a relation with the line `draft` was written by the program from the words of a "
        "section, and one with `todo` has something left to do. No schedule is judged by a ruleset that has one: a "
        "person reads it beside its wording, corrects it, and takes the line out.",
    ),
    "L312": (
        "condition on the line of a requirement",
        "`shall A where B` reads as if B belonged to that requirement alone. In this language every `where` of a "
        "clause limits the whole clause, so that another requirement of it would silently hold for fewer lines.",
    ),
    "L313": (
        "term in two vocabularies",
        "Two vocabularies that the ruleset speaks say different things of one term. The first to be named counts.",
    ),
    "L314": (
        "document that cannot be asked for",
        "A `document` says with `submit` what is to be submitted, from a closed list: data sheet, certificate, test "
        "report, sample, installer's qualification, installation instructions, shop drawing, warranty. `of each` "
        "names terms of choices or words, each value of which wants a document of its own.",
    ),
    "L315": (
        "relation that holds nothing together",
        "A relation says with `alike in` which lines belong together, and asks for one thing: that they have the same "
        "values (`shall have the same`), that each has a line beside it (`shall have a line`), or what they come to "
        "together (`shall total`).",
    ),
    "L401": (
        "table row of the wrong length",
        "Each row has one heading and one cell for each column of the table's first row, and a table has at least one "
        "row of cells.",
    ),
    "L402": (
        "table axes",
        "A table is read by one or two terms. With two, its first row begins with `|` and names the columns.",
    ),
    "L403": (
        "bands overlap",
        "Two bands of one axis share a value, so that the table would give two answers.",
    ),
    "L404": (
        "band cannot be read",
        "Bands are written `A to B` (both ends in), `A to under B`, `over A to B`, `under B`, `up to B`, `over A`, "
        "`A and over`, `A and under` or `A`; or as values of a term with a closed list, parted by commas.",
    ),
    "L405": (
        "table cell cannot be read",
        "A cell is a quantity in the table's unit, a value of the term that the table is of, or a dash.",
    ),
    "L406": (
        "cells with words where nothing is asked",
        "A cell can say `not permitted`, which nothing meets, or `nothing required`. Only a requirement can go by such "
        "words: a term compared with the table behind `shall` or `should`. Where a clause applies, what it leaves out "
        "and what is worked out need values.",
    ),
    "L501": (
        "example datum cannot be read",
        "The data of an example are stated as in a schedule: a term and its value, parted by commas.",
    ),
    "L502": (
        "example does not come out as it says",
        "The clause gives another verdict on the example's line than the example expects. Either the rule or the "
        "example is wrong.",
    ),
    "L503": (
        "clause without example",
        "No example shows what the clause makes of a line.",
    ),
    "L504": (
        "table cell that no example touches",
        "No example of any clause looks this cell up.",
    ),
}
