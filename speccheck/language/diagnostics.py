"""Diagnostics: what a person got wrong, as a value that says where, what, and what to write instead."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import StrEnum


class Severity(StrEnum):
    """How much a diagnostic weighs: an error makes its input unusable, a warning does not, a note only tells."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


ON_PAPER = ("page ", "table ", "text around ")
"""How places in a PDF or a document begin, which have no sheets."""


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """Where something stands.

    In a text file: `file`, `line` and `column` (both from 1), and the `length` of the offending text.
    In a workbook: `file`, `sheet` and `cell` ("B12"). Zero or empty means that the part does not apply.
    `among_files` says that several files were submitted together, so that words for the place have to name its own.
    """

    file: str = ""
    line: int = 0
    column: int = 0
    length: int = 0
    sheet: str = ""
    cell: str = ""
    among_files: bool = field(default=False, compare=False)

    def __str__(self) -> str:
        if self.sheet or self.cell:
            on_paper = self.sheet.startswith(ON_PAPER)
            sheet = self.sheet if on_paper or not self.sheet else f"sheet {self.sheet}"
            return " ".join(part for part in (self.file, sheet, self.cell) if part)
        return ":".join(str(part) for part in (self.file, self.line, self.column) if part)


NOWHERE = Place()
"""The place of what stands nowhere in a file."""


@dataclass(frozen=True, slots=True)
class Diagnostic:
    """One mistake or remark: its code, how much it weighs, one sentence, where, and what to write instead.

    `message` is one sentence in lower case with the offending text in backticks; `help` may be empty.
    `excerpt` is the line of source text in which the place lies, for underlining; empty for workbooks.
    """

    code: str
    severity: Severity
    message: str
    place: Place
    help: str = ""
    excerpt: str = ""

    def __str__(self) -> str:
        head = f"{self.severity}[{self.code}]: {self.message}"
        lines = [head, f"  at {self.place}"]
        if self.excerpt:
            lines += [f"  | {self.excerpt}", f"  | {underline(self.excerpt, self.place)}"]
        if self.help:
            lines.append(f"  help: {self.help}")
        return "\n".join(lines)


def underline(excerpt: str, place: Place) -> str:
    """Return the line of carets that goes under `excerpt` to mark `place`, never past its end."""
    start = max(place.column - 1, 0)
    width = max(1, min(place.length, len(excerpt) - start))
    lead = "".join("\t" if character == "\t" else " " for character in excerpt[:start])
    return lead + "^" * width


def in_order(diagnostics: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """Return the diagnostics without repeats, sorted by place, then by code and message."""
    return tuple(sorted(dict.fromkeys(diagnostics), key=lambda found: (found.place, found.code, found.message)))


def has_errors(diagnostics: Iterable[Diagnostic]) -> bool:
    """Say whether any of the diagnostics makes its input unusable."""
    return any(found.severity is Severity.ERROR for found in diagnostics)
