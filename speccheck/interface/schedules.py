"""Schedules from where they are: a file, a frame of pandas, Polars or Arrow, or rows of plain values."""

from __future__ import annotations

import math
import os
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol, cast, runtime_checkable

from speccheck.inputs import usable_mapping, usable_package, with_lines
from speccheck.schedule import Schedule, ScheduleMapping
from speccheck.schedule.schedule import read_objects

if TYPE_CHECKING:
    from speccheck.interface.rules import Rules

FROM_FRAME = "table"
"""The name of a schedule that comes from no file."""


@runtime_checkable
class Frame(Protocol):
    """A table with named columns, each of which can be listed: a frame of pandas or Polars."""

    @property
    def columns(self) -> Iterable[Any]:
        """The names of the columns."""

    def __getitem__(self, name: Any, /) -> Any:
        """Return a column."""


Rows = Iterable[Mapping[str, Any]]
FilePath = str | os.PathLike[str]
Source = FilePath | Iterable[FilePath] | Frame | Rows


def read_schedule(
    source: Source,
    rules: Rules,
    *,
    mapping: str | os.PathLike[str] | ScheduleMapping | None = None,
    units: str = "",
    sheet: str = "",
) -> Schedule:
    """Return a schedule in the terms of a ruleset.

    `source` is the path of a file, several paths or a folder that are one submittal (of which product data are left
    out), a frame of pandas, Polars or Arrow, or rows of plain values by column header;
    headers and values are read as those of a file are, so that `"2 in"`, `1.5` and `None` may all stand there.
    `mapping` is a mapping file, or what `read_mapping` made of one; `units` ("inch-pound" or "metric") is the system of
    numbers for which nothing states a unit, else that of the ruleset; `sheet` is the only sheet to read.

    Raises `UnusableInput` where no line of it can be judged.
    """
    return read_submittal(source, rules, mapping=mapping, units=units, sheet=sheet)[0]


def read_submittal(
    source: Source,
    rules: Rules,
    *,
    mapping: FilePath | ScheduleMapping | None = None,
    units: str = "",
    sheet: str = "",
) -> tuple[Schedule, Schedule | None]:
    """Return what `read_schedule` does, and the product data among the files, None where there are none."""
    settled = _mapping(mapping, rules)
    paths = paths_of(source)
    if paths:
        package = usable_package(paths, rules.ruleset, settled, units=units, sheet=sheet)
        return package.schedule, package.products
    vocabulary, usual = rules.ruleset.vocabulary, rules.ruleset.units
    objects = objects_of(cast("Frame | Rows", source))
    schedule = read_objects(objects, FROM_FRAME, vocabulary, settled, units=units, usual_units=usual)
    return with_lines(schedule), None


def paths_of(source: object) -> list[Path]:
    """Return the paths that a source names, none where it is a table."""
    if isinstance(source, str | os.PathLike):
        return [Path(source)]
    if isinstance(source, list | tuple) and source and all(isinstance(one, str | os.PathLike) for one in source):
        return [Path(one) for one in source]
    return []


def objects_of(source: Frame | Rows) -> list[dict[str, Any]]:
    """Return a table as a list of rows of plain values by column header; what is not given is None."""
    if hasattr(source, "to_pylist"):  # a table of Arrow
        return objects_of(source.to_pylist())
    if isinstance(source, Frame):
        columns = {str(name): _listed(source[name]) for name in source.columns}
        return [dict(zip(columns, row, strict=True)) for row in zip(*columns.values(), strict=True)]
    return [{str(name): _plain(value) for name, value in row.items()} for row in source]


def _listed(column: Any) -> list[Any]:
    values = column.to_list() if hasattr(column, "to_list") else column
    return [_plain(value) for value in values]


def _plain(value: Any) -> Any:
    """Return a value as JSON would hold it; a date or anything else without such a form becomes its text."""
    if hasattr(value, "item") and not isinstance(value, str | int | float):  # a scalar of NumPy
        value = value.item()
    if value is None or isinstance(value, str | bool | int):
        return value
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if isinstance(value, list | tuple | set | frozenset):
        return [str(one) for one in value]
    text = str(value)
    return None if text in ("NaT", "<NA>") else text


def _mapping(mapping: str | os.PathLike[str] | ScheduleMapping | None, rules: Rules) -> ScheduleMapping | None:
    """Return what a mapping file settles, None where there is none."""
    if mapping is None or isinstance(mapping, ScheduleMapping):
        return mapping
    return usable_mapping(Path(mapping), rules.ruleset.vocabulary)[0]
