"""Whole systems against printed tables, textbook examples and reference solutions."""

from __future__ import annotations

import numpy as np
import pytest

from speccheck.physics import systems as layers
from speccheck.physics.dimensions import INCH, copper_tube_outside_diameter, steel_pipe_outside_diameter
from speccheck.physics.heat_flow import HeatFlow, solve
from speccheck.physics.materials import ConductivityPoints, ConductivityPolynomial
from speccheck.physics.systems import Layer, System
from speccheck.physics.working import Cause
from tests.physics.published_cases import columns
from tests.some import some

ZERO = 273.15
BTU_PER_HOUR_FOOT = 0.961522
BTU_PER_HOUR_FOOT2_F = 5.678263


def kelvins(fahrenheit: object) -> np.ndarray:
    """Return degrees Fahrenheit in kelvins."""
    return (np.asarray(fahrenheit, dtype=float) + 459.67) / 1.8


def insulated(printed: dict[str, np.ndarray]) -> HeatFlow:
    """Solve the horizontal pipes of a data file."""
    return solve(
        System(
            "horizontal pipe",
            printed["T_pipe"] + ZERO,
            printed["T_air"] + ZERO,
            (Layer(printed["thickness"], printed["conductivity"]),),
            outside_diameter=printed["outside_diameter"],
            emittance=printed["emittance"],
        )
    )


def test_insulated_pipes_agree_with_the_reference_solutions() -> None:
    """Surface temperature within 1 mK, heat flow and coefficient within 0.01 % of CoolProp, ht and brentq."""
    printed = columns("coupled_pipe")
    found = insulated(printed)
    assert found.surface_temperature - ZERO == pytest.approx(printed["T_surface"], abs=1e-3)
    assert found.heat_flow == pytest.approx(printed["heat_flow"], rel=1e-4)
    assert found.convective + found.radiative == pytest.approx(printed["coefficient"], abs=6e-4)
    assert np.all(found.cause == Cause.NONE)


def test_bare_steel_pipe_agrees_with_the_handbook_table() -> None:
    """Every printed loss of bare pipe is met within 3 % at emittance 0.8 (ASHRAE chapter 23, Table 17)."""
    printed = columns("bare_pipe")
    pipe = System(
        "horizontal pipe",
        kelvins(printed["T_F"]),
        kelvins(80),
        outside_diameter=steel_pipe_outside_diameter(printed["nominal_in"]),
        emittance=0.8,
    )
    assert solve(pipe).heat_flow == pytest.approx(printed["loss"], rel=0.03)


def test_bare_copper_tube_agrees_with_the_handbook_table() -> None:
    """Printed losses of bare copper tube are met within 5 % at emittance 0.6 (ASHRAE chapter 23, Table 18)."""
    printed = columns("bare_copper")
    tube = System(
        "horizontal pipe",
        kelvins(printed["T_F"]),
        kelvins(80),
        outside_diameter=copper_tube_outside_diameter(printed["nominal_in"]),
        emittance=0.6,
    )
    assert solve(tube).heat_flow == pytest.approx(printed["loss"], rel=0.05)


@pytest.mark.parametrize(("nominal", "steam_f", "printed"), [(1, 366, 285), (2, 366, 480), (4, 250, 415)])
def test_bare_steam_lines_agree_roughly_with_the_tip_sheet(nominal: float, steam_f: float, printed: float) -> None:
    """US DOE steam tip sheet 2, MMBtu a year and 100 ft at 75 °F: within 10 %, as its emittance is not stated."""
    diameter = steel_pipe_outside_diameter(nominal)
    line = System("horizontal pipe", kelvins(steam_f), kelvins(75), outside_diameter=diameter, emittance=0.8)
    yearly = float(solve(line).heat_flow) / BTU_PER_HOUR_FOOT * 100 * 8760 / 1e6
    assert yearly == pytest.approx(printed, rel=0.10)


def test_bare_steam_pipe_loses_eight_times_as_much() -> None:
    """A bare 175 °C steam pipe loses about eight times what it loses under 25 mm (ASHRAE chapter 23)."""
    bare = System("horizontal pipe", 175 + ZERO, 24 + ZERO, outside_diameter=0.0603, emittance=0.8)
    ratio = float(solve(bare).heat_flow / solve(bare.with_layer(Layer(0.027, 0.043))).heat_flow)
    assert 6.5 < ratio < 9.5


def fixed(shape: str, inside: float, air: float, coefficient: float, *made: Layer, **sizes: float) -> HeatFlow:
    """Solve one system with a given surface coefficient; temperatures in kelvins."""
    return solve(System(shape, inside, air, made, coefficient=coefficient, **sizes), "fixed coefficient")  # type: ignore[arg-type]


def test_copper_pipe_of_kreith() -> None:
    """Kreith, 7th edition, example 2.2: bare 451.4 W/m, with 50 mm of k 0.2 138.1 W/m."""
    inside = float(layers.surface_resistance(1e4, np.pi * 0.1))
    wall = Layer(0.010, 400.0)
    bare = fixed("horizontal pipe", 383.15, 303.15, 15, wall, outside_diameter=0.1, inside_resistance=inside)
    assert float(bare.heat_flow) == pytest.approx(451.4, rel=3e-3)
    made = (wall, Layer(0.05, 0.2))
    covered = fixed("horizontal pipe", 383.15, 303.15, 15, *made, outside_diameter=0.1, inside_resistance=inside)
    assert float(covered.heat_flow) == pytest.approx(138.1, rel=3e-3)


def test_rock_wool_on_a_steam_pipe_of_kern() -> None:
    """Kern, example 2.5: ½ in. rock wool on 2 in. pipe loses 104.4 at h 2.23, 103 Btu/(h ft) at 2.10 and 125.5 °F."""
    conductivity = 0.033 * 1.730735
    for coefficient, flow in ((2.23, 104.44), (2.10, 102.97)):
        found = fixed(
            "horizontal pipe",
            float(kelvins(300)),
            float(kelvins(70)),
            coefficient * BTU_PER_HOUR_FOOT2_F,
            Layer(0.5 * INCH, conductivity),
            outside_diameter=2.375 * INCH,
        )
        assert float(found.heat_flow) / BTU_PER_HOUR_FOOT == pytest.approx(flow, rel=1e-3)
    assert float(found.surface_temperature) * 1.8 - 459.67 == pytest.approx(125.5, abs=0.1)


def test_insulated_steel_pipe_of_geankoplis() -> None:
    """Geankoplis, example 4.3-3: 29.76 Btu/h from a foot of ¾ in. steel pipe, outer surface 94.03 °F."""
    foot = 0.3048
    inside = float(layers.surface_resistance(1000 * BTU_PER_HOUR_FOOT2_F, np.pi * 0.824 * INCH))
    found = fixed(
        "horizontal pipe",
        float(kelvins(267)),
        float(kelvins(80)),
        2 * BTU_PER_HOUR_FOOT2_F,
        Layer(0.113 * INCH, 26 * 1.730735),
        Layer(1.5 * INCH, 0.037 * 1.730735),
        outside_diameter=0.824 * INCH,
        inside_resistance=inside,
    )
    assert float(found.heat_flow) * foot / 0.29307107 == pytest.approx(29.76, rel=2e-3)
    assert float(found.surface_temperature) * 1.8 - 459.67 == pytest.approx(94.03, abs=0.02)


def test_insulated_steam_pipe_of_cengel() -> None:
    """Cengel, example 3-8: 120.8 W/m (121 printed), its four resistances, the drops, and 23.6 °C outside."""
    inside = float(layers.surface_resistance(60, np.pi * 0.05))
    assert inside == pytest.approx(0.1061, rel=1e-3)
    assert float(layers.surface_resistance(18, np.pi * 0.115)) == pytest.approx(0.1538, rel=1e-3)
    assert float(layers.cylinder_resistance(0.055, 0.115, 0.05)) == pytest.approx(2.348, rel=1e-3)
    assert float(layers.cylinder_resistance(0.05, 0.055, 80)) == pytest.approx(0.00019, rel=3e-3)
    made = (Layer(0.0025, 80.0), Layer(0.03, 0.05))
    found = fixed("horizontal pipe", 593.15, 278.15, 18, *made, outside_diameter=0.05, inside_resistance=inside)
    assert float(found.heat_flow) == pytest.approx(120.8, rel=3e-3)
    pipe, insulation, outside = (float(face) for face in found.layer_temperatures)
    assert pipe - insulation == pytest.approx(0.023, abs=0.001)
    assert insulation - outside == pytest.approx(283.6, abs=0.1)
    assert outside - ZERO == pytest.approx(23.6, abs=0.05)


def test_insulated_tube_of_theodore() -> None:
    """Theodore, example 19.10: bare 128.1 W, insulated 99.2 W, interface 116.3 °C, surface 31.7 °C."""
    inside = float(layers.surface_resistance(190, np.pi * 0.022))
    wall = Layer(0.002, 19.0)
    sizes = {"outside_diameter": 0.022, "inside_resistance": inside}
    assert float(fixed("horizontal pipe", 397.15, 275.15, 14, wall, **sizes).heat_flow) == pytest.approx(
        128.1, rel=2e-3
    )
    found = fixed("horizontal pipe", 397.15, 275.15, 14, wall, Layer(0.025, 0.2), **sizes)
    assert float(found.heat_flow) == pytest.approx(99.2, rel=2e-3)
    assert float(found.layer_temperatures[1]) - ZERO == pytest.approx(116.3, abs=0.1)
    assert float(found.surface_temperature) - ZERO == pytest.approx(31.7, abs=0.05)


def test_critical_radius_of_incropera() -> None:
    """Incropera et al., example 3.5: k 0.055 and h 5 on a 5 mm tube give 11 mm, and the resistances as printed."""
    assert float(layers.critical_radius(0.055, 5.0)) == pytest.approx(0.011)
    thicknesses = np.array([0, 2, 5, 6, 10, 20, 40, 50]) * 1e-3
    outer = 0.010 + 2 * thicknesses
    total = layers.cylinder_resistance(0.010, outer, 0.055) + layers.surface_resistance(5.0, np.pi * outer)
    assert total == pytest.approx([6.366, 5.521, 5.189, 5.175, 5.301, 5.931, 7.066, 7.518], rel=1e-3)


def test_water_pipe_of_the_home_energy_model() -> None:
    """The UK Home Energy Model (ISO 12241:2022): 0.00849, 6.43829, 0.30904 m K/W; 5.18072 W at 50 and 15 °C.

    That model takes the logarithm over the pipe's inside diameter; over the outside diameter the layer has 6.0883.
    """
    inside = layers.surface_resistance(1500.0, np.pi * 0.025)
    over_bore = layers.cylinder_resistance(0.025, 0.103, 0.035)
    outside = layers.surface_resistance(10.0, np.pi * 0.103)
    assert [float(inside), float(over_bore), float(outside)] == pytest.approx([0.00849, 6.43829, 0.30904], abs=5e-6)
    for fluid, air, flow in ((50, 15, 5.18072), (52, 18, 5.03270), (50, 20, 4.44062)):
        assert (fluid - air) / float(inside + over_bore + outside) == pytest.approx(flow, abs=5e-6)
    assert float(layers.cylinder_resistance(0.027, 0.103, 0.035)) == pytest.approx(6.0883, abs=5e-5)


def test_rectangular_duct_takes_the_iso_12241_resistance() -> None:
    """A duct's layer has 2d/(k·(P + P + 8d)), and its heat passes the whole outside."""
    found = fixed("rectangular duct", 323.15, 293.15, 10.0, Layer(0.05, 0.04), width=0.6, height=0.9)
    resistance = 2 * 0.05 / (0.04 * (3.0 + 3.4))
    assert float(found.resistance) == pytest.approx(resistance)
    assert float(found.heat_flow) == pytest.approx(30 / (resistance + 1 / (10 * 3.4)), rel=1e-9)


def test_duct_faces_put_together_give_the_textbook_loss() -> None:
    """Incropera et al., example 9.3 (from memory): 0.75 × 0.3 m duct at 45 °C in 15 °C air loses 246 W/m by convection.

    With the book's own formulas on each face, the laminar one on the sides, within 1 %.
    """
    duct = System("rectangular duct", 318.15, 288.15, width=0.75, height=0.3, emittance=0.0)
    assert float(solve(duct).heat_flow) == pytest.approx(246, rel=0.01)


def test_conductivity_that_varies_is_taken_at_the_mean_temperature() -> None:
    """With k linear in temperature the heat flow is that of the exact integral, layer by layer."""
    curve = ConductivityPolynomial((0.035, 1e-4, 2e-7))
    found = fixed("vertical flat", 473.15, 293.15, 10.0, Layer(0.08, curve), Layer(0.05, 0.06))
    faces = [float(face) for face in found.layer_temperatures]
    mean = (faces[0] + faces[1]) / 2
    assert float(found.conductivities[0]) == pytest.approx(float(curve.at(mean)), rel=1e-10)
    assert float(found.heat_flow) == pytest.approx(float(curve.at(mean)) / 0.08 * (faces[0] - faces[1]), rel=1e-9)
    assert float(found.heat_flow) == pytest.approx(10 * (faces[2] - 293.15), rel=1e-9)
    points = ConductivityPoints((273.15, 373.15), (0.035, 0.045))
    straight = fixed("vertical flat", 373.15, 293.15, 10.0, Layer(0.08, points))
    same = fixed("vertical flat", 373.15, 293.15, 10.0, Layer(0.08, ConductivityPolynomial((0.035, 1e-4))))
    assert float(straight.heat_flow) == pytest.approx(float(same.heat_flow), rel=1e-12)


def test_every_failure_has_its_cause_and_disturbs_no_neighbor() -> None:
    """Missing, impossible and out-of-range systems get NaN and the cause; those beside them are solved."""
    system = System(
        "horizontal pipe",
        np.array([350.0, np.nan, 350.0, 350.0, 2000.0, 350.0, 350.0]),
        293.15,
        (Layer(np.array([0.03, 0.03, -0.01, 0.03, 0.0, 0.03, 0.03]), 0.04),),
        outside_diameter=np.array([0.1, 0.1, 0.1, 0.1, 0.1, 500.0, 0.1]),
        emittance=np.array([0.9, 0.9, 0.9, 1.5, 0.9, 0.9, 0.9]),
        wind_speed=np.array([0, 0, 0, 0, 0, 0, 1e-6]),
    )
    found = solve(system)
    assert [Cause(code) for code in found.cause] == [
        Cause.NONE,
        Cause.NOT_GIVEN,
        Cause.NOT_PHYSICAL,
        Cause.NOT_PHYSICAL,
        Cause.FILM_TEMPERATURE,
        Cause.RAYLEIGH_NUMBER,
        Cause.REYNOLDS_NUMBER,
    ]
    assert np.isnan(found.heat_flow).tolist() == [code != Cause.NONE for code in found.cause]
    assert float(found.heat_flow[0]) == float(solve(system.rows(slice(0, 1))).heat_flow[0])
    assert all(cause.wording for cause in some(one for one in Cause if one is not Cause.NONE))


def test_a_mean_temperature_beyond_the_data_is_a_cause() -> None:
    """Conductivity data that end at 100 °C do not answer for a layer at 150 °C mean."""
    points = ConductivityPoints((273.15, 373.15), (0.035, 0.045))
    found = fixed("vertical flat", 573.15, 293.15, 10.0, Layer(0.08, points))
    assert Cause(int(found.cause)) is Cause.CONDUCTIVITY_RANGE


def test_iso_12241_simplified_coefficients_are_a_second_method() -> None:
    """The named method stands in the result; small pipes, wind and over 100 K are outside it."""
    system = System(
        "horizontal pipe",
        np.array([353.15, 353.15, 353.15, 873.15]),
        293.15,
        (Layer(np.array([0.05, 0.05, 0.05, 0.001]), 0.04),),
        outside_diameter=np.array([0.3, 0.1, 0.3, 0.3]),
        wind_speed=np.array([0.0, 0.0, 1.0, 0.0]),
        finish="bright galvanized steel",
    )
    found = solve(system, "simplified coefficients")
    assert found.method == "simplified coefficients"
    assert found.cause.tolist() == [Cause.NONE] + [Cause.SIMPLIFIED_RANGE] * 3
    difference = float(found.surface_temperature[0]) - 293.15
    assert float(found.convective[0]) == pytest.approx(4.0 + 0.05 * difference, rel=1e-12)


def test_mixed_shapes_are_solved_in_one_call() -> None:
    """Shapes given element by element give what each gives alone, with sizes that it does not use left out."""
    shapes = np.array(["horizontal pipe", "vertical flat", "vertical pipe", "rectangular duct", "flat facing up"])
    system = System(
        shapes,
        350.0,
        293.15,
        (Layer(0.03, 0.04),),
        outside_diameter=np.array([0.1, np.nan, 0.5, np.nan, np.nan]),
        width=np.array([np.nan, np.nan, np.nan, 0.6, 1.0]),
        height=np.array([np.nan, 2.0, 3.0, 0.4, np.nan]),
        emittance=0.9,
    )
    together = solve(system)
    assert together.cause.tolist() == [Cause.NONE] * 5
    for place, shape in enumerate(shapes):
        one = System(
            str(shape),  # type: ignore[arg-type]
            350.0,
            293.15,
            (Layer(0.03, 0.04),),
            outside_diameter=np.asarray(system.outside_diameter)[place],
            width=np.asarray(system.width)[place],
            height=np.asarray(system.height)[place],
            emittance=0.9,
        )
        assert float(solve(one).heat_flow) == pytest.approx(float(together.heat_flow[place]), rel=1e-12)


@pytest.mark.parametrize("method", ["film correlations", "convection formulas"])
def test_wind_takes_more_heat_and_cools_the_surface(method: str) -> None:
    """More wind means a surface nearer to the air, by both ways to reckon it."""
    winds = np.array([0.0, 2.0, 5.0, 10.0])
    pipe = System("horizontal pipe", 400.0, 280.0, (Layer(0.03, 0.05),), outside_diameter=0.2, emittance=0.3)
    found = solve(System(**{**vars(pipe), "wind_speed": winds}), method)  # type: ignore[arg-type]
    assert np.all(np.diff(found.surface_temperature) < 0)
    assert np.all(np.diff(found.heat_flow) > 0)
