"""What is said of the cells and the lines of a schedule."""

from __future__ import annotations

from speccheck.language.diagnostic_rules import Rule
from speccheck.language.diagnostics import Severity

UNREADABLE = Rule(
    "S301",
    "value not readable",
    "The cell holds something that is not a value of its term. The line counts as not stating it. Either "
    "the schedule is corrected or a mapping file says what the words mean.",
    Severity.WARNING,
)
CELL_NOT_READ = UNREADABLE.says("{sentence}", "{advice}")
CELL_OF_TERM_NOT_READ = UNREADABLE.says("`{term}`: {sentence}", "{advice}")
SENTENCE_CONTRADICTED = UNREADABLE.says(
    "the sentence `{text}` says another thing than the cells beside it",
    "state what it says in columns of their own, a line for each range of sizes",
)
SENTENCE_NOT_UNDERSTOOD = UNREADABLE.says(
    "the sentence `{text}` was not understood as a whole",
    "state what it says in columns of their own, a line for each range of sizes",
)

DATE_IN_CELL = Rule(
    "S302",
    "date in a cell",
    "Spreadsheet programs turn entries such as 1/2 or 3-4 into dates. What was typed cannot be recovered "
    "with certainty, so the cell is not read.",
    Severity.WARNING,
)
IS_A_DATE = DATE_IN_CELL.says(
    "`{text}` is a date, which `{term}` cannot be",
    "format the cell as text and type the value again; programs turn 1/2 into a date",
)

FORMULA = Rule(
    "S303",
    "formula without a result",
    "The cell holds a formula, and the file does not hold its result. Formulas are never worked out "
    "here. Open the workbook in a spreadsheet program, let it calculate and save it.",
    Severity.WARNING,
)
FORMULA_WITHOUT_RESULT = FORMULA.says(
    "the formula `{text}` has no result in the file",
    "open the file in a spreadsheet program, let it calculate and save it, or write the value itself",
)

ERROR_VALUE = Rule(
    "S304",
    "error value in a cell",
    "The cell shows an error such as #REF! or #N/A, which says nothing about the term.",
    Severity.WARNING,
)
SHOWS_AN_ERROR = ERROR_VALUE.says("the cell shows the error `{text}`", "correct the cell, or write the value itself")

NOTHING_ABOVE = Rule(
    "S305",
    "ditto mark with nothing above",
    "A ditto mark repeats the value of the line above in the same table, and there is none.",
    Severity.WARNING,
)
DITTO_OF_NOTHING = NOTHING_ABOVE.says(
    "the ditto mark `{mark}` has no value right above it to repeat", "write the value itself"
)

REPEATED = Rule(
    "S306",
    "blank cells read as the value above",
    "A leading column that is filled only where its value changes groups the lines. Its blank cells "
    "repeat the value above under these conditions: the column is the only one of its term; it stands "
    "left of the first column that is filled on every line, and is filled on the first line; all "
    "grouping columns to the left of it are blank on that line too; no blank row, section heading or "
    "header lies between. All other blank cells are not given. A mapping file can name the columns for "
    "which blanks repeat, or none.",
    Severity.NOTE,
)
BLANKS_REPEAT = REPEATED.says(
    "{cells} of column {column} (`{term}`) {repeat} the value above: {rows}",
    "where a blank means that nothing is given, write TBD, or set `repeat-blanks` in a mapping file",
)

DISAGREE = Rule(
    "S307",
    "columns that disagree",
    "Two columns state the same term and say different things on this line. Neither is used.",
    Severity.WARNING,
)
TWO_CELLS_DISAGREE = DISAGREE.says("two cells of the line disagree on `{term}`: {values}", "correct one of them")
COLUMNS_SAY_OTHERWISE = DISAGREE.says(
    "the columns of `{term}` disagree: {values}",
    "correct one of them, or add the column that does not count to `ignore` in a mapping file",
)
ONE_COLUMN_SILENT = DISAGREE.says(
    "one column of `{term}` says {value}, and another, in {cell}, says nothing",
    "add the column that does not count to `ignore` in a mapping file",
)

MERGED_ACROSS = Rule(
    "S308",
    "cell merged over several columns",
    "The cell stretches over the columns of several terms. It is read for the first, and for the others "
    "only where it says that they are not given.",
    Severity.WARNING,
)
STRETCHES_OVER_COLUMN = MERGED_ACROSS.says(
    "`{text}` stretches over the column of `{term}` and was not read for it",
    "write the value of `{term}` in a cell of its own",
)

SAME_NAME = Rule(
    "S309",
    "two lines of one name",
    "Lines are told apart by their names, so the row is added to the name of each later one.",
    Severity.NOTE,
)
ANOTHER_LINE_OF_NAME = SAME_NAME.says(
    "another line is called `{name}`, so this one is called `{name} ({row})`", "give each line a name of its own"
)

STRUCK = Rule(
    "S310",
    "cell struck through",
    "What is struck through has been taken back, so the cell is not read, be it struck as a whole or in "
    "part: a program cannot tell for certain what was meant to stay.",
    Severity.WARNING,
)
STRUCK_THROUGH = STRUCK.says(
    "`{text}` is struck through, as a whole or in part", "delete what was taken back and write what stands"
)
COLUMN_STRUCK = STRUCK.says(
    "column {column} is {how}, and its {cells} not read",
    "delete the column if it was taken back, or say in a mapping file what it is",
)

NOT_SHOWN = Rule(
    "S311",
    "value that is not shown",
    "The number format of the cell shows nothing of the number in it, or the cell is written in white on "
    "white. A reviewer cannot see it, so it is not read.",
    Severity.WARNING,
)
HELD_AND_NOT_SHOWN = NOT_SHOWN.says(
    "the cell holds `{text}`, but does not show it, by its number format or its colour",
    "make the value visible, or clear the cell",
)

DOUBTFUL = Rule(
    "S312",
    "implausible value",
    "The amount is far outside what insulation can have, or what the service of the line can run at: a "
    "thickness of 50 in, a conductivity below that of still air by half, chilled water at 6 F. The "
    "vocabulary says what is sensible. Mostly the unit of the column is another than the header says, or "
    "a spreadsheet program turned a fraction into the number of a day. The amount is not read; a mapping "
    "file can say what the cell means.",
    Severity.WARNING,
)
PERHAPS_OTHER_UNITS = DOUBTFUL.says(
    "`{text}` may be in {system} units: nothing states a unit, and {seen}",
    "write the unit, in the header or behind the number, or settle it in a mapping file",
)
NUMBER_OF_A_DAY = DOUBTFUL.says(
    "`{text}` is the number of a day, as programs keep dates, and no `{term}`",
    "format the cell as text and type the value again; programs turn 1/2 into a date and then into a number",
)
NOT_SENSIBLE = DOUBTFUL.says(
    "{a} `{term}` of {value} is not sensible{where} ({range}), so it is in doubt",
    "write the unit that is meant, or settle it in a mapping file",
)
NOT_SENSIBLE_IN_UNIT = DOUBTFUL.says(
    "{a} `{term}` of {value} is not sensible{where} ({range}), so it is in doubt",
    "write the unit that is meant, perhaps {unit}, or settle it in a mapping file",
)
NOT_SENSIBLE_TOGETHER = DOUBTFUL.says(
    "`{term}` {value} is not sensible{where}, so it is in doubt",
    "correct one of the two, or settle it in a mapping file",
)

NOTE_MARK = Rule(
    "S313",
    "mark of a note on a line",
    "The name of the line, or words on it, carry an asterisk or a raised figure, and a note begins with "
    "the same mark. Notes are not read. Check whether the note changes what the line says.",
    Severity.WARNING,
)
MARKED_BY_NOTE = NOTE_MARK.says(
    "the {what} `{text}` carries the mark of the note `{note}`, which was not read",
    "check whether the note changes what is stated, and state that in a column",
)

ROUNDED = Rule(
    "S314",
    "cells that show fewer digits than they hold",
    "A cell that holds 1.9685 and shows 2.0, as when millimetres were converted, proposes what it shows. "
    "The digits behind are told. Where the two differ by more than 2 %, nobody can say which is "
    "proposed, and neither is read.",
    Severity.NOTE,
)
SHOWN_WAS_READ = ROUNDED.says(
    "{cells}{more}: what is shown was read", "write the value that is proposed, with all its digits shown"
)
SHOWN_FAR_FROM_HELD = ROUNDED.says(
    "the cell shows `{text}`, and the number in it differs by more than 2 %",
    "write the value that is proposed, with all its digits shown",
    Severity.WARNING,
)

TRACKED = Rule(
    "S315",
    "tracked changes in a document",
    "What a tracked change deletes was not read; what it inserts was read as proposed. Neither is "
    "settled until somebody accepts or rejects the change.",
    Severity.WARNING,
)
INSERTED_READ_AS_PROPOSED = TRACKED.says(
    "text that tracked changes insert was read as proposed, at {cells}",
    "accept or reject the changes before the document is submitted",
)

UNSURE_CELL = Rule(
    "S316",
    "cell of which the end is not certain",
    "In a table without rules, words on the next line of print could belong to the cell or be a line of "
    "their own. Neither is read.",
    Severity.WARNING,
)
END_NOT_CERTAIN = UNSURE_CELL.says(
    "it is not certain whether `{text}` is all that the cell says, or which line it belongs to",
    "rule the table, or leave a gap between its lines, so that each cell stands by itself",
)

SEVERAL_MEANINGS = Rule(
    "S317",
    "words with several meanings",
    "The trade uses these words for more than one value of the term, as HWS for the supply of heating "
    "water and of domestic hot water. The lines of the schedule settle them where all belong to one "
    "group of values that the vocabulary knows to stand together; otherwise nothing is read, and a "
    "mapping file can say what is meant.",
    Severity.WARNING,
)
MAY_MEAN_SEVERAL = SEVERAL_MEANINGS.says(
    "`{text}` may be {candidates}", "write the one value of `{term}` that is meant, or settle it in a mapping file"
)

PARTLY_READ = Rule(
    "S318",
    "cell read in part",
    "Brackets beside a value hold words that were not read. What tells systems apart, such as the service, "
    "is taken all the same; of what is proposed nothing is, until a person has seen the words (`seen`) or a "
    "mapping file says what the whole cell means.",
    Severity.WARNING,
)
WORDS_LEFT_IN_CELL = PARTLY_READ.says(
    "{left} in `{text}` {were} not read",
    "write such words in a column for notes, or say in a mapping file what the whole cell means",
)

SHIFTED = Rule(
    "S319",
    "row with more fields than its header",
    "In separated text a comma within a cell parts it, and what follows stands one column further: a "
    "facing under the thickness. Nobody can say where that happened, so that no field of the row is "
    "read. Put a cell that holds the separator between quotation marks.",
    Severity.WARNING,
)
MORE_FIELDS_THAN_HEADER = SHIFTED.says(
    "the row has more fields than its header, so that each may stand in the place of another",
    "put a cell that holds the separator, such as a comma, between quotation marks",
)
