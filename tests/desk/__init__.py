"""The desk, in a browser and under it. What it promises, and where that is tried:

one address of this machine, a free port, the browser opened, ended by Ctrl-C or from the page    test_start_and_end
a token for each start, its cookie, Host, Origin, policy, no path outside    test_guard, test_start_and_end
uploads capped and under names of our own; child processes limited in memory and time    test_limits
nothing asked of anybody else    test_screens: nothing_is_asked_of_anybody_else
a project of plain files, written whole, every step undone, a file changed meanwhile shown beside one's own
    test_projects; test_browser: what_somebody_else_wrote_meanwhile_is_shown_beside_mine
killed at ten moments, also while a package of files is stored; two desks on one folder
    test_screens: killed_at_ten_moments; test_projects; test_browser: two_desks
long work shows how far it is, is stopped, survives a closed tab    test_browser: long_work_is_followed, takes_long;
    test_limits
what cannot be done is told on a page with a way on, and shows what was written    test_refusals
leaving with words that are not saved is asked about    test_browser: leaving_with_a_note
script planted in every text never runs    test_browser: planted_script, script_in_clauses_mapping_and_notes
readable by everybody at 1440 and 390 px, light and dark    test_browser: every_screen; report/test_page_in_browser,
    report/test_other_pages_in_browser
whole jobs by mouse and by keyboard alone    test_whole_jobs, test_begin

Start       rulesets by subject and place, found by words    test_start_screen
            one file or several, rulesets with a sentence each, own clauses, recent, the dairy, without a schedule
            test_browser: reviewer_drops; test_papers_screen: several_files; test_start_screen; test_begin
Reading     the paper beside what it was read as, a PDF as a picture, three ways to settle, the count falls
            test_screens: three_ways, a_row_that_is_a_note; test_browser: pdf_stands_as_a_picture
Papers      design list, product data, deviations, what was received: read, found by, refused, taken out
            test_papers_screen
Matrix      grouped, folded, filtered in the address, a cell's address, sorted, exported, row and temperatures drawn,
            next and previous    report/test_page_in_browser, report/test_page_on_screen; test_screens: row_of_the_paper
Findings    note, status, alike, proposal, copied as text and rows, reply, marked copy, workbook, filtered
            test_browser: findings_alike, reviewer_settles; test_screens: copied, filtered; test_whole_jobs: reviewer
Rounds      closed, still open, new, changed without being asked    test_screens: rounds_tell; test_browser: resubmittal
Contractor  blank workbook, check before sending, corrections    test_whole_jobs: contractor; test_begin
Clauses     mistakes as typed, completion, examples in the margin, proofreading with lines, prose, a line tried
            test_browser: spec_writer; test_whole_jobs: spec_writer; test_clauses_screen
System      the picture moves with a value    test_screens: picture_of_a_system; test_whole_jobs: system

Speed is measured by `python -m benchmarks desk`. Tests of the report page stand in `tests/report`: first findings on
the first screen, notes of sources said once, skip link, what an address opens, labels apart, print without workings.
"""
