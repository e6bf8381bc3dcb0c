"""Resolving: from the syntax tree to the typed core.

In: the syntax of a ruleset, its vocabulary and the rulesets that it builds on. Out: the core, in which
every name is resolved, every unit converted and every kind checked, and a diagnostic for each mistake.

Files:

    advice        what a name that is not known was probably meant to be: a misspelt one, or terms that share a word
                  with it
    ages          "at most 24 months old": a date beside a day counted back from the review
    amounts       names looked up, quantities read, the kinds of calculations worked out
    clauses       clauses resolved, and the parts that many items have: sources, words behind a keyword, parts that
                  may stand only once
    conditions    each comparison checked for kinds, each choice looked up in its list
    declarations  what a ruleset declares beside its clauses, resolved: definitions (each at its first use, circles
                  found), assumptions, stocked values and cheap changes, and the systems that its clauses are to
                  govern
    documents     what has to be submitted: its kind looked up, its conditions resolved as those of a clause
    line_relations
                  which lines belong together, and what they have to have in common
    literals      a quantity as a clause writes it, turned into a value of the kind that the clause needs
    read_as       tables read as if terms had other values than the line's: what is left of them
    doubts        what a vocabulary says of doubtful words and amounts: several meanings, sensible values
    marks         the marks of terms checked: what a vocabulary says of a term beside its kind and its values
    names         the terms, definitions and tables that the clauses of one ruleset can speak of
    replaced_tables
                  tables of a ruleset built on that are replaced, whole or in cells, and what looks them up
    rulesets      their headers, definitions, tables and clauses put together with those of their bases
    statements    what the writer holds to be true of the rules, with the terms and values it speaks of
    tables        headings and cells read as values, and checked so that no value falls into two bands
    vocabularies  vocabularies resolved
"""
