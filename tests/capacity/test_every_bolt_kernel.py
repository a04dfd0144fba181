"""What every kernel of bolts and flanges must do: arrays, NaN, signs, refusals."""

import inspect
from collections.abc import Callable
from math import isnan, pi
from typing import Any

import numpy as np
import pytest

from torqcheck.capacity import joining
from torqcheck.errors import DomainError
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
    assert list(SAMPLES[function]) == list(inspect.signature(function).parameters)
    value = function(**SAMPLES[function])
    assert isinstance(value, float)
    assert np.isfinite(value)
    assert value > 0.0


@pytest.mark.parametrize(("function", "name"), labelled(ARGUMENTS))
def test_nan_in_gives_nan_out(function: Callable[..., Any], name: str) -> None:
    assert isnan(function(**SAMPLES[function] | {name: float("nan")}))


@pytest.mark.parametrize(("function", "name"), labelled(ARGUMENTS))
def test_an_array_gives_what_its_members_give(function: Callable[..., Any], name: str) -> None:
    sample = SAMPLES[function]
    several = sample[name] * np.array([1.0, STEP, np.nan])
    ours = function(**sample | {name: several})
    singly = [function(**sample | {name: float(value)}) for value in several]
    assert ours.shape == (3,)
    np.testing.assert_allclose(ours, singly, rtol=1e-13)


@pytest.mark.parametrize("function", [f for f in SAMPLES if len(SAMPLES[f]) > 1], ids=lambda f: f.__name__)
def test_arrays_broadcast(function: Callable[..., Any]) -> None:
    sample = SAMPLES[function]
    first, second, *_ = sample
    column, row = sample[first] * np.array([[1.0], [STEP]]), sample[second] * np.array([1.0, STEP, 1.0])
    assert function(**sample | {first: column, second: row}).shape == (2, 3)


@pytest.mark.parametrize(("function", "name"), labelled([pair for pair in ARGUMENTS if even(*pair)]))
def test_sign_is_ignored(function: Callable[..., Any], name: str) -> None:
    sample = SAMPLES[function]
    assert function(**sample | {name: -sample[name]}) == function(**sample)


@pytest.mark.parametrize(("function", "name"), labelled([pair for pair in ARGUMENTS if not even(*pair)]))
def test_negative_size_is_refused(function: Callable[..., Any], name: str) -> None:
    sample = SAMPLES[function]
    with pytest.raises(DomainError, match=r"must"):
        function(**sample | {name: -sample[name]})
    with pytest.raises(DomainError, match=r"must"):  # one bad member spoils the array
        function(**sample | {name: sample[name] * np.array([1.0, -1.0])})


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
    with pytest.raises(DomainError, match=r"must"):
        function(**SAMPLES[function] | arguments)


def test_nothing_is_left_where_settling_takes_more_than_there_is() -> None:
    assert joining.least_preload(1e3, 0.35, 2e3) == 0.0
    assert joining.least_preload(1e3, 0.35) == 650.0


def test_a_pattern_whose_two_forces_are_opposite_and_equal_carries_nothing_there() -> None:
    found = joining.eccentric_bolt_force(12e3, 4.0, 0.050, 0.050, 4 * 0.050**2, pi)
    assert found == pytest.approx(0.0, abs=1e-3)
