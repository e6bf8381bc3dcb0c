"""What is said of mapping files, of data sheets, and of what each file of a submittal was read as."""

from __future__ import annotations

from speccheck.language.diagnostic_rules import Rule
from speccheck.language.diagnostics import Severity

BAD_MAPPING = Rule(
    "S401",
    "mapping file not readable",
    "A mapping file is a TOML file in UTF-8. The guide in examples/mapping has all its keys, and "
    "`speccheck read SCHEDULE --starter FILE` begins one.",
)

MAPPING_ENTRY = Rule(
    "S402",
    "entry of the mapping file not usable",
    "An entry names a term, a unit or a value that does not exist, or has another shape than it should.",
)
ENTRY_OF_NO_TERM = MAPPING_ENTRY.says(
    "the vocabulary has no term `{term}`", "name a term of the vocabulary: `speccheck terms`"
)
ENTRY_OF_NO_UNIT = MAPPING_ENTRY.says("`{unit}` is not a unit of `{term}`", "write {usual}")
ENTRY_NEEDS_NO_UNIT = MAPPING_ENTRY.says("`{unit}` is not a unit of `{term}`", "leave the unit out")
ENTRY_NOT_READ = MAPPING_ENTRY.says("{sentence}", "{advice}")
ENTRY_OF_NO_VALUE = MAPPING_ENTRY.says("`{value}` is not a value of `{term}`", "write what the column stands for")
ENTRY_TOO_WIDE = MAPPING_ENTRY.says(
    "`{text}` would stand for nearly every text", "write more of the words beside the `*`"
)

MAPPING_UNUSED = Rule(
    "S403",
    "entry of the mapping file not used",
    "An entry names a column, a sheet or a heading that the schedule does not have, so it changes nothing.",
    Severity.WARNING,
)
NO_COLUMN_OF_ENTRY = MAPPING_UNUSED.says(
    "the schedule has no column `{column}`", "write the header as the schedule has it"
)
NO_SHEET_OF_ENTRY = MAPPING_UNUSED.says(
    "the schedule has no sheet `{sheet}`", "write the name of the sheet as it stands"
)
NO_HEADING_OF_ENTRY = MAPPING_UNUSED.says(
    "the schedule has no heading `{heading}`",
    "write the words above the table as they stand, or a part of them between stars: `*chilled*`",
)

SHEET_OF_NONE = Rule(
    "S601",
    "a data sheet names no product of the schedule",
    "A data sheet is checked against the lines whose product it names. None of the products that the "
    "schedule names stands on it, so it was not used.",
    Severity.WARNING,
)
NO_PRODUCT_NAMED = SHEET_OF_NONE.says(
    "the data sheet names no product of the schedule", "write the product on the schedule as the data sheet has it"
)

SHEET_OF_SEVERAL = Rule(
    "S602",
    "a data sheet names several products of the schedule",
    "The first text of the data sheet that names a product of the schedule names several, and nothing "
    "says which values belong to which of them. It was not used.",
    Severity.WARNING,
)
SEVERAL_PRODUCTS_NAMED = SHEET_OF_SEVERAL.says(
    "the data sheet names several products of the schedule together: {products}",
    "write what it shows of each into a table of product data",
)

SHEET_SHOWS_NOTHING = Rule(
    "S603",
    "nothing was found on a data sheet",
    "The data sheet names a product of the schedule, and no property with a quantity of its kind beside "
    "it was found. It may be worded or laid out in a way that is not read. It was not used.",
    Severity.WARNING,
)
NOTHING_FOUND_ON_SHEET = SHEET_SHOWS_NOTHING.says(
    "nothing that a schedule states of `{product}` was found on the data sheet",
    "write what it shows into a table of product data",
)

FILE_READ_AS = Rule(
    "S604",
    "what a file of several was read as",
    "Several files were checked as one submittal. A file is a schedule where its lines say which systems "
    "they are for, product data where they name products alone, and a data sheet where it names a "
    "product of the schedule. A file of which nothing was read keeps the whole from being told to comply "
    "until a person has read it.",
)
FILES_OF_ONE_NAME = FILE_READ_AS.says(
    "{number} files of the submittal are called `{file}`, and places in them could not be told apart",
    "give each file a name of its own",
)
NOTHING_READ = FILE_READ_AS.says(
    "nothing of `{file}` was read: it is no schedule and no data sheet of a product of the schedule",
    "read it, and say in a mapping file how it is to be read if it is a schedule",
    Severity.WARNING,
)
READ_AS = FILE_READ_AS.says("`{file}` was read as {what}{more}", "", Severity.NOTE)
