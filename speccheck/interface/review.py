"""What came of a check: questions answered, and reports saved."""

from __future__ import annotations

import datetime
import os
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import Any

from speccheck.english import did_you_mean
from speccheck.inputs import usable_products, usable_received, usable_register, usable_sheet
from speccheck.interface.schedules import FilePath, paths_of
from speccheck.judge import Verdict
from speccheck.language.clause_names import clauses_by_name
from speccheck.language.core import Clause
from speccheck.report.writing import NotWritten
from speccheck.review.matrix import Matrix
from speccheck.review.outcome import Outcome, outcome_of
from speccheck.schedule import Line, Schedule


@dataclass(frozen=True)
class Finding:
    """One cell of the matrix: what one clause makes of one line.

    `line` and `clause` are the names that reports call them by, `place` is where the line stands ("Piping B12"),
    `missing` names the data that would settle it, `at` the sizes and temperatures that the verdict holds for, where
    not for all. `mandatory` is False for a recommendation, which decides nothing.
    """

    line: str
    clause: str
    title: str
    verdict: Verdict
    reason: str
    place: str
    mandatory: bool
    missing: tuple[str, ...]
    at: tuple[str, ...]
    _review: Review
    _row: int
    _column: int

    def __repr__(self) -> str:
        return f"<Finding {self.line}, {self.clause}: {self.verdict}. {self.reason}>"

    def working(self, *, width: int = 100) -> str:
        """Return the working in full: the data that went in, each step, the wording and the sources of the clause."""
        import io

        from rich.console import Console

        from speccheck.judge import Judge
        from speccheck.report.terminal.working import print_working

        matrix = self._review.matrix
        line, clause = matrix.schedule.lines[self._row], matrix.ruleset.clauses[self._column]
        text = io.StringIO()
        cell = Judge(matrix.ruleset).cell(self._column, line)
        print_working(line, clause, cell, matrix.ruleset, Console(file=text, width=width), width=width)
        return text.getvalue()


@dataclass(frozen=True)
class Review:
    """A schedule checked against a ruleset.

    `matrix` is what the reports are made from; its insides may change. `files` are the files that were read, over
    none of which a report is saved.
    """

    matrix: Matrix
    files: tuple[Path, ...] = ()

    def __repr__(self) -> str:
        return f"<Review of {self.matrix.schedule.name}: {self.outcome.heading}>"

    @cached_property
    def outcome(self) -> Outcome:
        """What the whole comes to: counts, whether all was read, exit status, sentences."""
        return outcome_of(self.matrix)

    @property
    def schedule(self) -> Schedule:
        """The schedule as it was read, with what of it was in doubt."""
        return self.matrix.schedule

    @property
    def lines(self) -> tuple[str, ...]:
        """The names of the lines, in the order of the schedule."""
        return tuple(line.name for line in self.matrix.schedule.lines)

    @property
    def clauses(self) -> tuple[str, ...]:
        """The labels of the clauses, in the order of the ruleset."""
        return tuple(clause.label or clause.name for clause in self.matrix.ruleset.clauses)

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What needs somebody to act or to answer: what does not comply, then what cannot be determined."""
        found = [one for one in self if one.mandatory and one.verdict in (Verdict.FAILS, Verdict.CANNOT_TELL)]
        return tuple(sorted(found, key=lambda one: one.verdict is not Verdict.FAILS))

    def __iter__(self) -> Iterator[Finding]:
        """Go through all cells of the matrix, line by line."""
        for row in range(len(self.matrix.cells)):
            for column in range(len(self.matrix.ruleset.clauses)):
                yield self._finding(row, column)

    def __getitem__(self, names: tuple[str, str]) -> Finding:
        """Return the cell of a line and a clause by their names; a `KeyError` names the nearest that there is."""
        line, clause = names
        row = _number(line, self._rows, "line")
        return self._finding(row, _number(clause, self._columns, "clause"))

    def beside(
        self,
        *,
        design: FilePath | Schedule | None = None,
        products: FilePath | Iterable[FilePath] | Schedule | None = None,
        fill_from_data: bool = False,
        deviations: FilePath | None = None,
        received: FilePath | None = None,
        on: datetime.date | None = None,
    ) -> Review:
        """Return this review with what a design list, product data and registers of deviations and of what was received
        bring up.

        Product data are tables, or data sheets (.pdf, .docx), one or several; with `fill_from_data` lines are judged by
        what these show where the schedule leaves something out, and every finding says so.

        Raises `UnusableInput` where one of them cannot be used.
        """
        from speccheck.review.filling_from_data import fill_from_data as fill_in
        from speccheck.review.reviewing import review_matrix

        register, ruleset = None, self.matrix.ruleset
        if deviations is not None:
            register, _ = usable_register(Path(deviations), ruleset)
        came = None if received is None else usable_received(Path(received), ruleset)[0]
        sheet = self._products(products)
        matrix = fill_in(self.matrix, sheet) if fill_from_data and sheet is not None else self.matrix
        matrix = review_matrix(
            matrix,
            design=self._sheet(design, "design list"),
            products=sheet,
            register=register,
            received=came,
            on=on,
        )
        named = [path for one in (design, products, deviations, received) for path in paths_of(one)]
        return replace(self, matrix=matrix, files=(*self.files, *named))

    def save(self, path: str | os.PathLike[str], *, kind: str = "") -> Path:
        """Save a report whole and return its path.

        The ending says which: .html a page, .xlsx a workbook, .json the matrix, .md Markdown, .csv the findings; or
        `kind` does ("page", "workbook", "json", "markdown", "findings"). Raises `NotWritten` where it cannot be saved,
        and `ValueError` where the ending says nothing.
        """
        from speccheck.report.kinds import KINDS, kind_of, renderer
        from speccheck.report.writing import write_whole

        target = Path(path)
        chosen = kind or kind_of(target.suffix)
        if chosen not in {one.name for one in KINDS}:
            endings = ", ".join(ending for one in KINDS for ending in one.endings)
            raise ValueError(f"no kind of report has the ending `{target.suffix}`; write one of {endings}")
        problem = write_whole(target, renderer(chosen)(self.matrix), self.files)
        if problem is not None:
            raise NotWritten(problem)
        return target

    def rows(self) -> list[dict[str, Any]]:
        """Return all cells as plain values: line, clause, title, verdict, mandatory, reason, missing, at, place."""
        return [
            {
                "line": one.line,
                "clause": one.clause,
                "title": one.title,
                "verdict": str(one.verdict),
                "mandatory": one.mandatory,
                "reason": one.reason,
                "missing": ", ".join(one.missing),
                "at": "; ".join(one.at),
                "place": one.place,
            }
            for one in self
        ]

    def to_frame(self) -> Any:
        """Return all cells as a frame of pandas, or of Polars where pandas is not installed.

        Raises `ImportError` where neither is; `rows()` needs no library.
        """
        from importlib import import_module
        from importlib.util import find_spec

        library = next((name for name in ("pandas", "polars") if find_spec(name) is not None), None)
        if library is None:
            raise ImportError("a frame needs the library pandas or polars; `rows()` returns plain values")
        return import_module(library).DataFrame(self.rows())

    @cached_property
    def _rows(self) -> Mapping[str, int]:
        return {line.name: number for number, line in enumerate(self.matrix.schedule.lines)}

    @cached_property
    def _columns(self) -> Mapping[str, int]:
        numbers = {id(clause): number for number, clause in enumerate(self.matrix.ruleset.clauses)}
        return {name: numbers[id(one)] for name, one in clauses_by_name(self.matrix.ruleset.clauses).items()}

    def _finding(self, row: int, column: int) -> Finding:
        from speccheck.report.line_words import place_words

        line: Line = self.matrix.schedule.lines[row]
        clause: Clause = self.matrix.ruleset.clauses[column]
        cell = self.matrix.told[row][column]
        label, place = clause.label or clause.name, place_words(line.place)
        told = (clause.title, cell.verdict, cell.reason, place, cell.mandatory, cell.missing, cell.at)
        return Finding(line.name, label, *told, self, row, column)

    def _products(self, source: FilePath | Iterable[FilePath] | Schedule | None) -> Schedule | None:
        """Return product data from where they are, all of them as one sheet."""
        if source is None or isinstance(source, Schedule):
            return source
        return usable_products(paths_of(source), self.matrix.schedule, self.matrix.ruleset)[0]

    def _sheet(self, source: FilePath | Schedule | None, what: str) -> Schedule | None:
        """Return a file that is read as a schedule is."""
        if source is None or isinstance(source, Schedule):
            return source
        return usable_sheet(Path(source), self.matrix.ruleset, what)


def _number(name: str, known: Mapping[str, int], what: str) -> int:
    if name in known:
        return known[name]
    hint = did_you_mean(name, known, f"there are {len(known)}, such as `{next(iter(known), '')}`")
    raise KeyError(f"no {what} is called `{name}`; {hint}")
