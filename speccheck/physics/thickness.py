"""Minimum thickness of one more layer: against condensation, for a touch limit, for a heat-flow limit.

Each answer is given exactly and as the next stocked thickness. The exact thickness put back into `solve` gives the
limit. The search runs from bare to `greatest`; surface temperature and (past the critical radius) heat flow fall
steadily with thickness, so there is one answer.

A touch limit is a matter of safety: ambient temperature, contact time and jacket material matter, and local codes and
licensed practice decide.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from speccheck.physics.dimensions import INCH
from speccheck.physics.heat_flow import HeatFlow, misfit, solve
from speccheck.physics.materials import MeanConductivity
from speccheck.physics.numerics import Array, Flags, Numbers, as_array, find_roots
from speccheck.physics.systems import Layer, Method, System
from speccheck.physics.working import Cause, CauseArray, note

STOCKED_THICKNESSES = tuple(INCH * inches for inches in (0.5, 0.75, 1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5, 5.5, 6))
"""Thicknesses commonly stocked, m (common practice, no source); hand in others where the schedule names them."""

STOCKED_MILLIMETRES = tuple(mm / 1000 for mm in (9, 13, 19, 25, 30, 40, 50, 60, 80, 100, 120, 140, 160))
"""The same where thicknesses are told in millimetres: foams and shells, m (common practice, no source)."""


def stocked_in(system: str) -> tuple[float, ...]:
    """Return the thicknesses (m) commonly stocked where a system of units is used, "inch-pound" or "metric"."""
    return STOCKED_MILLIMETRES if system == "metric" else STOCKED_THICKNESSES


GREATEST_THICKNESS = 1.0
"""How far the search goes, m."""

STOCK_TOLERANCE = 1e-6
"""A stocked thickness that falls short by no more than this share is enough."""


@dataclass(frozen=True)
class LeastThickness:
    """Minimum thicknesses (m), zero where none is needed; NaN where `cause` is not `Cause.NONE`.

    Where the cause is `Cause.NOT_STOCKED` only `stocked` is NaN. `solved` is the system at the exact thickness.
    """

    exact: Array
    stocked: Array
    cause: CauseArray
    solved: HeatFlow


def next_stocked(exact: Numbers, stocked: Sequence[float] = STOCKED_THICKNESSES) -> Array:
    """Return the least stocked thickness (m) that is enough for an exact one (m), in the shape of `exact`.

    Zero where none is needed, NaN where all are too thin.
    """
    exact = as_array(exact)
    sizes = np.array([*sorted(stocked), np.nan])
    chosen = sizes[np.searchsorted(sizes[:-1], exact * (1 - STOCK_TOLERANCE))]
    return np.where(exact == 0, 0.0, np.where(np.isnan(exact), np.nan, chosen))


def least_thickness_against_condensation(
    system: System,
    dew_point: Numbers,
    conductivity: Numbers | MeanConductivity,
    method: Method = "film correlations",
    stocked: Sequence[float] = STOCKED_THICKNESSES,
    greatest: float = GREATEST_THICKNESS,
) -> LeastThickness:
    """Return the minimum thickness of a layer that keeps the surface at or above the dew point (K)."""
    limit = as_array(dew_point)
    warmest = np.maximum(as_array(system.air_temperature), system.surroundings_temperature)
    colder = as_array(system.inside_temperature) < limit
    search = _Search(system, conductivity, method, greatest)
    found = search.least_at_surface(limit, above=True)
    beyond = colder & (limit >= warmest), Cause.LIMIT_BEYOND_AIR
    return search.finish(found, limit, stocked, beyond, bare_flow_matters=False)


def least_thickness_for_touch_limit(
    system: System,
    limit: Numbers,
    conductivity: Numbers | MeanConductivity,
    method: Method = "film correlations",
    stocked: Sequence[float] = STOCKED_THICKNESSES,
    greatest: float = GREATEST_THICKNESS,
) -> LeastThickness:
    """Return the minimum thickness of a layer that keeps the surface at or below a temperature limit (K)."""
    limit = as_array(limit)
    coldest = np.minimum(as_array(system.air_temperature), system.surroundings_temperature)
    hotter = as_array(system.inside_temperature) > limit
    search = _Search(system, conductivity, method, greatest)
    found = search.least_at_surface(limit, above=False)
    beyond = hotter & (limit <= coldest), Cause.LIMIT_BEYOND_AIR
    return search.finish(found, limit, stocked, beyond, bare_flow_matters=False)


def least_thickness_for_heat_flow(
    system: System,
    limit: Numbers,
    conductivity: Numbers | MeanConductivity,
    method: Method = "film correlations",
    stocked: Sequence[float] = STOCKED_THICKNESSES,
    greatest: float = GREATEST_THICKNESS,
) -> LeastThickness:
    """Return the minimum thickness that keeps heat loss or gain at or below a limit (W/m, or W/m² for flats).

    Below the critical radius a thin layer loses more than none. The answer lies past it: zero where the bare pipe
    already meets the limit, else the thickness from which on every greater one meets it.
    """
    limit = as_array(limit)
    search = _Search(system, conductivity, method, greatest)
    found = search.least(
        lambda t: limit - np.abs(search.covered(t, False).heat_flow), np.where(limit > 0, limit, np.nan)
    )
    return search.finish(found, limit, stocked, (limit <= 0, Cause.NOT_PHYSICAL), bare_flow_matters=True)


class _Search:
    """The search for the thickness of the outermost layer."""

    def __init__(
        self, system: System, conductivity: Numbers | MeanConductivity, method: Method, greatest: float
    ) -> None:
        self.system, self.conductivity, self.method, self.greatest = system, conductivity, method, greatest

    def _with(self, thickness: Array) -> System:
        """Return the systems with a layer of the given thickness."""
        return self.system.with_layer(Layer(thickness, self.conductivity))

    def covered(self, thickness: Array, check_ranges: bool) -> HeatFlow:
        """Return the systems solved with a layer of the given thickness."""
        return solve(self._with(thickness), self.method, check_ranges)

    def least_at_surface(self, limit: Array, above: bool) -> Array:
        """Return the thickness at which the surface reaches a limit (K), to stay above it or below it.

        The surface temperature is known then, so with constant conductivities the balance itself is the margin.
        """
        sign = -1.0 if above else 1.0
        layer = Layer(np.zeros(()), self.conductivity)
        if any(each.varies for each in (*self.system.layers, layer)):
            return self.least(lambda t: sign * (limit - self.covered(t, False).surface_temperature), limit)
        return self.least(lambda t: sign * misfit(self._with(t), limit, self.method), limit)

    def least(self, margin: Callable[[Array], Array], limit: Array) -> Array:
        """Return where the margin turns from short to enough: zero if bare is enough, NaN if nothing is."""
        bare, thickest = (margin(np.asarray(end)) for end in (0.0, self.greatest))
        extent = np.broadcast_shapes(np.shape(bare), np.shape(limit))
        low, high = np.zeros(extent), np.full(extent, self.greatest)
        scale = np.where(np.isfinite(limit), np.abs(limit), 1.0)
        found = find_roots(margin, low, high, near_enough=1e-13 * scale)
        exact = np.where(bare >= 0, 0.0, np.where(thickest >= 0, found.value, np.nan))
        return np.where(np.isnan(limit), np.nan, exact)

    def finish(
        self,
        exact: Array,
        limit: Array,
        stocked: Sequence[float],
        beyond: tuple[Flags, Cause],
        bare_flow_matters: bool,
    ) -> LeastThickness:
        """Return the answer with causes; `beyond` says where no thickness can ever reach the limit, and why.

        A bare pipe that is enough needs no formula unless its flow matters.
        """
        solved = self.covered(np.where(np.isnan(exact), self.greatest, exact), True)
        causes = np.broadcast_to(solved.cause, exact.shape).copy()
        if not bare_flow_matters:
            causes[(exact == 0) & (causes > Cause.NOT_PHYSICAL)] = Cause.NONE
        causes[np.isnan(exact) & (causes > Cause.NOT_PHYSICAL)] = Cause.NONE
        note(causes, np.isnan(limit), Cause.NOT_GIVEN)
        note(causes, np.isnan(exact) & beyond[0], beyond[1])
        note(causes, np.isnan(exact), Cause.NO_THICKNESS)
        exact = np.where(causes == Cause.NONE, exact, np.nan)
        sizes = next_stocked(exact, stocked)
        note(causes, np.isnan(sizes), Cause.NOT_STOCKED)
        return LeastThickness(exact, sizes, causes, solved)
