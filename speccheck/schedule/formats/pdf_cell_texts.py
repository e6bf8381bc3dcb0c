"""The text of a cell of a PDF from its words: lines below each other, broken words, fractions and raised figures."""

from __future__ import annotations

import re
from collections.abc import Sequence

from speccheck.schedule.formats.pdf_words import SMALL, PrintedWord, lines_of
from speccheck.schedule.messages.cells import STRUCK

_RAISED_FIGURES = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_FRACTION = re.compile(r"([0-9]+)[/⁄∕][0-9]+")
_HYPHENS = ("-", "\u2010", "\u00ad")
"""Signs with which a line ends that breaks off within a word: those of hyphenation are the last two."""


def text_of(words: Sequence[PrintedWord]) -> tuple[str, str]:
    """Return the text of the words of a cell, line by line, and the code of what is wrong with any of them.

    Small raised figures are a fraction where a bar stands among them ("1 1/2"), else the mark of a note ("2¹").
    """
    lines = [_line_text(line.words) for line in lines_of(words)]
    troubles = [word.trouble for word in words if word.trouble]
    trouble = STRUCK.code if STRUCK.code in troubles else (troubles[0] if troubles else "")
    return _put_together(lines), trouble


def _put_together(lines: Sequence[str]) -> str:
    """Return lines as one text; what breaks off at a hyphen goes on right behind it, as in `1-1/2` or `CHW-1`."""
    text = lines[0] if lines else ""
    for line in lines[1:]:
        goes_on = text[-1:] in _HYPHENS and text[-2:-1].isalnum() and line[:1].isalnum()
        text = f"{text[:-1]}-{line}" if goes_on else f"{text}\n{line}"
    return text


def _line_text(words: Sequence[PrintedWord]) -> str:
    """Return the text of words beside each other.

    Small figures before a bar, or raised ones that stand before one of the size of the line, are of a fraction; what
    stands before them is a whole number.
    """
    size = max(word.size for word in words)
    base = max(word.bottom for word in words if word.size > SMALL * size)
    text, looks, before = "", "", None
    for word in words:
        gap = " " if before is not None and word.left - before.right > 0.12 * size else ""
        small = word.size <= SMALL * size
        look = "^" if small and word.bottom < base - 0.08 * size else ("." if small else " ")
        text, looks = text + gap + word.text, looks + " " * len(gap) + look * len(word.text)
        before = word
    return _with_raised(text, looks)


def _with_raised(text: str, looks: str) -> str:
    """Return a text with its fractions parted from whole numbers before them, and its raised figures as such.

    `looks` has a sign for each of the text: `^` for small raised ones, `.` for other small ones.
    """
    told = [one.translate(_RAISED_FIGURES) if look == "^" else one for one, look in zip(text, looks, strict=True)]
    for found in _FRACTION.finditer(text):
        above, end = found.span(1)
        first = above + len(looks[above:end].rstrip("^."))
        if first < end and not text[:above][-1:].isalpha():
            told[first : found.end()] = text[first : found.end()]
            told[first] = f" {text[first]}" if first > above else text[first]
    return "".join(told)
