"""What every formula of the folder must do: arrays, NaN, and refusal of what its docstring rules out."""

from collections.abc import Callable
from math import pi, radians
from typing import Any

import numpy as np
import pytest
from kernel_rules import (
    broadcasts,
    gives_a_finite_number,
    gives_for_an_array_what_its_members_give,
    hands_on_nan,
    label,
)

from torqcheck.errors import DomainError
from torqcheck.formulas import FORMULAS
from torqcheck.geometry.axial.stack import (
    axial_holding_force,
    statistical_tolerance,
    thermal_growth,
    usable_engagement,
    worst_case_tolerance,
)
from torqcheck.geometry.axial.stack_chance import chance_below
from torqcheck.geometry.drawing.cut_lengths import cutter_run_out, involute_chord_error
from torqcheck.geometry.involute import inverse_involute, involute, width_at_radius
from torqcheck.geometry.measuring.pin_contact import (
    between_pins_contact_diameter,
    over_pins_contact_diameter,
    pin_at_pitch_circle_of_gap,
    pin_at_pitch_circle_of_space,
)
from torqcheck.geometry.measuring.pin_sensitivity import (
    between_pins_per_pin,
    between_pins_per_space,
    over_pins_per_pin,
    over_pins_per_thickness,
)
from torqcheck.geometry.measuring.pins import between_pins, over_pins, space_from_pins, thickness_from_pins
from torqcheck.geometry.measuring.span import (
    chordal_height,
    chordal_thickness,
    span_over_teeth,
    thickness_from_span,
)
from torqcheck.geometry.pairs.base_circle import (
    base_diameter_from_between_pins,
    base_diameter_from_over_pins,
    base_pitch_from_spans,
)
from torqcheck.geometry.pairs.lash import (
    angle_from_clearance,
    angle_from_travel,
    clearance_from_angle,
    clearance_from_travel,
    travel_from_clearance,
)
from torqcheck.geometry.pairs.radial_play import clearance_from_radial_play, radial_play_from_clearance

Kernel = Callable[..., Any]

# 30 teeth of module 1 mm: tooth and space of half a pitch
CUT = {"teeth": 30.0, "module": 1e-3, "pressure_angle": radians(30.0)}
TOOTH = CUT | {"tooth_thickness": 0.5e-3 * pi}
SPACE = CUT | {"space_width": 0.5e-3 * pi}
SAMPLES: dict[Kernel, dict[str, float]] = {
    involute: {"angle": radians(30.0)},
    inverse_involute: {"value": 0.05},
    width_at_radius: {
        "radius": 0.0155,
        "pitch_diameter": 0.030,
        "pressure_angle": radians(30.0),
        "width": 1.5e-3,
    },
    angle_from_travel: {"travel": 2e-3, "radius": 0.2},
    clearance_from_angle: {"angle": 0.01, "pitch_diameter": 0.030},
    angle_from_clearance: {"clearance": 1e-4, "pitch_diameter": 0.030},
    clearance_from_travel: {"travel": 2e-3, "radius": 0.2, "pitch_diameter": 0.030},
    travel_from_clearance: {"clearance": 1e-4, "radius": 0.2, "pitch_diameter": 0.030},
    over_pins: TOOTH | {"pin_diameter": 1.9e-3},
    between_pins: SPACE | {"pin_diameter": 1.7e-3},
    thickness_from_pins: CUT | {"over_pins": 32.9e-3, "pin_diameter": 1.9e-3},
    space_from_pins: CUT | {"between_pins": 27.2e-3, "pin_diameter": 1.7e-3},
    over_pins_contact_diameter: TOOTH | {"pin_diameter": 1.9e-3},
    between_pins_contact_diameter: SPACE | {"pin_diameter": 1.7e-3},
    pin_at_pitch_circle_of_gap: TOOTH,
    pin_at_pitch_circle_of_space: SPACE,
    over_pins_per_thickness: TOOTH | {"pin_diameter": 1.9e-3},
    over_pins_per_pin: TOOTH | {"pin_diameter": 1.9e-3},
    between_pins_per_space: SPACE | {"pin_diameter": 1.7e-3},
    between_pins_per_pin: SPACE | {"pin_diameter": 1.7e-3},
    clearance_from_radial_play: {
        "radial_play": 1e-4,
        "pressure_angle": radians(30.0),
        "teeth": 30.0,
    },
    radial_play_from_clearance: {
        "clearance": 1e-4,
        "pressure_angle": radians(30.0),
        "teeth": 30.0,
    },
    span_over_teeth: TOOTH | {"spanned_teeth": 6.0},
    thickness_from_span: CUT | {"span": 16.2e-3, "spanned_teeth": 6.0},
    chordal_thickness: {"pitch_diameter": 0.030, "tooth_thickness": 1.5e-3},
    chordal_height: {"pitch_diameter": 0.030, "tooth_thickness": 1.5e-3, "major_diameter": 0.031},
    thermal_growth: {"expansion": 12e-6, "length": 0.3, "temperature_rise": 60.0},
    usable_engagement: {
        "overlap": 0.030,
        "lost_length": 0.002,
        "external_cut": 0.026,
        "internal_cut": 0.040,
    },
    axial_holding_force: {"torque": 300.0, "pitch_diameter": 0.030, "friction": 0.15},
    chance_below: {"limit": 0.0, "nominal": 3e-4, "deviation": 1.5e-4},
    base_diameter_from_over_pins: {
        "teeth": 30.0,
        "over_pins": 32.94e-3,
        "pin_diameter": 1.92e-3,
        "second_over_pins": 32.03e-3,
        "second_pin_diameter": 1.6e-3,
    },
    base_diameter_from_between_pins: {
        "teeth": 30.0,
        "between_pins": 27.1e-3,
        "pin_diameter": 1.75e-3,
        "second_between_pins": 27.87e-3,
        "second_pin_diameter": 1.5e-3,
    },
    base_pitch_from_spans: {
        "span": 16.2e-3,
        "spanned_teeth": 6.0,
        "second_span": 13.48e-3,
        "second_spanned_teeth": 5.0,
    },
    involute_chord_error: {"base_radius": 0.013, "roll_start": 0.3, "roll_end": 0.4},
    cutter_run_out: {"tooth_depth": 2e-3, "cutter_diameter": 0.070},
}
# they take a sequence, or hand on no single number
OTHERS = {worst_case_tolerance, statistical_tolerance}

WHOLE = {"teeth", "spanned_teeth", "second_spanned_teeth"}
SIGNED = {"torque", "temperature_rise", "overlap", "limit", "nominal"}
MAY_BE_ZERO = {
    "angle", "travel", "clearance", "radial_play", "friction", "expansion", "lost_length", "deviation",
    "roll_start", "length",
}  # fmt: skip
STEP = 1.0001

ARGUMENTS = [(function, name) for function, sample in SAMPLES.items() for name in sample]
BEYOND = {
    "pressure_angle": (0.0, radians(90.0)),
    "teeth": (3.0, 30.5),
    "tooth_thickness": (1.001e-3 * pi,),
    "space_width": (1.001e-3 * pi,),
    "spanned_teeth": (6.5,),
    "second_spanned_teeth": (6.0,),
    "second_pin_diameter": (2.0e-3,),
    "roll_end": (0.29,),
    "cutter_diameter": (3.9e-3,),
}
CHORDS = {chordal_thickness, chordal_height}


def refuses(function: Kernel, name: str, value: float) -> None:
    """Refuse the value, alone and as a member of an array."""
    sample = SAMPLES[function]
    for bad in (value, np.array([sample[name], value])):
        with pytest.raises(DomainError):
            function(**{**sample, name: bad})


def test_every_formula_has_a_sample() -> None:
    filed = {function for function in FORMULAS if function.__module__.startswith("torqcheck.geometry.")}
    assert filed - OTHERS == set(SAMPLES)


@pytest.mark.parametrize("function", SAMPLES, ids=label)
def test_sample_gives_every_argument_and_a_finite_number(function: Kernel) -> None:
    gives_a_finite_number(function, SAMPLES[function])


@pytest.mark.parametrize(("function", "name"), ARGUMENTS, ids=label)
def test_nan_in_gives_nan_out(function: Kernel, name: str) -> None:
    hands_on_nan(function, SAMPLES[function], name)


@pytest.mark.parametrize(
    ("function", "name"), [(function, name) for function, name in ARGUMENTS if name not in WHOLE], ids=label
)
def test_an_array_gives_what_its_members_give(function: Kernel, name: str) -> None:
    gives_for_an_array_what_its_members_give(function, SAMPLES[function], name, step=STEP, rtol=1e-12)


@pytest.mark.parametrize(
    "function", [f for f, sample in SAMPLES.items() if not WHOLE & set(list(sample)[:2])], ids=label
)
def test_arrays_broadcast(function: Kernel) -> None:
    if len(SAMPLES[function]) > 1:
        broadcasts(function, SAMPLES[function], step=STEP)


@pytest.mark.parametrize(
    ("function", "name"), [(function, name) for function, name in ARGUMENTS if name not in SIGNED], ids=label
)
def test_negative_size_is_refused(function: Kernel, name: str) -> None:
    refuses(function, name, -SAMPLES[function][name])
    if name not in MAY_BE_ZERO:
        refuses(function, name, 0.0)


@pytest.mark.parametrize(
    ("function", "name", "value"),
    [
        (function, name, value)
        for function, name in ARGUMENTS
        for value in BEYOND.get(name, ())
        if not (function in CHORDS and name == "tooth_thickness")
    ],
    ids=label,
)
def test_what_cannot_be_is_refused(function: Kernel, name: str, value: float) -> None:
    refuses(function, name, value)


@pytest.mark.parametrize(
    ("function", "name"),
    [
        (function, name)
        for function, name in ARGUMENTS
        if name in MAY_BE_ZERO and function is not thermal_growth
    ],
    ids=label,
)
def test_zero_is_taken_where_it_can_be(function: Kernel, name: str) -> None:
    assert np.isfinite(function(**{**SAMPLES[function], name: 0.0}))


def test_few_teeth_of_a_small_angle_hold_no_pin_at_the_pitch_circle() -> None:
    # half a space of half a pitch takes a turn of 90/5 = 18 degrees, and the centre lies that much further in
    few = {"teeth": 5, "module": 1e-3, "space_width": 0.5e-3 * pi}
    with pytest.raises(DomainError, match="inside the base circle"):
        pin_at_pitch_circle_of_space(pressure_angle=radians(17.0), **few)
    assert pin_at_pitch_circle_of_space(pressure_angle=radians(19.0), **few) > 0.0
