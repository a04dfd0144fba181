"""Conversions of play; radial play against flanks that are drawn and pushed together."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.errors import DomainError
from torqcheck.geometry import (
    angle_from_clearance,
    angle_from_travel,
    clearance_from_angle,
    clearance_from_radial_play,
    clearance_from_travel,
    radial_play_from_clearance,
    travel_from_clearance,
    width_at_radius,
)

LENGTHS = st.floats(1e-3, 1.0)
SMALL = st.floats(0.0, 2e-3)


@given(SMALL, LENGTHS, LENGTHS)
def test_travel_comes_back(travel: float, radius: float, diameter: float) -> None:
    clearance = clearance_from_travel(travel, radius, diameter)
    assert float(travel_from_clearance(clearance, radius, diameter)) == pytest.approx(travel, rel=1e-12)


@given(SMALL, LENGTHS)
def test_angle_comes_back(clearance: float, diameter: float) -> None:
    angle = angle_from_clearance(clearance, diameter)
    assert float(clearance_from_angle(angle, diameter)) == pytest.approx(clearance, rel=1e-12)


def test_travel_is_an_arc() -> None:
    # half a degree at 200 mm is 200 pi/360 mm (fact of the circle)
    assert float(angle_from_travel(0.2 * math.pi / 360.0, 0.2)) == pytest.approx(math.radians(0.5), rel=1e-12)


@given(SMALL, st.floats(0.3, 0.8), st.integers(4, 120))
def test_radial_play_comes_back(play: float, angle: float, teeth: int) -> None:
    clearance = clearance_from_radial_play(play, angle, teeth)
    assert float(radial_play_from_clearance(clearance, angle, teeth)) == pytest.approx(
        play, rel=1e-12, abs=1e-18
    )


@pytest.mark.parametrize("degrees", [30.0, 37.5, 45.0])
def test_many_teeth_give_clearance_times_cosine(degrees: float) -> None:
    angle = math.radians(degrees)
    play = np.asarray(radial_play_from_clearance(1e-4, angle, np.array([200.0, 1000.0, 5000.0])))
    np.testing.assert_allclose(play, 1e-4 * math.cos(angle), rtol=1e-5)


@given(st.floats(0.3, 0.8), st.integers(4, 120))
def test_few_teeth_never_stop_the_shaft_sooner(angle: float, teeth: int) -> None:
    assert float(radial_play_from_clearance(1.0, angle, teeth)) >= math.cos(angle) * (1.0 - 1e-12)


def drawn_play(teeth: int, angle: float, clearance: float, directions: int) -> float:
    """Mean of the whole play over directions, by moving drawn flanks until one leaves its space."""
    module = 1e-3
    D = teeth * module
    radius = np.linspace(0.5 * D - 0.4 * module, 0.5 * D + 0.4 * module, 120)
    half = np.asarray(width_at_radius(radius, D, angle, 0.5 * math.pi * module - clearance)) / (2.0 * radius)
    centre = 2.0 * math.pi * np.arange(teeth)[:, None] / teeth
    polar = np.concatenate([centre + half, centre - half])
    x, y = radius * np.cos(polar), radius * np.sin(polar)

    def stays_inside(shift: float, heading: float) -> bool:
        px, py = x + shift * math.cos(heading), y + shift * math.sin(heading)
        r, theta = np.hypot(px, py), np.arctan2(py, px)
        misfit = np.abs((theta + math.pi / teeth) % (2.0 * math.pi / teeth) - math.pi / teeth)
        return bool(
            np.all(misfit <= np.asarray(width_at_radius(r, D, angle, 0.5 * math.pi * module)) / (2.0 * r))
        )

    total = 0.0
    for heading in 2.0 * math.pi * (np.arange(directions) + 0.5) / directions:
        low, high = 0.0, 2.0 * clearance
        for _ in range(24):
            middle = 0.5 * (low + high)
            low, high = (middle, high) if stays_inside(middle, heading) else (low, middle)
        total += low
    return 2.0 * total / directions


@pytest.mark.parametrize(("teeth", "degrees"), [(6, 45.0), (8, 45.0), (10, 30.0), (13, 37.5), (17, 30.0)])
def test_radial_play_of_drawn_flanks(teeth: int, degrees: float) -> None:
    clearance, angle = 1e-8, math.radians(degrees)
    drawn = drawn_play(teeth, angle, clearance, max(240, 12 * teeth))
    ours = float(radial_play_from_clearance(clearance, angle, teeth))
    # drawn with 120 points a flank, so that the nearest normal may be missed by a little
    assert ours == pytest.approx(drawn, rel=5e-5)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: angle_from_travel(-1e-3, 0.1), "travel must be 0 or more"),
        (lambda: angle_from_travel(1e-3, 0.0), "radius must be above 0"),
        (lambda: clearance_from_angle(-0.1, 0.03), "angle must be 0 or more"),
        (lambda: angle_from_clearance(1e-4, 0.0), "pitch_diameter must be above 0"),
        (lambda: clearance_from_radial_play(-1e-4, 0.5, 20), "radial_play must be 0 or more"),
        (lambda: clearance_from_radial_play(1e-4, 0.5, 3), "teeth must be a whole number"),
        (lambda: radial_play_from_clearance(1e-4, 0.0, 20), "pressure_angle must lie"),
        (lambda: radial_play_from_clearance(math.inf, 0.5, 20), "clearance must be 0 or more"),
        (lambda: travel_from_clearance(1e-4, -0.1, 0.03), "radius must be above 0"),
    ],
)
def test_impossible_play_is_refused(call, message: str) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(DomainError, match=message):
        call()


def test_nan_passes_through() -> None:
    assert math.isnan(float(clearance_from_radial_play(math.nan, 0.5, 20)))
    assert math.isnan(float(clearance_from_travel(math.nan, 0.1, 0.03)))
