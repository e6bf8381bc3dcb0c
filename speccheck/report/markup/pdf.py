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
from speccheck.report.markup.pdf_annotations import Annotations
from speccheck.report.markup.pdf_drawing import LOOKS, TAG_HEIGHT, tag_width
from speccheck.report.markup.pdf_pages import BOLD, MARGIN, Pages
from speccheck.report.markup.pdf_places import beside, in_user_space

if TYPE_CHECKING:
    from pypdf import PdfWriter

A4, LETTER = (595.0, 842.0), (612.0, 792.0)
_HEAD_INDENT = 40.0
_OUTSET = 1.5
"""Points by which a highlight is larger than its cell, so that its frame is not drawn through the words."""


class Copy:
    """A PDF while it is marked. `comments` is as `pdf_child` writes it."""

    def __init__(self, data: bytes, comments: Mapping[str, Any]) -> None:
        from pypdf import PdfWriter

        self.comments = comments
        self.marks: Sequence[Mapping[str, Any]] = comments["marks"]
        self.writer: PdfWriter = PdfWriter(io.BytesIO(data), incremental=True)
        self.pages = list(self.writer.pages)
        self.make = Annotations(self.writer, comments["author"], comments["date"])
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
                corner = in_user_space(target, mark["spot"])
                rectangle = RectangleObject((MARGIN - 2, base - 2, width - MARGIN, top + 1))
                self._annotate(page, self.make.link(rectangle, target.indirect_reference, corner[0], corner[3]))

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
        page[NameObject("/Resources")] = DictionaryObject({NameObject("/Font"): self.make.fonts})

    # ---- a cell --------------------------------------------------------------------------------------------------

    def _mark_cell(self, spot: tuple[float, ...], marks: Sequence[Mapping[str, Any]]) -> None:
        """Highlight a cell for each comment on it, the frame drawn once, and put tags with their numbers at it."""
        page = self.pages[int(spot[0]) - 1]
        spot = (spot[0], spot[1] - _OUTSET, spot[2] - _OUTSET, spot[3] + _OUTSET, spot[4] + _OUTSET)
        gravest = min((Weight(mark["weight"]) for mark in marks), key=list(LOOKS).index)
        for number, mark in enumerate(marks):
            self._annotate(page, self.make.highlight(page, spot, mark, None if number else gravest))
        labels = [(mark, mark["tag"]) for mark in marks]
        if len(marks) > 1 and sum(tag_width(label) for _, label in labels) > spot[3] - spot[1]:
            labels = [(marks[0], f"{marks[0]['tag']} +{len(marks) - 1}")]
        left, top = beside(spot, marks[0]["room"], sum(tag_width(label) for _, label in labels))
        for mark, label in labels:
            place = in_user_space(page, (0, left, top, left + tag_width(label), top + TAG_HEIGHT))
            left += tag_width(label)
            self._annotate(page, self.make.tag(page, place, label, Weight(mark["weight"])))
            self._annotate(page, self.make.link(place, *self.entries[mark["number"]]))

    def _annotate(self, page: Any, annotation: Any) -> None:
        """Put an annotation on a page, after those that are there."""
        from pypdf.generic import ArrayObject, NameObject

        there = page.get("/Annots")
        annotations = ArrayObject(list(there.get_object())) if there is not None else ArrayObject()
        annotations.append(self.writer._add_object(annotation))
        page[NameObject("/Annots")] = annotations


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
