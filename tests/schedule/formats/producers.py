"""Sheets of texts with merged cells, written as papers in the ways in which the programs of an office write them.

The same sheet goes into workbooks, Word documents and PDF files, with rules and without. Libraries write what they
write; LibreOffice and Chromium are run where they are installed; what a word processor writes, broken runs in a
document, and rules that are thin filled boxes in a PDF, is written by hand.
"""

from __future__ import annotations

import itertools
import re
import shutil
import subprocess
import tempfile
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from html import escape
from pathlib import Path
from typing import Any

from speccheck.schedule.grid import Grid, MergedRange
from speccheck.schedule.messages.cells import STRUCK

OFFICE = shutil.which("soffice")
BROWSER = shutil.which("chromium")
_FILTERS = {
    ".docx": "docx:MS Word 2007 XML",
    ".xlsx": "xlsx:Calc MS Excel 2007 XML",
    ".csv": "csv:Text - txt - csv (StarCalc):44,34,76",  # commas, quotes, UTF-8
}


@dataclass(frozen=True)
class Sheet:
    """A sheet: its name, its rows of equally many texts, and its merged ranges."""

    name: str
    rows: tuple[tuple[str, ...], ...]
    blocks: tuple[MergedRange, ...] = ()

    @property
    def titles(self) -> list[str]:
        """The texts that stand alone in the first rows; on paper they are lines above the table."""
        alone = itertools.takewhile(lambda row: not any(row[1:]), self.rows)
        return [row[0] for row in alone if row[0]]

    @property
    def table(self) -> Sheet:
        """The sheet from the first row that has more than one text."""
        first = sum(1 for _ in itertools.takewhile(lambda row: not any(row[1:]), self.rows))
        moved = (MergedRange(b.top - first, b.left, b.bottom - first, b.right) for b in self.blocks if b.top >= first)
        return Sheet(self.name, self.rows[first:], tuple(moved))

    def block_from(self, row: int, column: int) -> MergedRange:
        """Return the merged range that begins at a cell, the cell alone where none does."""
        for block in self.blocks:
            if (block.top, block.left) == (row, column):
                return block
        return MergedRange(row, column, row, column)

    def is_covered(self, row: int, column: int) -> bool:
        """Whether a cell lies in a merged range that begins elsewhere."""
        return any(
            one.top <= row <= one.bottom and one.left <= column <= one.right and (one.top, one.left) != (row, column)
            for one in self.blocks
        )


def sheets_of(grids: Iterable[Grid]) -> list[Sheet]:
    """Return grids as sheets of what they show: what is hidden or struck through is left out, as on a print."""
    found = []
    for grid in grids:
        shown = {
            at: cell.text for at, cell in grid.cells.items() if cell.trouble != STRUCK.code and not _is_hidden(grid, at)
        }
        if grid.hidden or not shown:
            continue
        rows = [row for row in range(max(row for row, _ in shown) + 1) if row not in grid.hidden_rows]
        columns = [one for one in range(max(column for _, column in shown) + 1) if one not in grid.hidden_columns]
        texts = tuple(tuple(shown.get((row, column), "") for column in columns) for row in rows)
        found.append(Sheet(grid.sheet, texts, tuple(_moved(grid.blocks, rows, columns))))
    return found


def _is_hidden(grid: Grid, at: tuple[int, int]) -> bool:
    return at[0] in grid.hidden_rows or at[1] in grid.hidden_columns


def _moved(blocks: Iterable[MergedRange], rows: Sequence[int], columns: Sequence[int]) -> Iterable[MergedRange]:
    """Yield merged ranges by the rows and columns that are shown."""
    for block in blocks:
        down = [index for index, row in enumerate(rows) if block.top <= row <= block.bottom]
        across = [index for index, column in enumerate(columns) if block.left <= column <= block.right]
        if down and across and len(down) * len(across) > 1:
            yield MergedRange(down[0], across[0], down[-1], across[-1])


# ---- workbooks -------------------------------------------------------------------------------------------------------


def write_workbook(path: Path, sheets: Sequence[Sheet]) -> None:
    """Write an .xlsx workbook by openpyxl, plain numbers as numbers, each sheet set to be printed on one page wide."""
    import openpyxl

    book = openpyxl.Workbook()
    book.remove(book.worksheets[0])
    for one in sheets:
        sheet = book.create_sheet(one.name[:31])
        for number, row in enumerate(one.rows, start=1):
            for column, text in enumerate(row, start=1):
                if text:
                    sheet.cell(number, column).value = float(text) if is_plain_number(text) else text
        for letter, texts in zip(_letters(one), zip(*one.rows, strict=True), strict=True):
            longest = max(len(line) for text in texts for line in (text.split("\n")))
            sheet.column_dimensions[letter].width = min(longest, 60) * 1.15 + 2
        for block in one.blocks:
            sheet.merge_cells(None, block.top + 1, block.left + 1, block.bottom + 1, block.right + 1)
        sheet.page_setup.orientation = "landscape"
        sheet.page_setup.fitToHeight, sheet.page_setup.paperSize = 0, 8  # A3
        sheet.sheet_properties.pageSetUpPr = openpyxl.worksheet.properties.PageSetupProperties(fitToPage=True)
    book.save(path)


def _letters(sheet: Sheet) -> list[str]:
    from openpyxl.utils import get_column_letter

    return [get_column_letter(number) for number in range(1, len(sheet.rows[0]) + 1)]


def is_plain_number(text: str) -> bool:
    """Whether a text is a number that a workbook gives back as it is written."""
    return re.fullmatch(r"\d+(\.\d*[1-9])?", text) is not None


# ---- documents -------------------------------------------------------------------------------------------------------


def write_document(path: Path, sheets: Sequence[Sheet], *, ruled: bool = True, broken: bool = False) -> None:
    """Write a .docx document by python-docx, each sheet a heading and a table; `broken` breaks its words into runs.

    Word breaks words wherever somebody stopped typing, or where its spelling was checked.
    """
    from docx import Document
    from docx.enum.section import WD_ORIENT
    from docx.shared import Inches, Pt

    document = Document()
    section = document.sections[0]
    section.orientation = WD_ORIENT.LANDSCAPE
    wide = max(len(one.rows[0]) for one in sheets) > 20
    section.page_width, section.page_height = Inches(22 if wide else 17), Inches(11)
    section.left_margin = section.right_margin = Inches(0.5)
    document.styles["Normal"].font.size = Pt(5 if wide else 8)
    for one in sheets:
        for title in _said_above(one, sheets):
            document.add_paragraph(title)
        one = one.table
        table = document.add_table(len(one.rows), len(one.rows[0]))
        table.style = "Table Grid" if ruled else "Normal Table"
        grid = [list(row.cells) for row in table.rows]
        for block in one.blocks:
            grid[block.top][block.left].merge(grid[block.bottom][block.right])
        for row, texts in enumerate(one.rows):
            for column, text in enumerate(texts):
                if text and not one.is_covered(row, column):
                    _say(grid[row][column].paragraphs[0], text, broken)
    document.save(str(path))


def _say(paragraph: Any, text: str, broken: bool) -> None:
    """Put a text into a paragraph, in one run or in broken ones."""
    if not broken:
        paragraph.add_run(text)
        return
    from docx.oxml import OxmlElement

    for number, first in enumerate(range(0, len(text), 3)):
        run = paragraph.add_run(text[first : first + 3])
        run._r.set("{http://schemas.openxmlformats.org/wordprocessingml/2006/main}rsidR", f"00A{number:05X}")
        if not number:
            run._r.insert(0, OxmlElement("w:lastRenderedPageBreak"))
        run._r.addnext(OxmlElement("w:proofErr"))


def write_page(path: Path, sheets: Sequence[Sheet], *, ruled: bool = True) -> None:
    """Write a page of HTML with a table for each sheet."""
    style = "table{border-collapse:collapse;font:8pt sans-serif}td{padding:2pt 6pt;white-space:pre-line}"
    style += "td{border:0.5pt solid black}" if ruled else ""
    border = " border=1" if ruled else ""
    body = "".join(
        "".join(f"<p>{escape(title)}</p>" for title in _said_above(one, sheets))
        + f"<table{border}>{_html_rows(one.table)}</table>"
        for one in sheets
    )
    paper = f"@page{{size:{max(17, len(sheets[0].rows[0]))}in 11in;margin:0.5in}}"
    head = f'<meta charset="utf-8"><style>{paper}{style}</style>'
    path.write_text(f"<!doctype html><html><head>{head}</head><body>{body}</body></html>", encoding="utf-8")


def _html_rows(sheet: Sheet) -> str:
    rows = []
    for row, texts in enumerate(sheet.rows):
        cells = ""
        for column, text in enumerate(texts):
            if not sheet.is_covered(row, column):
                block = sheet.block_from(row, column)
                down, across = block.bottom - block.top + 1, block.right - block.left + 1
                spans = f' rowspan="{down}"' * (down > 1) + f' colspan="{across}"' * (across > 1)
                cells += f"<td{spans}>{escape(text) or '&nbsp;'}</td>"
        rows.append(f"<tr>{cells}</tr>")
    return "".join(rows)


# ---- PDF files -------------------------------------------------------------------------------------------------------


def write_pdf(path: Path, sheets: Sequence[Sheet], *, ruled: bool = True) -> None:
    """Write a PDF by the tables of reportlab, the header repeated on each page, on paper as wide as is needed."""
    from reportlab.lib import colors
    from reportlab.platypus import Paragraph, SimpleDocTemplate, Table

    width, content = 792.0, []
    for one in sheets:
        content += [Paragraph(escape(title)) for title in _said_above(one, sheets)]
        one = one.table
        commands: list[Any] = [("FONTSIZE", (0, 0), (-1, -1), 7), ("VALIGN", (0, 0), (-1, -1), "TOP")]
        commands += [("SPAN", (block.left, block.top), (block.right, block.bottom)) for block in one.blocks]
        commands += [("GRID", (0, 0), (-1, -1), 0.5, colors.black)] if ruled else []
        table = Table([list(row) for row in one.rows], style=commands)
        width = max(width, table.wrap(10_000, 10_000)[0] + 100)
        content.append(table)
    margins = dict.fromkeys(("leftMargin", "rightMargin", "topMargin", "bottomMargin"), 40)
    SimpleDocTemplate(str(path), pagesize=(width, 612), invariant=1, **margins).build(content)


def write_word_like_pdf(path: Path, sheets: Sequence[Sheet], *, ruled: bool = True) -> None:
    """Write a PDF as word processors print tables: an embedded font, each word set alone, rules as filled boxes."""
    from reportlab.pdfbase.pdfmetrics import registerFont, stringWidth
    from reportlab.pdfbase.ttfonts import TTFont
    from reportlab.pdfgen.canvas import Canvas

    registerFont(TTFont("Vera", "Vera.ttf"))  # reportlab carries it
    size, pad, pitch = 7.0, 5.4, 8.6
    laid = [_widths(one.table, lambda text: stringWidth(text, "Vera", size) + 2 * pad) for one in sheets]
    canvas = Canvas(str(path), pagesize=(max(sum(widths) for widths in laid) + 120, 792), invariant=1)
    for sheet, widths in zip(sheets, laid, strict=True):
        one, titles = sheet.table, _said_above(sheet, sheets)
        heights = [max(len(text.split("\n")) for text in row) * pitch + 3 for row in one.rows]
        top, canvas_y = 0, 740.0
        while top < len(one.rows):
            canvas.setFont("Vera", size)
            for title in titles:
                canvas.drawString(60, canvas_y, title)
                canvas_y -= 12
            y, titles = canvas_y, []
            last = top
            while last < len(one.rows) and (y - heights[last] > 50 or last == top):
                y -= heights[last]
                last += 1
            _word_like_rows(canvas, one, (top, last), widths, heights, canvas_y, ruled)
            canvas.showPage()
            top, canvas_y = last, 740.0
    canvas.save()


def _said_above(sheet: Sheet, sheets: Sequence[Sheet]) -> list[str]:
    """Return the lines above a table: the name of its sheet where there are several, and its titles."""
    return [sheet.name] * (len(sheets) > 1) + sheet.titles


def _widths(sheet: Sheet, width: Any) -> list[float]:
    """Return how wide columns are, by the texts of cells that are one column wide."""
    widths = [30.0] * len(sheet.rows[0])
    for row, texts in enumerate(sheet.rows):
        for column, text in enumerate(texts):
            block = sheet.block_from(row, column)
            if block.left == block.right:
                widths[column] = max(widths[column], *(width(line) for line in text.split("\n")))
    for block in sheet.blocks:
        needed = max(width(line) for line in sheet.rows[block.top][block.left].split("\n"))
        there = sum(widths[block.left : block.right + 1])
        widths[block.right] += max(needed - there, 0)
    return widths


def _word_like_rows(
    canvas: Any, sheet: Sheet, rows: tuple[int, int], widths: Sequence[float], heights: Sequence[float], y: float,
    ruled: bool,
) -> None:  # fmt: skip
    """Draw rows, from the first to before the last, at a height."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    first, last = rows
    lefts = [60 + sum(widths[:column]) for column in range(len(widths) + 1)]
    tops = {row: y - sum(heights[first:row]) for row in range(first, last + 1)}
    for row in range(first, last):
        for column, text in enumerate(sheet.rows[row]):
            if sheet.is_covered(row, column):
                continue
            block = sheet.block_from(row, column)
            left, right = lefts[block.left], lefts[block.right + 1]
            top, bottom = tops[row], tops[min(block.bottom + 1, last)]
            if ruled:
                for box in ((left, top, right - left, 0.48), (left, bottom, right - left, 0.48),
                            (left, bottom, 0.48, top - bottom), (right, bottom, 0.48, top - bottom)):  # fmt: skip
                    canvas.rect(*box, stroke=0, fill=1)
            for number, line in enumerate(text.split("\n")):
                x = left + 5.4
                for word in re.findall(r"\S+\s*", line):
                    canvas.drawString(x, top - 8 - number * 8.6, word)
                    x += stringWidth(word, "Vera", 7)


# ---- programs --------------------------------------------------------------------------------------------------------


def by_office(paths: Sequence[Path], ending: str, into: Path, *, reader: str = "") -> dict[Path, Path]:
    """Return files as LibreOffice converts them, by what they were made from; `reader` is its import filter."""
    if not paths or OFFICE is None:
        return {}
    into.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as profile:
        command = [OFFICE, "--headless", f"-env:UserInstallation=file://{profile}"]
        command += [f"--infilter={reader}"] if reader else []
        command += ["--convert-to", _FILTERS.get(ending, ending[1:]), "--outdir", str(into), *map(str, paths)]
        subprocess.run(command, capture_output=True, timeout=600, check=True)
    made = {path: into / f"{path.stem}{ending}" for path in paths}
    return {path: one for path, one in made.items() if one.exists()}


def by_browser(pages: Mapping[Path, Path]) -> None:
    """Print pages of HTML by Chromium into the PDF files that are named, which it does as a user's "save as PDF"."""
    if BROWSER is None:
        return
    from playwright.sync_api import sync_playwright

    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=BROWSER, args=["--no-sandbox"])
        page = browser.new_page()
        for source, target in pages.items():
            page.goto(source.absolute().as_uri())
            page.pdf(path=str(target), prefer_css_page_size=True)
        browser.close()
