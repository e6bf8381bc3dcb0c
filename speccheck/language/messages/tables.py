"""What is said of the tables of a ruleset, and of its examples."""

from __future__ import annotations

from speccheck.language.diagnostic_rules import Rule
from speccheck.language.diagnostics import Severity

ROW_SHAPE = Rule(
    "L401",
    "table row of the wrong length",
    "Each row has one heading and one cell for each column of the table's first row, and a table has at "
    "least one row of cells.",
)
NO_ROW = ROW_SHAPE.says("the table has no row of cells", "add a row below the names of the columns")
ROW_LENGTH = ROW_SHAPE.says(
    "the row has {cells} where the table has {columns}", "write `-` for a cell that is not covered"
)

AXES = Rule(
    "L402",
    "table axes",
    "A table is read by one or two terms. With two, its first row begins with `|` and names the columns.",
)
TABLE_NOT_READ_BY = AXES.says("`{table}` is not read by `{words}`", "it is read by {read_by}")
TABLE_CANNOT_BE_READ_BY = AXES.says("a table cannot be read by `{term}`, {kind}", "name another term")
TOO_MANY_AXES = AXES.says("a table is read by up to {most} terms", "make two tables of it")
COLUMNS_NOT_NAMED = AXES.says("the first row does not name the columns", "begin the first row with {blanks}")
COLUMNS_WITHOUT_TERM = AXES.says("the table has columns, but only one axis", "name the term of the columns")

OVERLAP = Rule(
    "L403",
    "bands overlap",
    "Two bands of one axis share a value, so that the table would give two answers.",
)
ROW_TWICE = OVERLAP.says("the row `{headings}` stands twice", "leave one of the two out")
VALUE_IN_TWO_BANDS = OVERLAP.says("`{second}` overlaps `{first}`", "name each value once")
BANDS_SHARE_ENDS = OVERLAP.says(
    "`{second}` overlaps `{first}`", "let one end where the other begins: `A to under B`, then `B to C`"
)

UNREADABLE_BAND = Rule(
    "L404",
    "band cannot be read",
    "Bands are written `A to B` (both ends in), `A to under B`, `over A to B`, `under B`, `up to B`, "
    "`over A`, `A and over`, `A and under` or `A`; or as values of a term with a closed list, parted by "
    "commas.",
)
IN_NO_BAND = UNREADABLE_BAND.says("`{value}` lies in no band of `{term}`", "the bands are {bands}")
NO_CELL_TO_READ_AS = UNREADABLE_BAND.says("`{table}` has no value there: {values}", "read it at another value")
NOT_A_BAND = UNREADABLE_BAND.says(
    "`{heading}` is not a band of `{term}`, {kind}", "write `A to B`, `under B` or `A and over`"
)
NOT_AN_ANSWER_BAND = UNREADABLE_BAND.says("`{heading}` is not a band of `{term}`, {kind}", "write `yes` or `no`")
HEADING_EMPTY = UNREADABLE_BAND.says(
    "a heading of a table is empty", "only the first row begins with `|`, where it names the columns"
)
HEADING_NOT_READ = UNREADABLE_BAND.says(
    "`{heading}` is not a heading of a table",
    "write `A to B`, `A to under B`, `over A to B`, `under B`, `up to B`, `over A`, `A and over`, or "
    "values parted by commas",
)

UNREADABLE_CELL = Rule(
    "L405",
    "table cell cannot be read",
    "A cell is a quantity in the table's unit, a value of the term that the table is of, or a dash.",
)
CELLS_OF_NO_VALUE = UNREADABLE_CELL.says("a table cannot hold values of `{term}`, {kind}", "name a term with one value")
NOT_A_CELL = UNREADABLE_CELL.says("`{cell}` is not {kind}", "write a quantity, or `-` for not covered")
CELL_EMPTY = UNREADABLE_CELL.says("a cell of a table is empty", "write `-` where the table covers nothing")
CELL_NOT_READ = UNREADABLE_CELL.says(
    "`{cell}` is not a cell of a table",
    "write a quantity, a value of the term that the table is of, or `-` for not covered",
)

MISPLACED_CELL_WORDS = Rule(
    "L406",
    "cells with words where nothing is asked",
    "A cell can say `not permitted`, which nothing meets, or `nothing required`. Only a requirement can "
    "go by such words: a term compared with the table behind `shall` or `should`. Where a clause "
    "applies, what it leaves out and what is worked out need values.",
)
CELLS_ONLY_A_REQUIREMENT_CAN_GO_BY = MISPLACED_CELL_WORDS.says(
    "cells of `{table}` say what is required or permitted, which only a requirement can go by",
    "compare a term with `{table}` behind `shall` or `should`, or give the cells values",
)

UNREADABLE_DATUM = Rule(
    "L501",
    "example datum cannot be read",
    "The data of an example are stated as in a schedule: a term and its value, parted by commas.",
)
VALUE_NOT_READ = UNREADABLE_DATUM.says("{sentence}", "{advice}")
DATUM_BEGINS_WITH_NO_TERM = UNREADABLE_DATUM.says(
    "`{datum}` does not begin with a term of the vocabulary", "begin it with the name of a term: `thickness 1 in`"
)

FAILED_EXAMPLE = Rule(
    "L502",
    "example does not come out as it says",
    "The clause gives another verdict on the example's line than the example expects. Either the rule or "
    "the example is wrong.",
)
EXAMPLE_COMES_OUT_OTHERWISE = FAILED_EXAMPLE.says(
    "the example `{example}` of clause `{clause}` should come out as `{expected}`, but the verdict is `{verdict}`",
    "{reason}",
)

NO_EXAMPLE = Rule(
    "L503",
    "clause without example",
    "No example shows what the clause makes of a line.",
    Severity.WARNING,
)
NO_EXAMPLE_OF_CLAUSE = NO_EXAMPLE.says("clause `{clause}` has no example", "add one that complies and one that fails")

UNTOUCHED_CELL = Rule(
    "L504",
    "table cell that no example touches",
    "No example of any clause looks this cell up.",
    Severity.WARNING,
)
NO_EXAMPLE_LOOKS_UP_CELL = UNTOUCHED_CELL.says(
    "no example looks up `{table}` at {place_in}", "add an example on each side of the band"
)
