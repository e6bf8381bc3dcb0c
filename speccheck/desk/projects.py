"""A project: a folder of plain files that the commands use too.

    project.toml          name, what to check against, units, and the names of the papers that there are
    clauses/              rulesets of one's own
    papers/               what stands beside every submittal: design list, product data, registers
    rounds/01/            the submittal as received (a file, or the folder `submittal` of several), mapping.toml,
                          notes.toml, and in the folder `sent` what was sent back
    history/              what each step of the desk replaced, so that it can be undone

Every file is written whole. A file that somebody else changed since a page showed it is never overwritten: writing
takes the fingerprint that the page saw, under a lock that two desks on one folder share.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from speccheck.desk.history import History, UndoStep, Write
from speccheck.desk.settings import SETTINGS, Settings, Unreadable, read_settings, settings_text
from speccheck.report.writing import write_whole

_ROUND = re.compile(r"[0-9]{2}")


class Changed(Exception):
    """A file that is not as the page saw it; `now` is what stands there."""

    def __init__(self, file: str, now: str) -> None:
        super().__init__(file)
        self.file, self.now = file, now


class FileNotWritten(Exception):
    """A file that could not be written, and why."""


class NoSuch(Exception):
    """A project, a round or a file that there is not."""


def fingerprint(path: Path) -> str:
    """Return the fingerprint of a file, "" where there is none."""
    try:
        return sha256(path.read_bytes()).hexdigest()
    except OSError:
        return ""


def files_of(folder_or_file: Path) -> tuple[Path, ...]:
    """Return a file alone, or the files of a folder by name but for hidden ones, as `check` takes them."""
    if not folder_or_file.is_dir():
        return (folder_or_file,)
    return tuple(
        sorted(one for one in folder_or_file.iterdir() if one.is_file() and not one.name.startswith((".", "~$")))
    )


def project_name(words: str) -> str:
    """Return the name of a folder for a project that is called `words`."""
    plain = re.sub(r"[^a-z0-9]+", "-", words.casefold()).strip("-")[:50]
    return plain or "project"


@dataclass(frozen=True, slots=True)
class Project:
    """One project by its folder."""

    folder: Path

    @property
    def name(self) -> str:
        """The name of its folder, which stands in addresses."""
        return self.folder.name

    @property
    def settings(self) -> Settings:
        """What project.toml says."""
        return read_settings(self.folder)

    @property
    def title(self) -> str:
        """What the project is called: the name of its folder where its settings say nothing or cannot be read."""
        try:
            return self.settings.name or self.name
        except Unreadable:
            return self.name

    @property
    def rounds(self) -> tuple[str, ...]:
        """The rounds, "01" and so on, that have a submittal."""
        folder = self.folder / "rounds"
        found = folder.iterdir() if folder.is_dir() else ()
        return tuple(sorted(one.name for one in found if _ROUND.fullmatch(one.name) and self.submittal(one.name)))

    def inside(self, *parts: str) -> Path:
        """Return the path of a file of the project; a path that leads outside, over links too, is none."""
        path = self.folder.joinpath(*parts)
        if not path.resolve().is_relative_to(self.folder.resolve()):
            raise NoSuch("/".join(parts))
        return path

    def submittal(self, round: str) -> Path | None:
        """Return the submittal of a round: a file, or a folder where it came as several files."""
        folder = self.inside("rounds", round, "submittal")
        if folder.is_dir() and files_of(folder):
            return folder
        return next((one for one in sorted(folder.parent.glob("submittal.*")) if one.is_file()), None)

    def submitted(self, round: str) -> tuple[Path, ...]:
        """Return the files of the submittal of a round."""
        found = self.submittal(round)
        return () if found is None else files_of(found)

    def clauses(self) -> tuple[str, ...]:
        """Return the names of the rulesets of one's own."""
        return tuple(sorted(one.name for one in (self.folder / "clauses").glob("*.clauses") if one.is_file()))

    def against(self) -> str:
        """Return what is checked against: the path of a ruleset of one's own, or the name of a shipped one."""
        named = self.settings.against
        if named in self.clauses():
            return str(self.inside("clauses", named))
        return named

    def read(self, *parts: str) -> str:
        """Return the text of a file, "" where there is none."""
        try:
            return self.inside(*parts).read_text(encoding="utf-8")
        except (OSError, UnicodeDecodeError):
            return ""

    @contextmanager
    def alone(self) -> Iterator[None]:
        """Keep other desks from writing meanwhile."""
        from filelock import FileLock

        with FileLock(self.folder / ".lock", timeout=20):
            yield

    def write(
        self, parts: tuple[str, ...], data: str | bytes, seen: str | None, what: str, *, joined: bool = False
    ) -> str:
        """Write a file whole and return its fingerprint; `seen` is that of the file as it was shown ("" for none).

        `what` says for the history what was done; a write that is `joined` is undone with the one before. `Changed`
        where the file is not as it was seen; with `seen` None nothing was shown. To be called within `alone` where the
        data were made from the file itself.
        """
        path, file = self.inside(*parts), "/".join(parts)
        if seen is not None and fingerprint(path) != seen:
            raise Changed(file, self.read(*parts))
        path.parent.mkdir(parents=True, exist_ok=True)
        before = path.read_bytes() if path.is_file() else None
        content = data.encode("utf-8") if isinstance(data, str) else data
        self._history.remember(file, before, content, what, joined=joined)
        problem = write_whole(path, content, replace=True, theirs=True)
        if problem is not None:
            raise FileNotWritten(problem.message)
        return sha256(content).hexdigest()

    def write_folder(self, parts: tuple[str, ...], files: Mapping[str, bytes], what: str) -> None:
        """Write a folder of files that appears whole or not at all, as one step; `Changed` where there is one already.

        The files are written into a hidden folder beside it, which then gets its name. To be called within `alone`.
        """
        folder, unfinished = self.inside(*parts), self.inside(*parts[:-1], f".{parts[-1]}")
        if folder.is_dir() and not any(folder.iterdir()):  # what is left where a folder was undone
            folder.rmdir()
        if folder.exists():
            raise Changed("/".join(parts), "")
        shutil.rmtree(unfinished, ignore_errors=True)  # of a desk that was killed
        unfinished.mkdir(parents=True)
        for number, (name, content) in enumerate(files.items()):
            file = "/".join((*parts, name))
            self._history.remember(file, None, content, what, joined=number > 0)
            problem = write_whole(unfinished / name, content, replace=True, theirs=True)
            if problem is not None:
                raise FileNotWritten(problem.message)
        unfinished.rename(folder)

    @property
    def _history(self) -> History:
        return History(self.inside("history"))

    def last_step(self) -> UndoStep | None:
        """Return the last step that can be undone."""
        return self._history.last_step()

    def undo(self, number: str) -> str:
        """Undo the last step and return what it was; `Changed` where it is no longer the last, or a file differs."""
        with self.alone():
            step = self.last_step()
            if step is None or step.number != number:
                raise Changed("history", "")
            latest = {write.file: write for write in reversed(step.writes)}  # of several writes to one file the last
            for write in latest.values():
                self._still_as_written(write)
            for write in step.writes:
                self._take_back(write)
            return step.what

    def _still_as_written(self, write: Write) -> None:
        """Raise `Changed` where a file is neither as a write left it nor as it was before."""
        parts = tuple(write.file.split("/"))
        before = fingerprint(self._history.before(write.number)) if write.was else ""
        if fingerprint(self.inside(*parts)) not in (write.after, before):
            raise Changed(write.file, self.read(*parts))

    def _take_back(self, write: Write) -> None:
        """Give a file as it was before a write."""
        path, before = self.inside(*write.file.split("/")), self._history.before(write.number)
        if not write.was:
            path.unlink(missing_ok=True)
        elif (problem := write_whole(path, before.read_bytes(), replace=True, theirs=True)) is not None:
            raise FileNotWritten(problem.message)
        self._history.forget(write.number)


@dataclass(frozen=True, slots=True)
class Projects:
    """The folder in which projects lie, or one project alone."""

    folder: Path
    only: str = ""

    @classmethod
    def of(cls, folder: Path) -> Projects:
        """Return the projects of a folder; a folder that is a project itself is the only one."""
        folder = folder.resolve()
        return cls(folder.parent, folder.name) if (folder / SETTINGS).is_file() else cls(folder)

    def all(self) -> tuple[Project, ...]:
        """Return the projects, by name."""
        if self.only:
            return (Project(self.folder / self.only),)
        found = self.folder.iterdir() if self.folder.is_dir() else ()
        return tuple(sorted((Project(one) for one in found if (one / SETTINGS).is_file()), key=lambda one: one.name))

    def find(self, name: str) -> Project:
        """Return a project by the name of its folder."""
        for project in self.all():
            if project.name == name:
                return project
        raise NoSuch(name)

    def make(self, title: str, against: str) -> Project:
        """Make the folder of a new project."""
        wanted = project_name(title)
        self.folder.mkdir(parents=True, exist_ok=True)
        for name in (wanted, *(f"{wanted}-{number}" for number in range(2, 10_000))):
            project = Project(self.folder / name)
            with suppress(FileExistsError):  # another review, or one that another desk makes at this moment
                project.folder.mkdir()
                break
        write_settings(project, Settings(name=title, against=against), "", "a new review")
        return project


def write_settings(
    project: Project,
    settings: Settings,
    seen: str | None,
    what: str = "settings of the project",
    *,
    joined: bool = False,
) -> str:
    """Write project.toml, as a step or joined to the one before."""
    return project.write((SETTINGS,), settings_text(settings), seen, what, joined=joined)
