"""Syntax: from the text of a file to a tree that says, word for word, what stands where.

In: the text of a ruleset or vocabulary. Out: its syntax tree with the place of every node, its comments, and a
diagnostic for each place that cannot be read.

Files:

    builder      what all building of syntax shares: text, places, words, children of the parser's tree, and where
                 complaints go
    comments     comments of a file, which the parser passes over: where each stands, and to which block of the file
                 it belongs
    conditions   conditions and amounts
    expecting    what could stand at a place where the parser stopped: its names for tokens in the words of a writer
    files        from the parser's tree to the syntax tree of `speccheck.language.syntax.tree`: files, items and terms
    header       the header of a ruleset alone, read without the parser
    layout       the layout of a text that cannot be parsed
    misreading   what to say of text that the parser cannot read, and how to go on behind it
    parsing      the parser, and what becomes of text that it cannot read
    parts        parts of clauses, headers, definitions and tables
    source_text  the text of a ruleset or vocabulary file, and the lines of it that diagnostics show
    tables       tables of the clause language: rows are taken whole by the parser and cut into bands and cells here
    tree         what a file says, word for word, with the place of every node; nothing is looked up yet
    words_of_sections  what sections say where the language has words of its own, and those words
"""
