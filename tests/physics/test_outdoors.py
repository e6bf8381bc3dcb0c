"""Surfaces whose surroundings are not as warm as the air, and what lies inside them: films, walls, several layers.

10,000 random pipes each, by bisection over CoolProp's air and Churchill and Chu, sharing no code with the package.
"""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.physics.calculations.all import JUDGED, work_out, work_out_lines
from speccheck.physics.numerics import Array
from tests.physics.test_independent_solution import flow_from_surface

COUNT = 10_000
WITHIN = 1e-3
SIGMA = 5.670374419e-8

PIPE: dict[str, float | str] = {
    "component": "pipe",
    "pipe outside diameter": 0.1143,
    "operating temperature": 278.15,
    "ambient temperature": 300.15,
    "thickness": 0.05,
    "insulation outside diameter": 0.2143,
    "conductivity": 0.036,
    "jacket emittance": 0.9,
    "greatest jacket emittance": 0.9,
}
FIXED: dict[str, float | str] = {
    **PIPE,
    "surface coefficient method": "fixed coefficient",
    "fixed surface coefficient": 8.0,
}


def random_lines(count: int = COUNT) -> dict[str, Array | str]:
    """Draw pipes as the trade has them, of two layers, with film and wall, among surroundings and in the sun."""
    generator = np.random.default_rng(20261129)

    def draw(low: float, high: float) -> Array:
        return generator.uniform(low, high, count)

    pipe, thickness = np.exp(draw(np.log(0.0213), np.log(0.6))), draw(0.02, 0.15)
    emittance = draw(0.1, 0.95)
    return {
        "component": "pipe",
        "pipe outside diameter": pipe,
        "pipe inside diameter": pipe * draw(0.75, 0.95),
        "thickness": thickness,
        "insulation outside diameter": pipe + 2 * thickness,
        "second layer thickness": thickness * draw(0.1, 0.9),
        "conductivity": draw(0.02, 0.1),
        "second layer conductivity": draw(0.02, 0.1),
        "inside film coefficient": np.exp(draw(np.log(10.0), np.log(5000.0))),
        "pipe wall conductivity": np.exp(draw(np.log(0.2), np.log(50.0))),
        "operating temperature": draw(233.0, 650.0),
        "ambient temperature": draw(263.0, 313.0),
        "jacket emittance": emittance,
        "greatest jacket emittance": emittance,
        "surroundings temperature": draw(243.0, 320.0),
        "sky temperature": draw(220.0, 290.0),
        "sky share": draw(0.2, 1.0),
        "solar irradiance": draw(0.0, 1000.0),
        "solar absorptance": draw(0.1, 0.95),
    }


def by_bisection(line: dict[str, Array | str], radiant: Array, absorbed: Array) -> Array:
    """Return surface temperatures by ln(D2/D1)/(2πk), 1/(π·di·h), Churchill and Chu, and radiation."""
    number = {name: np.asarray(value) for name, value in line.items() if not isinstance(value, str)}
    pipe, bore = number["pipe outside diameter"], number["pipe inside diameter"]
    outside = pipe + 2 * number["thickness"]
    between = outside - 2 * number["second layer thickness"]
    resistance = (
        1 / (pi * bore * number["inside film coefficient"])
        + np.log(pipe / bore) / (2 * pi * number["pipe wall conductivity"])
        + np.log(between / pipe) / (2 * pi * number["conductivity"])
        + np.log(outside / between) / (2 * pi * number["second layer conductivity"])
    )
    inside, air, emittance = number["operating temperature"], number["ambient temperature"], number["jacket emittance"]
    low, high = np.full(pipe.shape, 200.0), np.full(pipe.shape, 1000.0)
    for _ in range(60):
        middle = (low + high) / 2
        otherwise = emittance * SIGMA * (air**4 - radiant**4) - absorbed
        leaves = flow_from_surface(middle, air, outside, emittance) + pi * outside * otherwise
        too_little = leaves < (inside - middle) / resistance
        low, high = np.where(too_little, middle, low), np.where(too_little, high, middle)
    return (low + high) / 2


@pytest.mark.parametrize(
    "value", ["radiant surface temperature", "sunlit surface temperature", "night surface temperature"]
)
def test_ten_thousand_lines_agree_with_bisection_over_coolprop(value: str) -> None:
    """Within 0.1 % of the span of temperatures: two layers, film and wall, surroundings, sun or sky."""
    line = random_lines()
    air, sky = np.asarray(line["ambient temperature"]), np.asarray(line["sky temperature"])
    share, nothing = np.asarray(line["sky share"]), np.zeros(COUNT)
    expected = {
        "radiant surface temperature": (np.asarray(line["surroundings temperature"]), nothing),
        "sunlit surface temperature": (
            air,
            np.asarray(line["solar irradiance"]) * np.asarray(line["solar absorptance"]),
        ),
        "night surface temperature": ((share * sky**4 + (1 - share) * air**4) ** 0.25, nothing),
    }
    found = work_out_lines(value, line)
    surface = by_bisection(line, *expected[value])
    assert np.isfinite(found.values).mean() > 0.99
    known = np.isfinite(found.values)
    span = np.maximum(np.abs(np.asarray(line["operating temperature"]) - air), 20.0)
    assert np.max(np.abs(found.values - surface)[known] / span[known]) < WITHIN


def test_sun_lifts_a_surface_by_its_share_of_the_resistances() -> None:
    """By hand: (Ti + (R·h·A)·(Ta + α·G/h)) / (1 + R·h·A), the sol-air temperature in place of the air's."""
    whole = np.log(0.2143 / 0.1143) / (2 * pi * 0.036) * 8.0 * pi * 0.2143
    sun = {"solar irradiance": 500.0, "solar absorptance": 0.6}
    expected = (278.15 + whole * (300.15 + 0.6 * 500 / 8)) / (1 + whole)
    assert work_out("sunlit surface temperature", {**FIXED, **sun}, JUDGED).value == pytest.approx(expected, rel=1e-9)
    shade = work_out("sunlit surface temperature", {**FIXED, **sun, "solar irradiance": 0.0}, JUDGED).value
    assert shade == pytest.approx(work_out("surface temperature", FIXED, JUDGED).value, rel=1e-9)


def test_surroundings_as_warm_as_the_air_change_nothing() -> None:
    """Walls and sky of the air's own temperature give the surface temperature as it is."""
    plain = work_out("surface temperature", PIPE, JUDGED).value
    for name, stated in (
        ("radiant surface temperature", {"surroundings temperature": 300.15}),
        ("night surface temperature", {"sky temperature": 300.15}),
        ("night surface temperature", {"sky temperature": 250.0, "sky share": 0.0}),
    ):
        assert work_out(name, {**PIPE, **stated}, JUDGED).value == pytest.approx(plain, rel=1e-9)


def test_the_worse_of_two_emittances_counts() -> None:
    """Under a cold sky the surface that radiates more is the colder, among warm walls the one that radiates less."""
    both = {**PIPE, "jacket emittance": 0.1, "greatest jacket emittance": 0.9}
    night = work_out("night surface temperature", {**both, "sky temperature": 260.0})
    assert night.value == pytest.approx(
        work_out("night surface temperature", {**PIPE, "sky temperature": 260.0}).value, rel=1e-9
    )
    walls = work_out("radiant surface temperature", {**both, "surroundings temperature": 320.0})
    dull = work_out("radiant surface temperature", {**PIPE, "surroundings temperature": 320.0})
    assert walls.value is not None
    assert dull.value is not None
    assert walls.value < dull.value


@given(st.floats(0.0, 1200.0), st.floats(1.0, 200.0), st.floats(0.05, 1.0))
def test_more_sun_is_hotter_and_a_colder_sky_colder(sun: float, more: float, absorptance: float) -> None:
    """The surface rises with irradiance and absorptance and falls with the temperature of the sky."""

    def sunlit(irradiance: float, share: float) -> float:
        found = work_out(
            "sunlit surface temperature", {**PIPE, "solar irradiance": irradiance, "solar absorptance": share}
        ).value
        assert found is not None
        return found

    def night(sky: float) -> float:
        found = work_out("night surface temperature", {**PIPE, "sky temperature": sky}).value
        assert found is not None
        return found

    assert sunlit(min(sun + more, 1500.0), absorptance) > sunlit(sun, absorptance)
    assert sunlit(sun + 1, absorptance) >= sunlit(sun + 1, absorptance / 2)
    assert night(290.0 - more / 4) < night(290.0)


@pytest.mark.parametrize(
    ("value", "given", "missing", "cannot"),
    [
        ("sunlit surface temperature", {"solar irradiance": 500.0}, ("solar absorptance",), ""),
        ("sunlit surface temperature", {"solar absorptance": 0.5}, ("solar irradiance",), ""),
        ("night surface temperature", {}, ("sky temperature",), ""),
        ("radiant surface temperature", {}, ("surroundings temperature",), ""),
        (
            "sunlit surface temperature",
            {"solar irradiance": 5000.0, "solar absorptance": 0.5},
            (),
            "solar irradiance lies outside the range of the formula",
        ),
    ],
)
def test_what_is_not_stated_is_asked_for(
    value: str, given: dict[str, float | str], missing: tuple[str, ...], cannot: str
) -> None:
    """No sun, sky or wall is taken where none is stated, and none that no place on earth has."""
    found = work_out(value, {**PIPE, **given}, JUDGED)
    assert (found.value, found.missing, found.cannot) == (None, missing, cannot)


def test_methods_without_radiation_know_no_surroundings() -> None:
    """A fixed coefficient has radiation in it, so that other surroundings cannot be told apart."""
    found = work_out("night surface temperature", {**FIXED, "sky temperature": 260.0}, JUDGED)
    assert found.value is None
    assert found.cannot == "this surface coefficient method does not reckon radiation apart"
