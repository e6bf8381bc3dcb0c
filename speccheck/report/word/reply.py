"""The reply for a word processor: an Office Open XML document, the same bytes on each run.

Stands on python-docx, which comes with the optional extra `word`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from speccheck.english import capitalized
from speccheck.report.escaping import plain
from speccheck.report.reply.reply import LineReply, Reply, ReplyComment
from speccheck.report.word.document import RULED, document_bytes, new_document, number_sheets
from speccheck.report.wording import clause_label

if TYPE_CHECKING:
    from docx.document import Document
    from docx.table import _Cell

HEADINGS = ("No.", "Clause", "ReplyComment")
WIDTHS = (0.5, 1.6, 4.7)  # inches, as are all widths here
SHEET = sum(WIDTHS)
WARM, COOL, QUIET = "8C3A1D", "23566B", "5C6065"


def render_reply_document(reply: Reply) -> bytes:
    """Return the reply as the bytes of a .docx file; needs python-docx."""
    document = new_document(reply.title, 10, 4)
    _set_up(document, reply)
    document.add_heading(plain(reply.title), 0)
    _fill_transmittal(document, reply)
    _fill_summary(document, reply)
    document.add_heading("Comments by line", 1)
    if not reply.lines:
        document.add_paragraph("There are no comments.")
    for line in reply.lines:
        _fill_line(document, line)
    for section in reply.sections:
        document.add_heading(plain(section.title), 1)
        document.add_paragraph(plain(section.sentence))
        table = _fill_table(document, section.headings, section.rows)
        _set_widths(table, _widths_for((section.headings, *section.rows)))
    _fill_list(document, "Notes on what now complies or does not apply", reply.answered)
    _fill_list(document, "Notes that no line is for any more", reply.left)
    _fill_list(document, "What this review is and is not", reply.cautions)
    return document_bytes(document)


def _set_up(document: Document, reply: Reply) -> None:
    """Set the margins of the letter sheet, and its foot."""
    from docx.shared import Inches

    sheet = document.sections[0]
    sheet.left_margin = sheet.right_margin = Inches(0.85)
    sheet.top_margin = sheet.bottom_margin = Inches(0.8)
    footer = sheet.footer.paragraphs[0]
    footer.text = f"{plain(reply.title)}, sheet "
    number_sheets(footer)


def _fill_transmittal(document: Document, reply: Reply) -> None:
    table = document.add_table(rows=0, cols=2, style=RULED)
    for heading, text in (*reply.transmittal, ("Action", reply.action)):
        cells = table.add_row().cells
        cells[0].paragraphs[0].add_run(heading).bold = True
        cells[1].paragraphs[0].add_run(plain(text)).bold = heading == "Action"
    _set_widths(table, (1.4, 5.4))


def _fill_summary(document: Document, reply: Reply) -> None:
    document.add_heading("Summary", 1)
    for sentence in reply.summary:
        document.add_paragraph(plain(sentence))
    if reply.complying:
        names = plain(", ".join(reply.complying))
        document.add_paragraph(f"Complies with every clause that applies: {names}.")
    if reply.unjudged:
        names = plain(", ".join(reply.unjudged))
        document.add_paragraph(f"No mandatory clause applies to: {names}. This is not a pass.")


def _fill_line(document: Document, reply: LineReply) -> None:
    """Write a line: its heading, its notes, a table of its comments, and what would comply."""
    heading = document.add_heading(level=2)
    heading.add_run(plain(reply.line.name))
    heading.add_run(plain(f"  {reply.what}") if reply.what else "").bold = False
    heading.paragraph_format.keep_with_next = True
    document.add_paragraph(f"{reply.word}.").paragraph_format.keep_with_next = True
    for note in reply.notes:
        _note(document.add_paragraph(), note)
    if reply.comments:
        table = _fill_table(document, HEADINGS, ())
        for comment in reply.comments:
            row = table.add_row()
            _keep_whole(row)
            _fill_comment(row.cells, comment)
        _set_widths(table, WIDTHS)
    for number, texts in enumerate(reply.changes):
        paragraph = document.add_paragraph("or:" if number else "Would comply:")
        paragraph.paragraph_format.keep_with_next = True
        for text in texts:
            document.add_paragraph(plain(text), style="List Bullet")
    if reply.none:
        document.add_paragraph(plain(f"{capitalized(reply.none)}."))


def _fill_comment(cells: Sequence[_Cell], comment: ReplyComment) -> None:
    from docx.shared import RGBColor

    cells[0].text = str(comment.number)
    cells[1].paragraphs[0].add_run(plain(clause_label(comment.clause))).bold = True
    cells[1].add_paragraph(plain(comment.clause.title))
    words = cells[2].paragraphs[0].add_run(f"{comment.words}. ")
    words.bold = True
    words.font.color.rgb = RGBColor.from_string(WARM if comment.words.startswith("Does not") else COOL)
    cells[2].paragraphs[0].add_run(plain(comment.sentence))
    for note in comment.notes:
        _note(cells[2].add_paragraph(), note)


def _note(paragraph: Any, text: str) -> None:
    """Write a note of the reviewer, set apart from what the program says."""
    from docx.shared import Inches

    paragraph.paragraph_format.left_indent = Inches(0.15)
    paragraph.add_run("Reviewer: ").bold = True
    paragraph.add_run(plain(text)).italic = True


def _fill_table(document: Document, headings: Sequence[str], rows: Iterable[Sequence[str]]) -> Any:
    """Write a ruled table, its headings repeated on each sheet, and return it."""
    table = document.add_table(rows=1, cols=len(headings), style=RULED)
    for cell, heading in zip(table.rows[0].cells, headings, strict=True):
        cell.paragraphs[0].add_run(plain(heading)).bold = True
    _mark(table.rows[0], "w:tblHeader")
    for row in rows:
        for cell, text in zip(table.add_row().cells, row, strict=True):
            cell.text = plain(text.replace("`", ""))
    return table


def _widths_for(rows: Sequence[Sequence[str]]) -> list[float]:
    """Return widths of columns that share the sheet by how much they hold, none of them too narrow for a word."""
    lengths = [max(12.0, sum(map(len, column)) / len(rows)) for column in zip(*rows, strict=True)]
    return [SHEET * length / sum(lengths) for length in lengths]


def _set_widths(table: Any, widths: Sequence[float]) -> None:
    """Set the widths of the columns, in inches; some programs go by the columns and others by the cells."""
    from docx.shared import Inches

    table.autofit = False
    for column, width in zip(table.columns, widths, strict=True):
        column.width = Inches(width)
        for cell in column.cells:
            cell.width = Inches(width)


def _keep_whole(row: Any) -> None:
    """Keep a row on one sheet."""
    _mark(row, "w:cantSplit")


def _mark(row: Any, name: str) -> None:
    """Set a property of a row for which python-docx has no word of its own."""
    from docx.oxml import OxmlElement

    row._tr.get_or_add_trPr().append(OxmlElement(name))


def _fill_list(document: Document, heading: str, texts: Iterable[str]) -> None:
    """Write texts under a heading; nothing where there are none."""
    found = tuple(texts)
    if found:
        document.add_heading(heading, 1)
    for text in found:
        document.add_paragraph(plain(text), style="List Bullet")
