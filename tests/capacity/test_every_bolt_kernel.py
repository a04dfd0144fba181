"""What every kernel of bolts and flanges must do: arrays, NaN, signs, refusals."""

from collections.abc import Callable
from math import pi
from typing import Any

import pytest
from kernel_rules import (
    broadcasts,
    gives_a_finite_number,
    gives_for_an_array_what_its_members_give,
    hands_on_nan,
    ignores_the_sign,
    refuses,
    refuses_the_other_sign,
)

from torqcheck.capacity import joining
from torqcheck.formulas import FORMULAS

MODULES = {
    f"torqcheck.capacity.joining.{name}"
    for name in ("bolts", "bolt_pattern", "bolt_preload", "bolt_settling", "flange")
}

THREAD = {"diameter": 0.010, "pitch": 0.0015}
PATTERN = {
    "pattern_load": 12e3,
    "bolts": 3.0,
    "lever": 0.201,
    "radius": 0.050,
    "sum_of_squares": 0.005,
    "force_angle": 0.7,
}

SAMPLES: dict[Callable[..., Any], dict[str, float]] = {
    joining.metric_tensile_area: THREAD,
    joining.inch_tensile_area: THREAD,
    joining.metric_root_area: THREAD,
    joining.inch_root_area: THREAD,
    joining.bolt_shank_area: {"diameter": 0.010},
    joining.proof_load: {"tensile_area": 58e-6, "proof_strength": 580e6},
    joining.share_of_proof: {"preload": 25e3, "tensile_area": 58e-6, "proof_strength": 580e6},
    joining.preload_from_torque: {"torque": 50.0, "diameter": 0.010, "nut_factor": 0.2},
    joining.tightening_torque: {"preload": 25e3, "diameter": 0.010, "nut_factor": 0.2},
    joining.least_preload: {"preload": 25e3, "scatter": 0.25, "preload_loss": 2e3},
    joining.greatest_preload: {"preload": 25e3, "scatter": 0.25},
    joining.bolt_stiffness: {
        "tensile_area": 58e-6,
        "diameter": 0.010,
        "clamped_length": 0.024,
        "elastic_modulus": 207e9,
    },
    joining.clamped_stiffness: {"diameter": 0.010, "clamped_length": 0.024, "elastic_modulus": 207e9},
    joining.settling_loss: {"settling": 8e-6, "bolt_stiffness": 353e6, "clamped_stiffness": 2118e6},
    joining.face_friction_radius: {"outer_diameter": 0.200, "inner_diameter": 0.150},
    joining.bolt_circle_radius: {"circle_diameter": 0.100},
    joining.face_friction_torque: {
        "preload": 25e3,
        "bolts": 6.0,
        "friction": 0.15,
        "friction_radius": 0.050,
    },
    joining.hole_spacing: {"circle_diameter": 0.100, "bolts": 6.0},
    joining.bolt_circle_force: {"torque": 500.0, "bolts": 6.0, "circle_diameter": 0.100},
    joining.two_circle_force: {
        "torque": 500.0,
        "bolts": 8.0,
        "circle_diameter": 0.400,
        "inner_bolts": 6.0,
        "inner_circle_diameter": 0.300,
    },
    joining.bolt_shear_stress: {"force": 12e3, "section": 78.5e-6},
    joining.bolt_bearing_stress: {"force": 12e3, "diameter": 0.012, "thickness": 0.010},
    joining.tear_out_stress: {
        "force": 12e3,
        "thickness": 0.010,
        "edge_distance": 0.024,
        "diameter": 0.012,
    },
    joining.eccentric_bolt_force: PATTERN,
}

EVEN = {"force", "pattern_load", "force_angle"}
TWO_WAYS = {joining.bolt_circle_force, joining.two_circle_force}
"""Their torque has a sign that is ignored; that of a wrench has none."""
STEP = 1.001

ARGUMENTS = [(function, name) for function, sample in SAMPLES.items() for name in sample]


def even(function: Callable[..., Any], name: str) -> bool:
    return name in EVEN or (name == "torque" and function in TWO_WAYS)


def labelled(pairs: list[tuple[Callable[..., Any], str]]) -> list[Any]:
    return [pytest.param(function, name, id=f"{function.__name__}-{name}") for function, name in pairs]


def test_every_kernel_has_a_sample() -> None:
    filed = {function for function in FORMULAS if function.__module__ in MODULES}
    assert filed == set(SAMPLES)


@pytest.mark.parametrize("function", SAMPLES, ids=lambda f: f.__name__)
def test_sample_gives_every_argument_and_a_finite_number(function: Callable[..., Any]) -> None:
    assert gives_a_finite_number(function, SAMPLES[function]) > 0.0


@pytest.mark.parametrize(("function", "name"), labelled(ARGUMENTS))
def test_nan_in_gives_nan_out(function: Callable[..., Any], name: str) -> None:
    hands_on_nan(function, SAMPLES[function], name)


@pytest.mark.parametrize(("function", "name"), labelled(ARGUMENTS))
def test_an_array_gives_what_its_members_give(function: Callable[..., Any], name: str) -> None:
    gives_for_an_array_what_its_members_give(function, SAMPLES[function], name, step=STEP, rtol=1e-13)


@pytest.mark.parametrize("function", [f for f in SAMPLES if len(SAMPLES[f]) > 1], ids=lambda f: f.__name__)
def test_arrays_broadcast(function: Callable[..., Any]) -> None:
    broadcasts(function, SAMPLES[function], step=STEP)


@pytest.mark.parametrize(("function", "name"), labelled([pair for pair in ARGUMENTS if even(*pair)]))
def test_sign_is_ignored(function: Callable[..., Any], name: str) -> None:
    ignores_the_sign(function, SAMPLES[function], name)


@pytest.mark.parametrize(("function", "name"), labelled([pair for pair in ARGUMENTS if not even(*pair)]))
def test_negative_size_is_refused(function: Callable[..., Any], name: str) -> None:
    refuses_the_other_sign(function, SAMPLES[function], name)


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (joining.metric_tensile_area, {"pitch": 0.005}),
        (joining.inch_root_area, {"pitch": 0.0}),
        (joining.proof_load, {"tensile_area": 0.0}),
        (joining.preload_from_torque, {"nut_factor": 0.0}),
        (joining.least_preload, {"scatter": 1.0}),
        (joining.greatest_preload, {"scatter": 1.0}),
        (joining.settling_loss, {"bolt_stiffness": 0.0}),
        (joining.face_friction_radius, {"inner_diameter": 0.200}),
        (joining.face_friction_torque, {"bolts": 0.0}),
        (joining.bolt_circle_force, {"circle_diameter": 0.0}),
        (joining.two_circle_force, {"inner_circle_diameter": 0.0}),
        (joining.tear_out_stress, {"edge_distance": 0.006}),
        (joining.eccentric_bolt_force, {"sum_of_squares": 0.0}),
    ],
)
def test_arguments_out_of_range_are_refused(
    function: Callable[..., Any], arguments: dict[str, float]
) -> None:
    refuses(function, SAMPLES[function], arguments)


def test_nothing_is_left_where_settling_takes_more_than_there_is() -> None:
    assert joining.least_preload(1e3, 0.35, 2e3) == 0.0
    assert joining.least_preload(1e3, 0.35) == 650.0


def test_a_pattern_whose_two_forces_are_opposite_and_equal_carries_nothing_there() -> None:
    found = joining.eccentric_bolt_force(12e3, 4.0, 0.050, 0.050, 4 * 0.050**2, pi)
    assert found == pytest.approx(0.0, abs=1e-3)
