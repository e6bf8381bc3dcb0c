"""Pipes in soil against the shape factors of `ht`, by a solution of images, and as lines are told of them."""

from __future__ import annotations

from math import log, pi

import numpy as np
import pytest
from ht.conduction import S_isothermal_pipe_to_plane
from hypothesis import given
from hypothesis import strategies as st

from speccheck.physics.buried import buried_heat_flow, soil_resistance
from speccheck.physics.calculations.all import JUDGED, work_out, work_out_lines

LINE: dict[str, float | str | None] = {
    "pipe outside diameter": 0.1143,
    "thickness": 0.05,
    "insulation": "cellular glass",
    "conductivity": 0.045,
    "operating temperature": 355.0,
    "ground temperature": 283.0,
    "burial depth": 1.0,
    "soil conductivity": 1.5,
}


def test_ten_thousand_buried_pipes_agree_with_ht() -> None:
    """10,000 random pipes, each by ht's shape factor of a pipe under a plane and ln(D2/D1)/(2πk), within 0.1 %."""
    generator = np.random.default_rng(20260304)

    def draw(low: float, high: float) -> np.ndarray:
        return generator.uniform(low, high, 10_000)

    pipe = np.exp(draw(log(0.0213), log(0.9)))
    outside = pipe + 2 * draw(0.005, 0.15)
    depth = outside / 2 * (1 + np.exp(draw(log(0.05), log(50.0))))
    layer, soil = draw(0.02, 0.1), draw(0.3, 3.0)
    found, surface = buried_heat_flow(380.0, 283.0, pipe, outside, layer, depth, soil)
    factors = np.array([S_isothermal_pipe_to_plane(D=d, Z=z, L=1.0) for d, z in zip(outside, depth, strict=True)])
    expected = 97.0 / (np.log(outside / pipe) / (2 * pi * layer) + 1 / (soil * factors))
    assert np.max(np.abs(found / expected - 1)) < 1e-3
    assert (
        np.max(np.abs((surface - 283.0) * soil * factors / found - 1)) < 1e-3
    )  # what leaves the layer enters the soil


@given(st.floats(0.1, 1.0), st.floats(1.2, 40.0))
def test_a_source_and_its_image_give_one_temperature_all_round(diameter: float, ratio: float) -> None:
    """A line source at the focus and its image warm every point of the circle alike, by the same resistance."""
    depth = diameter / 2 * ratio
    focus = np.sqrt(depth**2 - diameter**2 / 4)
    angle = np.linspace(0, 2 * pi, 9)
    x, y = diameter / 2 * np.cos(angle), depth + diameter / 2 * np.sin(angle)
    warmth = np.log(np.hypot(x, y + focus) / np.hypot(x, y - focus)) / (2 * pi)
    assert warmth == pytest.approx(np.full(9, float(soil_resistance(depth, diameter, 1.0))), rel=1e-6)


@given(st.floats(0.5, 5.0), st.floats(1.0, 4.0))
def test_deeper_and_thicker_never_lose_more(depth: float, times: float) -> None:
    """The flow falls with depth and with thickness."""
    line = {**LINE, "burial depth": [depth, depth * times, depth], "thickness": [0.02, 0.02, 0.02 * times]}
    first, deeper, thicker = work_out_lines("buried heat flow", line, JUDGED).values  # type: ignore[arg-type]
    assert deeper <= first * (1 + 1e-9)
    assert thicker <= first * (1 + 1e-9)


@pytest.mark.parametrize(
    ("change", "missing", "cannot"),
    [
        ({"soil conductivity": None}, ("soil conductivity",), ""),
        ({"ground temperature": None}, ("ground temperature",), ""),
        ({"conductivity": None}, ("conductivity",), ""),
        ({"burial depth": 0.05}, (), "the pipe with its insulation does not lie wholly in the soil"),
    ],
)
def test_what_is_missing_or_outside_is_named(
    change: dict[str, float | str | None], missing: tuple[str, ...], cannot: str
) -> None:
    """Soil and ground have to be stated, and a pipe that looks out of the ground has no shape factor."""
    working = work_out("buried heat flow", {**LINE, **change}, JUDGED)
    assert (working.value, working.missing, working.cannot) == (None, missing, cannot)
