"""What must hold of every system, whatever its numbers."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.physics import thickness
from speccheck.physics.equivalent_thickness import equivalent_thickness
from speccheck.physics.heat_flow import RESIDUAL, solve
from speccheck.physics.systems import Layer, System, critical_radius
from speccheck.physics.working import Cause
from tests.strategies.systems import COUNT, insulated_pipes


def thicker(system: System, factor: float) -> System:
    """Return the systems with every layer thicker by a factor."""
    made = tuple(Layer(np.asarray(layer.thickness) * factor, layer.conductivity) for layer in system.layers)
    return replace(system, layers=made)


@given(insulated_pipes())
@settings(max_examples=40, deadline=None)
def test_surface_temperature_lies_between_inside_and_air(system: System) -> None:
    """The surface is never warmer than the warmer nor colder than the colder of the two, and the balance closes."""
    found = solve(system)
    inside, air = np.asarray(system.inside_temperature), np.asarray(system.air_temperature)
    assert np.all(found.cause == Cause.NONE)
    assert np.all(found.surface_temperature >= np.minimum(inside, air))
    assert np.all(found.surface_temperature <= np.maximum(inside, air))
    assert np.all(np.abs(found.residual) <= RESIDUAL * np.abs(inside - air) + 1e-10)
    through = (inside - found.surface_temperature) / found.resistance
    assert np.allclose(through, found.heat_flow, rtol=1e-6)
    assert np.all(np.sign(found.heat_flow) == np.sign(inside - air))


@given(insulated_pipes(), st.floats(1.01, 3))
@settings(max_examples=30, deadline=None)
def test_heat_flow_falls_with_thickness_past_the_critical_radius(system: System, factor: float) -> None:
    """Where the outside is past the critical radius k/h, more thickness lets less heat through."""
    before, after = solve(system), solve(thicker(system, factor))
    coefficient = before.convective + before.radiative
    # The coefficient falls as the pipe grows, by less than the square root of its diameter, so k/h is doubled here.
    past = before.area / (2 * np.pi) > 2 * critical_radius(np.asarray(system.layers[0].conductivity), coefficient)
    assert np.all(np.abs(after.heat_flow[past]) < np.abs(before.heat_flow[past]))
    assert np.any(past)


@given(st.floats(0.02, 0.5), st.floats(3, 20))
@settings(deadline=None)
def test_critical_radius_is_where_heat_flow_is_greatest(conductivity: float, coefficient: float) -> None:
    """With a constant coefficient the greatest loss is at r = k/h (Incropera et al., example 3.5)."""
    radius = float(critical_radius(conductivity, coefficient))
    outside = radius * np.array([0.9, 0.99, 1.0, 1.01, 1.1])
    bare = radius / 3
    system = System(
        "horizontal pipe",
        350.0,
        300.0,
        (Layer(outside - bare, conductivity),),
        outside_diameter=2 * bare,
        coefficient=coefficient,
    )
    assert int(np.argmax(solve(system, "fixed coefficient").heat_flow)) == 2


@given(insulated_pipes(hot=False), st.floats(0.3, 0.95))
@settings(max_examples=15, deadline=None)
def test_least_thickness_put_back_in_gives_the_limit(system: System, share: float) -> None:
    """At the minimum thickness against condensation the surface is at the dew point."""
    bare = replace(system, layers=())
    inside, air = np.asarray(system.inside_temperature), np.asarray(system.air_temperature)
    dew = inside + share * (air - inside)
    found = thickness.least_thickness_against_condensation(bare, dew, system.layers[0].conductivity)
    known = np.isfinite(found.exact)
    again = solve(bare.with_layer(Layer(found.exact, system.layers[0].conductivity)))
    assert np.allclose(again.surface_temperature[known], dew[known], rtol=0, atol=1e-7)
    assert np.mean(known) > 0.5


@given(insulated_pipes(hot=True), st.floats(0.05, 0.9))
@settings(max_examples=15, deadline=None)
def test_heat_flow_thickness_put_back_in_gives_the_limit(system: System, share: float) -> None:
    """At the minimum thickness for a heat flow the flow is the limit, or bare is enough already."""
    bare = replace(system, layers=())
    limit = share * np.abs(solve(bare).heat_flow)
    found = thickness.least_thickness_for_heat_flow(bare, limit, system.layers[0].conductivity)
    needed = np.isfinite(found.exact) & (found.exact > 0)
    assert np.allclose(found.solved.heat_flow[needed], limit[needed], rtol=1e-8)


@given(insulated_pipes(hot=False), st.floats(0.3, 0.95), st.floats(0.1, 20))
@settings(max_examples=15, deadline=None)
def test_a_colder_pipe_never_needs_less_thickness(system: System, share: float, colder: float) -> None:
    """Lowering the pipe's temperature at the same dew point never lowers the minimum thickness."""
    bare = replace(system, layers=())
    inside, air = np.asarray(system.inside_temperature), np.asarray(system.air_temperature)
    dew = inside + share * (air - inside)
    conductivity = system.layers[0].conductivity
    before = thickness.least_thickness_against_condensation(bare, dew, conductivity)
    lower = replace(bare, inside_temperature=inside - colder)
    after = thickness.least_thickness_against_condensation(lower, dew, conductivity)
    both = np.isfinite(before.exact) & np.isfinite(after.exact)
    assert np.all(after.exact[both] >= before.exact[both] - 1e-12)
    assert np.all(np.isnan(after.exact[np.isnan(before.exact)]))


@given(st.floats(0.01, 0.2), st.floats(0.02, 0.1), st.floats(2, 30))
@settings(deadline=None)
def test_flat_is_the_limit_of_a_large_pipe(thick: float, conductivity: float, coefficient: float) -> None:
    """By the same coefficient a very large pipe and a wall have the same surface temperature and flux."""
    layer = Layer(thick, conductivity)
    pipe = System("horizontal pipe", 370.0, 300.0, (layer,), outside_diameter=1e6, coefficient=coefficient)
    wall = System("vertical flat", 370.0, 300.0, (layer,), coefficient=coefficient)
    large, flat = solve(pipe, "fixed coefficient"), solve(wall, "fixed coefficient")
    assert float(large.surface_temperature) == pytest.approx(float(flat.surface_temperature), abs=1e-4)
    assert float(large.heat_flux) == pytest.approx(float(flat.heat_flow), rel=1e-5)


@given(insulated_pipes(), st.floats(0.1, 0.9))
@settings(max_examples=15, deadline=None)
def test_one_layer_in_two_parts_is_one_layer(system: System, share: float) -> None:
    """Cutting a layer in two of the same material changes nothing."""
    whole = system.layers[0]
    thick = np.asarray(whole.thickness)
    parts = (Layer(share * thick, whole.conductivity), Layer((1 - share) * thick, whole.conductivity))
    one, two = solve(system), solve(replace(system, layers=parts))
    assert np.allclose(one.surface_temperature, two.surface_temperature, rtol=0, atol=1e-6)


@given(insulated_pipes())
@settings(max_examples=10, deadline=None)
def test_systems_do_not_depend_on_their_neighbors(system: System) -> None:
    """Any one system alone gives the same digits as among the others."""
    together = solve(system)
    for place in (0, COUNT // 2, COUNT - 1):
        alone = solve(system.rows(slice(place, place + 1)))
        assert abs(float(alone.surface_temperature[0]) - float(together.surface_temperature[place])) < 1e-7


@given(st.floats(0.005, 0.5), st.floats(0.01, 0.15), st.floats(0.02, 0.08), st.floats(0.02, 0.08))
@settings(deadline=None)
def test_equivalent_thickness_keeps_its_laws(radius: float, thick: float, other: float, standard: float) -> None:
    """K = k gives t; T grows with K; a large radius gives t·K/k; units of length do not matter; there and back is t."""
    found = float(equivalent_thickness(radius, thick, other, standard))
    assert float(equivalent_thickness(radius, thick, other, other)) == pytest.approx(thick)
    assert float(equivalent_thickness(radius, thick, other * 1.01, standard)) > found
    assert float(equivalent_thickness(1e9, thick, other, standard)) == pytest.approx(thick * other / standard, rel=1e-6)
    assert float(equivalent_thickness(np.inf, thick, other, standard)) == pytest.approx(thick * other / standard)
    inches = float(equivalent_thickness(radius / 0.0254, thick / 0.0254, other, standard))
    assert inches * 0.0254 == pytest.approx(found, rel=1e-9)
    assert float(equivalent_thickness(radius, found, standard, other)) == pytest.approx(thick, rel=1e-9)
