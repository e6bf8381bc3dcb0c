"""What all documents for a word processor share: how one begins, how its sheets are numbered, how it becomes bytes.

They stand on python-docx, which comes with the optional extra `word`.
"""

from __future__ import annotations

import io
from importlib.util import find_spec
from typing import TYPE_CHECKING, Any

from speccheck.extras import how_to_install
from speccheck.language.diagnostics import NOWHERE, Diagnostic
from speccheck.report.escaping import plain
from speccheck.report.messages import DOCUMENTS_NEED_LIBRARY
from speccheck.report.workbook.report import without_clock

if TYPE_CHECKING:
    from docx.document import Document
    from docx.text.paragraph import Paragraph

FONT = "Calibri"
RULED = "Table Grid"


def missing_library() -> Diagnostic | None:
    """Return what to install where python-docx is not there."""
    if find_spec("docx") is not None:
        return None
    return DOCUMENTS_NEED_LIBRARY.at(NOWHERE, install=how_to_install("word"))


def new_document(title: str, size: float, space_after: float) -> Document:
    """Return an empty document with its properties, and with the size of its text and the space below it, in points."""
    import docx
    from docx.shared import Pt

    document = docx.Document()
    document.core_properties.title = plain(title)
    document.core_properties.author = "speccheck"
    document.core_properties.comments = ""
    normal: Any = document.styles["Normal"]
    normal.font.name, normal.font.size = FONT, Pt(size)
    normal.paragraph_format.space_after = Pt(space_after)
    return document


def number_sheets(paragraph: Paragraph) -> None:
    """Let a paragraph end with the number of the sheet that it stands on."""
    from docx.oxml import OxmlElement
    from docx.oxml.ns import qn

    number = OxmlElement("w:fldSimple")
    number.set(qn("w:instr"), "PAGE")
    paragraph._p.append(number)


def document_bytes(document: Document) -> bytes:
    """Return a document as the bytes of a .docx file, the same for the same document."""
    written = io.BytesIO()
    document.save(written)
    return without_clock(written.getvalue())
