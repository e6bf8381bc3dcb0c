"""Random tables without rules as programs print them: reportlab, LibreOffice, Chromium, word processors.

Columns stand as close together as these programs set them: with the padding of a cell that a person can choose, down to
one point or pixel. Cells wrap at the width of their column, numbers stand on the right, fractions are raised, words are
hyphenated where they may be. What a program does to a text is its own; nothing here draws what none would.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from html import escape
from pathlib import Path
from typing import Any

from speccheck.schedule.formats.pdf_tables import read_pdf
from speccheck.schedule.grid import Grid
from tests.schedule.formats.producers import by_browser, by_office

SOFT = "\u00ad"
MARKS = ("Mark", "Tag", "System", "Item")
CELLS = (
    (("Service", "System served", "Fluid"), ["chilled water", "heating hot water", "domestic hot water supply",
     "steam condensate", "steam", "condenser water, outdoor", "refrig\u00aderant suction", "specified fluid", ""]),
    (("Size (in)", "Pipe size (in)", "NPS"), ["1/2", "1 1/2", "2", "2 to 4", "1/2 to 1 1/2", "12",
     "2 1/2 and larger", "3/4"]),
    (("Thk (in)", "Insulation thickness (in)", "Thickness"), ["1", "1.5", "1 1/2", "2", "3", "1/2", ""]),
    (("Op. temp (F)", "Operating temperature (F)", "Temp."), ["42", "180", "350", "40 to 60", "140 to 180", "-20"]),
    (("Insulation", "Insulation type", "Material"), ["fiberglass", "elasto\u00admeric", "cellular glass",
     "mineral fiber", "flexible elasto\u00admeric, closed cell"]),
    (("Jacket", "Jacket / finish"), ["PVC", "aluminum 0.016 in", "none", "", "all service jacket", "canvas & mastic"]),
    (("Location", "Where installed"), ["plenum", "outdoor", "mechanical room", "above ceiling, not plenum", "tunnel"]),
    (("Length (ft)", "Qty"), ["10", "125", "1,250", "40", ""]),
    (("Notes", "Remarks"), ["", "", "see detail 3", "by others, under another section", "2 layers, staggered"]),
)  # fmt: skip
_FRACTION = re.compile(r"(\d+ )?(\d+)/(\d+)")


@dataclass(frozen=True)
class Setting:
    """How a table is set: padding in points beside a text, sizes of letters, widths and alignment of its columns."""

    font: str
    size: float
    padding: float
    widths: tuple[float, ...]
    right_aligned: tuple[int, ...]
    level: str
    fractions: str
    title: str
    note: str


def drawn(seed: int) -> tuple[list[list[str]], Setting]:
    """Return a random table, each line with a mark of its own, and how it is set."""
    chance = random.Random(seed)
    columns = chance.sample(CELLS, chance.randint(2, len(CELLS)))
    rows = [[chance.choice(MARKS), *(chance.choice(headers) for headers, _ in columns)]]
    prefix = chance.choice(["P-", "CHW-", "S", "A1-", ""])
    rows += [
        [f"{prefix}{number}", *(chance.choice(texts) for _, texts in columns)]
        for number in range(1, chance.randint(3, 16))
    ]
    if prefix and chance.random() < 0.2:  # marks are not always first
        place = chance.randrange(len(rows[0]))
        rows = [[*row[1 : place + 1], row[0], *row[place + 1 :]] for row in rows]
    size = chance.choice([6, 7, 8, 9, 10])
    narrow = chance.choice([0.45, 0.6, 0.8, 1, 1])
    return rows, Setting(
        font=chance.choice(["Helvetica", "Times-Roman"]),
        size=size,
        padding=chance.choice([1, 1.5, 2, 3, 4, 6]),
        widths=tuple(_width(column, size, narrow) for column in zip(*rows, strict=True)),
        right_aligned=tuple(chance.sample(range(1, len(rows[0])), chance.randint(0, 2))),
        level=chance.choice(["top", "top", "middle", "bottom"]),
        fractions=chance.choice(["plain", "plain", "raised", "built"]),
        title=chance.choice(["", "PIPE INSULATION", "Schedule of piping at the dairy"]),
        note=chance.choice(["", "", "Note: all seams are sealed."]),
    )


def _width(texts: Sequence[str], size: float, narrow: float) -> float:
    """Return how wide the texts of a column may be, in points: a part of the longest, and never less than a word."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    def width(text: str) -> float:
        return float(stringWidth(text.replace(SOFT, ""), "Helvetica-Bold", size))

    words = [word for text in texts for word in text.split()]
    return max(narrow * max(map(width, texts)), *(width(word) for word in words), size) + 1


# ---- the programs ----------------------------------------------------------------------------------------------------

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
    family = {"Helvetica": "Liberation Sans", "Times-Roman": "Liberation Serif"}[how.font]
    aligned = "".join(f"td:nth-child({i + 1}){{text-align:right}}" for i in how.right_aligned)
    width = sum(how.widths) + 40 * len(how.widths) + 100
    style = (
        f"@page{{size:{max(612, width):.0f}pt 792pt;margin:40pt}}table{{border-spacing:{len(rows) % 2 * 2}px;"
        f"font:{how.size}pt '{family}';line-height:1.2}}"
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
        family = {"Helvetica": "Liberation Sans", "Times-Roman": "Liberation Serif"}[how.font]
        for number, row in enumerate(rows, start=first):
            for column, text in enumerate(row, start=1):
                cell = sheet.cell(number, column)
                is_number = number > first and re.fullmatch(r"-?\d+(\.\d*[1-9])?", text)
                cell.value = (float(text) if is_number else text.replace(SOFT, "")) or None
                side = "right" if column - 1 in how.right_aligned else None
                level = {"middle": "center"}.get(how.level, how.level)
                cell.alignment = Alignment(horizontal=side, vertical=level, wrap_text=not is_number)
                cell.font = Font(name=family, size=how.size)
        for column, width in enumerate(how.widths, start=1):
            sheet.column_dimensions[get_column_letter(column)].width = (width + 2 + how.padding) / 5.25 + 0.71
        sheet.page_setup.orientation, sheet.page_setup.paperSize = "landscape", 8  # A3
        sheet.page_setup.fitToHeight = 0
        sheet.sheet_properties.pageSetUpPr = openpyxl.worksheet.properties.PageSetupProperties(fitToPage=True)
        books[path.with_suffix(".xlsx")] = path
        book.save(path.with_suffix(".xlsx"))
    _printed(books)


def _printed(papers: Mapping[Path, Path]) -> None:
    """Print papers by LibreOffice."""
    for folder in {path.parent for path in papers}:
        by_office([paper for paper in papers if paper.parent == folder], ".pdf", folder)


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
        style.font.name = {"Helvetica": "Liberation Sans", "Times-Roman": "Liberation Serif"}[how.font]
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
                    room = widths[i] - 2 * how.padding - sum(_set_width(*one, how) for one in line)
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


# ---- what is read ----------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Outcome:
    """How many filled cells below the headers a table has, how many were read, and what was read as another value."""

    filled: int
    right: int
    wrong: tuple[str, ...]


def outcome_of(path: Path, rows: Sequence[Sequence[str]]) -> Outcome:
    """Return what is read of a printed table."""
    headers = {_plain(text): text for text in rows[0]}
    truth = [dict(zip(rows[0], map(_plain, row), strict=True)) for row in rows[1:]]
    grids, diagnostics = read_pdf(path)
    assert [str(one) for one in diagnostics] == []
    told = [one for grid in grids for one in _told(grid, headers, truth, _plain(_mark_header(rows)))]
    filled = sum(bool(text) for row in rows[1:] for text in row)
    return Outcome(filled, sum(right for right, _ in told), tuple(what for _, what in told if what))


def _mark_header(rows: Sequence[Sequence[str]]) -> str:
    return next(text for text in rows[0] if text in MARKS)


def _told(
    grid: Grid, headers: Mapping[str, str], truth: Sequence[Mapping[str, str]], mark: str
) -> Iterator[tuple[int, str]]:
    """Yield for each row of a grid how many cells are read as written, or what is read that no row of the table has."""
    names: dict[int, str] = {}
    for row, columns in grid.columns_by_row.items():
        if row not in grid.table_rows:
            continue
        texts = {column: _plain(grid.text(row, column)) for column in columns}
        sure = {column: text for column, text in texts.items() if not grid.cells[row, column].trouble}
        if mark in texts.values():
            names = {column: headers[text] for column, text in sure.items() if text in headers}
            odd = [text for text in sure.values() if text not in headers]
            yield 0, f"headers {odd}" if odd else ""
            continue
        said = {names[column]: text for column, text in sure.items() if column in names}
        line = next((line for line in truth if said.items() <= line.items()), None)
        if said and line is None:
            yield 0, f"row {row}: {said}"
        elif said.get(headers[mark]):
            yield len(said), ""


def _plain(text: str) -> str:
    """Return a text in one line, without the hyphens at which its words may be broken."""
    told = " ".join(text.replace("\ufb01", "fi").replace("\u2044", "/").split())
    return told.replace(SOFT, "").replace("elasto-meric", "elastomeric").replace("refrig-erant", "refrigerant")
