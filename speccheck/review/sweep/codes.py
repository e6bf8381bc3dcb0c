"""The codes of the diagnostics of sweeps: a title and what a spec writer needs to know about each."""

from __future__ import annotations

from collections.abc import Mapping

NO_TERM = "V601"
TERM_TWICE = "V602"
VALUE = "V603"
STEPS = "V604"
TOO_MANY = "V605"
AXIS = "V606"
NO_CLAUSE = "V607"

DIAGNOSTICS: Mapping[str, tuple[str, str]] = {
    NO_TERM: (
        "values without a term",
        "A sweep is stated as terms with their values: `thickness 1/2 in, 1 in; pipe size 1/2 in to 12 in`. Values are "
        "parted by commas, terms by semicolons, or each is an argument of its own.",
    ),
    TERM_TWICE: (
        "term stated twice",
        "Each term of a sweep is stated once, with all its values.",
    ),
    VALUE: (
        "value of a sweep not readable",
        "Values are written as in a schedule. `all` stands for every choice of a list, a range of pipe sizes for every "
        "nominal size in it.",
    ),
    STEPS: (
        "range without usable steps",
        "A range of quantities or numbers has no values of its own to try. Say in which steps to go through it: "
        "`operating temperature 40 F to 200 F every 20 F`.",
    ),
    TOO_MANY: (
        "too many combinations",
        "The number of combinations is the product of the numbers of values. The message names the limit.",
    ),
    AXIS: (
        "axis of the picture not usable",
        "The picture has two terms of the sweep as its axes, two different ones, with few enough values to be seen.",
    ),
    NO_CLAUSE: (
        "clause not in the ruleset",
        "The sweep was to be counted for one clause, and the ruleset has none of this number.",
    ),
}
