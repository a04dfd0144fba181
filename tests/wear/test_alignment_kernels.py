"""Readings of a dial: the circle that they come from, the sag of the bracket, two axes in space."""

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from kernel_rules import gives_a_finite_number, gives_for_an_array_what_its_members_give, hands_on_nan, label

from torqcheck import wear
from torqcheck.errors import DomainError
from torqcheck.formulas import FORMULAS

MM = 1e-3
CLOCK = {"top": 0.01 * MM, "right": 0.07 * MM, "bottom": 0.10 * MM, "left": 0.04 * MM}
PAIR = {"reading": 0.14 * MM, "half_turn_reading": 0.06 * MM}
SAMPLES: dict[Callable[..., Any], dict[str, float]] = {
    wear.total_indicator_reading: CLOCK,
    wear.closing_error: CLOCK,
    wear.offset_component: {"reading": 0.02 * MM, "opposite_reading": -0.10 * MM, "sag": 0.04 * MM},
    wear.tilt_component: {"reading": 0.06 * MM, "opposite_reading": -0.06 * MM, "diameter": 0.12},
    wear.fixed_part: PAIR,
    wear.turning_part: PAIR,
    wear.tilt_between_planes: {"offset": 0.02 * MM, "second_offset": 0.1 * MM, "plane_distance": 0.16},
    wear.offset_along: {"offset": 0.05 * MM, "tilt": 1e-3, "distance": -0.03},
    wear.total_offset: {"vertical_offset": 0.03 * MM, "horizontal_offset": -0.04 * MM},
    wear.total_tilt: {"vertical_tilt": 0.3e-3, "horizontal_tilt": 0.4e-3},
    wear.tilt_of_mesh: {
        "vertical_tilt": 0.8e-3,
        "horizontal_tilt": 0.1e-3,
        "vertical_offset": 0.02 * MM,
        "horizontal_offset": 0.06 * MM,
        "span": 0.1,
    },
    wear.tilt_at_slip_speed: {"slip_speed": 0.012, "speed": 314.0, "pitch_radius": 0.02},
}
ARGUMENTS = [(function, name) for function, sample in SAMPLES.items() for name in sample]
SIZES = {
    "diameter",
    "plane_distance",
    "span",
} | {
    "slip_speed",
    "speed",
    "pitch_radius",
}

lengths = st.floats(-1.0, 1.0).map(lambda value: value * MM)
angles = st.floats(0.0, 2.0 * math.pi)


def swept(up: float, right: float, start: float = 0.0) -> dict[str, float]:
    """What a dial shows on a round rim whose centre lies there, zeroed wherever it was."""
    return {"top": start + up, "right": start + right, "bottom": start - up, "left": start - right}


def test_every_kernel_has_a_sample() -> None:
    modules = {"torqcheck.wear.indicator", "torqcheck.wear.axes"}
    assert {function for function in FORMULAS if function.__module__ in modules} == set(SAMPLES)


@pytest.mark.parametrize("function", SAMPLES, ids=label)
def test_sample_gives_every_argument_and_a_finite_number(function: Callable[..., Any]) -> None:
    gives_a_finite_number(function, SAMPLES[function])


@pytest.mark.parametrize(("function", "name"), ARGUMENTS, ids=label)
def test_nan_in_gives_nan_out(function: Callable[..., Any], name: str) -> None:
    hands_on_nan(function, SAMPLES[function], name)


@pytest.mark.parametrize(("function", "name"), ARGUMENTS, ids=label)
def test_an_array_gives_what_its_members_give(function: Callable[..., Any], name: str) -> None:
    gives_for_an_array_what_its_members_give(function, SAMPLES[function], name, step=1.001, rtol=1e-12)


@pytest.mark.parametrize(("function", "name"), [pair for pair in ARGUMENTS if pair[1] in SIZES], ids=label)
def test_negative_size_is_refused(function: Callable[..., Any], name: str) -> None:
    with pytest.raises(DomainError, match=f"{name} must"):
        function(**SAMPLES[function] | {name: -SAMPLES[function][name]})


@pytest.mark.parametrize(("function", "name"), [p for p in ARGUMENTS if "tilt" in p[1]], ids=label)
def test_a_right_angle_is_refused(function: Callable[..., Any], name: str) -> None:
    with pytest.raises(DomainError, match="rad"):
        function(**SAMPLES[function] | {name: 1.6})


@given(offset=st.floats(0.0, 1.0), direction=angles, start=lengths)
def test_four_readings_of_a_circle_close_and_give_its_centre(
    offset: float, direction: float, start: float
) -> None:
    up, right = offset * MM * math.cos(direction), offset * MM * math.sin(direction)
    clock = swept(up, right, start)
    assert wear.closing_error(**clock) == pytest.approx(0.0, abs=1e-17)
    assert wear.offset_component(clock["top"], clock["bottom"]) == pytest.approx(up, abs=1e-17)
    assert wear.offset_component(clock["right"], clock["left"]) == pytest.approx(right, abs=1e-17)


@given(offset=st.floats(0.01, 1.0), direction=angles)
def test_the_whole_sweep_of_a_circle_reads_twice_its_offset(offset: float, direction: float) -> None:
    around = np.linspace(0.0, 2.0 * np.pi, 721)
    dial = offset * MM * np.cos(around - direction)
    whole = float(np.ptp(dial))
    assert whole == pytest.approx(2.0 * offset * MM, rel=1e-4)
    assert float(wear.offset_from_runout(whole)) == pytest.approx(offset * MM, rel=1e-4)
    # four places see between 1.41 and 2 offsets of it
    four = wear.total_indicator_reading(*dial[[0, 180, 360, 540]])
    assert math.sqrt(2.0) * offset * MM * 0.9999 <= four <= whole * (1.0 + 1e-9)


@given(sag=st.floats(0.0, 0.5), up=lengths, right=lengths)
def test_the_sag_of_the_bracket_is_taken_out_and_closes_all_the_same(
    sag: float, up: float, right: float
) -> None:
    clock = swept(up, right)
    # the dial hangs by half of it at the sides, by all of it between top and bottom
    hung = {
        "top": clock["top"],
        "right": clock["right"] - 0.5 * sag * MM,
        "bottom": clock["bottom"] - sag * MM,
        "left": clock["left"] - 0.5 * sag * MM,
    }
    assert wear.closing_error(**hung) == pytest.approx(0.0, abs=1e-17)
    assert wear.offset_component(hung["top"], hung["bottom"], sag * MM) == pytest.approx(up, abs=1e-17)
    assert wear.offset_component(hung["right"], hung["left"]) == pytest.approx(right, abs=1e-17)


@given(fixed=lengths, turning=lengths)
def test_half_a_turn_of_the_part_tells_the_two_apart(fixed: float, turning: float) -> None:
    first, second = fixed + turning, fixed - turning
    assert wear.fixed_part(first, second) == pytest.approx(fixed, abs=1e-17)
    assert wear.turning_part(first, second) == pytest.approx(turning, abs=1e-17)


@given(up=lengths, slope=st.floats(-0.01, 0.01), distance=st.floats(0.02, 0.5), other=st.floats(-0.5, 0.5))
def test_two_planes_give_the_offset_in_any_third(
    up: float, slope: float, distance: float, other: float
) -> None:
    near, far = up, wear.offset_along(up, slope, distance)
    assert wear.tilt_between_planes(near, far, distance) == pytest.approx(slope, abs=1e-12)
    there = wear.offset_along(up, slope, other)
    assert wear.offset_along(far, slope, other - distance) == pytest.approx(there, abs=1e-15)


@given(up=lengths, right=lengths, tilt=st.tuples(st.floats(-0.01, 0.01), st.floats(-0.01, 0.01)))
def test_turning_the_clock_by_90_degrees_changes_no_total(
    up: float, right: float, tilt: tuple[float, float]
) -> None:
    here = wear.tilt_of_mesh(*tilt, up, right, 0.06)
    turned = wear.tilt_of_mesh(tilt[1], -tilt[0], right, -up, 0.06)
    assert turned == pytest.approx(here, rel=1e-12, abs=1e-18)


# none, or large enough that its digits do not underflow
offsets = st.just(0.0) | st.floats(1e-12, 1.0)


@given(tilt=st.just(0.0) | st.floats(1e-12, 0.01), offset=offsets, direction=angles)
def test_the_mesh_sees_no_more_than_both_together_and_no_less_than_their_root(
    tilt: float, offset: float, direction: float
) -> None:
    span, e = 0.06, offset * MM
    found = math.tan(wear.tilt_of_mesh(tilt, 0.0, e * math.cos(direction), e * math.sin(direction), span))
    assert found <= (math.tan(tilt) + e / span) * (1.0 + 1e-12)
    assert found >= math.hypot(math.tan(tilt), e / span) * (1.0 - 1e-12)
    together = wear.tilt_of_mesh(tilt, 0.0, -e, 0.0, span)
    assert math.tan(together) == pytest.approx(math.tan(tilt) + e / span, rel=1e-12, abs=1e-18)


def test_a_sleeve_between_two_meshes_lies_along_the_line_between_the_axes() -> None:
    # motor axis along z; driven axis through (0.03, -0.05) mm at this mesh, sloping by (0.6, 0.9) mrad
    span, offset, slope = 0.09, np.array([0.03, -0.05]) * MM, np.array([0.6e-3, 0.9e-3])
    tilts = []
    for other in (-span, span):  # the other mesh lies towards the motor, or towards the driven machine
        there = offset + other * slope
        # the half of the sleeve at the other mesh sits on the other shaft, here on this one
        sleeve = offset / span if other < 0.0 else there / span
        tilts.append(np.hypot(*(slope - sleeve)) if other < 0.0 else np.hypot(*sleeve))
    ours = wear.tilt_of_mesh(*np.arctan(slope), *offset, span)
    assert math.tan(ours) == pytest.approx(max(tilts), rel=1e-9)


def test_the_limit_of_slip_speed_is_the_inverse_of_the_slip_speed() -> None:
    tilt = wear.tilt_at_slip_speed(0.012, 314.0, 0.02)
    assert wear.peak_slip_speed(0.02, tilt, 314.0) == pytest.approx(0.012, rel=1e-12)


@pytest.mark.parametrize(("up", "sideways"), [(0.3e-3, 0.4e-3), (0.2, -0.5), (-0.9, 1.1), (0.0, 0.7)])
def test_tilts_add_up_to_the_angle_between_two_directions(up: float, sideways: float) -> None:
    axis, tilted = np.array([0.0, 0.0, 1.0]), np.array([math.tan(sideways), math.tan(up), 1.0])
    angle = math.atan2(float(np.linalg.norm(np.cross(axis, tilted))), float(axis @ tilted))
    assert wear.total_tilt(up, sideways) == pytest.approx(angle, rel=1e-12)


@pytest.mark.parametrize("tilt", [0.3e-3, -0.02, 0.3])
@pytest.mark.parametrize("across", [0.05, 0.12])
def test_a_dial_on_a_tilted_face_reads_its_slope(tilt: float, across: float) -> None:
    # the face is the plane z = x tan(tilt); the plunger runs on a circle of that diameter
    near, far = (side * 0.5 * across * math.tan(tilt) for side in (1.0, -1.0))
    assert wear.tilt_component(near, far, across) == pytest.approx(tilt, rel=1e-12)
