"""What is said of the sheets, headers, columns and rows of a schedule."""

from __future__ import annotations

from speccheck.language.diagnostic_rules import Rule
from speccheck.language.diagnostics import Severity

_INTO_CELLS = "write what matters into the cells themselves"
_ON_THE_PAGE = "read it on the page, and have it written into the table where it matters"
_SAY_IN_MAPPING = "say in a mapping file what the column is, or add it to `ignore`"

NO_TABLE = Rule(
    "S201",
    "no schedule found",
    "No row of the file reads as a header: at least two cells of one row, or of two rows that belong "
    "together, have to be names of terms of the vocabulary or what contractors write for them. A mapping "
    "file can say which row is the header and what its columns are.",
)
NO_HEADER_FOUND = NO_TABLE.says(
    "no row of the file reads as the header of a schedule",
    "name the columns as the vocabulary does, or say in a mapping file which row is the header",
)

SHEET_LEFT = Rule(
    "S202",
    "sheet not read",
    "The sheet has no row that reads as a header, or another sheet was asked for. Nothing on it was read.",
    Severity.NOTE,
)
SHEET_NOT_ASKED_FOR = SHEET_LEFT.says("sheet `{sheet}` was not asked for, and {cells} not read", "")
SHEET_WITHOUT_HEADER = SHEET_LEFT.says(
    "{what} has no row that reads as a header, and {cells} not read", "say in a mapping file which row is the header"
)

HIDDEN_SHEET = Rule(
    "S203",
    "hidden sheet not read",
    "A hidden sheet is no part of what a reviewer is shown, so it is not read unless it is asked for by "
    "name. It is a warning where the sheet has a row that reads as the header of a schedule, and a note "
    "where it has none, as for lists that cells are chosen from.",
)
SHEET_IS_HIDDEN = HIDDEN_SHEET.says("sheet `{sheet}` is hidden, and {cells} not read", "ask for the sheet by its name")

UNKNOWN_COLUMN = Rule(
    "S204",
    "column not understood",
    "The header of the column is neither the name of a term of the vocabulary nor one of its synonyms. "
    "Nothing in the column was read. Say in a mapping file what the column is, or that it is to be "
    "ignored.",
    Severity.WARNING,
)
COLUMN_WITHOUT_HEADER = UNKNOWN_COLUMN.says(
    "column {column} has no header, and the {cells} not read",
    _SAY_IN_MAPPING,
)
COLUMN_OF_NO_TERM = UNKNOWN_COLUMN.says(
    "the header `{header}` names no term of the vocabulary, and the {cells} not read",
    "{question}" + _SAY_IN_MAPPING,
)
COLUMN_NAMES_NO_TERM = UNKNOWN_COLUMN.says(
    "the header `{header}` names no term of the vocabulary, and the cells under it were not read",
    _SAY_IN_MAPPING,
)

SAME_TERM = Rule(
    "S205",
    "two columns for one term",
    "Two columns state the same thing, for example a size in inches and in DN. Where only one is filled, "
    "or both say the same, the value is used. Where they disagree neither is.",
    Severity.NOTE,
)
COLUMNS_OF_ONE_TERM = SAME_TERM.says(
    "columns {first} and {second} both state `{term}`; where they disagree neither is used",
    "add the one that does not count to `ignore` in a mapping file",
)
TEXTS_PUT_TOGETHER = SAME_TERM.says(
    "columns {first} and {second} both state `{term}`; their texts are put together",
    "add the one that does not count to `ignore` in a mapping file",
)

HEADER_UNIT = Rule(
    "S206",
    "unit in a header that does not fit",
    "The unit in the header measures something else than the term of the column, so it was not used, and "
    "numbers without a unit cannot be read.",
    Severity.WARNING,
)
OTHER_UNIT_IN_HEADER = HEADER_UNIT.says(
    "the unit `{unit}` in the header `{header}` does not measure `{term}`", "write {usual} in the header"
)
UNIT_IN_HEADER = HEADER_UNIT.says(
    "the unit `{unit}` in the header `{header}` does not measure `{term}`", "take the unit out of the header"
)

HEADER_REST = Rule(
    "S207",
    "part of a header not used",
    "The header names a term and says something more that is neither a unit nor part of the name, for "
    "example `(see note 2)` or a test condition. Check whether it changes what the values mean.",
    Severity.WARNING,
)
HEADER_WORDS_NOT_USED = HEADER_REST.says(
    "the words `{words}` of the header `{header}` were not used",
    "check that they do not change what the values mean, or give them a column of their own",
)

NO_LINES = Rule(
    "S208",
    "schedule without lines",
    "There is a header, but no line stands under it. An empty schedule is not one in which everything complies.",
)
NO_LINE_UNDER_HEADER = NO_LINES.says(
    "the schedule has a header and no line under it", "check that this is the right file and sheet"
)

SECTION = Rule(
    "S209",
    "section heading",
    "A row with a single text between lines is a section heading. Where it names one value of a term "
    "that the lines under it do not state, they take it from there; otherwise it only parts the lines.",
    Severity.NOTE,
)
HEADING_SAYS_NOTHING = SECTION.says(
    "`{heading}` was read as a section heading; nothing was read from it",
    "state what it says on each line if it matters",
)
HEADING_READ_AS = SECTION.says(
    "the section heading `{heading}` was read as {values} for the {lines} under it",
    "give {terms} a column if it means otherwise",
)

HIDDEN_CELLS = Rule(
    "S210",
    "hidden rows or columns",
    "Rows that are hidden, as by a filter, and hidden columns are no part of what a reviewer is shown, "
    "so they are not read, and the warning says where they are. Show them and save the workbook, or name "
    "a hidden column in a mapping file, or let a mapping file say `read-hidden = true`.",
    Severity.WARNING,
)
ROWS_HIDDEN = HIDDEN_CELLS.says(
    "{rows} {are} hidden, and no line was made of {them}", "show such rows, or delete them if they are not submitted"
)
COLUMN_HIDDEN = HIDDEN_CELLS.says(
    "column {column} is hidden, and its {cells} not read",
    "show the column in the workbook, or say in a mapping file what it is",
)

COMMENTS = Rule(
    "S211",
    "comments, pictures or drawings not read",
    "The file has comments attached to cells, pictures, charts, text boxes or embedded documents. They "
    "are no part of the table and were not read, so the schedule cannot be determined to comply until a "
    "person has seen them.",
    Severity.WARNING,
)
COMMENTS_NOT_READ = COMMENTS.says("the {comments} attached to {cells} {were} not read", _INTO_CELLS)
COMMENTS_OF_DOCUMENT = COMMENTS.says("the comments of the document were not read", _INTO_CELLS)
PICTURES_NOT_READ = COMMENTS.says("the {pictures} at {cells} {were} not read", _INTO_CELLS)
PICTURE_NOT_READ = COMMENTS.says("a picture was not read", _INTO_CELLS)
TEXT_BOX_NOT_READ = COMMENTS.says("the text box `{text}` was not read", _INTO_CELLS)
TABLE_WITHIN_CELL = COMMENTS.says("a table within a cell was not read as a table", _INTO_CELLS)
EMBEDDED_NOT_READ = COMMENTS.says("a document embedded in the sheet was not read", _INTO_CELLS)
NO_SHEET_OF_CELLS = COMMENTS.says("`{sheet}` is not a sheet of cells and was not read", _INTO_CELLS)
STRUCK_ON_CONDITION = COMMENTS.says(
    "the condition under which {cells} is struck through was not worked out",
    _INTO_CELLS,
)
TEXT_UP_THE_PAGE = COMMENTS.says(
    "text that runs up or down the page on page {page} was not read",
    _ON_THE_PAGE,
)
TEXT_ACROSS_PAGES = COMMENTS.says(
    "`{text}`, which runs across {pages} at a slant, was not read",
    _ON_THE_PAGE,
)
PICTURE_ON_PAGE = COMMENTS.says("a picture on page {page} was not read", _ON_THE_PAGE)

ROW_LEFT = Rule(
    "S212",
    "row read as a note or a total",
    "The row fills two columns that are read, but stands below the notes of its table or begins with the "
    "word total, so that no line was made of it; or it stands above the first header and fills as many "
    "cells as a line does; or it holds nothing but words, as where a remark goes on below its line. Its "
    "texts are kept as remarks.",
    Severity.NOTE,
)
ROW_ABOVE_HEADER = ROW_LEFT.says(
    "row {row}, which begins `{text}`, stands above the first header, and no line was made of it",
    "say in a mapping file which row is the header, if it is part of a table",
)
ROW_OF_WORDS = ROW_LEFT.says(
    "row {number} holds words alone, `{text}`, and no line was made of it",
    "write the words on the line that they belong to",
)
ROW_READ_AS_OTHER = ROW_LEFT.says(
    "row {number}, which begins `{text}`, was read as a {kind}, and no line was made of it",
    "move it above the notes, or fill more of its columns, if it is a line of the schedule",
)

STRUCK_ROW = Rule(
    "S213",
    "row struck through",
    "Everything in the row that would be read is struck through. A line that was taken back is no line "
    "of the schedule; a ditto mark right below it repeats nothing.",
    Severity.WARNING,
)
ROWS_STRUCK = STRUCK_ROW.says(
    "{rows} {are} struck through, and no line was made of {them}", "delete such rows if they were taken back"
)

OTHER_TABLE = Rule(
    "S214",
    "table that is perhaps not what is proposed",
    "The heading right above a table speaks of what is specified, required or existing, and another "
    "table is on the sheet; or the title of the only table, or the name of its sheet, says nothing else "
    "than that it is existing, demolished, an example or a template, or that it was superseded, rejected "
    "or is not for use. Its lines are read like all others. Delete the table, or name the row of the "
    "right header in a mapping file, if they are not proposed; list the title under `seen` there if they "
    "are.",
    Severity.WARNING,
)
TABLE_PERHAPS_NOT_PROPOSED = OTHER_TABLE.says(
    "the table under `{heading}` is perhaps not what is proposed, and was read like any other",
    "delete it, or say in a mapping file which row is the header, if it is not proposed",
)
HEADER_OF_NO_TERMS = OTHER_TABLE.says(
    "row {number}, `{text}`, reads as a header whose words name no terms, and the {rows} not read",
    "name the columns as the table above does, or say in a mapping file which row is the header",
)
