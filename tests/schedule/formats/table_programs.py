"""Tables without rules as programs print them: reportlab, Chromium, LibreOffice, and as word processors do."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from html import escape
from pathlib import Path
from typing import Any

from tests.schedule.formats.produced_tables import SOFT, Setting
from tests.schedule.formats.producers import by_browser, by_office

_AT_ONCE = 200
"""Files that LibreOffice converts in one run; it leaves out what goes beyond about 250."""
_FRACTION = re.compile(r"(\d+ )?(\d+)/(\d+)")
_FAMILIES = {"Helvetica": "Liberation Sans", "Times-Roman": "Liberation Serif"}
"""The families of letters in which browsers and offices set what reportlab sets in the fonts of a PDF."""


Table = tuple[Sequence[Sequence[str]], Setting]


def by_reportlab(tables: Mapping[Path, Table]) -> None:
    """Write each table by the tables of reportlab, its cells paragraphs."""
    from reportlab.lib.styles import ParagraphStyle
    from reportlab.platypus import Paragraph, SimpleDocTemplate
    from reportlab.platypus import Table as Laid

    for path, (rows, how) in tables.items():
        style = ParagraphStyle("cell", fontName=how.font, fontSize=how.size, leading=1.2 * how.size)
        right = ParagraphStyle("number", style, alignment=2)
        cells = [
            [Paragraph(_marked_up(text, how), right if i in how.right_aligned else style) for i, text in enumerate(row)]
            for row in rows
        ]
        commands: list[Any] = [("VALIGN", (0, 0), (-1, -1), how.level.upper())]
        commands += [(f"{side}PADDING", (0, 0), (-1, -1), how.padding) for side in ("LEFT", "RIGHT")]
        table = Laid(cells, [width + 2 * how.padding for width in how.widths], style=commands, repeatRows=1)
        content = [Paragraph(how.title)] * bool(how.title) + [table] + [Paragraph(how.note)] * bool(how.note)
        size = (max(612, sum(how.widths) + 2 * how.padding * len(how.widths) + 120), 792)
        SimpleDocTemplate(str(path), pagesize=size, leftMargin=40, rightMargin=40, invariant=1).build(content)


def _marked_up(text: str, how: Setting) -> str:
    """Return a text as reportlab marks it up; it knows no soft hyphens, so that a typist breaks the line."""
    told = escape(text, quote=False).replace(SOFT, "-<br/>" if len(text) % 2 else "")
    return _with_fractions(told, how, "<super>{}</super>", "<sub>{}</sub>")


def _with_fractions(text: str, how: Setting, above: str, below: str) -> str:
    """Return a text, its fractions in small raised figures or built up of a raised and a lowered one."""
    if how.fractions == "plain":
        return text

    def small(found: re.Match[str]) -> str:
        whole, over, under = (found[1] or "").strip(), found[2], found[3]
        if how.fractions == "raised":
            return whole + above.format(f"{over}/{under}")
        return f"{whole}{above.format(over)}\u2044{below.format(under)}"

    return _FRACTION.sub(small, text)


def by_chromium(tables: Mapping[Path, Table]) -> None:
    """Print each table as Chromium prints a page of HTML with `cellpadding` in pixels."""
    pages = {}
    for path, (rows, how) in tables.items():
        pages[path.with_suffix(".html")] = path
        path.with_suffix(".html").write_text(_page(rows, how), encoding="utf-8")
    by_browser(pages)


def _page(rows: Sequence[Sequence[str]], how: Setting) -> str:
    aligned = "".join(f"td:nth-child({i + 1}){{text-align:right}}" for i in how.right_aligned)
    width = sum(how.widths) + 40 * len(how.widths) + 100
    style = (
        f"@page{{size:{max(612, width):.0f}pt 792pt;margin:40pt}}table{{border-spacing:{len(rows) % 2 * 2}px;"
        f"font:{how.size}pt '{_FAMILIES[how.font]}';line-height:1.2}}"
        f"td{{vertical-align:{how.level}}}sup,sub{{font-size:60%}}{aligned}"
    )
    cells = ""
    for row in rows:
        cells += "<tr>"
        for i, text in enumerate(row):
            told = _with_fractions(escape(text, quote=False), how, "<sup>{}</sup>", "<sub>{}</sub>")
            cells += f'<td><div style="width:{how.widths[i]:.1f}pt">{told or "&nbsp;"}</div></td>'
        cells += "</tr>"
    table = f'<table cellpadding="{max(1, round(how.padding * 0.6))}">{cells}</table>'
    return f'<!doctype html><meta charset="utf-8"><style>{style}</style><p>{how.title}</p>{table}<p>{how.note}</p>'


def by_calc(tables: Mapping[Path, Table]) -> None:
    """Print each table as LibreOffice Calc prints a sheet without its grid, plain numbers as numbers on the right."""
    import openpyxl
    from openpyxl.styles import Alignment, Font
    from openpyxl.utils import get_column_letter

    books = {}
    for path, (rows, how) in tables.items():
        book = openpyxl.Workbook()
        sheet = book.worksheets[0]
        first = 3 if how.title else 1
        if how.title:
            sheet["A1"] = how.title
        for number, row in enumerate(rows, start=first):
            for column, text in enumerate(row, start=1):
                cell = sheet.cell(number, column)
                is_number = number > first and re.fullmatch(r"-?\d+(\.\d*[1-9])?", text)
                cell.value = (float(text) if is_number else text.replace(SOFT, "")) or None
                side = "right" if column - 1 in how.right_aligned else None
                level = {"middle": "center"}.get(how.level, how.level)
                cell.alignment = Alignment(horizontal=side, vertical=level, wrap_text=not is_number)
                cell.font = Font(name=_FAMILIES[how.font], size=how.size)
            most = max(_lines_of(text, how.widths[i], how) for i, text in enumerate(row))
            sheet.row_dimensions[number].height = 1.2 * how.size * most + 1
        for column, width in enumerate(how.widths, start=1):
            sheet.column_dimensions[get_column_letter(column)].width = (width + 2 + how.padding) / 5.25 + 0.71
        sheet.page_setup.orientation, sheet.page_setup.paperSize = "landscape", 8  # A3
        sheet.page_setup.fitToHeight = 0
        sheet.sheet_properties.pageSetUpPr = openpyxl.worksheet.properties.PageSetupProperties(fitToPage=True)
        books[path.with_suffix(".xlsx")] = path
        book.save(path.with_suffix(".xlsx"))
    _printed(books)


def _lines_of(text: str, room: float, how: Setting) -> int:
    """Return how many lines a text takes, as a spreadsheet finds when somebody wraps it."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    lines = [""]
    for word in text.replace(SOFT, "").split():
        longer = f"{lines[-1]} {word}".strip()
        if stringWidth(longer, how.font, how.size) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return len(lines)


def _printed(papers: Mapping[Path, Path]) -> None:
    """Print papers by LibreOffice."""
    for folder in {path.parent for path in papers}:
        own = [paper for paper in papers if paper.parent == folder]
        for first in range(0, len(own), _AT_ONCE):
            by_office(own[first : first + _AT_ONCE], ".pdf", folder)


def by_writer(tables: Mapping[Path, Table]) -> None:
    """Print each table as LibreOffice Writer prints a document of Word that has a table without rules."""
    from docx import Document
    from docx.enum.table import WD_ALIGN_VERTICAL
    from docx.enum.text import WD_ALIGN_PARAGRAPH
    from docx.shared import Pt

    levels = {"top": WD_ALIGN_VERTICAL.TOP, "middle": WD_ALIGN_VERTICAL.CENTER, "bottom": WD_ALIGN_VERTICAL.BOTTOM}
    papers = {}
    for path, (rows, how) in tables.items():
        document = Document()
        section = document.sections[0]
        section.page_width = Pt(max(612, sum(how.widths) + 2 * how.padding * len(how.widths) + 120))
        section.left_margin = section.right_margin = Pt(40)
        style = document.styles["Normal"]
        style.font.name = _FAMILIES[how.font]
        style.font.size, style.paragraph_format.space_after = Pt(how.size), Pt(0)
        if how.title:
            document.add_paragraph(how.title)
            document.add_paragraph("")
        table = document.add_table(len(rows), len(rows[0]))
        table.autofit = False
        _set_margins(table, how.padding)
        for i, width in enumerate(how.widths):
            table.columns[i].width = Pt(width + 2 * how.padding)
        for row, texts in zip(table.rows, rows, strict=True):
            for i, (cell, text) in enumerate(zip(row.cells, texts, strict=True)):
                cell.width, cell.vertical_alignment = Pt(how.widths[i] + 2 * how.padding), levels[how.level]
                _say(cell.paragraphs[0], text, how)
                if i in how.right_aligned:
                    cell.paragraphs[0].alignment = WD_ALIGN_PARAGRAPH.RIGHT
        if how.note:
            document.add_paragraph(how.note)
        papers[path.with_suffix(".docx")] = path
        document.save(str(path.with_suffix(".docx")))
    _printed(papers)


def _set_margins(table: Any, padding: float) -> None:
    """Set the left and right margins of all cells of a Word table, in points."""
    from docx.oxml import OxmlElement
    from docx.oxml.ns import qn

    margins = OxmlElement("w:tblCellMar")
    for side in ("left", "right"):
        one = OxmlElement(f"w:{side}")
        one.set(qn("w:w"), str(round(20 * padding)))
        one.set(qn("w:type"), "dxa")
        margins.append(one)
    table._tbl.tblPr.append(margins)


def _say(paragraph: Any, text: str, how: Setting) -> None:
    """Put a text into a paragraph of Word, its fractions as runs of raised and lowered figures."""
    for part in re.split(r"([<>][^<>]*[<>])", _with_fractions(text, how, "<{}<", ">{}>")):
        run = paragraph.add_run(part.strip("<>"))
        if part.startswith(("<", ">")):
            setattr(run.font, "superscript" if part[0] == "<" else "subscript", True)


def by_word_processor(tables: Mapping[Path, Table]) -> None:
    """Draw each table as word processors print one: cell by cell, line by line, each word at a place of its own."""
    from reportlab.pdfbase.pdfmetrics import registerFont
    from reportlab.pdfbase.ttfonts import TTFont
    from reportlab.pdfgen.canvas import Canvas

    registerFont(TTFont("Vera", "Vera.ttf"))  # reportlab carries it
    for path, (rows, how) in tables.items():
        widths = [width * 1.2 + 2 * how.padding for width in how.widths]  # its letters are wider
        canvas = Canvas(str(path), pagesize=(max(612, sum(widths) + 120), 792), invariant=1)
        y = 752.0
        if how.title:
            canvas.setFont("Vera", how.size)
            canvas.drawString(40, y, how.title)
            y -= 2 * how.size
        for row in rows:
            cells = [_wrapped(text, width - 2 * how.padding, how) for text, width in zip(row, widths, strict=True)]
            most = max(map(len, cells))
            if y - 1.17 * how.size * most < 40:
                canvas.showPage()
                y = 752.0
            for i, lines in enumerate(cells):
                lower = {"top": 0.0, "middle": (most - len(lines)) / 2, "bottom": float(most - len(lines))}[how.level]
                for n, line in enumerate(lines):
                    x = 40 + sum(widths[:i]) + how.padding
                    own = sum(_set_width(word, small, how) for word, small in line)
                    own -= _set_width(" ", "", how) if line and line[-1][0].endswith(" ") else 0.0
                    room = widths[i] - 2 * how.padding - own
                    x += max(room, 0) if i in how.right_aligned else 0
                    for word, small in line:
                        canvas.setFont("Vera", 0.65 * how.size if small else how.size)
                        up = {"up": 0.35, "down": -0.12}.get(small, 0.0) * how.size
                        canvas.drawString(x, y - (lower + n) * 1.17 * how.size + up, word)
                        x += _set_width(word, small, how)
            y -= 1.17 * how.size * most + 0.5
        if how.note:
            canvas.setFont("Vera", how.size)
            canvas.drawString(40, y - how.size, how.note)
        canvas.save()


def _set_width(word: str, small: str, how: Setting) -> float:
    from reportlab.pdfbase.pdfmetrics import stringWidth

    return float(stringWidth(word, "Vera", 0.65 * how.size if small else how.size))


def _wrapped(text: str, room: float, how: Setting) -> list[list[tuple[str, str]]]:
    """Return the lines of a text, each of words with the blanks behind them, and which of these are raised."""
    lines: list[list[tuple[str, str]]] = [[]]
    for word in re.findall(r"\S+\s*", text.replace(SOFT, "").replace("fi", "\ufb01")):
        told = _with_fractions(word, how, "<{}<", ">{}>").replace("\u2044", "/")  # which the font lacks
        parts = re.split(r"([<>][^<>]*[<>])", told)
        own = [
            (part.strip("<>"), {"<": "up", ">": "down"}.get(part[:1], "")) for part in parts if part.strip("<>") != ""
        ]
        width = sum(_set_width(part.rstrip(), small, how) for part, small in own)
        if lines[-1] and sum(_set_width(*one, how) for one in lines[-1]) + width > room:
            lines.append([])
        lines[-1] += own
    return lines


PROGRAMS: dict[str, Callable[[Mapping[Path, Table]], None]] = {
    "reportlab": by_reportlab,
    "Chromium": by_chromium,
    "Calc": by_calc,
    "Writer": by_writer,
    "word processor": by_word_processor,
}
