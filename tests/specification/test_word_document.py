"""Word documents: the numbers that Word shows, computed; what is deleted or struck left out; tables where they stand.

The documents are made with python-docx; what Word shows for a list is fixed by ECMA-376, part 1, 17.9.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import docx
import pytest
from docx.opc.packuri import PackURI
from docx.opc.part import Part
from docx.oxml import parse_xml
from docx.oxml.ns import nsdecls

from speccheck.specification.blocks import Paragraph, SectionTable, paragraphs_of
from speccheck.specification.reading import read_section
from speccheck.specification.word_numbers import letters, roman

LEVELS = [
    ("PART %1", "decimal"),
    ("%1.%2", "decimal"),
    ("%3.", "upperLetter"),
    ("%4.", "decimal"),
    ("%5.", "lowerLetter"),
]


def numbered(document: Any, levels: list[tuple[str, str]]) -> str:
    """Add a list of several levels to a document, and return its number."""
    numbering = document.part.numbering_part.element
    rows = "".join(
        f'<w:lvl w:ilvl="{at}"><w:start w:val="1"/><w:numFmt w:val="{form}"/><w:lvlText w:val="{text}"/></w:lvl>'
        for at, (text, form) in enumerate(levels)
    )
    numbering.insert(0, parse_xml(f'<w:abstractNum {nsdecls("w")} w:abstractNumId="77">{rows}</w:abstractNum>'))
    numbering.append(parse_xml(f'<w:num {nsdecls("w")} w:numId="77"><w:abstractNumId w:val="77"/></w:num>'))
    return "77"


def add(document: Any, text: str, level: int, number: str) -> Any:
    """Add a paragraph at a level of a list."""
    paragraph = document.add_paragraph(text)
    xml = f'<w:numPr {nsdecls("w")}><w:ilvl w:val="{level}"/><w:numId w:val="{number}"/></w:numPr>'
    paragraph._p.get_or_add_pPr().append(parse_xml(xml))
    return paragraph


@pytest.fixture
def section(tmp_path: Path) -> Path:
    """A section with an automatic list of five levels, a table, and words that were taken out."""
    document = docx.Document()
    number = numbered(document, LEVELS)
    for level, text in [
        (0, "GENERAL"),
        (1, "SUMMARY"),
        (2, "Insulate piping."),
        (0, "PRODUCTS"),
        (1, "INSULATION"),
        (2, "Fiberglass."),
        (2, "Foam."),
        (3, "Slit tube."),
        (3, "Sheet."),
        (4, "Glued."),
        (2, "Cellular glass."),
        (1, "JACKETS"),
        (2, "PVC."),
    ]:
        add(document, text, level, number)
    table = document.add_table(rows=2, cols=3)
    for row, texts in zip(table.rows, [["", "under 1 in", "1 in and over"], ["steam", "1", "2"]], strict=True):
        for cell, text in zip(row.cells, texts, strict=True):
            cell.text = text
    struck = document.add_paragraph("Kept ")
    struck.add_run("struck ").font.strike = True
    run = struck.add_run("deleted ")
    deleted = parse_xml(f'<w:del {nsdecls("w")} w:id="1" w:author="a"/>')
    run._r.addprevious(deleted)
    deleted.append(run._r)
    struck.add_run("words.")
    path = tmp_path / "section.docx"
    document.save(str(path))
    return path


def test_paragraphs_have_the_whole_number_that_a_reader_would_say(section: Path) -> None:
    """Letters restart under each article, and a number goes on from the paragraphs above it."""
    blocks, problems = read_section(section)
    assert problems == ()
    assert [(one.number, one.text) for one in blocks if isinstance(one, Paragraph)] == [
        ("1", "GENERAL"),
        ("1.1", "SUMMARY"),
        ("1.1.A", "Insulate piping."),
        ("2", "PRODUCTS"),
        ("2.1", "INSULATION"),
        ("2.1.A", "Fiberglass."),
        ("2.1.B", "Foam."),
        ("2.1.B.1", "Slit tube."),
        ("2.1.B.2", "Sheet."),
        ("2.1.B.2.a", "Glued."),
        ("2.1.C", "Cellular glass."),
        ("2.2", "JACKETS"),
        ("2.2.A", "PVC."),
        ("", "Kept words."),
    ]


def test_a_table_stands_below_its_paragraph(section: Path) -> None:
    """Its cells come row by row, with the number and the words above it."""
    blocks, _ = read_section(section)
    (table,) = (one for one in blocks if isinstance(one, SectionTable))
    assert table.rows == (("", "under 1 in", "1 in and over"), ("steam", "1", "2"))
    assert (table.below, table.title) == ("2.2.A", "PVC.")


def test_numbers_of_several_parts_are_kept_whole() -> None:
    """2.1.3 is a number of its own, and 2 a chapter where it has a title; an amount at the start of a line is none."""
    lines = [
        *("1 SCOPE", "1.1 Pipework.", "2 MATERIALS", "2.1 Insulation", "2.1.1 Insulate with not less than"),
        *("1.5 inches of cellular glass,", "2 inches outdoors.", "2.1.2 Foam.", "(a) Sheet.", "3.1.1 Strangers."),
    ]
    assert [(one.number, one.text) for one in paragraphs_of(lines, "t")] == [
        ("1", "SCOPE"),
        ("1.1", "Pipework."),
        ("2", "MATERIALS"),
        ("2.1", "Insulation"),
        ("2.1.1", "Insulate with not less than 1.5 inches of cellular glass, 2 inches outdoors."),
        ("2.1.2", "Foam. (a) Sheet. 3.1.1 Strangers."),
    ]


def test_footnotes_are_notes_to_their_paragraph(tmp_path: Path) -> None:
    """A mark in the words, and the note behind them; figures that are raised are no part of the number before them."""
    document = docx.Document()
    paragraph = document.add_paragraph("2.1 Insulate steam piping with 40 mm")
    reference = parse_xml(f'<w:r {nsdecls("w")}><w:footnoteReference w:id="7"/></w:r>')
    paragraph._p.append(reference)
    raised = document.add_paragraph("2.2 Density of 40 kg/m")
    raised.add_run("3").font.superscript = True
    note = '<w:footnote w:id="7"><w:p><w:r><w:t>50 outdoors</w:t></w:r></w:p></w:footnote>'
    notes = f"<w:footnotes {nsdecls('w')}>{note}</w:footnotes>"
    kind = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/footnotes"
    form = "application/vnd.openxmlformats-officedocument.wordprocessingml.footnotes+xml"
    part = Part(PackURI("/word/footnotes.xml"), form, notes.encode(), document.part.package)
    document.part.relate_to(part, kind)
    path = tmp_path / "section.docx"
    document.save(str(path))
    blocks, problems = read_section(path)
    assert problems == ()
    told = [(one.number, one.text, one.note) for one in blocks if isinstance(one, Paragraph)]
    assert told == [
        ("2.1", "Insulate steam piping with 40 mm*", False),
        ("2.1", "50 outdoors", True),
        ("2.2", "Density of 40 kg/m³", False),
    ]


def test_typed_numbers_are_read_alike() -> None:
    """Plain text with typed labels gives the same whole numbers; a line without a label goes on."""
    lines = [
        "PART 2 - PRODUCTS",
        "2.1 INSULATION",
        "A. Fiberglass, in the",
        "   rooms named.",
        "1. Preformed.",
        "",
        "Loose words.",
    ]
    assert [(one.number, one.text) for one in paragraphs_of(lines, "t")] == [
        ("2", "PRODUCTS"),
        ("2.1", "INSULATION"),
        ("2.1.A", "Fiberglass, in the rooms named."),
        ("2.1.A.1", "Preformed."),
        ("", "Loose words."),
    ]


def test_counts_are_written_as_word_writes_them() -> None:
    """Letters double after Z and figures are Roman (ECMA-376, ST_NumberFormat)."""
    assert [letters(number) for number in (1, 26, 27, 53)] == ["A", "Z", "AA", "AAA"]
    assert [roman(number) for number in (1, 4, 9, 14, 40, 90, 400, 1987)] == [
        *("I", "IV", "IX", "XIV", "XL", "XC", "CD", "MCMLXXXVII")
    ]


@pytest.mark.parametrize(
    ("name", "content", "code", "message"),
    [
        ("a.xlsx", b"", "D101", "`a.xlsx` is not a kind of file that sections are read from"),
        ("a.docx", b"no zip", "D102", "`a.docx` is damaged, or not what its ending says"),
        ("a.txt", b"", "D103", "`a.txt` has no words that can be read"),
    ],
)
def test_a_file_that_is_no_section_is_told(tmp_path: Path, name: str, content: bytes, code: str, message: str) -> None:
    """A wrong ending, a damaged file and an empty one are each a diagnostic, never a traceback."""
    path = tmp_path / name
    path.write_bytes(content)
    blocks, (problem,) = read_section(path)
    assert blocks == ()
    assert (problem.code, problem.message) == (code, message)


def test_a_missing_file_is_told(tmp_path: Path) -> None:
    """A name that leads nowhere is a diagnostic with the system's reason."""
    _, (problem,) = read_section(tmp_path / "none.docx")
    assert (problem.code, problem.help) == ("D102", "check the name")
