"""What every kernel of fits, clamps and bushes must do: arrays, NaN, signs, refusals."""

from collections.abc import Callable
from math import inf, isnan, radians
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
    for name in (
        "clamping",
        "collar",
        "interference",
        "interference_grip",
        "interference_heat",
        "interference_joining",
        "interference_speed",
        "interference_stress",
        "keyless_bush",
    )
}

SIZES = {"diameter": 0.040, "outside_diameter": 0.080, "bore": 0.012}
TWO = {
    "hub_modulus": 70e9,
    "hub_poisson_ratio": 0.33,
    "shaft_modulus": 207e9,
    "shaft_poisson_ratio": 0.29,
}
HEAVY = {
    "hub_modulus": 70e9,
    "hub_poisson_ratio": 0.33,
    "hub_density": 2700.0,
    "shaft_modulus": 207e9,
    "shaft_poisson_ratio": 0.29,
    "shaft_density": 7850.0,
}
SEAT = {"pressure": 50e6, "diameter": 0.040, "length": 0.045, "friction": 0.12}
TURNING = {"speed": 800.0, "diameter": 0.040, "outside_diameter": 0.080, "density": 7850.0}
CLAMP = {"screw_force": 25e3, "screws": 2.0, "diameter": 0.030, "friction": 0.12}
BUSH = {"hub_bore": 0.060, "pressure": 100e6, "yield_strength": 400e6, "width_share": 0.8}

SAMPLES: dict[Callable[..., Any], dict[str, float]] = {
    joining.interference_pressure: {"interference": 40e-6} | SIZES | TWO,
    joining.interference_from_pressure: {"pressure": 50e6} | SIZES | TWO,
    joining.same_material_pressure: {"interference": 40e-6} | SIZES | {"elastic_modulus": 207e9},
    joining.interference_after_roughness: {
        "interference": 40e-6,
        "hub_roughness": 6e-6,
        "shaft_roughness": 4e-6,
        "roughness_share": 0.8,
    },
    joining.hub_outside_growth: {
        "pressure": 50e6,
        "diameter": 0.040,
        "outside_diameter": 0.080,
        "elastic_modulus": 207e9,
    },
    joining.hub_bore_hoop_stress: {"pressure": 50e6, "diameter": 0.040, "outside_diameter": 0.080},
    joining.weakest_wall_hoop_stress: {
        "pressure": 50e6,
        "diameter": 0.040,
        "wall_outside": 0.078,
        "wall_inside": 0.0466,
    },
    joining.bore_equivalent_stress: {"hoop_stress": 90e6, "pressure": 50e6},
    joining.shaft_equivalent_stress: {"pressure": 50e6, "diameter": 0.040, "bore": 0.012},
    joining.hub_pressure_limit: {"yield_strength": 400e6, "diameter": 0.040, "outside_diameter": 0.080},
    joining.shaft_pressure_limit: {"yield_strength": 400e6, "diameter": 0.040, "bore": 0.012},
    joining.grip_torque: SEAT,
    joining.grip_force: SEAT,
    joining.pressing_force: SEAT,
    joining.grip_force_needed: {"torque": 300.0, "axial_force": 4000.0, "diameter": 0.040},
    joining.torque_beside_thrust: {"torque": 300.0, "axial_force": 4000.0, "diameter": 0.040},
    joining.interference_lost_to_speed: {"speed": 800.0} | SIZES | HEAVY,
    joining.separation_speed: {"interference": 40e-6} | SIZES | HEAVY,
    joining.zero_pressure_hoop_stress: TURNING | {"poisson_ratio": 0.29},
    joining.same_material_pressure_lost: TURNING | {"poisson_ratio": 0.29},
    joining.interference_lost_to_heat: {
        "diameter": 0.040,
        "hub_expansion": 23e-6,
        "shaft_expansion": 11.3e-6,
        "hub_rise": 60.0,
        "shaft_rise": 50.0,
    },
    joining.joining_temperature_rise: {
        "interference": 59e-6,
        "clearance": 40e-6,
        "hub_expansion": 11.3e-6,
        "diameter": 0.040,
    },
    joining.shaft_shrinkage: {"diameter": 0.040, "shaft_expansion": 8.5e-6, "cooling": 98.0},
    joining.two_piece_pressure: {"screw_force": 25e3, "screws": 4.0, "diameter": 0.030, "length": 0.040},
    joining.two_piece_torque: CLAMP,
    joining.two_piece_stiff_torque: CLAMP,
    joining.one_slit_belt_torque: CLAMP,
    joining.one_slit_stiff_torque: CLAMP,
    joining.collar_axial_hold: {"screw_force": 25e3, "screws": 1.0, "friction": 0.12},
    joining.split_muff_torque: {
        "bolt_diameter": 0.0222,
        "bolt_stress": 70e6,
        "screws": 6.0,
        "diameter": 0.075,
        "friction": 0.3,
    },
    joining.taper_radial_force: {"tightening_force": 20e3, "taper_angle": radians(7.0), "friction": 0.12},
    joining.bush_hub_diameter: BUSH,
    joining.bush_hub_diameter_by_shear: BUSH,
}

# arguments that may be negative; none of them is a size
SIGNED = {
    "torque",
    "axial_force",
    "speed",
    "hub_rise",
    "shaft_rise",
    "poisson_ratio",
    "hub_poisson_ratio",
    "shaft_poisson_ratio",
}
EVEN = {"torque", "axial_force", "speed"}
STEP = 1.001

ARGUMENTS = [(function, name) for function, sample in SAMPLES.items() for name in sample]


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


@pytest.mark.parametrize("function", SAMPLES, ids=lambda f: f.__name__)
def test_arrays_broadcast(function: Callable[..., Any]) -> None:
    broadcasts(function, SAMPLES[function], step=STEP)


@pytest.mark.parametrize(("function", "name"), labelled([pair for pair in ARGUMENTS if pair[1] in EVEN]))
def test_sign_is_ignored(function: Callable[..., Any], name: str) -> None:
    ignores_the_sign(function, SAMPLES[function], name)


@pytest.mark.parametrize(
    ("function", "name"), labelled([pair for pair in ARGUMENTS if pair[1] not in SIGNED])
)
def test_negative_size_is_refused(function: Callable[..., Any], name: str) -> None:
    refuses_the_other_sign(function, SAMPLES[function], name)


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (joining.interference_pressure, {"outside_diameter": 0.040}),
        (joining.interference_pressure, {"bore": 0.040}),
        (joining.interference_pressure, {"hub_modulus": 0.0}),
        (joining.same_material_pressure, {"bore": 0.041}),
        (joining.weakest_wall_hoop_stress, {"wall_inside": 0.039}),
        (joining.weakest_wall_hoop_stress, {"wall_outside": 0.0466}),
        (joining.shaft_equivalent_stress, {"bore": 0.040}),
        (joining.grip_torque, {"length": 0.0}),
        (joining.grip_force_needed, {"diameter": 0.0}),
        (joining.interference_lost_to_speed, {"outside_diameter": 0.039}),
        (joining.joining_temperature_rise, {"hub_expansion": 0.0}),
        (joining.one_slit_stiff_torque, {"screws": 0.0}),
        (joining.taper_radial_force, {"taper_angle": radians(89.0), "friction": 0.1}),
        (joining.taper_radial_force, {"taper_angle": 0.0, "friction": 0.0}),
        (joining.bush_hub_diameter, {"pressure": 500e6}),
        (joining.bush_hub_diameter_by_shear, {"pressure": 250e6}),
        (joining.bush_hub_diameter, {"width_share": 1.1}),
    ],
)
def test_arguments_out_of_range_are_refused(
    function: Callable[..., Any], arguments: dict[str, float]
) -> None:
    refuses(function, SAMPLES[function], arguments)


def test_a_fit_whose_shaft_grows_more_never_comes_loose() -> None:
    heavy_shaft = HEAVY | {"hub_density": 0.0}
    assert joining.separation_speed(40e-6, 0.040, 0.080, **heavy_shaft) == inf
    assert isnan(joining.separation_speed(float("nan"), 0.040, 0.080, **heavy_shaft))
    assert joining.separation_speed(0.0, 0.040, 0.080, **HEAVY) == 0.0


def test_roughness_never_leaves_less_than_nothing() -> None:
    assert joining.interference_after_roughness(5e-6, 6e-6, 6e-6) == 0.0
