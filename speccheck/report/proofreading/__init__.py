"""Reports of proofreading: what is wrong with a ruleset, told on a page, in Markdown and in a terminal.

Files:

    against  A specification checked against a code, arranged to be told: a table by clause of the code, and lines that
             show it
    alone    A ruleset proofread alone, arranged to be told: its findings by kind, and the questions left open
    page     a report of proofreading as an HTML page that needs nothing else and prints, and as Markdown with text of
             others escaped
    report   what proofreading found, arranged to be told: one module of words for the terminal, the page and Markdown
    since    A revision compared with its base, arranged to be told: changes of meaning by kind, and verdicts that
             turn
"""
