"""Reports: what a compliance matrix says, told to a person in a browser, a terminal or a workbook, or to a program.

In: a `Matrix`. Out: text or bytes, the same for the same matrix, without clock or machine path; or lines on a console.

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

Import from the modules themselves: each of the libraries that they stand on is loaded when it is first needed.
"""
