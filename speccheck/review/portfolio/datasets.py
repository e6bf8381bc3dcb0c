"""Datasets: Parquet files with one row for each line of many schedules, read row group by row group.

Columns are headed as those of a schedule are ("Op. Temp (F)"); cells are texts, numbers, yes or no, or lists of texts.
The column `submittal` names the schedule of a line; a file without it is one schedule. pyarrow, from the optional
extra `portfolio`, is imported when the first Parquet file is met.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from speccheck.extras import how_to_install
from speccheck.judge.vectorized import CellTexts, columns_of_texts
from speccheck.language.core.review_days import DAY_OF_REVIEW
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.vocabulary.terms import Term, fold
from speccheck.review.portfolio.matrices import marks_of
from speccheck.review.portfolio.messages import NO_COLUMN_OF_TERMS, NO_PARQUET, PARQUET_DAMAGED, PARQUET_NEEDS_PYARROW
from speccheck.review.portfolio.records import as_a_sheet, plain_rows
from speccheck.review.portfolio.request import LoadedRules
from speccheck.review.portfolio.store import LineResult, ScheduleResult
from speccheck.schedule.grid import number_text
from speccheck.schedule.header_words import MARK_TERMS
from speccheck.schedule.lines import CellCount
from speccheck.schedule.messages.tables import COLUMN_NAMES_NO_TERM, UNKNOWN_COLUMN

PARQUET = ".parquet"
SCHEDULE_COLUMN = "submittal"
_ROWS_AT_ONCE = 16_384


def row_groups(path: Path) -> int:
    """Return how many row groups a Parquet file has; 0 where it has no rows or cannot be read."""
    if find_spec("pyarrow") is None:
        return 0
    import pyarrow as pa
    import pyarrow.parquet as pq

    try:
        metadata = pq.read_metadata(path)
        return int(metadata.num_row_groups) if metadata.num_rows else 0
    except (OSError, pa.ArrowException):
        return 0


def judged_row_group(path: Path, part: int | None, rules: LoadedRules) -> Iterator[ScheduleResult]:
    """Yield the results of the schedules of a row group; one that goes over several blocks of rows comes in parts.

    A file that cannot be used gives one result without lines.
    """
    if find_spec("pyarrow") is None:
        yield _unusable(PARQUET_NEEDS_PYARROW.at(Place(path.name), install=how_to_install("portfolio")))
        return
    import pyarrow as pa
    import pyarrow.parquet as pq

    try:
        if part is None:
            yield _unusable(NO_PARQUET.at(Place(path.name), file=path.name))
            return
        with pq.ParquetFile(path) as file:
            yield from _judged(file, part, path.name, rules)
    except (OSError, pa.ArrowException):
        yield _unusable(PARQUET_DAMAGED.at(Place(path.name), file=path.name))


def _judged(file: Any, part: int, name: str, rules: LoadedRules) -> Iterator[ScheduleResult]:
    """Yield the results of a row group, block by block."""
    heads = _Heads.of(file.schema_arrow.names, name, rules)
    if not heads.terms:
        yield _unusable(NO_COLUMN_OF_TERMS.at(Place(name), file=name))
        return
    first = sum(file.metadata.row_group(before).num_rows for before in range(part))
    told = heads.diagnostics if part == 0 else ()
    for batch in file.iter_batches(_ROWS_AT_ONCE, row_groups=[part]):
        texts = [_texts(column) for column in batch.columns]
        cells = {term.name: _cells(texts[place], unit) for place, term, unit in heads.terms}
        cells = {term.name: _replaced(cells[term.name], term, rules) for _, term, _ in heads.terms}
        day = {} if rules.on is None else {DAY_OF_REVIEW.name: CellTexts([rules.on.isoformat()], [0] * len(batch))}
        marks = marks_of(rules.judge.judge(columns_of_texts({**cells, **day}, rules.ruleset, rules.units)))
        names = [f"row {first + row + 1}" for row in range(len(marks))]
        if heads.mark is not None:
            names = [said or row for said, row in zip(texts[heads.mark], names, strict=True)]
        lines = [LineResult(line, "", "", mark) for line, mark in zip(names, marks, strict=True)]
        schedules = texts[heads.schedule] if heads.schedule is not None else [""] * len(lines)
        plain = plain_rows(cells, heads.by_term, rules) if heads.single else [False] * len(lines)
        for start, stop in _runs(schedules):
            if all(plain[start:stop]):
                yield ScheduleResult(
                    tuple(lines[start:stop]), told, schedules[start], cells=heads.count(texts, start, stop)
                )
            else:
                rows = [[column[row] for column in texts] for row in range(start, stop)]
                read = as_a_sheet(heads.names, rows, first + start, name, heads.schedule, rules)
                own = (found for found in read.diagnostics if found.code != UNKNOWN_COLUMN.code)
                yield replace(read, name=schedules[start], diagnostics=(*told, *own))
            told = ()
        first += len(lines)


@dataclass(frozen=True, slots=True)
class _Heads:
    """What the columns of a file are: places of terms with their units, of the name of the line and the schedule.

    `single` says that no two columns state one term, `left` are the columns that are not read.
    """

    names: tuple[str, ...]
    terms: tuple[tuple[int, Term, str], ...]
    mark: int | None
    schedule: int | None
    diagnostics: tuple[Diagnostic, ...]
    single: bool
    left: frozenset[int]

    @property
    def by_term(self) -> Mapping[str, tuple[Term, str]]:
        """The terms with their units by name."""
        return {term.name: (term, unit) for _, term, unit in self.terms}

    def count(self, texts: Sequence[Sequence[str]], start: int, stop: int) -> CellCount:
        """Return how many cells of some rows are filled, and how many of them were read."""
        filled = [sum(bool(text.strip()) for text in column[start:stop]) for column in texts]
        return CellCount(sum(filled), sum(number for place, number in enumerate(filled) if place not in self.left))

    @classmethod
    def of(cls, names: Sequence[str], file: str, rules: LoadedRules) -> _Heads:
        """Return what columns with these names are."""
        terms: dict[str, tuple[int, Term, str]] = {}
        mark = schedule = None
        told = []
        left, single = set(), True
        for place, name in enumerate(names):
            key = rules.mapping.key_of(name, None)
            mapped = rules.mapping.columns.get(key) if key is not None else None
            match = rules.headers.match(name) if mapped is None else None
            term = rules.ruleset.vocabulary.terms[mapped.term] if mapped is not None else match.term if match else None
            unit = mapped.unit if mapped is not None else match.unit if match else ""
            if fold(name) == SCHEDULE_COLUMN and schedule is None:
                schedule = place
            elif key in rules.mapping.ignore:
                continue
            elif mark is None and match is not None and match.name in ("#", *MARK_TERMS):
                mark = place
            elif term is not None and term.name not in terms:
                terms[term.name] = (place, term, unit)
            elif term is None:
                told.append(_not_read(name, file))
                left.add(place)
            else:
                single = False
        return cls(tuple(names), tuple(terms.values()), mark, schedule, tuple(told), single, frozenset(left))


def _not_read(name: str, file: str) -> Diagnostic:
    return COLUMN_NAMES_NO_TERM.at(Place(file, cell=f"column {name}"), header=name)


def _cells(texts: Sequence[str], unit: str) -> CellTexts:
    """Return the texts of a column with each that occurs once."""
    known: dict[str, int] = {}
    numbers = [known.setdefault(text, len(known)) if text.strip() else -1 for text in texts]
    return CellTexts(list(known), numbers, unit)


def _replaced(cells: CellTexts, term: Term, rules: LoadedRules) -> CellTexts:
    """Return the cells with the words that the mapping file says more about replaced."""
    texts = [rules.mapping.replaced(text, term) or text for text in cells.texts]
    return CellTexts(texts, cells.numbers, cells.unit)


def _texts(column: Any) -> list[str]:
    """Return what the cells of a column show; "" for a blank one."""
    return [_text(value) for value in column.to_pylist()]


def _text(value: Any) -> str:
    match value:
        case None:
            return ""
        case str():
            return value
        case bool():
            return "yes" if value else "no"
        case int() | float():
            return number_text(value)
        case list():
            return ", ".join(map(_text, value)) or "none"
    return str(value)


def _runs(names: Sequence[str]) -> Iterator[tuple[int, int]]:
    """Yield where each run of equal names starts and stops."""
    start = 0
    for place in range(1, len(names) + 1):
        if place == len(names) or names[place] != names[start]:
            yield start, place
            start = place


def _unusable(problem: Diagnostic) -> ScheduleResult:
    return ScheduleResult((), (problem,))
