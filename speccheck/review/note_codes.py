"""The codes of diagnostics of a reviewer's notes: title and explanation of each."""

from __future__ import annotations

from collections.abc import Mapping

BAD_NOTES = "V901"
NOTE_ENTRY = "V902"

DIAGNOSTICS: Mapping[str, tuple[str, str]] = {
    BAD_NOTES: (
        "file of notes not readable",
        "The reviewer's notes are a TOML file in UTF-8 with a table [[note]] for each note and, if wanted, a table "
        "[transmittal] that says what the reply is about, who sends it and to whom.",
    ),
    NOTE_ENTRY: (
        "note not usable",
        "A note says which line it is for by what that line states (service, size, place), and has a text; it may name "
        "a clause and the round in which it was written. All of them are texts.",
    ),
}
