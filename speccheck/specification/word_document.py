"""A section in a Word document: its paragraphs with the numbers that Word shows, and its tables, in order.

What a tracked change took out and what is struck through is no part of the section.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from speccheck.specification.blocks import (
    ARTICLE_LEVEL,
    RAISED,
    Block,
    Paragraph,
    ParagraphNumbers,
    SectionTable,
    typed_label,
)
from speccheck.specification.word_numbers import NumberedLists

_W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"
_OFF = (None, "0", "false", "off", "none")


def read_document(path: Path) -> tuple[Block, ...]:
    """Return the blocks of a document. Raises what python-docx raises where the file is no such document."""
    import docx

    document = docx.Document(str(path))
    return tuple(_Reader(document).blocks())


class _Reader:
    """Reads one document: its lists count on from paragraph to paragraph."""

    def __init__(self, document: Any) -> None:
        self.body = document.element.body
        self.lists = NumberedLists.of(_numbering(document))
        self.styles = {style.style_id: style.element for style in document.styles}
        self.outline = ParagraphNumbers()
        self.notes = dict(_notes(document))

    def blocks(self) -> Iterator[Block]:
        """Yield the blocks in order; headers, footers and notes are no part of them."""
        last = Paragraph("", "", "")
        for count, child in enumerate(self.body, start=1):
            if child.tag == f"{_W}p":
                paragraph = self._paragraph(child, f"paragraph {count}")
                if paragraph.text:
                    last = paragraph
                    yield paragraph
                yield from self._notes(child, last)
            elif child.tag == f"{_W}tbl":
                yield SectionTable(_rows(child), last.number, last.text, f"table after {last.place}")
                yield from self._notes(child, last)

    def _notes(self, element: Any, of: Paragraph) -> Iterator[Paragraph]:
        """Yield the footnotes and endnotes to which a paragraph or a table refers, each as a note to it."""
        for kind in ("footnote", "endnote"):
            for reference in element.iter(f"{_W}{kind}Reference"):
                text = self.notes.get((kind, reference.get(f"{_W}id")), "")
                if text:
                    yield Paragraph(of.number, text, of.place, note=True)

    def _paragraph(self, element: Any, place: str) -> Paragraph:
        """Return a paragraph with its whole number."""
        text = " ".join(_text(element).split())
        shown = self._shown(element)
        if shown is None:
            label = typed_label(text, self.outline)
            if label is None:
                return Paragraph("", text, place)
            return Paragraph(self.outline.number(*label[:2]), label[2], place)
        depth, label_shown = shown
        digits = re.sub(r"^\s*PART\s+|[\s.):–—-]+$", "", label_shown, flags=re.IGNORECASE)
        level = ARTICLE_LEVEL if re.fullmatch(r"\d+\.\d+", digits) else depth
        return Paragraph(self.outline.number(level, digits), text, place)

    def _shown(self, element: Any) -> tuple[int, str] | None:
        """Return the level and the number that Word shows before a paragraph, or None."""
        found = self._numbering(element)
        if found is None:
            return None
        name, depth = found
        shown = self.lists.next(name, depth)
        return (depth, shown) if shown else None

    def _numbering(self, element: Any) -> tuple[str, int] | None:
        """Return the list and the level of a paragraph: its own, or those of its style or a style that this is from."""
        own = element.find(f"{_W}pPr/{_W}numPr")
        style_id = _value(element.find(f"{_W}pPr/{_W}pStyle"))
        name, depth = _of(own)
        seen: set[str] = set()
        while style_id and style_id not in seen and (name is None or depth is None):
            seen.add(style_id)
            style = self.styles.get(style_id)
            inherited = None if style is None else style.find(f"{_W}pPr/{_W}numPr")
            of_style, at = _of(inherited)
            if of_style is not None and at is None:
                at = self.lists.level_of_style(style_id)
            name, depth = name if name is not None else of_style, depth if depth is not None else at
            style_id = "" if style is None else _value(style.find(f"{_W}basedOn"))
        return None if name in (None, "0") else (str(name), depth or 0)


def _numbering(document: Any) -> Any:
    """Return the numbering part of a document, or None."""
    kind = "/numbering"
    found = [one.target_part.element for one in document.part.rels.values() if one.reltype.endswith(kind)]
    return found[0] if found else None


def _notes(document: Any) -> Iterator[tuple[tuple[str, str], str]]:
    """Yield the words of each footnote and endnote of a document, by its kind and its number."""
    from docx.oxml import parse_xml

    for part in document.part.rels.values():
        kind = part.reltype.rpartition("/")[2].removesuffix("s")
        if kind in ("footnote", "endnote"):
            for note in parse_xml(part.target_part.blob).iter(f"{_W}{kind}"):
                words = " ".join(" ".join(_text(one) for one in note.iter(f"{_W}p")).split())
                yield (kind, note.get(f"{_W}id")), words


def _of(element: Any) -> tuple[str | None, int | None]:
    """Return the list and the level that a numbering element names, each None where it does not."""
    if element is None:
        return None, None
    depth = _value(element.find(f"{_W}ilvl"))
    return _value(element.find(f"{_W}numId")) or None, int(depth) if depth else None


def _value(element: Any) -> str:
    return "" if element is None else str(element.get(f"{_W}val") or "")


def _text(element: Any) -> str:
    """Return the words of a paragraph, without what is deleted, struck through or hidden; what is raised stays so."""
    words = []
    for run in element.iter(f"{_W}r"):
        if any(parent.tag in (f"{_W}del", f"{_W}moveFrom") for parent in run.iterancestors()):
            continue
        if any(_is_on(run.find(f"{_W}rPr/{_W}{mark}")) for mark in ("strike", "dstrike", "vanish")):
            continue
        for child in run:
            if child.tag == f"{_W}t":
                raised = _value(run.find(f"{_W}rPr/{_W}vertAlign")) == "superscript"
                words.append((child.text or "").translate(RAISED) if raised else child.text or "")
            elif child.tag in (f"{_W}footnoteReference", f"{_W}endnoteReference"):
                words.append("*")
            elif child.tag in (f"{_W}tab", f"{_W}br", f"{_W}cr"):
                words.append(" ")
            elif child.tag == f"{_W}noBreakHyphen":
                words.append("-")
    return "".join(words)


def _is_on(element: Any) -> bool:
    return element is not None and element.get(f"{_W}val", "1") not in _OFF


def _rows(table: Any) -> tuple[tuple[str, ...], ...]:
    """Return the cell texts of a table; a cell over several columns or rows gives its text to each of them."""
    rows: list[tuple[str, ...]] = []
    for row in table.findall(f"{_W}tr"):
        cells: list[str] = []
        for cell in row.findall(f"{_W}tc"):
            properties = cell.find(f"{_W}tcPr")
            span = "" if properties is None else _value(properties.find(f"{_W}gridSpan"))
            merged = None if properties is None else properties.find(f"{_W}vMerge")
            text = " ".join(" ".join(_text(one) for one in cell.findall(f"{_W}p")).split())
            if merged is not None and _value(merged) != "restart" and rows and len(cells) < len(rows[-1]):
                text = rows[-1][len(cells)]
            cells += [text] * int(span or 1)
        rows.append(tuple(cells))
    return tuple(rows)
