"""Lettering: text of which parts are struck through or raised, which a bare value does not show.

What is struck through has been taken back, and a raised figure refers to a note: "2" with a raised 1 is not 21. The
elements are those of ISO/IEC 29500-1, sections 18.4.7 (run properties) and 18.4.8 (shared strings), from memory.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import NamedTuple

from speccheck.schedule.formats.package_parts import Events

_RAISED_FIGURES = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_ESCAPED = re.compile(r"_x([0-9A-Fa-f]{4})_")
FALSE = ("0", "false", "off")


class RichText(NamedTuple):
    """The text of a cell with its raised figures raised, and whether any of it is struck through."""

    text: str
    struck: bool = False


class TextReader:
    """Gathers one text from the elements of a shared or an inline string: runs, their properties, their words."""

    def __init__(self) -> None:
        self._words: list[str] = []
        self._run: list[str] = []
        self._struck = self._run_struck = self._run_raised = False
        self._sounds = 0
        self._listens = False

    def start(self, tag: str, attributes: Mapping[str, str]) -> None:
        """Hear that an element opens within the string."""
        if tag == "t":
            self._listens = not self._sounds
        elif tag == "rPh":
            self._sounds += 1  # how the text is spoken, which no reader sees
        elif tag == "strike":
            self._run_struck = attributes.get("val", "1") not in FALSE
        elif tag == "vertAlign":
            self._run_raised = attributes.get("val") == "superscript"

    def end(self, tag: str) -> None:
        """Hear that an element closes within the string."""
        if tag == "t":
            self._listens = False
        elif tag == "rPh":
            self._sounds -= 1
        elif tag == "r":
            self._close_run()

    def characters(self, text: str) -> None:
        """Hear words."""
        if self._listens:
            self._run.append(text)

    def _close_run(self) -> None:
        words = "".join(self._run)
        self._struck = self._struck or (self._run_struck and bool(words.strip()))
        self._words.append(words.translate(_RAISED_FIGURES) if self._run_raised else words)
        self._run, self._run_struck, self._run_raised = [], False, False

    def take(self) -> RichText:
        """Return the text, and begin anew."""
        self._close_run()
        found = RichText(unescaped("".join(self._words)), self._struck)
        self._words, self._struck = [], False
        return found


def unescaped(text: str) -> str:
    """Return a text with the characters that workbooks write as "_x000D_"."""
    return _ESCAPED.sub(lambda found: chr(int(found[1], 16)), text) if "_x" in text else text


class SharedTexts(Events):
    """Hears the part of the texts that cells share, and keeps them in order."""

    def __init__(self) -> None:
        self.texts: list[RichText] = []
        self._reader = TextReader()

    def start(self, tag: str, attributes: Mapping[str, str]) -> None:
        """Hear that an element opens."""
        self._reader.start(tag, attributes)

    def characters(self, text: str) -> None:
        """Hear words."""
        self._reader.characters(text)

    def end(self, tag: str) -> None:
        """Keep a text when it closes."""
        if tag == "si":
            self.texts.append(self._reader.take())
        else:
            self._reader.end(tag)
