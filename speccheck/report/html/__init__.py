"""The page: a compliance matrix as one HTML file that needs nothing else.

The matrix and the workings are drawn by the script of the page, from a table in which equal parts stand once, as far as
they are in sight: so a page of 2,000 lines by 70 clauses stays below 3 MB and opens at once. Without the script the
page still tells the outcome, every finding with its lines and its reason, what to ask for, the clauses, and the matrix
by verdict; what it then lacks is the working of each cell.

Files:

    details     the table that a page embeds for its script: every cell with its reason and working, equal parts stored
                once
    draft       a draft side by side: the words of a section and what came from them
    findings    findings of the page, put together by clause: the wording once, then the lines, like ones together
    grouping    how the matrix is grouped: lines by section, service and discipline, clauses by ruleset and part
    matrix      the matrix for a reader without a script: one row a line, and its clauses by their verdicts
    page        one file that needs nothing else, works without its script, in print and without colour
    pictures    the pictures of the page: surface temperature and heat flow against thickness, for lines whose surface
                is judged
    row_pictures
                the rows of a PDF that findings speak of, clipped from its pages
    small_page  a small page: one template with its styles and no script, closed to the outside

The script is in `templates`, one file for each part of it: `details` (the table read), `view` (what is shown, kept in
the address), `arrangement` (filtered, ordered, grouped, folded), `panel` (one cell), `grid` (the matrix), `filters`,
`lists` (the findings), `taking` (what is shown, to take along), `printing`, `opening` (what an address names).
"""
