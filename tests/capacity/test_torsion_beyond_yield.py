"""Overloaded shafts and hard layers: worked numbers by hand, equilibrium by quadrature."""

from math import degrees, pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from published._case import Case
from scipy.integrate import quad

from torqcheck.capacity import (
    balanced_case_depth,
    case_limited_torque,
    core_limited_torque,
    elastic_core_share,
    elastic_torque,
    permanent_twist,
    plastic_reserve,
    plastic_twist,
    residual_shear_stress,
    torsional_shear_stress,
)

ratios = st.floats(1.0, 1.33)


def check(where: str, printed: str, ours: float, unit: float = 1.0) -> None:
    Case("Elastoplastic torsion, reckoned by hand", where, "derived", {}, printed, unit).check(ours)


def test_bar_of_100_millimetres() -> None:
    # inputs published in a lecture on elastoplastic torsion, 2018, with its G of 200 GPa; length 1 m
    torque, diameter, shear_yield, modulus = 35e3, 0.100, 150e6, 200e9
    core = 0.5 * diameter * float(elastic_core_share(torque / elastic_torque(diameter, shear_yield)))
    check("core", "37.883", core, 1e-3)
    check("twist", "0.0197979", float(plastic_twist(torque, diameter, shear_yield, modulus)))
    check("permanent", "0.00197251", float(permanent_twist(torque, diameter, shear_yield, modulus)))
    check("surface", "-28.2535", float(residual_shear_stress(torque, diameter, shear_yield, 0.05)), 1e6)
    check(
        "edge of the core", "14.9449", float(residual_shear_stress(torque, diameter, shear_yield, core)), 1e6
    )


@pytest.mark.parametrize(
    ("ratio", "printed"), [(1.1, "0.88790"), (1.2, "0.73681"), (1.25, "0.62996"), (1.3, "0.46416")]
)
def test_core_of_an_overloaded_bar(ratio: float, printed: str) -> None:
    check(f"core at {ratio}", printed, float(elastic_core_share(ratio)))


def test_spline_shaft_of_30_millimetres() -> None:
    diameter, shear_yield, modulus = 0.030, 457.561e6, 79.3e9
    first = float(elastic_torque(diameter, shear_yield))
    check("first yield", "2425.73", first)
    torque = 1.2 * first
    per_100 = 0.100
    check("yield", "2.2040", degrees(float(plastic_twist(first, diameter, shear_yield, modulus))) * per_100)
    check("loaded", "2.9913", degrees(float(plastic_twist(torque, diameter, shear_yield, modulus))) * per_100)
    check("left", "0.3465", degrees(float(permanent_twist(torque, diameter, shear_yield, modulus))) * per_100)
    check("surface", "-91.512", float(residual_shear_stress(torque, diameter, shear_yield, 0.015)), 1e6)


@pytest.mark.parametrize(
    ("bore", "printed"), [(0.0, "1.3333"), (0.3, "1.3079"), (0.5, "1.2444"), (0.7, "1.1528"), (0.8, "1.1021")]
)
def test_reserve_of_hollow_shafts(bore: float, printed: str) -> None:
    check(f"reserve at {bore}", printed, float(plastic_reserve(1.0, bore)))
    check(f"reserve at {bore}, 30 mm", printed, float(plastic_reserve(0.030, 0.030 * bore)))


@given(bore=st.floats(0.0, 0.99))
def test_reserve_against_quadrature(bore: float) -> None:
    plastic, _ = quad(lambda r: 2 * pi * r * r, bore / 2, 0.5)
    assert float(plastic_reserve(1.0, bore)) == pytest.approx(
        plastic / float(elastic_torque(1.0, 1.0, bore)), rel=1e-8
    )


def test_reserve_of_a_thin_wall_is_one() -> None:
    assert float(plastic_reserve(1.0, 1.0 - 1e-12)) == pytest.approx(1.0, abs=1e-11)


@given(ratio=ratios)
def test_stress_in_an_overloaded_bar_carries_the_torque(ratio: float) -> None:
    core = float(elastic_core_share(ratio))
    inside, _ = quad(lambda r: min(1.0, r / core) * 2 * pi * r * r, 0.0, core)
    outside, _ = quad(lambda r: 2 * pi * r * r, core, 1.0)
    assert inside + outside == pytest.approx(ratio * pi / 2, rel=1e-8)  # Ty of a unit radius is pi/2


@given(ratio=ratios)
def test_locked_in_stress_has_no_torque(ratio: float) -> None:
    torque = ratio * float(elastic_torque(2.0, 1.0))
    core = float(elastic_core_share(ratio))
    moment, _ = quad(
        lambda r: float(residual_shear_stress(torque, 2.0, 1.0, r)) * 2 * pi * r * r, 0.0, 1.0, points=[core]
    )
    assert moment == pytest.approx(0.0, abs=1e-7)


@given(ratio=st.floats(0.0, 1.0))
def test_nothing_stays_below_first_yield(ratio: float) -> None:
    torque = ratio * float(elastic_torque(0.03, 400e6))
    assert float(permanent_twist(torque, 0.03, 400e6, 79.3e9)) == pytest.approx(0.0, abs=1e-12)
    assert float(residual_shear_stress(torque, 0.03, 400e6, 0.01)) == pytest.approx(0.0, abs=1.0)


def test_bar_at_its_plastic_torque_has_no_core() -> None:
    assert float(elastic_core_share(4 / 3)) == pytest.approx(0.0, abs=1e-5)
    # at the axis of the wholly plastic bar the stress jumps from zero to yield; just outside it stays
    stress = residual_shear_stress(
        4 / 3 * elastic_torque(2.0, 1.0) * (1 - 1e-15), 2.0, 1.0, np.array([0.0, 1.0])
    )
    np.testing.assert_allclose(stress, [0.0, -1 / 3], atol=1e-9)


def test_twist_grows_without_bound_towards_the_plastic_torque() -> None:
    # core of a hundredth: T/Ty = (4/3)(1 - 1e-6/4), twist a hundred times that at first yield
    first = float(elastic_torque(0.03, 400e6))
    at_yield = float(plastic_twist(first, 0.03, 400e6, 79.3e9))
    beyond = float(plastic_twist(first * 4 / 3 * (1 - 1e-6 / 4), 0.03, 400e6, 79.3e9))
    assert beyond / at_yield == pytest.approx(100.0, rel=1e-6)


def test_a_layer_almost_to_the_axis_is_accepted() -> None:
    # x = 0.499 d: the core yields at 500 times the torque of a bare core
    ours = float(core_limited_torque(0.030, 366e6, 0.499 * 0.030))
    assert ours == pytest.approx(500.0 * float(elastic_torque(0.030, 366e6)), rel=1e-9)


def test_hard_layer_of_3_millimetres() -> None:
    # 52 HRC (966 MPa in shear) on a core of 20 HRC (366 MPa), published list of torsional yield
    core = float(core_limited_torque(0.030, 366e6, 0.003))
    case = float(case_limited_torque(0.030, 966e6))
    Case("Hard layer, reckoned by hand", "core", "derived", {}, "2425").check(core)
    Case("Hard layer, reckoned by hand", "surface", "derived", {}, "5121").check(case)
    surface = float(torsional_shear_stress(core, 0.030))
    Case("Hard layer, reckoned by hand", "stress", "derived", {}, "457.5", 1e6).check(surface)


@pytest.mark.parametrize(("core", "printed"), [(303e6, "0.343"), (366e6, "0.311"), (503e6, "0.240")])
def test_balanced_depth(core: float, printed: str) -> None:
    Case("Hard layer, reckoned by hand", "balance", "derived", {}, printed).check(
        float(balanced_case_depth(core, 966e6))
    )


@given(core=st.floats(100e6, 900e6))
def test_at_the_balanced_depth_both_yield_together(core: float) -> None:
    depth = 0.030 * float(balanced_case_depth(core, 966e6))
    assert float(core_limited_torque(0.030, core, depth)) == pytest.approx(
        float(case_limited_torque(0.030, 966e6)), rel=1e-9
    )


def test_a_case_of_no_depth_leaves_the_core() -> None:
    assert core_limited_torque(0.030, 366e6, 0.0) == elastic_torque(0.030, 366e6)
    thin = float(core_limited_torque(0.030, 366e6, 0.001) / elastic_torque(0.030, 366e6))
    Case("Hard layer, reckoned by hand", "1 mm on 30 mm", "derived", {}, "1.07").check(thin)
