"""The codes of the diagnostics of reading sections: a title and what a spec writer needs to know about each."""

from __future__ import annotations

from collections.abc import Mapping

WRONG_KIND = "D101"
CANNOT_READ = "D102"
NO_WORDS = "D103"

DIAGNOSTICS: Mapping[str, tuple[str, str]] = {
    WRONG_KIND: (
        "not a kind of file that sections are read from",
        "A section is read from a Word document (.docx), from a PDF with text in it, or from plain text.",
    ),
    CANNOT_READ: (
        "section that cannot be read",
        "The file is not there, may not be read, is damaged, or is not what its ending says.",
    ),
    NO_WORDS: (
        "section without words",
        "The file has no text. Pages that are pictures of text are not read: nothing is guessed from a picture.",
    ),
}
