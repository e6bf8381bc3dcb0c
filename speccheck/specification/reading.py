"""A section read from a file: a Word document, a PDF or plain text, to its blocks in order.

Documents and PDFs are read by libraries in a child process with limits, which runs this module as a program.
"""

from __future__ import annotations

import json
import sys
from dataclasses import asdict
from pathlib import Path

from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.schedule.formats.safety import MEGABYTE, MOST_FILE_BYTES
from speccheck.specification.blocks import Block, Paragraph, SectionTable, blocks_of
from speccheck.specification.messages import (
    NO_KIND_OF_SECTION,
    SECTION_DAMAGED,
    SECTION_NOT_READ,
    SECTION_TOO_LARGE,
    SECTION_WITHOUT_WORDS,
)

ENDINGS = (".docx", ".pdf", ".txt", ".md")


def read_section(path: Path) -> tuple[tuple[Block, ...], tuple[Diagnostic, ...]]:
    """Return the blocks of a section, or why there are none. No file of a user raises."""
    ending, place = path.suffix.casefold(), Place(path.name)
    if ending not in ENDINGS:
        return (), (NO_KIND_OF_SECTION.at(place, file=path.name),)
    try:
        size = path.stat().st_size
        path.open("rb").close()
        if size > MOST_FILE_BYTES:
            told = SECTION_TOO_LARGE.at(place, file=path.name, size=size // MEGABYTE, most=MOST_FILE_BYTES // MEGABYTE)
            return (), (told,)
        blocks = _blocks(path, ending)
    except OSError as fault:
        reason = fault.strerror or "it cannot be opened"
        return (), (SECTION_NOT_READ.at(place, file=path.name, reason=reason),)
    except Exception:
        return (), (SECTION_DAMAGED.at(place, file=path.name),)
    if not blocks:
        return (), (SECTION_WITHOUT_WORDS.at(place, file=path.name),)
    return blocks, ()


def _blocks(path: Path, ending: str) -> tuple[Block, ...]:
    """Return the blocks of a file. Raises `ValueError` where its reader ended without any answer."""
    if ending not in (".docx", ".pdf"):
        return tuple(blocks_of(path.read_text(encoding="utf-8-sig").splitlines(), path.name))
    from speccheck.schedule.formats.child import run_in_child_or_none

    written = json.loads(run_in_child_or_none(__name__, str(path.absolute())))
    return tuple(
        Paragraph(**one) if "rows" not in one else SectionTable(**{**one, "rows": tuple(map(tuple, one["rows"]))})
        for one in written
    )


def main(path: Path) -> None:
    """Read a document or a PDF under limits, and write its blocks as JSON."""
    from speccheck.schedule.formats.child import limit_this_process

    limit_this_process()
    if path.suffix.casefold() == ".docx":
        from speccheck.schedule.formats.safety import check_compound_file, check_parts
        from speccheck.specification.word_document import read_document

        refused = check_compound_file(path) or check_parts(path)
        if refused is not None:
            raise ValueError(refused.message)
        blocks = read_document(path)
    else:
        from speccheck.specification.pdf_document import read_pdf

        blocks = read_pdf(path)
    sys.stdout.buffer.write(json.dumps([asdict(one) for one in blocks]).encode())


if __name__ == "__main__":
    main(Path(sys.argv[1]))
