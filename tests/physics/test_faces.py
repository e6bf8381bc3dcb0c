"""Ducts and tanks face by face, the blend with wind, and surfaces without insulation."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as some
from scipy.optimize import brentq

from speccheck.physics.calculations.all import work_out, work_out_lines
from speccheck.physics.convection import nusselt_laminar_vertical_plate, nusselt_vertical_face, nusselt_vertical_plate
from speccheck.physics.heat_flow import solve
from speccheck.physics.surface_coefficient import surface_coefficient
from speccheck.physics.systems import Layer, Method, System, outline

INCH = 0.0254
BTU_INCH = 0.1442279
DUCT: dict[str, float | str] = {
    "component": "duct",
    "duct width": 24 * INCH,
    "duct height": 12 * INCH,
    "operating temperature": (55 + 459.67) / 1.8,
    "ambient temperature": (80 + 459.67) / 1.8,
    "relative humidity": 0.8,
    "conductivity": 0.27 * BTU_INCH,
    "jacket emittance": 0.9,
}


def face_by_brentq(inside: float, air: float, resistance: float, emittance: float, length: float, form: str) -> float:
    """Return the surface temperature of a flat face by scipy's brentq and CoolProp's air, independent of the package.

    `form` is "unstable" (McAdams 0.54·Ra^¼ or 0.15·Ra^⅓), "stable" (0.27·Ra^¼) or "side" (Churchill and Chu, laminar):
    Incropera et al., equations 9.30 to 9.32 and 9.27.
    """

    def outward(surface: float) -> float:
        film = (surface + air) / 2
        k, mu, rho, cp = (PropsSI(name, "T", film, "P", 101325.0, "Air") for name in "LVDC")
        rayleigh = 9.80665 / film * abs(surface - air) * length**3 / (mu / rho) / (k / rho / cp)
        prandtl = mu * cp / k
        if form == "unstable":
            nusselt = max(0.54 * rayleigh**0.25, 0.15 * rayleigh ** (1 / 3))
        elif form == "stable":
            nusselt = 0.27 * rayleigh**0.25
        else:
            nusselt = 0.68 + 0.670 * rayleigh**0.25 / (1 + (0.492 / prandtl) ** (9 / 16)) ** (4 / 9)
        return nusselt * k / length * (surface - air) + emittance * 5.670374419e-8 * (surface**4 - air**4)

    low, high = sorted((inside, air))
    return float(brentq(lambda t: (inside - t) / resistance - outward(t), low + 1e-9, high - 1e-9, xtol=1e-12))


@pytest.mark.parametrize(
    ("operating", "top", "bottom", "worst"),
    [((55 + 459.67) / 1.8, "stable", "unstable", "duct top"), (353.15, "unstable", "stable", "duct bottom")],
)
def test_worst_face_of_a_duct_decides_and_is_named(operating: float, top: str, bottom: str, worst: str) -> None:
    """Cold ducts are judged by their top and hot ones by their bottom: each face by scipy and CoolProp to 0.01 K."""
    cover, air = 1.5 * INCH, float(DUCT["ambient temperature"])
    found = work_out("surface temperature", {**DUCT, "thickness": cover, "operating temperature": operating})
    steps = {step.name: step.value for step in found.steps}
    resistance = cover / (0.27 * BTU_INCH)
    wide, high = 24 * INCH + 2 * cover, 12 * INCH + 2 * cover
    expected = {
        "duct side": face_by_brentq(operating, air, resistance, 0.9, high, "side"),
        "duct top": face_by_brentq(operating, air, resistance, 0.9, wide / 2, top),
        "duct bottom": face_by_brentq(operating, air, resistance, 0.9, wide / 2, bottom),
    }
    for face, surface in expected.items():
        assert steps[f"surface of the {face}"] == pytest.approx(surface, abs=0.01)
    assert steps["worst face"] == worst
    assert found.value == pytest.approx(expected[worst], abs=0.01)


def test_regime_of_upright_faces_is_named() -> None:
    """A duct side of 0.4 m is laminar and the end of a tank of 3 m turbulent (Rayleigh number on the height, by hand).

    g·ΔT·H³/(T·ν·α) with ν 1.58e-5 and α 2.2e-5 m²/s: 0.38 m and 5 K give 2.6e7, 3.06 m and 10 K some 2.6e10.
    """
    duct = work_out("surface temperature", {**DUCT, "thickness": 1.5 * INCH, "operating temperature": 285.93})
    assert {step.name: step.value for step in duct.steps}["natural convection on the duct side"] == "laminar"
    tank: dict[str, float | str] = {
        "component": "tank", "tank diameter": 3.0, "thickness": 0.03, "conductivity": 0.04, "jacket emittance": 0.9,
        "ambient temperature": 300.15, "operating temperature": 363.15,
    }  # fmt: skip
    end = work_out("surface temperature", tank)
    assert {step.name: step.value for step in end.steps}["natural convection on the tank end"] == "turbulent"


def test_cold_duct_with_a_wet_top_does_not_pass() -> None:
    """A thickness that keeps the mean of the faces dry leaves the top wet; the one worked out keeps all faces dry."""
    dew = work_out("dew point", DUCT).value
    least = work_out("condensation thickness", DUCT).value
    assert dew is not None
    assert least is not None
    assert work_out("surface temperature", {**DUCT, "thickness": least}).value == pytest.approx(dew, abs=1e-6)
    mean = System("rectangular duct", DUCT["operating temperature"], DUCT["ambient temperature"], width=0.6096,
                  height=0.3048, emittance=0.9)  # fmt: skip
    between = [size for size in np.linspace(0.005, least, 200)
               if float(solve(mean.with_layer(Layer(size, 0.27 * BTU_INCH))).surface_temperature) >= dew]  # fmt: skip
    wet = work_out("surface temperature", {**DUCT, "thickness": between[0]}).value
    assert wet is not None
    assert wet < dew - 0.3


def test_roof_of_a_cold_tank_and_bottom_of_a_hot_one_decide() -> None:
    """A standing tank of 1.5 m: the roof, cooled and facing up, and the bottom, heated and facing down, by scipy."""
    tank: dict[str, float | str] = {
        "component": "tank", "orientation": "vertical", "tank diameter": 1.5, "tank height": 2.0, "thickness": 0.025,
        "conductivity": 0.04, "jacket emittance": 0.9, "ambient temperature": 300.15,
    }  # fmt: skip
    for operating, worst in ((278.15, "tank roof"), (343.15, "tank bottom")):
        found = work_out("surface temperature", {**tank, "operating temperature": operating})
        assert {step.name: step.value for step in found.steps}["worst face"] == worst
        expected = face_by_brentq(operating, 300.15, 0.025 / 0.04, 0.9, 1.55 / 4, "stable")
        assert found.value == pytest.approx(expected, abs=0.01)


def test_vertical_faces_take_the_laminar_formula_without_a_step() -> None:
    """Up to Ra 1e9 equation 9.27, from 1e10 equation 9.26 of Incropera et al., rising all the way between."""
    assert nusselt_vertical_face(1e8, 0.71) == nusselt_laminar_vertical_plate(1e8, 0.71)
    assert nusselt_vertical_face(2e10, 0.71) == pytest.approx(float(nusselt_vertical_plate(2e10, 0.71)), rel=1e-12)
    numbers = nusselt_vertical_face(np.geomspace(1e6, 1e11, 500), 0.71)
    assert np.all(np.diff(numbers) > 0)
    assert np.max(numbers[1:] / numbers[:-1]) < 1.02


@given(
    method=some.sampled_from(("film correlations", "convection formulas", "ISO-12241-2008 formulas")),
    shape=some.sampled_from(("horizontal pipe", "vertical pipe", "vertical flat", "duct top", "rectangular duct")),
    hot=some.booleans(),
    size=some.floats(0.1, 2.0),
)
def test_coefficient_never_falls_as_wind_rises(method: Method, shape: str, hot: bool, size: float) -> None:
    """At one surface temperature the coefficient rises from still air to 20 m/s, without a jump at the first breath."""
    wind = np.concatenate([[0.0], np.geomspace(0.01, 20, 400)])
    system = System(shape, 360.0, 300.0, outside_diameter=size, width=size, height=size, wind_speed=wind)  # type: ignore[arg-type]
    surface = np.full(wind.shape, 320.0 if hot else 285.0)
    found = surface_coefficient(replace(system, emittance=0.5), outline(system), surface, method).convective
    assert np.all(np.diff(found) >= -1e-12)
    assert found[1] < 1.2 * found[0]


def test_heat_flow_outdoors_needs_the_wind_and_takes_the_greatest_emittance() -> None:
    """Still air flatters the loss, so it is not assumed outdoors; canvas of 0.7 to 0.9 loses as with 0.9."""
    line: dict[str, float | str] = {
        "pipe outside diameter": 0.1143, "operating temperature": 353.15, "ambient temperature": 273.15,
        "thickness": 0.03, "conductivity": 0.04, "jacket": "canvas", "location": "outdoor", "insulation": "fiberglass",
    }  # fmt: skip
    assert work_out("heat flow", line).missing == ("wind speed",)
    assert work_out("surface temperature", line).value is not None
    blown = {**line, "wind speed": 3.0}
    assert work_out("heat flow", blown).value == work_out("heat flow", {**blown, "jacket emittance": 0.9}).value
    surface, least = (work_out("surface temperature", {**blown, **more}) for more in ({}, {"jacket emittance": 0.7}))
    assert surface.value == least.value


def test_line_without_insulation_is_a_bare_surface() -> None:
    """A bare 114.3 mm steel pipe at 100 °C in 20 °C air loses what `solve` gives with the table's emittance of 0.8."""
    line: dict[str, float | str] = {
        "pipe size": 4.0, "pipe material": "steel", "insulation": "none", "operating temperature": 373.15,
        "ambient temperature": 293.15,
    }  # fmt: skip
    bare = System("horizontal pipe", 373.15, 293.15, outside_diameter=0.1143, emittance=0.8)
    assert work_out("surface temperature", line).value == pytest.approx(373.15)
    assert work_out("heat flow", line).value == pytest.approx(float(solve(bare).heat_flow), rel=1e-6)
    assert "pipe material" in work_out("heat flow", {**line, "pipe material": ""}).missing


@pytest.mark.parametrize(("facing", "emittance"), [("all-service jacket", 0.9), ("foil", 0.04)])
def test_facing_is_the_surface_where_there_is_no_jacket(facing: str, emittance: float) -> None:
    """ASHRAE chapter 23, Table 12: 0.9 for all-service jacket; foil takes polished aluminum, the worst for sweating."""
    line: dict[str, float | str] = {"jacket": "none", "facing": facing, "insulation": "fiberglass"}
    assert work_out("jacket emittance", line).value == emittance
    assert work_out("jacket emittance", {**line, "jacket": ""}).missing == ("jacket",)


def test_very_great_fixed_coefficient_has_its_answer() -> None:
    """With 1e8 W/(m² K) the surface is at the air's temperature, and the heat flow that of the insulation alone."""
    system = System("horizontal pipe", 350.0, 300.0, outside_diameter=0.1, coefficient=1e8).with_layer(
        Layer(0.02, 0.04)
    )
    found = solve(system, "fixed coefficient")
    assert float(found.surface_temperature) == pytest.approx(300.0, abs=1e-5)
    assert float(found.heat_flow) == pytest.approx(50 * 2 * math.pi * 0.04 / math.log(1.4), rel=1e-6)


def test_without_a_cell_of_the_table_the_thickness_counts_from_the_pipe() -> None:
    """5 in. on NPS 5 of a thickness that no table prints: 141.3 mm and twice 33 mm, the clearance is no insulation."""
    line: dict[str, float | str] = {
        "pipe size": 5.0, "pipe material": "steel", "insulation": "fiberglass", "thickness": 0.033,
    }  # fmt: skip
    assert work_out("insulation outside diameter", line).value == pytest.approx(0.1413 + 0.066, abs=1e-6)


def test_faces_of_many_lines_are_those_of_each_alone() -> None:
    """Ducts, tanks and pipes in one call have the surface temperature that each has by itself."""
    rows = [
        {**DUCT, "thickness": 0.03},
        {**DUCT, "duct width": np.nan, "duct height": np.nan, "pipe outside diameter": 0.1, "thickness": 0.03},
        {**DUCT, "duct width": np.nan, "duct height": np.nan, "tank diameter": 1.0, "thickness": 0.03},
    ]
    names = sorted({name for row in rows for name in row})
    columns = {name: [row.get(name, np.nan) for row in rows] for name in names}
    found = work_out_lines("surface temperature", columns).values  # type: ignore[arg-type]
    assert found.tolist() == pytest.approx([work_out("surface temperature", row).value for row in rows], rel=1e-9)
