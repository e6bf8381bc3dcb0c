"""Air properties, convection and radiation against reference libraries and printed formulas."""

from __future__ import annotations

import ht
import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from speccheck.physics import convection as forced
from speccheck.physics import convection as natural
from speccheck.physics import published as simplified
from speccheck.physics.air import HOTTEST, air_properties
from speccheck.physics.calculations.all import work_out
from speccheck.physics.radiation import radiation_coefficient, radiative_flux
from speccheck.physics.surface_coefficient import surface_coefficient
from speccheck.physics.systems import System, outline
from tests.physics.published_cases import columns
from tests.physics.published_comparisons import fixed_coefficients

ZERO = 273.15


@pytest.mark.parametrize(("pressure", "within"), [(101325.0, 1e-4), (70000.0, 1e-3)])
def test_air_agrees_with_coolprop_from_minus_80_to_700_degrees(pressure: float, within: float) -> None:
    """The properties are CoolProp 8.0.0's within 0.01 % at sea level and, at 3000 m, within 0.1 %."""
    temperatures = np.linspace(-79.9, 700, 40) + ZERO
    air = air_properties(temperatures, pressure)
    for place, kelvins in enumerate(temperatures):
        k, mu, rho, cp = (PropsSI(name, "T", kelvins, "P", pressure, "Air") for name in "LVDC")
        assert air.conductivity[place] == pytest.approx(k, rel=within)
        assert air.kinematic_viscosity[place] == pytest.approx(mu / rho, rel=within)
        assert air.thermal_diffusivity[place] == pytest.approx(k / rho / cp, rel=within)
        assert air.prandtl[place] == pytest.approx(mu * cp / k, rel=within)


def test_air_beyond_the_range_is_that_of_the_nearer_end() -> None:
    """A solver that passes by an impossible temperature meets no wild polynomial."""
    beyond, end = air_properties([1e4], 101325.0), air_properties([HOTTEST], 101325.0)
    assert beyond.conductivity == end.conductivity
    assert beyond.prandtl == end.prandtl


def test_horizontal_cylinder_agrees_with_the_reference_points() -> None:
    """Rayleigh number, natural and radiative coefficients are those computed with CoolProp and ht, within 0.03 %."""
    printed = columns("film_coefficients")
    surface, ambient = printed["T_surface"] + ZERO, printed["T_air"] + ZERO
    air = air_properties((surface + ambient) / 2)
    number = natural.rayleigh(air, printed["diameter"], surface - ambient)
    assert number == pytest.approx(printed["rayleigh"], rel=3e-4)
    found = natural.nusselt_horizontal_cylinder(number, air.prandtl) * air.conductivity / printed["diameter"]
    assert found == pytest.approx(printed["natural"], rel=3e-4)
    for emittance in (0.1, 0.2, 0.5, 0.9):
        radiative = radiation_coefficient(emittance, surface, ambient)
        assert radiative == pytest.approx(printed[f"radiative_{emittance}"], abs=1e-4)


def test_cylinder_in_wind_agrees_with_the_reference_points() -> None:
    """Reynolds number and forced coefficient are those computed with CoolProp and ht, within 0.03 %."""
    printed = columns("wind_coefficients")
    air = air_properties((printed["T_surface"] + printed["T_air"]) / 2 + ZERO)
    number = forced.reynolds(printed["wind"], printed["diameter"], air.kinematic_viscosity)
    assert number == pytest.approx(printed["reynolds"], rel=3e-4)
    found = forced.nusselt_cylinder_in_crossflow(number, air.prandtl) * air.conductivity / printed["diameter"]
    assert found == pytest.approx(printed["forced"], rel=3e-4)


@pytest.mark.parametrize("rayleigh", [1e2, 1e5, 1e8, 1e11])
@pytest.mark.parametrize("prandtl", [0.68, 0.71])
def test_nusselt_numbers_agree_with_ht(rayleigh: float, prandtl: float) -> None:
    """Each correlation is the one of ht 1.2.0 by the same name."""
    grashof = rayleigh / prandtl
    assert natural.nusselt_horizontal_cylinder(rayleigh, prandtl) == pytest.approx(
        ht.Nu_horizontal_cylinder_Churchill_Chu(prandtl, grashof), rel=1e-9
    )
    assert natural.nusselt_vertical_plate(rayleigh, prandtl) == pytest.approx(
        ht.Nu_vertical_plate_Churchill(prandtl, grashof), rel=1e-9
    )
    slender = natural.nusselt_vertical_plate(rayleigh, prandtl) * natural.slender_cylinder_factor(
        grashof, prandtl, 3.0, 0.1
    )
    expected = ht.conv_free_immersed.Nu_vertical_cylinder_Popiel_Churchill(prandtl, grashof, 3.0, 0.1)
    assert slender == pytest.approx(expected, rel=1e-9)
    if not 4e6 < rayleigh < 1e7:
        mcadams = ht.conv_free_immersed.Nu_horizontal_plate_McAdams
        up = natural.nusselt_plate_facing_up(rayleigh)
        assert up == pytest.approx(mcadams(prandtl, grashof, buoyancy=True), rel=1e-9)
    if rayleigh <= 1e10:
        down = natural.nusselt_plate_facing_down(rayleigh)
        assert down == pytest.approx(mcadams(prandtl, grashof, buoyancy=False), rel=1e-9)


@pytest.mark.parametrize("reynolds", [10.0, 1e4, 4e5, 2e6])
def test_forced_convection_agrees_with_ht(reynolds: float) -> None:
    """Churchill and Bernstein is ht's; the flat plate is its laminar or mixed form, 871 unrounded."""
    found = forced.nusselt_cylinder_in_crossflow(reynolds, 0.7)
    assert found == pytest.approx(ht.Nu_cylinder_Churchill_Bernstein(reynolds, 0.7), rel=1e-9)
    plate = 0.664 * reynolds**0.5 if reynolds < 5e5 else 0.037 * reynolds**0.8 - 871
    assert forced.nusselt_flat_plate(reynolds, 0.7) == pytest.approx(plate * 0.7 ** (1 / 3), rel=2e-4)


def test_flat_plate_does_not_step_at_the_transition() -> None:
    """Laminar and mixed flow meet at Re 5e5, so that a solver finds a balance there."""
    before, after = forced.nusselt_flat_plate([5e5, 5e5 * (1 + 1e-9)], 0.7)
    assert before == pytest.approx(after, rel=1e-8)


def test_horizontal_pipe_of_a_textbook() -> None:
    """Incropera et al., example 9.4: Ra 5.076e6, Nu 23.09, h 7.229, q' 322.5 + 441.0 = 763 W/m with its air values."""
    number = 9.8 * 2.725e-3 * 142 * 0.1**3 / (22.8e-6 * 32.8e-6)
    assert number == pytest.approx(5.076e6, rel=2e-3)
    nusselt = float(natural.nusselt_horizontal_cylinder(number, 0.697))
    assert nusselt == pytest.approx(23.09, rel=1e-3)
    convection = nusselt * 0.0313 / 0.1 * np.pi * 0.1 * 142
    radiation = float(radiative_flux(0.85, 438.0, 296.0)) * np.pi * 0.1
    assert convection == pytest.approx(322.5, rel=2e-3)
    assert radiation == pytest.approx(441.0, rel=2e-3)
    assert convection + radiation == pytest.approx(763, rel=5e-3)


def test_bare_steam_pipe_of_a_textbook() -> None:
    """Incropera et al., example 1.2: E 2273 W/m², G 448 W/m², q' 577.3 + 421.1 = 998 W/m."""
    assert float(radiative_flux(0.8, 473.15, 1e-9)) == pytest.approx(2273, rel=1e-3)
    assert float(radiative_flux(1.0, 298.15, 1e-9)) == pytest.approx(448, rel=1e-3)
    area = np.pi * 0.070
    convection, radiation = 15 * area * 175, float(radiative_flux(0.8, 473.15, 298.15)) * area
    assert convection == pytest.approx(577.3, rel=1e-3)
    assert radiation == pytest.approx(421.1, rel=1e-3)
    assert convection + radiation == pytest.approx(998, rel=3e-3)


def test_simplified_coefficients_of_iso_12241() -> None:
    """C + 0.05·ΔT for pipes and C + 0.09·ΔT for walls, by surface (ISO 12241, from memory)."""
    found = simplified.simplified_horizontal_pipe(np.array(["bright aluminum", "non-metallic", "x"]), 20.0)
    assert found[:2] == pytest.approx([3.5, 9.5])
    assert np.isnan(found[2])
    assert float(simplified.simplified_vertical("dusty galvanized steel", -10.0)) == pytest.approx(6.4)
    assert len(simplified.finishes()) == 7


def test_convection_formulas_of_iso_12241() -> None:
    """Natural and wind formulas on both sides of their turning points, worked by hand (ISO 12241, from memory)."""
    assert float(simplified.natural_horizontal_pipe(0.1, 16.0)) == pytest.approx(1.25 * 160**0.25)
    assert float(simplified.natural_horizontal_pipe(1.0, 27.0)) == pytest.approx(3.63)
    assert float(simplified.natural_vertical(0.5, 8.0)) == pytest.approx(2.64)
    assert float(simplified.natural_vertical(2.0, 8.0)) == pytest.approx(3.48)
    assert float(simplified.wind_on_pipe(0.01, 0.25)) == pytest.approx(0.0324 + 0.628)
    assert float(simplified.wind_on_pipe(1.0, 1.0)) == pytest.approx(8.9)
    assert float(simplified.wind_on_wall(4.0, 1.0)) == pytest.approx(7.92)
    assert float(simplified.wind_on_wall(32.0, 1.0)) == pytest.approx(92.16)


@pytest.mark.parametrize("edition", ["1998", "2008"])
@pytest.mark.parametrize(
    ("shape", "wind", "expected"),
    [
        ("horizontal pipe", 3.0, 8.9 * 3**0.9 / 0.2**0.1),
        ("horizontal pipe", 0.03, 1.25 * (20 / 0.2) ** 0.25),  # the wind's 0.0405 + 1.216 is less than still air's
        ("vertical flat", 3.0, 3.96 * (3 / 0.5) ** 0.5),
        ("vertical flat", 20.0, 5.76 * (20**4 / 0.5) ** 0.2),
    ],
)
def test_formulas_of_an_edition_take_wind_or_still_air(edition: str, shape: str, wind: float, expected: float) -> None:
    """0.2 m of pipe and 0.5 m of wall, 20 K warmer than the air: the printed formulas, put in here by hand.

    ISO 12241:1998 and 2008 (from memory): the greater of wind and still air, and not their blend.
    """
    system = System(shape, 400.0, 300.0, outside_diameter=0.2, height=0.5, emittance=0.9, wind_speed=wind)  # type: ignore[arg-type]
    method = f"ISO-12241-{edition} formulas"
    found = surface_coefficient(system, outline(system), np.array(320.0), method)  # type: ignore[arg-type]
    assert found.convective == pytest.approx(expected, rel=1e-9)
    line = {
        "pipe outside diameter": 0.2, "operating temperature": 400.0, "ambient temperature": 300.0, "thickness": 0.03,
        "conductivity": 0.04, "jacket emittance": 0.9, "surface coefficient method": method,
    }  # fmt: skip
    told = work_out("surface temperature", line)
    assert told.source == f"ISO 12241:{edition} (from memory)"
    assert f"formulas of ISO 12241:{edition}" in told.method


def test_edition_that_was_not_seen_gives_no_value() -> None:
    """Who asks for the formulas of 2022 is told that they are not known here, and gets no others in their place."""
    line = {
        "pipe outside diameter": 0.2, "operating temperature": 400.0, "ambient temperature": 300.0, "thickness": 0.03,
        "conductivity": 0.04, "jacket emittance": 0.9, "surface coefficient method": "ISO-12241-2022 formulas",
    }  # fmt: skip
    found = work_out("surface temperature", line)
    assert found.value is None
    assert found.cannot == "the formulas of ISO 12241:2022 are not known here"


def test_fixed_coefficients_are_carried_with_their_sources() -> None:
    """BS 5422:1990 and CIBSE both give 5.7 for bright and 10.0 for dull surfaces; ASHRAE 9.26 up and 34.0 in wind."""
    fixed = {(each.surface, each.source): each.coefficient for each in fixed_coefficients()}
    assert fixed["bright, aluminum", "BS 5422:1990"] == fixed["reflective", "CIBSE Guide C"] == 5.7
    assert fixed["normal, mastic or painted", "BS 5422:1990"] == fixed["non-reflective", "CIBSE Guide C"] == 10.0
    assert fixed["horizontal, heat flow up, emittance 0.90", "ASHRAE chapter 26"] == 9.26
    assert fixed["outdoor, wind 6.7 m/s", "ASHRAE chapter 26"] == 34.0
