"""The 40 clauses of the workload as one query for DuckDB."""

from __future__ import annotations

from collections.abc import Callable

import duckdb
import numpy as np
import polars as pl
from benchmarks.by_numpy import FOOT, HOT_THICKNESS, INCH, SIZE_MARKS, TOLERANCE
from benchmarks.plain_columns import JACKETS, SEAMS, STOPS, fahrenheit
from benchmarks.workload import INSULATIONS, LOCATIONS, SERVICES, clause_words
from numpy.typing import NDArray

from speccheck.judge.vectorized.conditions import CANNOT_TELL, COMPLIES, FAILS, NOT_APPLICABLE

Parts = tuple[str, str, str]
"""Where a clause applies, what it asks and what it excepts, as SQL."""


def verdicts(frame: pl.DataFrame, clauses: int) -> list[NDArray[np.int8]]:
    """Return the codes of the verdicts, an array for each clause, by one query on a frame with nulls."""
    columns = ", ".join(
        f"CAST(CASE WHEN NOT (({scope}) AND NOT ({excepted})) THEN {NOT_APPLICABLE} WHEN {met} THEN {COMPLIES} "
        f"WHEN ({scope}) AND NOT ({excepted}) AND NOT ({met}) THEN {FAILS} ELSE {CANNOT_TELL} END "
        f"AS TINYINT) AS c{number}"
        for number, (scope, met, excepted) in enumerate(_parts(clauses))
    )
    shared = f"operating_temperature < ambient_temperature * {1 - TOLERANCE!r} AS below_ambient"
    query = f"WITH shared AS (SELECT *, {shared}, {_hot_thickness()} AS hot FROM frame) SELECT {columns} FROM shared"
    relation = duckdb.sql(query)
    assert relation is not None
    found = relation.fetchnumpy()
    return [found[f"c{number}"] for number in range(clauses)]


def _hot_thickness() -> str:
    rows = []
    for cells in HOT_THICKNESS:
        sizes = " ".join(
            f"WHEN pipe_size < {mark} THEN {cell * INCH!r}" for mark, cell in zip(SIZE_MARKS, cells, strict=False)
        )
        rows.append(f"CASE {sizes} ELSE {cells[-1] * INCH!r} END")
    marks = [fahrenheit(degrees) * (1 + 1e-9) for degrees in (140, 200, 250)]
    bands = " ".join(
        f"WHEN operating_temperature <= {mark!r} THEN {row}" for mark, row in zip(marks, rows, strict=True)
    )
    return f"CASE WHEN operating_temperature < {fahrenheit(105) * (1 - 1e-9)!r} THEN NULL {bands} ELSE NULL END"


def _parts(clauses: int) -> list[Parts]:
    return [PARTS[number % len(PARTS)](**words) for number, words in enumerate(clause_words(clauses))]


def _listed(column: str, names: tuple[str, ...], wanted: tuple[str, ...]) -> str:
    return f"{column} IN ({', '.join(str(names.index(name)) for name in wanted)})"


def _insulation(name: str) -> str:
    return f"insulation = {INSULATIONS.index(name)}"


def _location(name: str) -> str:
    return f"location = {LOCATIONS.index(name)}"


def _at_least(column: str, limit: str | float) -> str:
    least = repr(limit * (1 - TOLERANCE)) if isinstance(limit, float) else f"({limit}) * {1 - TOLERANCE!r}"
    return f"{column} >= {least}"


def _at_most(column: str, limit: float) -> str:
    return f"{column} <= {limit * (1 + TOLERANCE)!r}"


def _thickness_by_table(insulation: str, **_: object) -> Parts:
    hot = ("heating hot water", "steam", "domestic hot water")
    return _listed("service", SERVICES, hot), _at_least("thickness", "hot"), _insulation(insulation)


def _vapor_stops_apart(location: str, feet: int, **_: object) -> Parts:
    met = _at_most("vapor_stop_spacing", feet * FOOT)
    return f"below_ambient AND {_location(location)}", met, _insulation("cellular glass")


def _outdoor_jacket(insulation: str, **_: object) -> Parts:
    met = _listed("jacket", JACKETS, ("aluminum", "stainless steel", "PVC"))
    return _location("outdoor"), met, _insulation(insulation)


def _plenum(**_: object) -> Parts:
    met = f"{_at_most('flame_spread', 25.0)} AND {_at_most('smoke_developed', 50.0)}"
    return _location("plenum"), met, "concealed = 1"


def _seams(insulation: str, location: str, **_: object) -> Parts:
    met = _listed("seam_closure", SEAMS, ("factory adhesive", "contact adhesive"))
    return _insulation(insulation), met, _location(location)


def _large_pipes(service: str, insulation: str, **_: object) -> Parts:
    scope = f"service = {SERVICES.index(service)} AND pipe_size >= 4"
    return scope, f"({_at_least('thickness', 1.5 * INCH)} OR {_insulation(insulation)})", "concealed = 1"


def _vapor_stops_at(**_: object) -> Parts:
    wanted = sum(1 << STOPS.index(name) for name in ("valves", "flanges"))
    met = f"(vapor_stop_locations & {wanted}) = {wanted}"
    return "below_ambient", met, f"{_insulation('cellular glass')} AND pipe_size < 2"


def _hot_range(hot: int, feet: int, location: str, **_: object) -> Parts:
    temperature = "operating_temperature"
    scope = f"{_at_least(temperature, fahrenheit(140))} AND {_at_most(temperature, fahrenheit(hot))}"
    least = f"CASE WHEN hot < {feet * INCH!r} THEN hot WHEN hot IS NOT NULL THEN {feet * INCH!r} END"
    return scope, _at_least("thickness", least), _location(location)


PARTS: tuple[Callable[..., Parts], ...] = (
    *(_thickness_by_table, _vapor_stops_apart, _outdoor_jacket, _plenum),
    *(_seams, _large_pipes, _vapor_stops_at, _hot_range),
)
"""The clauses of the workload as SQL."""
