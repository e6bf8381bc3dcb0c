"""The 40 clauses of the workload written by hand in NumPy, as somebody would who knows it well.

A condition is a pair of flags, where it holds and where it does not. What several clauses share is worked out once,
the codes of the verdicts are summed from flags without a branch, and the tolerance is part of the limits.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from benchmarks.plain_columns import JACKETS, SEAMS, STOPS, Plain, fahrenheit
from benchmarks.workload import INSULATIONS, LOCATIONS, SERVICES, clause_words
from numpy.typing import NDArray

from speccheck.judge.vectorized.conditions import COMPLIES, NOT_APPLICABLE

Flags = NDArray[np.bool_]
Pair = tuple[Flags, Flags]
INCH, FOOT, TOLERANCE = 0.0254, 0.3048, 1e-6
HOT_THICKNESS = ((1, 1, 1.5, 1.5, 1.5), (1.5, 1.5, 2, 2, 2), (2.5, 2.5, 2.5, 3, 3))
"""Inches by operating temperature, 105 to 140 F, over 140 to 200 F and over 200 to 250 F, and by pipe size."""
SIZE_MARKS = (1, 1.5, 4, 8)


def verdicts(plain: Plain, clauses: int) -> NDArray[np.int8]:
    """Return the codes of the verdicts as `speccheck.judge.vectorized.conditions` has them, a row for each clause."""
    shared = Shared(plain)
    codes = np.empty((clauses, len(plain.service)), np.int8)
    for number, words in enumerate(clause_words(clauses)):
        scope, met, excepted = PARTS[number % len(PARTS)](shared, **words)
        outside = scope[1] | excepted[0]
        settled = outside | met[0]
        fails = scope[0] & excepted[1] & met[1]
        np.multiply(outside.view(np.int8), NOT_APPLICABLE - COMPLIES, out=codes[number])
        codes[number] += settled.view(np.int8)
        codes[number] -= fails.view(np.int8)
    return codes


class Shared:
    """What several clauses need."""

    def __init__(self, plain: Plain) -> None:
        self.plain = plain
        self.below_ambient = _pair(plain.operating_temperature < plain.ambient_temperature * (1 - TOLERANCE))
        self.hot_thickness = hot_thickness(plain)
        self.concealed = plain.concealed == 1, plain.concealed == 0
        self.cellular_glass = self.insulation("cellular glass")

    def insulation(self, name: str) -> Pair:
        """Return where the insulation is a stated one."""
        return _pair(self.plain.insulation == INSULATIONS.index(name))

    def location(self, name: str) -> Pair:
        """Return where the location is a stated one."""
        return _pair(self.plain.location == LOCATIONS.index(name))


def _pair(holds: Flags) -> Pair:
    return holds, ~holds


def _both(one: Pair, other: Pair) -> Pair:
    return one[0] & other[0], one[1] | other[1]


def _either(one: Pair, other: Pair) -> Pair:
    return one[0] | other[0], one[1] & other[1]


def _one_of(codes: NDArray[np.int8], wanted: tuple[int, ...]) -> Pair:
    holds = codes == wanted[0]
    for code in wanted[1:]:
        holds |= codes == code
    return holds, (codes >= 0) & ~holds


def _at_least(values: NDArray[np.float64], limits: NDArray[np.float64] | float) -> Pair:
    least = limits * (1 - TOLERANCE)
    return values >= least, values < least


def _at_most(values: NDArray[np.float64], limit: float) -> Pair:
    most = limit * (1 + TOLERANCE)
    return values <= most, values > most


def hot_thickness(plain: Plain) -> NDArray[np.float64]:
    """Return the thickness that the table asks for, NaN where it covers nothing."""
    marks = [fahrenheit(degrees) * (1 + 1e-9) for degrees in (140, 200, 250)]
    row = np.searchsorted(np.array(marks), plain.operating_temperature)
    row[plain.operating_temperature < fahrenheit(105) * (1 - 1e-9)] = 3
    column = np.searchsorted(np.array(SIZE_MARKS), plain.pipe_size, side="right")
    cells = np.full((4, 5), np.nan)
    cells[:3] = np.array(HOT_THICKNESS) * INCH
    return cells[row, column]


Parts = tuple[Pair, Pair, Pair]


def _thickness_by_table(shared: Shared, insulation: str, **_: object) -> Parts:
    hot = tuple(SERVICES.index(name) for name in ("heating hot water", "steam", "domestic hot water"))
    met = _at_least(shared.plain.thickness, shared.hot_thickness)
    return _one_of(shared.plain.service, hot), met, shared.insulation(insulation)


def _vapor_stops_apart(shared: Shared, location: str, feet: int, **_: object) -> Parts:
    scope = _both(shared.below_ambient, shared.location(location))
    return scope, _at_most(shared.plain.vapor_stop_spacing, feet * FOOT), shared.cellular_glass


def _outdoor_jacket(shared: Shared, insulation: str, **_: object) -> Parts:
    wanted = tuple(JACKETS.index(name) for name in ("aluminum", "stainless steel", "PVC"))
    return shared.location("outdoor"), _one_of(shared.plain.jacket, wanted), shared.insulation(insulation)


def _plenum(shared: Shared, **_: object) -> Parts:
    met = _both(_at_most(shared.plain.flame_spread, 25), _at_most(shared.plain.smoke_developed, 50))
    return shared.location("plenum"), met, shared.concealed


def _seams(shared: Shared, insulation: str, location: str, **_: object) -> Parts:
    wanted = tuple(SEAMS.index(name) for name in ("factory adhesive", "contact adhesive"))
    return shared.insulation(insulation), _one_of(shared.plain.seam_closure, wanted), shared.location(location)


def _large_pipes(shared: Shared, service: str, insulation: str, **_: object) -> Parts:
    scope = _both(_pair(shared.plain.service == SERVICES.index(service)), _pair(shared.plain.pipe_size >= 4))
    met = _either(_at_least(shared.plain.thickness, 1.5 * INCH), shared.insulation(insulation))
    return scope, met, shared.concealed


def _vapor_stops_at(shared: Shared, **_: object) -> Parts:
    wanted = sum(1 << STOPS.index(name) for name in ("valves", "flanges"))
    met = _pair((shared.plain.vapor_stop_locations & wanted) == wanted)
    return shared.below_ambient, met, _both(shared.cellular_glass, _pair(shared.plain.pipe_size < 2))


def _hot_range(shared: Shared, hot: int, feet: int, location: str, **_: object) -> Parts:
    temperature = shared.plain.operating_temperature
    scope = _both(_at_least(temperature, fahrenheit(140)), _at_most(temperature, fahrenheit(hot)))
    least = np.minimum(shared.hot_thickness, feet * INCH)
    return scope, _at_least(shared.plain.thickness, least), shared.location(location)


PARTS: tuple[Callable[..., Parts], ...] = (
    *(_thickness_by_table, _vapor_stops_apart, _outdoor_jacket, _plenum),
    *(_seams, _large_pipes, _vapor_stops_at, _hot_range),
)
"""The clauses of the workload: where each applies, what it asks, what it excepts."""
