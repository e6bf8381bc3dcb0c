"""Mending: the corrections with which a line that does not comply would.

In: a `Schedule` and a `Ruleset`. Out: a `Mending` for each line that fails, or lacks data that its contractor has to
give: proposals, cheapest first, each proven by judging the changed line; or the clauses that no change satisfies
together. What is missing is not invented: a proposal says what value would comply and that it is not given.

    line --requirements--> what must be met --+
    line --changeable---> terms --candidates--+--> searching --> proposals
                                              +--> clashes

Files:

    alike         values of a term that no condition of a clause tells apart
    amounts       amounts to try for a term: those that are stocked, or those at which a verdict on the line can
                  change
    candidates    the values to try for a term on a line, in stocked steps and allowed values, the smallest step first
    changeable    which terms can be changed on a line: those that a contractor proposes, and of these the ones that
                  help
    mentions      which choices the clauses name for a term
    proposals     the changes with which a line would comply, cheapest first, each proven by judging the changed line
    requirements  requirements of a line, whether changed values meet them, and those that no change meets together
    results       what the search for changes comes to: proposals for a line and which of them is cheaper, or the
                  clash that rules all out
    searching     the cheapest changes that meet all requirements of a line, by branch and bound
"""

from speccheck.review.corrections.changeable import changeable_terms
from speccheck.review.corrections.proposals import Tools, mend, mend_schedule
from speccheck.review.corrections.results import Clash, Mending, Proposal, ProposedChange

__all__ = ["Clash", "Mending", "Proposal", "ProposedChange", "Tools", "changeable_terms", "mend", "mend_schedule"]
