"""The whole chain against solutions that share no code with it: CoolProp air, ht correlations, scipy solvers."""

from __future__ import annotations

from math import log, pi

import ht
import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from scipy.integrate import solve_ivp
from scipy.interpolate import CubicSpline
from scipy.optimize import brentq

from speccheck.physics.heat_flow import HeatFlow, solve
from speccheck.physics.materials import ConductivityPolynomial
from speccheck.physics.systems import Layer, System
from speccheck.physics.working import Cause

COUNT = 10_000
WITHIN = 1e-3

# CoolProp takes tenths of a millisecond a call; a spline through its own values every 2 K is exact to 1e-7.
KELVINS = np.arange(200.0, 702.0, 2.0)
AIR = [CubicSpline(KELVINS, [PropsSI(name, "T", t, "P", 101325, "Air") for t in KELVINS]) for name in "DVLC"]


def air_at(kelvins: np.ndarray | float) -> tuple[np.ndarray, ...]:
    """Return conductivity, kinematic viscosity and Prandtl number of CoolProp's air."""
    rho, mu, k, cp = (spline(kelvins) for spline in AIR)
    return k, mu / rho, mu * cp / k


def random_systems(count: int, windy: bool) -> System:
    """Draw systems as the trade has them: -40 to 500 °C inside, ½ to 36 in., 6 to 150 mm."""
    generator = np.random.default_rng(20260304)

    def draw(low: float, high: float) -> np.ndarray:
        return generator.uniform(low, high, count)

    return System(
        "horizontal pipe",
        draw(233, 773),
        draw(263, 313),
        (Layer(draw(0.006, 0.15), draw(0.018, 0.1)),),
        outside_diameter=np.exp(draw(np.log(0.0213), np.log(0.914))),
        emittance=draw(0.04, 0.95),
        wind_speed=draw(0.2, 12.0) if windy else 0.0,
    )


def flow_from_surface(surface: np.ndarray, air: np.ndarray, diameter: np.ndarray, emittance: np.ndarray) -> np.ndarray:
    """Return W/m from a horizontal cylinder by Churchill and Chu and radiation, over CoolProp's air."""
    film = (surface + air) / 2
    k, nu, prandtl = air_at(film)
    rayleigh = 9.80665 / film * np.abs(surface - air) * diameter**3 / nu**2 * prandtl
    nusselt = (0.6 + 0.387 * rayleigh ** (1 / 6) / (1 + (0.559 / prandtl) ** 0.5625) ** (8 / 27)) ** 2
    radiation = emittance * 5.670374419e-8 * (surface**4 - air**4)
    return pi * diameter * (nusselt * k / diameter * (surface - air) + radiation)


def assert_agrees(found: HeatFlow, surface: np.ndarray, flow: np.ndarray, air: np.ndarray) -> None:
    """Assert heat flow, and the surface's difference to the air, within 0.1 %."""
    assert np.all(found.cause == Cause.NONE)
    assert np.max(np.abs(found.heat_flow / flow - 1)) < WITHIN
    assert np.max(np.abs((found.surface_temperature - air) / (surface - air) - 1)) < WITHIN


def test_ten_thousand_systems_agree_with_bisection_over_coolprop() -> None:
    """10,000 random pipes in still air agree within 0.1 % with plain bisection over CoolProp's air."""
    system = random_systems(COUNT, windy=False)
    inside, air = np.asarray(system.inside_temperature), np.asarray(system.air_temperature)
    bare, emittance = np.asarray(system.outside_diameter), np.asarray(system.emittance)
    diameter = bare + 2 * np.asarray(system.layers[0].thickness)
    resistance = np.log(diameter / bare) / (2 * pi * np.asarray(system.layers[0].conductivity))
    low, high = np.minimum(inside, air), np.maximum(inside, air)
    for _ in range(60):
        middle = (low + high) / 2
        leaves_too_little = flow_from_surface(middle, air, diameter, emittance) < (inside - middle) / resistance
        low, high = np.where(leaves_too_little, middle, low), np.where(leaves_too_little, high, middle)
    surface = (low + high) / 2
    assert_agrees(solve(system), surface, flow_from_surface(surface, air, diameter, emittance), air)


@pytest.mark.parametrize("windy", [False, True])
def test_three_hundred_systems_agree_with_brentq_ht_and_coolprop(windy: bool) -> None:
    """300 pipes each in still air and in wind agree within 0.1 % with scipy brentq over ht's correlations."""
    count = 300
    system = random_systems(count, windy)
    inside, ambient = np.asarray(system.inside_temperature), np.asarray(system.air_temperature)
    winds = np.broadcast_to(np.asarray(system.wind_speed), (count,))
    surface, flow = np.empty(count), np.empty(count)
    for i in range(count):
        bare, emittance = float(np.asarray(system.outside_diameter)[i]), float(np.asarray(system.emittance)[i])
        diameter = bare + 2 * float(np.asarray(system.layers[0].thickness)[i])
        resistance = log(diameter / bare) / (2 * pi * float(np.asarray(system.layers[0].conductivity)[i]))

        def leaves(t: float, i: int = i, diameter: float = diameter, emittance: float = emittance) -> float:
            k, nu, prandtl = (float(value) for value in air_at((t + ambient[i]) / 2))
            grashof = 9.80665 / ((t + ambient[i]) / 2) * abs(t - ambient[i]) * diameter**3 / nu**2
            nusselt = ht.Nu_horizontal_cylinder_Churchill_Chu(prandtl, grashof)
            if windy:
                forced = ht.Nu_cylinder_Churchill_Bernstein(winds[i] * diameter / nu, prandtl)
                nusselt = (nusselt**4 + forced**4) ** 0.25
            radiation = emittance * 5.670374419e-8 * (t**4 - ambient[i] ** 4)
            return float(pi * diameter * (nusselt * k / diameter * (t - ambient[i]) + radiation))

        surface[i] = brentq(
            lambda t, i=i, resistance=resistance, leaves=leaves: leaves(t) - (inside[i] - t) / resistance,
            min(inside[i], ambient[i]),
            max(inside[i], ambient[i]),
            xtol=1e-10,
        )
        flow[i] = leaves(surface[i])
    assert_agrees(solve(system), surface, flow, ambient)


def test_varying_conductivity_agrees_with_conduction_integrated_through_the_layer() -> None:
    """dT/dr = -q/(2πrk(T)) integrated by solve_ivp through 40 layers gives the surface temperature found, to 0.1 %."""
    generator = np.random.default_rng(7)
    curve = ConductivityPolynomial((0.034, 1.2e-4))
    for _ in range(40):
        inside, air = generator.uniform(320, 700), generator.uniform(270, 305)
        bare, thick = generator.uniform(0.02, 0.4), generator.uniform(0.02, 0.12)
        system = System("horizontal pipe", inside, air, (Layer(thick, curve),), outside_diameter=bare, emittance=0.5)
        found = solve(system)
        flow = float(found.heat_flow)
        through = solve_ivp(
            lambda r, t, flow=flow: -flow / (2 * pi * r * (0.034 + 1.2e-4 * (t - 273.15))),
            (bare / 2, bare / 2 + thick),
            [inside],
            rtol=1e-9,
            atol=1e-9,
        )
        surface = float(through.y[0, -1])
        assert (surface - air) / (float(found.surface_temperature) - air) == pytest.approx(1, abs=WITHIN)
        leaves = flow_from_surface(np.array([surface]), np.array([air]), np.array([bare + 2 * thick]), np.array([0.5]))
        assert float(leaves[0]) == pytest.approx(flow, rel=WITHIN)
