"""The page: a compliance matrix as one HTML file that needs nothing else.

Files:

    details   the table that a page embeds for its script: every cell with its reason and working, equal parts stored
              once
    draft     a draft side by side: the words of a section and what came from them
    findings  findings of the page, put together by clause: the wording once, then each line that it concerns
    matrix    the matrix of the page as markup: one row a line, one column a clause, each cell a short mark
    page      one file that needs nothing else, works without its script, in print and without colour
    pictures  the pictures of the page: surface temperature and heat flow against thickness, for lines whose surface
              is judged
    row_pictures
              the rows of a PDF that findings speak of, clipped from its pages
"""
