"""Source texts: the text of a ruleset or vocabulary file, and the lines of it that diagnostics show."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from speccheck.english import nearest
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.messages.parsing import CANNOT_BE_OPENED, IS_A_FOLDER, IS_A_SECTION, NO_SUCH_FILE, NOT_UTF_8
from speccheck.language.ruleset_files import shipped_names


@dataclass(frozen=True)
class SourceText:
    """The text of one file under the name by which messages call it (no folders of this machine)."""

    name: str
    text: str

    @cached_property
    def lines(self) -> tuple[str, ...]:
        """The lines of the text, without their ends."""
        return tuple(self.text.split("\n"))

    def excerpt(self, place: Place) -> str:
        """Return the line of this text on which a place lies, "" where it lies on none."""
        return self.lines[place.line - 1] if 0 < place.line <= len(self.lines) else ""


# Files that a specification section comes in.
SECTIONS = (".docx", ".doc", ".pdf", ".rtf", ".odt")


def read_source(path: Path, name: str = "") -> SourceText | Diagnostic:
    """Return the text of `path` under `name` (by default the file's own name), or why it cannot be read."""
    shown = name or path.name
    place = Place(file=shown)
    if path.suffix.casefold() in SECTIONS and path.is_file():
        return IS_A_SECTION.at(place, file=shown)
    try:
        text = path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError:
        return NOT_UTF_8.at(place, file=shown)
    except IsADirectoryError:
        return IS_A_FOLDER.at(place, file=shown)
    except FileNotFoundError:
        return NO_SUCH_FILE.at(place, near=nearest(path.as_posix(), shipped_names()), file=shown)
    except OSError as problem:
        return CANNOT_BE_OPENED.at(place, file=shown, cause=problem.strerror or "unknown cause")
    return SourceText(shown, text.replace("\r\n", "\n").replace("\r", "\n"))
