"""Computed values by name: what they give, how they explain themselves, and what stops them."""

from __future__ import annotations

import tomllib
from pathlib import Path

import numpy as np
import pytest

from speccheck.physics import psychrometrics
from speccheck.physics.calculations.all import CALCULATIONS, work_out, work_out_lines
from speccheck.physics.heat_flow import solve
from speccheck.physics.systems import Layer, System
from speccheck.physics.thickness import STOCKED_MILLIMETRES
from speccheck.physics.working import GivenInput, Working, WorkingStep
from speccheck.quantities import DIMENSIONS
from tests.some import some

LINES = tomllib.loads((Path(__file__).parent / "data" / "lines.toml").read_text(encoding="utf-8"))
CHILLED = LINES["chilled_water"]


def without(line: dict[str, float | str], *names: str) -> dict[str, float | str]:
    """Return a line that lacks some inputs."""
    return {name: value for name, value in line.items() if name not in names}


def given_of(working: Working) -> dict[str, GivenInput]:
    """Return the inputs of a working by name."""
    return {each.name: each for each in working.inputs}


def steps_of(working: Working) -> dict[str, WorkingStep]:
    """Return the steps of a working by name."""
    return {each.name: each for each in working.steps}


def test_every_calculation_speaks_of_known_dimensions() -> None:
    """Each value and input has a dimension that quantities know, or is a number, a nominal size or a text."""
    kinds = {*DIMENSIONS, "number", "nominal size", "text"}
    for name, calculation in CALCULATIONS.items():
        assert name == calculation.name
        assert {calculation.dimension, *(each.dimension for each in calculation.inputs)} <= kinds, name
        assert calculation.method, name
        assert calculation.source, name


def test_surface_temperature_explains_itself() -> None:
    """Given, assumed and worked-out inputs, steps, method and source stand beside the value."""
    found = work_out("surface temperature", CHILLED)
    inputs, steps = given_of(found), steps_of(found)
    assert inputs["conductivity"] == GivenInput("conductivity", "conductivity", 0.036, "given")
    assert inputs["wind speed"] == GivenInput("wind speed", "speed", 0.0, "assumed")
    assert inputs["jacket emittance"] == GivenInput("jacket emittance", "number", 0.1, "worked out")
    assert inputs["surface coefficient method"].value == "film correlations"
    assert steps["actual thickness"].value == pytest.approx((0.175 - 0.1143) / 2)
    assert "film correlations" in found.method
    assert "ASTM C680" in found.source
    outside = next(part for part in found.parts if part.name == "insulation outside diameter")
    assert outside.value == pytest.approx(0.175)
    assert outside.source == "2021 ASHRAE Handbook - Fundamentals (SI), chapter 23, Table 15"
    system = System("horizontal pipe", 278.15, 300.15, outside_diameter=0.1143, emittance=0.1)
    expected = solve(system.with_layer(Layer(0.03035, 0.036)))
    assert found.value == pytest.approx(float(expected.surface_temperature))
    assert steps["heat flow"].value == pytest.approx(-float(expected.heat_flow))


def test_a_bright_jacket_on_a_cold_line_is_the_fault() -> None:
    """At 27 °C and 80 % a 1 in. line stays dry with a dull jacket and sweats with a bright one, all else equal."""
    dew = work_out("dew point", CHILLED).value
    bright = work_out("surface temperature", CHILLED).value
    dull = work_out("surface temperature", {**CHILLED, "jacket": "mastic", "jacket surface": "plain"}).value
    assert dew is not None
    assert bright is not None
    assert dull is not None
    assert bright < dew < dull
    assert work_out("condensation thickness", CHILLED).value == pytest.approx(0.04236, abs=1e-5)


@pytest.mark.parametrize(
    ("lost", "value", "missing"),
    [
        ("pipe size", "surface temperature", ("pipe size",)),
        ("pipe material", "surface temperature", ("pipe material",)),
        ("thickness", "surface temperature", ("thickness",)),
        ("jacket", "surface temperature", ("jacket",)),
        ("operating temperature", "heat flow", ("operating temperature",)),
        ("ambient temperature", "dew point", ("ambient temperature",)),
        ("relative humidity", "condensation thickness", ("relative humidity",)),
    ],
)
def test_a_missing_input_is_named(lost: str, value: str, missing: tuple[str, ...]) -> None:
    """The working names the very input that would settle it, through any chain of calculations."""
    found = work_out(value, without(CHILLED, lost))
    assert (found.value, found.missing, found.cannot) == (None, missing, "")


def test_what_no_calculation_asks_for_is_passed_over() -> None:
    """A whole line may be handed in, with terms that are none of this floor's business."""
    line = {**CHILLED, "vapor stop locations": ("valves", "flanges", "fittings"), "mark": "CHWS-1"}
    assert work_out("surface temperature", line) == work_out("surface temperature", CHILLED)  # type: ignore[arg-type]


def test_what_is_not_needed_is_not_missed() -> None:
    """The surface temperature does not ask for humidity, nor the condensation thickness for a thickness."""
    assert work_out("surface temperature", without(CHILLED, "relative humidity")).value is not None
    assert work_out("condensation thickness", without(CHILLED, "thickness")).value is not None


def test_all_missing_inputs_are_named_at_once() -> None:
    """Two blanks are two names, each once."""
    found = work_out("condensation thickness", without(CHILLED, "relative humidity", "pipe size", "pipe material"))
    assert found.missing == ("relative humidity", "pipe size", "pipe material")


@pytest.mark.parametrize(
    ("value", "change", "cause"),
    [
        ("dew point", {"relative humidity": 1.4}, "relative humidity lies outside the range of the formula"),
        (
            "surface temperature",
            {"pipe size": 4.3},
            "pipe outside diameter: the dimension table does not have the pipe size",
        ),
        (
            "surface temperature",
            {"pipe material": "PVC"},
            "pipe outside diameter: no dimension table here covers the pipe material",
        ),
        (
            "surface temperature",
            {"surface coefficient method": "thumb"},
            "the surface coefficient method must be one of film correlations, simplified coefficients, "
            "convection formulas, ISO-12241-1998 formulas, ISO-12241-2008 formulas, fixed coefficient",
        ),
        (
            "surface temperature",
            {"jacket": "reinforced plastic"},
            "jacket emittance: the emittance table does not have this jacket and surface",
        ),
        (
            "surface temperature",
            {"surface coefficient method": "simplified coefficients", "coefficient finish": "non-metallic"},
            "the system lies outside the range of the simplified coefficients: "
            "pipe of 0.25 m and over or wall, still air indoors, at most 100 K of difference",
        ),
        (
            "condensation thickness",
            {"relative humidity": 1.0},
            "the limit lies at or beyond the air temperature, so no thickness can reach it",
        ),
        ("barometric pressure", {"altitude": 30000.0}, "altitude lies outside the range of the formula"),
    ],
)
def test_a_value_that_cannot_be_had_says_why(value: str, change: dict[str, float | str], cause: str) -> None:
    """A value outside a formula's range is a cause, not a number."""
    found = work_out(value, {**CHILLED, **change})
    assert (found.value, found.missing, found.cannot) == (None, (), cause)


def test_conductivity_of_the_standard_is_used_only_where_none_is_given() -> None:
    """Without a conductivity the limit for the grade stands in, and its source says so; with one it is left alone."""
    found = work_out("surface temperature", without(CHILLED, "conductivity"))
    part = next(each for each in found.parts if each.name == "conductivity")
    assert part.value == pytest.approx(0.038 + 0.002 * ((5 + 27) / 2 + 18) / 42)
    assert part.source == (
        "limit of ASTM C534 type I grade 1 (2021 ASHRAE Handbook - Fundamentals (SI), chapter 23, Table 8), "
        "as the schedule gives none"
    )
    assert all(each.name != "conductivity" for each in some(work_out("surface temperature", CHILLED).parts))
    other_type = work_out("conductivity", {**CHILLED, "standard type": "type-II"})
    assert other_type.cannot == "no published limit covers this insulation, type and grade"
    too_hot = work_out("conductivity", {**CHILLED, "operating temperature": 500.0})
    assert too_hot.cannot == "the mean temperature lies outside the published limits"


def test_both_methods_are_named_in_their_results() -> None:
    """The film correlations and the ISO 12241 coefficients differ, and each result names its own."""
    line = {**CHILLED, "pipe size": 12.0, "coefficient finish": "non-metallic"}
    film = work_out("surface temperature", line)
    iso = work_out("surface temperature", {**line, "surface coefficient method": "simplified coefficients"})
    assert film.method.startswith("film correlations: ")
    assert iso.method.startswith("ISO 12241 simplified coefficients: ")
    assert film.value != iso.value


def test_ducts_and_risers_are_worked_out() -> None:
    """A rectangular duct and a vertical pipe have a surface temperature; a riser without length asks for it."""
    duct = work_out("surface temperature", LINES["heating_water_duct"])
    assert duct.value is not None
    assert 293.15 < duct.value < 333.15
    riser = work_out("surface temperature", LINES["riser"])
    assert riser.value is not None
    assert work_out("surface temperature", without(LINES["riser"], "run length")).missing == ("run length",)
    assert work_out("surface temperature", without(LINES["heating_water_duct"], "duct height")).missing == (
        "duct height",
    )


def test_touch_and_heat_flow_thickness() -> None:
    """The thickness for 60 °C on a 200 °C pipe is the reference 17.94 mm; that for a heat flow meets it."""
    line = {
        "pipe outside diameter": 0.1143,
        "conductivity": 0.055,
        "operating temperature": 473.15,
        "ambient temperature": 300.15,
        "jacket emittance": 0.9,
        "surface temperature limit": 333.15,
        "heat flow limit": 150.0,
    }
    touch = work_out("touch thickness", line)
    assert touch.value == pytest.approx(0.01794, abs=1e-5)
    assert steps_of(touch)["next stocked thickness"].value == pytest.approx(0.01905)
    for stocked, enough in ((STOCKED_MILLIMETRES, 0.019), ((0.015, 0.022), 0.022)):
        assert steps_of(work_out("touch thickness", line, stocked=stocked))["next stocked thickness"].value == enough
    thick = work_out("heat flow thickness", line).value
    assert thick is not None
    assert work_out("heat flow", {**line, "thickness": thick}).value == pytest.approx(150.0)


def test_freezing_time_and_thickness() -> None:
    """NPS 4 under 25 mm cools from 5.5 to 0 °C in 2.4 h at -28 °C (ASHRAE chapter 23, Table 6), and back."""
    line = LINES["still_water"]
    time = work_out("freezing time", line)
    assert time.value == pytest.approx(2.4 * 3600, rel=0.02)
    needed = work_out("freezing thickness", {**line, "standstill time": time.value})
    assert needed.value == pytest.approx((0.168 - 0.1143) / 2)
    mild = work_out("freezing time", {**line, "ambient temperature": 280.0})
    assert mild.cannot == "the surrounding air is not below 0 °C, so the water does not freeze"


def test_required_thickness_takes_the_end_that_the_rule_names() -> None:
    """K 0.30 on NPS 1: 1.590 in. by the upper end, 2.079 by the lower; inside the range the table stands."""
    unit = 0.1442279
    line = {
        "pipe outside diameter": 1.315 * 0.0254,
        "table thickness": 1.5 * 0.0254,
        "conductivity": 0.30 * unit,
        "least table conductivity": 0.25 * unit,
        "greatest table conductivity": 0.29 * unit,
    }
    upper = work_out("required thickness", {**line, "conductivity range end": "upper"})
    lower = work_out("required thickness", {**line, "conductivity range end": "lower"})
    assert upper.value == pytest.approx(1.5902 * 0.0254, rel=1e-4)
    assert lower.value == pytest.approx(2.0788 * 0.0254, rel=1e-4)
    inside = work_out("required thickness", {**line, "conductivity": 0.27 * unit, "conductivity range end": "upper"})
    assert inside.value == pytest.approx(1.5 * 0.0254)
    assert inside.method == "the conductivity lies in the range of the table, whose thickness stands"
    assert work_out("required thickness", line).missing == ("conductivity range end",)


def test_equivalent_thickness_and_permeance() -> None:
    """NPS 1 under 25 mm rigid has 43.6 mm equivalent (ASHRAE chapter 23); permeances add up in series."""
    line = {"pipe size": 1.0, "pipe material": "steel", "insulation": "fiberglass", "thickness": 0.0254}
    assert work_out("equivalent thickness", line).value == pytest.approx(0.0436, abs=5e-5)
    layers = {"permeability": 1.453e-13, "thickness": 0.0254, "retarder permeance": 1.144e-12}
    total = work_out("total permeance", layers).value
    assert total == pytest.approx(1 / (0.0254 / 1.453e-13 + 1 / 1.144e-12))
    assert work_out("total permeance", {}).missing == ("permeability", "thickness")


def test_spacing_from_a_count_says_where_the_ends_were_taken() -> None:
    """Four vapor stops in 12 m, one at each end, are 4 m apart; the ends are assumed and said to be."""
    found = work_out("implied vapor stop spacing", {"run length": 12.0, "vapor stop count": 4.0})
    assert found.value == 4.0
    assert given_of(found)["ends"] == GivenInput("ends", "text", "at both ends", "assumed")
    between = work_out(
        "implied fastener spacing", {"section length": 0.9, "fastener count": 2.0, "ends": "between the ends"}
    )
    assert between.value == pytest.approx(0.3)


def test_many_lines_are_worked_out_at_once_and_each_is_explained() -> None:
    """A column of lines gives what each line alone gives, values, missing inputs and causes alike."""
    columns = {
        **CHILLED,
        "pipe size": np.array([1.0, 4.0, np.nan, 4.3, 12.0]),
        "jacket": np.array(["mastic", "", "mastic", "mastic", "PVC"]),
        "jacket surface": "plain",
    }
    found = work_out_lines("condensation thickness", columns)
    for row in range(5):
        line = {name: value[row] if isinstance(value, np.ndarray) else value for name, value in columns.items()}
        alone = work_out("condensation thickness", line)
        working = found.working(row)
        assert (working.missing, working.cannot) == (alone.missing, alone.cannot)
        assert working.value == (None if alone.value is None else pytest.approx(alone.value, rel=1e-9))
    assert [found.working(row).value is None for row in range(5)] == [False, True, True, True, False]


def test_altitude_lowers_the_wet_bulb_and_the_pressure() -> None:
    """The barometric pressure is that of the altitude unless given (Denver, 1609 m: 83.4 kPa, ASHRAE chapter 1)."""
    line = {"ambient temperature": 303.15, "relative humidity": 0.5, "altitude": 1609.0}
    found = work_out("wet bulb", line)
    assert given_of(found)["barometric pressure"].value == pytest.approx(83.4e3, rel=2e-3)
    assert found.value == pytest.approx(float(psychrometrics.wet_bulb(303.15, 0.5, 83.436e3)), abs=0.01)
    assert work_out("humidity ratio", line).value is not None
    assert work_out("saturation pressure", line).value == pytest.approx(4246.0, rel=1e-3)


@pytest.mark.parametrize(
    ("component", "named"),
    [("tank", "tank diameter"), ("equipment", "tank diameter"), ("duct", "duct width"), ("pipe", "pipe size")],
)
def test_what_has_no_dimensions_is_asked_for_those_of_its_own_kind(component: str, named: str) -> None:
    """A tank is not asked for a pipe size, nor a duct for a pipe material: each for what describes its shape."""
    shapeless = without(CHILLED, "pipe outside diameter", "pipe size", "insulation outside diameter")
    found = work_out("surface temperature", {**shapeless, "component": component, "thickness": 0.025})
    assert found.missing[0] == named
