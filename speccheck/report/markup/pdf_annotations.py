"""The annotations of a marked PDF: highlights with comments, tags, and links (ISO 32000-1, 12.5, from memory).

Each has a drawing of its own, so that every viewer shows it alike.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from speccheck.report.markup.marks import Weight
from speccheck.report.markup.pdf_drawing import LOOKS, TAG_HEIGHT, TAG_SIZE, THROUGH, frame, tag_width
from speccheck.report.markup.pdf_drawing import tag as drawn_tag
from speccheck.report.markup.pdf_pages import BOLD, FONT_NAMES, REGULAR
from speccheck.report.markup.pdf_places import in_user_space

if TYPE_CHECKING:
    from pypdf import PdfWriter

_ROTATION = {0: (1, 0, 0, 1), 90: (0, 1, -1, 0), 180: (-1, 0, 0, -1), 270: (0, -1, 1, 0)}


class Annotations:
    """Makes the annotations of one file, with the author and the date that were given."""

    def __init__(self, writer: PdfWriter, author: str, date: str) -> None:
        self.writer, self.author, self.date = writer, author, date
        self.fonts = self._fonts()

    def _fonts(self) -> Any:
        from pypdf.generic import DictionaryObject, NameObject

        fonts = DictionaryObject()
        for font in (REGULAR, BOLD):
            parts = {"/Type": "/Font", "/Subtype": "/Type1", "/BaseFont": f"/{font}", "/Encoding": "/WinAnsiEncoding"}
            one = DictionaryObject({NameObject(key): NameObject(value) for key, value in parts.items()})
            fonts[NameObject(f"/{FONT_NAMES[font]}")] = self.writer._add_object(one)
        return fonts

    def highlight(self, page: Any, spot: tuple[float, ...], mark: Mapping[str, Any], drawn: Weight | None) -> Any:
        """Return the highlight (a rectangle in points) that carries a comment, drawn as its weight says."""
        from pypdf.generic import ArrayObject, FloatObject, TextStringObject

        left, bottom, right, top = in_user_space(page, spot)
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

    def tag(self, page: Any, place: tuple[float, float, float, float], label: str, weight: Weight) -> Any:
        """Return the few letters at a cell, a rectangle in points, as a text annotation."""
        from pypdf.generic import TextStringObject

        return self._annotation(
            page,
            "/FreeText",
            place,
            drawn_tag(weight, label),
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
        if self.author:
            found[NameObject("/T")] = TextStringObject(self.author)
        if self.date:
            found[NameObject("/M")] = TextStringObject("D:" + self.date.replace("-", ""))
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
        through = DictionaryObject(
            {NameObject("/BM"): NameObject("/Multiply"), NameObject("/ca"): FloatObject(THROUGH)}
        )
        states = DictionaryObject({NameObject("/Print"): through})
        resources = {NameObject("/Font"): self.fonts, NameObject("/ExtGState"): states}
        turned = _ROTATION[int(page.get("/Rotate", 0) or 0) % 360]
        form[NameObject("/Type")], form[NameObject("/Subtype")] = NameObject("/XObject"), NameObject("/Form")
        form[NameObject("/BBox")] = ArrayObject(map(FloatObject, (0, 0, *size)))
        form[NameObject("/Matrix")] = ArrayObject([*map(NumberObject, turned), NumberObject(0), NumberObject(0)])
        form[NameObject("/Resources")] = DictionaryObject(resources)
        return self.writer._add_object(form)

    def link(self, rectangle: Sequence[float], target: Any, left_or_top: float, top: float | None = None) -> Any:
        """Return a link to a place (points) on a page; with one number it is the height alone."""
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
