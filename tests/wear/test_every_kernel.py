"""What every kernel of the folder must do: arrays, NaN, sign of torque and tilt, refusals."""

from collections.abc import Callable
from math import radians
from typing import Any

import pytest
from kernel_rules import (
    broadcasts,
    gives_a_finite_number,
    gives_for_an_array_what_its_members_give,
    hands_on_nan,
    ignores_the_sign,
    label,
    refuses,
    refuses_the_other_sign,
)

from torqcheck import wear
from torqcheck.errors import DomainError
from torqcheck.formulas import FORMULAS

MODULES = {
    f"torqcheck.wear.{name}"
    for name in (
        "alignment",
        "coefficient",
        "contact",
        "friction",
        "law",
        "life",
        "limits",
        "running_in",
        "sliding",
        "slip",
        "spread",
    )
}

JOINT = {
    "torque": 200.0,
    "pitch_radius": 0.020,
    "teeth": 20.0,
    "length": 0.030,
    "contact_height": 0.002,
    "pressure_angle": radians(30),
}
PLACE = {"pitch_radius": 0.020, "tilt": 0.002}
WORN = {"external_depth": 1e-4, "internal_depth": 2e-4}

SAMPLES: dict[Callable[..., Any], dict[str, float]] = {
    wear.slip_amplitude: PLACE,
    wear.slip_path_per_revolution: PLACE,
    wear.peak_slip_speed: PLACE | {"speed": 314.0},
    wear.tilt_from_offset: {"offset": 0.1e-3, "span": 0.060},
    wear.offset_from_runout: {"reading": 0.25e-3},
    wear.tilt_from_face_reading: {"reading": 0.1e-3, "diameter": 0.1},
    wear.offset_slip_path: {"offset": 0.1e-3},
    wear.hardness_scale: {"hardness_vickers": 345.0},
    wear.implied_wear_coefficient: {
        "depth": 0.25e-3,
        "pressure": 34.5e6,
        "path_per_revolution": 80e-6,
        "revolutions": 1e8,
    },
    wear.flank_height: {"radial_height": 0.0018, "pressure_angle": radians(30)},
    wear.wear_flank_pressure: JOINT | {"loaded_share": 0.5},
    wear.worn_depth: {"wear_coefficient": 1e-15, "pressure": 10e6, "path": 100.0},
    wear.worn_volume: {"wear_coefficient": 1e-15, "normal_force": 10e3, "path": 100.0},
    wear.depth_per_revolution: {"wear_coefficient": 1e-15} | JOINT | {"tilt": 0.002},
    wear.worn_volume_per_revolution: {
        "wear_coefficient": 1e-15,
        "torque": 200.0,
        "pressure_angle": radians(30),
        "tilt": 0.002,
    },
    wear.clearance_growth: WORN | {"pressure_angle": 0.5, "wearing_flanks": 1.0},
    wear.lash_growth: WORN | {"pitch_radius": 0.02, "pressure_angle": 0.5, "wearing_flanks": 1.0},
    wear.depth_sum_at_lash_limit: {
        "clearance": 0.05e-3,
        "clearance_limit": 0.4e-3,
        "pressure_angle": 0.5,
        "wearing_flanks": 1.0,
    },
    wear.depth_at_thickness_loss: {
        "thickness": 3e-3,
        "pressure_angle": 0.5,
        "loss": 0.1,
        "wearing_flanks": 1.0,
    },
    wear.running_in_depth: {"revolutions": 1e6, "depth": 4e-6, "revolutions_scale": 2e6},
    wear.depth_with_feedback: {"rate": 0.25e-6, "feedback": 1e-3, "hours": 1000.0},
    wear.reversal_slip_path: {"radial_play": 0.05e-3, "crossings": 40.0},
    wear.sliding_path_per_hour: PLACE
    | {"revolutions": 180e3, "offset": 0.02e-3, "radial_play": 0.05e-3, "crossings": 40.0},
    wear.tilt_friction_moment: {"torque": 200.0, "pressure_angle": radians(30), "friction": 0.12},
    wear.friction_lock_tilt: {
        "torque": 200.0,
        "pressure_angle": radians(30),
        "friction": 0.12,
        "stiffness": 20e3,
    },
    wear.elastic_slip: {
        "axial_force": 5e3,
        "length": 0.040,
        "shaft_area": 700e-6,
        "hub_area": 1200e-6,
        "elastic_modulus": 205e9,
    },
    wear.sigma_from_variation: {"variation": 0.6},
    wear.hours_to_depth: {"depth": 250e-6, "rate": 0.25e-6, "induction": 62.5, "rate_after": 2.5e-6},
}
OTHERS = {wear.wear_coefficient_from_hardness, wear.combined_sigma, wear.lognormal_percentiles}

SIGNED = {"torque", "tilt", "pressure_angle", "speed", "offset", "axial_force"}
STEP = 1.001

SEVERAL = [function for function, sample in SAMPLES.items() if len(sample) > 1]
ARGUMENTS = [(function, name) for function, sample in SAMPLES.items() for name in sample]
SIZES = [(function, name) for function, name in ARGUMENTS if name not in SIGNED]
SYMMETRIC = [(function, name) for function, name in ARGUMENTS if name in SIGNED - {"pressure_angle"}]


def test_every_kernel_has_a_sample() -> None:
    filed = {function for function in FORMULAS if function.__module__ in MODULES}
    assert filed - OTHERS == set(SAMPLES)


@pytest.mark.parametrize("function", SAMPLES, ids=label)
def test_sample_gives_every_argument_and_a_finite_number(function: Callable[..., Any]) -> None:
    gives_a_finite_number(function, SAMPLES[function])


@pytest.mark.parametrize(("function", "name"), ARGUMENTS, ids=label)
def test_nan_in_gives_nan_out(function: Callable[..., Any], name: str) -> None:
    hands_on_nan(function, SAMPLES[function], name)


@pytest.mark.parametrize(("function", "name"), ARGUMENTS, ids=label)
def test_an_array_gives_what_its_members_give(function: Callable[..., Any], name: str) -> None:
    gives_for_an_array_what_its_members_give(function, SAMPLES[function], name, step=STEP, rtol=1e-14)


@pytest.mark.parametrize("function", SEVERAL, ids=label)
def test_arrays_broadcast(function: Callable[..., Any]) -> None:
    broadcasts(function, SAMPLES[function], step=STEP)


@pytest.mark.parametrize(("function", "name"), SYMMETRIC, ids=label)
def test_sign_is_ignored(function: Callable[..., Any], name: str) -> None:
    ignores_the_sign(function, SAMPLES[function], name)


@pytest.mark.parametrize(("function", "name"), SIZES, ids=label)
def test_negative_size_is_refused(function: Callable[..., Any], name: str) -> None:
    refuses_the_other_sign(function, SAMPLES[function], name)


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (wear.slip_amplitude, {"tilt": 90.0}),
        (wear.depth_per_revolution, {"pressure_angle": 30.0}),
        (wear.wear_flank_pressure, {"loaded_share": 1.5}),
        (wear.tilt_from_offset, {"span": 0.0}),
        (wear.depth_at_thickness_loss, {"loss": 10.0}),
        (wear.hours_to_depth, {"rate_after": 0.0}),
        (wear.running_in_depth, {"revolutions_scale": 0.0}),
        (wear.friction_lock_tilt, {"stiffness": 0.0}),
        (wear.friction_lock_tilt, {"pressure_angle": 30.0}),
        (wear.elastic_slip, {"shaft_area": 0.0}),
        (wear.hours_to_depth, {"induction": float("inf")}),
    ],
)
def test_out_of_range_is_refused(function: Callable[..., Any], arguments: dict[str, float]) -> None:
    refuses(function, SAMPLES[function], arguments)


def test_coefficient_needs_its_convention() -> None:
    with pytest.raises(DomainError, match="convention must be one of K over H, K over 3 H"):
        wear.wear_coefficient_from_hardness(1e-4, 7e9, convention="K")  # type: ignore[arg-type]
    with pytest.raises(TypeError, match="convention"):
        wear.wear_coefficient_from_hardness(1e-4, 7e9)  # type: ignore[call-arg]
