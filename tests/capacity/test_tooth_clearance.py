"""Clearances of tooth pairs: a shaft off its centre against moved profiles, and the sharing that follows."""

import math

import numpy as np
import pytest
from scipy import integrate, stats
from scipy.optimize import brentq

from torqcheck._types import FloatArray
from torqcheck.capacity import (
    drawn_clearances,
    engaged_pairs,
    expected_maximum,
    first_tooth_share,
    full_engagement_share,
    load_parameter,
    off_centre_clearance,
    pair_clearance_sigma,
)
from torqcheck.errors import DomainError
from torqcheck.geometry import InvoluteSpline, ansi_b92_1, iso_4156, radial_play_from_clearance
from torqcheck.geometry.drawing.profile import flank_points

A30, A45 = math.radians(30.0), math.radians(45.0)
OFFSET = 5e-6  # small beside the teeth: what is left is the square of it
SPLINES = [
    ansi_b92_1.spline(10, "12/24"),
    ansi_b92_1.spline(26, "20/40"),
    ansi_b92_1.spline(40, "48/96", A45, "fillet"),
    iso_4156.spline(20, 2.5e-3),
]
NAMES = [spline.designation for spline in SPLINES]


def gaps_of_moved_profiles(spline: InvoluteSpline, towards: float) -> tuple[FloatArray, FloatArray]:
    """By how much a displaced shaft can turn until each flank touches the hub, as pitch-circle lengths.

    The first at the pitch point of the flank, the second at whichever point is the tightest.
    """
    shaft, hub = (flank_points(spline, side, points=4001) for side in ("external", "internal"))
    hub_radius, hub_angle = np.hypot(*hub.T), np.arctan2(hub[:, 1], hub[:, 0])
    own_radius = np.hypot(*shaft.T)
    at_pitch, tightest = [], []
    for tooth in range(spline.teeth):
        turn = 2.0 * np.pi * tooth / spline.teeth
        back = np.array([math.cos(towards - turn), math.sin(towards - turn)])  # seen from the tooth
        moved = shaft + OFFSET * back
        radius, angle = np.hypot(*moved.T), np.arctan2(moved[:, 1], moved[:, 0])
        inside = (radius > hub_radius[0]) & (radius < hub_radius[-1])
        gap = 0.5 * spline.pitch_diameter * (np.interp(radius, hub_radius, hub_angle) - angle)
        at_pitch.append(np.interp(0.5 * spline.pitch_diameter, own_radius, gap))
        tightest.append(gap[inside].min())
    return np.array(at_pitch), np.array(tightest)


def positions(spline: InvoluteSpline, towards: float) -> FloatArray:
    """Where each tooth stands, from where the offset changes nothing."""
    half_tooth = spline.tooth_thickness / spline.pitch_diameter
    normal = 2.0 * np.pi * np.arange(spline.teeth) / spline.teeth + half_tooth
    normal += 0.5 * np.pi - spline.pressure_angle
    return towards - normal - 0.5 * np.pi


@pytest.mark.parametrize("spline", SPLINES, ids=NAMES)
@pytest.mark.parametrize("towards", [0.0, 0.3, 2.9])
def test_off_centre_clearance_is_that_of_moved_profiles(spline: InvoluteSpline, towards: float) -> None:
    at_pitch, tightest = gaps_of_moved_profiles(spline, towards)
    ours = off_centre_clearance(OFFSET, spline.pressure_angle, positions(spline, towards))
    assert at_pitch == pytest.approx(ours, abs=1e-3 * OFFSET)
    # the tightest tooth of all is as tight as the amplitude says, and no tooth is tighter
    amplitude = OFFSET / math.cos(spline.pressure_angle)
    assert tightest.min() == pytest.approx(-amplitude, rel=2e-3)
    assert np.all(tightest >= -1.002 * amplitude)


def test_off_centre_clearance_of_straight_sides() -> None:
    # tooth of 10 mm on a mean radius of 28 mm, moved; the gap along the normal, over what a turn closes
    width, radius, offset, towards = 0.010, 0.028, 5e-6, 0.7
    angle = math.asin(0.5 * width / radius)
    for tooth in range(8):
        turn = 2.0 * math.pi * tooth / 8
        along_normal = offset * math.sin(towards - turn)  # the flank's normal stands square to the tooth
        arm = radius * math.cos(angle)  # from the axis to the foot of the normal, along the tooth
        clearance = -along_normal / arm * radius
        ours = off_centre_clearance(offset, angle, turn - towards)
        assert ours == pytest.approx(clearance, rel=1e-12)


def test_all_of_the_radial_play_takes_half_the_clearance_from_the_tightest_tooth() -> None:
    play = radial_play_from_clearance(0.2e-3, A30, 26)
    assert off_centre_clearance(0.5 * play, A30, 0.5 * math.pi) == pytest.approx(0.1e-3, rel=0.005)


def test_a_centred_shaft_has_only_its_errors_of_spacing() -> None:
    plain = drawn_clearances(18, 10e-6, 0.0, draws=300, seed=4)
    both = drawn_clearances(18, 10e-6, np.array([0.0, 50e-6]), draws=300, seed=4)
    assert both.shape == (2, 300, 18)
    np.testing.assert_array_equal(both[0], plain)
    around = both[1] - plain
    # a sine over the teeth: its mean square is half that of the amplitude, its sum nothing
    assert np.sum(around, axis=-1) == pytest.approx(np.zeros(300), abs=1e-17)
    assert np.mean(around**2, axis=-1) == pytest.approx(np.full(300, 0.5 * 50e-6**2), rel=1e-12)


def test_drawn_clearances_have_the_scatter_asked_for() -> None:
    sample = drawn_clearances(20, 10e-6, 0.0, draws=20_000, seed=1)
    assert float(np.std(sample)) == pytest.approx(10e-6, rel=4.0 / math.sqrt(2 * sample.size))
    assert abs(float(np.mean(sample))) < 4.0 * 10e-6 / math.sqrt(sample.size)
    assert stats.kstest(sample.ravel()[:20_000] / 10e-6, "norm").pvalue > 1e-3


def test_perfect_teeth_off_centre_all_touching() -> None:
    # derived: with all N engaged the first carries F/N + K e/cos(a), as long as the last one touches
    teeth, stiffness, offset = 24, 450e6, 10e-6
    amplitude = offset / math.cos(A30)
    around = off_centre_clearance(offset, A30, 2.0 * math.pi * (np.arange(teeth) + 0.75 * teeth) / teeth)
    force = 1.01 * teeth * stiffness * amplitude
    assert engaged_pairs(force, around, stiffness) == teeth
    share = first_tooth_share(force, around, stiffness)
    assert share == pytest.approx(1.0 / teeth + stiffness * amplitude / force, rel=1e-12)
    assert engaged_pairs(0.98 * teeth * stiffness * amplitude, around, stiffness) < teeth


@pytest.mark.parametrize("reach", [0.1, 0.5, 1.2, 2.5, 3.1])
def test_perfect_teeth_off_centre_touching_over_an_arc(reach: float) -> None:
    # derived: very many teeth engaged over +-reach; loads as cos(u) - cos(reach), summed by integration
    teeth, stiffness, amplitude = 100_000, 450e6, 10e-6
    around = -amplitude * np.cos(2.0 * np.pi * np.arange(teeth) / teeth)
    total, _ = integrate.quad(lambda u: math.cos(u) - math.cos(reach), -reach, reach)
    force = stiffness * amplitude * teeth / (2.0 * math.pi) * total
    first = stiffness * amplitude * (1.0 - math.cos(reach))
    assert float(first_tooth_share(force, around, stiffness)) * force == pytest.approx(first, rel=1e-4)
    arc = 2.0 * reach / (2.0 * math.pi)
    assert int(engaged_pairs(force, around, stiffness)) / teeth == pytest.approx(arc, abs=3.0 / teeth)


@pytest.mark.parametrize("teeth", [1, 2, 5, 18, 100, 400])
def test_expected_maximum_against_quadrature(teeth: int) -> None:
    wanted, _ = integrate.quad(
        lambda x: teeth * x * stats.norm.pdf(x) * stats.norm.cdf(x) ** (teeth - 1), -9.0, 9.0, epsabs=1e-13
    )
    assert expected_maximum(teeth) == pytest.approx(wanted, rel=1e-12, abs=1e-14)


def test_expected_maximum_of_two_and_three_in_closed_form() -> None:
    # 1/sqrt(pi) and 3/(2 sqrt(pi)), derived
    known = [0.0, 1.0 / math.sqrt(math.pi), 1.5 / math.sqrt(math.pi)]
    assert expected_maximum(np.array([1.0, 2.0, 3.0])) == pytest.approx(known, abs=1e-14)


def test_full_engagement_is_the_mean_of_the_exact_share() -> None:
    teeth, load = 12, 8.0
    sample = drawn_clearances(teeth, 1.0, 0.0, draws=40_000, seed=9)
    shares = np.asarray(first_tooth_share(load * teeth, sample, 1.0))
    assert np.all(engaged_pairs(load * teeth, sample, 1.0) == teeth)
    error = 4.0 * float(np.std(shares)) / math.sqrt(shares.size)
    assert full_engagement_share(teeth, load) == pytest.approx(float(np.mean(shares)), abs=error)
    # below it the closed form is on the safe side
    partly = np.asarray(first_tooth_share(0.5 * teeth, sample, 1.0))
    assert full_engagement_share(teeth, 0.5) > float(np.mean(partly))


def test_load_parameter_is_the_even_deflection_in_sigmas() -> None:
    force, teeth, stiffness, sigma = 33_333.0, 18, 450e6, 10e-6
    even = brentq(lambda x: teeth * stiffness * x - force, 0.0, 1.0)
    assert load_parameter(force, teeth, stiffness, sigma) == pytest.approx(even / sigma, rel=1e-9)


def test_arrays_give_what_their_members_give_and_nan_stays_nan() -> None:
    several = np.array([1.0, 2.0, np.nan])
    assert pair_clearance_sigma(several * 1e-6)[:2] == pytest.approx(
        [pair_clearance_sigma(1e-6), pair_clearance_sigma(2e-6)]
    )
    results = (
        pair_clearance_sigma(several),
        off_centre_clearance(several, A30, 1.0),
        off_centre_clearance(1e-5, A30, several),
        load_parameter(several, 18, 1.0, 1.0),
        expected_maximum(several),
        full_engagement_share(18, several),
    )
    for result in results:
        assert np.isnan(np.asarray(result)).tolist() == [False, False, True]


def test_arguments_out_of_range_are_refused() -> None:
    with pytest.raises(DomainError, match="index_variation must not be negative"):
        pair_clearance_sigma(-1e-6)
    with pytest.raises(DomainError, match="offset must not be negative"):
        off_centre_clearance(-1e-6, A30, 0.0)
    with pytest.raises(DomainError, match="pressure_angle must lie"):
        off_centre_clearance(1e-6, 30.0, 0.0)
    with pytest.raises(DomainError, match="clearance_sigma must be above zero"):
        load_parameter(1.0, 18, 1.0, 0.0)
    for teeth in (0, 2.5, -3, math.inf):
        with pytest.raises(DomainError, match="teeth must be a whole number"):
            expected_maximum(teeth)
    with pytest.raises(DomainError, match="load must be above zero"):
        full_engagement_share(18, 0.0)
    for bad in ({"teeth": 0}, {"draws": 0}, {"clearance_sigma": -1.0}, {"amplitude": -1.0}):
        arguments = {"teeth": 18, "clearance_sigma": 1.0, "amplitude": 0.0, "draws": 10, "seed": 1} | bad
        with pytest.raises(DomainError, match="must"):
            drawn_clearances(**arguments)  # type: ignore[arg-type]
