"""Bare surfaces within reach: how far they are from what they carry, and what the clause on them makes of it.

The temperature of a bare pipe is worked out with libraries: film inside by Dittus and Boelter (`ht`), properties of
water from CoolProp, wall of carbon steel of 50 W/(m.K) (from memory), 12 W/(m2.K) outside, which is 2.1
Btu/(h.ft2.F), right for dull metal in still air (common practice, no source).
"""

from __future__ import annotations

import math

import pytest
from CoolProp.CoolProp import PropsSI
from ht import turbulent_Dittus_Boelter

from speccheck.judge import Verdict
from tests.rulesets.proposing import verdict

STEEL, OUTSIDE, AIR = 50.0, 12.0, 27.0
PRESSURE = 20e5
VELOCITY = 0.3048
# Inside and outside diameter in m of 1/2, 2 and 12 in pipe of schedule 40 (ASME B36.10M, from memory).
PIPES = [(0.0158, 0.0213), (0.0525, 0.0603), (0.3032, 0.3239)]


def drop(celsius: float, inside: float, outside: float) -> float:
    """Return how much colder than its water the surface of a bare steel pipe is, in K."""
    density, viscosity, conductivity, prandtl = (
        PropsSI(name, "T", celsius + 273.15, "P", PRESSURE, "Water") for name in ("D", "V", "L", "PRANDTL")
    )
    reynolds = density * VELOCITY * inside / viscosity
    film = turbulent_Dittus_Boelter(reynolds, prandtl, heating=False) * conductivity / inside
    lost = OUTSIDE * (celsius - AIR) * math.pi * outside
    return float(lost * (1 / (film * math.pi * inside) + math.log(outside / inside) / (2 * math.pi * STEEL)))


@pytest.mark.parametrize(("inside", "outside"), PIPES)
def test_bare_steel_is_as_hot_as_its_water_but_for_a_few_degrees(inside: float, outside: float) -> None:
    """Less than 2 F colder at 140 F and less than 4 F at 350 F, as the note of the clause says."""
    assert drop(60.0, inside, outside) * 1.8 < 2.0
    assert drop((350 - 32) / 1.8, inside, outside) * 1.8 < 4.0


@pytest.mark.parametrize(
    ("stated", "expected"),
    [
        ({"operating temperature": "250 F"}, Verdict.FAILS),
        ({"operating temperature": "141 F"}, Verdict.FAILS),
        ({"operating temperature": "140 F"}, Verdict.NOT_APPLICABLE),
        ({"operating temperature": "250 F", "surface temperature": "139 F"}, Verdict.FAILS),
        ({"operating temperature": "250 F", "surface temperature": "245 F"}, Verdict.FAILS),
        ({"operating temperature": "250 F", "component": "tank"}, Verdict.FAILS),
    ],
)
def test_bare_surface_is_judged_without_conductivity_or_size(stated: dict[str, str], expected: Verdict) -> None:
    """What nothing covers needs no data of insulation, and is as hot as what it carries whatever is stated of it."""
    line = {"within reach": "yes", "insulation": "none", **stated}
    assert verdict("safety", "1.1", line) is expected


def test_insulated_surface_still_needs_what_it_is_worked_out_from() -> None:
    """An insulated valve of 250 F whose data are missing is not read as bare."""
    line = {"within reach": "yes", "insulation": "mineral wool", "operating temperature": "250 F"}
    assert verdict("safety", "1.1", line) is Verdict.CANNOT_TELL
