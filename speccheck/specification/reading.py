"""A section read from a file: a Word document, a PDF or plain text, to its blocks in order."""

from __future__ import annotations

from pathlib import Path

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.specification import codes
from speccheck.specification.blocks import Block, blocks_of

ENDINGS = (".docx", ".pdf", ".txt", ".md")


def read_section(path: Path) -> tuple[tuple[Block, ...], tuple[Diagnostic, ...]]:
    """Return the blocks of a section, or why there are none. No file of a user raises."""
    ending = path.suffix.casefold()
    if ending not in ENDINGS:
        message = f"`{path.name}` is not a kind of file that sections are read from"
        return (), (_refusal(codes.WRONG_KIND, path, message, "save the section as .docx, .pdf or .txt"),)
    try:
        path.open("rb").close()
        blocks = _blocks(path, ending)
    except OSError as fault:
        reason = fault.strerror or "it cannot be opened"
        return (), (_refusal(codes.CANNOT_READ, path, f"`{path.name}` cannot be read: {reason}", "check the name"),)
    except Exception:
        message = f"`{path.name}` is damaged, or not what its ending says"
        help = "open it in the program that made it and save it again"
        return (), (_refusal(codes.CANNOT_READ, path, message, help),)
    if not blocks:
        message = f"`{path.name}` has no words that can be read"
        return (), (_refusal(codes.NO_WORDS, path, message, "a scanned page has to be typed"),)
    return blocks, ()


def _blocks(path: Path, ending: str) -> tuple[Block, ...]:
    if ending == ".docx":
        from speccheck.specification.word_document import read_document

        return read_document(path)
    if ending == ".pdf":
        from speccheck.specification.pdf_document import read_pdf

        return read_pdf(path)
    return tuple(blocks_of(path.read_text(encoding="utf-8-sig").splitlines(), path.name))


def _refusal(code: str, path: Path, message: str, help: str) -> Diagnostic:
    return Diagnostic(code, Severity.ERROR, message, Place(path.name), help)
