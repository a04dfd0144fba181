"""What every kernel of the folder must do: arrays, NaN, sign of the torque, refusals."""

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
    refuses,
    refuses_the_other_sign,
)

from torqcheck import capacity
from torqcheck.capacity import joining
from torqcheck.formulas import FORMULAS

MODULES = {
    f"torqcheck.capacity.{name}"
    for name in (
        "joining.axial_pins",
        "bursting",
        "crown_shape",
        "crowned",
        "flank_yield",
        "joining.fuse_pins",
        "guide_factors",
        "hard_layer",
        "old_shaft_code",
        "overhung_shaft",
        "shaft_bending",
        "joining.key_lengths",
        "joining.key_seats",
        "joining.keys",
        "joining.pins",
        "plastic_torsion",
        "joining.set_screws",
        "shear_lag",
        "spline_guide",
        "stiffness",
        "straight_guide",
        "tilt_wedge",
        "tooth_bending",
        "torsion",
        "weakened_section",
        "joining.woodruff",
    )
}

TEETH = {"torque": 600.0, "pitch_diameter": 0.036, "teeth": 18.0}
RIM = {"internal_major_diameter": 0.039, "outside_diameter": 0.052}
OVERLOAD = {"torque": 2900.0, "diameter": 0.030, "shear_yield": 457.5e6}
MATERIAL = {"elastic_modulus": 207e9, "poisson_ratio": 0.3}
SPIN = {"speed": 300.0, "density": 7850.0, "poisson_ratio": 0.3}
CROWN = TEETH | {"height": 0.0018, "crown_radius": 1.8} | MATERIAL
LAYER = {"surface_yield": 1614e6, "core_yield": 621e6, "case_depth": 0.8e-3}
KEYED = {"torque": 100.0, "shaft_diameter": 0.028}
CARRYING = {"key_length": 0.032, "carrying": 1.5}
ROUND_PIN = {"pin_diameter": 0.008, "carrying": 1.5}
STRAIGHT = {"major_diameter": 0.060, "minor_diameter": 0.052}
PINNED = {"outer_diameter": 0.025, "hole_diameter": 0.006, "bore": 0.008}

SAMPLES: dict[Callable[..., Any], dict[str, float]] = {
    capacity.polar_second_moment: {"outer_diameter": 0.040, "bore": 0.030},
    capacity.torsional_shear_stress: {"torque": 600.0, "outer_diameter": 0.040, "bore": 0.030},
    capacity.shear_yield_strength: {"yield_strength": 655e6},
    capacity.elastic_torque: {"outer_diameter": 0.040, "shear_yield": 300e6, "bore": 0.030},
    capacity.elastic_twist: {
        "torque": 600.0,
        "length": 0.2,
        "outer_diameter": 0.040,
        "shear_modulus": 79.3e9,
        "bore": 0.010,
    },
    capacity.bending_stress: {"moment": 50.0, "outer_diameter": 0.040, "bore": 0.010},
    capacity.von_mises_stress: {"bending_stress": 80e6, "shear_stress": 120e6},
    capacity.overhung_moment: {"force": 800.0, "overhang": 0.060},
    capacity.overhung_stiffness: {
        "outer_diameter": 0.025,
        "overhang": 0.060,
        "bearing_spacing": 0.150,
        "elastic_modulus": 207e9,
        "bore": 0.010,
    },
    capacity.forced_offset_force: {
        "offset": 0.1e-3,
        "side_stiffness": 15e6,
        "other_side_stiffness": 20e6,
    },
    capacity.keyway_strength_factor: {
        "outer_diameter": 0.040,
        "keyway_width": 0.012,
        "keyway_depth": 0.005,
    },
    capacity.cross_hole_shear_stress: {"torque": 200.0} | PINNED,
    capacity.cross_hole_bending_stress: {"moment": 50.0} | PINNED,
    capacity.old_code_allowable_shear: {
        "yield_strength": 400e6,
        "ultimate_strength": 600e6,
        "keyway_share": 0.75,
    },
    capacity.old_code_diameter: {
        "moment": 100.0,
        "torque": 400.0,
        "allowable_shear": 55e6,
        "bending_shock": 1.5,
        "torsion_shock": 1.2,
    },
    capacity.plastic_reserve: {"outer_diameter": 0.040, "bore": 0.030},
    capacity.elastic_core_share: {"torque_ratio": 1.2},
    capacity.plastic_twist: OVERLOAD | {"shear_modulus": 79.3e9},
    capacity.permanent_twist: OVERLOAD | {"shear_modulus": 79.3e9},
    capacity.residual_shear_stress: OVERLOAD | {"radius": 0.012},
    capacity.case_limited_torque: {"diameter": 0.030, "case_shear_yield": 966e6},
    capacity.core_limited_torque: {"diameter": 0.030, "core_shear_yield": 366e6, "case_depth": 0.003},
    capacity.balanced_case_depth: {"core_shear_yield": 366e6, "case_shear_yield": 966e6},
    capacity.root_shear_stress: {"torque": 600.0, "root_diameter": 0.033, "bore": 0.010},
    capacity.pitch_line_shear_stress: TEETH | {"length": 0.030, "thickness": 0.003, "loaded_share": 0.5},
    capacity.flank_pressure: TEETH | {"length": 0.030, "height": 0.0018},
    capacity.fixed_flank_pressure: TEETH | {"length": 0.030, "height": 0.0018},
    capacity.equal_strength_length: {
        "root_diameter": 0.033,
        "pitch_diameter": 0.036,
        "bore": 0.010,
        "loaded_share": 0.5,
    },
    capacity.end_gap: {"tilt": 0.004, "face_width": 0.030},
    capacity.load_distribution_factor: {"tilt": 0.004, "face_width": 0.030},
    capacity.wear_life_factor: {"revolutions": 3e7},
    capacity.wear_life_revolutions: {"pressure_at_unit_factor": 40e6, "allowable": 34.5e6},
    capacity.radial_bursting_stress: {
        "torque": 600.0,
        "pitch_diameter": 0.036,
        **RIM,
        "length": 0.030,
        "pressure_angle": radians(30),
    },
    capacity.centrifugal_bursting_stress: RIM | SPIN,
    capacity.beam_bursting_stress: {
        "torque": 600.0,
        "pitch_diameter": 0.036,
        "effective_length": 0.030,
        "form_factor": 1.5,
    },
    capacity.bursting_stress: {
        "torque": 600.0,
        "pitch_diameter": 0.036,
        **RIM,
        "length": 0.040,
        "effective_length": 0.030,
        "pressure_angle": radians(30),
        **SPIN,
        "form_factor": 1.5,
        "load_factor": 1.8,
    },
    capacity.crown_radius: {"face_width": 0.030, "crown_height": 60e-6},
    capacity.least_crown_height: {"face_width": 0.030, "tilt": 0.004},
    capacity.crowned_flank_pressure: CROWN,
    capacity.contact_half_width: CROWN,
    capacity.contact_shift: {"crown_radius": 1.8, "tilt": 0.004},
    capacity.edge_margin: {"face_width": 0.030, "half_width": 0.004, "shift": 0.007},
    capacity.straight_torque_capacity: {"allowable": 6.5e6, "teeth": 8.0, "length": 0.11, **STRAIGHT},
    capacity.straight_length: {"torque": 636.6, "allowable": 6.5e6, "teeth": 8.0, **STRAIGHT},
    capacity.straight_flank_pressure: {
        "torque": 636.6,
        **STRAIGHT,
        "teeth": 8.0,
        "length": 0.11,
        "loaded_share": 0.75,
        "chamfer": 0.0004,
    },
    capacity.torque_coefficient: {"teeth": 6.0, "minor_over_major": 0.9},
    capacity.shifting_force: {"torque": 636.6, "mean_radius": 0.028, "friction": 0.06},
    capacity.effective_pressure_angle: {"tooth_width": 0.010, "mean_radius": 0.028},
    capacity.torsional_stiffness: {
        "outer_diameter": 0.025,
        "length": 0.15,
        "bore": 0.01,
        "shear_modulus": 79.3e9,
    },
    capacity.spline_mesh_stiffness: {
        "pitch_diameter": 0.036,
        "teeth": 18.0,
        "length": 0.030,
        "loaded_share": 0.5,
        "tooth_stiffness": 15e9,
    },
    capacity.reflected_stiffness: {"stiffness": 9000.0, "ratio": 2.5},
    capacity.reflected_lash: {"lash": 0.01, "ratio": 2.5},
    capacity.lag_parameter: {"mesh_stiffness": 1.8e6, "shaft_stiffness": 1.2e5, "hub_stiffness": 5.9e5},
    capacity.same_side_factor: {"lag": 4.3},
    capacity.opposite_side_factor: {"lag": 4.3, "shaft_share": 0.2},
    capacity.leaving_end_factor: {"lag": 4.3, "shaft_share": 0.2},
    capacity.effective_length_same_side: {"length": 0.040, "lag": 4.3},
    capacity.tilt_parameter: {
        "tilt": 0.004,
        "length": 0.030,
        "line_load": 62e3,
        "tooth_stiffness": 15e9,
        "pressure_angle": radians(30),
    },
    capacity.tilt_load_factor: {"parameter": 4.0},
    capacity.tilt_contact_share: {"parameter": 4.0},
    capacity.tooth_root_bending_stress: {"line_load": 62e3, "lever_arm": 2e-3, "root_chord": 3e-3},
    capacity.rack_root_chord: {
        "tooth_thickness": 3e-3,
        "dedendum": 1.5e-3,
        "pressure_angle": radians(30),
    },
    capacity.flank_yield_pressure: LAYER | {"height": 1.2e-3},
    capacity.layered_root_strength: LAYER | {"root_chord": 4e-3},
    capacity.line_contact_yield_pressure: {"yield_strength": 621e6},
    joining.key_shear_stress: KEYED | {"key_width": 0.008} | CARRYING,
    joining.key_pressure: KEYED | {"seated_height": 0.0026} | CARRYING,
    joining.key_shear_torque: {
        "shear_yield": 200e6,
        "shaft_diameter": 0.028,
        "key_width": 0.008,
        **CARRYING,
    },
    joining.key_bearing_torque: {
        "allowable": 350e6,
        "shaft_diameter": 0.028,
        "seated_height": 0.0026,
        **CARRYING,
    },
    joining.key_shear_length: KEYED | {"key_width": 0.008, "shear_yield": 200e6, "safety_factor": 1.5},
    joining.key_bearing_length: KEYED | {"seated_height": 0.0026, "allowable": 350e6, "safety_factor": 1.5},
    joining.key_straight_length: {"key_length": 0.040, "key_width": 0.008, "round_ends": 1.0},
    joining.key_useful_length: {"key_length": 0.060, "shaft_diameter": 0.028, "most_diameters": 1.5},
    joining.key_shaft_seat: {"shaft_depth": 0.004, "edge_chamfer": 0.0004},
    joining.key_hub_seat: {"key_height": 0.007, "shaft_depth": 0.004, "edge_chamfer": 0.0004},
    joining.key_textbook_seat: {"key_height": 0.007, "seated_share": 0.5},
    joining.din_6892_pressure: KEYED | {"key_height": 0.007, "shaft_depth": 0.004} | CARRYING,
    joining.woodruff_chord: {"disc_diameter": 0.019, "shaft_depth": 0.0054},
    joining.woodruff_shaft_seat: {"disc_diameter": 0.019, "shaft_depth": 0.0054},
    joining.pin_shear_stress: KEYED | ROUND_PIN,
    joining.pin_shaft_pressure: {
        "torque": 200.0,
        "outer_diameter": 0.025,
        "pin_diameter": 0.008,
        "bore": 0.005,
        "carrying": 1.5,
    },
    joining.pin_hub_pressure: KEYED | {"hub_outside_diameter": 0.045} | ROUND_PIN,
    joining.axial_pin_shear_stress: KEYED | {"pin_diameter": 0.008} | CARRYING,
    joining.axial_pin_pressure: KEYED | {"pin_diameter": 0.008} | CARRYING,
    joining.taper_pin_diameter: {"small_end": 0.008, "pin_length": 0.045, "taper": 50.0},
    joining.pin_breaking_torque: {
        "ultimate_strength": 621e6,
        "shaft_diameter": 0.069,
        "pin_diameter": 0.007,
        "shear_share": 0.75,
        "carrying": 1.5,
    },
    joining.set_screw_torque: {
        "holding_power": 4448.0,
        "shaft_diameter": 0.025,
        "screws": 1.3,
        "point_factor": 0.92,
    },
}

# arguments that may be negative, because only their size counts, or zero; none of them is a size
SIGNED = {
    "torque",
    "tilt",
    "pressure_angle",
    "speed",
    "lash",
    "torque_ratio",
    "load_factor",
    "poisson_ratio",
    "moment",
    "force",
    "bending_stress",
    "shear_stress",
}
# sample arguments close enough to 1 that a share stays one
STEP = 1.001

SEVERAL = [function for function, sample in SAMPLES.items() if len(sample) > 1]
WITH_TORQUE = [function for function, sample in SAMPLES.items() if "torque" in sample]
IDS = [function.__name__ for function in SAMPLES]
ARGUMENTS = [(function, name) for function, sample in SAMPLES.items() for name in sample]
ARGUMENT_IDS = [f"{function.__name__}-{name}" for function, name in ARGUMENTS]


def test_every_kernel_has_a_sample() -> None:
    filed = {function for function in FORMULAS if function.__module__ in MODULES}
    assert filed - {capacity.series_stiffness, joining.carrying_keys} == set(SAMPLES)


@pytest.mark.parametrize("function", SAMPLES, ids=IDS)
def test_sample_gives_every_argument_and_a_finite_number(function: Callable[..., Any]) -> None:
    gives_a_finite_number(function, SAMPLES[function])


@pytest.mark.parametrize(("function", "name"), ARGUMENTS, ids=ARGUMENT_IDS)
def test_nan_in_gives_nan_out(function: Callable[..., Any], name: str) -> None:
    hands_on_nan(function, SAMPLES[function], name)


@pytest.mark.parametrize(("function", "name"), ARGUMENTS, ids=ARGUMENT_IDS)
def test_an_array_gives_what_its_members_give(function: Callable[..., Any], name: str) -> None:
    gives_for_an_array_what_its_members_give(function, SAMPLES[function], name, step=STEP, rtol=1e-14)


@pytest.mark.parametrize("function", SEVERAL, ids=lambda f: f.__name__)
def test_arrays_broadcast(function: Callable[..., Any]) -> None:
    broadcasts(function, SAMPLES[function], step=STEP)


@pytest.mark.parametrize(
    "function", [f for f, s in SAMPLES.items() if "torque" in s], ids=lambda f: f.__name__
)
def test_sign_of_the_torque_is_ignored(function: Callable[..., Any]) -> None:
    ignores_the_sign(function, SAMPLES[function], "torque")


@pytest.mark.parametrize(
    "function", [f for f, s in SAMPLES.items() if "carrying" in s], ids=lambda f: f.__name__
)
def test_twice_as_many_keys_or_pins_carry_twice_as_much(function: Callable[..., Any]) -> None:
    sample = SAMPLES[function]
    more = function(**sample | {"carrying": 2.0 * sample["carrying"]})
    twice = 0.5 if "torque" in sample else 2.0  # half the stress of a torque, or twice the torque
    assert more == pytest.approx(twice * function(**sample), rel=1e-14)


@pytest.mark.parametrize(
    ("function", "name"),
    [(function, name) for function, name in ARGUMENTS if name not in SIGNED],
    ids=[label for (_, name), label in zip(ARGUMENTS, ARGUMENT_IDS, strict=True) if name not in SIGNED],
)
def test_negative_size_is_refused(function: Callable[..., Any], name: str) -> None:
    refuses_the_other_sign(function, SAMPLES[function], name)


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (capacity.torsional_shear_stress, {"bore": 0.040}),
        (capacity.pitch_line_shear_stress, {"loaded_share": 1.01}),
        (capacity.pitch_line_shear_stress, {"length": 0.0}),
        (capacity.radial_bursting_stress, {"outside_diameter": 0.039}),
        (capacity.radial_bursting_stress, {"pressure_angle": 30.0}),
        (capacity.load_distribution_factor, {"tilt": 2.0}),
        (capacity.elastic_core_share, {"torque_ratio": 1.34}),
        (capacity.plastic_twist, {"torque": 2426.0 * 4 / 3}),
        (capacity.residual_shear_stress, {"radius": 0.0151}),
        (capacity.core_limited_torque, {"case_depth": 0.015}),
        (capacity.balanced_case_depth, {"core_shear_yield": 967e6}),
        (capacity.straight_flank_pressure, {"chamfer": 0.002}),
        (capacity.effective_pressure_angle, {"tooth_width": 0.056}),
        (capacity.opposite_side_factor, {"shaft_share": 1.2}),
        (capacity.leaving_end_factor, {"shaft_share": 1.2}),
        (capacity.tilt_parameter, {"tilt": 2.0}),
        (capacity.rack_root_chord, {"pressure_angle": 30.0}),
        (capacity.line_contact_yield_pressure, {"yield_strength": -1.0}),
        (capacity.keyway_strength_factor, {"keyway_width": 0.021}),
        (capacity.keyway_strength_factor, {"keyway_depth": 0.013}),
        (capacity.cross_hole_shear_stress, {"hole_diameter": 0.011}),
        (capacity.cross_hole_bending_stress, {"bore": 0.025}),
        (capacity.old_code_allowable_shear, {"keyway_share": 1.1}),
        (capacity.old_code_diameter, {"torsion_shock": 0.9}),
        (joining.key_straight_length, {"round_ends": 2.1}),
        (joining.key_straight_length, {"key_length": 0.004}),
        (joining.key_hub_seat, {"shaft_depth": 0.0067}),
        (joining.key_shaft_seat, {"edge_chamfer": 0.004}),
        (joining.key_textbook_seat, {"seated_share": 1.1}),
        (joining.woodruff_chord, {"shaft_depth": 0.0096}),
        (joining.woodruff_shaft_seat, {"shaft_depth": 0.0096}),
        (joining.pin_hub_pressure, {"hub_outside_diameter": 0.028}),
        (joining.pin_shaft_pressure, {"bore": 0.025}),
    ],
)
def test_arguments_out_of_range_are_refused(
    function: Callable[..., Any], arguments: dict[str, float]
) -> None:
    refuses(function, SAMPLES[function], arguments)
