"""Pins, spans and chords: round trips, slopes, and pins laid against drawn flanks."""

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import brentq, minimize_scalar

from torqcheck.errors import DomainError
from torqcheck.geometry import (
    between_pins,
    between_pins_contact_diameter,
    between_pins_per_pin,
    between_pins_per_space,
    chordal_height,
    chordal_thickness,
    over_pins,
    over_pins_contact_diameter,
    over_pins_per_pin,
    over_pins_per_thickness,
    pin_at_pitch_circle_of_gap,
    pin_at_pitch_circle_of_space,
    space_from_pins,
    span_over_teeth,
    thickness_from_pins,
    thickness_from_span,
    width_at_radius,
)

MODULE = 1.5e-3
TEETH = st.integers(8, 80)
ANGLES = st.sampled_from([math.radians(degrees) for degrees in (30.0, 37.5, 45.0)])
SHARES = st.floats(0.42, 0.55)  # of the circular pitch
Kernel = Callable[..., float]


def width_of(share: float) -> float:
    return share * math.pi * MODULE


@given(TEETH, ANGLES, SHARES, st.floats(1.7, 2.1))
def test_thickness_comes_back_from_pins(teeth: int, angle: float, share: float, pin: float) -> None:
    reading = over_pins(teeth, MODULE, angle, width_of(share), pin * MODULE)
    back = thickness_from_pins(teeth, MODULE, angle, reading, pin * MODULE)
    assert abs(float(back) - width_of(share)) < 1e-9 * MODULE


@given(TEETH, ANGLES, SHARES, st.floats(1.4, 1.73))
def test_space_comes_back_from_pins(teeth: int, angle: float, share: float, pin: float) -> None:
    try:
        reading = between_pins(teeth, MODULE, angle, width_of(share), pin * MODULE)
    except DomainError:
        assume(False)
    back = space_from_pins(teeth, MODULE, angle, reading, pin * MODULE)
    assert abs(float(back) - width_of(share)) < 1e-9 * MODULE


@given(TEETH, ANGLES, SHARES, st.integers(2, 6))
def test_thickness_comes_back_from_a_span(teeth: int, angle: float, share: float, spanned: int) -> None:
    reading = span_over_teeth(teeth, MODULE, angle, width_of(share), spanned)
    assert abs(float(thickness_from_span(teeth, MODULE, angle, reading, spanned)) - width_of(share)) < 1e-12


def slope(kernel: Kernel, arguments: list[float], index: int) -> float:
    step = 1e-4 * arguments[index]
    readings = []
    for sign in (1.0, -1.0):
        moved = list(arguments)
        moved[index] += sign * step
        readings.append(float(kernel(*moved)))
    return (readings[0] - readings[1]) / (2.0 * step)


@given(TEETH, ANGLES, SHARES)
def test_slopes_over_pins_are_the_derivatives(teeth: int, angle: float, share: float) -> None:
    arguments = [teeth, MODULE, angle, width_of(share), 1.92 * MODULE]
    assert float(over_pins_per_thickness(*arguments)) == pytest.approx(
        slope(over_pins, arguments, 3), rel=1e-5
    )
    assert float(over_pins_per_pin(*arguments)) == pytest.approx(slope(over_pins, arguments, 4), rel=1e-5)


@given(st.integers(12, 80), ANGLES, st.floats(0.48, 0.55))
def test_slopes_between_pins_are_the_derivatives(teeth: int, angle: float, share: float) -> None:
    arguments = [teeth, MODULE, angle, width_of(share), 1.6 * MODULE]
    assert float(between_pins_per_space(*arguments)) == pytest.approx(
        slope(between_pins, arguments, 3), rel=1e-5
    )
    assert float(between_pins_per_pin(*arguments)) == pytest.approx(
        slope(between_pins, arguments, 4), rel=1e-5
    )


@given(TEETH, ANGLES, SHARES, st.floats(0.2, 50.0))
def test_readings_scale_with_the_part(teeth: int, angle: float, share: float, factor: float) -> None:
    small = float(over_pins(teeth, MODULE, angle, width_of(share), 1.92 * MODULE))
    large = over_pins(teeth, factor * MODULE, angle, factor * width_of(share), factor * 1.92 * MODULE)
    assert float(large) == pytest.approx(factor * small, rel=1e-12)


def centre_radius(teeth: int, angle: float, width: float, pin: float, side: int) -> tuple[float, float]:
    """Radius of a pin's centre and of its contact, by pushing a circle against the drawn flank.

    The flank stands at half a tooth (external) or half a space (internal) beside its own centre
    line; the pin lies on the centre line of the gap or of the space.
    """
    D = teeth * MODULE
    offset = math.pi / teeth if side > 0 else 0.0

    def distance(radius: float, centre: float) -> float:
        polar = float(width_at_radius(radius, D, angle, width)) / (2.0 * radius) - offset
        return math.hypot(radius * math.cos(polar) - centre, radius * math.sin(polar))

    def nearest(centre: float) -> tuple[float, float]:
        found = minimize_scalar(
            lambda r: distance(r, centre),
            bounds=(0.5 * D * math.cos(angle), 0.5 * D + 3 * MODULE),
            method="bounded",
            options={"xatol": 1e-13},
        )
        return float(found.fun), float(found.x)

    low, high = 0.5 * D - 0.45 * MODULE * (side < 0) * 2, 0.5 * D + MODULE * (side > 0) * 1.5
    centre = brentq(lambda c: nearest(c)[0] - 0.5 * pin, low, high, xtol=1e-13)
    return centre, nearest(centre)[1]


@pytest.mark.parametrize("teeth", [12, 13, 27, 36])
def test_pin_over_drawn_external_flanks(teeth: int) -> None:
    angle, width, pin = math.radians(30.0), 0.49 * math.pi * MODULE, 1.92 * MODULE
    centre, contact = centre_radius(teeth, angle, width, pin, 1)
    # distance of the two gaps that lie most nearly opposite
    chord = 2.0 * centre * math.sin(math.pi * (teeth // 2) / teeth)
    assert float(over_pins(teeth, MODULE, angle, width, pin)) == pytest.approx(chord + pin, abs=1e-10)
    expected = float(over_pins_contact_diameter(teeth, MODULE, angle, width, pin))
    assert expected == pytest.approx(2.0 * contact, abs=1e-8)


@pytest.mark.parametrize("teeth", [20, 27, 36, 45])
def test_pin_between_drawn_internal_flanks(teeth: int) -> None:
    angle, width, pin = math.radians(30.0), 0.51 * math.pi * MODULE, 1.728 * MODULE
    centre, contact = centre_radius(teeth, angle, width, pin, -1)
    chord = 2.0 * centre * math.sin(math.pi * (teeth // 2) / teeth)
    assert float(between_pins(teeth, MODULE, angle, width, pin)) == pytest.approx(chord - pin, abs=1e-10)
    expected = float(between_pins_contact_diameter(teeth, MODULE, angle, width, pin))
    assert expected == pytest.approx(2.0 * contact, abs=1e-8)


@given(st.integers(8, 80), ANGLES, SHARES)
def test_pin_for_the_pitch_circle_touches_there(teeth: int, angle: float, share: float) -> None:
    gap_pin = pin_at_pitch_circle_of_gap(teeth, MODULE, angle, width_of(share))
    contact = over_pins_contact_diameter(teeth, MODULE, angle, width_of(share), gap_pin)
    assert float(contact) == pytest.approx(teeth * MODULE, rel=1e-9)
    space_pin = pin_at_pitch_circle_of_space(teeth, MODULE, angle, width_of(share))
    contact = between_pins_contact_diameter(teeth, MODULE, angle, width_of(share), space_pin)
    assert float(contact) == pytest.approx(teeth * MODULE, rel=1e-9)


def test_forgotten_odd_factor_looks_like_wear() -> None:
    # two pins on neighbouring, not opposite, gaps: the missing 1 - cos(pi/54) of the distance, over K
    inch, angle = 0.0254, math.radians(30.0)
    part = (27, inch / 24, angle)
    reading = float(over_pins(*part, math.pi * inch / 48, 0.08 * inch))
    without = 0.08 * inch + (reading - 0.08 * inch) * math.cos(math.pi / 54)
    loss = math.pi * inch / 48 - float(thickness_from_pins(*part, without, 0.08 * inch))
    slope_here = float(over_pins_per_thickness(*part, math.pi * inch / 48, 0.08 * inch))
    assert loss == pytest.approx((reading - without) / slope_here, rel=0.01)
    assert loss / inch == pytest.approx(0.0013, abs=0.00005)


def test_arrays_broadcast_over_odd_and_even() -> None:
    teeth = np.array([[26.0], [27.0]])
    thickness = np.array([1.6e-3, 1.65e-3, np.nan])
    readings = np.asarray(over_pins(teeth, 0.0254 / 24, math.radians(30.0), thickness, 2e-3))
    assert readings.shape == (2, 3)
    assert np.isnan(readings[:, 2]).all()
    single = over_pins(27, 0.0254 / 24, math.radians(30.0), 1.65e-3, 2e-3)
    assert readings[1, 1] == pytest.approx(float(single), rel=1e-15)
    assert isinstance(single, float)


@pytest.mark.parametrize("kernel", [over_pins, between_pins, over_pins_per_pin, between_pins_per_space])
@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ((3, 1e-3, 0.5, 1.5e-3, 1.8e-3), "teeth must be a whole number"),
        ((20.5, 1e-3, 0.5, 1.5e-3, 1.8e-3), "teeth must be a whole number"),
        ((20, 0.0, 0.5, 1.5e-3, 1.8e-3), "module must be above 0"),
        ((20, 1e-3, 1.6, 1.5e-3, 1.8e-3), "pressure_angle must lie"),
        ((20, 1e-3, 0.5, 3.2e-3, 1.8e-3), "must lie between 0 and the circular pitch"),
        ((20, 1e-3, 0.5, 1.5e-3, -1.0), "pin_diameter must be above 0"),
    ],
)
def test_impossible_argument_is_refused(kernel: Kernel, arguments: tuple[float, ...], message: str) -> None:
    with pytest.raises(DomainError, match=message):
        kernel(*arguments)


def test_pin_that_does_not_rest_on_the_flanks_is_refused() -> None:
    with pytest.raises(DomainError, match="take a larger pin"):
        over_pins(20, 1e-3, math.radians(30.0), 1.5e-3, 0.1e-3)
    with pytest.raises(DomainError, match="take a smaller pin"):
        between_pins(20, 1e-3, math.radians(30.0), 1.5e-3, 3e-3)
    with pytest.raises(DomainError, match="touches below the base circle"):
        over_pins_contact_diameter(6, 1e-3, math.radians(30.0), 1.5e-3, 1.16e-3)


def test_gap_whose_flanks_turn_away_from_each_other_holds_no_pin() -> None:
    # the normals of both flanks at the pitch circle meet while a + eta < 90 deg, eta = (pi m - t)/(m N)
    def wide(degrees: float) -> float:
        return float(
            pin_at_pitch_circle_of_gap(
                4, MODULE, math.radians(60.0), (math.pi - 4.0 * math.radians(degrees)) * MODULE
            )
        )

    assert wide(29.0) == pytest.approx(
        2.0 * MODULE * (math.tan(math.radians(89.0)) - math.sqrt(3.0)), rel=1e-9
    )
    with pytest.raises(DomainError, match="too wide to hold a pin"):
        wide(31.0)


def test_reading_of_another_part_is_refused() -> None:
    with pytest.raises(DomainError, match="do not belong together"):
        thickness_from_pins(27, 1e-3, math.radians(30.0), 20e-3, 2e-3)
    with pytest.raises(DomainError, match="do not belong together"):
        space_from_pins(27, 1e-3, math.radians(30.0), 18e-3, 2e-3)
    with pytest.raises(DomainError, match="tooth_thickness must lie"):
        thickness_from_pins(27, 1e-3, math.radians(30.0), 40e-3, 2e-3)


@pytest.mark.parametrize("spanned", [0, 2.5, 20])
def test_impossible_number_of_spanned_teeth_is_refused(spanned: float) -> None:
    with pytest.raises(DomainError, match="spanned_teeth must be"):
        span_over_teeth(20, 1e-3, 0.5, 1.5e-3, spanned)


def test_miscounted_span_is_refused() -> None:
    reading = span_over_teeth(24, 2e-3, math.radians(30.0), 3.0e-3, 4)
    with pytest.raises(DomainError, match="tooth_thickness must lie"):
        thickness_from_span(24, 2e-3, math.radians(30.0), reading, 6)


@given(st.floats(0.01, 0.2), st.floats(1e-4, 5e-3))
def test_chord_and_height_close_the_triangle(diameter: float, thickness: float) -> None:
    chord = float(chordal_thickness(diameter, thickness))
    below = float(chordal_height(diameter, thickness, diameter))
    # half chord and the rest of the radius have the radius for hypotenuse
    assert math.hypot(0.5 * chord, 0.5 * diameter - below) == pytest.approx(0.5 * diameter, rel=1e-12)


def test_impossible_chord_is_refused() -> None:
    with pytest.raises(DomainError, match="half the circle"):
        chordal_thickness(0.01, 0.016)
    with pytest.raises(DomainError, match="below pitch_diameter"):
        chordal_height(0.01, 0.001, 0.009)
