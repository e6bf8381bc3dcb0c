"""Every sentence that is said of sweeps, beside the rule that it belongs to."""

from __future__ import annotations

from speccheck.language.diagnostic_rules import Rule

NO_TERM = Rule(
    "V601",
    "values without a term",
    "A sweep is stated as terms with their values: `thickness 1/2 in, 1 in; pipe size 1/2 in to 12 in`. "
    "Values are parted by commas, terms by semicolons, or each is an argument of its own.",
)
NO_TERM_STATED = NO_TERM.says("no term is stated", "write `thickness 1/2 in, 1 in`")
BEGINS_WITH_NO_TERM = NO_TERM.says(
    "`{words}` does not begin with a term of the vocabulary", "begin with the name of a term: `thickness 1/2 in, 1 in`"
)

TERM_TWICE = Rule(
    "V602",
    "term stated twice",
    "Each term of a sweep is stated once, with all its values.",
)
STATED_TWICE = TERM_TWICE.says("`{term}` is stated twice", "state it once, with all its values")

VALUE = Rule(
    "V603",
    "value of a sweep not readable",
    "Values are written as in a schedule. `all` stands for every choice of a list, a range of pipe sizes "
    "for every nominal size in it.",
)
TOO_MANY_VALUES = VALUE.says(
    "`{term}` has {number:,} values, and the limit is {most:,}", "state a range with steps, or sweep in parts"
)
SWEPT_VALUE_NOT_READ = VALUE.says("{sentence}", "{advice}")
NO_VALUE_STATED = VALUE.says("no value of `{term}` is stated", "write its values, parted by commas")

STEPS = Rule(
    "V604",
    "range without usable steps",
    "A range of quantities or numbers has no values of its own to try. Say in which steps to go through "
    "it: `operating temperature 40 F to 200 F every 20 F`.",
)
RANGE_WITHOUT_STEPS = STEPS.says("`{words}` is a range without steps", "say the steps: `{words} every ...`")
NO_RANGE_BEFORE_STEPS = STEPS.says(
    "`{words}` cannot be gone through in steps", "write a range with two ends before `every`, such as `1 to 5 every 1`"
)
STEP_NOT_READ = STEPS.says("{sentence}", "{advice}")
TOO_MANY_STEPS = STEPS.says(
    "`{words}` has no steps, or more than {most:,} of them", "write the lower end first, and steps of a sensible size"
)

TOO_MANY = Rule(
    "V605",
    "too many combinations",
    "The number of combinations is the product of the numbers of values. The message names the limit.",
)
TOO_MANY_COMBINATIONS = TOO_MANY.says(
    "the values make {number:,} combinations, and the limit is {most:,}", "state fewer values, or sweep in parts"
)

AXIS = Rule(
    "V606",
    "axis of the picture not usable",
    "The picture has two terms of the sweep as its axes, two different ones, with few enough values to be seen.",
)
NO_TERM_OF_SWEEP = AXIS.says("`{words}` is no term of the sweep", "write one of: {terms}")
ONE_TERM_FOR_BOTH_AXES = AXIS.says("`{term}` cannot be both axes", "name two different terms")
TOO_MANY_CELLS = AXIS.says(
    "the picture would have {number:,} cells, and the limit is {most:,}",
    "name axes with fewer values: `--down` and `--across`",
)

NO_CLAUSE = Rule(
    "V607",
    "clause not in the ruleset",
    "The sweep was to be counted for one clause, and the ruleset has none of this number.",
)
NO_CLAUSE_TO_COUNT = NO_CLAUSE.says("the ruleset has no clause `{clause}`", "write one of: {clauses}")
