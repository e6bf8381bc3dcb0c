"""What is printed at the top and the foot of each page of a sheet or a document, and across it.

There "SUPERSEDED" or "EXAMPLE ONLY" stands as often as above the table. None of it is read as data.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from speccheck.schedule.formats.package_parts import Events, OpenPackage

# ISO/IEC 29500-1, 18.3.1.46 (from memory): sections begin with &L, &C, &R; fonts, sizes, colours and fields are codes.
OF_A_SHEET = frozenset({"oddHeader", "oddFooter", "evenHeader", "evenFooter", "firstHeader", "firstFooter"})
_SECTIONS = re.compile(r"(?<!&)&[LCR]|\n")
_CODES = re.compile(r'&(?:"[^"]*"|K(?:[0-9A-Fa-f]{6}|\d\d[+-]\d{3})|\d+|[A-Za-z])')


def titles_of_sheet(coded: str) -> Iterator[str]:
    """Yield each text of the header or footer of a sheet, without the codes of its fonts and fields."""
    for section in _SECTIONS.split(coded):
        words = " ".join(_CODES.sub(" ", section.replace("&&", "\0")).replace("\0", "&").split())
        if words:
            yield words


class _PageTitles(Events):
    """Hears a header or a footer of a document: each paragraph, and the words of a shape across the page."""

    def __init__(self) -> None:
        self.titles: list[str] = []
        self._words: list[str] = []
        self._listens = False

    def start(self, tag: str, attributes: Mapping[str, str]) -> None:
        self._listens = tag == "t"
        if tag == "textpath":
            self.titles.append(attributes.get("string", ""))
        elif tag in ("tab", "br"):
            self._words.append(" ")

    def characters(self, text: str) -> None:
        if self._listens:
            self._words.append(text)

    def end(self, tag: str) -> None:
        self._listens = False
        if tag == "p":
            self.titles.append("".join(self._words))
            self._words = []


def titles_of_document(package: OpenPackage, main: str) -> tuple[str, ...]:
    """Return the texts of all headers and footers of a document, each once, in the order of its relations."""
    heard = _PageTitles()
    for relation in package.relations(main):
        if relation.kind in ("header", "footer") and package.has(relation.target):
            package.parse(relation.target, heard)
    return tuple(dict.fromkeys(words for title in heard.titles if (words := " ".join(title.split()))))
