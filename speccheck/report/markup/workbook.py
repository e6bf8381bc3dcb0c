"""The contractor's workbook with its comments: in the cells, and as a list on a sheet of its own.

No sheet is written anew: comments and the list are added as parts of their own, and of the parts that are there only
those change that have to lead to them (ISO/IEC 29500-1, chapter 18, from memory). Formulas, formats and everything else
stay byte for byte.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from xml.sax.saxutils import quoteattr

from speccheck.language.diagnostics import Diagnostic
from speccheck.report.escaping import plain
from speccheck.report.markup.marks import Comments, Mark
from speccheck.report.markup.package_copy import PackageCopy, end_of_root, root_of, walk
from speccheck.report.markup.workbook_comments import CommentParts
from speccheck.report.markup.workbook_list import list_sheet
from speccheck.report.messages import COMMENT_ON_LIST_ALONE
from speccheck.schedule.formats.package_parts import OpenPackage

_SHEET = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"
_LIST = "Comments"
_NAMESPACE = re.compile(rb"xmlns(?::[\w.-]+)?=[\"']([^\"']*/spreadsheetml/(?:2006/)?main)[\"']")
_AFTER_COMMENTS = (
    "legacyDrawingHF", "drawingHF", "picture", "oleObjects", "controls", "webPublishItems", "tableParts", "extLst",
    "AlternateContent",
)  # fmt: skip
"""The elements of a sheet that come after the one that leads to its comments, in the order of the standard."""


def mark_workbook(path: Path, comments: Comments) -> tuple[bytes, tuple[Diagnostic, ...]]:
    """Return the workbook of `path` with comments, and what could not be put into its cells. Raises `Refused`."""
    with OpenPackage(path) as package:
        book = _Workbook(PackageCopy(path, package), package.main_part(), comments)
        return book.marked(), tuple(book.diagnostics)


@dataclass
class _Sheets:
    """Hears the main part of a workbook: the names of its sheets with their relations, and where their list ends."""

    relations: dict[str, str] = field(default_factory=dict)
    most: int = 0
    end: int = 0
    prefix: str = ""

    def hear(self, what: str, name: str, attributes: Mapping[str, str], at: int, after: int) -> None:
        prefix, _, local = name.rpartition(":")
        if what == "start" and local == "sheet":
            self.relations[attributes.get("name", "")] = attributes.get("id", "")
            number = attributes.get("sheetId", "")
            self.most = max(self.most, int(number) if number.isdecimal() else 0)
        elif what == "end" and local == "sheets":
            self.end, self.prefix = at, prefix and f"{prefix}:"


@dataclass
class _SheetEnd:
    """Hears a sheet: where the element goes that leads to comments, and the relation of the one that is there."""

    place: int = 0
    there: str = ""
    depth: int = 0
    found_data: bool = False

    def hear(self, what: str, name: str, attributes: Mapping[str, str], at: int, after: int) -> None:
        local = name.rpartition(":")[2]
        self.depth += 1 if what == "start" else 0
        if what == "start" and self.depth == 2:
            self.found_data = self.found_data or local == "sheetData"
            if local == "legacyDrawing":
                self.there = attributes.get("id", "")
            elif local in _AFTER_COMMENTS and self.found_data and not self.place:
                self.place = at
        self.depth -= 1 if what == "end" else 0


class _Workbook:
    """A workbook while it is marked."""

    def __init__(self, copy: PackageCopy, main: str, comments: Comments) -> None:
        self.copy, self.main, self.comments = copy, main, comments
        self.diagnostics: list[Diagnostic] = []
        self.sheets = _Sheets()
        text = copy.part(main)
        walk(text, self.sheets.hear)
        found = _NAMESPACE.search(text, root_of(text))
        self.space = found[1].decode() if found else ""
        self.targets = {relation.id: relation.target for relation in copy.relations(main)}

    def marked(self) -> bytes:
        """Put the comments into the workbook, and return the copy."""
        name = self._free_name()
        by_sheet: dict[str, list[Mark]] = {}
        for mark in self.comments.marks:
            by_sheet.setdefault(mark.place.sheet, []).append(mark)
        for sheet, marks in by_sheet.items():
            part = self.targets.get(self.sheets.relations.get(sheet, ""), "")
            if part and self.copy.has(part):
                self._mark_sheet(part, [mark for mark in marks if mark.place.cell], name)
        part = self.copy.free_name("xl/worksheets/comments{}.xml")
        self.copy.add(part, list_sheet(self.comments, self.space), _SHEET)
        relation = self.copy.relate(self.main, "worksheet", part)
        element = (
            f"<{self.sheets.prefix}sheet name={quoteattr(name)} sheetId={quoteattr(str(self.sheets.most + 1))} "
            f'xmlns:marked="{self.copy.base}" marked:id="{relation}"/>'
        )
        self.copy.insert(self.main, [(self.sheets.end, element.encode())])
        return self.copy.written()

    def _free_name(self) -> str:
        """Return a name for the sheet of the list that no sheet has, whatever the case of its letters."""
        taken = {name.casefold() for name in self.sheets.relations}
        names = (_LIST if number == 1 else f"{_LIST} {number}" for number in range(1, len(taken) + 2))
        return next(name for name in names if name.casefold() not in taken)

    def _mark_sheet(self, part: str, marks: Sequence[Mark], name: str) -> None:
        """Put comments into the cells of one sheet; all that belong to one cell into one."""
        talked = self._talked_about(part)
        texts: dict[str, list[Mark]] = {}
        for mark in marks:
            if mark.place.cell in talked:
                self.diagnostics.append(
                    COMMENT_ON_LIST_ALONE.at(mark.place, cell=mark.place.cell, number=mark.number, sheet=name)
                )
            else:
                texts.setdefault(mark.place.cell, []).append(mark)
        if not texts:
            return
        end = _SheetEnd()
        walk(self.copy.part(part), end.hear)
        drawing = next((one.target for one in self.copy.relations(part) if one.id == end.there and end.there), "")
        parts = CommentParts(self.copy, part, drawing, self.space)
        parts.add(texts, plain(self.comments.author), name)
        if not end.there:
            at = end.place or end_of_root(self.copy.part(part))
            prefix = _prefix_of(self.copy.part(part))
            element = f'<{prefix}legacyDrawing xmlns:marked="{self.copy.base}" marked:id="{parts.relation}"/>'
            self.copy.insert(part, [(at, element.encode())])

    def _talked_about(self, part: str) -> set[str]:
        """Return the cells of a sheet that hold conversations, beside which a program shows no other comment."""
        found: set[str] = set()

        def hear(what: str, name: str, attributes: Mapping[str, str], at: int, after: int) -> None:
            if what == "start" and name.rpartition(":")[2] == "threadedComment":
                found.add(attributes.get("ref", ""))

        for relation in self.copy.relations(part):
            if relation.kind == "threadedComment" and self.copy.has(relation.target):
                walk(self.copy.part(relation.target), hear)
        return found


def _prefix_of(data: bytes) -> str:
    """Return the prefix of the outermost element, with its colon, "" where it has none."""
    found = re.match(rb"<([A-Za-z_][\w.-]*:)", data[root_of(data) :])
    return found[1].decode() if found else ""
