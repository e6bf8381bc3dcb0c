"""Reports in a terminal, in 80 columns or as many as asked for.

Files:

    corrections   what would comply, in a terminal: line by line the cheapest changes and their alternatives
    coverage      the coverage of a section in a terminal: what is open first
    diagnostics   diagnostics in a terminal, and the lines on a console that all terminal reports are made of:
                  wrapped, free of control codes
    portfolio     portfolios and sweeps in a terminal: how many comply, what fails most, what was skipped; names
                  wrapped and never cut
    proofreading  proofreading in a terminal: what it comes to, tables, findings with the lines that show them, what
                  stays open
    reading       what a schedule was read as, in a terminal: counts first, then tables and columns, then what
                  was not read
    report        the report in a terminal: what fails first, and what a review found beside the verdicts
    rulesets      the shipped rulesets in a terminal, and what is not there
    requirements  the requirements of a line in a terminal: what applies and what may, ruleset by ruleset, with
                  sources
    short_report  the report in a terminal as it is printed unless all of it is asked for: about 40 lines, the
                  verdict last
    terms         the terms of a vocabulary in a terminal, and two editions of a ruleset compared
    weather       a weather file: its place and hours, the most humid month, and dew points that few hours exceed
    working       the working of one line and one clause in a terminal: what was stated, each step, where it comes
                  from
"""
