"""Kernels of sleeves, turning tubes and welds: arrays, NaN, refusals, and how they hang together."""

from collections.abc import Callable
from math import pi
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from kernel_rules import (
    gives_a_finite_number,
    gives_for_an_array_what_its_members_give,
    ignores_the_sign,
    label,
    refuses,
    refuses_the_other_sign,
)

from torqcheck import capacity
from torqcheck.capacity import joining
from torqcheck.formulas import FORMULAS

MODULES = {f"torqcheck.capacity.joining.{name}" for name in ("sleeve", "turning_tube", "weld")}
SAMPLES: dict[Callable[..., Any], dict[str, float]] = {
    joining.thin_tube_shear_stress: {"torque": 500.0, "mean_diameter": 0.060, "wall": 0.003},
    joining.keyway_corner_diameter: {"bore": 0.038, "keyway_width": 0.010, "keyway_depth": 0.0033},
    joining.wall_share: {"outer_diameter": 0.052, "deepest_diameter": 0.039},
    joining.combined_wall_stress: {"hoop_stress": 20e6, "wall_shear": 30e6},
    joining.whirling_speed: {
        "outer_diameter": 0.060,
        "length": 1.2,
        "bore": 0.054,
        "elastic_modulus": 207e9,
        "density": 7850.0,
    },
    joining.tube_mass: {"outer_diameter": 0.060, "length": 0.120, "bore": 0.036, "density": 7850.0},
    joining.unbalance_force: {"mass": 1.7, "eccentricity": 0.05e-3, "speed": 314.0},
    joining.fillet_throat: {"leg": 0.006},
    joining.weld_second_moment: {"radius": 0.030, "throat": 0.004},
    joining.weld_torsional_shear: {"torque": 3470.0, "radius": 0.030, "throat": 0.004},
    joining.weld_bending_stress: {"moment": 200.0, "radius": 0.030, "throat": 0.004},
    joining.combined_weld_stress: {"torsional_shear": 30e6, "bending_shear": 40e6},
    joining.base_metal_shear: {"torque": 3470.0, "radius": 0.030, "leg": 0.006},
    joining.weld_unit_force: {"leg": 0.0095, "allowable_shear": 145e6},
}
SIGNED = {
    "torque",
    "speed",
    "moment",
    "hoop_stress",
    "wall_shear",
    "torsional_shear",
    "bending_shear",
}
ARGUMENTS = [(function, name) for function, sample in SAMPLES.items() for name in sample]
SIZES = [(function, name) for function, name in ARGUMENTS if name not in SIGNED]
SYMMETRIC = [(function, name) for function, name in ARGUMENTS if name in SIGNED]
SIZE = st.floats(min_value=1e-3, max_value=1.0)


def test_every_kernel_has_a_sample() -> None:
    assert {function for function in FORMULAS if function.__module__ in MODULES} == set(SAMPLES)


@pytest.mark.parametrize("function", SAMPLES, ids=label)
def test_sample_gives_every_argument_and_a_finite_number(function: Callable[..., Any]) -> None:
    gives_a_finite_number(function, SAMPLES[function])


@pytest.mark.parametrize(("function", "name"), ARGUMENTS, ids=label)
def test_an_array_gives_what_its_members_give_and_nan_gives_nan(
    function: Callable[..., Any], name: str
) -> None:
    gives_for_an_array_what_its_members_give(function, SAMPLES[function], name, step=1.001, rtol=1e-14)


@pytest.mark.parametrize(("function", "name"), SIZES, ids=label)
def test_negative_size_is_refused(function: Callable[..., Any], name: str) -> None:
    refuses_the_other_sign(function, SAMPLES[function], name)


@pytest.mark.parametrize(("function", "name"), SYMMETRIC, ids=label)
def test_sign_is_ignored(function: Callable[..., Any], name: str) -> None:
    ignores_the_sign(function, SAMPLES[function], name)


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (joining.thin_tube_shear_stress, {"wall": 0.060}),
        (joining.keyway_corner_diameter, {"keyway_width": 0.039}),
        (joining.wall_share, {"deepest_diameter": 0.052}),
        (joining.whirling_speed, {"bore": 0.060}),
        (joining.tube_mass, {"bore": 0.061}),
        (joining.weld_torsional_shear, {"throat": 0.0}),
        (joining.base_metal_shear, {"leg": 0.0}),
    ],
    ids=label,
)
def test_out_of_range_is_refused(function: Callable[..., Any], arguments: dict[str, float]) -> None:
    refuses(function, SAMPLES[function], arguments)


@given(SIZE, st.floats(min_value=1e-3, max_value=0.05))
def test_thin_tube_lies_below_the_exact_stress_by_about_the_share_of_the_wall(mean: float, t: float) -> None:
    wall = t * mean
    exact = float(capacity.torsional_shear_stress(1.0, mean + wall, mean - wall))
    thin = float(joining.thin_tube_shear_stress(1.0, mean, wall))
    assert exact / thin == pytest.approx((1.0 + t) / (1.0 + t**2), rel=1e-9)


@given(SIZE, SIZE, st.floats(min_value=0.0, max_value=0.99))
def test_half_the_length_whirls_four_times_as_fast(diameter: float, length: float, share: float) -> None:
    whole = float(joining.whirling_speed(diameter, length, share * diameter))
    half = float(joining.whirling_speed(diameter, 0.5 * length, share * diameter))
    assert half == pytest.approx(4.0 * whole, rel=1e-12)


@given(SIZE, SIZE, st.floats(min_value=0.0, max_value=0.9))
def test_whirling_speed_is_that_of_a_beam_on_two_hinges(diameter: float, length: float, share: float) -> None:
    bore = share * diameter
    second = pi * (diameter**4 - bore**4) / 64.0
    per_length = float(joining.tube_mass(diameter, 1.0, bore))
    beam = (pi / length) ** 2 * np.sqrt(206.842719e9 * second / per_length)
    assert float(joining.whirling_speed(diameter, length, bore)) == pytest.approx(float(beam), rel=1e-9)


@given(SIZE, SIZE)
def test_leg_is_stressed_less_than_the_throat_by_its_share(radius: float, leg: float) -> None:
    throat = float(joining.weld_torsional_shear(1.0, radius, joining.fillet_throat(leg)))
    assert float(joining.base_metal_shear(1.0, radius, leg)) == pytest.approx(0.707 * throat, rel=1e-12)


@given(SIZE, SIZE)
def test_torque_by_the_second_moment_and_by_the_force_along_the_weld_agree(radius: float, leg: float) -> None:
    allowed = 140e6
    throat = joining.fillet_throat(leg)
    by_force = float(joining.weld_unit_force(leg, allowed)) * 2.0 * pi * radius * radius
    by_moment = allowed * float(joining.weld_second_moment(radius, throat)) / radius
    assert by_force == pytest.approx(by_moment, rel=1e-12)


@given(SIZE, st.floats(min_value=0.1, max_value=1.0), st.floats(min_value=0.01, max_value=0.5))
def test_a_keyway_reaches_beyond_its_floor(bore: float, width: float, depth: float) -> None:
    corner = float(joining.keyway_corner_diameter(bore, width * bore, depth * bore))
    assert corner > bore + 2.0 * depth * bore
