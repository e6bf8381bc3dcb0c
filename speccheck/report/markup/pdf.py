"""The contractor's PDF with its comments: highlights and notes at the cells, a numbered list on added last pages.

The copy begins with the bytes of the original; what is added follows them (an incremental update, ISO 32000-1, 7.5.6,
from memory). Run as a program in a child process, for pypdf reads a file that is not trusted: comments come in as JSON,
the copy goes out as bytes.
"""

from __future__ import annotations

import io
import json
import sys
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from speccheck.report.markup.marks import Weight
from speccheck.report.markup.pdf_drawing import LOOKS, TAG_HEIGHT, TAG_SIZE, frame, tag, tag_width
from speccheck.report.markup.pdf_pages import BOLD, FONT_NAMES, MARGIN, REGULAR, Pages

if TYPE_CHECKING:
    from pypdf import PdfWriter

A4, LETTER = (595.0, 842.0), (612.0, 792.0)
_ROTATION = {0: (1, 0, 0, 1), 90: (0, 1, -1, 0), 180: (-1, 0, 0, -1), 270: (0, -1, 1, 0)}
_HEAD_INDENT = 40.0
_OUTSET = 1.5
"""Points by which a highlight is larger than its cell, so that its frame is not drawn through the words."""
_OVERLAP = 0.6


class Copy:
    """A PDF while it is marked. `comments` is as `pdf_child` writes it."""

    def __init__(self, data: bytes, comments: Mapping[str, Any]) -> None:
        from pypdf import PdfWriter

        self.comments = comments
        self.marks: Sequence[Mapping[str, Any]] = comments["marks"]
        self.writer: PdfWriter = PdfWriter(io.BytesIO(data), incremental=True)
        self.pages = list(self.writer.pages)
        self.fonts = self._fonts()
        self.entries: dict[int, tuple[Any, float]] = {}

    def made(self) -> bytes:
        """Return the copy."""
        self._add_list()
        for at in dict.fromkeys(tuple(mark["spot"]) for mark in self.marks if mark["spot"]):
            self._mark_cell(at, [mark for mark in self.marks if mark["spot"] and tuple(mark["spot"]) == at])
        written = io.BytesIO()
        self.writer.write(written)
        return written.getvalue()

    # ---- the list at the end -------------------------------------------------------------------------------------

    def _add_list(self) -> None:
        """Add the pages of the list, each entry leading to its cell."""
        from pypdf.generic import RectangleObject

        first = self.pages[0].mediabox
        width, height = A4 if abs(min(float(first.width), float(first.height)) - A4[0]) < 4 else LETTER
        pages, places = self._written(width, height)
        added = []
        for content in pages.contents:
            page = self.writer.add_blank_page(width, height)
            self._fill(page, bytes(content))
            added.append(page)
        for mark, (number, top, base) in zip(self.marks, places, strict=True):
            page = added[number]
            self.entries[mark["number"]] = (page.indirect_reference, top)
            if mark["spot"]:
                target = self.pages[mark["spot"][0] - 1]
                corner = _in_user_space(target, mark["spot"])
                rectangle = RectangleObject((MARGIN - 2, base - 2, width - MARGIN, top + 1))
                self._annotate(page, self._link(rectangle, target.indirect_reference, corner[0], corner[3]))

    def _written(self, width: float, height: float) -> tuple[Pages, list[tuple[int, float, float]]]:
        """Return the pages of the list, and where each entry stands."""
        pages = Pages(width, height, foot=self.comments["title"])
        pages.paragraph(self.comments["title"], font=BOLD, size=15)
        pages.space(6)
        for heading, text in self.comments["heads"]:
            pages.paragraph(text, indent=110, head=heading)
        pages.rule()
        for sentence in self.comments["summary"]:
            pages.paragraph(sentence)
        if self.comments["legend"]:
            pages.paragraph(
                f"Marks: {self.comments['legend']}. Choose a number to go to the cell, or back to the list."
            )
        pages.space(8)
        places = []
        for mark in self.marks:
            where = f"Page {mark['spot'][0]}, {mark['cell']}. " if mark["spot"] else ""
            places.append(pages.paragraph(where + mark["about"], font=BOLD, indent=_HEAD_INDENT, head=mark["tag"]))
            pages.paragraph(mark["text"], indent=_HEAD_INDENT)
            pages.space(4)
        if not self.marks:
            pages.paragraph("There are no comments.")
        pages.rule()
        for caution in self.comments["cautions"]:
            pages.paragraph(caution, size=8.5)
        return pages, places

    def _fill(self, page: Any, content: bytes) -> None:
        """Give a page its content and its fonts."""
        from pypdf.generic import DecodedStreamObject, DictionaryObject, NameObject

        stream = DecodedStreamObject()
        stream.set_data(content)
        page[NameObject("/Contents")] = self.writer._add_object(stream)
        page[NameObject("/Resources")] = DictionaryObject({NameObject("/Font"): self.fonts})

    def _fonts(self) -> Any:
        from pypdf.generic import DictionaryObject, NameObject

        fonts = DictionaryObject()
        for font in (REGULAR, BOLD):
            parts = {"/Type": "/Font", "/Subtype": "/Type1", "/BaseFont": f"/{font}", "/Encoding": "/WinAnsiEncoding"}
            one = DictionaryObject({NameObject(key): NameObject(value) for key, value in parts.items()})
            fonts[NameObject(f"/{FONT_NAMES[font]}")] = self.writer._add_object(one)
        return fonts

    # ---- a cell --------------------------------------------------------------------------------------------------

    def _mark_cell(self, spot: tuple[float, ...], marks: Sequence[Mapping[str, Any]]) -> None:
        """Highlight a cell for each comment on it, the frame drawn once, and put tags with their numbers at it."""
        page = self.pages[int(spot[0]) - 1]
        spot = (spot[0], spot[1] - _OUTSET, spot[2] - _OUTSET, spot[3] + _OUTSET, spot[4] + _OUTSET)
        gravest = min((Weight(mark["weight"]) for mark in marks), key=list(LOOKS).index)
        for number, mark in enumerate(marks):
            self._annotate(page, self._highlight(page, spot, mark, None if number else gravest))
        labels = [(mark, mark["tag"]) for mark in marks]
        if len(marks) > 1 and sum(tag_width(label) for _, label in labels) > spot[3] - spot[1]:
            labels = [(marks[0], f"{marks[0]['tag']} +{len(marks) - 1}")]
        left, top = _beside(spot, marks[0]["room"], sum(tag_width(label) for _, label in labels))
        for mark, label in labels:
            place = _in_user_space(page, (0, left, top, left + tag_width(label), top + TAG_HEIGHT))
            left += tag_width(label)
            self._annotate(page, self._tag(page, place, label, Weight(mark["weight"])))
            self._annotate(page, self._link(place, *self.entries[mark["number"]]))

    def _highlight(self, page: Any, spot: tuple[float, ...], mark: Mapping[str, Any], drawn: Weight | None) -> Any:
        """Return the highlight that carries a comment, drawn as its weight says where it is to be drawn."""
        from pypdf.generic import ArrayObject, FloatObject, TextStringObject

        left, bottom, right, top = _in_user_space(page, spot)
        corners = (left, top, right, top, left, bottom, right, bottom)
        size = (spot[3] - spot[1], spot[4] - spot[2])
        return self._annotation(
            page,
            "/Highlight",
            (left, bottom, right, top),
            frame(drawn, *size) if drawn else b"",
            size,
            QuadPoints=ArrayObject(map(FloatObject, corners)),
            C=ArrayObject(map(FloatObject, LOOKS[Weight(mark["weight"])].tint)),
            Contents=TextStringObject(mark["whole"]),
            Subj=TextStringObject(mark["weight"]),
            NM=TextStringObject(f"comment {mark['number']}"),
        )

    def _tag(self, page: Any, place: tuple[float, float, float, float], label: str, weight: Weight) -> Any:
        """Return the few letters at a cell as a text annotation."""
        from pypdf.generic import TextStringObject

        return self._annotation(
            page,
            "/FreeText",
            place,
            tag(weight, label),
            (tag_width(label), TAG_HEIGHT),
            Contents=TextStringObject(label),
            DA=TextStringObject(f"/{FONT_NAMES[BOLD]} {TAG_SIZE:g} Tf 0 g"),
            NM=TextStringObject(f"tag {label}"),
        )

    def _annotation(
        self, page: Any, kind: str, rectangle: Sequence[float], drawing: bytes, size: tuple[float, float], **parts: Any
    ) -> Any:
        """Return an annotation with its drawing, and with the author and the date that were given."""
        from pypdf.generic import DictionaryObject, NameObject, NumberObject, RectangleObject, TextStringObject

        found = DictionaryObject({NameObject("/Type"): NameObject("/Annot"), NameObject("/Subtype"): NameObject(kind)})
        found[NameObject("/Rect")] = RectangleObject(tuple(rectangle))
        found[NameObject("/F")] = NumberObject(4)  # printed
        found[NameObject("/AP")] = DictionaryObject({NameObject("/N"): self._form(page, drawing, size)})
        for key, value in parts.items():
            found[NameObject(f"/{key}")] = value
        if self.comments["author"]:
            found[NameObject("/T")] = TextStringObject(self.comments["author"])
        if self.comments["date"]:
            found[NameObject("/M")] = TextStringObject("D:" + self.comments["date"].replace("-", ""))
        return found

    def _form(self, page: Any, drawing: bytes, size: tuple[float, float]) -> Any:
        """Return a drawing as a form that stands upright on the page as it is shown."""
        from pypdf.generic import (
            ArrayObject,
            DecodedStreamObject,
            DictionaryObject,
            FloatObject,
            NameObject,
            NumberObject,
        )

        form = DecodedStreamObject()
        form.set_data(drawing)
        through = DictionaryObject({NameObject("/BM"): NameObject("/Multiply")})
        states = DictionaryObject({NameObject("/Print"): through})
        resources = {NameObject("/Font"): self.fonts, NameObject("/ExtGState"): states}
        turned = _ROTATION[int(page.get("/Rotate", 0) or 0) % 360]
        form[NameObject("/Type")], form[NameObject("/Subtype")] = NameObject("/XObject"), NameObject("/Form")
        form[NameObject("/BBox")] = ArrayObject(map(FloatObject, (0, 0, *size)))
        form[NameObject("/Matrix")] = ArrayObject([*map(NumberObject, turned), NumberObject(0), NumberObject(0)])
        form[NameObject("/Resources")] = DictionaryObject(resources)
        return self.writer._add_object(form)

    def _link(self, rectangle: Sequence[float], target: Any, left_or_top: float, top: float | None = None) -> Any:
        """Return a link to a place on a page; with one number it is the height alone."""
        from pypdf.generic import (
            ArrayObject,
            DictionaryObject,
            FloatObject,
            NameObject,
            NullObject,
            NumberObject,
            RectangleObject,
        )

        left = FloatObject(max(left_or_top - 40, 0)) if top is not None else NullObject()
        height = FloatObject((left_or_top if top is None else top) + 20)
        place = ArrayObject([target, NameObject("/XYZ"), left, height, NullObject()])
        return DictionaryObject(
            {
                NameObject("/Type"): NameObject("/Annot"),
                NameObject("/Subtype"): NameObject("/Link"),
                NameObject("/Rect"): RectangleObject(tuple(rectangle)),
                NameObject("/Border"): ArrayObject([NumberObject(0)] * 3),
                NameObject("/Dest"): place,
            }
        )

    def _annotate(self, page: Any, annotation: Any) -> None:
        """Put an annotation on a page, after those that are there."""
        from pypdf.generic import ArrayObject, NameObject

        there = page.get("/Annots")
        annotations = ArrayObject(list(there.get_object())) if there is not None else ArrayObject()
        annotations.append(self.writer._add_object(annotation))
        page[NameObject("/Annots")] = annotations


def _beside(spot: tuple[float, ...], room: float, width: float) -> tuple[float, float]:
    """Return the left and upper edge of tags: right of the cell where there is room, else on its upper edge, right."""
    if room + 3 > width:
        return spot[3] - _OVERLAP, (spot[2] + spot[4] - TAG_HEIGHT) / 2
    return max(spot[3] - width, 0), max(spot[2] - TAG_HEIGHT / 2, 0)


def _shown_size(page: Any) -> tuple[float, float]:
    """Return width and height of a page as it is shown."""
    box = page.mediabox
    size = (float(box.width), float(box.height))
    return size if int(page.get("/Rotate", 0) or 0) % 180 == 0 else (size[1], size[0])


def _in_user_space(page: Any, spot: Sequence[float]) -> tuple[float, float, float, float]:
    """Return the rectangle of a spot (page, left, top, right, bottom as shown) in the space of its page, as drawn."""
    box, turned = page.mediabox, int(page.get("/Rotate", 0) or 0) % 360
    x0, y0, x1, y1 = (float(box.left), float(box.bottom), float(box.right), float(box.top))
    height = _shown_size(page)[1]
    corners = [(spot[1], height - spot[2]), (spot[3], height - spot[4])]
    found = [_turned_back(x, y, turned, (x0, y0, x1, y1)) for x, y in corners]
    across, up = sorted(x for x, _ in found), sorted(y for _, y in found)
    return tuple(round(one, 2) for one in (across[0], up[0], across[1], up[1]))  # type: ignore[return-value]


def _turned_back(x: float, y: float, turned: int, box: tuple[float, float, float, float]) -> tuple[float, float]:
    """Return a point of the page as it is shown, counted from its lower left corner, in the space of the page."""
    x0, y0, x1, y1 = box
    if turned == 90:
        return x1 - y, y0 + x
    if turned == 180:
        return x1 - x, y1 - y
    return (x0 + y, y1 - x) if turned == 270 else (x0 + x, y0 + y)


def main(path: Path) -> None:
    """Mark a PDF by the comments on standard input, and write the copy to standard output."""
    from speccheck.schedule.formats.child import limit_this_process

    limit_this_process()
    comments = json.load(sys.stdin)
    sys.stdout.buffer.write(Copy(path.read_bytes(), comments).made())


def told(comments: Any, spots: Iterable[tuple[Any, float]]) -> dict[str, Any]:
    """Return comments (`marks.Comments`) as plain values for the child process.

    Each has its spot, None where it has none on paper, and how much room there is right of it, in points.
    """
    marks = [
        {
            "number": mark.number,
            "tag": mark.tag,
            "weight": str(mark.weight),
            "about": ", ".join(one for one in (mark.line, mark.clause and f"clause {mark.clause}") if one),
            "text": mark.text,
            "whole": mark.whole,
            "cell": mark.place.cell,
            "spot": list(spot) if spot is not None else None,
            "room": room,
        }
        for mark, (spot, room) in zip(comments.marks, spots, strict=True)
    ]
    around = {"title": comments.title, "heads": comments.heads, "summary": comments.summary}
    legend = {"legend": comments.legend, "cautions": comments.cautions}
    return {**around, **legend, "marks": marks, "author": comments.author, "date": comments.date}


if __name__ == "__main__":
    main(Path(sys.argv[1]))
