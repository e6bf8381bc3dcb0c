"""One table of texts written as papers of every kind, by the libraries and programs that people use."""

from __future__ import annotations

import re
import zipfile
from collections.abc import Sequence
from html import escape
from pathlib import Path
from typing import Any

Rows = Sequence[Sequence[str]]
_MIXED = re.compile(r"(\d+) (\d+/\d+)")


def write_docx(path: Path, rows: Rows, heading: str = "") -> None:
    """Write a Word document with a heading and one table, by python-docx."""
    from docx import Document

    document = Document()
    if heading:
        document.add_paragraph(heading)
    table = document.add_table(len(rows), len(rows[0]))
    for row, cells in zip(table.rows, rows, strict=True):
        for cell, text in zip(row.cells, cells, strict=True):
            cell.text = text
    document.save(str(path))


def write_ruled_pdf(path: Path, rows: Rows, heading: str = "", *, rows_on_a_page: int = 1000) -> None:
    """Write a PDF with a ruled table by reportlab; it goes on over pages, each with the header."""
    from reportlab.lib import colors
    from reportlab.lib.pagesizes import landscape, letter
    from reportlab.lib.styles import getSampleStyleSheet
    from reportlab.platypus import PageBreak, Paragraph, SimpleDocTemplate, Table

    content: list[Any] = [Paragraph(escape(heading), getSampleStyleSheet()["Heading2"])] if heading else []
    for first in range(1, len(rows), rows_on_a_page):
        if first > 1:
            content.append(PageBreak())
        table = Table([rows[0], *rows[first : first + rows_on_a_page]], repeatRows=1)
        table.setStyle([("GRID", (0, 0), (-1, -1), 0.5, colors.black), ("FONTSIZE", (0, 0), (-1, -1), 8)])
        content.append(table)
    SimpleDocTemplate(str(path), pagesize=landscape(letter), invariant=1).build(content)


def write_unruled_pdf(
    path: Path,
    rows: Rows,
    heading: str = "",
    *,
    font: str = "Helvetica",
    size: float = 8,
    gap: float = 10,
    pitch: float = 14,
    right_aligned: Sequence[int] = (),
    rotated: bool = False,
    raised: bool = False,
) -> list[list[tuple[float, float]]]:
    """Write a PDF with a table that has no rules, `gap` points between columns; return left and right of each cell.

    `raised` sets the fractions of mixed numbers ("1 1/2") in small raised figures.
    """
    from reportlab.lib.pagesizes import landscape, letter
    from reportlab.pdfbase.pdfmetrics import registerFont, stringWidth
    from reportlab.pdfbase.ttfonts import TTFont
    from reportlab.pdfgen.canvas import Canvas

    if font == "Vera":
        registerFont(TTFont("Vera", "Vera.ttf"))  # reportlab carries it, and it has ligatures
    canvas = Canvas(str(path), pagesize=landscape(letter), invariant=1)
    if rotated:
        canvas.setPageRotation(180)
        canvas.translate(792, 612)
        canvas.rotate(180)
    canvas.setFont(font, size)
    widths = [
        max(stringWidth(line, font, size) for row in rows for line in row[i].split("\n")) for i in range(len(rows[0]))
    ]
    y = 560.0
    if heading:
        canvas.drawString(40, y, heading)
        y -= 2 * pitch
    places = []
    for row in rows:
        x, lefts, lines = 40.0, [], 1
        for column, text in enumerate(row):
            for number, line in enumerate(text.split("\n")):
                lines = max(lines, number + 1)
                width = stringWidth(line, font, size)
                left = x + widths[column] - width if column in right_aligned else x
                if raised and (mixed := _MIXED.fullmatch(line)):
                    whole = stringWidth(mixed[1], font, size)
                    canvas.drawString(left, y - number * 1.15 * size, mixed[1])
                    canvas.setFont(font, 0.6 * size)
                    canvas.drawString(left + whole + 0.4, y - number * 1.15 * size + 0.3 * size, mixed[2])
                    canvas.setFont(font, size)
                    continue
                canvas.drawString(left, y - number * 1.15 * size, line)
            lefts.append((left, left + width))
            x += widths[column] + gap
        places.append(lefts)
        y -= pitch + (lines - 1) * 1.15 * size
        if y < 40:
            canvas.showPage()
            canvas.setFont(font, size)
            y = 560.0
    canvas.save()
    return places


def write_html(path: Path, rows: Rows, heading: str = "") -> None:
    """Write a page of HTML, as programs do that call it .xls."""
    body = "".join("<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in row) + "</tr>" for row in rows)
    path.write_text(f"<html><body><p>{escape(heading)}</p><table>{body}</table></body></html>", encoding="utf-8")


def write_separated(path: Path, rows: Rows, heading: str = "", encoding: str = "utf-8", separator: str = "\t") -> None:
    """Write fields parted by a separator, in an encoding."""
    import csv

    with path.open("w", encoding=encoding, newline="") as file:
        writer = csv.writer(file, delimiter=separator)
        writer.writerows([[heading]] if heading else [])
        writer.writerows(rows)


def write_xlsx(path: Path, rows: Rows, heading: str = "") -> None:
    """Write a workbook by openpyxl, numbers as numbers."""
    import openpyxl

    book = openpyxl.Workbook()
    assert book.active is not None
    for row in ([[heading]] if heading else []) + [list(row) for row in rows]:
        book.active.append([float(cell) if cell.replace(".", "", 1).isdecimal() else cell or None for cell in row])
    book.save(path)


def write_ods(path: Path, rows: Rows, heading: str = "") -> None:
    """Write an OpenDocument spreadsheet (ISO/IEC 26300, from memory) of text cells."""
    names = ("office", "table", "text")
    spaces = " ".join(f'xmlns:{name}="urn:oasis:names:tc:opendocument:xmlns:{name}:1.0"' for name in names)
    written = "".join(
        "<table:table-row>"
        + "".join(
            f'<table:table-cell office:value-type="string"><text:p>{escape(cell)}</text:p></table:table-cell>'
            if cell
            else "<table:table-cell/>"
            for cell in row
        )
        + "</table:table-row>"
        for row in ([[heading]] if heading else []) + [list(row) for row in rows]
    )
    content = (
        f"<?xml version='1.0' encoding='UTF-8'?><office:document-content {spaces}><office:body><office:spreadsheet>"
        f'<table:table table:name="Lines">{written}</table:table>'
        "</office:spreadsheet></office:body></office:document-content>"
    )
    pack_ods(path, content)


def pack_ods(path: Path, content: str) -> None:
    """Write an open document spreadsheet around its content."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
        archive.writestr("content.xml", content)
        manifest = "urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"
        archive.writestr("META-INF/manifest.xml", f'<m:manifest xmlns:m="{manifest}"/>')
