"""Comments of one sheet of a workbook: their part, and the drawing of their boxes, added to or made.

Boxes are drawn in VML (ISO/IEC 29500-4, from memory), the one form that all spreadsheet programs read.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from xml.sax.saxutils import escape, quoteattr

from speccheck.report.escaping import plain
from speccheck.report.markup.marks import Mark
from speccheck.report.markup.package_copy import PackageCopy, walk
from speccheck.report.paper_places import CELL
from speccheck.schedule.grid import column_number

_COMMENTS = "application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml"
_VML = "application/vnd.openxmlformats-officedocument.vmlDrawing"
_NOBODY = "reviewer"
_BOX = "#fbe9dd"
_SHAPES = (
    '<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" '
    'xmlns:x="urn:schemas-microsoft-com:office:excel">'
    '<o:shapelayout v:ext="edit"><o:idmap v:ext="edit" data="1"/></o:shapelayout></xml>'
)
_SHAPE_TYPE = (
    '<v:shapetype id="_x0000_t202" coordsize="21600,21600" o:spt="202" path="m,l,21600r21600,l21600,xe">'
    '<v:stroke joinstyle="miter"/><v:path gradientshapeok="t" o:connecttype="rect"/></v:shapetype>'
)


@dataclass
class _There:
    """Hears the comments that are there: their cells, where each of their texts ends, the authors."""

    texts: dict[str, int] = field(default_factory=dict)
    authors: int = 0
    end_of_authors: int = 0
    end_of_list: int = 0
    prefix: str = ""
    _cell: str = ""

    def hear(self, what: str, name: str, attributes: Mapping[str, str], at: int, after: int) -> None:
        prefix, _, local = name.rpartition(":")
        if what == "start" and local == "comment":
            self._cell = attributes.get("ref", "").replace("$", "")
        elif what == "end" and local == "text":
            self.texts[self._cell] = at
        elif what == "end" and local == "author":
            self.authors += 1
        elif what == "end" and local == "authors":
            self.end_of_authors, self.prefix = at, prefix and f"{prefix}:"
        elif what == "end" and local == "commentList":
            self.end_of_list = at


class CommentParts:
    """The parts that hold the comments of a sheet. `drawing` is the part of boxes that is there, "" for none.

    After `add`, `relation` is the identity by which the sheet leads to the boxes, where they are new.
    """

    def __init__(self, copy: PackageCopy, sheet: str, drawing: str, space: str) -> None:
        self.copy, self.sheet, self.drawing, self.space = copy, sheet, drawing, space
        self.relation = ""
        targets = (one.target for one in copy.relations(sheet) if one.kind == "comments" and copy.has(one.target))
        self.comments = next(targets, "")

    def add(self, cells: Mapping[str, Sequence[Mark]], author: str, name: str) -> None:
        """Add comments to cells; `name` is the sheet on which they are listed."""
        if not self.comments:
            self._make_comments()
        there = _There()
        walk(self.copy.part(self.comments), there.hear)
        p = there.prefix
        edits = [(there.end_of_authors, f"<{p}author>{escape(author or _NOBODY)}</{p}author>".encode())]
        fresh = [cell for cell in cells if cell not in there.texts]
        for cell, marks in cells.items():
            runs = _runs(marks, p, name)
            if cell in there.texts:
                edits.append((there.texts[cell], _run("\n", p).encode() + runs))
            else:
                opened = f'<{p}comment ref={quoteattr(cell)} authorId="{there.authors}"><{p}text>'.encode()
                edits.append((there.end_of_list, opened + runs + f"</{p}text></{p}comment>".encode()))
        self.copy.insert(self.comments, edits)
        self._draw(fresh, cells)

    def _make_comments(self) -> None:
        """Make a part of comments, with no comment yet."""
        self.comments = self.copy.free_name("xl/comments{}.xml")
        content = (
            f'<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<comments xmlns={quoteattr(self.space)}>'
            "<authors></authors><commentList></commentList></comments>"
        )
        self.copy.add(self.comments, content.encode(), _COMMENTS)
        self.copy.relate(self.sheet, "comments", self.comments)

    def _draw(self, cells: Sequence[str], marks: Mapping[str, Sequence[Mark]]) -> None:
        """Draw a box for each new comment; programs show it when somebody points at the cell."""
        if not self.drawing:
            self.drawing = self.copy.free_name("xl/drawings/vmlDrawing{}.vml")
            self.copy.changed[self.drawing] = _SHAPES.encode()
            self.relation = self.copy.relate(self.sheet, "vmlDrawing", self.drawing)
        self.copy.declare_ending("vml", _VML)
        data = self.copy.part(self.drawing)
        first = max((int(one) for one in re.findall(rb"_x0000_s(\d{1,9})\b", data)), default=1024) + 1
        shapes = "" if b'id="_x0000_t202"' in data else _SHAPE_TYPE
        shapes += "".join(_shape(first + number, cell, len(marks[cell])) for number, cell in enumerate(cells))
        end = data.rfind(b"</xml>")
        if end >= 0 and cells:
            self.copy.insert(self.drawing, [(end, shapes.encode())])


def _runs(marks: Sequence[Mark], prefix: str, name: str) -> bytes:
    """Return the text of the comments of one cell, one after the other."""
    told = [f"{mark.tag}. {mark.whole.partition('. ')[2]}" for mark in marks]
    return _run("\n".join([*told, f"(sheet {name})"]), prefix).encode()


def _run(text: str, prefix: str) -> str:
    lines = "\n".join(plain(line) for line in text.split("\n"))
    return f'<{prefix}r><{prefix}t xml:space="preserve">{escape(lines)}</{prefix}t></{prefix}r>'


def _shape(number: int, cell: str, comments: int) -> str:
    """Return the box of a comment right of its cell, hidden until somebody points at the cell."""
    found = CELL.fullmatch(cell)
    assert found is not None, cell
    column, row = column_number(found[1]), int(found[2]) - 1
    anchor = f"{column + 1}, 15, {max(row - 1, 0)}, 10, {column + 5}, 15, {row + 3 + 4 * comments}, 4"
    return (
        f'<v:shape id="_x0000_s{number}" type="#_x0000_t202" style="position:absolute;margin-left:60pt;margin-top:2pt;'
        f'width:240pt;height:{60 * comments}pt;z-index:1;visibility:hidden" fillcolor="{_BOX}" o:insetmode="auto">'
        f'<v:fill color2="{_BOX}"/><v:shadow color="black" obscured="t"/><v:path o:connecttype="none"/>'
        '<v:textbox style="mso-direction-alt:auto"><div style="text-align:left"></div></v:textbox>'
        f'<x:ClientData ObjectType="Note"><x:MoveWithCells/><x:SizeWithCells/><x:Anchor>{anchor}</x:Anchor>'
        f"<x:AutoFill>False</x:AutoFill><x:Row>{row}</x:Row><x:Column>{column}</x:Column></x:ClientData></v:shape>"
    )
