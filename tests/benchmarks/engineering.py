"""Faces, burns and years: a million systems in one call each, against a plain loop over scipy's brentq.

A call is that of a computed term (`work_out_lines`), inputs, ranges and causes checked; the loop solves the same
systems by the same formulas as plain Python numbers, and checks nothing. Times are processor times.
"""

from __future__ import annotations

import tracemalloc
from bisect import bisect_left
from collections.abc import Callable
from functools import partial
from math import pi
from time import process_time
from typing import Any

import numpy as np
from benchmarks.heat_flow import air_constants, brentq_loop, film_of_air, million_pipes
from scipy.optimize import brentq

from speccheck.physics.burns import burn_thresholds
from speccheck.physics.calculations.all import work_out_lines
from speccheck.physics.systems import System

COUNT = 1_000_000
SAMPLE = 1_000
Line = dict[str, Any]


def ducts(count: int = COUNT) -> Line:
    """Return random rectangular ducts, the same each time."""
    generator = np.random.default_rng(2)

    def draw(low: float, high: float) -> np.ndarray:
        return generator.uniform(low, high, count)

    return {
        "component": "duct",
        "duct width": draw(0.2, 1.5),
        "duct height": draw(0.2, 1.0),
        "thickness": draw(0.01, 0.06),
        "conductivity": draw(0.03, 0.05),
        "operating temperature": draw(275, 290),
        "ambient temperature": draw(295, 310),
        "jacket emittance": draw(0.1, 0.95),
    }


def pipes(system: System) -> Line:
    """Return the random pipes of `heat_flow` as lines that state jacket, contact and a year."""
    generator = np.random.default_rng(3)
    layer = system.layers[0]
    thickness, pipe = np.asarray(layer.thickness), np.asarray(system.outside_diameter)
    count = thickness.size
    return {
        "component": "pipe",
        "pipe outside diameter": pipe,
        "insulation outside diameter": pipe + 2 * thickness,
        "thickness": thickness,
        "conductivity": np.asarray(layer.conductivity),
        "operating temperature": np.asarray(system.inside_temperature),
        "ambient temperature": np.asarray(system.air_temperature),
        "jacket emittance": np.asarray(system.emittance),
        "greatest jacket emittance": np.asarray(system.emittance),
        "insulation": "mineral wool",
        "jacket": generator.choice(["aluminum", "stainless steel", "PVC"], count),
        "contact time": generator.uniform(0.5, 700.0, count),
        "run length": generator.uniform(1, 200, count),
        "operating hours": generator.uniform(1e6, 3e7, count),
        "energy efficiency": generator.uniform(0.5, 1.0, count),
        "energy price": generator.uniform(0.03, 0.3, count),
    }


def faces_loop(line: Line, count: int) -> list[float]:
    """Return the coldest face of the first ducts: each of three by brentq, as Incropera et al. have them."""
    constants = air_constants()
    names = ("duct width", "duct height", "thickness", "conductivity", "operating temperature", "ambient temperature")
    rows = zip(*(line[name][:count].tolist() for name in (*names, "jacket emittance")), strict=True)
    found = []
    for width, height, thickness, k_layer, inside, air, emittance in rows:
        wide, high, resistance = width + 2 * thickness, height + 2 * thickness, thickness / k_layer

        def surface(
            form: str,
            length: float,
            air: float = air,
            emittance: float = emittance,
            inside: float = inside,
            resistance: float = resistance,
        ) -> float:
            def imbalance(t: float) -> float:
                k, prandtl, rayleigh = film_of_air(t, air, length, constants)
                if form == "side":
                    nusselt = 0.68 + 0.67 * rayleigh**0.25 / (1 + (0.492 / prandtl) ** (9 / 16)) ** (4 / 9)
                elif form == "top":
                    nusselt = 0.27 * rayleigh**0.25
                else:
                    nusselt = max(0.54 * rayleigh**0.25, 0.15 * rayleigh ** (1 / 3))
                radiation = emittance * 5.670374419e-8 * (t**4 - air**4)
                return t - inside + resistance * (nusselt * k / length * (t - air) + radiation)

            return float(brentq(imbalance, inside, air, xtol=1e-9))

        found.append(min(surface("side", high), surface("top", wide / 2), surface("bottom", wide / 2)))
    return found


def burns_loop(system: System, line: Line, count: int) -> list[float]:
    """Return by how much the first pipes' surfaces lie over their thresholds: brentq, then a look into the table."""
    known = burn_thresholds()
    surfaces = brentq_loop(system, count)
    words = {"aluminum": "bare metal", "stainless steel": "bare metal", "PVC": "plastic"}
    found = []
    for surface, jacket, contact in zip(
        surfaces, line["jacket"][:count].tolist(), line["contact time"][:count].tolist(), strict=True
    ):
        printed = known[words[jacket]]
        place = bisect_left(printed.contact, contact)
        found.append(surface - min(one for one in (printed.temperature[place], printed.other[place]) if one == one))
    return found


def years_loop(system: System, line: Line, count: int) -> list[float]:
    """Return what the first pipes cost a year: brentq, the heat through the layer, and arithmetic."""
    names = ("pipe outside diameter", "insulation outside diameter", "conductivity", "operating temperature")
    year = ("run length", "operating hours", "energy efficiency", "energy price")
    rows = zip(*(line[name][:count].tolist() for name in (*names, *year)), strict=True)
    found = []
    for surface, (pipe, outside, k, inside, length, seconds, efficiency, price) in zip(
        brentq_loop(system, count), rows, strict=True
    ):
        flow = abs(inside - surface) * 2 * pi * k / np.log(outside / pipe)
        found.append(float(flow * length * seconds / 3.6e6 / efficiency * price))
    return found


def _burns(line: Line) -> np.ndarray:
    surface, threshold = (work_out_lines(name, line).values for name in ("surface temperature", "burn threshold"))
    return np.asarray(surface - threshold)


def run() -> list[tuple[str, str]]:
    """Return what was measured, as rows of a name and a value with its unit."""
    system = million_pipes()
    all_pipes = pipes(system)
    cases: list[tuple[str, Callable[[Line], np.ndarray], Line, Callable[[Line, int], list[float]]]] = [
        ("faces of ducts", lambda line: work_out_lines("surface temperature", line).values, ducts(), faces_loop),
        ("burns", _burns, all_pipes, partial(burns_loop, system)),
        (
            "cost of a year",
            lambda line: work_out_lines("yearly cost", line).values,
            all_pipes,
            partial(years_loop, system),
        ),
    ]
    told = []
    for name, call, line, loop in cases:
        begun = process_time()
        found = call(line)
        seconds = process_time() - begun
        begun = process_time()
        plain = np.array(loop(line, SAMPLE))
        slow = (process_time() - begun) / SAMPLE * COUNT
        first = found[:SAMPLE]
        known = np.isfinite(first)
        apart = float(np.max(np.abs(plain - first)[known] / np.maximum(np.abs(plain[known]), 1.0)))
        told += [
            (f"{name}: {COUNT:,} in one call", f"{seconds:.2f} s"),
            (f"{name}: plain brentq loop, from {SAMPLE:,} of them", f"{slow:.0f} s for all"),
            (f"{name}: speed as a multiple of the loop", f"{slow / seconds:.0f}"),
            (f"{name}: known; greatest difference to the loop", f"{np.isfinite(found).mean():.1%}; {apart:.1e}"),
        ]
    tracemalloc.start()
    work_out_lines("yearly cost", all_pipes)
    told.append(("peak memory of the call for a year", f"{tracemalloc.get_traced_memory()[1] / 1e6:.0f} MB"))
    tracemalloc.stop()
    return told


if __name__ == "__main__":
    for name, value in run():
        print(f"{name}: {value}")
