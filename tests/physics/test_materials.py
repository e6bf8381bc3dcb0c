"""Material limits, emittance and vapor against the printed tables."""

from __future__ import annotations

import numpy as np
import pytest

from speccheck.physics import vapor
from speccheck.physics.materials import emittances, limit_conductivity, material, materials
from speccheck.physics.published import table
from tests.physics import published_comparisons as comparisons
from tests.some import some

ZERO = 273.15


@pytest.mark.parametrize(
    ("name", "celsius", "expected"),
    [
        ("calcium silicate", 93, 0.065),
        ("calcium silicate", 316, 0.095),
        ("flexible elastomeric", -18, 0.038),
        ("flexible elastomeric", 24, 0.040),
        ("mineral fiber", -4, 0.034),
        ("mineral fiber", 204, 0.061),
        ("mineral fiber", 316, 0.091),
        ("cellular glass", -18, 0.039),
        ("cellular glass", 204, 0.084),
        ("extruded polystyrene", -4, 0.034),
        ("extruded polystyrene", 24, 0.037),
        ("polyisocyanurate", 93, 0.035),
        ("phenolic", 24, 0.02),
        ("polyolefin", 24, 0.050),
    ],
)
def test_limit_conductivity_is_the_printed_one(name: str, celsius: float, expected: float) -> None:
    """At each printed mean temperature the limit is that of the standard (ASHRAE chapter 23, Table 8)."""
    assert float(limit_conductivity(name, celsius + ZERO)) == pytest.approx(expected)


def test_inch_pound_and_metric_conductivities_agree() -> None:
    """Both printed columns are one value: within the rounding of either (ASHRAE chapter 23, Table 8)."""
    printed = table("material_conductivity")
    metric, inch = (
        printed.column("conductivity_W_per_m_K"),
        printed.column("conductivity_Btu_in_per_h_ft2_F") * 0.1442279,
    )
    assert len(metric) == 25
    assert np.all(np.abs(metric - inch) <= 0.0008 + 0.005)
    assert np.all(np.abs(metric - inch) / metric <= 0.03)


def test_conductivity_between_and_beyond_the_printed_temperatures() -> None:
    """Half way is half way; half a kelvin beyond the end counts as the end (400 °F is printed 204 °C); more is NaN."""
    assert float(limit_conductivity("mineral fiber", (24 + 93) / 2 + ZERO)) == pytest.approx(0.039)
    assert float(limit_conductivity("cellular glass", (400 + 459.67) / 1.8)) == pytest.approx(0.084)
    assert np.isnan(limit_conductivity("cellular glass", [210 + ZERO, -30 + ZERO])).all()
    assert np.isnan(limit_conductivity("straw", 300.0))


def test_limits_of_material_standards() -> None:
    """Temperatures, strength, permeability, water absorption and fire indexes of Table 8 of ASHRAE chapter 23."""
    silicate, elastomeric = materials()["calcium silicate"], materials()["flexible elastomeric"]
    assert (silicate.standard, silicate.grade) == ("ASTM C533", "I")
    assert silicate.greatest_temperature - ZERO == pytest.approx(649)
    assert silicate.compressive_strength == pytest.approx(688e3)
    assert np.isnan(silicate.permeability)
    assert elastomeric.least_temperature - ZERO == pytest.approx(-57)
    assert elastomeric.permeability / vapor.PERM_INCH == pytest.approx(0.10, rel=0.04)
    assert (elastomeric.flame_spread, elastomeric.smoke_developed) == (25, 50)
    assert materials()["phenolic"].water_absorption_percent == pytest.approx(0.43)
    assert material("straw") is None
    assert len(materials()) == 8


def test_a_doubted_value_says_so() -> None:
    """The printed strength of cellular glass looks like a slip, and the table carries the doubt."""
    assert "doubted" in materials()["cellular glass"].doubt


def test_emittances_of_the_handbook() -> None:
    """Single values and ranges of ASHRAE chapter 23, Table 12; a surface that is not there gives none."""
    table = emittances()
    oxidized, canvas = table["oxidized aluminum"], table["canvas"]
    assert (oxidized.least, oxidized.greatest) == (0.1, 0.2)
    assert (canvas.least, canvas.greatest) == (0.7, 0.9)
    assert table["stainless steel, in service"].least == 0.32
    assert "velvet" not in table
    assert len(table) == 23
    assert all(0 < each.least <= each.greatest < 1 for each in some(table.values()))


def test_permeance_from_permeability_and_in_series() -> None:
    """0.10 perm in. at 1 in. is 0.1 perm (unit definitions), and layers in series add their resistances."""
    inch = 0.0254
    layer = float(vapor.layer_permeance(0.10 * vapor.PERM_INCH, inch))
    assert layer / vapor.PERM == pytest.approx(0.1, rel=1e-3)
    both = float(vapor.permeance_in_series(layer, 0.02 * vapor.PERM))
    assert both / vapor.PERM == pytest.approx(1 / (1 / 0.1 + 1 / 0.02), rel=1e-3)
    assert float(vapor.permeance_in_series(layer, 0.0)) == 0
    assert np.isnan(vapor.layer_permeance(1e-12, 0.0))


def test_units_of_permeance() -> None:
    """0.010 g/(s MN) is 10 ng/(s m² Pa), 0.17 perm; 0.02 perm is 1.15 ng/(s m² Pa) (ASHRAE chapter 23)."""
    assert pytest.approx(0.17, abs=0.006) == 10 * vapor.NANOGRAM / vapor.PERM
    assert pytest.approx(1.15, abs=0.01) == 0.02 * vapor.PERM / vapor.NANOGRAM


def test_round_layer_is_tighter_than_its_thickness_alone() -> None:
    """By outside area a round layer has the permeance of its equivalent thickness, and tends to the flat one."""
    wide = float(vapor.pipe_layer_permeance(1e-12, 100.0, 100.05))
    assert wide == pytest.approx(float(vapor.layer_permeance(1e-12, 0.025)), rel=1e-3)
    assert float(vapor.pipe_layer_permeance(1e-12, 0.0334, 0.089)) == pytest.approx(1e-12 / 0.0436, rel=1e-3)
    assert float(vapor.vapor_flux(2e-12, 3000.0, 1000.0)) == pytest.approx(4e-9)


def test_spacing_that_a_count_implies() -> None:
    """3 in 12 m: 3, 4 or 6 m by where they stand; the least count for a spacing gives that spacing back."""
    assert float(vapor.implied_spacing(12, 3, "between the ends")) == 3
    assert float(vapor.implied_spacing(12, 3, "at one end")) == 4
    assert float(vapor.implied_spacing(12, 3, "at both ends")) == 6
    assert np.isnan(vapor.implied_spacing(12, 1, "at both ends"))
    assert vapor.least_count([12, 12.1, 3], 4, "at both ends").tolist() == [4, 5, 2]
    assert vapor.least_count([12, 3], 4, "between the ends").tolist() == [2, 0]
    assert np.isnan(vapor.least_count(12, 0, "at one end"))


def test_comparison_values_are_the_printed_ones() -> None:
    """ASHRAE RP-1356 cells (chapter 23, Table 9) and permeances (chapter 26, Tables 5 and 6), ranges included."""
    systems = {
        (each.material, round(each.wall * 1e3, 1), round(each.mean_temperature - ZERO, 1)): each.conductivity
        for each in comparisons.measured_systems()
    }
    assert len(systems) == 14
    assert systems["cellular glass", 50.8, 12.8] == 0.0399
    assert systems["phenolic", 25.4, 24.0] == 0.0344
    films = {(each.material, round(each.thickness * 1e3, 3)): each for each in comparisons.measured_permeances()}
    assert films["polyethylene", 0.15].least / vapor.NANOGRAM == pytest.approx(3.4)
    assert films["polyisocyanurate", 25.0].greatest / vapor.NANOGRAM == pytest.approx(180)
    assert films["aluminum foil", 0.025].greatest == 0
