"""Files of all kinds to grids: the cells as a reader sees them, each with its place.

Files:

    opening             which reader reads a file, going by what is in it before its ending
    safety              what is refused before it is opened: files of another kind, locked, damaged, or out to exhaust
                        the machine
    package_parts       zipped packages of XML parts, as .xlsx and .docx files are
    endings             the endings of the files that schedules are read from
    workbook            an .xlsx file to one grid a sheet
    page_titles         what is printed at the top and the foot of each page, and across it
    sheet               one sheet of a workbook: its cells as shown, what is hidden, what is merged
    styles              number formats, struck and white letters by the style of a cell
    number_formats      what a cell shows of the number that it holds
    rich_text           texts of which parts are struck through or raised
    drawings            what a sheet carries beside its cells: comments, pictures, text boxes
    old_workbooks       .xls, .xlsb and .ods workbooks, by python-calamine
    open_document       what .ods workbooks say beside values: merged, hidden and struck cells
    binary_workbooks    the same of .xlsb workbooks
    record_workbooks    the same of .xls workbooks
    sheet_looks         what these three say, put to the values of a sheet
    word_tables         the tables of a .docx document, with the headings above them
    html_tables         pages of HTML, which many programs call .xls
    pdf_tables          a PDF, page by page: tables, what stands above them, tables that go on over pages
    pdf_ruled_tables    tables on a page that are drawn with rules
    pdf_unruled_tables  tables on a page that have no rules, by the columns in which words stand
    pdf_columns         words close together, and how columns grow line by line
    pdf_drawn_cells     cells of several lines, told by the order in which a page was drawn
    pdf_drawn_rows      rows of such cells, and whether a page was drawn cell by cell
    pdf_wrapped_lines   whether a line is a row of its own, or cells of the row above going on
    pdf_doubtful_rows   which cells are unsure, since a line may go on with the row above or begin the one below
    pdf_running_lines   lines that run from page to page at their heads and feet
    pdf_texts           the texts of a PDF for somebody who looks for facts: tables, and prose column by column
    pdf_paragraphs      texts beside tables: lines that wrap below each other are one
    pdf_slanted_texts   texts that run across a page at a slant, as watermarks and stamps do
    pdf_words           the words of a page: struck, white or raised
    pdf_cell_texts      the text of a cell from its words: broken words, fractions, raised figures
    child               reading in a child process with limits of time and memory
    plain_text          text that no separator parts: tables set in columns by blanks, and sentences
    comma_separated     text files with separated fields (.csv): the encoding and the separator are found out and said
    json_lines          a list of objects, one for each line of the schedule
    toml_lines          an array of tables, one for each line, as is handy for product data written by hand
"""
