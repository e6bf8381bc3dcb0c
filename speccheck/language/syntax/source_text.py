"""Source texts: the text of a ruleset or vocabulary file, and the lines of it that diagnostics show."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from speccheck.english import did_you_mean
from speccheck.language.diagnostics import Diagnostic, Place, Severity
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

    def error(self, code: str, message: str, place: Place, help: str = "") -> Diagnostic:
        """Return an error at `place` of this text, with the line that it stands on."""
        return self._diagnostic(Severity.ERROR, code, message, place, help)

    def warning(self, code: str, message: str, place: Place, help: str = "") -> Diagnostic:
        """Return a warning at `place` of this text, with the line that it stands on."""
        return self._diagnostic(Severity.WARNING, code, message, place, help)

    def _diagnostic(self, severity: Severity, code: str, message: str, place: Place, help: str) -> Diagnostic:
        excerpt = self.lines[place.line - 1] if 0 < place.line <= len(self.lines) else ""
        return Diagnostic(code, severity, message, place, help, excerpt)


# Files that a specification section comes in.
SECTIONS = (".docx", ".doc", ".pdf", ".rtf", ".odt")


def read_source(path: Path, name: str = "") -> SourceText | Diagnostic:
    """Return the text of `path` under `name` (by default the file's own name), or why it cannot be read."""
    shown = name or path.name
    if path.suffix.casefold() in SECTIONS and path.is_file():
        help = f"draft clauses from it: `speccheck draft {shown} --into project.clauses`"
        return _unreadable(shown, "is a document and no ruleset", help)
    try:
        text = path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError:
        return _unreadable(shown, "is not text in UTF-8", "save the file as UTF-8 text")
    except IsADirectoryError:
        return _unreadable(shown, "is a folder", "name a file that ends in .clauses")
    except FileNotFoundError:
        help = did_you_mean(path.as_posix(), shipped_names(), "check the path, or name a shipped ruleset")
        return _unreadable(shown, "does not exist", help)
    except OSError as problem:
        return _unreadable(shown, f"cannot be opened ({problem.strerror or 'unknown cause'})", "check the file")
    return SourceText(shown, text.replace("\r\n", "\n").replace("\r", "\n"))


def _unreadable(name: str, why: str, help: str) -> Diagnostic:
    return Diagnostic("L104", Severity.ERROR, f"`{name}` {why}", Place(file=name), help)
