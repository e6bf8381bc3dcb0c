"""Condensation: minimum thicknesses found apart from the program are just enough by its clauses, a hair less is not.

Dew points by psychrolib (ASHRAE Handbook - Fundamentals, chapter 1), the horizontal cylinder by Churchill and Chu from
`ht`, air by CoolProp, roots by scipy. The tank is Table 4 of ASHRAE Handbook - Fundamentals 2021, chapter 23 (seen),
the rectangular duct has the mean perimeter of ISO 12241 as the UK Home Energy Model's tests have it (seen).
"""

from __future__ import annotations

from collections.abc import Callable
from math import log, pi

import psychrolib
import pytest
from scipy.optimize import brentq

from speccheck.judge import Verdict
from tests.demo.heat_transfer import dew_point, pipe_surface
from tests.rulesets.proposing import verdict

HAIR = 0.002
COEFFICIENT = 1.2
"""Btu/(h.ft2.F), as in Table 4."""


def least(surface: Callable[[float], float], dew: float, thickest: float) -> float:
    """Return the thickness at which a surface is at the dew point, in the unit of the function."""
    return float(brentq(lambda thickness: surface(thickness) - dew, 1e-6, thickest, xtol=1e-12))


@pytest.mark.parametrize("emittance", [0.1, 0.9])
@pytest.mark.parametrize(("air", "humidity"), [(27.0, 0.80), (27.0, 0.90), (30.0, 0.85), (24.0, 0.50)])
@pytest.mark.parametrize(("diameter", "inside"), [(0.0213, 5.0), (0.1143, 5.0), (0.1143, -29.0), (0.3238, 2.0)])
def test_pipe_needs_just_the_thickness_that_an_independent_solution_finds(
    diameter: float, inside: float, air: float, humidity: float, emittance: float
) -> None:
    """A pipe complies with 0.2 % more than the minimum thickness, and with 0.2 % less it does not."""

    def surface(thickness: float) -> float:
        return pipe_surface(diameter, diameter + 2 * thickness, 0.036, inside, air, emittance)

    needed = least(surface, dew_point(air, humidity), 0.5)
    for share, expected in ((1 + HAIR, Verdict.COMPLIES), (1 - HAIR, Verdict.FAILS)):
        stated = {
            "component": "pipe",
            "pipe outside diameter": f"{diameter * 1000:.1f} mm",
            "operating temperature": f"{inside} C",
            "ambient temperature": f"{air} C",
            "relative humidity": f"{humidity:.0%}",
            "insulation": "elastomeric foam",
            "thickness": f"{needed * share * 1000:.6f} mm",
            "conductivity": "0.036 W/(m.K)",
            "jacket emittance": f"{emittance}",
        }
        assert verdict("condensation", "1.1", stated) is expected


@pytest.mark.parametrize(
    ("diameter", "air", "humidity", "emittance", "printed"),
    [
        (114.3, 27, 80, 0.9, 18.85),
        (114.3, 27, 90, 0.9, 41.64),
        (114.3, 30, 85, 0.9, 29.17),
        (114.3, 27, 80, 0.1, 42.36),
    ],
)
def test_independent_solution_is_that_of_the_libraries(
    diameter: float, air: float, humidity: float, emittance: float, printed: float
) -> None:
    """It gives the minimum thicknesses (mm) computed once with `ht` 1.2.0, CoolProp 8 and psychrolib 2.5."""

    def surface(thickness: float) -> float:
        return pipe_surface(diameter / 1000, diameter / 1000 + 2 * thickness, 0.036, 5.0, air, emittance)

    assert least(surface, dew_point(air, humidity / 100), 0.5) * 1000 == pytest.approx(printed, abs=0.02)


def rectangular(thickness: float) -> float:
    """Return the surface (F) of a 24 in by 12 in duct at 55 F in 80 F air, by the mean perimeter of ISO 12241."""
    perimeter, outside = 6.0, 6.0 + 8 * thickness / 12
    insulation = 2 * thickness / (0.27 * (perimeter + outside))
    film = 1 / (COEFFICIENT * outside)
    return 80 - 25 * film / (film + insulation)


def cylinder(diameter: float, conductivity: float, inside: float) -> Callable[[float], float]:
    """Return the surface (F) by thickness (in) of a cylinder (in) in 80 F air with a fixed coefficient."""

    def surface(thickness: float) -> float:
        outside = diameter + 2 * thickness
        insulation = log(outside / diameter) / (2 * pi * conductivity / 12)
        film = 1 / (COEFFICIENT * pi * outside / 12)
        return 80 - (80 - inside) * film / (film + insulation)

    return surface


AIR = {
    "ambient temperature": "80 F",
    "surface coefficient method": "fixed coefficient",
    "fixed surface coefficient": f"{COEFFICIENT} Btu/(h.ft2.F)",
}
SUPPLY = {"component": "duct", "operating temperature": "55 F", "conductivity": "0.27 Btu.in/(h.ft2.F)"}
COLD_TANK = {"component": "tank", "operating temperature": "40 F", "conductivity": "0.30 Btu.in/(h.ft2.F)"}


@pytest.mark.parametrize(
    ("clause", "line", "surface", "humidity"),
    [
        ("1.2", {**SUPPLY, "duct width": "24 in", "duct height": "12 in"}, rectangular, 80),
        ("1.2", {**SUPPLY, "duct diameter": "12 in"}, cylinder(12, 0.27, 55), 80),
        ("1.3", {**COLD_TANK, "tank diameter": "10 ft"}, cylinder(120, 0.30, 40), 70),
        ("1.3", {**COLD_TANK, "tank diameter": "10 ft"}, cylinder(120, 0.30, 40), 90),
    ],
)
def test_duct_and_tank_need_just_the_thickness_of_the_closed_formula(
    clause: str, line: dict[str, str], surface: Callable[[float], float], humidity: int
) -> None:
    """With a fixed coefficient the surface has a closed formula, and the clauses turn over where it meets the dew."""
    psychrolib.SetUnitSystem(psychrolib.IP)
    dew = psychrolib.GetTDewPointFromRelHum(80.0, humidity / 100)
    needed = least(surface, dew, 20.0)
    for share, expected in ((1 + HAIR, Verdict.COMPLIES), (1 - HAIR, Verdict.FAILS)):
        stated = {**AIR, **line, "relative humidity": f"{humidity} %", "insulation": "fiberglass"}
        stated["thickness"] = f"{needed * share:.6f} in"
        assert verdict("condensation", clause, stated) is expected


@pytest.mark.parametrize(
    ("humidity", "printed", "less"), [(50, "0.3 in", "0.2 in"), (70, "0.7 in", "0.6 in"), (90, "2.9 in", "2.7 in")]
)
def test_tank_stays_dry_with_the_thickness_of_the_printed_table(humidity: int, printed: str, less: str) -> None:
    """Table 4: rounded up to 0.1 in the printed thickness is enough, and what lies below the exact value is not."""
    line = {**AIR, **COLD_TANK, "tank diameter": "10 ft", "relative humidity": f"{humidity} %"}
    assert verdict("condensation", "1.3", {**line, "thickness": printed}) is Verdict.COMPLIES
    assert verdict("condensation", "1.3", {**line, "thickness": less}) is Verdict.FAILS
