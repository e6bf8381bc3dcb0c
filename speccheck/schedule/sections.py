"""Section headings: what a heading such as "CHILLED WATER SYSTEMS" says about the lines under it."""

from __future__ import annotations

import re
from collections.abc import Collection

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.language.vocabulary.terms import Form, Vocabulary, fold
from speccheck.schedule import codes

_TRAILING = re.compile(
    r"(?:[\s:,–—-]+(?:systems?|piping|pipes?|lines?|services?|schedule|insulation|\(?cont(?:inue)?d?(?:'d)?\.?\)?))+$",
    re.IGNORECASE,
)
_NUMBERS_IN_BRACKETS = re.compile(r"\s*\([\d\s.,/–—-]+(?:°|deg)?\s*(?:[FC]|psig?|kPa|bar|%)?\s*\)$", re.IGNORECASE)
LONGEST_HEADING = 120
_NUMBERING = re.compile(r"^[(\[]?(?:\d{1,2}|[A-Za-z]|[IVX]{1,4})[.)\]]\s+")


def section_choice(text: str, vocabulary: Vocabulary, stated: Collection[str]) -> tuple[str, str] | None:
    """Return the term and the value that a section heading names, or None.

    Only a value of a single term counts, and none of the terms in `stated`, which the lines state themselves. The
    whole heading has to be the value, but for a number before it, words such as "systems" at its end, and numbers with
    their units in brackets: "HEATING HOT WATER (180/160 °F)".
    """
    if len(text) > LONGEST_HEADING:
        return None
    bare = _NUMBERS_IN_BRACKETS.sub("", _NUMBERING.sub("", text.strip(" :"))).strip(" :")
    for words in (text, bare, _TRAILING.sub("", bare)):
        folded = fold(words)
        found = [
            (term.name, term.choice_names[folded])
            for term in vocabulary.terms.values()
            if term.kind.form is Form.CHOICE and folded in term.choice_names
        ]
        if found:
            return found[0] if len(found) == 1 and found[0][0] not in stated else None
    return None


def section_note(text: str, choice: tuple[str, str] | None, place: Place, lines: int) -> Diagnostic:
    """Return the note that tells what became of a section heading."""
    shown = " ".join(text.split())
    if choice is None:
        message = f"`{shown}` was read as a section heading; nothing was read from it"
        return Diagnostic(codes.SECTION, Severity.NOTE, message, place, "state what it says on each line if it matters")
    message = (
        f"the section heading `{shown}` was read as `{choice[0]}` {choice[1]} for the {lines} "
        f"line{'' if lines == 1 else 's'} under it"
    )
    return Diagnostic(
        codes.SECTION, Severity.NOTE, message, place, f"give `{choice[0]}` a column if it means otherwise"
    )
