"""Proofreading: what is wrong with the wording of a ruleset, for every system that anyone could propose.

In: one ruleset; or a specification and the code it must meet; or a base and its revision. Out: findings, each with a
line of a schedule that shows it, and the questions that could not be decided. No schedule is needed.

    clauses --axes, cutting--> atoms --regions--> decision diagrams --lines--> a line --judge--> finding

Files, in the order in which a question goes through them:

    cutting, between   the axis of a term cut at every value that a clause holds it against
    axes               all axes that systems can differ on
    diagrams           sets of systems, exact, as decision diagrams
    regions            for which systems a condition holds
    clause_regions     to which systems a clause applies, which meet it, which fail it
    eliminating        which systems can be completed to lie in many regions at once
    lines              a region turned into a line that the judge agrees to
    problems, solving  values for amounts that are compared with one another; z3, where it is installed
    describing         atoms and boxes in words
    findings, codes    what was found
    gaps               systems that no clause governs, holes in tables
    clashes            clauses that cannot be met together
    idle_conditions    conditions that never hold, always hold or change nothing
    idle_clauses       clauses that others imply; tables and definitions never used
    stringency         a specification against the code it must meet
    revisions          a revision against its base, by meaning
"""
