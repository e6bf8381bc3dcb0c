"""speccheck: a proposed mechanical-insulation schedule held against every clause of a project specification.

The house has eight floors, and a floor imports only from floors below it:

    quantities   units, fractions, nominal sizes, ranges: text to value and back
    physics      pipe and tube dimensions, psychrometrics, heat transfer
    language     clause text to syntax to core; vocabularies; diagnostics
    schedule     schedules and files: what a contractor sent, read and understood
    judge        the judge: one line, one clause, with its reasons
    review       the compliance matrix and what is made of it
    report       terminal, HTML, workbook, JSON, Markdown
    cli          one file for each command
"""
