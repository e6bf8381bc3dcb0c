"""The 40 clauses of the workload written by hand in Polars: nullable columns, whose logic is Kleene's, in one query."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields
from typing import Any

import polars as pl
from benchmarks.by_numpy import FOOT, HOT_THICKNESS, INCH, SIZE_MARKS, TOLERANCE
from benchmarks.plain_columns import JACKETS, SEAMS, STOPS, Plain, fahrenheit
from benchmarks.workload import INSULATIONS, LOCATIONS, SERVICES, clause_words

from speccheck.judge.vectorized.conditions import CANNOT_TELL, COMPLIES, FAILS, NOT_APPLICABLE

Parts = tuple[pl.Expr, pl.Expr, pl.Expr]


def frame_of(plain: Plain) -> pl.DataFrame:
    """Return the columns as a frame, null where a value is missing."""
    columns = {one.name: pl.Series(getattr(plain, one.name)) for one in fields(plain)}
    codes = ("concealed", "jacket", "seam_closure")
    numbers = ("thickness", "vapor_stop_spacing", "smoke_developed")
    missing = [pl.when(pl.col(name) >= 0).then(pl.col(name)).alias(name) for name in codes]
    return pl.DataFrame(columns).with_columns(*missing, *(pl.col(name).fill_nan(None) for name in numbers))


def verdicts(frame: pl.DataFrame, clauses: int) -> pl.DataFrame:
    """Return the codes of the verdicts, a column for each clause."""
    shared = frame.lazy().with_columns(
        (pl.col("operating_temperature") < pl.col("ambient_temperature") * (1 - TOLERANCE)).alias("below_ambient"),
        _hot_thickness().alias("hot_thickness"),
    )
    found = []
    for number, words in enumerate(clause_words(clauses)):
        scope, met, excepted = PARTS[number % len(PARTS)](**words)
        applies = scope & ~excepted
        passed = pl.when(~applies).then(NOT_APPLICABLE).when(met).then(COMPLIES)
        code = passed.when(applies & ~met).then(FAILS).otherwise(CANNOT_TELL)
        found.append(code.cast(pl.Int8).alias(f"{number}"))
    return shared.select(found).collect()


def _hot_thickness() -> pl.Expr:
    temperature, size = pl.col("operating_temperature"), pl.col("pipe_size")
    marks = [fahrenheit(degrees) * (1 + 1e-9) for degrees in (140, 200, 250)]
    rows = []
    for cells in HOT_THICKNESS:
        row: Any = pl.when(size < SIZE_MARKS[0]).then(cells[0] * INCH)
        for mark, cell in zip(SIZE_MARKS[1:], cells[1:], strict=False):
            row = row.when(size < mark).then(cell * INCH)
        rows.append(row.otherwise(cells[-1] * INCH))
    found: Any = pl.when(temperature < fahrenheit(105) * (1 - 1e-9)).then(None)
    for mark, cells_of_row in zip(marks, rows, strict=True):
        found = found.when(temperature <= mark).then(cells_of_row)
    whole: pl.Expr = found.otherwise(None)
    return whole


def _insulation(name: str) -> pl.Expr:
    return pl.col("insulation") == INSULATIONS.index(name)


def _location(name: str) -> pl.Expr:
    return pl.col("location") == LOCATIONS.index(name)


def _one_of(column: str, names: tuple[str, ...], wanted: tuple[str, ...]) -> pl.Expr:
    found = pl.col(column) == names.index(wanted[0])
    for name in wanted[1:]:
        found = found | (pl.col(column) == names.index(name))
    return found


def _at_least(column: str, limit: pl.Expr | float) -> pl.Expr:
    return pl.col(column) >= limit * (1 - TOLERANCE)


def _at_most(column: str, limit: float) -> pl.Expr:
    return pl.col(column) <= limit * (1 + TOLERANCE)


def _thickness_by_table(insulation: str, **_: object) -> Parts:
    hot = ("heating hot water", "steam", "domestic hot water")
    return _one_of("service", SERVICES, hot), _at_least("thickness", pl.col("hot_thickness")), _insulation(insulation)


def _vapor_stops_apart(location: str, feet: int, **_: object) -> Parts:
    scope = pl.col("below_ambient") & _location(location)
    return scope, _at_most("vapor_stop_spacing", feet * FOOT), _insulation("cellular glass")


def _outdoor_jacket(insulation: str, **_: object) -> Parts:
    met = _one_of("jacket", JACKETS, ("aluminum", "stainless steel", "PVC"))
    return _location("outdoor"), met, _insulation(insulation)


def _plenum(**_: object) -> Parts:
    met = _at_most("flame_spread", 25) & _at_most("smoke_developed", 50)
    return _location("plenum"), met, pl.col("concealed") == 1


def _seams(insulation: str, location: str, **_: object) -> Parts:
    met = _one_of("seam_closure", SEAMS, ("factory adhesive", "contact adhesive"))
    return _insulation(insulation), met, _location(location)


def _large_pipes(service: str, insulation: str, **_: object) -> Parts:
    scope = (pl.col("service") == SERVICES.index(service)) & (pl.col("pipe_size") >= 4)
    return scope, _at_least("thickness", 1.5 * INCH) | _insulation(insulation), pl.col("concealed") == 1


def _vapor_stops_at(**_: object) -> Parts:
    wanted = sum(1 << STOPS.index(name) for name in ("valves", "flanges"))
    met = (pl.col("vapor_stop_locations") & wanted) == wanted
    return pl.col("below_ambient"), met, _insulation("cellular glass") & (pl.col("pipe_size") < 2)


def _hot_range(hot: int, feet: int, location: str, **_: object) -> Parts:
    scope = _at_least("operating_temperature", fahrenheit(140)) & _at_most("operating_temperature", fahrenheit(hot))
    least: Any = pl.when(pl.col("hot_thickness") < feet * INCH).then(pl.col("hot_thickness"))
    least = least.when(pl.col("hot_thickness").is_not_null()).then(feet * INCH)
    return scope, _at_least("thickness", least.otherwise(None)), _location(location)


PARTS: tuple[Callable[..., Parts], ...] = (
    *(_thickness_by_table, _vapor_stops_apart, _outdoor_jacket, _plenum),
    *(_seams, _large_pipes, _vapor_stops_at, _hot_range),
)
"""The clauses of the workload: where each applies, what it asks, what it excepts."""
