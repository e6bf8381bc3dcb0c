"""Reports: what a compliance matrix says, told to a person in a browser, a terminal or a workbook, or to a program.

In: a `Matrix`. Out: text or bytes, the same for the same matrix, without clock or machine path; or lines on a console.

<<<<<<< HEAD
Reports
    page                  one HTML page that needs nothing else: `render_page`
    page_matrix, page_findings, page_pictures, details
                          its matrix, its lists, its pictures, the table that its script reads
    templates/            its templates, styles and scripts
    workbook              an .xlsx file: `render_workbook`, `write_workbook`
    workbook_sheets, workbook_cells, workbook_styles
                          its sheets; cells whose text stays text; how they look
    json_report           for other programs: `render_json`, `json_schema`
    json_models           the shape of it; matrix.schema.json is the schema as published
    json_beside           what stands beside the verdicts; json_beside_models, json_parts: their shape
    markdown              `render_markdown`; markdown_parts has its lists and tables
    comma_separated       the findings as CSV: `render_comma_separated`
    terminal              `print_matrix`
    terminal_diagnostics  `print_diagnostics`
    terminal_sections     what was found beside the verdicts
    terminal_working      the working of one line and clause
    terminal_terms        the terms of a vocabulary
    terminal_clauses      two editions of a ruleset compared
    terminal_requirements what applies to a line: `print_requirements`
    thickness_picture     surface temperature and heat flow against thickness, as SVG: `draw_thickness`
    terminal_thickness    the same in words: `print_thickness`
    console_page          lines of text on a console
    proofreading          what proofreading found, for all its forms: `ProofreadingReport`
    proofreading_alone, proofreading_against, proofreading_since
                          one from each of the three questions
    proofreading_page, proofreading_markdown, terminal_proofreading
                          it as HTML, as Markdown and on a console
    prose                 a ruleset as a specification section: `section_of`
    prose_general, prose_articles, prose_drafts, prose_words
                          its first part, its other parts, their order, its sentences
    prose_page            it as HTML: `render_prose_page`
    prose_document        it as a .docx file: `render_prose_document`
    terminal_mending      what would comply: `print_mendings`; mending_words has its sentences
    portfolio_*           a portfolio: its files, the findings, JSON, the page, the terminal, their rows and words
    sweep_page, sweep_terminal
                          a sweep as HTML, and on a console
    blank_schedule        a blank schedule workbook for a ruleset
    corrected_workbook    the schedule with the changes in it: `correct_workbook`
    reply                 review comments to send back: `reply_to`
    reply_page            them as HTML: `render_reply_page`
    reply_document        them as a .docx file: `render_reply_document`
What they share
    wording               marks, counts, cautions
    sections              what was found beside the verdicts, as tables
    line_words            what is said of a line
    requests              the data to ask the contractor for
    doubts                what of the schedule was in doubt, like diagnostics together
    escaping              text of others, made harmless
    word_document         how .docx documents begin and become bytes
    writing               `write_whole`: a file is written whole or not at all
    codes                 the diagnostics of this floor; all_codes has those of every floor
=======
Files:
>>>>>>> main

    all_codes           every code of every floor, by the chapter that it belongs to: what a person can look up
    codes               codes of the diagnostics of this floor: each with its title and an explanation for the manual
    comma_separated     the findings as comma-separated values (RFC 4180), for a spreadsheet program that reads
                        nothing better
    doubts              diagnostics of a schedule as a reader wants them: errors first, like ones together, the advice
                        said once
    escaping            text of strangers, made harmless for the place it goes to: a workbook or CSV cell, Markdown, a
                        terminal
    html                a compliance matrix as one HTML file that needs nothing else
    json                the JSON report for other programs, with the models from which its published schema is made
    line_words          what reports say of a line: its service, a few words that tell it from others, its data, its
                        place
    markdown            reports as Markdown (CommonMark with tables), for wikis and letters
    mending_words       what would comply, in words: the changes of a proposal as a reviewer would write them, and why
                        there is none
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
    terminal_thickness  one system in a terminal: surface temperature, heat flow, limits and least thickness, with the
                        working
    thickness_picture   the picture of a thickness curve: surface temperature and heat flow against thickness, as SVG
    word                documents for a word processor (Office Open XML), the same bytes on each run
    wording             the words that all reports share: the short mark of a cell, counts, the standing caution, what
                        the whole comes to
    workbook            workbooks (Office Open XML): the report, the blank schedule, the corrected schedule
    writing             writing a report whole or not at all, and never over what it was made from
"""
