"""Mark-up: the contractor's own file with the comments of a review in it, to be sent back.

In: a file, the schedule that was read from it, and the comments of the reply. Out: the bytes of a copy with a comment
at the cell of each finding and a numbered list at the end, with cautions and links both ways. The file itself is only
read. No clock and no name of a person goes in but those that were given.

    matrix, reply --marks--> Comments --copying--> pdf | word | workbook --> bytes

Files:

    marks              each comment with its number, its weight, and the cell that it speaks of
    copying            which writer copies a file, and what cannot be marked
    pdf                PDF: highlights and tags at the cells, the list on added last pages; run in a child process
    pdf_annotations    highlights, tags and links, each with its drawing
    pdf_places         from places on a page as it is shown to the space in which it is drawn
    pdf_pages          pages of text for the end of a PDF
    pdf_drawing        how marks look on paper: frames and tags that differ without colour
    word               Word documents: comments at the cells, the list at the end
    word_cells         where the cells of a Word document stand among its bytes
    workbook           workbooks: comments in the cells, the list on a sheet of its own
    workbook_comments  the parts that hold the comments of one sheet
    workbook_list      the sheet that lists the comments
    package_copy       zipped packages copied with texts inserted, everything else byte for byte
"""
