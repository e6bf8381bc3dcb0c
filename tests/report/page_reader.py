"""Reads a page as a browser's parser would, with the parser of the standard library."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser

_VOID = {"meta", "input", "br", "img", "link", "hr"}


@dataclass
class ReadElement:
    """One element: its name, its attributes, all text inside it."""

    name: str
    attributes: dict[str, str]
    text: str = ""
    inside: tuple[str, ...] = ()


@dataclass
class PageReader(HTMLParser):
    """All elements of a page in the order in which they open, and all text outside scripts and styles."""

    elements: list[ReadElement] = field(default_factory=list)
    text: str = ""

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self._open: list[ReadElement] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note an element."""
        made = ReadElement(tag, {name: value or "" for name, value in attrs}, inside=tuple(e.name for e in self._open))
        self.elements.append(made)
        if tag not in _VOID:
            self._open.append(made)

    def handle_endtag(self, tag: str) -> None:
        """Close the innermost element of that name."""
        while self._open and self._open.pop().name != tag:
            pass

    def handle_data(self, data: str) -> None:
        """Add text to all open elements."""
        for element in self._open:
            element.text += data
        if not any(element.name in ("script", "style") for element in self._open):
            self.text += data

    def named(self, name: str) -> list[ReadElement]:
        """Return the elements of one name."""
        return [element for element in self.elements if element.name == name]


def read_page(page: str) -> PageReader:
    """Return the page, read."""
    reader = PageReader()
    reader.feed(page)
    reader.close()
    return reader
