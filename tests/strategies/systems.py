"""Strategies for insulated systems: arrays of many at once, so that one example shows a thousand cases."""

from __future__ import annotations

import numpy as np
from hypothesis import strategies as st

from speccheck.physics.systems import Layer, System

COUNT = 200
"""Systems in one example."""


def uniform(generator: np.random.Generator, low: float, high: float) -> np.ndarray:
    """Draw an array of numbers between two bounds."""
    return generator.uniform(low, high, COUNT)


@st.composite
def insulated_pipes(draw: st.DrawFn, hot: bool | None = None) -> System:
    """Draw insulated horizontal pipes, in still air or wind; hot, cold, or either where `hot` is None."""
    generator = np.random.default_rng(draw(st.integers(0, 2**32 - 1)))
    air = uniform(generator, 275, 310)
    if hot is None:
        hot = draw(st.booleans())
    inside = air + uniform(generator, 5, 400) if hot else air - uniform(generator, 5, 60)
    wind = uniform(generator, 0.2, 15) if draw(st.booleans()) else np.zeros(COUNT)
    return System(
        "horizontal pipe",
        inside,
        air,
        (Layer(uniform(generator, 0.005, 0.15), uniform(generator, 0.02, 0.09)),),
        outside_diameter=uniform(generator, 0.012, 0.9),
        emittance=uniform(generator, 0.03, 0.97),
        wind_speed=wind,
        pressure=uniform(generator, 70e3, 103e3),
    )
