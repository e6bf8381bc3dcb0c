"""Makes section.docx out of section.txt: a section as a spec writer has it, numbered by the lists of Word.

In section.txt a line is a paragraph: parts begin at the margin, articles two blanks in, paragraphs four. Rows of tables
stand between bars; `<` goes on with the cell to the left, `^` with the one above. The bytes are the same on each run.

    python examples/dairy/make_section.py
"""

from __future__ import annotations

import io
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

import docx
from docx.oxml import parse_xml
from docx.oxml.ns import nsdecls
from docx.shared import Inches, Pt

from speccheck.report.workbook.report import without_clock

FOLDER = Path(__file__).parent
TITLE = "SECTION 23 07 19 - INSULATION OF PIPING, DUCTS AND TANKS"
INVENTED = "Emberlow Hollow Creamery, its engineer and this section are invented."
LEVELS = (("PART %1 - ", "decimal"), ("%1.%2", "decimal"), ("%3.", "upperLetter"))
INDENTS = (0.0, 0.5, 0.9)


def section_document(text: str) -> bytes:
    """Return the document for the text of section.txt as the bytes of a .docx file."""
    document = docx.Document()
    document.styles["Normal"].font.name, document.styles["Normal"].font.size = "Calibri", Pt(10.5)
    document.core_properties.title, document.core_properties.author = TITLE, "speccheck"
    document.core_properties.comments = ""
    numbering = _numbered(document)
    document.add_heading(TITLE, 0)
    document.add_paragraph(INVENTED)
    rows: list[list[str]] = []
    for line in [*text.splitlines(), ""]:
        if line.startswith("|"):
            rows.append([cell.strip() for cell in line.strip().strip("|").split("|")])
            continue
        if rows:
            _add_table(document, rows)
            rows = []
        if line.strip():
            _add_paragraph(document, line, numbering)
    document.add_paragraph("END OF SECTION")
    written = io.BytesIO()
    document.save(written)
    return without_clock(written.getvalue())


def _numbered(document: Any) -> str:
    """Add the list of parts, articles and paragraphs to a document, and return its number."""
    numbering = document.part.numbering_part.element
    levels = "".join(
        f'<w:lvl w:ilvl="{at}"><w:start w:val="1"/><w:numFmt w:val="{form}"/><w:lvlText w:val="{text}"/>'
        f'<w:lvlJc w:val="left"/></w:lvl>'
        for at, (text, form) in enumerate(LEVELS)
    )
    declared = nsdecls("w")
    numbering.insert(0, parse_xml(f'<w:abstractNum {declared} w:abstractNumId="90">{levels}</w:abstractNum>'))
    numbering.append(parse_xml(f'<w:num {declared} w:numId="90"><w:abstractNumId w:val="90"/></w:num>'))
    return "90"


def _add_paragraph(document: Any, line: str, numbering: str) -> None:
    """Add a paragraph with its level of the list, which the blanks before it say."""
    level = 0 if line.startswith("PART ") else 1 if not line.startswith("    ") else 2
    paragraph = document.add_paragraph()
    run = paragraph.add_run(line.strip().removeprefix("PART "))
    run.bold = level < 2
    paragraph.paragraph_format.left_indent = Inches(INDENTS[level])
    paragraph.paragraph_format.space_before = Pt(10 if level < 2 else 0)
    xml = f'<w:numPr {nsdecls("w")}><w:ilvl w:val="{level}"/><w:numId w:val="{numbering}"/></w:numPr>'
    paragraph._p.get_or_add_pPr().append(parse_xml(xml))


def _add_table(document: Any, rows: Sequence[Sequence[str]]) -> None:
    """Add a ruled table; cells that go on with another are merged with it, as a spec writer merges headings."""
    table = document.add_table(rows=len(rows), cols=len(rows[0]), style="Table Grid")
    for at, texts in enumerate(rows):
        for column, text in enumerate(texts):
            if text not in ("<", "^"):
                cell = table.cell(at, column)
                cell.merge(table.cell(*_last(rows, at, column)))
                cell.text = text
                cell.paragraphs[0].runs[0].bold = at == 0
    document.add_paragraph()


def _last(rows: Sequence[Sequence[str]], row: int, column: int) -> tuple[int, int]:
    """Return the row and the column of the last cell that goes on with one."""
    right, down = column, row
    while right + 1 < len(rows[row]) and rows[row][right + 1] == "<":
        right += 1
    while down + 1 < len(rows) and rows[down + 1][column] == "^":
        down += 1
    return down, right


def main(folder: Path = FOLDER) -> Iterable[Path]:
    """Write section.docx, and return what was written."""
    target = folder / "section.docx"
    target.write_bytes(section_document((folder / "section.txt").read_text(encoding="utf-8")))
    return [target]


if __name__ == "__main__":
    for written in main():
        print(f"wrote {written.name}")
