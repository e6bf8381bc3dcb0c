"""What proofreading says of wording that says something else than its rule, or cannot be judged."""

from __future__ import annotations

from speccheck.language.diagnostic_rules import Rule
from speccheck.language.diagnostics import Severity

VAGUE = Rule(
    "P701",
    "wording that cannot be judged",
    "A phrase of the wording leaves open what is asked (`as required`, `suitable`, `where exposed`), so "
    "that two readers can differ. Say by a number, a list or a definition what is meant.",
    Severity.WARNING,
)
LEAVES_OPEN_WHAT_IS_ASKED = VAGUE.says(
    "the wording of clause `{clause}` says `{words}`, which leaves open what is asked", "{advice}"
)

OTHER_NUMBER = Rule(
    "P702",
    "wording that says another number than the rule",
    "The wording states a quantity of a kind that the rule beside it compares with numbers, and none of "
    "them is the one stated. One of the two is wrong.",
    Severity.WARNING,
)
NUMBER_NOT_RULED = OTHER_NUMBER.says(
    "the wording of clause `{clause}` says `{number}`, which is no number of its rule", "the rule has {ruled}"
)

OTHER_LIMIT = Rule(
    "P703",
    "limit of the wording that is not that of the rule",
    "The wording and the rule limit by the same number and not in the same way: `not less than` beside "
    "`at most`, or `over 140 F` beside `is at least 140 F`, which differ at 140 F itself. One of the two "
    "is wrong.",
    Severity.WARNING,
)
LIMITS_OTHER_WAY = OTHER_LIMIT.says(
    "the wording of clause `{clause}` limits in one direction, and its rule in the other, at `{words}`",
    "the rule says {rule}; one of the two is wrong",
)
END_TAKEN_OTHERWISE = OTHER_LIMIT.says(
    "the wording of clause `{clause}` and its rule differ where the value is exactly `{number}`: only one of the two "
    "includes it",
    "the rule says {rule}; one of the two is wrong",
)

UNWORDED_NUMBER = Rule(
    "P704",
    "number of the rule that the wording does not say",
    "The rule limits something by a number that its wording, which has other numbers of the kind, does not say.",
    Severity.WARNING,
)
NUMBER_NOT_WORDED = UNWORDED_NUMBER.says(
    "the wording of clause `{clause}` does not say `{number}`, by which its rule limits `{term}`",
    "say it in the wording, or leave it out of the rule",
)

UNRULED_CHOICE = Rule(
    "P705",
    "choice of the wording that the rule does not list",
    "The wording names a material, a service, a place or another choice beside those of the rule, or "
    "instead of them, and the rule does not list it.",
    Severity.WARNING,
)
NAMES_UNLISTED = UNRULED_CHOICE.says(
    "the wording of clause `{clause}` names `{words}`, which its rule does not list as `{term}`",
    "add it to the rule, or leave it out of the wording",
)

UNWORDED_CHOICE = Rule(
    "P706",
    "choice of the rule that the wording does not name",
    "The rule lists a material, a service, a place or another choice that the list of its wording leaves out.",
    Severity.WARNING,
)
LEAVES_LISTED_OUT = UNWORDED_CHOICE.says(
    "the wording of clause `{clause}` does not name {choices}, which its rule lists as `{term}`",
    "name it in the wording, or leave it out of the rule",
)

UNRULED_CONDITION = Rule(
    "P707",
    "condition of the wording that the rule does not ask for",
    "The wording says of which places, services or parts it speaks, or which it leaves out, and the rule "
    "has no condition on them, so that it applies to all others too.",
    Severity.WARNING,
)
CONDITION_NOT_ASKED = UNRULED_CONDITION.says(
    "the wording of clause `{clause}` says `{words}`, and its rule does not ask for `{term}`",
    "add the condition to the rule, or leave it out of the wording",
)
EXCEPTION_NOT_MADE = UNRULED_CONDITION.says(
    "the wording of clause `{clause}` says `{words}`, and its rule leaves nothing out",
    "write `except where` and why, or leave it out of the wording; where no term says it, a vocabulary of your own can",
)
SIZE_NOT_ASKED = UNRULED_CONDITION.says(
    "the wording of clause `{clause}` says `{words}`, and its rule does not ask for the size",
    "add the condition to the rule, or leave it out of the wording",
)

OTHER_DUTY = Rule(
    "P708",
    "duty of the wording that is not that of the rule",
    "The wording advises or permits what the rule requires with `shall`, or requires what the rule only "
    "advises with `should`.",
    Severity.WARNING,
)
REQUIRED_BY_THE_RULE = OTHER_DUTY.says(
    "the wording of clause `{clause}` says `{words}`, and its rule requires it with `shall`",
    "write the rule with `should`, or the wording as a requirement",
)
ADVISED_BY_THE_RULE = OTHER_DUTY.says(
    "the wording of clause `{clause}` says `{words}`, and its rule only advises it with `should`",
    "write the rule with `shall`, or the wording as advice",
)
PERMITTED_BY_THE_WORDING = OTHER_DUTY.says(
    "the wording of clause `{clause}` says `{words}`, and its rule requires it with `shall`",
    "a permission is an exception or asks for nothing; write the rule so, or the wording as a requirement",
)

DEAD_REFERENCE = Rule(
    "P709",
    "reference that leads nowhere",
    "The wording refers to a clause, an article or a paragraph of a number that the ruleset does not have.",
    Severity.WARNING,
)
REFERS_TO_NO_CLAUSE = DEAD_REFERENCE.says(
    "the wording of clause `{clause}` refers to `{number}`, and the ruleset has no such clause",
    "correct the number, or name the document",
)

SHARED_WORDING = Rule(
    "P710",
    "wording of another clause",
    "Two clauses of different numbers have the same wording, word for word. Clauses of one paragraph may "
    "share it: those whose numbers begin alike, as 2.1.A and 2.1.B do.",
    Severity.WARNING,
)
SAME_WORDS = SHARED_WORDING.says(
    "the wording of clause `{clause}` is that of clause `{other}`",
    "write its own wording, or call both parts of one paragraph, such as 5.A and 5.B",
)

ALL_OR_ANY = Rule(
    "P711",
    "all or any",
    "The wording asks for all of a list (`valves, flanges and hangers`) and the rule for any one of it, "
    "or the other way round. Write `include` for all, and `include any of` where one is enough.",
    Severity.WARNING,
)
ALL_FOR_ANY = ALL_OR_ANY.says(
    "the wording of clause `{clause}` asks for all of `{first}` to `{last}`, and its rule for any of them as `{term}`",
    "write `include` for all, and `include any of` where one is enough",
)
ONE_FOR_ALL = ALL_OR_ANY.says(
    "the wording of clause `{clause}` asks for one of `{first}` to `{last}`, and its rule for all of them as `{term}`",
    "write `include` for all, and `include any of` where one is enough",
)

OTHER_WAY_ROUND = Rule(
    "P712",
    "wording the other way round",
    "The wording forbids what the rule asks for (`shall not be used`), or names as wanted what the rule forbids.",
    Severity.WARNING,
)
FORBIDS_WHAT_IS_ASKED = OTHER_WAY_ROUND.says(
    "the wording of clause `{clause}` forbids `{words}`, and its rule asks for it",
    "turn one of the two round: the rule, or the wording",
)
ASKS_WHAT_IS_FORBIDDEN = OTHER_WAY_ROUND.says(
    "the wording of clause `{clause}` asks for `{words}`, and its rule forbids it",
    "turn one of the two round: the rule, or the wording",
)

OTHER_TERM = Rule(
    "P713",
    "number of another term",
    "The wording says a number of one term (`ambient temperature below 32 F`), and the rule limits "
    "another one of the same kind by it.",
    Severity.WARNING,
)
NUMBER_OF_ANOTHER_TERM = OTHER_TERM.says(
    "the wording of clause `{clause}` says `{number}` of `{term}`, and its rule of `{ruled}`", "name one term in both"
)
