"""Mending: the least changes with which a line that does not comply would.

In: a `Schedule` and a `Ruleset`. Out: a `Mending` for each line that fails, or lacks data that its contractor has to
give: proposals, cheapest first, each proven by judging the changed line; or the clauses that no change satisfies
together. What is missing is not invented: a proposal says what value would comply and that it is not given.

    line --requirements--> what must be met --+
    line --changeable---> terms --candidates--+--> searching --> proposals
                                              +--> clashes

Files:

    changeable    the terms that a proposal may change
    candidates    the values to try for a term
    amounts       the same, for quantities, counts and numbers: stocked ones, or those at which a verdict can change
    mentions      which choices the clauses name
    requirements  one clause on one line: whether changed values meet it
    costs         what changes cost, by the order of the ruleset
    usefulness    which terms of a requirement can help to meet it
    searching     the cheapest changes that meet all requirements
    clashes       the requirements that cannot be met together
    proposals     what was found, in the terms of the line, proven
    mendings      proposals, changes and clashes as plain data
"""

from speccheck.review.corrections.changeable import changeable_terms
from speccheck.review.corrections.proposals import mend, mend_schedule
from speccheck.review.corrections.results import Change, Clash, Mending, Proposal

__all__ = ["Change", "Clash", "Mending", "Proposal", "changeable_terms", "mend", "mend_schedule"]
