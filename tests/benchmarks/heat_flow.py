"""How fast and how small: a million insulated pipes in one call, against a plain loop over scipy's brentq.

Both solve the same systems with the same formulas: natural convection by Churchill and Chu, radiation, and the air
properties of this package, which the loop evaluates as plain Python numbers.
"""

from __future__ import annotations

import tracemalloc
from math import log, pi
from time import perf_counter

import numpy as np
from scipy.optimize import brentq

from speccheck.physics.air import GAS_CONSTANT
from speccheck.physics.heat_flow import HeatFlow, solve
from speccheck.physics.published import table
from speccheck.physics.systems import Layer, System

COUNT = 1_000_000
SAMPLE = 2_000


def million_pipes(count: int = COUNT) -> System:
    """Return random insulated horizontal pipes in still air, the same each time."""
    generator = np.random.default_rng(1)

    def draw(low: float, high: float) -> np.ndarray:
        return generator.uniform(low, high, count)

    layer = Layer(draw(0.01, 0.1), draw(0.02, 0.08))
    inside, air = draw(250, 600), draw(270, 310)
    return System(
        "horizontal pipe", inside, air, (layer,), outside_diameter=draw(0.02, 0.6), emittance=draw(0.05, 0.95)
    )


Constants = list[list[float]]


def air_constants() -> Constants:
    """Return the constants of viscosity, conductivity, specific heat and volume as plain lists."""
    fits = table("dry_air")
    return [[float(fits.column(f"c{power}")[row]) for power in range(8)] for row in range(4)]


def film_of_air(surface: float, air: float, length: float, constants: Constants) -> tuple[float, float, float]:
    """Return the conductivity of the air at a surface, its Prandtl number and the Rayleigh number of a length."""
    viscosity, conductivity, heat, volume = constants
    film = (surface + air) / 2
    mu = k = cp = 0.0
    for a, b, c in zip(reversed(viscosity), reversed(conductivity), reversed(heat), strict=True):
        mu, k, cp = mu * film / 500 + a, k * film / 500 + b, cp * film / 500 + c
    over = 300 / film
    nu = mu * (GAS_CONSTANT * film / 101325 + volume[0] - (volume[1] + volume[2] * over) * over)
    prandtl = mu * cp / k
    return k, prandtl, 9.80665 / film * abs(surface - air) * length**3 / nu**2 * prandtl


def brentq_loop(system: System, count: int) -> list[float]:
    """Return the surface temperatures of the first systems by a plain loop over brentq."""
    constants = air_constants()
    columns = (system.inside_temperature, system.air_temperature, system.outside_diameter, system.emittance)
    rows = zip(
        *(np.asarray(column)[:count].tolist() for column in (*columns, system.layers[0].thickness)),
        np.asarray(system.layers[0].conductivity)[:count].tolist(),
        strict=True,
    )
    found = []
    for inside, air, bare, emittance, thickness, k_layer in rows:
        diameter = bare + 2 * thickness
        resistance = log(diameter / bare) / (2 * pi * k_layer)

        def imbalance(
            t: float,
            inside: float = inside,
            air: float = air,
            diameter: float = diameter,
            emittance: float = emittance,
            resistance: float = resistance,
        ) -> float:
            k, prandtl, rayleigh = film_of_air(t, air, diameter, constants)
            nusselt = (0.6 + 0.387 * rayleigh ** (1 / 6) / (1 + (0.559 / prandtl) ** (9 / 16)) ** (8 / 27)) ** 2
            radiation = emittance * 5.670374419e-8 * (t**4 - air**4)
            return t - inside + resistance * pi * diameter * (nusselt * k / diameter * (t - air) + radiation)

        found.append(brentq(imbalance, min(inside, air), max(inside, air), xtol=1e-9))
    return found


def _timed_solve(system: System) -> tuple[float, HeatFlow]:
    """Return the shortest of three times, and the solution."""
    times = []
    for _ in range(3):
        start = perf_counter()
        found = solve(system)
        times.append(perf_counter() - start)
    return min(times), found


def _peak_memory(system: System) -> tuple[float, float]:
    """Return the peak memory of the call, and what its results hold, in megabytes."""
    tracemalloc.start()
    kept = solve(system)
    held, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    del kept
    return peak / 1e6, held / 1e6


def run() -> list[tuple[str, str]]:
    """Return what was measured, as rows of a name and a value with its unit."""
    system = million_pipes()
    seconds, found = _timed_solve(system)
    start = perf_counter()
    plain = brentq_loop(system, SAMPLE)
    loop_seconds = (perf_counter() - start) / SAMPLE * COUNT
    apart = float(np.max(np.abs(np.array(plain) - found.surface_temperature[:SAMPLE])))
    peak, held = _peak_memory(system)
    return [
        ("systems solved in one call", f"{COUNT:,}"),
        ("time of the call", f"{seconds:.2f} s"),
        (f"plain brentq loop, from {SAMPLE:,} of them", f"{loop_seconds:.0f} s for all"),
        ("speed as a multiple of the loop", f"{loop_seconds / seconds:.0f}"),
        ("greatest residual of the heat balance", f"{float(np.max(np.abs(found.residual))):.1e} K"),
        ("greatest difference to the loop", f"{apart:.1e} K"),
        ("peak memory of the call", f"{peak:.0f} MB, of which {held:.0f} MB are its results"),
    ]


if __name__ == "__main__":
    for name, value in run():
        print(f"{name}: {value}")
