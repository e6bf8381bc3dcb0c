"""A ruleset as a specification section for a word processor: an Office Open XML document, the same bytes on each run.

Stands on python-docx, which comes with the optional extra `word`. Parts, articles, paragraphs and subparagraphs are one
list of Word, which numbers them; where a writer's numbers leave one out, the list is told to go on from there.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from speccheck.language.core import Ruleset
from speccheck.report.escaping import plain
from speccheck.report.prose.articles import PLAINLY, ProseParagraph, Telling
from speccheck.report.prose.section import CAUTIONS, Article, ProseSection, ProseTable, section_of
from speccheck.report.word.document import FONT, RULED, document_bytes, new_document, number_sheets

if TYPE_CHECKING:
    from docx.document import Document
    from docx.text.paragraph import Paragraph as Written

# The text before a paragraph of each level, where %1 is the count of the first, and how it counts.
LEVELS = (("PART %1 - ", "decimal"), ("%1.%2", "decimal"), ("%3.", "upperLetter"), ("%4.", "decimal"))
_LIST = "90"


class Numbering:
    """The one list of a document. Paragraphs are numbered in their order; a gap restarts the list where it goes on."""

    def __init__(self, document: Document) -> None:
        from docx.oxml import parse_xml
        from docx.oxml.ns import nsdecls

        part: Any = document.part
        self._element = part.numbering_part.element
        self._declared = nsdecls("w")
        self._counts = [0] * len(LEVELS)
        levels = "".join(
            f'<w:lvl w:ilvl="{at}"><w:start w:val="1"/><w:numFmt w:val="{form}"/><w:lvlText w:val="{text}"/>'
            '<w:lvlJc w:val="left"/></w:lvl>'
            for at, (text, form) in enumerate(LEVELS)
        )
        self._element.insert(
            0, parse_xml(f'<w:abstractNum {self._declared} w:abstractNumId="{_LIST}">{levels}</w:abstractNum>')
        )
        self._next = int(_LIST)
        self._plain = self._instance("")

    def number(self, paragraph: Any, level: int, number: int) -> None:
        """Let Word number a paragraph at a level from 0; it is to show `number`."""
        from docx.oxml import parse_xml

        expected = self._counts[level] + 1
        self._counts[level:] = [number, *[0] * (len(LEVELS) - level - 1)]
        start = f'<w:lvlOverride w:ilvl="{level}"><w:startOverride w:val="{number}"/></w:lvlOverride>'
        instance = self._plain if number == expected else self._instance(start)
        xml = f'<w:numPr {self._declared}><w:ilvl w:val="{level}"/><w:numId w:val="{instance}"/></w:numPr>'
        paragraph._p.get_or_add_pPr().append(parse_xml(xml))

    def _instance(self, start: str) -> int:
        """Add an instance of the list, and return its number."""
        from docx.oxml import parse_xml

        number, self._next = self._next, self._next + 1
        inside = f'<w:abstractNumId w:val="{_LIST}"/>{start}'
        self._element.append(parse_xml(f'<w:num {self._declared} w:numId="{number}">{inside}</w:num>'))
        return number


# Where the text of each level begins, in inches, and how far its number hangs to the left of it.
ARTICLE, LETTER, NUMBER, HANG = 0.55, 0.95, 1.35, 0.4
SMALL = 8.5


def render_prose_document(ruleset: Ruleset, *, own_only: bool = False, telling: Telling = PLAINLY) -> bytes:
    """Return the section as the bytes of a .docx file; needs python-docx (see `missing_library`).

    `own_only` leaves out what the ruleset builds on.
    """
    section = section_of(ruleset, own_only=own_only, telling=telling)
    document = new_document(section.title, 10.5, 5)
    _set_up(document, section)
    _fill(document, section, Numbering(document))
    return document_bytes(document)


def _set_up(document: Document, section: ProseSection) -> None:
    """Set the margins, the fonts of headings, and the foot of each sheet."""
    from docx.shared import Inches, Pt, RGBColor

    sheet = document.sections[0]
    sheet.left_margin = sheet.right_margin = sheet.top_margin = sheet.bottom_margin = Inches(1)
    styles: Any = document.styles
    for name, size, before in (("Title", 18, 0), ("Heading 1", 13, 18), ("Heading 2", 11, 12)):
        font = styles[name].font
        font.name, font.size, font.color.rgb = FONT, Pt(size), RGBColor(0, 0, 0)
        # The fonts of the theme would otherwise come before the one named.
        for theme in ("asciiTheme", "hAnsiTheme", "eastAsiaTheme", "cstheme"):
            styles[name].element.rPr.rFonts.attrib.pop(_word(theme), None)
        styles[name].paragraph_format.space_before, styles[name].paragraph_format.space_after = Pt(before), Pt(6)
    foot = sheet.footer.paragraphs[0]
    foot.add_run(f"{plain(section.title)}, sheet ").font.size = Pt(SMALL)
    number_sheets(foot)


def _word(name: str) -> str:
    from docx.oxml.ns import qn

    return qn(f"w:{name}")


def _fill(document: Document, section: ProseSection, numbering: Numbering) -> None:
    from docx.enum.text import WD_ALIGN_PARAGRAPH

    document.add_heading(plain(section.title), 0)
    for caution in CAUTIONS:
        document.add_paragraph().add_run(caution).italic = True
    for part in section.parts:
        numbering.number(document.add_heading(part.title.upper(), 1), 0, part.number)
        if not part.articles:
            document.add_paragraph("Not used.")
        for article in part.articles:
            _fill_article(document, article, numbering)
    end = document.add_paragraph("END OF SECTION")
    end.alignment, end.paragraph_format.space_before = WD_ALIGN_PARAGRAPH.CENTER, 240_000


def _fill_article(document: Document, article: Article, numbering: Numbering) -> None:
    heading = document.add_heading(plain(article.title).upper(), 2)
    numbering.number(heading, 1, int(article.number.split(".")[1]))
    _hang(heading, ARTICLE, ARTICLE)
    for paragraph in article.paragraphs:
        _fill_paragraph(document, article, paragraph, numbering)
    for table in article.tables:
        _fill_table(document, table)


def _fill_paragraph(document: Document, article: Article, paragraph: ProseParagraph, numbering: Numbering) -> None:
    written = document.add_paragraph()
    numbering.number(written, 2, paragraph.number)
    _hang(written, LETTER, HANG)
    if paragraph.title:
        stop = ":" if paragraph.text else ""
        written.add_run(plain(paragraph.title)).bold = True
        if paragraph.label != f"{article.number}.{paragraph.letter}":
            written.add_run(f" (clause {plain(paragraph.label)})").italic = True
        written.add_run(f"{stop} ")
    written.add_run(plain(paragraph.text))
    for number, text in enumerate(paragraph.inner, start=1):
        inner = document.add_paragraph(plain(text))
        numbering.number(inner, 3, number)
        _hang(inner, NUMBER, HANG)
    _fill_remarks(document, paragraph.remarks, LETTER)


def _fill_remarks(document: Document, remarks: tuple[str, ...], indent: float) -> None:
    """Write what asks for nothing (reasons, notes, sources) in small letters."""
    from docx.shared import Inches, Pt

    for text in remarks:
        written = document.add_paragraph()
        written.paragraph_format.left_indent, written.paragraph_format.space_after = Inches(indent), Pt(3)
        written.add_run(plain(text)).font.size = Pt(SMALL)


def _hang(paragraph: Written, indent: float, by: float) -> None:
    """Let the text of a paragraph begin at an indent, with its number hanging to the left of it."""
    from docx.shared import Inches

    paragraph.paragraph_format.left_indent, paragraph.paragraph_format.first_line_indent = Inches(indent), Inches(-by)
    paragraph.paragraph_format.tab_stops.add_tab_stop(Inches(indent))


# ---- tables ------------------------------------------------------------------------------------------------------


def _fill_table(document: Document, table: ProseTable) -> None:
    """Write a table under its title, what its columns stand for in a row of its own, and its remarks."""
    from docx.shared import Pt

    title = document.add_paragraph()
    title.add_run(plain(table.title)).bold = True
    title.paragraph_format.keep_with_next, title.paragraph_format.space_before = True, Pt(8)
    grid = document.add_table(rows=0, cols=len(table.head), style=RULED)
    if table.over:
        cells = grid.add_row().cells
        over = cells[table.headings].merge(cells[-1])
        over.text = ""  # one paragraph in the place of those of the cells
        for blank in cells[: table.headings]:
            _write(blank, "", bold=True)
        _write(over, table.over, bold=True)
    for row in (table.head, *table.rows):
        for at, (cell, text) in enumerate(zip(grid.add_row().cells, row, strict=True)):
            _write(cell, text, bold=row is table.head or at < table.headings)
    for at, written in enumerate(grid.rows):
        _keep_whole(written, heads=at < (2 if table.over else 1))
    _fill_remarks(document, table.remarks, 0)


def _write(cell: Any, text: str, *, bold: bool) -> None:
    from docx.shared import Pt

    run = cell.paragraphs[0].add_run(plain(text))
    run.bold, run.font.size = bold, Pt(SMALL + 0.5)
    cell.paragraphs[0].paragraph_format.space_after = Pt(1)


def _keep_whole(row: Any, *, heads: bool) -> None:
    """Keep a row on one sheet; rows of headings are repeated on each."""
    from docx.oxml import OxmlElement

    for name in ("cantSplit", *(["tblHeader"] if heads else [])):
        row._tr.get_or_add_trPr().append(OxmlElement(f"w:{name}"))
