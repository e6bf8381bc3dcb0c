"""Linear thermal transmittance against values worked by hand, in both systems, and where it cannot be worked out."""

from __future__ import annotations

from math import log, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.physics.calculations.all import work_out
from tests.physics.published_cases import cases
from tests.rulesets.proposing import cell

ZERO = 273.15


def line_of(d: float, s: float, k: float, h: float, fluid: float, air: float) -> dict[str, float | str | None]:
    """Return a line, in SI units: diameters and thickness in m, temperatures in K."""
    return {
        "pipe outside diameter": d,
        "thickness": s,
        "insulation": "mineral wool",
        "conductivity": k,
        "surface coefficient method": "fixed coefficient",
        "fixed surface coefficient": h,
        "operating temperature": fluid,
        "ambient temperature": air,
    }


@pytest.mark.parametrize("row", cases("linear_transmittance"), ids=lambda row: f"{row['d']} with {row['s']}")
def test_the_transmittance_is_the_hand_worked_one(row: dict[str, str]) -> None:
    """Hot and cold lines, by a fixed coefficient of the outer surface: to the digits that stand in the file."""
    of = {name: float(value) for name, value in row.items()}
    line = line_of(of["d"] / 1e3, of["s"] / 1e3, of["k"], of["h"], of["fluid"] + ZERO, of["air"] + ZERO)
    assert work_out("linear thermal transmittance", line).value == pytest.approx(of["transmittance"], abs=6e-7)


@given(st.floats(0.01, 0.4), st.floats(0.005, 0.2), st.floats(0.02, 0.1), st.floats(4.0, 25.0), st.floats(253.0, 600.0))
def test_the_transmittance_depends_on_no_temperature(d: float, s: float, k: float, h: float, fluid: float) -> None:
    """With fixed conductivity and coefficient it is the formula's whatever the fluid, hot or cold."""
    air = 293.15 if abs(fluid - 293.15) > 1 else 283.15
    outside = d + 2 * s
    expected = pi / (log(outside / d) / (2 * k) + 1 / (h * outside))
    found = work_out("linear thermal transmittance", line_of(d, s, k, h, fluid, air)).value
    assert found == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize(
    ("change", "because"),
    [
        ({"location": "buried"}, "a buried line gives its heat to the ground; state what the manufacturer declares"),
        ({"ambient temperature": 343.15}, "no heat flows where fluid and air are as warm as each other"),
    ],
)
def test_where_it_cannot_be_worked_out_it_says_why(change: dict[str, float | str | None], because: str) -> None:
    """In the ground, and where fluid and air are of one temperature."""
    line = {**line_of(0.0603, 0.05, 0.04, 10.0, 343.15, 293.15), **change}
    found = work_out("linear thermal transmittance", line)
    assert found.value is None
    assert found.cannot == because


HAND_60_3 = {
    "service": "heating hot water",
    "outside heated volume": "yes",
    "pipe outside diameter": "60.3 mm",
    "insulation": "mineral wool",
    "conductivity": "0.040 W/(m.K)",
    "surface coefficient method": "fixed coefficient",
    "fixed surface coefficient": "10 W/(m2.K)",
    "operating temperature": "70 C",
    "ambient temperature": "20 C",
}


@pytest.mark.parametrize(
    ("thickness", "expected"),
    [("50 mm", "complies"), ("1.9685 in", "complies"), ("46 mm", "does not comply"), ("1.81 in", "does not comply")],
)
def test_a_line_is_judged_by_the_worked_out_value(thickness: str, expected: str) -> None:
    """By hand: 50 mm on 60.3 mm has 0.2446 W/(m.K), under the French limit of 0.2505; 46 mm has 0.2567."""
    found = cell("energy/france-2027", "FR-1.1", {**HAND_60_3, "thickness": thickness})
    assert str(found.verdict) == expected, found.reason
