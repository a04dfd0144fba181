"""Sections of shafts and teeth and forces on a taper: balance and quadrature instead of closed forms."""

from math import pi

import numpy as np
import pytest
from scipy.integrate import quad

from torqcheck.capacity import (
    bending_stress,
    cross_hole_bending_stress,
    cross_hole_shear_stress,
    elastic_twist,
    old_code_diameter,
    tooth_root_bending_stress,
    torsional_shear_stress,
)
from torqcheck.capacity.joining import taper_radial_force, wall_share


def ring(power: int, bore: float, outer: float) -> float:
    """Integral of r^power over the area of a round section."""
    value, _ = quad(lambda r: r**power * 2.0 * pi * r, 0.5 * bore, 0.5 * outer, epsabs=0.0, epsrel=1e-12)
    return value


@pytest.mark.parametrize("bore", [0.0, 0.008, 0.020])
def test_twist_of_a_shaft_with_and_without_a_hole(bore: float) -> None:
    expected = 500.0 * 0.200 / (79.3e9 * ring(2, bore, 0.025))
    assert elastic_twist(500.0, 0.200, 0.025, 79.3e9, bore) == pytest.approx(expected, rel=1e-10)


@pytest.mark.parametrize("bore", [0.0, 0.008, 0.020])
def test_stresses_at_the_surface_of_a_shaft_with_and_without_a_hole(bore: float) -> None:
    polar = ring(2, bore, 0.025)
    assert torsional_shear_stress(500.0, 0.025, bore) == pytest.approx(500.0 * 0.0125 / polar, rel=1e-10)
    # about one of two equal axes the second moment is half the polar one
    assert bending_stress(47.3, 0.025, bore) == pytest.approx(47.3 * 0.0125 / (0.5 * polar), rel=1e-10)


@pytest.mark.parametrize("bore", [0.0, 0.006, 0.012])
def test_a_cross_hole_takes_a_strip_out_of_the_section(bore: float) -> None:
    outer, hole = 0.025, 0.004
    strip, _ = quad(lambda y: 2.0 * hole * y * y, 0.5 * bore, 0.5 * outer, epsabs=0.0, epsrel=1e-12)
    polar = ring(2, bore, outer)
    sheared = 200.0 * 0.5 * outer / (polar - strip)
    bent = 50.0 * 0.5 * outer / (0.5 * polar - strip)
    assert cross_hole_shear_stress(200.0, outer, hole, bore) == pytest.approx(sheared, rel=1e-10)
    assert cross_hole_bending_stress(50.0, outer, hole, bore) == pytest.approx(bent, rel=1e-10)


def test_moment_at_the_root_of_a_tooth_is_balanced_by_its_stress() -> None:
    line_load, lever_arm, chord = 100e3, 2.7e-3, 4.87e-3
    surface = float(tooth_root_bending_stress(line_load, lever_arm, chord))
    # stress in proportion to the distance from the middle, per length of tooth
    held, _ = quad(lambda y: surface * y / (0.5 * chord) * y, -0.5 * chord, 0.5 * chord)
    assert held == pytest.approx(line_load * lever_arm, rel=1e-10)


def test_old_code_without_shock_is_plain_torsion() -> None:
    diameter = float(old_code_diameter(0.0, 400.0, 55e6, bending_shock=1.0, torsion_shock=1.0))
    assert 400.0 * 0.5 * diameter / ring(2, 0.0, diameter) == pytest.approx(55e6, rel=1e-10)


@pytest.mark.parametrize("taper", [2.86, 7.0, 30.0])
def test_forces_on_a_taper_are_in_balance(taper: float) -> None:
    angle, friction = np.radians(taper), 0.12
    # normal force N and friction mu N on the cone hold the axial force; what is left is radial
    normal = 20e3 / (np.sin(angle) + friction * np.cos(angle))
    radial = normal * (np.cos(angle) - friction * np.sin(angle))
    assert taper_radial_force(20e3, angle, friction) == pytest.approx(radial, rel=1e-12)


def test_share_of_a_wall_is_what_a_ruler_says() -> None:
    # 52 mm outside, 39 mm inside: a wall of 6.5 mm, a sixth of the hole
    assert wall_share(0.052, 0.039) == pytest.approx(6.5 / 39.0, rel=1e-12)
