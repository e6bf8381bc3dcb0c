"""The desk: a local page for people without a terminal, over a folder of plain files that the commands use too.

In: a folder. Out: a server on the loopback address that shows the screens of each project in that folder to one
browser of the same machine. Nothing leaves the machine. The libraries of the extra `desk` are imported only here.

    browser --guard--> application --> screens --+--> projects (plain files, written whole, every step undone)
                                                 +--> workers --(child process)--> work --> the floors below

Files:

    application        the server: its routes, and how it starts and ends
    clauses_screen     the screen Clauses: an editor for rulesets
    contractor_screen  the screen Contractor: a blank workbook, a check before sending, corrections
    desk               what all screens share: projects, long work, templates
    findings_screen    the screens Findings and Matrix: the list that a reviewer works through
    guard              who may ask: host, origin, cookie, size; and the policy that each answer carries
    history            what each step replaced, so that it can be undone
    mapping_file       the mapping file and the notes, changed entry by entry
    offered            the shipped rulesets by subject and place, as the screen Start offers them
    papers             the papers of a review, opened once: ruleset, schedule, matrix, notes
    papers_screen      the screen Papers: what stands beside the submittal, what it was read as, what was found by it
    projects           a project as a folder of plain files
    reading_screen     the screen Reading: the paper beside what each cell was read as, and what settles it
    rounds_screen      the screen Rounds: the resubmittal beside the round before
    sent_back          what was sent back to the contractor, kept with its round
    settings           what project.toml says
    start_screen       the screen Start: drop a submittal, choose what to check against
    system_screen      the screen System: one system worked out, with its picture
    taking_along       the files of a review that are taken along: reports, reply, marked-up copy, corrected workbook
    uploads            files that a browser sends: capped, under names of our own
    work               what the child process does, by name
    work_files         what the child process writes: the report page, and the files that are sent back
    work_papers        what the papers beside a submittal were read as, and what was found by them
    work_reading       what a schedule was read as, for the screen Reading
    work_review        what the child process does for a reviewer: outcome, findings, corrections, rounds
    work_rulesets      what the child process does with rulesets: checking as one types, proofreading, prose
    worker             the child process: one job after another, with limits
    workers            child processes from the outside: started, asked, followed, stopped
"""
