"""What is raised: an input that cannot be used, and a report that was not written, each with its diagnostics."""

from __future__ import annotations

from collections.abc import Iterable

from speccheck.language.diagnostics import Diagnostic


class UnusableInput(ValueError):  # noqa: N818 - the name says what is wrong, and whose doing it is
    """An input that nothing can be judged by. `diagnostics` say what is wrong, where, and what to write instead."""

    def __init__(self, what: str, diagnostics: Iterable[Diagnostic] = ()) -> None:
        super().__init__(what, tuple(diagnostics))
        self.what = what
        self.diagnostics = tuple(diagnostics)

    def __str__(self) -> str:
        return "\n".join((self.what, *map(str, self.diagnostics)))


class NotWritten(OSError):  # noqa: N818 - as above
    """A report that was not written; what was there before is unchanged. `diagnostic` says why."""

    def __init__(self, diagnostic: Diagnostic) -> None:
        super().__init__(diagnostic.message)
        self.diagnostic = diagnostic

    def __str__(self) -> str:
        return str(self.diagnostic)
