"""What is said of text that does not fit the language, and of files that cannot be read."""

from __future__ import annotations

from speccheck.language.diagnostic_rules import Rule

UNFIT_TEXT = Rule(
    "L101",
    "text that does not fit the language here",
    "The text up to this place reads well, and what stands here cannot follow it. The help line names "
    "what can. A name that holds one of the words of the language (`is`, `to`, `in`, `and`, ...) is "
    "written in quotation marks.",
)
IS_MISSING = UNFIT_TEXT.says("`{word}` cannot stand here", "write `is` before `{word}`")
MISSPELT_KEYWORD = UNFIT_TEXT.says("`{word}` cannot begin a part", "")
MARK_BEFORE_VALUE = UNFIT_TEXT.says('`"{words}"` stands before any value', "name the value first")
CANNOT_STAND_HERE = UNFIT_TEXT.says("`{word}` cannot stand here", "{advice}")
BEHIND_AN_AMOUNT = UNFIT_TEXT.says("`{words}` cannot stand behind an amount", "write `{instead}` before the amount")
SOMETHING_MISSING = UNFIT_TEXT.says("something is missing behind `{word}`", "{advice}")

OPEN_QUOTATION = Rule(
    "L102",
    "quotation mark not closed",
    "Words in quotation marks end with a second mark. Inch marks inside quotation marks are written ″ or in.",
)
QUOTE_NOT_CLOSED = OPEN_QUOTATION.says(
    "the quotation mark opened here is not closed", "close it with a second mark; write inch marks as ″ or in"
)
INCH_MARK_ENDS_WORDS = OPEN_QUOTATION.says(
    "the words end at this inch mark", "write inch marks inside words as ″ or in"
)

EARLY_END = Rule(
    "L103",
    "file ends too early",
    "The last clause, table, term or definition of the file is not complete.",
)
FILE_EMPTY = EARLY_END.says("the file is empty", "{advice}")
FILE_ENDS_BEHIND = EARLY_END.says("the file ends too early behind `{word}`", "{advice}")

UNREADABLE_FILE = Rule(
    "L104",
    "file cannot be read",
    "The file is not there, is a folder, may not be opened, or is not text in UTF-8.",
)
IS_A_SECTION = UNREADABLE_FILE.says(
    "`{file}` is a document and no ruleset", "draft clauses from it: `speccheck draft {file} --into project.clauses`"
)
NOT_UTF_8 = UNREADABLE_FILE.says("`{file}` is not text in UTF-8", "save the file as UTF-8 text")
IS_A_FOLDER = UNREADABLE_FILE.says("`{file}` is a folder", "name a file that ends in .clauses")
NO_SUCH_FILE = UNREADABLE_FILE.says("`{file}` does not exist", "check the path, or name a shipped ruleset")
CANNOT_BE_OPENED = UNREADABLE_FILE.says("`{file}` cannot be opened ({cause})", "check the file")

WRONG_FILE = Rule(
    "L105",
    "wrong sort of file",
    "A vocabulary was named where a ruleset is needed, or the other way round.",
)
WRONG_SORT = WRONG_FILE.says(
    "`{file}` is a {sort}, but a {needed} is needed here", "name a file that begins with `{needed}`"
)

DEEP_NESTING = Rule(
    "L106",
    "conditions nested too deeply",
    "Conditions, amounts and definitions stand inside one another up to 100 levels. Nobody can read "
    "more, and neither can the program.",
)
TOO_DEEP = DEEP_NESTING.says(
    "{what} has more than {most} conditions or amounts inside one another",
    "split it into several clauses or definitions",
)
