"""The store: the folder that a portfolio is written into, and what is kept of each schedule, as JSON Lines.

    manifest.jsonl  each entry in order, with the fingerprint of its content and that of its result
    results/        a file for each result, named by its fingerprint
    unfinished/     what is being written; gone after a run, swept away before the next one

A file is written beside its place and moved there in one step, so that a killed run leaves whole files only. One run
at a time writes into a store.
"""

from __future__ import annotations

import json
import os
import secrets
import shutil
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import Any, BinaryIO

from speccheck.judge.judgement import Verdict
from speccheck.language.diagnostics import NOWHERE, Diagnostic, Place, Severity
from speccheck.review.portfolio.messages import (
    FOLDER_HOLDS_SCHEDULES,
    FOLDER_NOT_WRITABLE,
    FOLDER_OF_OTHERS,
    NO_FOLDER_FOR_RESULTS,
)
from speccheck.schedule.lines import CellCount, UnreadKind

MARKS: Mapping[Verdict, str] = {
    Verdict.FAILS: "F",
    Verdict.CANNOT_TELL: "?",
    Verdict.COMPLIES: "+",
    Verdict.NOT_CHECKED: "o",
    Verdict.NOT_APPLICABLE: "-",
}
_VERDICTS = {mark: verdict for verdict, mark in MARKS.items()}
FINDINGS = (Verdict.FAILS, Verdict.CANNOT_TELL)
"""The verdicts that somebody has to act on or to answer."""

NO_MARK = "."
"""Stands where there is no verdict: on advice, where the cases of a line are too many."""


@dataclass(frozen=True, slots=True)
class LineResult:
    """A line: its name, its sheet and cell ("" where the file has none), its marks."""

    name: str
    sheet: str
    cell: str
    marks: str


@dataclass(frozen=True, slots=True)
class ScheduleResult:
    """A schedule, or a part of a long one: its lines, and the errors and warnings of reading it.

    `name` is "" for a file that is one schedule. `reasons` are the sentences of the judge by the position of the line
    and the clause, where they were asked for. `unread` counts what a person has yet to read, `cells` the filled cells,
    `assumed` the requirements that are met on an assumption, `relations` how lines stand to one another: None for a
    part of which the lines were not held against those of the others.
    """

    lines: tuple[LineResult, ...] = ()
    diagnostics: tuple[Diagnostic, ...] = ()
    name: str = ""
    reasons: Mapping[tuple[int, int], str] = field(default_factory=dict)
    unread: Mapping[UnreadKind, int] = field(default_factory=dict)
    cells: CellCount | None = None
    assumed: int = 0
    relations: Mapping[Verdict, int] | None = None


def written(results: Iterable[ScheduleResult], *, again: bool) -> Iterator[str]:
    """Yield the lines of the file that keeps results.

    The last one says that it is whole, and `again` that the next run should judge afresh.
    """
    for result in results:
        yield _line(
            {
                "schedule": result.name,
                "lines": [[line.name, line.sheet, line.cell, line.marks] for line in result.lines],
                "diagnostics": [asdict(found) for found in result.diagnostics],
                "unread": {str(kind): number for kind, number in result.unread.items()},
                "cells": None if result.cells is None else asdict(result.cells),
                "assumed": result.assumed,
                "relations": None
                if result.relations is None
                else {MARKS[verdict]: number for verdict, number in result.relations.items()},
                "reasons": [[line, clause, text] for (line, clause), text in result.reasons.items()],
            }
        )
    yield _line({"whole": True, "again": again})


def read_back(lines: Iterable[str]) -> Iterator[ScheduleResult]:
    """Yield the results that the lines of a file keep."""
    for line in lines:
        kept = json.loads(line)
        if "whole" not in kept:
            yield ScheduleResult(
                tuple(LineResult(*one) for one in kept["lines"]),
                tuple(_diagnostic(one) for one in kept["diagnostics"]),
                kept["schedule"],
                {(line, clause): text for line, clause, text in kept["reasons"]},
                {UnreadKind(kind): number for kind, number in kept["unread"].items()},
                None if kept["cells"] is None else CellCount(**kept["cells"]),
                kept["assumed"],
                None
                if kept["relations"] is None
                else {_VERDICTS[mark]: number for mark, number in kept["relations"].items()},
            )


def is_whole(last_line: bytes) -> bool:
    """Say whether the last line of a file says that it is whole, and need not be made again."""
    return last_line == _line({"whole": True, "again": False}).encode()


def _line(content: Mapping[str, Any]) -> str:
    return json.dumps(content, separators=(",", ":")) + "\n"


def _diagnostic(kept: dict[str, Any]) -> Diagnostic:
    return Diagnostic(**{**kept, "severity": Severity(kept["severity"]), "place": Place(**kept["place"])})


MANIFEST = "manifest.jsonl"
_RESULTS, _UNFINISHED = "results", "unfinished"
_LAST_LINE = 64


@dataclass(frozen=True, slots=True)
class Store:
    """The output folder of a portfolio."""

    folder: Path

    def prepare(self, portfolio: Path) -> Diagnostic | None:
        """Make the folder ready for a run, or return why it cannot be used and leave it as it is."""
        try:
            problem = self._problem(portfolio)
            if problem is None:
                (self.folder / _RESULTS).mkdir(parents=True, exist_ok=True)
                self.sweep()
        except OSError as error:
            return FOLDER_NOT_WRITABLE.at(NOWHERE, folder=self.folder.name, why=(error.strerror or "no access").lower())
        return problem

    def _problem(self, portfolio: Path) -> Diagnostic | None:
        if self.folder == portfolio or self.folder in portfolio.parents:
            return FOLDER_HOLDS_SCHEDULES.at(NOWHERE, folder=self.folder.name)
        if self.folder.exists() and not self.folder.is_dir():
            return NO_FOLDER_FOR_RESULTS.at(NOWHERE, folder=self.folder.name)
        if self.folder.exists() and not (self.folder / _RESULTS).is_dir() and any(self.folder.iterdir()):
            return FOLDER_OF_OTHERS.at(NOWHERE, folder=self.folder.name)
        return None

    def sweep(self) -> None:
        """Take away what a killed run left unfinished."""
        shutil.rmtree(self.folder / _UNFINISHED, ignore_errors=True)

    def has(self, key: str) -> bool:
        """Say whether the result with this fingerprint is kept whole."""
        try:
            with self._path(key).open("rb") as file:
                file.seek(0, os.SEEK_END)
                file.seek(max(file.tell() - _LAST_LINE, 0))
                return is_whole(file.readlines()[-1])
        except (OSError, IndexError):
            return False

    def keep(self, key: str, results: Iterable[ScheduleResult], *, again: bool = False) -> None:
        """Keep results under a fingerprint. The results are taken one by one, so that they may be a stream."""
        self._path(key).parent.mkdir(exist_ok=True)
        with self.whole_file(self._path(key)) as file:
            for line in written(results, again=again):
                file.write(line.encode())

    def results(self, key: str) -> Iterator[ScheduleResult]:
        """Yield the results kept under a fingerprint."""
        with self._path(key).open(encoding="utf-8") as file:
            yield from read_back(file)

    @contextmanager
    def whole_file(self, target: Path) -> Iterator[BinaryIO]:
        """Give a file to write; when it is done it takes the place of `target` in one step, else nothing changes."""
        fresh = self.folder / _UNFINISHED / f"{os.getpid()}-{secrets.token_hex(8)}"
        fresh.parent.mkdir(exist_ok=True)
        try:
            with fresh.open("xb") as file:
                yield file
            fresh.replace(target)
        except BaseException:
            with suppress(OSError):
                fresh.unlink(missing_ok=True)
            raise

    def _path(self, key: str) -> Path:
        return self.folder / _RESULTS / key[:2] / f"{key[2:]}.jsonl"
