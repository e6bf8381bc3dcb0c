"""Sections of tests as the papers that writers send: plain text, Word documents and PDF files.

In the text of a section parts begin at the margin, articles two blanks in, paragraphs four, as in the demo; others have
their numbers typed. Rows of tables stand between bars: `<` goes on with the cell to the left, `^` with the one above.
"""

from __future__ import annotations

import html
import io
import re
from collections.abc import Iterator, Sequence

from tests.specification.shipped import section_document

RAISED = "¹²³"
Rows = list[list[str]]


def typed(text: str) -> str:
    """The text of a section with its numbers typed and the cells of its tables spelled out, as `draft` reads it."""
    return "\n".join("\n".join(f"| {' | '.join(row)} |" for row in one) if isinstance(one, list) else one
                     for one in parts_of(text)) + "\n"  # fmt: skip


def parts_of(text: str) -> Iterator[str | Rows]:
    """Yield the paragraphs of a section with their numbers typed, and its tables with each cell spelled out."""
    part = article = paragraph = 0
    rows: Rows = []
    for line in [*text.splitlines(), ""]:
        if line.startswith("|"):
            rows.append(_spelled_out([cell.strip() for cell in line.strip().strip("|").split("|")], rows))
            continue
        if rows:
            yield rows
            rows = []
        if line.startswith("PART "):
            part, article = part + 1, 0
            yield f"PART {part} - {line.removeprefix('PART ')}"
        elif line.startswith("    "):
            paragraph += 1
            yield f"{chr(ord('A') + paragraph - 1)}. {line.strip()}"
        elif line.startswith("  "):
            article, paragraph = article + 1, 0
            yield f"{part}.{article} {line.strip()}"
        elif line.strip():
            yield line


def _spelled_out(cells: Sequence[str], above: Rows) -> list[str]:
    found: list[str] = []
    for column, cell in enumerate(cells):
        found.append(found[-1] if cell == "<" else above[-1][column] if cell == "^" else cell)
    return found


def as_document(text: str) -> bytes:
    """The Word document of a section: numbered by lists, or with its numbers typed where the text has them typed."""
    if text.startswith("PART "):
        return section_document(text)
    import docx

    document = docx.Document()
    for one in parts_of(text):
        if isinstance(one, str):
            _paragraph(document.add_paragraph(), one)
            continue
        table = document.add_table(rows=len(one), cols=len(one[0]))
        for row, cells in enumerate(one):
            for column, cell in enumerate(cells):
                _paragraph(table.cell(row, column).paragraphs[0], cell)
    written = io.BytesIO()
    document.save(written)
    return written.getvalue()


def _paragraph(paragraph, text: str) -> None:  # type: ignore[no-untyped-def]
    """Write words into a paragraph, what is raised as raised figures and not as characters of their own."""
    for run in re.split(f"([{RAISED}]+)", text):
        raised = bool(run) and run[0] in RAISED
        written = paragraph.add_run(run.translate(str.maketrans(RAISED, "123")) if raised else run)
        written.font.superscript = raised or None


def as_pdf(text: str) -> bytes:
    """The PDF of a section, numbers typed, tables ruled with a cell for each place, raised figures small and high."""
    from reportlab.lib.pagesizes import letter
    from reportlab.lib.styles import ParagraphStyle
    from reportlab.platypus import Paragraph, SimpleDocTemplate, Table

    style = ParagraphStyle("words", fontName="Helvetica", fontSize=10, leading=12, spaceAfter=8)
    cell = ParagraphStyle("cell", fontName="Helvetica", fontSize=9, leading=11)
    grid = [("GRID", (0, 0), (-1, -1), 0.5, "black")]
    flow = [
        Paragraph(_marked(one), style)
        if isinstance(one, str)
        else Table([[Paragraph(_marked(text), cell) for text in row] for row in one], style=grid, spaceAfter=8)
        for one in parts_of(text)
    ]
    written = io.BytesIO()
    SimpleDocTemplate(written, pagesize=letter, title="a section").build(flow)
    return written.getvalue()


def _marked(text: str) -> str:
    """Words as reportlab sets them; its fonts have no raised figures, so that they are set as such."""
    plain = re.sub(f"[{RAISED}]", lambda found: f"<super>{RAISED.index(found[0]) + 1}</super>", html.escape(text))
    return plain.replace("·", "&middot;")
