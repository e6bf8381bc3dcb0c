"""Mending: the corrections with which a line that does not comply would.

In: a `Schedule` and a `Ruleset`. Out: a `Mending` for each line that fails, or lacks data that its contractor has to
give: proposals, cheapest first, each proven by judging the changed line; or the clauses that no change satisfies
together. What is missing is not invented: a proposal says what value would comply and that it is not given.

    line --requirements--> what must be met --+
    line --changeable---> terms --candidates--+--> searching --> proposals
                                              +--> clashes

Files:

    amounts       amounts to try for a term: those that are stocked, or those at which a verdict on the line can
                  change
    candidates    the values to try for a term on a line, in stocked steps and allowed values, the smallest step first
    changeable    usefulness
    mentions      mentions
    proposals     the changes with which a line would comply, cheapest first, each proven by judging the changed line
    requirements  the requirements that no change of the terms meets together, as few of them as possible
    results       what the search for changes comes to: proposals for a line, or the clash that rules all of them out
    searching     the cheapest changes that meet all requirements of a line, by branch and bound
"""

from speccheck.review.corrections.changeable import changeable_terms
from speccheck.review.corrections.proposals import mend, mend_schedule
from speccheck.review.corrections.results import Change, Clash, Mending, Proposal

__all__ = ["Change", "Clash", "Mending", "Proposal", "changeable_terms", "mend", "mend_schedule"]
