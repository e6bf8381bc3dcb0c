"""Proofreading: what is wrong with the wording of a ruleset, for every system that anyone could propose.

In: one ruleset; or a specification and the code it must meet; or a base and its revision. Out: findings, each with a
line of a schedule that shows it, and the questions that could not be decided. No schedule is needed.

    clauses --axes, cutting--> atoms --regions--> decision diagrams --lines--> a line --judge--> finding

Files of the exact part, in the order in which a question goes through them:

    proofreading       all questions that can be asked of one ruleset
    settled            amounts that have a list of values, stated or looked up
    surveying          which axes the clauses need, and where to cut them
    cutting, between   the axis of a term cut at every value that a clause holds it against
    axes               all axes that systems can differ on
    diagrams           sets of systems, exact, as decision diagrams
    regions            for which systems a condition holds
    amount_regions     which values an amount can have, and for which systems
    clause_regions     to which systems a clause applies, which meet it, which fail it
    eliminating        which systems can be completed to lie in many regions at once
    lines              a region turned into a line that the judge agrees to
    problems           values for amounts that are compared with one another
    solving, encoding  the same by z3, where it is installed
    describing         atoms and boxes in words
    findings, codes    what was found
    subject_gaps       systems in a declared scope that no clause of the subject governs
    gaps               holes and dashes of tables that a clause looks up
    clashes            clauses that cannot be met together
    idle_conditions    conditions that never hold, always hold or change nothing
    idle_clauses       clauses that others imply; tables and definitions never used
    implied_together   clauses that several others imply together
    hulls              which of many regions may hold a system
    stringency         a specification against the code it must meet
    accepted_lines     a line that all of a specification accepts and a clause of the code fails
    matching           which clause of a revision is which of its base
    revisions          a revision against its base, by meaning
    turned_verdicts    the verdicts on a schedule that turn with a revision

Files on how good the examples are:

    mutations          which slips of the pen the examples would notice
    changes            what a ruleset would say after one slip
    steps, band_limits  values and bands moved by one step
    substituting       one node of the core put in the place of another
    proposing          the example that would notice a change
    searching          lines near the examples, tried
    trial_values       what a line might state so that every limit is met closely
    verdicts           verdicts of one clause on many lines
    unnoticed          changes that no example notices, as findings

Files on the wording:

    vague_wording      phrases that leave open what is asked
    wording_numbers    numbers in wording and in rules

Files on what the writer states of the rules:

    statements         each statement proved, or answered with a line against it
    demands            what clauses accept with one value of a term and fail with another
"""
