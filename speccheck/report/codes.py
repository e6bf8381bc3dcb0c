"""Codes of the diagnostics of this floor: each with its title and an explanation for the manual."""

from __future__ import annotations

from collections.abc import Mapping

DIAGNOSTICS: Mapping[str, tuple[str, str]] = {
    "R101": (
        "A report cannot be written",
        "The system refused to write the file: the disk is full, the folder may not be written to, or the name is not "
        "a valid one. Nothing was left behind; a file that was there before is unchanged.",
    ),
    "R102": (
        "A report would overwrite what it was made from",
        "The name given for the report is that of the schedule, the ruleset or another file that was read for it. "
        "Nothing was written. Give the report a name of its own.",
    ),
    "R103": (
        "The folder of a report does not exist",
        "Reports are written into folders that exist, so that a slip in a name does not make a folder. Make the folder "
        "first, or give another name.",
    ),
    "R104": (
        "A report cannot take the place of something that is no file",
        "The name given for the report is that of a folder or a device. Give the name of a file.",
    ),
    "R105": (
        "A schedule that cannot be corrected in its own workbook",
        "Changes are put into the contractor's own workbook, so that everything else in it stays as it is. A text file "
        "has no cells to mark, and some programs write workbooks that can be read and not opened for writing. Save the "
        "schedule as .xlsx and run again.",
    ),
    "R106": (
        "A change has no cell of its own",
        "What is to be changed stands in a section heading or another shared place, and the sheet has no column for "
        "it. The change is listed on the sheet of changes and has to be made by hand.",
    ),
    "R107": (
        "A report would overwrite a file that speccheck did not write",
        "A file of this name is there already, and its content is not what speccheck last wrote: somebody filled it "
        "in or changed it, or it comes from elsewhere. Nothing was written. Give the report another name, or add "
        "`--replace` to write over the file. What speccheck wrote is remembered in the user's cache folder; where that "
        "is turned off, every file that is there counts as the work of others.",
    ),
    "R108": (
        "Two reports have one name",
        "Two of the files that a command was told to write have the same name, so that the last would take the place "
        "of the others. Nothing was written. Give each a name of its own.",
    ),
    "R109": (
        "A file of this kind cannot carry marks",
        "Comments can stand in PDF files, in Word documents (.docx) and in workbooks (.xlsx, .xlsm), which are then "
        "copied with all that is in them. Text, pages of HTML and older workbooks have no place for them. Save the "
        "schedule as one of these kinds, and mark that.",
    ),
    "R110": (
        "Marks cannot be written into a file",
        "The file could be read, but its inner structure is such that nothing can be added to it within the limits of "
        "time and memory. Print it to a new PDF or save it anew, and mark that. Nothing was written.",
    ),
    "R111": (
        "A cell holds a conversation and takes no comment",
        "Spreadsheet programs show the conversation that was begun at a cell, and no other comment beside it. The "
        "comment of the review stands on the sheet of comments alone.",
    ),
    "R201": (
        "A document needs a library that is not there",
        "Documents for word processors stand on the library python-docx, which the extra `word` installs: "
        "`pip install '.[word]'` in the folder of this project.",
    ),
    "R202": (
        "The language server needs a library that is not there",
        "The language server stands on the library pygls, which the extra `editor` installs: "
        "`pip install '.[editor]'` in the folder of this project.",
    ),
    "R203": (
        "The desk needs libraries that are not there",
        "The local page stands on the libraries that the extra `desk` installs: "
        "`pip install '.[desk]'` in the folder of this project.",
    ),
}
