"""Minimum thickness, equivalent thickness and freezing against printed tables, worked examples and references."""

from __future__ import annotations

import numpy as np
import pytest

from speccheck.physics import equivalent_thickness as equivalent
from speccheck.physics import freezing, psychrometrics, thickness
from speccheck.physics.dimensions import (
    INCH,
    copper_tube_outside_diameter,
    insulation_size,
    steel_pipe_bore,
    steel_pipe_outside_diameter,
)
from speccheck.physics.heat_flow import solve
from speccheck.physics.materials import materials
from speccheck.physics.systems import Layer, System
from speccheck.physics.working import Cause
from tests.physics.published_cases import columns

ZERO = 273.15
MM = 1e-3
BTU_INCH = 0.1442279


def test_condensation_thickness_agrees_with_the_reference_solutions() -> None:
    """Thickness to the dew point with film correlations and with h 9, within 0.01 mm of CoolProp, ht and brentq."""
    printed = columns("condensation_thickness")
    dew = psychrometrics.dew_point(printed["T_air"] + ZERO, printed["rh"] / 100)
    assert dew - ZERO == pytest.approx(printed["dew_point"], abs=0.005)
    system = System(
        "horizontal pipe",
        printed["T_pipe"] + ZERO,
        printed["T_air"] + ZERO,
        outside_diameter=printed["outside_diameter"],
        emittance=printed["emittance"],
        coefficient=9.0,
    )
    film = thickness.least_thickness_against_condensation(system, dew, printed["conductivity"])
    assert film.exact / MM == pytest.approx(printed["film"], abs=0.01)
    assert film.stocked / INCH == pytest.approx([0.75, 2.0, 1.5, 2.0])
    given = thickness.least_thickness_against_condensation(system, dew, printed["conductivity"], "fixed coefficient")
    assert (given.exact / MM)[:3] == pytest.approx(printed["fixed"][:3], abs=0.01)


def test_touch_thickness_agrees_with_the_reference_solutions() -> None:
    """Thickness for a surface of 60 °C within 0.01 mm of CoolProp, ht and brentq; bright jackets need nearly twice."""
    printed = columns("touch_thickness")
    system = System(
        "horizontal pipe",
        printed["T_pipe"] + ZERO,
        27 + ZERO,
        outside_diameter=printed["outside_diameter"],
        emittance=printed["emittance"],
    )
    found = thickness.least_thickness_for_touch_limit(system, 60 + ZERO, printed["conductivity"])
    assert found.exact / MM == pytest.approx(printed["thickness"], abs=0.01)


def test_tank_condensation_table_is_met_exactly_rounded_up() -> None:
    """ASHRAE chapter 23, Table 4: 0.3, 0.7 and 2.9 in. at 50, 70 and 90 %, rounded up to 0.1 in. as printed."""
    printed = columns("tank_condensation")
    room, tank = (80 + 459.67) / 1.8, (40 + 459.67) / 1.8
    dew = psychrometrics.dew_point(room, printed["rh"] / 100)
    system = System("vertical flat", tank, room, coefficient=1.2 * 5.678263)
    found = thickness.least_thickness_against_condensation(system, dew, 0.30 * BTU_INCH, "fixed coefficient")
    assert found.exact / INCH == pytest.approx(printed["exact_in"], abs=0.001)
    assert np.ceil(found.exact / INCH * 10) / 10 == pytest.approx(printed["rounded_up_in"])
    assert printed["rounded_up_in"] * 25.4 == pytest.approx(printed["printed_mm"], abs=0.5)


def test_first_estimate_of_the_handbook() -> None:
    """ASHRAE chapter 23, equation 14: 32.5 mm from 230 °C and 32.9 mm from 232 °C, 38 mm next in stock."""
    wall = System("vertical flat", np.array([230.0, 232.0]) + ZERO, 27 + ZERO, coefficient=5.7)
    found = thickness.least_thickness_for_touch_limit(
        wall, 60 + ZERO, 0.036, "fixed coefficient", stocked=[0.025, 0.038, 0.050]
    )
    assert found.exact / MM == pytest.approx([32.5, 32.9], abs=0.05)
    assert found.stocked == pytest.approx(0.038)


def test_thickness_for_a_surface_limit_of_cengel() -> None:
    """Cengel, example 7-8: 6.97 mm of fiberglass on a 20 mm tube keeps the surface at 40 °C, 32.0 W/m."""
    inside = 1 / (70 * np.pi * 0.016)
    tube = System(
        "horizontal pipe",
        120 + ZERO,
        25 + ZERO,
        (Layer(0.002, 15.0),),
        outside_diameter=0.016,
        inside_resistance=inside,
        coefficient=20.0,
    )
    found = thickness.least_thickness_for_touch_limit(tube, 40 + ZERO, 0.038, "fixed coefficient")
    assert float(found.exact) / MM == pytest.approx(6.97, rel=5e-3)
    assert float(found.solved.heat_flow) == pytest.approx(32.0, rel=5e-3)


def test_diameter_taken_for_radius_is_the_trap_of_som() -> None:
    """Som, example 2.10: 16.5 mm is right for a 35 mm pipe; taking 35 mm as radius gives 18.4 (the book prints 19)."""
    diameters = np.array([0.035, 0.070])
    pipes = System("horizontal pipe", -182 + ZERO, 20 + ZERO, outside_diameter=diameters, coefficient=17.0)
    found = thickness.least_thickness_against_condensation(pipes, 10 + ZERO, 0.02, "fixed coefficient")
    assert found.exact / MM == pytest.approx([16.5, 18.4], abs=0.05)


def test_thickness_for_another_conductivity() -> None:
    """The published case with the upper value 0.29 gives 4.2 in., and the recomputed grid holds to its last digit."""
    printed = columns("other_conductivity")
    found = equivalent.equivalent_thickness(printed["radius"], printed["t"], printed["K"], printed["k"])
    assert np.all(np.abs(found[:3] - printed["T"][:3]) <= 0.0006)
    assert np.all(np.abs(found[3:] - printed["T"][3:]) <= 0.00006)
    radius = float(copper_tube_outside_diameter(0.75)) / 2
    assert float(equivalent.equivalent_thickness(radius, 1.5 * INCH, 0.46, 0.29)) / INCH == pytest.approx(4.2, abs=0.05)


def test_range_end_is_upper_or_lower_as_the_standard_says() -> None:
    """K 0.30 on NPS 1: 1.590 in. by ASHRAE 90.1 (upper, 0.29), 2.079 by Title 24 (lower, 0.25); inside: unchanged."""
    upper = equivalent.required_thickness(0.6575, 1.5, [0.30, 0.29, 0.27, 0.25, 0.20], 0.25, 0.29, "upper")
    assert upper == pytest.approx([1.5902, 1.5, 1.5, 1.5, 0.8346], abs=1e-4)
    lower = equivalent.required_thickness(0.6575, 1.5, [0.30, 0.27], 0.25, 0.29, "lower")
    assert lower == pytest.approx([2.0788, 1.5], abs=1e-4)
    assert np.isnan(equivalent.required_thickness(0.6575, 1.5, np.nan, 0.25, 0.29, "upper"))


def test_freezing_times_of_the_handbook_with_actual_diameters() -> None:
    """ASHRAE chapter 23, Table 6, within 2 % or one unit of the last digit, with the diameters of Table 13."""
    printed = columns("freezing")
    pipe = steel_pipe_outside_diameter(printed["nominal_in"])
    made = insulation_size("rigid on pipe", printed["nominal_in"], printed["thickness_mm"] * MM)
    resistance = freezing.resistance_to_air(pipe, made.outside_diameter, 0.0432)
    bore = steel_pipe_bore(printed["nominal_in"])
    hours = freezing.cooling_time(bore, resistance, 5.5 + ZERO, -28 + ZERO) / 3600
    assert np.all(np.abs(hours - printed["hours"]) <= np.maximum(0.02 * printed["hours"], 0.1))
    needed = freezing.least_thickness_against_freezing(hours * 3600, bore, pipe, 0.0432, 5.5 + ZERO, -28 + ZERO)
    assert needed == pytest.approx(made.thickness, rel=1e-9)


def test_nominal_thickness_falls_short_of_the_freezing_table() -> None:
    """The trap: on NPS 4 at 25 mm, OD plus twice the nominal thickness gives 2.29 h, 5 % under the printed 2.4."""
    pipe, bore = steel_pipe_outside_diameter(4.0), steel_pipe_bore(4.0)
    nominal = freezing.resistance_to_air(pipe, pipe + 2 * 0.025, 0.0432)
    assert float(freezing.cooling_time(bore, nominal, 278.65, 245.15)) / 3600 < 0.96 * 2.4


def test_freezing_at_its_edges() -> None:
    """Warm air never freezes water, cold water is frozen at once, no insulation needs none, and 1 m may be too thin."""
    assert np.isinf(freezing.cooling_time(0.1, 1.0, 280.0, 275.0))
    assert float(freezing.cooling_time(0.1, 1.0, 273.0, 250.0)) == 0
    assert np.isnan(freezing.cooling_time(0.1, 1.0, np.nan, 250.0))
    assert np.isinf(freezing.freezing_time(0.1, 1.0, 273.15))
    assert float(freezing.freezing_time(0.1, 2.0, 263.15, 0.25)) == pytest.approx(
        0.25 * 334e6 * np.pi * 0.0025 * 2 / 10
    )
    found = freezing.least_thickness_against_freezing([0.0, 1e9], 0.02, 0.0213, 0.04, 280.0, 250.0)
    assert found[0] == 0
    assert np.isnan(found[1])


def test_least_thickness_says_why_there_is_none() -> None:
    """No thickness reaches a limit beyond the air, 1 m may not be enough, and stock may end earlier."""
    system = System(
        "horizontal pipe", np.array([278.0, 278.0, 278.0, 278.0]), 300.0, outside_diameter=0.1, emittance=0.9
    )
    dew = np.array([300.0, 299.999, 299.0, np.nan])
    found = thickness.least_thickness_against_condensation(system, dew, 0.036, stocked=[0.025, 0.05])
    assert [Cause(code) for code in found.cause] == [
        Cause.LIMIT_BEYOND_AIR,
        Cause.NO_THICKNESS,
        Cause.NOT_STOCKED,
        Cause.NOT_GIVEN,
    ]
    assert np.isnan(found.exact).tolist() == [True, True, False, True]
    assert np.isnan(found.stocked).all()


def test_nothing_is_needed_where_bare_is_enough() -> None:
    """A pipe warmer than the dew point or cooler than the touch limit needs zero thickness."""
    warm = System("horizontal pipe", 299.0, 300.0, outside_diameter=0.1, emittance=0.9)
    found = thickness.least_thickness_against_condensation(warm, 290.0, 0.036)
    assert (float(found.exact), float(found.stocked), int(found.cause)) == (0.0, 0.0, Cause.NONE)
    assert float(thickness.least_thickness_for_touch_limit(warm, 333.15, 0.036).exact) == 0
    assert float(thickness.least_thickness_for_heat_flow(warm, 100.0, 0.036).exact) == 0


def test_heat_flow_thickness_lies_past_the_critical_radius() -> None:
    """On a thin wire-like tube a thin layer loses more than none; the answer is where the loss has come down again."""
    tube = System("horizontal pipe", 373.15, 293.15, outside_diameter=0.004, coefficient=5.0)
    bare = float(solve(tube, "fixed coefficient").heat_flow)
    found = thickness.least_thickness_for_heat_flow(tube, 0.99 * bare, 0.055, "fixed coefficient")
    assert float(found.exact) + 0.002 > 0.055 / 5.0
    assert float(found.solved.heat_flow) == pytest.approx(0.99 * bare, rel=1e-9)


def test_least_thickness_with_conductivity_that_varies() -> None:
    """A curve for the layer, and one for a layer beneath it, are followed: put back in, the limit is met."""
    limits = materials()["mineral fiber"].conductivity
    inner = Layer(0.01, materials()["calcium silicate"].conductivity)
    for made in ((), (inner,)):
        pipe = System("horizontal pipe", 523.15, 300.15, made, outside_diameter=0.1143, emittance=0.3)
        found = thickness.least_thickness_for_touch_limit(pipe, 333.15, limits)
        again = solve(pipe.with_layer(Layer(found.exact, limits)))
        assert float(again.surface_temperature) == pytest.approx(333.15, abs=1e-6)
        assert float(found.exact) > 0


def test_mixed_shapes_have_their_least_thicknesses() -> None:
    """A pipe, a wall and a duct in one call each meet the dew point with their own thickness."""
    shapes = np.array(["horizontal pipe", "vertical flat", "rectangular duct"])
    system = System(shapes, 285.15, 300.15, outside_diameter=0.3, width=0.6, height=0.4, emittance=0.9)
    found = thickness.least_thickness_against_condensation(system, 297.15, 0.04)
    assert found.cause.tolist() == [Cause.NONE] * 3
    assert found.solved.surface_temperature == pytest.approx(297.15, abs=1e-7)


def test_next_stocked_takes_an_exact_fit() -> None:
    """25.4 mm wanted is met by 1 in., a hair more needs the next size, and none is stocked past 6 in."""
    found = thickness.next_stocked(np.array([25.4, 25.5, 0.0, 200.0, np.nan]) * MM) / INCH
    assert found[:3] == pytest.approx([1.0, 1.5, 0.0])
    assert np.isnan(found[3:]).all()
