"""Every sentence that is said of sections that cannot be read, beside the rule that it belongs to."""

from __future__ import annotations

from speccheck.language.diagnostic_rules import Rule

WRONG_KIND = Rule(
    "D101",
    "not a kind of file that sections are read from",
    "A section is read from a Word document (.docx), from a PDF with text in it, or from plain text.",
)
NO_KIND_OF_SECTION = WRONG_KIND.says(
    "`{file}` is not a kind of file that sections are read from", "save the section as .docx, .pdf or .txt"
)

CANNOT_READ = Rule(
    "D102",
    "section that cannot be read",
    "The file is not there, may not be read, is damaged, or is not what its ending says.",
)
SECTION_TOO_LARGE = CANNOT_READ.says(
    "`{file}` has {size} MB, and no section over {most} MB is read", "leave only the section in the file"
)
SECTION_NOT_READ = CANNOT_READ.says("`{file}` cannot be read: {reason}", "check the name")
SECTION_DAMAGED = CANNOT_READ.says(
    "`{file}` is damaged, or not what its ending says", "open it in the program that made it and save it again"
)

NO_WORDS = Rule(
    "D103",
    "section without words",
    "The file has no text. Pages that are pictures of text are not read: nothing is guessed from a picture.",
)
SECTION_WITHOUT_WORDS = NO_WORDS.says("`{file}` has no words that can be read", "a scanned page has to be typed")
