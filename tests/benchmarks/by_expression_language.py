"""The 40 clauses of the workload in a compiled expression language (CEL, Common Expression Language), row by row.

Its "and" and "or" take a missing variable as Kleene's logic takes what is not known, so that a clause is three
expressions (where it applies, what it excepts, what it asks), each true, false or an error for what is not known.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields
from typing import Any

import cel
import numpy as np
from benchmarks.by_numpy import FOOT, HOT_THICKNESS, INCH, SIZE_MARKS, TOLERANCE
from benchmarks.plain_columns import JACKETS, SEAMS, STOPS, Plain, fahrenheit
from benchmarks.workload import INSULATIONS, LOCATIONS, SERVICES, clause_words
from numpy.typing import NDArray

from speccheck.judge.vectorized.conditions import CANNOT_TELL, COMPLIES, FAILS, NOT_APPLICABLE

Row = Mapping[str, Any]
Programs = tuple[cel.Program, cel.Program, cel.Program]
_LISTED = {
    "service": SERVICES,
    "location": LOCATIONS,
    "insulation": INSULATIONS,
    "jacket": JACKETS,
    "seam_closure": SEAMS,
}


def rows_of(plain: Plain) -> list[Row]:
    """Return the rows, without what is missing, words for codes."""
    return [_row({one.name: getattr(plain, one.name)[at] for one in fields(plain)}) for at in range(len(plain.service))]


def _row(values: Mapping[str, Any]) -> Row:
    row: dict[str, Any] = {}
    for name, value in values.items():
        if name in _LISTED and value >= 0:
            row[name] = _LISTED[name][value]
        elif name == "concealed" and value >= 0:
            row[name] = bool(value)
        elif name == "vapor_stop_locations":
            row[name] = [stop for place, stop in enumerate(STOPS) if value >> place & 1]
        elif name not in _LISTED and name != "concealed" and not np.isnan(value):
            row[name] = float(value)
    return row


def programs(clauses: int) -> list[Programs]:
    """Return the compiled expressions of so many clauses."""
    texts = [PARTS[number % len(PARTS)](**words) for number, words in enumerate(clause_words(clauses))]
    return [(cel.compile(scope), cel.compile(met), cel.compile(excepted)) for scope, met, excepted in texts]


def verdicts(compiled: list[Programs], rows: list[Row]) -> NDArray[np.int8]:
    """Return the codes of the verdicts, a row for each clause."""
    return np.array([[_code(*one, row) for row in rows] for one in compiled], np.int8)


def _code(scope: cel.Program, met: cel.Program, excepted: cel.Program, row: Row) -> int:
    within, outside = _truth(scope, row), _truth(excepted, row)
    if within is False or outside is True:
        return NOT_APPLICABLE
    found = _truth(met, row)
    if found is True:
        return COMPLIES
    return FAILS if within is True and outside is False and found is False else CANNOT_TELL


def _truth(program: cel.Program, row: Row) -> bool | None:
    try:
        return bool(program.execute(row))
    except (RuntimeError, KeyError):
        return None


def _number(value: float) -> str:
    return repr(float(value))


def _hot_thickness() -> str:
    marks = [fahrenheit(degrees) * (1 + 1e-9) for degrees in (140, 200, 250)]
    found = "not_covered"
    for mark, cells in reversed(list(zip(marks, HOT_THICKNESS, strict=True))):
        row = _number(cells[-1] * INCH)
        for limit, cell in reversed(list(zip(SIZE_MARKS, cells, strict=False))):
            row = f"(pipe_size < {_number(limit)} ? {_number(cell * INCH)} : {row})"
        found = f"(operating_temperature <= {_number(mark)} ? {row} : {found})"
    return f"(operating_temperature < {_number(fahrenheit(105) * (1 - 1e-9))} ? not_covered : {found})"


_BELOW_AMBIENT = f"operating_temperature < ambient_temperature * {_number(1 - TOLERANCE)}"


def _is(name: str, word: str) -> str:
    return f"{name} == '{word}'"


def _at_least(name: str, limit: float | str) -> str:
    return f"{name} >= {limit if isinstance(limit, str) else _number(limit)} * {_number(1 - TOLERANCE)}"


def _at_most(name: str, limit: float) -> str:
    return f"{name} <= {_number(limit * (1 + TOLERANCE))}"


def _thickness_by_table(insulation: str, **_: object) -> tuple[str, str, str]:
    scope = "service in ['heating hot water', 'steam', 'domestic hot water']"
    return scope, _at_least("thickness", _hot_thickness()), _is("insulation", insulation)


def _vapor_stops_apart(location: str, feet: int, **_: object) -> tuple[str, str, str]:
    scope = f"{_BELOW_AMBIENT} && {_is('location', location)}"
    return scope, _at_most("vapor_stop_spacing", feet * FOOT), _is("insulation", "cellular glass")


def _outdoor_jacket(insulation: str, **_: object) -> tuple[str, str, str]:
    return _is("location", "outdoor"), "jacket in ['aluminum', 'stainless steel', 'PVC']", _is("insulation", insulation)


def _plenum(**_: object) -> tuple[str, str, str]:
    return (
        _is("location", "plenum"),
        f"{_at_most('flame_spread', 25)} && {_at_most('smoke_developed', 50)}",
        "concealed",
    )


def _seams(insulation: str, location: str, **_: object) -> tuple[str, str, str]:
    met = "seam_closure in ['factory adhesive', 'contact adhesive']"
    return _is("insulation", insulation), met, _is("location", location)


def _large_pipes(service: str, insulation: str, **_: object) -> tuple[str, str, str]:
    met = f"{_at_least('thickness', 1.5 * INCH)} || {_is('insulation', insulation)}"
    return f"{_is('service', service)} && pipe_size >= 4.0", met, "concealed"


def _vapor_stops_at(**_: object) -> tuple[str, str, str]:
    met = "'valves' in vapor_stop_locations && 'flanges' in vapor_stop_locations"
    return _BELOW_AMBIENT, met, f"{_is('insulation', 'cellular glass')} && pipe_size < 2.0"


def _hot_range(hot: int, feet: int, location: str, **_: object) -> tuple[str, str, str]:
    low, high = fahrenheit(140), fahrenheit(hot)
    scope = f"{_at_least('operating_temperature', low)} && {_at_most('operating_temperature', high)}"
    table, limit = _hot_thickness(), _number(feet * INCH)
    return scope, _at_least("thickness", f"({table} < {limit} ? {table} : {limit})"), _is("location", location)


PARTS: tuple[Callable[..., tuple[str, str, str]], ...] = (
    *(_thickness_by_table, _vapor_stops_apart, _outdoor_jacket, _plenum),
    *(_seams, _large_pipes, _vapor_stops_at, _hot_range),
)
"""The clauses of the workload: where each applies, what it asks, what it excepts."""
