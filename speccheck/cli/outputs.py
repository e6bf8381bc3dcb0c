"""The files that a command writes: named first, refused before anything is judged, written whole, told at the end."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from speccheck.cli import UNUSABLE, WRITTEN
from speccheck.cli.inputs import files_read, show
from speccheck.cli.saying import say
from speccheck.cli.waiting import working_on
from speccheck.inputs import UnusableInput

if TYPE_CHECKING:
    from speccheck.language.diagnostics import Diagnostic

Function = TypeVar("Function", bound=Callable[..., Any])

STANDARD_OUTPUT = "-"
replace_option = click.option("--replace", is_flag=True, help="Write over files that are not as speccheck wrote them.")


class Outputs:
    """The files that a command was told to write, by what each of them is.

    A file that must not be written ends the run before anything is judged. One of them may be `-`, standard output,
    on which then nothing else is printed.
    """

    def __init__(
        self,
        named: Mapping[str, Path | None],
        *,
        replace: bool = False,
        folder: Path | None = None,
        theirs: bool = False,
    ) -> None:
        """Take the files by what each of them is; a `folder` for them is made when the first is written.

        What is `theirs` stays the work of who wrote it: it is rewritten, but no other report takes its place untold.
        """
        self.named = {what: path for what, path in named.items() if path is not None}
        self.folder = folder
        self.replace, self.theirs = replace, theirs
        self.problems: list[Diagnostic] = []
        self.told: list[str] = []
        found = [problem for problem in self._refused() if problem is not None]
        if found:
            raise UnusableInput("the output cannot be written", found)

    def _refused(self) -> Iterable[Diagnostic | None]:
        from speccheck.report.writing import refusal_of, same_name

        paths = list(self.named.values())
        for number, path in enumerate(paths):
            yield same_name(path, paths[:number])
            to_be_made = path.parent == self.folder and not path.parent.exists()
            if not _is_standard(path) and not to_be_made:
                try:
                    # Whether a file that is there may be replaced is known when its new content is.
                    yield refusal_of(path, files_read(), replace=True)
                except (OSError, ValueError):
                    continue  # writing it will say why the system does not take the name

    def __contains__(self, what: str) -> bool:
        return what in self.named

    @property
    def own_the_screen(self) -> bool:
        """Whether one of them goes to standard output, so that nothing else may be printed there."""
        return any(map(_is_standard, self.named.values()))

    def write(self, what: str, content: str | bytes) -> None:
        """Write one of them, or keep what was wrong for the end."""
        from speccheck.report.writing import is_own, write_whole

        path = self.named[what]
        working_on(f"writing {path}")
        if _is_standard(path):
            sys.stdout.flush()
            sys.stdout.buffer.write(content.encode("utf-8", "replace") if isinstance(content, str) else content)
            return
        if self.folder is not None:
            with suppress(OSError):  # writing will say why there is none
                self.folder.mkdir(parents=True, exist_ok=True)
        foreign = self.replace and not self.theirs and path.is_file() and not is_own(path)
        problem = write_whole(path, content, files_read(), replace=self.replace, theirs=self.theirs)
        if problem is None:
            self.wrote(path, replaced=foreign)
        else:
            self.problems.append(problem)

    def wrote(self, path: Path, *, replaced: bool = False) -> None:
        """Keep for the end that a file was written; what is too long for `write` is written by its own floor."""
        WRITTEN.append(str(path))
        self.told.append(f"{'replaced' if replaced else 'wrote'} {path}")

    def failed(self, problem: Diagnostic) -> None:
        """Keep why one of them could not be made at all."""
        self.problems.append(problem)

    def finish(self, status: int) -> int:
        """Say what was written and what was not; return the exit status, 3 where something was not."""
        for sentence in self.told:
            say(sentence, err=self.own_the_screen)
        show(self.problems)
        return UNUSABLE if self.problems else status


def copies_of(papers: Sequence[Path], into: Path, option: str) -> tuple[dict[Path, Path], Path | None]:
    """Return where the copy of each file goes, and the folder of the copies, which may have to be made.

    The copy of one file is the file that the option names; of several, the option names their folder.
    """
    if len(papers) == 1:
        return {papers[0]: into}, None
    if into.is_file() or _is_standard(into):
        raise click.UsageError(f"{option} {into.name} has to name a folder, for several files were given")
    return {paper: into / paper.name for paper in papers}, into


def _is_standard(path: Path) -> bool:
    return str(path) == STANDARD_OUTPUT
