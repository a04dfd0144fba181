"""What else slides the flanks or keeps them from it: bedding in, crossings of the lash, friction, stretch."""

from math import cos, exp, inf, isinf, isnan, pi, radians, sin, sqrt, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp

from torqcheck.wear import (
    depth_with_feedback,
    elastic_slip,
    friction_lock_tilt,
    offset_slip_path,
    reversal_slip_path,
    running_in_depth,
    sliding_path_per_hour,
    slip_path_per_revolution,
    tilt_friction_moment,
)

DEPTH, SCALE = 4e-6, 1e6
RADIUS = 0.020


def test_bedding_in_starts_from_nothing_and_ends() -> None:
    assert float(running_in_depth(0.0, DEPTH, SCALE)) == 0.0
    assert float(running_in_depth(inf, DEPTH, SCALE)) == DEPTH
    assert float(running_in_depth(1e12, DEPTH, SCALE)) == DEPTH


def test_slope_at_the_start_is_depth_over_scale() -> None:
    turn = 1e-3 * SCALE
    assert float(running_in_depth(turn, DEPTH, SCALE)) / turn == pytest.approx(DEPTH / SCALE, rel=1e-3)
    # and it is no rounding that makes it so: the second term is in place
    assert float(running_in_depth(turn, DEPTH, SCALE)) == pytest.approx(
        DEPTH * (1e-3 - 0.5e-6 + 1e-9 / 6), rel=1e-9
    )


@given(first=st.floats(0.0, 1e9), more=st.floats(1.0, 1e9), scale=st.floats(1.0, 1e9))
def test_bedding_in_never_goes_back(first: float, more: float, scale: float) -> None:
    now, later = (float(running_in_depth(n, DEPTH, scale)) for n in (first, first + more))
    assert 0.0 <= now <= later <= DEPTH


def test_what_is_left_to_bed_in_forgets_how_it_came() -> None:
    # after n turns the rest beds in like a smaller depth from new
    n, m = 0.7 * SCALE, 1.9 * SCALE
    rest = DEPTH - running_in_depth(n, DEPTH, SCALE)
    whole = running_in_depth(n, DEPTH, SCALE) + running_in_depth(m, rest, SCALE)
    assert float(running_in_depth(n + m, DEPTH, SCALE)) == pytest.approx(float(whole), rel=1e-12)


@given(feedback=st.floats(1e-6, 5e-3), hours=st.floats(1.0, 2000.0))
def test_feedback_against_the_integrator(feedback: float, hours: float) -> None:
    rate = 0.25
    found = solve_ivp(lambda _, h: rate + feedback * h, (0.0, hours), [0.0], rtol=1e-10, atol=1e-12)
    ours = float(depth_with_feedback(rate, feedback, hours))
    assert ours == pytest.approx(float(found.y[0, -1]), rel=1e-6)


def test_no_feedback_is_a_straight_line_and_a_little_is_nearly_one() -> None:
    assert float(depth_with_feedback(0.25e-6, 0.0, 1000.0)) == 0.25e-6 * 1000.0
    assert float(depth_with_feedback(0.25e-6, 1e-15, 1000.0)) == pytest.approx(0.25e-3, rel=1e-11)
    assert float(depth_with_feedback(0.0, 1.0, 1e6)) == 0.0
    assert isinf(float(depth_with_feedback(0.25e-6, 1.0, 1e6)))
    assert isnan(float(depth_with_feedback(float("nan"), 0.0, 1.0)))


def test_no_play_or_no_crossing_slides_nothing() -> None:
    assert float(reversal_slip_path(0.0, 40.0)) == 0.0
    assert float(reversal_slip_path(0.05e-3, 0.0)) == 0.0
    assert float(reversal_slip_path(0.05e-3, 40.0)) == pytest.approx(2e-3, rel=1e-15)


def test_each_cause_alone_gives_its_own_path() -> None:
    n = 180e3
    still = {"pitch_radius": RADIUS, "tilt": 0.0, "revolutions": n}
    assert float(sliding_path_per_hour(**still)) == 0.0
    assert float(sliding_path_per_hour(**still | {"tilt": 0.002})) == pytest.approx(
        n * float(slip_path_per_revolution(RADIUS, 0.002)), rel=1e-15
    )
    assert float(sliding_path_per_hour(**still, offset=0.1e-3)) == pytest.approx(
        n * float(offset_slip_path(0.1e-3)), rel=1e-15
    )
    stopped = sliding_path_per_hour(
        pitch_radius=RADIUS, tilt=0.002, revolutions=0.0, offset=0.1e-3, radial_play=0.05e-3, crossings=40.0
    )
    assert float(stopped) == float(reversal_slip_path(0.05e-3, 40.0))


@pytest.mark.parametrize("lag", [0.0, 0.3, pi / 4, pi / 2, 2.0])
@pytest.mark.parametrize("offset", [0.01e-3, 0.04e-3, 0.2e-3])
def test_tilt_and_offset_together_bound_the_true_path_of_a_tooth(lag: float, offset: float) -> None:
    # along the axis and along the profile at once, by quadrature; the lag is between their directions
    tilt = 0.002
    reach = RADIUS * tan(tilt)
    path, _ = quad(lambda t: sqrt((reach * sin(t)) ** 2 + (offset * sin(t - lag)) ** 2), 0, 2 * pi, limit=400)
    ours = float(sliding_path_per_hour(pitch_radius=RADIUS, tilt=tilt, revolutions=1.0, offset=offset))
    assert path <= ours <= sqrt(2.0) * path * (1.0 + 1e-9)


def test_friction_moment_tooth_by_tooth() -> None:
    # each of very many teeth pushes mu F along the axis, against its own way of slipping
    teeth, torque, angle, mu = 10_000, 200.0, radians(20), 0.15
    force = torque / (RADIUS * cos(angle)) / teeth
    places = 2 * pi * (np.arange(teeth) + 0.5) / teeth
    moment = float(np.sum(mu * force * RADIUS * np.abs(np.sin(places))))
    assert float(tilt_friction_moment(torque, angle, mu)) == pytest.approx(moment, rel=1e-6)


def test_stiff_shafts_lock_nothing() -> None:
    assert float(friction_lock_tilt(200.0, 0.5, 0.12, inf)) == 0.0
    assert float(friction_lock_tilt(200.0, 0.5, 0.0, 1e4)) == 0.0
    soft, stiff = (float(friction_lock_tilt(200.0, 0.5, 0.12, k)) for k in (1e4, 2e4))
    assert soft == pytest.approx(2 * stiff, rel=1e-15)


def test_stretch_of_shaft_and_hub_by_quadrature() -> None:
    force, length, shaft, hub, modulus = 5e3, 0.04, 700e-6, 1200e-6, 205e9
    ours = float(elastic_slip(force, length, shaft, hub, modulus))

    def carried(x: float) -> float:
        return force * (1.0 - x / length)

    # in and out at the same end: shaft pulled, hub pushed
    same, _ = quad(lambda x: carried(x) / modulus * (1.0 / shaft + 1.0 / hub), 0.0, length)
    assert ours == pytest.approx(same, rel=1e-12)
    # in at one end and out at the other: the stretches partly cancel, anywhere along the joint
    for end in np.linspace(0.1, 1.0, 10) * length:
        through, _ = quad(lambda x: (carried(x) / shaft - (force - carried(x)) / hub) / modulus, 0.0, end)
        assert abs(through) <= ours


def test_a_decay_constant_is_a_decay_constant() -> None:
    left = 1.0 - float(running_in_depth(SCALE, 1.0, SCALE))
    assert left == pytest.approx(exp(-1.0), rel=1e-12)
