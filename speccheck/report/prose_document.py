"""A ruleset as a specification section for a word processor: an Office Open XML document, the same bytes on each run.

Stands on python-docx, which comes with the optional extra `word`.
"""

from __future__ import annotations

import io
from importlib.util import find_spec
from typing import TYPE_CHECKING

from speccheck.language.core import Ruleset
from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.report.prose import Article, Paragraph, ProseTable, Section, section_of
from speccheck.report.prose_page import WRITTEN_FROM_RULES
from speccheck.report.workbook import without_clock

if TYPE_CHECKING:
    from docx.document import Document

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def missing_library() -> Diagnostic | None:
    """Return what to install where python-docx is not there."""
    if find_spec("docx") is not None:
        return None
    message, help = "documents need the library `python-docx`", "install it with `pip install speccheck[word]`"
    return Diagnostic("R201", Severity.ERROR, message, Place(), help)


def render_prose_document(ruleset: Ruleset) -> bytes:
    """Return the section as the bytes of a .docx file; needs python-docx (see `missing_library`)."""
    import docx

    document = docx.Document()
    section = section_of(ruleset)
    document.core_properties.title = section.title
    document.core_properties.author = "speccheck"
    document.core_properties.comments = ""
    _fill(document, section)
    written = io.BytesIO()
    document.save(written)
    return without_clock(written.getvalue())


def _fill(document: Document, section: Section) -> None:
    from docx.enum.text import WD_ALIGN_PARAGRAPH

    document.add_heading(section.title, 0)
    for caution in WRITTEN_FROM_RULES:
        document.add_paragraph(caution, style="Intense Quote")
    for part in section.parts:
        document.add_heading(f"PART {part.number} - {part.title.upper()}", 1)
        if not part.articles:
            document.add_paragraph("Not used.")
        for article in part.articles:
            _fill_article(document, article)
    document.add_paragraph("END OF SECTION").alignment = WD_ALIGN_PARAGRAPH.CENTER


def _fill_article(document: Document, article: Article) -> None:
    document.add_heading(f"{article.number} {article.title.upper()}", 2)
    for number, paragraph in enumerate(article.paragraphs):
        _fill_paragraph(document, paragraph, lettered(number))
    for table in article.tables:
        _fill_table(document, table)


def _fill_paragraph(document: Document, paragraph: Paragraph, letter: str) -> None:
    from docx.shared import Inches

    written = document.add_paragraph()
    written.paragraph_format.left_indent, written.paragraph_format.first_line_indent = Inches(0.6), Inches(-0.35)
    written.add_run(f"{letter}.\t")
    if paragraph.title:
        written.add_run(f"{paragraph.title} ").bold = True
        written.add_run(f"(clause {paragraph.label}) ").italic = True
    written.add_run(paragraph.text)
    for number, text in enumerate(paragraph.inner, start=1):
        inner = document.add_paragraph(f"{number}.\t{text}")
        inner.paragraph_format.left_indent, inner.paragraph_format.first_line_indent = Inches(1.0), Inches(-0.35)


def _fill_table(document: Document, table: ProseTable) -> None:
    document.add_paragraph(table.title, style="Caption")
    grid = document.add_table(rows=0, cols=len(table.head), style="Light Grid")
    for row in (table.head, *table.rows):
        cells = grid.add_row().cells
        for cell, text in zip(cells, row, strict=True):
            cell.text = text
    for text in table.remarks:
        document.add_paragraph(text)


def lettered(number: int) -> str:
    """Return the letters of a paragraph by its number from 0: A to Z, then AA, AB, and so on."""
    letters = LETTERS[number % 26]
    return letters if number < 26 else lettered(number // 26 - 1) + letters
