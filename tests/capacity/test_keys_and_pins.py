"""How keys, pins and set screws answer to their sizes."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.capacity.joining import (
    SHARE_OF_TWO_AT_PEAK,
    axial_pin_pressure,
    axial_pin_shear_stress,
    carrying_keys,
    din_6892_pressure,
    key_bearing_length,
    key_bearing_torque,
    key_hub_seat,
    key_pressure,
    key_shaft_seat,
    key_shear_length,
    key_shear_stress,
    key_shear_torque,
    key_straight_length,
    key_textbook_seat,
    key_useful_length,
    pin_breaking_torque,
    pin_hub_pressure,
    pin_shaft_pressure,
    pin_shear_stress,
    set_screw_torque,
    taper_pin_diameter,
    woodruff_chord,
    woodruff_shaft_seat,
)
from torqcheck.errors import DomainError

torques = st.floats(1.0, 5e3)
shafts = st.floats(0.010, 0.12)
more = st.floats(1.05, 3.0)


@given(torques, shafts, more)
def test_stress_falls_with_length_and_diameter_and_rises_with_torque(
    torque: float, diameter: float, by: float
) -> None:
    width, length = 0.25 * diameter, 1.2 * diameter
    for stress in (key_shear_stress, key_pressure):
        here = stress(torque, diameter, width, length)
        assert stress(torque, diameter, width, by * length) < here
        assert stress(torque, by * diameter, width, length) < here
        assert stress(by * torque, diameter, width, length) == pytest.approx(by * here)
    assert pin_shear_stress(torque, diameter, width) > pin_shear_stress(torque, by * diameter, width)
    assert pin_breaking_torque(600e6, diameter, width) < pin_breaking_torque(600e6, diameter, by * width)
    assert set_screw_torque(torque, diameter) < set_screw_torque(torque, by * diameter)


@given(torques, shafts, st.floats(1.0, 4.0))
def test_length_torque_and_stress_are_inverse(torque: float, diameter: float, safety: float) -> None:
    width, seat = 0.25 * diameter, 0.1 * diameter
    length = key_shear_length(torque, diameter, width, 200e6, safety)
    assert key_shear_stress(torque, diameter, width, length) * safety == pytest.approx(200e6)
    assert key_shear_torque(200e6, diameter, width, length) == pytest.approx(safety * torque)
    length = key_bearing_length(torque, diameter, seat, 300e6, safety)
    assert key_pressure(torque, diameter, seat, length) * safety == pytest.approx(300e6)
    assert key_bearing_torque(300e6, diameter, seat, length) == pytest.approx(safety * torque)


def test_side_governs_a_square_key_of_one_ductile_steel() -> None:
    shear = key_shear_length(1.0, 0.04, 0.010, 0.577)
    side = key_bearing_length(1.0, 0.04, key_textbook_seat(0.010), 1.0)
    assert side > shear
    assert side == pytest.approx(key_shear_length(1.0, 0.04, 0.010, 0.5))  # with the older 0.5 they agree


def test_two_keys_count_as_less_than_two() -> None:
    assert carrying_keys(1) == 1.0
    assert carrying_keys(2) == pytest.approx(1.5)
    assert carrying_keys(2, SHARE_OF_TWO_AT_PEAK) == pytest.approx(1.8)
    assert math.isnan(carrying_keys(math.nan))
    np.testing.assert_allclose(carrying_keys(np.array([1.0, 2.0])), [1.0, 1.5])
    assert key_shear_stress(100.0, 0.03, 0.008, 0.04, 1.5) == pytest.approx(
        key_shear_stress(100.0, 0.03, 0.008, 0.04) / 1.5
    )
    for keys, share in ((3, 0.75), (0, 0.75), (1.5, 0.75), (2, 0.4), (2, 1.1)):
        with pytest.raises(DomainError, match="must be"):
            carrying_keys(keys, share)


def test_seats_of_a_key_8_by_7() -> None:
    assert key_shaft_seat(4e-3, 0.4e-3) == pytest.approx(3.6e-3)
    assert key_hub_seat(7e-3, 4e-3, 0.4e-3) == pytest.approx(2.6e-3)
    # what a textbook counts is more than there is in the hub
    assert key_textbook_seat(7e-3) > key_hub_seat(7e-3, 4e-3)


@pytest.mark.parametrize(("ends", "left"), [(0, 40.0), (1, 36.0), (2, 32.0)])
def test_round_ends_do_not_carry(ends: int, left: float) -> None:
    assert key_straight_length(0.040, 0.008, ends) == pytest.approx(left * 1e-3)


def test_a_long_key_carries_no_more_than_its_useful_length() -> None:
    assert key_useful_length(0.040, 0.030) == pytest.approx(0.040)
    assert key_useful_length(0.080, 0.030) == key_useful_length(0.200, 0.030) == pytest.approx(0.045)
    assert key_useful_length(0.080, 0.030, 1.3) == pytest.approx(0.039)


def test_estimate_of_the_standard_is_the_pressure_in_the_hub_without_chamfer() -> None:
    ours = key_pressure(100.0, 0.028, key_hub_seat(0.007, 0.004), 0.032, 1.5)
    assert din_6892_pressure(100.0, 0.028, 0.007, 0.004, 0.032, 1.5) == pytest.approx(ours)


def test_seat_of_a_woodruff_key_by_counting_squares() -> None:
    disc, depth = 0.01905, 0.00544
    across = np.linspace(-0.5, 0.5, 200_001) * woodruff_chord(disc, depth)
    below = np.sqrt((disc / 2) ** 2 - across**2) - (disc / 2 - depth)
    assert below[0] == pytest.approx(0.0, abs=1e-9)
    assert woodruff_shaft_seat(disc, depth) == pytest.approx(float(below.mean()), rel=1e-4)


def test_woodruff_seat_down_to_the_middle_of_the_disc() -> None:
    assert woodruff_chord(0.02, 0.01) == pytest.approx(0.02)
    assert woodruff_shaft_seat(0.02, 0.01) == pytest.approx(math.pi * 0.01 / 4)


@given(torques, st.floats(0.0, 0.9))
def test_pressure_of_a_pin_gives_its_torque_back(torque: float, hollow: float) -> None:
    diameter, pin = 0.025, 0.008
    bore = hollow * diameter
    peak = float(pin_shaft_pressure(torque, diameter, pin, bore))
    radius = np.linspace(0.5 * bore, 0.5 * diameter, 20_001)
    line = peak * radius / (0.5 * diameter) * pin * radius
    step = radius[1] - radius[0]
    assert 2.0 * float(np.sum(line[1:] + line[:-1])) * 0.5 * step == pytest.approx(torque, rel=1e-6)


def test_pin_in_the_hub_by_wall_and_mean_diameter() -> None:
    wall = 0.5 * (0.045 - 0.025)
    assert pin_hub_pressure(200.0, 0.025, 0.045, 0.008) == pytest.approx(
        200.0 / (0.008 * wall * (0.025 + wall))
    )


def test_axial_pin_bears_with_half_of_its_diameter() -> None:
    sizes = (200.0, 0.025, 0.008, 0.030)
    assert axial_pin_pressure(*sizes) == pytest.approx(2.0 * axial_pin_shear_stress(*sizes))
    assert axial_pin_shear_stress(*sizes) == pytest.approx(key_shear_stress(*sizes))


def test_taper_pin_is_thickest_at_the_large_end() -> None:
    assert taper_pin_diameter(0.008, 0.050) == pytest.approx(0.0085)  # 1 mm over 50 mm
    assert taper_pin_diameter(0.008, 0.048, 48.0) == pytest.approx(0.0085)


def test_breaking_torque_is_the_stress_turned_around() -> None:
    torque = pin_breaking_torque(600e6, 0.03, 0.006, 0.75)
    assert pin_shear_stress(torque, 0.03, 0.006) == pytest.approx(450e6)
