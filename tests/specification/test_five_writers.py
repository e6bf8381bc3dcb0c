"""Five invented sections by five writers, drafted from text, Word and PDF, and held against a careful writer's truth.

`files/sections` has each as text, and beside it what was made of each paragraph by hand, before any draft: three parts
in the imperative mood, numbered clauses in the words of another country, a page of notes in shorthand, metric tables
with several rows of headings and marked cells, and a section with its addenda.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from speccheck.specification import read_section
from speccheck.specification.blocks import Block, Paragraph, SectionTable
from tests.specification.papers import as_document, as_pdf, typed
from tests.specification.truths import Truth

FOLDER = Path(__file__).parent / "files" / "sections"
STYLES = ("imperative", "by_clause", "one_page", "hospital", "addenda")
LEAST = 0.6


def text_of(style: str) -> str:
    """The text of a section."""
    return (FOLDER / f"{style}.txt").read_text(encoding="utf-8")


def blocks_of(path: Path, content: str | bytes) -> tuple[Block, ...]:
    """The blocks of a section that is written to a file, and can be read."""
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    blocks, problems = read_section(path)
    assert problems == ()
    return blocks


@cache
def truth(style: str, folder: Path) -> Truth:
    """The truth about a section, and the drafts of its text."""
    return Truth.of(FOLDER / f"{style}.toml", blocks_of(folder / f"{style}.txt", typed(text_of(style))))


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder for the papers."""
    return tmp_path_factory.mktemp("papers")


@pytest.mark.parametrize("style", STYLES)
def test_nothing_is_drafted_wrong_in_silence(style: str, folder: Path) -> None:
    """Each paragraph is what the truth says, or a `todo`."""
    found = truth(style, folder)
    assert set(found.drafted) - {""} == set(found.paragraphs)
    wrong = {one: found.drafted[one].text for one in found.paragraphs if found.standing(one) == "wrong"}
    assert wrong == {}


@pytest.mark.parametrize("style", STYLES)
def test_three_fifths_of_what_can_be_checked_need_no_hand(style: str, folder: Path) -> None:
    """Of the paragraphs that clauses, tables, documents and relations can check."""
    found = truth(style, folder)
    checkable = found.checkable("checked", "table", "beside")
    right = [one for one in checkable if found.standing(one) == "right"]
    print(f"{style}: {len(right)} of {len(checkable)} right")
    assert len(right) >= LEAST * len(checkable)


@pytest.mark.parametrize("style", STYLES)
def test_every_cell_of_the_tables_is_drafted_right(style: str, folder: Path) -> None:
    """At the ends of each band; where something is left to do on a table, its cells are not."""
    found = truth(style, folder)
    tables = found.checkable("table")
    assert tables
    wrong = {number: found.cells_of(number).count(False) for number in tables}
    assert wrong == dict.fromkeys(tables, 0)


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("ending", ["docx", "pdf"])
def test_word_and_pdf_have_what_the_text_has(style: str, ending: str, folder: Path) -> None:
    """The same numbers, words and cells, raised figures apart from the numbers before them."""
    content = as_document(text_of(style)) if ending == "docx" else as_pdf(text_of(style))
    read = blocks_of(folder / f"{style}.{ending}", content)
    expected = blocks_of(folder / f"{style}.txt", typed(text_of(style)))
    assert plain(read) == plain(expected)


def plain(blocks: tuple[Block, ...]) -> list[object]:
    """Numbered paragraphs and tables, without where they stand."""
    told: list[object] = []
    for one in blocks:
        if isinstance(one, SectionTable):
            told.append((one.below, one.rows))
        elif isinstance(one, Paragraph) and one.number:
            told.append((one.number, one.text))
    return told
