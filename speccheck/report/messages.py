"""Every sentence that is said of reports and of what they are written with, beside the rule that it belongs to."""

from __future__ import annotations

from speccheck.language.diagnostic_rules import Rule
from speccheck.language.diagnostics import Severity

NOT_WRITTEN = Rule(
    "R101",
    "A report cannot be written",
    "The system refused to write the file: the disk is full, the folder may not be written to, or the "
    "name is not a valid one. Nothing was left behind; a file that was there before is unchanged.",
)
CANNOT_BE_WRITTEN = NOT_WRITTEN.says(
    "cannot write `{file}`: {why}", "check the folder and the disk, or write elsewhere"
)

OVERWRITES_INPUT = Rule(
    "R102",
    "A report would overwrite what it was made from",
    "The name given for the report is that of the schedule, the ruleset or another file that was read "
    "for it. Nothing was written. Give the report a name of its own.",
)
MADE_FROM_IT = OVERWRITES_INPUT.says("`{file}` is a file that the report is made from", "give the report another name")

NO_FOLDER = Rule(
    "R103",
    "The folder of a report does not exist",
    "Reports are written into folders that exist, so that a slip in a name does not make a folder. Make "
    "the folder first, or give another name.",
)
NO_FOLDER_FOR_IT = NO_FOLDER.says("there is no folder for `{file}`", "make the folder first, or write elsewhere")

NO_FILE = Rule(
    "R104",
    "A report cannot take the place of something that is no file",
    "The name given for the report is that of a folder or a device. Give the name of a file.",
)
NAME_OF_NO_FILE = NO_FILE.says("`{file}` is no file", "give the name of a file")

NOT_CORRECTED = Rule(
    "R105",
    "A schedule that cannot be corrected in its own workbook",
    "Changes are put into the contractor's own workbook, so that everything else in it stays as it is. A "
    "text file has no cells to mark, and some programs write workbooks that can be read and not opened "
    "for writing. Save the schedule as .xlsx and run again.",
)
NO_WORKBOOK = NOT_CORRECTED.says("`{file}` is no workbook, and only a workbook can be corrected", "save it as .xlsx")
WORKBOOK_NOT_WRITABLE = NOT_CORRECTED.says(
    "`{file}` was read, but cannot be opened for writing ({problem})", "save it once more as .xlsx, and run again"
)

NO_CELL_TO_CHANGE = Rule(
    "R106",
    "A change has no cell of its own",
    "What is to be changed stands in a section heading or another shared place, and the sheet has no "
    "column for it. The change is listed on the sheet of changes and has to be made by hand.",
    Severity.WARNING,
)
NO_COLUMN_TO_CORRECT = NO_CELL_TO_CHANGE.says(
    "`{term}` of line `{line}` stands in no column of its own and was not changed", "change it by hand"
)

OVERWRITES_OTHERS = Rule(
    "R107",
    "A report would overwrite a file that speccheck did not write",
    "A file of this name is there already, and its content is not what speccheck last wrote: somebody "
    "filled it in or changed it, or it comes from elsewhere. Nothing was written. Give the report "
    "another name, or add `--replace` to write over the file. What speccheck wrote is remembered in the "
    "user's cache folder; where that is turned off, every file that is there counts as the work of "
    "others.",
)
FILE_OF_OTHERS = OVERWRITES_OTHERS.says(
    "`{file}` is there already, and it is not as speccheck last wrote it",
    "give the report another name, or add `--replace` to write over it",
)

SAME_NAME = Rule(
    "R108",
    "Two reports have one name",
    "Two of the files that a command was told to write have the same name, so that the last would take "
    "the place of the others. Nothing was written. Give each a name of its own.",
)
REPORTS_OF_ONE_NAME = SAME_NAME.says("two reports are called `{file}`", "give each a name of its own")

NO_MARKS_IN_KIND = Rule(
    "R109",
    "A file of this kind cannot carry marks",
    "Comments can stand in PDF files, in Word documents (.docx) and in workbooks (.xlsx, .xlsm), which "
    "are then copied with all that is in them. Text, pages of HTML and older workbooks have no place for "
    "them. Save the schedule as one of these kinds, and mark that.",
)
CANNOT_CARRY_MARKS = NO_MARKS_IN_KIND.says(
    "`{file}` is of a kind that cannot carry marks", "save it as .pdf, .docx or .xlsx, and mark that"
)

NOT_MARKED = Rule(
    "R110",
    "Marks cannot be written into a file",
    "The file could be read, but its inner structure is such that nothing can be added to it within the "
    "limits of time and memory. Print it to a new PDF or save it anew, and mark that. Nothing was "
    "written.",
)
PART_NOT_MARKABLE = NOT_MARKED.says("a part of `{file}` {why}", "save it again with the program that wrote it")
TOO_LARGE_TO_MARK = NOT_MARKED.says(
    "`{file}` could be read, and no marks could be written into it within the limits",
    "leave only the schedule in the file, and mark that",
)
PDF_NOT_MARKABLE = NOT_MARKED.says(
    "`{file}` could be read, and no marks could be written into it", "print it to a new PDF, and mark that"
)

CONVERSATION = Rule(
    "R111",
    "A cell holds a conversation and takes no comment",
    "Spreadsheet programs show the conversation that was begun at a cell, and no other comment beside "
    "it. The comment of the review stands on the sheet of comments alone.",
    Severity.WARNING,
)
COMMENT_ON_LIST_ALONE = CONVERSATION.says(
    "cell {cell} holds a conversation, so comment {number} is on the list alone", "see sheet `{sheet}`"
)

NO_WORD_LIBRARY = Rule(
    "R201",
    "A document needs a library that is not there",
    "Documents for word processors stand on the library python-docx, which the extra `word` installs: "
    "`pip install '.[word]'` in the folder of this project.",
)
DOCUMENTS_NEED_LIBRARY = NO_WORD_LIBRARY.says("documents need the library `python-docx`", "{install}")

NO_DESK_LIBRARY = Rule(
    "R203",
    "The desk needs libraries that are not there",
    "The local page stands on the libraries that the extra `desk` installs: `pip install '.[desk]'` in "
    "the folder of this project.",
)
DESK_NEEDS_LIBRARIES = NO_DESK_LIBRARY.says("the desk needs {needed} {libraries}", "{install}")
