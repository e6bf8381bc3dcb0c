"""Reports: what a compliance matrix says, told to a person in a browser, a terminal or a workbook, or to a program.

In: a `Matrix`. Out: text or bytes, the same for the same matrix, without clock or machine path; or lines on a console.

Files:

    all_codes           every rule of every floor, by the chapter that it belongs to: what a person can look up
    messages            every sentence that is said of reports and of what they are written with
    cautions            the cautions that stand in every report and on every screen, whatever the ruleset
    comma_separated     the findings as comma-separated values (RFC 4180), for a spreadsheet program that reads
                        nothing better
    course_picture      the picture of a course: how a computed value of one system runs over one of its inputs, as a
                        panel of an SVG
    doubts              diagnostics of a schedule as a reader wants them: errors first, like ones together, the advice
                        said once
    drawing             drawing as SVG: scales, axes, lines and words, in the ink and on the paper of all pictures of
                        this house
    escaping            text of strangers, made harmless for the place it goes to: a workbook or CSV cell, Markdown, a
                        terminal
    html                a compliance matrix as one HTML file that needs nothing else
    inferred            which data of the lines are not read as they stand, and where each came from
    json                the JSON report for other programs, with the models from which its published schema is made
    kinds               the kinds of report, each with what renders it
    line_words          what reports say of a line: its service, a few words that tell it from others, its data, its
                        place
    markdown            reports as Markdown (CommonMark with tables), for wikis and letters
    markup              the contractor's own file with the comments of a review in it
    mending_words       what would comply, in words: the changes of a proposal as a reviewer would write them, and why
                        there is none
    paper_places        where a place of a schedule stands on paper: the rectangle of a cell, and of a row
    portfolio           reports of a portfolio of schedules: page, JSON, and rows for other programs
    proofreading        what is wrong with a ruleset, told on a page, in Markdown and in a terminal
    prose               a ruleset as a specification section in three parts
    reply               review comments to send back
    requests            what to ask the contractor for: the data that are missing, the lines that lack them, the
                        clauses that wait
    sections            what a review found beside the verdicts, as tables that every report can draw: a title,
                        headings, rows of words
    sweep               a picture over two terms that reads without colour, and the counts by clause
    terminal            reports in a terminal, in 80 columns or as many as asked for
    terminal_thickness  one system in a terminal: surface temperature, heat flow, limits and minimum thickness, with the
                        working
    thickness_picture   the picture of a thickness curve: surface temperature and heat flow against thickness, as SVG
    word                documents for a word processor (Office Open XML), the same bytes on each run
    wording             the words that all reports share: the short mark of a cell, counts, the cautions of a ruleset
    workbook            workbooks (Office Open XML): the report, the blank schedule, the corrected schedule
    writing             writing a report whole or not at all, and never over what it was made from
"""
