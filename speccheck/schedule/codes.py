"""The codes of the diagnostics of schedules: a title and what a reviewer needs to know about each."""

from __future__ import annotations

from collections.abc import Mapping

NO_FILE = "S101"
WRONG_KIND = "S102"
LOCKED = "S103"
DAMAGED = "S104"
TOO_LARGE = "S105"
ENTITIES = "S106"
MACROS = "S107"
NOT_TEXT = "S108"
BAD_JSON = "S109"
NO_SHEET = "S110"
BAD_TOML = "S111"
NOT_SEEN = "S112"
ANOTHER_KIND = "S113"
NO_TEXT = "S114"
NO_TABLE = "S201"
SHEET_LEFT = "S202"
HIDDEN_SHEET = "S203"
UNKNOWN_COLUMN = "S204"
SAME_TERM = "S205"
HEADER_UNIT = "S206"
HEADER_REST = "S207"
NO_LINES = "S208"
SECTION = "S209"
HIDDEN_CELLS = "S210"
COMMENTS = "S211"
ROW_LEFT = "S212"
STRUCK_ROW = "S213"
OTHER_TABLE = "S214"
UNREADABLE = "S301"
DATE = "S302"
FORMULA = "S303"
ERROR_VALUE = "S304"
NOTHING_ABOVE = "S305"
REPEATED = "S306"
DISAGREE = "S307"
MERGED_ACROSS = "S308"
SAME_NAME = "S309"
STRUCK = "S310"
NOT_SHOWN = "S311"
DOUBTFUL = "S312"
NOTE_MARK = "S313"
ROUNDED = "S314"
TRACKED = "S315"
UNSURE_CELL = "S316"
SEVERAL_MEANINGS = "S317"
PARTLY_READ = "S318"
SHIFTED = "S319"
BAD_MAPPING = "S401"
MAPPING_ENTRY = "S402"
MAPPING_UNUSED = "S403"
SHEET_OF_NONE = "S601"
SHEET_OF_SEVERAL = "S602"
SHEET_SHOWS_NOTHING = "S603"
FILE_READ_AS = "S604"

LEAVES_PART_OUT = frozenset({HIDDEN_CELLS})
"""Codes that say that lines or columns were left out, so that nothing can be said of the whole schedule."""

DIAGNOSTICS: Mapping[str, tuple[str, str]] = {
    NO_FILE: (
        "file cannot be opened",
        "The schedule file is not there, is a folder, or may not be opened.",
    ),
    WRONG_KIND: (
        "kind of file not read",
        "Schedules are read from workbooks (.xlsx, .xls, .xlsb, .ods), Word documents (.docx), PDF files with text in "
        "them, pages of HTML, separated text (.csv, .tsv), .json and .toml. Anything else has to be saved as one of "
        "these first.",
    ),
    LOCKED: (
        "workbook locked by a password",
        "A workbook that needs a password to open is encrypted and cannot be read. Save a copy without the password.",
    ),
    DAMAGED: (
        "damaged file",
        "The workbook is not a complete .xlsx file: a download that broke off, or another file under this name. Open "
        "it in a spreadsheet program and save it again, or ask for it to be sent again.",
    ),
    TOO_LARGE: (
        "file too large",
        "A schedule has some hundred lines. A file far beyond that, or one that unpacks to far more than it says, is "
        "refused before it is read, so that no file can exhaust the machine. The message names the limit.",
    ),
    ENTITIES: (
        "workbook declares XML entities",
        "Spreadsheet programs never write document type declarations into a workbook, and they can be made to do harm. "
        "Such a workbook is refused.",
    ),
    MACROS: (
        "workbook with macros",
        "Macros are never run. The cells are read as they were last saved.",
    ),
    NOT_TEXT: (
        "text file not readable",
        "A .csv file is text in UTF-8, UTF-16 or the Western code page 1252, with commas, semicolons or tabs between "
        "its fields, and every quotation mark that opens a field closes it. A file that is not UTF-8 is read in code "
        "page 1252, and a note says so.",
    ),
    BAD_JSON: (
        "JSON not in the shape of a schedule",
        "A .json schedule is a list of objects, one for each line. Each object has the name of a term (or what "
        "contractors write for it, as in a column header) and its value: a text, a number, true, false, null for not "
        "given, or a list of texts for a set. NaN and infinity are not JSON.",
    ),
    BAD_TOML: (
        "TOML not in the shape of a schedule",
        "A .toml file holds one array of tables, such as [[product]] or [[line]], one table for each line, with keys "
        "and values as in JSON.",
    ),
    NOT_SEEN: (
        "format that does not show everything",
        "Of workbooks in the format .xls the values are read, merged cells, and which sheets are hidden; of .ods and "
        ".xlsb also hidden rows and struck cells. Whether rows are hidden or text is struck through is not seen in the "
        "first, and in none what units number formats show. Save the workbook as .xlsx where that matters.",
    ),
    ANOTHER_KIND: (
        "file that is not what its ending says",
        "Many programs write a page of HTML or separated text and call it .xls. It is read as what it is.",
    ),
    NO_TEXT: (
        "page without text",
        "The page is a picture, as a scanner makes it, and nothing is guessed from a picture. Ask for the file that "
        "was printed, or have text recognised by a program for that and check what it wrote.",
    ),
    NO_SHEET: (
        "no such sheet",
        "The sheet that was asked for is not in the workbook. The help line names the sheets that are.",
    ),
    NO_TABLE: (
        "no schedule found",
        "No row of the file reads as a header: at least two cells of one row, or of two rows that belong together, "
        "have to be names of terms of the vocabulary or what contractors write for them. A mapping file can say which "
        "row is the header and what its columns are.",
    ),
    SHEET_LEFT: (
        "sheet not read",
        "The sheet has no row that reads as a header, or another sheet was asked for. Nothing on it was read.",
    ),
    HIDDEN_SHEET: (
        "hidden sheet not read",
        "A hidden sheet is no part of what a reviewer is shown, so it is not read unless it is asked for by name. "
        "It is a warning where the sheet has a row that reads as the header of a schedule, and a note where it has "
        "none, as for lists that cells are chosen from.",
    ),
    UNKNOWN_COLUMN: (
        "column not understood",
        "The header of the column is neither the name of a term of the vocabulary nor one of its synonyms. Nothing in "
        "the column was read. Say in a mapping file what the column is, or that it is to be ignored.",
    ),
    SAME_TERM: (
        "two columns for one term",
        "Two columns state the same thing, for example a size in inches and in DN. Where only one is filled, or "
        "both say the same, the value is used. Where they disagree neither is.",
    ),
    HEADER_UNIT: (
        "unit in a header that does not fit",
        "The unit in the header measures something else than the term of the column, so it was not used, and numbers "
        "without a unit cannot be read.",
    ),
    HEADER_REST: (
        "part of a header not used",
        "The header names a term and says something more that is neither a unit nor part of the name, for example "
        "`(see note 2)` or a test condition. Check whether it changes what the values mean.",
    ),
    NO_LINES: (
        "schedule without lines",
        "There is a header, but no line stands under it. An empty schedule is not one in which everything complies.",
    ),
    SECTION: (
        "section heading",
        "A row with a single text between lines is a section heading. Where it names one value of a term that the "
        "lines under it do not state, they take it from there; otherwise it only parts the lines.",
    ),
    HIDDEN_CELLS: (
        "hidden rows or columns",
        "Rows that are hidden, as by a filter, and hidden columns are no part of what a reviewer is shown, so they are "
        "not read, and the warning says where they are. Show them and save the workbook, or name a hidden column in a "
        "mapping file, or let a mapping file say `read-hidden = true`.",
    ),
    STRUCK_ROW: (
        "row struck through",
        "Everything in the row that would be read is struck through. A line that was taken back is no line of the "
        "schedule; a ditto mark right below it repeats nothing.",
    ),
    COMMENTS: (
        "comments, pictures or drawings not read",
        "The file has comments attached to cells, pictures, charts, text boxes or embedded documents. They are no part "
        "of the table and were not read, so the schedule cannot be determined to comply until a person has seen them.",
    ),
    ROW_LEFT: (
        "row read as a note or a total",
        "The row fills two columns that are read, but stands below the notes of its table or begins with the word "
        "total, so that no line was made of it; or it stands above the first header and fills as many cells as a line "
        "does; or it holds nothing but words, as where a remark goes on below its line. Its texts are kept as remarks.",
    ),
    OTHER_TABLE: (
        "table that is perhaps not what is proposed",
        "The heading right above a table speaks of what is specified, required or existing, and another table is on "
        "the sheet; or the title of the only table, or the name of its sheet, says nothing else than that it is "
        "existing, demolished, an example or a template, or that it was superseded, rejected or is not for use. Its "
        "lines are read like all others. Delete the table, or name the row of the right header in a mapping file, if "
        "they are not proposed; list the title under `seen` there if they are.",
    ),
    UNREADABLE: (
        "value not readable",
        "The cell holds something that is not a value of its term. The line counts as not stating it. Either the "
        "schedule is corrected or a mapping file says what the words mean.",
    ),
    DATE: (
        "date in a cell",
        "Spreadsheet programs turn entries such as 1/2 or 3-4 into dates. What was typed cannot be recovered with "
        "certainty, so the cell is not read.",
    ),
    FORMULA: (
        "formula without a result",
        "The cell holds a formula, and the file does not hold its result. Formulas are never worked out here. Open the "
        "workbook in a spreadsheet program, let it calculate and save it.",
    ),
    ERROR_VALUE: (
        "error value in a cell",
        "The cell shows an error such as #REF! or #N/A, which says nothing about the term.",
    ),
    NOTHING_ABOVE: (
        "ditto mark with nothing above",
        "A ditto mark repeats the value of the line above in the same table, and there is none.",
    ),
    REPEATED: (
        "blank cells read as the value above",
        "A leading column that is filled only where its value changes groups the lines. Its blank cells repeat the "
        "value above under these conditions: the column is the only one of its term; it stands left of the first "
        "column that is filled on every line, and is filled on the first line; all grouping columns to the left of it "
        "are blank on that line too; no blank row, section heading or header lies between. All other blank cells are "
        "not given. A mapping file can name the columns for which blanks repeat, or none.",
    ),
    DISAGREE: (
        "columns that disagree",
        "Two columns state the same term and say different things on this line. Neither is used.",
    ),
    MERGED_ACROSS: (
        "cell merged over several columns",
        "The cell stretches over the columns of several terms. It is read for the first, and for the others only where "
        "it says that they are not given.",
    ),
    SAME_NAME: (
        "two lines of one name",
        "Lines are told apart by their names, so the row is added to the name of each later one.",
    ),
    STRUCK: (
        "cell struck through",
        "What is struck through has been taken back, so the cell is not read, be it struck as a whole or in part: a "
        "program cannot tell for certain what was meant to stay.",
    ),
    NOT_SHOWN: (
        "value that is not shown",
        "The number format of the cell shows nothing of the number in it, or the cell is written in white on white. A "
        "reviewer cannot see it, so it is not read.",
    ),
    DOUBTFUL: (
        "implausible value",
        "The amount is far outside what insulation can have, or what the service of the line can run at: a thickness "
        "of 50 in, a conductivity below that of still air by half, chilled water at 6 F. The vocabulary says what is "
        "sensible. Mostly the unit of the column is another than the header says, or a spreadsheet program turned a "
        "fraction into the number of a day. The amount is not read; a mapping file can say what the cell means.",
    ),
    SEVERAL_MEANINGS: (
        "words with several meanings",
        "The trade uses these words for more than one value of the term, as HWS for the supply of heating water and of "
        "domestic hot water. The lines of the schedule settle them where all belong to one group of values that the "
        "vocabulary knows to stand together; otherwise nothing is read, and a mapping file can say what is meant.",
    ),
    PARTLY_READ: (
        "cell read in part",
        "Brackets beside a value hold words that were not read. What tells systems apart, such as the service, is "
        "taken all the same; of what is proposed nothing is, until a person has seen the words (`seen`) or a mapping "
        "file says what the whole cell means.",
    ),
    NOTE_MARK: (
        "mark of a note on a line",
        "The name of the line, or words on it, carry an asterisk or a raised figure, and a note begins with the same "
        "mark. Notes are not read. Check whether the note changes what the line says.",
    ),
    ROUNDED: (
        "cells that show fewer digits than they hold",
        "A cell that holds 1.9685 and shows 2.0, as when millimetres were converted, proposes what it shows. The "
        "digits behind are told. Where the two differ by more than 2 %, nobody can say which is proposed, and neither "
        "is read.",
    ),
    TRACKED: (
        "tracked changes in a document",
        "What a tracked change deletes was not read; what it inserts was read as proposed. Neither is settled until "
        "somebody accepts or rejects the change.",
    ),
    UNSURE_CELL: (
        "cell of which the end is not certain",
        "In a table without rules, words on the next line of print could belong to the cell or be a line of their own. "
        "Neither is read.",
    ),
    BAD_MAPPING: (
        "mapping file not readable",
        "A mapping file is a TOML file in UTF-8. The guide in examples/mapping has all its keys, and `speccheck read "
        "SCHEDULE --starter FILE` begins one.",
    ),
    MAPPING_ENTRY: (
        "entry of the mapping file not usable",
        "An entry names a term, a unit or a value that does not exist, or has another shape than it should.",
    ),
    MAPPING_UNUSED: (
        "entry of the mapping file not used",
        "An entry names a column, a sheet or a heading that the schedule does not have, so it changes nothing.",
    ),
    SHEET_OF_NONE: (
        "a data sheet names no product of the schedule",
        "A data sheet is checked against the lines whose product it names. None of the products that the schedule "
        "names stands on it, so it was not used.",
    ),
    SHEET_OF_SEVERAL: (
        "a data sheet names several products of the schedule",
        "The first text of the data sheet that names a product of the schedule names several, and nothing says which "
        "values belong to which of them. It was not used.",
    ),
    FILE_READ_AS: (
        "what a file of several was read as",
        "Several files were checked as one submittal. A file is a schedule where its lines say which systems they are "
        "for, product data where they name products alone, and a data sheet where it names a product of the schedule. "
        "A file of which nothing was read keeps the whole from being told to comply until a person has read it.",
    ),
    SHEET_SHOWS_NOTHING: (
        "nothing was found on a data sheet",
        "The data sheet names a product of the schedule, and no property with a quantity of its kind beside it was "
        "found. It may be worded or laid out in a way that is not read. It was not used.",
    ),
    SHIFTED: (
        "row with more fields than its header",
        "In separated text a comma within a cell parts it, and what follows stands one column further: a facing under "
        "the thickness. Nobody can say where that happened, so that no field of the row is read. Put a cell that holds "
        "the separator between quotation marks.",
    ),
}
