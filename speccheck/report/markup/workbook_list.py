"""The sheet of a marked workbook that lists the comments: words alone, with a link to the cell of each.

Long texts go on in the row below, so that no format of the workbook has to be added for them to be seen whole.
"""

from __future__ import annotations

import textwrap
from xml.sax.saxutils import escape, quoteattr

from speccheck.report.escaping import plain
from speccheck.report.markup.marks import Comments

_WIDTH = 100
_COLUMNS = (8, 22, 18, 18, 100)


def list_sheet(comments: Comments, space: str) -> bytes:
    """Return the part of the sheet; `space` is the namespace of the workbook."""
    rows, links = _rows(comments)
    columns = "".join(f'<col min="{n}" max="{n}" width="{w}" customWidth="1"/>' for n, w in enumerate(_COLUMNS, 1))
    cells = "".join(_row(number, row) for number, row in enumerate(rows, 1))
    found = "".join(
        f'<hyperlink ref="A{row}" location={quoteattr(location)} display={quoteattr(text)}/>'
        for row, location, text in links
    )
    hyperlinks = f"<hyperlinks>{found}</hyperlinks>" if found else ""
    return (
        f'<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<worksheet xmlns={quoteattr(space)}>'
        f'<sheetPr><pageSetUpPr fitToPage="1"/></sheetPr><cols>{columns}</cols><sheetData>{cells}</sheetData>'
        f'{hyperlinks}<pageSetup orientation="landscape" fitToHeight="0"/></worksheet>'
    ).encode()


def _rows(comments: Comments) -> tuple[list[tuple[str, ...]], list[tuple[int, str, str]]]:
    """Return the rows of words, and the links: row, where to, text."""
    rows: list[tuple[str, ...]] = [(comments.title,)]
    rows += [("", f"{heading}:", text) for heading, text in comments.heads]
    rows += [("", sentence) for sentence in comments.summary]
    rows += [("", f"Marks: {comments.legend}.")] if comments.legend else []
    rows += [()]
    links = []
    for mark in comments.marks:
        place = f"{mark.place.sheet}!{mark.place.cell}".strip("!")
        first, *others = textwrap.wrap(mark.text, _WIDTH) or [""]
        rows.append((mark.tag, mark.line, place, f"clause {mark.clause}" if mark.clause else "", first))
        if mark.place.cell:
            sheet = mark.place.sheet.replace("'", "''")
            links.append((len(rows), f"'{sheet}'!{mark.place.cell}", mark.tag))
        rows += [("", "", "", "", other) for other in others]
    if not comments.marks:
        rows.append(("", "There are no comments."))
    rows += [()]
    rows += [("", line) for caution in comments.cautions for line in textwrap.wrap(caution, _WIDTH + 40)]
    return rows, links


def _row(number: int, row: tuple[str, ...]) -> str:
    """Return a row of texts; the first row is bold."""
    look = "<rPr><b/></rPr>" if number == 1 else ""
    cells = "".join(
        f'<c r="{"ABCDE"[column]}{number}" t="inlineStr"><is><r>{look}<t xml:space="preserve">{escape(plain(text))}</t>'
        "</r></is></c>"
        for column, text in enumerate(row)
        if text
    )
    return f'<row r="{number}">{cells}</row>'
