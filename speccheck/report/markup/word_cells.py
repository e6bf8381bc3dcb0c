"""Where the cells of the tables of a Word document stand among its bytes, named as the reader names them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from speccheck.schedule.grid import column_letters


@dataclass
class WordParagraph:
    """A paragraph: its name with prefix, where its words begin and end, and whether it is an empty element."""

    name: str = ""
    begin: int = 0
    end: int = 0
    is_empty_element: bool = False
    has_words: bool = False


@dataclass
class Cells:
    """Hears a document: for each cell of its outer tables the paragraph to mark, and where the body ends.

    Tables are counted and cells named as `schedule/formats/word_tables` does. `identities` are numbers that ranges of
    comments and bookmarks have already.
    """

    cells: dict[tuple[str, str], WordParagraph] = field(default_factory=dict)
    end: int = 0
    identities: set[int] = field(default_factory=set)
    _open: list[str] = field(default_factory=list)
    _skipped: int = 0
    _table: int = 0
    _row: int = 0
    _column: int = 0
    _span: int = 1
    _paragraphs: list[WordParagraph] = field(default_factory=list)

    def hear(self, what: str, name: str, attributes: Mapping[str, str], at: int, after: int) -> None:
        """Hear that an element opens or closes, as `package_copy.walk` tells it."""
        local = name.rpartition(":")[2]
        if local in ("Fallback", "txbxContent"):
            self._skipped += 1 if what == "start" else -1
        if self._skipped:
            return
        if what == "start":
            self._open.append(local)
            self._started(name, attributes, at, after)
        elif local not in ("Fallback", "txbxContent"):
            self._open.pop()
            self._ended(local, at, after)

    @property
    def _in_cell(self) -> bool:
        """Whether what opens or closes stands in a cell of an outer table."""
        return self._open.count("tbl") == 1 and "tc" in self._open

    def _started(self, name: str, attributes: Mapping[str, str], at: int, after: int) -> None:
        local, depth = self._open[-1], self._open.count("tbl")
        if self._open[-2:] == ["body", "sectPr"]:
            self.end = at
        elif local == "tbl" and depth == 1:
            self._table, self._row = self._table + 1, 0
        elif local == "tr" and depth == 1:
            self._row, self._column = self._row + 1, 0
        elif local == "tc" and depth == 1:
            self._paragraphs, self._span = [], 1
        elif local == "gridSpan" and depth == 1:
            found = attributes.get("val", "1")
            self._span = min(int(found), 200) if found.isdecimal() and len(found) < 6 else 1
        elif local == "p" and self._in_cell:
            self._paragraphs.append(WordParagraph(name, after, after))
        elif local == "t" and self._in_cell and self._paragraphs:
            self._paragraphs[-1].has_words = True
        elif local in ("commentRangeStart", "bookmarkStart") and attributes.get("id", "").isdecimal():
            self.identities.add(int(attributes["id"]))

    def _ended(self, local: str, at: int, after: int) -> None:
        if local == "pPr" and self._in_cell and self._paragraphs:
            self._paragraphs[-1].begin = after
        elif local == "p" and self._in_cell and self._paragraphs:
            self._paragraphs[-1].end = at
            self._paragraphs[-1].is_empty_element = at == after
        elif local == "tc" and self._open.count("tbl") == 1:
            filled = [one for one in self._paragraphs if one.has_words] or self._paragraphs
            if filled:
                self.cells[f"table {self._table}", f"{column_letters(self._column)}{self._row}"] = filled[0]
            self._column += self._span
        elif local == "body" and not self.end:
            self.end = at
