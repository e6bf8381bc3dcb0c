"""Moist air against printed tables and two libraries."""

from __future__ import annotations

import numpy as np
import psychrolib
import pytest
from CoolProp.HumidAirProp import HAPropsSI
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.physics import psychrometrics as air
from tests.physics.published_cases import columns

ZERO = 273.15
FAHRENHEIT_ZERO = 459.67


def test_saturation_pressure_agrees_with_the_ashrae_values() -> None:
    """Saturation pressure over ice and water is that of the ASHRAE Handbook, as psychrolib's tests print it."""
    printed = columns("saturation_pressure")
    found = air.saturation_pressure(printed["T"] + ZERO)
    assert np.all(np.abs(found - printed["pressure"]) <= np.maximum(3e-4 * printed["pressure"], 0.0101))


def test_dew_point_agrees_with_psychrolib_coolprop_and_bs_5422() -> None:
    """Dew points lie within 0.05 K of psychrolib 2.5.0 and CoolProp 8.0.0 and 0.2 K of BS 5422:1990."""
    printed = columns("dew_point")
    found = air.dew_point(printed["T"] + ZERO, printed["rh"] / 100) - ZERO
    assert np.all(np.abs(found - printed["psychrolib"]) < 0.002)
    assert np.all(np.abs(found - printed["coolprop"]) < 0.01)
    assert np.nanmax(np.abs(found - printed["bs5422"])) <= 0.2


def test_dew_point_agrees_with_the_rest_of_the_bs_5422_table() -> None:
    """Each cell of the printed rows at 0, 20 and 30 °C lies within 0.2 K; below 0 °C the table counts frost points."""
    printed = columns("dew_point_bs5422")
    found = air.dew_point(printed["T"] + ZERO, printed["rh"] / 100) - ZERO
    assert len(found) == 30
    assert np.max(np.abs(found - printed["dew_point"])) <= 0.2


def test_dew_point_in_fahrenheit_agrees_with_two_libraries() -> None:
    """The inch-pound dew points of psychrolib and CoolProp are met within 0.02 F."""
    printed = columns("dew_point_fahrenheit")
    found = air.dew_point((printed["T"] + FAHRENHEIT_ZERO) / 1.8, printed["rh"] / 100) * 1.8 - FAHRENHEIT_ZERO
    assert len(found) == 17
    assert np.max(np.abs(found - printed["dew_point"])) < 0.02


def test_dew_point_from_minus_20_to_50_agrees_with_psychrolib_and_coolprop() -> None:
    """Over the range of the BS 5422 table, -20 to 50 °C and 50 to 95 %, both libraries agree within 0.05 K."""
    psychrolib.SetUnitSystem(psychrolib.SI)
    for celsius in range(-20, 51, 5):
        for percent in (50, 65, 80, 95):
            found = float(air.dew_point(celsius + ZERO, percent / 100)) - ZERO
            assert found == pytest.approx(psychrolib.GetTDewPointFromRelHum(celsius, percent / 100), abs=0.002)
            coolprop = HAPropsSI("D", "T", celsius + ZERO, "P", 101325, "R", percent / 100) - ZERO
            assert found == pytest.approx(coolprop, abs=0.05)


def test_design_dry_bulb_of_the_weather_table_gives_the_design_dew_point() -> None:
    """At the printed dry bulb and 90 % the dew point is the printed one within 0.2 K (ASHRAE chapter 23, Table 5)."""
    printed = columns("design_weather")
    assert np.all(np.abs(air.dew_point(printed["printed"] + ZERO, 0.9) - ZERO - printed["dew_point"]) <= 0.2)
    assert np.all(np.abs(air.dew_point(printed["recomputed"] + ZERO, 0.9) - ZERO - printed["dew_point"]) <= 0.01)


@pytest.mark.parametrize(("celsius", "humidity"), [(30, 0.5), (20, 0.9), (35, 0.2), (10, 0.4), (-5, 0.5), (27, 0.9)])
@pytest.mark.parametrize("pressure", [101325.0, 84556.0])
def test_wet_bulb_and_humidity_ratio_agree_with_psychrolib(celsius: float, humidity: float, pressure: float) -> None:
    """Wet bulb within 0.002 K and humidity ratio within 0.01 % of psychrolib 2.5.0, at sea level and at 1500 m."""
    psychrolib.SetUnitSystem(psychrolib.SI)
    wet = float(air.wet_bulb(celsius + ZERO, humidity, pressure)) - ZERO
    assert wet == pytest.approx(psychrolib.GetTWetBulbFromRelHum(celsius, humidity, pressure), abs=0.002)
    ratio = float(air.humidity_ratio(air.vapor_pressure(celsius + ZERO, humidity), pressure))
    assert ratio == pytest.approx(psychrolib.GetHumRatioFromRelHum(celsius, humidity, pressure), rel=1e-4)


def test_pressure_at_altitude_agrees_with_psychrolib() -> None:
    """The standard atmosphere is psychrolib's (ASHRAE chapter 1, equation 3) from below the sea to 10 000 m."""
    psychrolib.SetUnitSystem(psychrolib.SI)
    for altitude in (-300, 0, 500, 1609, 3000, 10000):
        assert float(air.pressure_at_altitude(altitude)) == pytest.approx(
            psychrolib.GetStandardAtmPressure(altitude), rel=1e-6
        )
    assert np.isnan(air.pressure_at_altitude(20000))


def test_dew_point_over_water_lies_below_the_frost_point() -> None:
    """Below freezing the vapor saturates over ice before it saturates over water; above there is no frost."""
    vapor = air.vapor_pressure(263.15, 0.8, over="water")
    frost = air.saturation_temperature(vapor, "ice")
    assert float(air.dew_point(263.15, 0.8, over="water")) < float(frost)
    assert np.isnan(air.saturation_temperature(air.vapor_pressure(303.15, 0.5), "ice"))


def test_values_outside_the_formulas_are_nan() -> None:
    """Humidity outside 0 to 1, and temperatures outside -100 to 200 °C, give NaN and disturb no neighbor."""
    found = air.dew_point([293.15, 293.15, 500.0, 293.15], [0.5, 1.2, 0.5, -0.1])
    assert np.isnan(found).tolist() == [False, True, True, True]
    assert np.isnan(air.wet_bulb(500.0, 0.5))


@given(st.floats(-40, 60), st.floats(0.05, 1.0))
@settings(deadline=None)
def test_dew_point_and_wet_bulb_lie_in_order(celsius: float, humidity: float) -> None:
    """Dew point, wet bulb and dry bulb come in this order, and full saturation joins dew point and dry bulb."""
    dry = celsius + ZERO
    dew, wet = float(air.dew_point(dry, humidity)), float(air.wet_bulb(dry, humidity))
    assert dew <= wet + 0.02
    assert wet <= dry
    assert float(air.dew_point(dry, 1.0)) == pytest.approx(dry, abs=0.02)
