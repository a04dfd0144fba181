"""What every kernel of the folder must do: arrays, NaN, refusals."""

from collections.abc import Callable
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

from torqcheck import fatigue
from torqcheck.formulas import FORMULAS

STEEL = {"ultimate_strength": 945e6}
LINE = {"low_cycle_strength": 510e6, "endurance_limit": 143e6}
CYCLE = {"amplitude": 138e6, "mean": 120e6}
SPLINE = {"minor_diameter": 0.033, "major_diameter": 0.038}
SHOULDER = {"larger_diameter": 0.060, "diameter": 0.040, "fillet_radius": 0.004}
KEYSEAT = {"fillet_radius": 0.8e-3, "diameter": 0.040}
HOLE = {"hole_diameter": 0.006, "diameter": 0.040, "bore": 0.012}
LOADS = {"moment": 120.0, "torque": 300.0}
NOTCHES = {"bending_notch_factor": 1.8, "torsion_notch_factor": 1.5}
BOTH = {"alternating_load": 500.0, "mean_load": 400.0}
SECTION = {"diameter": 0.030}
LIMIT = {"endurance_limit": 200e6}
YIELD = {"yield_strength": 500e6}
WANTED = {"safety_factor": 2.0}
BORED = {"bore": 0.012}
HOLLOW = {"bore_share": 0.4}

SAMPLES: dict[Callable[..., Any], dict[str, float]] = {
    fatigue.bending_limit: STEEL,
    fatigue.shear_ultimate_strength: STEEL,
    fatigue.surface_factor: STEEL | {"finish_coefficient": 4.51, "finish_exponent": -0.265},
    fatigue.size_factor: {"diameter": 0.030},
    fatigue.load_factor_of_strength: STEEL,
    fatigue.temperature_factor: {"temperature": 423.0},
    fatigue.reliability_factor: {"reliability": 0.99},
    fatigue.endurance_limit: {
        "limit_of_bar": 472e6,
        "surface_factor": 0.73,
        "size_factor": 0.86,
        "load_factor": 0.59,
        "temperature_factor": 1.0,
        "reliability_factor": 0.814,
    },
    fatigue.strength_fraction: STEEL,
    fatigue.strength_fraction_11th: STEEL,
    fatigue.line_coefficient: LINE,
    fatigue.line_exponent: LINE,
    fatigue.amplitude_on_line: {"life": 1e4, "coefficient": 1800e6, "exponent": -0.18},
    fatigue.life_on_line: {"amplitude": 200e6, "coefficient": 1800e6, "exponent": -0.18},
    fatigue.life_below_limit: {"amplitude": 100e6, "endurance_limit": 143e6, "exponent": -0.18},
    fatigue.amplitude_below_limit: {"life": 3e7, "endurance_limit": 143e6, "exponent": -0.18},
    fatigue.amplitude_of_few_cycles: {"life": 300.0, "ultimate": 700e6, "exponent": -0.03},
    fatigue.low_cycle_exponent: {"low_cycle_strength": 510e6, "strength": 633e6},
    fatigue.notch_constant_in_torsion: STEEL,
    fatigue.notch_constant_in_bending: STEEL,
    fatigue.notch_sensitivity: {"fillet_radius": 0.4e-3, "notch_constant": 0.0049},
    fatigue.fatigue_notch_factor: {"stress_concentration": 2.8, "sensitivity": 0.8},
    fatigue.equivalent_diameter: SPLINE | {"share_of_height": 0.15},
    fatigue.spline_stress_concentration: SPLINE | {"fillet_radius": 0.4e-3, "share_of_height": 0.15},
    fatigue.shoulder_bending_by_polynomial: SHOULDER,
    fatigue.shoulder_torsion_by_polynomial: SHOULDER,
    fatigue.shoulder_bending_by_power: SHOULDER,
    fatigue.shoulder_torsion_by_power: SHOULDER,
    fatigue.shoulder_bending_concentration: SHOULDER,
    fatigue.shoulder_torsion_concentration: SHOULDER,
    fatigue.keyseat_bending_concentration: KEYSEAT,
    fatigue.keyseat_torsion_concentration: KEYSEAT,
    fatigue.loaded_keyseat_torsion_concentration: KEYSEAT,
    fatigue.cross_hole_bending_concentration: HOLE,
    fatigue.cross_hole_torsion_concentration: HOLE,
    fatigue.din_keyseat_bending_factor: STEEL,
    fatigue.din_keyseat_torsion_factor: STEEL,
    fatigue.din_press_fit_bending_factor: STEEL,
    fatigue.din_press_fit_torsion_factor: STEEL,
    fatigue.combined_load: LOADS | NOTCHES,
    fatigue.de_goodman_factor: BOTH | SECTION | LIMIT | STEEL | BORED,
    fatigue.de_gerber_factor: BOTH | SECTION | LIMIT | STEEL | BORED,
    fatigue.de_soderberg_factor: BOTH | SECTION | LIMIT | YIELD | BORED,
    fatigue.de_elliptic_factor: BOTH | SECTION | LIMIT | YIELD | BORED,
    fatigue.de_goodman_diameter: BOTH | WANTED | LIMIT | STEEL | HOLLOW,
    fatigue.de_gerber_diameter: BOTH | WANTED | LIMIT | STEEL | HOLLOW,
    fatigue.de_soderberg_diameter: BOTH | WANTED | LIMIT | YIELD | HOLLOW,
    fatigue.de_elliptic_diameter: BOTH | WANTED | LIMIT | YIELD | HOLLOW,
    fatigue.shaft_standard_diameter: LOADS | WANTED | LIMIT | YIELD | {"bending_notch_factor": 1.8},
    fatigue.first_cycle_yield_factor: LOADS | SECTION | YIELD | BORED | NOTCHES,
    fatigue.yoshitake_stress_concentration: {"fillet_radius": 0.8e-3, "root_diameter": 0.042},
    fatigue.goodman_amplitude: CYCLE | {"strength": 633e6},
    fatigue.gerber_amplitude: CYCLE | {"strength": 633e6},
    fatigue.soderberg_amplitude: CYCLE | {"yield_strength": 457e6},
    fatigue.elliptic_amplitude: CYCLE | {"yield_strength": 457e6},
    fatigue.morrow_amplitude: CYCLE | {"true_strength": 745e6},
    fatigue.linear_safety_factor: CYCLE | {"endurance_limit": 143e6, "strength": 633e6},
    fatigue.gerber_safety_factor: CYCLE | {"endurance_limit": 143e6, "strength": 633e6},
    fatigue.elliptic_safety_factor: CYCLE | {"endurance_limit": 143e6, "yield_strength": 457e6},
    fatigue.equivalent_full_cycles: {"damping_ratio": 0.03, "line_slope": 5.4},
    fatigue.first_ringing_share: {"damping_ratio": 0.03},
    fatigue.boundary_stress_share: {"case_depth": 0.9e-3, "diameter": 0.036},
    fatigue.din_size_factor: {"diameter": 0.030},
    fatigue.din_roughness_factor: STEEL | {"roughness": 10e-6},
    fatigue.din_strength_size_factor: {"diameter": 0.030},
    fatigue.din_spline_notch_factor: STEEL | {"form_share": 0.75},
    fatigue.din_total_factor: {
        "notch_factor": 1.39,
        "size_factor": 0.907,
        "roughness_factor": 0.91,
        "hardening": 1.0,
    },
    fatigue.din_endurance_limit: STEEL | {"total_factor": 1.63, "strength_size": 0.95},
    fatigue.din_mean_sensitivity: {"notched_limit": 175e6} | STEEL | {"strength_size": 0.95},
    fatigue.din_allowable_amplitude: {
        "notched_limit": 175e6,
        "mean_sensitivity": 0.1,
        "mean_over_amplitude": 1.0,
    },
    fatigue.weld_life: {"stress_range": 60e6, "detail_class": 80e6, "line_slope": 5.0},
    fatigue.weld_range: {"life": 1e6, "detail_class": 80e6, "line_slope": 5.0},
}
OTHERS = {fatigue.damage_sum}  # sums along an axis

ANY_SIGN = {"mean", "mean_over_amplitude", "finish_exponent", "moment", "torque"}
STEP = 0.999

SEVERAL = [function for function, sample in SAMPLES.items() if len(sample) > 1]
ARGUMENTS = [(function, name) for function, sample in SAMPLES.items() for name in sample]
SIZES = [(function, name) for function, name in ARGUMENTS if name not in ANY_SIGN]
SYMMETRIC = [
    (function, name) for function, name in ARGUMENTS if name in ANY_SIGN and name != "finish_exponent"
]


def test_every_kernel_has_a_sample() -> None:
    filed = {function for function in FORMULAS if function.__module__.startswith("torqcheck.fatigue")}
    assert filed - OTHERS == set(SAMPLES)


def test_every_public_name_is_offered() -> None:
    assert set(fatigue.__all__) <= set(vars(fatigue))


@pytest.mark.parametrize("function", SAMPLES, ids=label)
def test_sample_gives_every_argument_and_a_finite_number(function: Callable[..., Any]) -> None:
    gives_a_finite_number(function, SAMPLES[function])


@pytest.mark.parametrize(("function", "name"), ARGUMENTS, ids=label)
def test_nan_in_gives_nan_out(function: Callable[..., Any], name: str) -> None:
    hands_on_nan(function, SAMPLES[function], name)


@pytest.mark.parametrize(("function", "name"), ARGUMENTS, ids=label)
def test_an_array_gives_what_its_members_give(function: Callable[..., Any], name: str) -> None:
    gives_for_an_array_what_its_members_give(function, SAMPLES[function], name, step=STEP, rtol=1e-13)


@pytest.mark.parametrize("function", SEVERAL, ids=label)
def test_arrays_broadcast(function: Callable[..., Any]) -> None:
    broadcasts(function, SAMPLES[function], step=STEP)


@pytest.mark.parametrize(("function", "name"), SYMMETRIC, ids=label)
def test_sign_is_ignored(function: Callable[..., Any], name: str) -> None:
    ignores_the_sign(function, SAMPLES[function], name)


@pytest.mark.parametrize(("function", "name"), SIZES, ids=label)
def test_a_wrong_sign_is_refused(function: Callable[..., Any], name: str) -> None:
    refuses_the_other_sign(function, SAMPLES[function], name)


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (fatigue.size_factor, {"diameter": 0.002}),
        (fatigue.size_factor, {"diameter": 30.0}),
        (fatigue.temperature_factor, {"temperature": 1000.0}),
        (fatigue.reliability_factor, {"reliability": 1.0}),
        (fatigue.reliability_factor, {"reliability": 0.4}),
        (fatigue.line_exponent, {"endurance_limit": 510e6}),
        (fatigue.low_cycle_exponent, {"strength": 500e6}),
        (fatigue.life_on_line, {"exponent": 0.1}),
        (fatigue.life_below_limit, {"exponent": -1.0}),
        (fatigue.amplitude_below_limit, {"exponent": -1.0}),
        (fatigue.amplitude_of_few_cycles, {"exponent": 0.01}),
        (fatigue.notch_constant_in_torsion, {"ultimate_strength": 1530e6}),
        (fatigue.notch_constant_in_bending, {"ultimate_strength": 300e6}),
        (fatigue.fatigue_notch_factor, {"stress_concentration": 0.9}),
        (fatigue.fatigue_notch_factor, {"sensitivity": 1.1}),
        (fatigue.equivalent_diameter, {"minor_diameter": 0.038}),
        (fatigue.yoshitake_stress_concentration, {"fillet_radius": 2e-3}),
        (fatigue.shoulder_bending_by_polynomial, {"fillet_radius": 0.4e-3}),
        (fatigue.shoulder_torsion_by_polynomial, {"fillet_radius": 2e-3}),
        (fatigue.shoulder_bending_by_power, {"larger_diameter": 0.0419}),
        (fatigue.shoulder_torsion_by_power, {"fillet_radius": 0.013}),
        (fatigue.shoulder_bending_concentration, {"larger_diameter": 0.040}),
        (fatigue.shoulder_bending_concentration, {"fillet_radius": 0.07e-3}),
        (fatigue.shoulder_torsion_concentration, {"fillet_radius": 0.041}),
        (fatigue.keyseat_bending_concentration, {"fillet_radius": 3e-3}),
        (fatigue.keyseat_torsion_concentration, {"fillet_radius": 0.1e-3}),
        (fatigue.cross_hole_bending_concentration, {"hole_diameter": 0.017}),
        (fatigue.cross_hole_torsion_concentration, {"bore": 0.040}),
        (fatigue.din_keyseat_bending_factor, {"ultimate_strength": 290e6}),
        (fatigue.din_press_fit_torsion_factor, {"ultimate_strength": 1410e6}),
        (fatigue.combined_load, {"torsion_notch_factor": 0.9}),
        (fatigue.de_goodman_factor, {"bore": 0.030}),
        (fatigue.de_goodman_diameter, {"bore_share": 1.0}),
        (fatigue.first_cycle_yield_factor, {"bending_notch_factor": 0.9}),
        (fatigue.equivalent_full_cycles, {"damping_ratio": 0.0}),
        (fatigue.first_ringing_share, {"damping_ratio": -0.1}),
        (fatigue.boundary_stress_share, {"case_depth": 0.018}),
        (fatigue.din_strength_size_factor, {"diameter": 0.4}),
        (fatigue.din_spline_notch_factor, {"ultimate_strength": 2e9}),
        (fatigue.din_mean_sensitivity, {"notched_limit": 2e9}),
    ],
    ids=label,
)
def test_out_of_range_is_refused(function: Callable[..., Any], arguments: dict[str, float]) -> None:
    refuses(function, SAMPLES[function], arguments)
