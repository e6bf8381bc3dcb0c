"""What is said of schedule files: of another kind, locked, damaged, too large, or in another shape."""

from __future__ import annotations

from speccheck.language.diagnostic_rules import Rule
from speccheck.language.diagnostics import Severity

_SCHEDULE_ALONE = "leave only the schedule in the file"
_SHEETS_ALONE = "leave only the sheets of the schedule in the file"
_PART_ALONE = "leave only the {less} in the file"
_NOTHING_OUTSIDE = "delete what stands far outside the schedule"
_SHAPE_OF_JSON = "write a list of objects, one for each line, with a text, a number, true, false or null for each term"
_QUOTATION_MARKS = 'write a quotation mark inside a field twice, and enclose that field: a ditto mark is """"'

NO_FILE = Rule(
    "S101",
    "file cannot be opened",
    "The schedule file is not there, is a folder, or may not be opened.",
)
NO_FILE_TO_OPEN = NO_FILE.says("`{file}` is not a file that can be opened", "check the name and folder")
FILE_NOT_OPENED = NO_FILE.says("`{file}` cannot be opened: {why}", "")

WRONG_KIND = Rule(
    "S102",
    "kind of file not read",
    "Schedules are read from workbooks (.xlsx, .xls, .xlsb, .ods), Word documents (.docx), PDF files "
    "with text in them, pages of HTML, separated text (.csv, .tsv), .json and .toml. Anything else has "
    "to be saved as one of these first.",
)
NO_KIND_OF_SCHEDULE = WRONG_KIND.says(
    "`{file}` is not a kind of file that schedules are read from", "schedules are read from {endings} files"
)

LOCKED = Rule(
    "S103",
    "workbook locked by a password",
    "A workbook that needs a password to open is encrypted and cannot be read. Save a copy without the password.",
)
WORKBOOK_LOCKED = LOCKED.says("`{file}` is locked by a password", "save a copy without the password")

DAMAGED = Rule(
    "S104",
    "damaged file",
    "The workbook is not a complete .xlsx file: a download that broke off, or another file under this "
    "name. Open it in a spreadsheet program and save it again, or ask for it to be sent again.",
)
MERGED_OVER_EACH_OTHER = DAMAGED.says(
    "`{name}` has merged cells that lie over each other", "save the file again with the program that wrote it"
)
TOO_MUCH_MEMORY = DAMAGED.says(
    "`{file}` could not be read within {most} MB of memory, or is damaged",
    "save it again with the program that wrote it, with the schedule alone",
)
NOT_COMPLETE = DAMAGED.says("`{file}` is not a complete {what}", "{advice}")
CANNOT_BE_UNPACKED = DAMAGED.says("`{file}` is damaged and cannot be unpacked", "{advice}")
PART_MISSING = DAMAGED.says("`{file}` is damaged: a part that it names is missing", "{advice}")
NESTS_TOO_DEEP = DAMAGED.says("`{file}` nests more than {most} elements", "{advice}")
PART_NOT_XML = DAMAGED.says("`{file}` is damaged: a part of it is not XML", "{advice}")
PARTS_OF_NO_WORKBOOK = DAMAGED.says("`{file}` is damaged and cannot be read as a workbook", "{advice}")
SHEET_MISSING = DAMAGED.says("`{file}` is damaged: its sheet `{sheet}` is missing", "{advice}")
SHEET_WITHOUT_CELLS = DAMAGED.says("`{file}` is damaged: its sheet `{sheet}` has no cells at all", "{advice}")
PARTS_OF_NO_DOCUMENT = DAMAGED.says("`{file}` is damaged and cannot be read as a document", "{advice}")
RECORD_BROKEN_OFF = DAMAGED.says("`{file}` is damaged: a part of it ends within a record", "{advice}")
PDF_DAMAGED = DAMAGED.says(
    "`{file}` is damaged and cannot be read as a PDF", "ask for the file to be sent again, or print it to a new PDF"
)
TWO_CELLS_AT_ONE_PLACE = DAMAGED.says(
    "sheet `{sheet}` has two cells at {cell}", "save the workbook again in a spreadsheet program"
)
SHARED_TEXT_MISSING = DAMAGED.says("sheet `{sheet}` speaks of text {number}, which the workbook does not have", "")

TOO_LARGE = Rule(
    "S105",
    "file too large",
    "A schedule has some hundred lines. A file far beyond that, or one that unpacks to far more than it "
    "says, is refused before it is read, so that no file can exhaust the machine. The message names the "
    "limit.",
)
TOO_MANY_CELLS = TOO_LARGE.says("`{file}` has more than {most:,} filled cells, which is the limit", _SCHEDULE_ALONE)
TOO_MANY_SHEETS = TOO_LARGE.says("`{file}` has {number} sheets, and the limit is {most}", _SHEETS_ALONE)
FORMAT_TOO_LONG = TOO_LARGE.says(
    "`{file}` has a number format of {number:,} characters",
    "choose another number format; the limit is {most:,} characters",
)
TOO_MANY_PAGES = TOO_LARGE.says(
    "`{file}` has {number} pages, and the limit is {most}", "leave only the pages of the schedule in the file"
)
MORE_THAN_LIMIT = TOO_LARGE.says("`{file}` has {limit}, which is the limit", _SCHEDULE_ALONE)
MORE_THAN_LIMIT_OF = TOO_LARGE.says("`{file}` has more than {most}, which is the limit", _SCHEDULE_ALONE)
TOO_LONG_TO_READ = TOO_LARGE.says(
    "`{file}` takes more than {most} seconds to read, which is the limit", _SCHEDULE_ALONE
)
FILE_TOO_LARGE = TOO_LARGE.says(
    "`{file}` has {size} MB, and no schedule over {most} MB is read",
    _SHEETS_ALONE,
)
TOO_MANY_LINES = TOO_LARGE.says("`{file}` has more than {most:,} lines, which is the limit", _SCHEDULE_ALONE)
TOO_MANY_PARTS = TOO_LARGE.says("`{file}` has {number} parts, and no file with more than {most} is read", _PART_ALONE)
UNPACKS_TO_TOO_MUCH = TOO_LARGE.says("`{file}` unpacks to {size} MB, and the limit is {most} MB", _PART_ALONE)
UNPACKS_TOO_FAR = TOO_LARGE.says(
    "`{file}` unpacks to {times} times its size, and the limit is {most} times", _PART_ALONE
)
SHEET_OF_TOO_MANY_CELLS = TOO_LARGE.says(
    "sheet `{sheet}` has more than {most:,} cells, which is the limit",
    _SHEETS_ALONE,
)
SHEET_OF_TOO_MANY_FILLED = TOO_LARGE.says(
    "sheet `{sheet}` has more than {most:,} filled cells, which is the limit",
    _SHEETS_ALONE,
)
TOO_MANY_FILLED_CELLS = TOO_LARGE.says(
    "sheet `{sheet}` has more than {most:,} filled cells, which is the limit", _SCHEDULE_ALONE
)
TOO_MANY_FILLED_ROWS = TOO_LARGE.says(
    "sheet `{sheet}` has more than {most:,} filled rows, which is the limit", _SCHEDULE_ALONE
)
ROW_BEYOND_SHEET = TOO_LARGE.says("sheet `{sheet}` has a row `{row}`, and a sheet ends at 1,048,576", _NOTHING_OUTSIDE)
CELL_BEYOND_SHEET = TOO_LARGE.says(
    "sheet `{sheet}` has a cell at `{cell}`, and a sheet ends at XFD1048576",
    _NOTHING_OUTSIDE,
)
REACHES_TOO_FAR = TOO_LARGE.says(
    "sheet `{sheet}` reaches to {cell}, and no sheet with more than {most:,} cells is read",
    _NOTHING_OUTSIDE,
)

ENTITIES = Rule(
    "S106",
    "workbook declares XML entities",
    "Spreadsheet programs never write document type declarations into a workbook, and they can be made "
    "to do harm. Such a workbook is refused.",
)
DECLARES_ENTITIES = ENTITIES.says(
    "`{file}` declares XML entities, which no spreadsheet and no document does", "{advice}"
)

MACROS = Rule(
    "S107",
    "workbook with macros",
    "Macros are never run. The cells are read as they were last saved.",
    Severity.NOTE,
)
MACROS_NEVER_RUN = MACROS.says(
    "the workbook may hold macros, which are never run; its cells are read as they were last saved", ""
)

NOT_TEXT = Rule(
    "S108",
    "text file not readable",
    "A .csv file is text in UTF-8, UTF-16 or the Western code page 1252, with commas, semicolons or tabs "
    "between its fields, and every quotation mark that opens a field closes it. A file that is not UTF-8 "
    "is read in code page 1252, and a note says so.",
)
IS_NO_TEXT = NOT_TEXT.says("`{file}` is not text", "save the schedule as .csv in UTF-8, or as .xlsx")
READ_IN_WESTERN_PAGE = NOT_TEXT.says(
    "the file is not UTF-8 and was read in the Western code page 1252",
    "check that signs such as ½ and ° look right, or save the file in UTF-8",
    Severity.NOTE,
)
FIELD_NOT_CLOSED = NOT_TEXT.says(
    "a quotation mark opens a field and does not close it",
    _QUOTATION_MARKS,
)
FIELD_TOO_LONG = NOT_TEXT.says(
    "a field is longer than 131,072 characters, as when a quotation mark opens it and none closes it",
    _QUOTATION_MARKS,
)

BAD_JSON = Rule(
    "S109",
    "JSON not in the shape of a schedule",
    "A .json schedule is a list of objects, one for each line. Each object has the name of a term (or "
    "what contractors write for it, as in a column header) and its value: a text, a number, true, false, "
    "null for not given, or a list of texts for a set. NaN and infinity are not JSON.",
)
NO_JSON = BAD_JSON.says(
    "this is not JSON here",
    _SHAPE_OF_JSON,
)
JSON_NOT_UTF_8 = BAD_JSON.says(
    "`{file}` is not text in UTF-8",
    _SHAPE_OF_JSON,
)
JSON_TOO_DEEP = BAD_JSON.says(
    "the file nests too deep or holds a number too long",
    _SHAPE_OF_JSON,
)
NO_NUMBER_IN_JSON = BAD_JSON.says(
    "`{word}` is not a number in JSON",
    _SHAPE_OF_JSON,
)
KEY_TWICE_IN_OBJECT = BAD_JSON.says(
    "the key `{word}` stands twice in one object",
    _SHAPE_OF_JSON,
)
NO_VALUE_OF_A_LINE = BAD_JSON.says(
    "`{at}` is not a value that a line can have",
    _SHAPE_OF_JSON,
)
NO_LIST_OF_OBJECTS = BAD_JSON.says(
    "this is not a list of objects",
    _SHAPE_OF_JSON,
)

NO_SHEET = Rule(
    "S110",
    "no such sheet",
    "The sheet that was asked for is not in the workbook. The help line names the sheets that are.",
)
NO_SUCH_SHEET = NO_SHEET.says("there is no sheet `{sheet}`", "{question}the sheets are: {sheets}")
FILE_WITHOUT_SHEETS = NO_SHEET.says(
    "there is no sheet `{sheet}`", "{question}the sheets are: none, this file has no sheets"
)

BAD_TOML = Rule(
    "S111",
    "TOML not in the shape of a schedule",
    "A .toml file holds one array of tables, such as [[product]] or [[line]], one table for each line, "
    "with keys and values as in JSON.",
)
NO_ARRAY_OF_TABLES = BAD_TOML.says(
    "`{file}` is not one array of tables",
    "write one array of tables, such as [[product]], with a text, a number, true or false for each term",
)

NOT_SEEN = Rule(
    "S112",
    "format that does not show everything",
    "Of workbooks in the formats .xls, .xlsb and .ods the values are read, what is merged, hidden and "
    "struck through, and which sheets are hidden. In .xls it is not seen where a part of a text is struck "
    "through, of those older than 1997 only values and merged cells are read, and in none it is seen what "
    "units number formats show. Save the workbook as .xlsx where that matters.",
    Severity.WARNING,
)
VALUES_ALONE_SEEN = NOT_SEEN.says(
    "hidden rows, struck-out text, comments and the units of number formats are not seen in this format",
    "check that nothing on the sheets is hidden or struck through, or save the workbook as .xlsx",
)
PARTS_AND_FORMATS_NOT_SEEN = NOT_SEEN.says(
    "text struck out in part, comments and the units of number formats are not seen in this format",
    "check what is struck through within cells and what they show beside their numbers, or save the workbook as .xlsx",
)
FORMATS_NOT_SEEN = NOT_SEEN.says(
    "comments and the units of number formats are not seen in this format",
    "check what the cells show beside their numbers, or save the workbook as .xlsx",
)

ANOTHER_KIND = Rule(
    "S113",
    "file that is not what its ending says",
    "Many programs write a page of HTML or separated text and call it .xls. It is read as what it is.",
    Severity.NOTE,
)
PAGE_OF_HTML = ANOTHER_KIND.says(
    "the file is a page of HTML and was read as one; its rows are counted through all its tables", ""
)
SEPARATED_TEXT = ANOTHER_KIND.says("the file is separated text and was read as such", "")

NO_TEXT = Rule(
    "S114",
    "page without text",
    "The page is a picture, as a scanner makes it, and nothing is guessed from a picture. Ask for the "
    "file that was printed, or have text recognised by a program for that and check what it wrote.",
)
PAGES_ARE_PICTURES = NO_TEXT.says(
    "{pages} of `{file}` {are} without text",
    "ask for the file that was printed, or have its text recognised and check it",
)
NO_TEXT_AT_ALL = NO_TEXT.says("`{file}` holds no text at all", "ask for the file that was printed")
