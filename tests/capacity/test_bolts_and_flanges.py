"""Bolts and flanges against the long way, and laws that must hold for any size."""

from math import pi, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.capacity.joining import (
    bolt_bearing_stress,
    bolt_circle_force,
    bolt_circle_radius,
    bolt_stiffness,
    clamped_stiffness,
    eccentric_bolt_force,
    face_friction_radius,
    face_friction_torque,
    greatest_preload,
    hole_spacing,
    inch_root_area,
    inch_tensile_area,
    least_preload,
    metric_root_area,
    metric_tensile_area,
    preload_from_torque,
    settling_loss,
    tear_out_stress,
    tightening_torque,
    two_circle_force,
)
from torqcheck.materials import Thread, bolt_strength, bolt_strengths, threads

DIAMETERS = st.floats(0.004, 0.040)
SCATTERS = st.floats(0.0, 0.9)
FORCES = st.floats(1.0, 1e6)


@given(preload=FORCES, diameter=DIAMETERS, factor=st.floats(0.05, 0.5))
def test_torque_and_preload_are_inverse(preload: float, diameter: float, factor: float) -> None:
    torque = float(tightening_torque(preload, diameter, factor))
    assert float(preload_from_torque(torque, diameter, factor)) == pytest.approx(preload, rel=1e-12)
    assert float(preload_from_torque(torque, diameter, 2.0 * factor)) == pytest.approx(
        preload / 2.0, rel=1e-12
    )


@given(preload=FORCES, scatter=SCATTERS, loss=st.floats(0.0, 1e5))
def test_least_and_greatest_preload_stand_around_the_mean(
    preload: float, scatter: float, loss: float
) -> None:
    least, most = float(least_preload(preload, scatter, loss)), float(greatest_preload(preload, scatter))
    assert 0.0 <= least <= preload <= most
    assert float(least_preload(preload, scatter)) + most == pytest.approx(2.0 * preload, rel=1e-12)


@given(outer=st.floats(0.02, 1.0), share=st.floats(0.0, 0.999))
def test_friction_radius_by_summing_rings(outer: float, share: float) -> None:
    """Even pressure: the mean radius of all rings, each by its area."""
    inner = share * outer
    edges = np.linspace(inner / 2.0, outer / 2.0, 2001)
    middles, areas = (edges[1:] + edges[:-1]) / 2.0, np.diff(edges**2)
    summed = float(np.sum(middles * areas) / np.sum(areas))
    assert float(face_friction_radius(outer, inner)) == pytest.approx(summed, rel=1e-6)


@given(outer=st.floats(0.02, 1.0), share=st.floats(0.0, 0.999))
def test_friction_radius_lies_between_mean_radius_and_rim(outer: float, share: float) -> None:
    radius = float(face_friction_radius(outer, share * outer))
    assert (1.0 + share) * outer / 4.0 <= radius * (1.0 + 1e-12)
    assert radius < outer / 2.0


def test_full_face_grips_at_two_thirds_of_its_radius() -> None:
    assert float(face_friction_radius(0.300)) == pytest.approx(0.100, rel=1e-14)
    assert float(face_friction_radius(0.300, 0.299999999)) == pytest.approx(0.150, rel=1e-8)


@given(torque=st.floats(1.0, 1e5), bolts=st.integers(1, 40), circle=st.floats(0.02, 1.0))
def test_forces_of_a_circle_add_to_its_torque(torque: float, bolts: int, circle: float) -> None:
    force = float(bolt_circle_force(torque, bolts, circle))
    assert force * bolts * circle / 2.0 == pytest.approx(torque, rel=1e-12)
    assert float(two_circle_force(torque, bolts, circle, 0.0, circle)) == pytest.approx(force, rel=1e-12)
    both = float(two_circle_force(torque, bolts, circle, bolts, circle))
    assert both == pytest.approx(force / 2.0, rel=1e-12)


@given(torque=st.floats(1.0, 1e5), circle=st.floats(0.1, 1.0), share=st.floats(0.2, 1.0))
def test_forces_of_two_circles_add_to_the_torque(torque: float, circle: float, share: float) -> None:
    inner = share * circle
    force = float(two_circle_force(torque, 8.0, circle, 6.0, inner))
    total = 8.0 * force * circle / 2.0 + 6.0 * force * share * inner / 2.0
    assert total == pytest.approx(torque, rel=1e-12)


@given(
    bolts=st.integers(2, 12),
    lever=st.floats(0.0, 1.0),
    where=st.integers(0, 11),
    turned=st.floats(0.0, 6.28),
)
def test_pattern_by_adding_vectors(bolts: int, lever: float, where: int, turned: float) -> None:
    """Load along y at x = lever beside bolts on a circle of 50 mm radius; moment about the centre."""
    places = turned + 2.0 * pi * np.arange(bolts) / bolts
    x, y = 0.05 * np.cos(places), 0.05 * np.sin(places)
    squares = float(np.sum(x**2 + y**2))
    moment = 1.0 * lever
    fx, fy = -moment * y / squares, 1.0 / bolts + moment * x / squares
    assert float(np.sum(fy)) == pytest.approx(1.0, abs=1e-9)
    assert float(np.sum(x * fy - y * fx)) == pytest.approx(moment, abs=1e-9)
    i = where % bolts
    angle = places[i]  # secondary force stands across the radius, primary along y
    found = float(eccentric_bolt_force(1.0, float(bolts), lever, 0.05, squares, float(angle)))
    assert found == pytest.approx(float(np.hypot(fx[i], fy[i])), abs=1e-9)


def test_chord_between_holes() -> None:
    assert float(hole_spacing(0.100, 2.0)) == pytest.approx(0.100, rel=1e-14)
    assert float(hole_spacing(0.100, 4.0)) == pytest.approx(0.100 / 2.0**0.5, rel=1e-14)
    assert float(hole_spacing(0.100, 6.0)) == pytest.approx(0.050, rel=1e-14)


def test_edge_of_two_diameters_tears_at_a_third_of_the_bearing_stress() -> None:
    bearing = float(bolt_bearing_stress(12e3, 0.012, 0.010))
    assert float(tear_out_stress(12e3, 0.010, 0.024, 0.012)) == pytest.approx(bearing / 3.0, rel=1e-14)


def test_grip_of_a_flange_goes_with_each_of_its_parts() -> None:
    whole = float(face_friction_torque(20e3, 8.0, 0.12, float(bolt_circle_radius(0.120))))
    assert whole == pytest.approx(0.12 * 8 * 20e3 * 0.060, rel=1e-14)
    assert float(face_friction_torque(20e3, 4.0, 0.24, 0.060)) == pytest.approx(whole, rel=1e-14)


# settling


def cones(diameter: float, length: float, modulus: float) -> float:
    """Stiffness of two cones of 30 degrees, summed slice by slice."""
    depth = (np.arange(20000) + 0.5) * (length / 2.0 / 20000)
    outer = 1.5 * diameter + 2.0 * depth * tan(pi / 6.0)
    areas = pi / 4.0 * (outer**2 - diameter**2)
    return float(modulus / (2.0 * np.sum(length / 2.0 / 20000 / areas)))


@given(diameter=DIAMETERS, slenderness=st.floats(0.3, 10.0))
def test_clamped_parts_by_slices(diameter: float, slenderness: float) -> None:
    length = slenderness * diameter
    found = float(clamped_stiffness(diameter, length, 207e9))
    assert found == pytest.approx(cones(diameter, length, 207e9), rel=2e-4)  # the tangent is rounded


@pytest.mark.parametrize("slenderness", [1.0, 2.0, 4.0])
def test_clamped_parts_by_the_fit_of_finite_elements(slenderness: float) -> None:
    """Eq. 8-23 of the same book, from memory: km = E d 0.78715 exp(0.62873 d/l); another model, 10 % off."""
    fit = 207e9 * 0.010 * 0.78715 * np.exp(0.62873 / slenderness)
    found = float(clamped_stiffness(0.010, slenderness * 0.010, 207e9))
    assert found == pytest.approx(fit, rel=0.10)


@given(settling=st.floats(0.0, 30e-6), stiff=st.floats(1e7, 1e10), clamped=st.floats(1e7, 1e10))
def test_what_settles_is_shared_by_bolt_and_parts(settling: float, stiff: float, clamped: float) -> None:
    lost = float(settling_loss(settling, stiff, clamped))
    assert lost / stiff + lost / clamped == pytest.approx(settling, rel=1e-12)


def test_a_long_bolt_loses_less() -> None:
    losses = [
        float(
            settling_loss(
                10e-6,
                bolt_stiffness(58e-6, 0.010, length, 207e9),
                clamped_stiffness(0.010, length, 207e9),
            )
        )
        for length in (0.010, 0.020, 0.040, 0.080)
    ]
    assert losses == sorted(losses, reverse=True)


# threads


@pytest.mark.parametrize("bolt", threads(), ids=lambda bolt: bolt.size)
def test_areas_of_a_thread_stand_in_order(bolt: Thread) -> None:
    tensile, root = (
        (metric_tensile_area, metric_root_area)
        if bolt.system == "metric"
        else (inch_tensile_area, inch_root_area)
    )
    shank = pi / 4.0 * bolt.diameter**2
    assert (
        0.5 * shank
        < float(root(bolt.diameter, bolt.pitch))
        < float(tensile(bolt.diameter, bolt.pitch))
        < shank
    )


@pytest.mark.parametrize("bolt", threads(), ids=lambda bolt: bolt.size)
def test_strengths_of_a_bolt_stand_in_order(bolt: Thread) -> None:
    for name in bolt_strengths(bolt.system):
        if (name, bolt.diameter > 0.024) == ("5.8", True):
            continue
        strength = bolt_strength(name, bolt)
        assert 0.5 * strength.tensile < strength.proof < strength.yield_strength < strength.tensile
