"""Sections of three styles, as Word documents with automatic numbers: what is drafted says what the words say.

`files/sections` has them: three parts with titles of products, requirements by purpose with metric units, and the
shorthand of a consultant in a hurry. They were written when the reader was done; most of the shorthand is left to do.
"""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from speccheck.specification import draft, read_section
from speccheck.specification.blocks import Paragraph
from tests.specification.shipped import section_document, vocabulary

FOLDER = Path(__file__).parent / "files" / "sections"
RIGHT: dict[str, dict[str, str]] = tomllib.loads((FOLDER / "drafted.toml").read_text(encoding="utf-8"))
ASKING = ("clause", "table", "document", "relation")


def drafted(style: str, folder: Path) -> dict[str, str]:
    """The lines of what each paragraph was drafted as, by its number, without its name and its words."""
    path = folder / "section.docx"
    path.write_bytes(section_document((FOLDER / f"{style}.txt").read_text(encoding="utf-8")))
    blocks, problems = read_section(path)
    assert problems == ()
    found = {}
    for one in draft(blocks, vocabulary()):
        if one.sort in ASKING:
            number = one.block.number if isinstance(one.block, Paragraph) else one.block.below
            lines = [line.strip() for line in one.text.splitlines() if line.strip()]
            heads = ("clause ", "table ", "document ", "relation ", "wording ", "draft")
            found[number] = "\n".join(line for line in lines if not line.startswith(heads))
    return found


@pytest.mark.parametrize("style", RIGHT)
def test_nothing_is_drafted_wrong_in_silence(style: str, tmp_path: Path) -> None:
    """Each paragraph that became a clause, a table, a document or a relation is in the list, as the list has it."""
    assert drafted(style, tmp_path) == RIGHT[style]
