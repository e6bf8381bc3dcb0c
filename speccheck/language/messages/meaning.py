"""What is said of names, values, amounts and conditions that mean nothing, or not what is needed there."""

from __future__ import annotations

from speccheck.language.diagnostic_rules import Rule
from speccheck.language.diagnostics import Severity

UNKNOWN_NAME = Rule(
    "L201",
    "name not known",
    "A name is neither a term of the vocabulary, nor a definition, a table or a value of the term beside "
    "it. The help line gives the nearest name that is known.",
)
NO_TABLE = UNKNOWN_NAME.says("`{table}` is no table", "name a table")
SYNONYM = UNKNOWN_NAME.says("`{name}` is another name of the term `{term}`", "write `{term}`")
SYNONYM_OF_ONE_OF_SEVERAL = UNKNOWN_NAME.says(
    "`{name}` is another name of the term `{term}`", "write `{term}`, or {others} if that is meant"
)
NAME_UNKNOWN = UNKNOWN_NAME.says(
    "`{name}` is not known",
    "`speccheck terms --about {word}` looks for a term; one that is not there goes into a vocabulary of your own, and "
    "`define` gives a condition or an amount a name",
)
NAME_LIKE_OTHERS = UNKNOWN_NAME.says(
    "`{name}` is not known",
    "terms with `{word}` are {terms}; `speccheck terms --about {word}` lists all; one that is not there goes into a "
    "vocabulary of your own",
)
NONE_ALONE = UNKNOWN_NAME.says("`{name}` is not known", "write the term before it, as in `jacket is {name}`")
VALUE_IS_NO_CONDITION = UNKNOWN_NAME.says(
    "`{value}` is a value, not a condition", "write `{term} {relation} one of {first}, {value}`"
)
VALUE_BEHIND_AND = UNKNOWN_NAME.says("`{value}` is a value, not a condition", "write `{term} is {denied}{value}`")
NAME_WITH_OF = UNKNOWN_NAME.says(
    "`{words}` is no term of this vocabulary", "put a name with `of` in quotation marks: `term {whole}`"
)
NO_TERM_HERE = UNKNOWN_NAME.says(
    "`{words}` is no term of this vocabulary",
    "name a term of it; those of another one are known where the header says so: `speaks mechanical insulation`",
)
BEHIND_THE_AMOUNT = UNKNOWN_NAME.says("`{name}` is not known", "write `{instead}` before the amount")
NUMBER_IN_WORDS = UNKNOWN_NAME.says("`{name}` is not known", "write the number in figures: `{figures}`")
COMPARED_OTHERWISE = UNKNOWN_NAME.says("`{name}` is not known", "write `{relation} {term}`")
VALUE_WITHOUT_TERM = UNKNOWN_NAME.says(
    "`{name}` is not known", "`{value}` is a value of `{term}`: write `{term} is {value}`"
)
ADDS_TO_NO_TERM = UNKNOWN_NAME.says(
    "`{term}` is no term of any vocabulary that the ruleset speaks",
    "name a term of another vocabulary that the ruleset speaks",
)
ADDS_VALUES_TO_NO_LIST = UNKNOWN_NAME.says(
    "values are added to `{term}`, which is {kind}",
    "add values to a term that has a list of them",
)
ADDS_TAKEN_SPELLING = UNKNOWN_NAME.says(
    "`{spelling}` is another name of the value `{owner}` of `{term}` already",
    "write `{owner}` in clauses, or give the new value another name",
)
ADDS_FAMILY_OF_UNKNOWN = UNKNOWN_NAME.says(
    "`{value}` is no value of `{term}`, and stands in a family of it",
    "name values of `{term}`, or add this one to them with `one of`",
)

UNKNOWN_VALUE = Rule(
    "L202",
    "value not in the list",
    "A term with a closed list of values is compared with a value that the list does not have. Add the "
    "value to the vocabulary if the list is incomplete.",
)
TO_READ_AS_NO_VALUE = UNKNOWN_VALUE.says("`{value}` is not a value of `{term}`", "write a value of `{term}`")
ALL_OF_A_FAMILY = UNKNOWN_VALUE.says(
    "`{family}` is a family of `{term}`, of which all would have to be there",
    "write `{term} include any of {family}`, or the values",
)
WORDS_OF_SEVERAL_VALUES = UNKNOWN_VALUE.says(
    "`{words}` is not one value of `{term}`", "it stands for several: write `one of {values}`, or the one that is meant"
)
NONE_DENIED = UNKNOWN_VALUE.says("`{value}` is not a value of `{term}`", "write `be not none`")
NOT_A_VALUE = UNKNOWN_VALUE.says(
    "`{value}` is not a value of `{term}`",
    "its values are {values}; `speccheck terms --about {word}` tells more, and a vocabulary of your own can add one",
)
NAME_OF_A_TERM = UNKNOWN_VALUE.says(
    "`{value}` is not a value of `{term}`", "it is a name of the term `{other}`: write `{condition}`"
)
VALUE_OF_ANOTHER_TERM = UNKNOWN_VALUE.says(
    "`{value}` is not a value of `{term}`", "it is a value of `{other}`: write `{other} is {meant}`"
)
NO_ANSWERS_OF_KIND = UNKNOWN_VALUE.says(
    "`{term}` is of the kind {kind}, to which nothing answers yes or no",
    "leave it out, or make the term one of yes or no",
)
NO_ANSWER = UNKNOWN_VALUE.says("`{value}` is no value of `{term}`", "write yes or no")
VALUE_UNKNOWN = UNKNOWN_VALUE.says("`{value}` is no value of `{term}`", "name a value of the list")
EXCEPTION_IN_VALUE = UNKNOWN_VALUE.says(
    "`{value}` is not a value of `{term}`", "write `except where` on a line of its own"
)
EITHER_VALUE = UNKNOWN_VALUE.says("`{value}` is not a value of `{term}`", "write `{term} is one of A, B`")
NO_OTHER_VALUE = UNKNOWN_VALUE.says("`{value}` is no other value of `{term}`", "name a value of the same list")

UNLIKE_KINDS = Rule(
    "L203",
    "kinds that cannot be compared",
    "A length cannot be compared with a temperature, nor a temperature with a temperature difference, "
    "nor words with numbers. Values that have no order can be equal or not, but not more or less.",
)
DATE_OUT_OF_PLACE = UNLIKE_KINDS.says(
    "`{date}` is a date, but {kind} is needed here", "compare a term that is a date with it"
)
KIND_WITHOUT_SHARES = UNLIKE_KINDS.says(
    "{kind} has no shares, so that `within {share} of` has no meaning", "write `is between A and B`"
)
TEMPERATURE_WITHOUT_SHARES = UNLIKE_KINDS.says(
    "a temperature has no shares, so that `within {share} of` has no meaning",
    "write how many degrees, as in `within 5 F of 75 F`, or `is between A and B`",
)
YES_OR_NO_COMPARED = UNLIKE_KINDS.says("`{term}` is yes or no and is not compared", "write `{term}` or `not {term}`")
VALUE_OF_ANOTHER_LIST = UNLIKE_KINDS.says(
    "`{term}` is compared with what is no value of it", "compare values of one list"
)
KINDS_COMPARED = UNLIKE_KINDS.says("{kind} is compared with {other}", "compare amounts of one kind")
KIND_WITHOUT_ORDER = UNLIKE_KINDS.says(
    "{kind} has no order, so that `{relation}` has no meaning", "use `is`, `is not` or `is one of`"
)
TERMS_OF_DIFFERENT_LISTS = UNLIKE_KINDS.says(
    "`{first}` and `{second}` draw their values from different lists", "compare values of one list"
)
OTHER_DIMENSION_NEEDED = UNLIKE_KINDS.says(
    "{kind} stands where a {dimension} is needed",
    "write `thickness adjusted from conductivity to conductivity around outside diameter`",
)
CANNOT_BE_ASSUMED = UNLIKE_KINDS.says(
    "`{value}` is not {kind}",
    "assume a quantity, a size, a number, a value of a term with a closed list, words, or `yes` or `no`",
)
ASSUMED_VALUE_NOT_IN_LIST = UNLIKE_KINDS.says("`{value}` is not {kind}", "name a value of `{term}`")
AGE_WITH_TWO_ENDS = UNLIKE_KINDS.says(
    "`{age}` is an age, which has two ends", "write `at most 24 months old`, or `at least`, `less than`, `more than`"
)
AGE_OF_NO_DATE = UNLIKE_KINDS.says("`{age}` is an age, which only a date has", "name a term that is a date")
QUANTITY_FOR_VALUE = UNLIKE_KINDS.says("`{amount}` stands where {kind} is needed", "name a value of the list")
QUANTITY_OUT_OF_PLACE = UNLIKE_KINDS.says("`{amount}` stands where {kind} is needed", "leave the quantity out")
UNIT_OF_ANOTHER_DIMENSION = UNLIKE_KINDS.says("`{amount}` is {found}, but {kind} is needed here", "write it in {units}")
UNIT_FOR_A_SIZE = UNLIKE_KINDS.says(
    "`{amount}` is {found}, but {kind} is needed here", "write a nominal size such as `2 in` or `DN 50`"
)
UNIT_FOR_A_NUMBER = UNLIKE_KINDS.says("`{amount}` is {found}, but {kind} is needed here", "leave the unit out")

UNLIKE_AMOUNTS = Rule(
    "L204",
    "amounts that cannot be put together",
    "Lengths add to lengths. Two temperatures do not add; a temperature and a temperature difference do, "
    "and two temperatures subtract to a difference. Amounts are multiplied or divided by plain numbers, "
    "and divided by amounts of the same dimension.",
)
NO_LARGER_OR_SMALLER = UNLIKE_AMOUNTS.says(
    "the {operation} {left} and {right} has no meaning",
    "put together amounts of one dimension, or multiply and divide by numbers",
)
TEMPERATURES_ADDED = UNLIKE_AMOUNTS.says(
    "{left} {operation} {right} has no meaning", "write a difference as {difference}"
)
TEMPERATURES_MULTIPLIED = UNLIKE_AMOUNTS.says(
    "{left} {operation} {right} has no meaning", "multiply and divide differences: subtract a temperature first"
)
NO_RESULT = UNLIKE_AMOUNTS.says(
    "{left} {operation} {right} has no meaning",
    "put together amounts of one dimension, or multiply and divide by numbers",
)

UNREADABLE_QUANTITY = Rule(
    "L205",
    "quantity that cannot be read",
    "The text is not a quantity in the trade's notation, has no unit where one is needed, or is more "
    "than a place can take (a tolerance of 200 %).",
)
NO_DIFFERENCE_OF_TEMPERATURES = UNREADABLE_QUANTITY.says(
    "`{amount} difference` is not a difference of temperatures", "leave the word `difference` out"
)
AMOUNT_NOT_READ = UNREADABLE_QUANTITY.says("{sentence}", "{advice}")
NO_UNIT_OF_KIND = UNREADABLE_QUANTITY.says(
    "`{unit}` is not a unit of {kind}", "write units such as `{inch_pound}, {metric}`"
)
UNITS_OF_TERM_WITHOUT_UNITS = UNREADABLE_QUANTITY.says(
    "`in {units}` states units, and a term of this kind ({kind}) has none",
    "put a name with `in` into quotation marks, as `{whole}`, or leave it out",
)
NO_TOLERANCE = UNREADABLE_QUANTITY.says("`{words}` is no tolerance", "write a share such as `0.1 %`")
NO_UNIT = UNREADABLE_QUANTITY.says("`{unit}` is not a unit", "write a unit such as `in` or `mm`")
NO_SHARE = UNREADABLE_QUANTITY.says(
    "`{share}` is no share: it is to lie between 0 % and 100 %", "write `within 10 % of`"
)
NO_DISTANCE = UNREADABLE_QUANTITY.says(
    "`{distance}` is no distance: it has to be more than nothing", "write `within 5 F of`, or `is` for the value itself"
)
LIST_WITHOUT_UNIT = UNREADABLE_QUANTITY.says(
    "`sensible {range} without unit` is a list, and only amounts have units",
    "write a range, such as 3 mm to 5 in, or leave it out",
)
RANGE_BY_A_LIMIT = UNREADABLE_QUANTITY.says(
    "`{amount}` is a range where one value is needed", "{instead}, and leave out `{word}`"
)
RANGE_FOR_ONE_VALUE = UNREADABLE_QUANTITY.says(
    "`{amount}` is a range where one value is needed", "write `is between A and B`"
)

CONDITION_NEEDED = Rule(
    "L206",
    "a condition is needed here",
    "What stands here is an amount or a term that is not yes or no. Say what it is compared with.",
)
TERM_IS_NO_CONDITION = CONDITION_NEEDED.says(
    "`{term}` is {kind}, not a condition", "say what it is compared with: `{term} {verb} ...`"
)
AMOUNT_IS_NO_CONDITION = CONDITION_NEEDED.says("`{name}` is an amount, not a condition", "say what it is compared with")

AMOUNT_NEEDED = Rule(
    "L207",
    "an amount is needed here",
    "What stands here is a condition or a set. Only amounts can be compared or put together.",
)
ONLY_TERMS_ARE_GIVEN = AMOUNT_NEEDED.says("only a term can be given or not given", "name a term of the vocabulary")
LIST_OF_AMOUNTS = AMOUNT_NEEDED.says("a list after `one of` holds stated values only", "write the values themselves")
CONDITION_IS_NO_AMOUNT = AMOUNT_NEEDED.says("`{name}` is a condition, not an amount", "use it on its own, without `is`")
STOCKED_WITHOUT_VALUES = AMOUNT_NEEDED.says(
    "`stocked` does not say in which values a term can be had",
    "write a term and its values: `stocked thickness is one of 1/2 in, 1 in, 1-1/2 in`",
)

SET_COMPARED = Rule(
    "L208",
    "set needs include or exclude",
    "A term with several values at once is compared with choices with `include`, `include any of` or `exclude`.",
)
SET_COMPARED_AS_ONE = SET_COMPARED.says(
    "`{term}` has several values at once and cannot be compared as one", "write `{term} include ...`"
)
CHOICE_INCLUDES = SET_COMPARED.says("`{term}` is {kind}, which includes nothing", "write `{term} is one of ...`")
VALUE_INCLUDES = SET_COMPARED.says("`{term}` is {kind}, which includes nothing", "write `{term} is ...`")

UNKNOWN_KIND = Rule(
    "L209",
    "kind not known",
    "The words behind the name of a term are not a kind. Kinds are: nominal size, one of, any of, yes or "
    "no, count, number, text, and the dimensions.",
)
TERM_WITHOUT_KIND = UNKNOWN_KIND.says(
    "`{words}` does not end with a kind", "end it with a kind such as `length`, `text` or `yes or no`"
)

EMPTY = Rule(
    "L210",
    "range that holds nothing",
    "A range runs from its lower to its upper end: `between 1 in and 2 in`, never `between 2 in and 1 "
    "in`, which no value could meet.",
)
EMPTY_BAND = EMPTY.says("`{heading}` holds nothing", "write the lower end first")
EMPTY_RANGE = EMPTY.says("no value lies between the two ends", "write the lower end first")
NO_VALUE_BEYOND = EMPTY.says("no value of `{term}` is {relation} {value}", "name another value, or `at least`")

NOT_TELLING_APART = Rule(
    "L211",
    "term that cannot tell systems apart",
    "`tells systems apart` marks the terms by whose values one system of the building is known from "
    "another: any number of choices, words and answers of yes or no, and one nominal size and one "
    "temperature, whose ranges are held side by side.",
)
CANNOT_TELL_APART = NOT_TELLING_APART.says(
    "`{term}` is of the kind {kind}, which cannot tell systems apart",
    "choices, words, yes or no, one nominal size and one temperature can",
)
TWO_RANGES_TELL_APART = NOT_TELLING_APART.says(
    "`{term}` and `{ranged}` are both a {kind} that tells systems apart", "leave the mark with one of them"
)

FAMILY_AND_VALUE = Rule(
    "L212",
    "family that is also a word for one value",
    "A vocabulary that has families lets a clause mean several values by one name. Where a schedule says "
    "the same name for one of these values, clauses written before there was the family meant that value "
    "alone.",
    Severity.WARNING,
)
FAMILY_OR_VALUE = FAMILY_AND_VALUE.says(
    "`{words}` means {values} here, and `{value}` alone in a schedule and in older rulesets",
    "write {several}, or `{value}` if that is meant",
)
