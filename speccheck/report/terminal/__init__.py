"""Reports in a terminal, in 80 columns or as many as asked for.

Files:

    corrections   what would comply, in a terminal: line by line the cheapest changes and their alternatives
    coverage      the coverage of a section in a terminal: what is open first
    diagnostics   diagnostics in a terminal: the message, the place, the offending text underlined, what to write
                  instead
    portfolio     the combinations by verdict, by clause and by value
    proofreading  proofreading in a terminal: what it comes to, tables, findings with the lines that show them, what
                  stays open
    report        the report in a terminal: what fails first, in 80 columns or as many as asked for
    requirements  the requirements of a line in a terminal: what applies and what may, ruleset by ruleset, with
                  sources
    terms         two editions of a ruleset compared, in a terminal
    working       the working of one line and one clause in a terminal: what was stated, each step, where it comes
                  from
"""
