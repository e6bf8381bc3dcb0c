"""Surface temperature and heat flow of many insulated systems at once.

The heat that comes through the layers leaves the surface: one equation for each system, in the surface temperature,
solved in a bracket that always holds the answer. Systems are worked through in blocks, so that memory stays small.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from speccheck.physics.materials import MeanConductivity
from speccheck.physics.numerics import Array, Numbers, as_array, find_roots
from speccheck.physics.ranges import note_inputs, note_results
from speccheck.physics.surface_coefficient import SurfaceCoefficient, outward_flow, surface_coefficient
from speccheck.physics.systems import (
    PIPES,
    Method,
    System,
    SystemOutline,
    cylinder_resistance,
    duct_resistance,
    flat_resistance,
    outline,
)
from speccheck.physics.working import Cause, CauseArray, no_causes, note

BLOCK = 16384
"""Systems worked through together: few enough that the arrays stay in the processor's cache."""

RESIDUAL = 1e-9
"""Greatest heat-balance residual of an answer, as a share of the temperature span from inside to air."""

MOST_PASSES = 60
"""Passes over the layer temperatures when conductivity varies; each gains a digit or more."""


@dataclass(frozen=True)
class HeatFlow:
    """The solved systems; NaN where `cause` is not `Cause.NONE`.

    `surface_temperature` (K); `heat_flow` outward, W/m for pipes and ducts, W/m² for flats; `convective` and
    `radiative` coefficients, W/(m² K); `resistance` from inside to surface, m K/W or m² K/W; `area` of the outside,
    m² a metre or 1; `layer_temperatures` (K), from the inner face of the first layer to the outer face of the last;
    `conductivities` (W/(m K)) used for each layer; `residual` of the heat balance (K): what the temperature drop
    through the layers at this heat flow fails by.
    """

    method: Method
    surface_temperature: Array
    heat_flow: Array
    convective: Array
    radiative: Array
    resistance: Array
    area: Array
    layer_temperatures: tuple[Array, ...]
    conductivities: tuple[Array, ...]
    residual: Array
    cause: CauseArray

    @property
    def heat_flux(self) -> Array:
        """Heat flow per square metre of outside surface, W/m²."""
        return self.heat_flow / self.area


def solve(system: System, method: Method = "film correlations", check_ranges: bool = True) -> HeatFlow:
    """Return surface temperature and heat flow of every system, each to a residual of at most `RESIDUAL`.

    Shapes may be mixed. A system with a missing, impossible or out-of-range value gets NaN and its cause; the others
    are not disturbed. `check_ranges` false leaves in place what lies outside a formula's range, for a search that
    passes by; its last answer must be checked.
    """
    extent, count = system.extent, len(system.layers)
    size = int(np.prod(extent))
    columns, causes = np.empty((8 + 2 * count, size)), no_causes((size,))
    for part, block in _blocks(system, size):
        columns[:, part], causes[part] = _solve_block(block, method, len(causes[part]), check_ranges)
    surface, flow, convective, radiative, resistance, area, residual, *rest = columns.reshape(-1, *extent)
    temperatures, conductivities = tuple(rest[: count + 1]), tuple(rest[count + 1 :])
    cause = causes.reshape(extent)
    return HeatFlow(
        method, surface, flow, convective, radiative, resistance, area, temperatures, conductivities, residual, cause
    )


def misfit(system: System, surface: Numbers, method: Method) -> Array:
    """Return by how much (K) each system misses its balance with the surface held at a temperature (K).

    Positive where the surface must be colder, negative where it must be warmer, NaN where an input is missing. Ranges
    are not checked, and conductivity is taken at the mean of inside and air temperature; a search over thickness at a
    known surface temperature goes through here, many times faster than through `solve`.
    """
    extent = np.broadcast_shapes(system.extent, np.shape(surface))
    held = np.broadcast_to(as_array(surface), extent).reshape(-1)
    wide = replace(system, air_temperature=np.broadcast_to(as_array(system.air_temperature), extent))
    found = np.empty(held.shape)
    with np.errstate(all="ignore"):
        for part, block in _blocks(wide, held.size):
            conductors = _Conductors(block, held[part].size)
            flow = outward_flow(block, outline(block), held[part], method)
            found[part] = held[part] - conductors.inside + conductors.total * flow
    return found.reshape(extent)


def _blocks(system: System, size: int) -> Iterator[tuple[slice | NDArray[np.intp], System]]:
    """Yield the systems in blocks of one shape each, with their places in the flattened arrays."""
    if np.ndim(system.shape) == 0:
        for start in range(0, size, BLOCK):
            part = slice(start, min(start + BLOCK, size))
            yield part, system.rows(part)
        return
    shapes = np.broadcast_to(system.shape, system.extent).reshape(-1)
    left = np.arange(size)
    while left.size:  # few shapes among many systems: to sort a million words takes longer
        shape, here = shapes[left[0]], shapes[left] == shapes[left[0]]
        places, left = left[here], left[~here]
        for start in range(0, len(places), BLOCK):
            chosen = places[start : start + BLOCK]
            yield chosen, replace(system.rows(chosen), shape=str(shape))  # type: ignore[arg-type]


def _solve_block(system: System, method: Method, count: int, check_ranges: bool) -> tuple[Array, CauseArray]:
    """Return the columns of the result and the causes for systems of one shape."""
    causes = no_causes((count,))
    over = outline(system)
    note_inputs(causes, system, method)
    with np.errstate(all="ignore"):
        conductors = _Conductors(system, count)
        surface, residual = _balance(system, over, conductors, method)
        coefficient = surface_coefficient(system, over, surface, method)
        flow = outward_flow(system, over, surface, method)
        temperatures = conductors.temperatures(flow)
        if check_ranges:
            note_results(causes, system, over, surface, method)
            _note_conductivity(causes, system, temperatures)
        note(
            causes,
            ~(
                np.abs(residual)
                <= RESIDUAL * _span(system, _lift(system, over, conductors)) + _rounding(conductors, over, coefficient)
            ),
            Cause.NO_BALANCE,
        )
    parts = [surface, flow, coefficient.convective, coefficient.radiative, conductors.total, over.area, residual]
    columns = np.stack(
        [np.broadcast_to(part, (count,)) for part in (*parts, *temperatures, *conductors.conductivities)]
    )
    columns[:, causes != Cause.NONE] = np.nan
    return columns, causes


def _rounding(conductors: _Conductors, over: SystemOutline, coefficient: SurfaceCoefficient) -> Array:
    """Return what the machine's last digits of a surface temperature weigh in the balance (K).

    A very great coefficient magnifies them: with 1e8 W/(m² K) the last digit of 300 K is worth some microkelvins.
    """
    magnified = conductors.total * over.area * (coefficient.convective + coefficient.radiative)
    return 1e-10 + 1e-15 * conductors.inside * magnified


class _Conductors:
    """The layers as resistances in series; conductivities start at the mean of inside and air temperature."""

    def __init__(self, system: System, count: int) -> None:
        self.system = system
        self.inside = np.broadcast_to(as_array(system.inside_temperature), (count,))
        self.outlines = [outline(system, layers) for layers in range(len(system.layers) + 1)]
        middle = 0.5 * (self.inside + as_array(system.air_temperature))
        self.set_conductivities([layer.conductivity_at(middle) for layer in system.layers])

    def set_conductivities(self, conductivities: list[Array]) -> None:
        """Take new conductivities and reckon the resistances anew."""
        self.conductivities = conductivities
        self.resistances = [
            _layer_resistance(self.system, number, self.outlines[number], self.outlines[number + 1], conductivity)
            for number, conductivity in enumerate(conductivities)
        ]
        start = as_array(self.system.inside_resistance)
        self.total: Array = sum(self.resistances, start=start)

    def temperatures(self, flow: Array) -> list[Array]:
        """Return the temperatures of the faces of the layers, from the inside out, at a heat flow."""
        faces = [self.inside - flow * as_array(self.system.inside_resistance)]
        for resistance in self.resistances:
            faces.append(faces[-1] - flow * resistance)
        return faces

    def update(self, flow: Array) -> float:
        """Take the conductivities at the mean temperatures of a heat flow; return the greatest relative change."""
        faces = self.temperatures(flow)
        means = [0.5 * (inner + outer) for inner, outer in pairwise(faces)]
        new = [layer.conductivity_at(mean) for layer, mean in zip(self.system.layers, means, strict=True)]
        changes = [np.abs(now / before - 1) for now, before in zip(new, self.conductivities, strict=True)]
        self.set_conductivities(new)
        return max((float(np.max(np.nan_to_num(change))) for change in changes), default=0.0)


def _layer_resistance(
    system: System, number: int, inner: SystemOutline, outer: SystemOutline, conductivity: Array
) -> Array:
    """Return the resistance of a layer between two outlines by the shape of the system."""
    thickness = system.layers[number].thickness
    if system.shape in PIPES:
        return cylinder_resistance(inner.diameter, outer.diameter, conductivity)
    if system.shape == "rectangular duct":
        return duct_resistance(2 * (inner.width + inner.height), thickness, conductivity)
    return flat_resistance(thickness, conductivity)


def _ends(system: System, sun: Numbers = 0.0) -> tuple[Array, Array]:
    """Return the least and greatest temperature (K) that the surface can have; `sun` is by how much the sun lifts it.

    Were all heat of the sun to go inward, it would lift the surface by itself times the resistance of the layers.
    """
    inside, air, around = (
        as_array(system.inside_temperature),
        as_array(system.air_temperature),
        system.surroundings_temperature,
    )
    return np.minimum(np.minimum(inside, air), around), np.maximum(np.maximum(inside, air), around) + as_array(sun)


def _span(system: System, sun: Numbers = 0.0) -> Array:
    """Return the temperature span (K) in which the surface temperature must lie."""
    low, high = _ends(system, sun)
    return high - low


def _lift(system: System, over: SystemOutline, conductors: _Conductors) -> Array:
    """Return by how much (K) the sun lifts a surface at most."""
    return conductors.total * over.area * as_array(system.absorbed)


def _balance(system: System, over: SystemOutline, conductors: _Conductors, method: Method) -> tuple[Array, Array]:
    """Return the surface temperature (K) that balances the heat flow, and the residual (K)."""
    guess: Array | None = None
    for _ in range(MOST_PASSES):
        total = conductors.total
        low, high = np.broadcast_arrays(*_ends(system, _lift(system, over, conductors)), conductors.inside)[:2]

        def imbalance(surface: Array, total: Array = total) -> Array:
            return surface - conductors.inside + total * outward_flow(system, over, surface, method)

        found = find_roots(imbalance, low, high, first=guess, near_enough=0.01 * RESIDUAL * (high - low))
        if not any(layer.varies for layer in system.layers):
            return found.value, found.residual
        guess = found.value
        if conductors.update(outward_flow(system, over, found.value, method)) < 1e-13:
            break
    return found.value, imbalance(found.value, conductors.total)


def _note_conductivity(causes: CauseArray, system: System, temperatures: list[Array]) -> None:
    """Note layers whose mean temperature lies outside the range of their conductivity."""
    for layer, (inner, outer) in zip(system.layers, pairwise(temperatures), strict=True):
        if isinstance(layer.conductivity, MeanConductivity) and np.any(as_array(layer.thickness) > 0):
            covered = layer.conductivity.covers(0.5 * (inner + outer)) | (as_array(layer.thickness) == 0)
            note(causes, ~covered & np.isfinite(inner), Cause.CONDUCTIVITY_RANGE)
