"""Proofreading: what is wrong with the wording of a ruleset, for every system that anyone could propose.

In: one ruleset; or a specification and the code it must meet; or a base and its revision. Out: findings, each with a
line of a schedule that shows it, and the questions that could not be decided. No schedule is needed.

    clauses --axes, cutting--> atoms --regions--> decision diagrams --lines--> a line --judge--> finding

Files:

    amount_regions        for which systems an amount has a value, which values it can have, which cell a table gives
    clause_meaning        which parts of a clause say something else than in another edition, and what the assumptions
                          of a ruleset say
    clause_regions        what clauses make of systems, as regions: to which a clause applies, which meet it, which
                          fail it, which lie in many
    conflicts             two clauses that a system cannot meet together, though it could meet either; found over
                          bounding boxes
    covering              a region told by a few wide boxes, each of which is one reason why systems lie in it
    decision_diagrams     sets of systems, exact, each kept once
    demands               what clauses accept with one value of a term and fail with another, all else on a line
                          staying as it is
    describing            atoms and boxes in the words of the language: "operating temperature over 140 F to under 141
                          F"
    drafting_examples     examples for a person to answer: the few lines that tell most typing errors apart
    encoding              a problem in the words of z3: SI numbers, and for terms with a list of values the place in
                          it
    findings              what is wrong with the wording of a ruleset, each with a line of a schedule that shows it
    finite_amounts        those that have a list of values, stated or looked up, and what they can come to
    gaps                  systems that no clause of a subject governs though its scope names them, and holes in tables
                          that clauses look up
    gaps_between_bands    narrow gaps between the bands of clauses, where no scope is declared
    leaving_out           clauses that make more of a line which says less, because they ask whether a datum is given
    matching              which clause of a revision is which clause of its base
    meant                 findings that the writer has answered: a note that says `P314 is meant` at the clause or the
                          table
    messages              the catalogue of what proofreading says
    mutation              how good the examples of a ruleset are: which typing errors they would notice, and the
                          example for those they would not
    partition             the axis of a term cut at every value that a clause compares it with, so that all within an
                          atom are alike
    problems              amounts that are to stand in given orders to one another, and the values of their terms that
                          are sought
    proofreading          all questions that can be asked of its wording alone
    proposing             the example that would notice a change which none of the examples of a ruleset notices
    redundant_clauses     those that another clause, or several together, always imply, and what no clause ever uses
    redundant_conditions  parts of a clause that never hold, always hold, or change nothing
    regions               for which systems a condition holds, and for which it does not, as decision diagrams
    revisions             revisions by meaning
    searching             lines near the examples of a clause, tried until one comes out otherwise after a change
    sensible_systems      those whose values go together by what the vocabulary says
    shortfalls            how far a specification falls short of a limit of the code, and where by most
    solving               values for amounts that are compared with one another, or the proof that there are none, by
                          z3
    statements            what the writer holds to be true of the rules, proved for every line or answered with one
                          against it
    steps                 one step of a value, up or down, and the limits and ends of table bands moved by one
    stringency            is every line that a specification accepts also accepted by the code that it must meet?
    substituting          one node of the core put in the place of another, in every clause that draws on it
    table_steps           tables with one step against all others: thickness that falls once where it rises with size
                          and temperature
    trial_values          what a line might state for each term of a clause, so that every limit of the clause is met
                          closely
    typing_errors         what a ruleset would say after one typing error, for every place where one could have
                          happened
    two_limits            clauses that set different limits for the same thing of one system
    variables             what the systems of some rulesets can differ in, as far as their clauses care, and where
                          each is to be cut
    verdicts              verdicts on many lines without reasons, for trying very many of them; and those that turn
                          from one edition to the next
    witnesses             a region turned into a line of a schedule that lies in it, and that the judge agrees to
    wording               the words of clauses against the rules beside them, and words that leave open what is asked
"""
