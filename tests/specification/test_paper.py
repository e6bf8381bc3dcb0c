"""Sections that come as a PDF or as plain text: the same paragraphs, numbers and tables as in the Word document."""

from __future__ import annotations

import html
import shutil
import subprocess
from pathlib import Path

import pytest

from speccheck.specification import read_section
from speccheck.specification.blocks import Block, Paragraph, ParagraphNumbers, SectionTable, blocks_of

SECTION = Path(__file__).parents[2] / "examples" / "dairy" / "section.docx"


def plain(blocks: tuple[Block, ...]) -> list[object]:
    """Paragraphs with their numbers and words, and tables with their cells, without what stands before PART 1."""
    told: list[object] = []
    for one in blocks:
        if isinstance(one, SectionTable):
            told.append((one.below, one.rows))
        elif one.number:
            told.append((one.number, one.text))
    return told


def test_plain_text_has_the_tables_where_they_stand() -> None:
    """Cells are parted by bars or tabs; the numbers go on behind a table, and the table knows what it stands under."""
    lines = [
        "PART 3 EXECUTION",
        "3.1 COLD PIPING",
        "A. Insulate as scheduled:",
        "| Service | Up to 2 in | Over 2 in |",
        "| Ice water | 1 | 2 |",
        "B. Seal joints,",
        "   all of them.",
        "Service\tUp to 2 in\tOver 2 in",
        "Steam\t2\t3",
    ]
    assert plain(tuple(blocks_of(lines, "t", ParagraphNumbers()))) == [
        ("3", "EXECUTION"),
        ("3.1", "COLD PIPING"),
        ("3.1.A", "Insulate as scheduled:"),
        ("3.1.A", (("Service", "Up to 2 in", "Over 2 in"), ("Ice water", "1", "2"))),
        ("3.1.B", "Seal joints, all of them."),
        ("3.1.B", (("Service", "Up to 2 in", "Over 2 in"), ("Steam", "2", "3"))),
    ]


@pytest.mark.skipif(shutil.which("chromium") is None, reason="chromium prints the PDF")
def test_a_pdf_of_the_section_has_what_the_document_has(tmp_path: Path) -> None:
    """Printed by a browser with a head and a foot on each sheet, the section has the same paragraphs and cells."""
    blocks, _ = read_section(SECTION)
    page, pdf = tmp_path / "section.html", tmp_path / "section.pdf"
    page.write_text(_page(blocks), encoding="utf-8")
    browser = ["chromium", "--headless", "--no-sandbox", "--disable-gpu", f"--print-to-pdf={pdf}", page.as_uri()]
    subprocess.run(browser, check=True, capture_output=True, timeout=120)
    read, problems = read_section(pdf)
    assert problems == ()
    assert plain(read) == plain(blocks)


def _page(blocks: tuple[Block, ...]) -> str:
    """The section as a page whose numbers are typed, and whose sheets have a head and a foot."""
    told = ["<style>table{border-collapse:collapse}td{border:1px solid;padding:4px}p{margin:10px 0}</style>"]
    for one in blocks:
        if isinstance(one, SectionTable):
            rows = ("".join(f"<td>{html.escape(cell)}</td>" for cell in row) for row in one.rows)
            told.append(f"<table>{''.join(f'<tr>{row}</tr>' for row in rows)}</table>")
        elif one.number:
            told.append(f"<p>{_label(one)} {html.escape(one.text)}</p>")
    return f"<meta charset=utf-8><title>Section 23 07 19</title>{''.join(told)}"


def _label(one: Paragraph) -> str:
    """The number of a paragraph as it is typed: PART 1, 1.1, A."""
    parts = one.number.split(".")
    return f"PART {one.number}" if len(parts) == 1 else one.number if len(parts) == 2 else f"{parts[-1]}."
