"""Spacing errors, offset, tilt and twist in one balance: its limits, a boundary problem, and the product."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad, solve_bvp
from scipy.optimize import brentq

from torqcheck._types import FloatArray
from torqcheck.capacity import (
    drawn_clearances,
    first_tooth_share,
    flank_yield_pressure,
    full_engagement_share,
    layered_root_strength,
    leaving_end_factor,
    opposite_side_factor,
    rack_root_chord,
    same_side_factor,
    shared_load,
    tilt_contact_share,
    tilt_load_factor,
)
from torqcheck.errors import DomainError
from torqcheck.geometry import width_at_radius

UM = 1e-6
MANY = 240  # teeth, so that the mean around them is a mean over all positions


def tilted(teeth: int, gap: float, *, draws: int = 1, seed: int = 5) -> FloatArray:
    """What a tilt takes from the clearances at one end, its plane drawn any way."""
    start = np.random.default_rng(seed).uniform(0.0, 2.0 * np.pi, (draws, 1))
    return gap * np.sin(start + 2.0 * np.pi / teeth * np.arange(teeth))


@pytest.mark.parametrize("eta", [0.5, 1.0, 2.0, 4.0, 8.0, 16.0, 50.0])
def test_tilt_alone_is_the_wedge(eta: float) -> None:
    load = shared_load(UM, np.zeros(MANY), tilted(MANY, eta * UM)[0], 0.0)
    assert float(load.peak) == pytest.approx(float(tilt_load_factor(eta)), rel=5e-4)
    assert float(load.contact) == pytest.approx(float(tilt_contact_share(eta)), abs=1e-3)


@pytest.mark.parametrize("lag", [0.02, 0.2, 1.0, 2.0, 4.0, 8.0, 20.0, 60.0])
def test_twist_alone_is_the_shear_lag(lag: float) -> None:
    even = np.zeros(20)
    same = shared_load(UM, even, even, lag)
    assert float(same.peak) == pytest.approx(float(same_side_factor(lag)), rel=1e-9)
    assert float(same.first) == pytest.approx(0.05, rel=1e-9)
    for share in (0.164179, 0.5, 0.8):
        through = shared_load(UM, even, even, lag, share)
        assert float(through.peak) == pytest.approx(float(opposite_side_factor(lag, share)), rel=1e-9)
        ends = leaving_end_factor(lag, share), leaving_end_factor(lag, 1.0 - share)
        assert float(through.peak) == pytest.approx(max(map(float, ends)), rel=1e-9)


def test_clearances_alone_are_the_sharing_between_teeth() -> None:
    clearances = drawn_clearances(18, 10 * UM, 0.0, draws=500, seed=3)
    load = shared_load(33_333.0 / (18 * 450e6), clearances, np.zeros_like(clearances), 0.0)
    share = first_tooth_share(33_333.0, clearances, 450e6)
    np.testing.assert_allclose(load.first, share, rtol=5e-5)
    np.testing.assert_allclose(load.peak, 18 * np.asarray(share), rtol=5e-5)


@pytest.mark.parametrize("teeth", [6, 20, 40])
def test_mean_first_tooth_of_many_draws_is_the_closed_form_once_all_touch(teeth: int) -> None:
    clearances = drawn_clearances(teeth, UM, 0.0, draws=4000, seed=4)
    load = shared_load(8 * UM, clearances, np.zeros_like(clearances), 0.0)
    assert np.all(load.contact > 0.999)
    assert float(np.mean(load.first)) == pytest.approx(float(full_engagement_share(teeth, 8.0)), rel=0.01)


@pytest.mark.parametrize("leaving", [0.0, 0.2, 0.6])
@pytest.mark.parametrize("lag", [0.7, 2.5, 5.0])
@pytest.mark.parametrize(
    ("deflection", "gap"),
    [(2 * UM, 15 * UM), (8 * UM, 15 * UM), (1 * UM, 200 * UM)],
    ids=["light", "heavy", "steep"],
)
def test_against_a_solved_boundary_problem(leaving: float, lag: float, deflection: float, gap: float) -> None:
    teeth = 16
    clearances = drawn_clearances(teeth, 8 * UM, 20 * UM, draws=1, seed=8)[0]
    gaps = tilted(teeth, gap)[0]
    ours = shared_load(deflection, clearances, gaps, lag, leaving)
    c, e = clearances[:, None] / deflection, gaps[:, None] / deflection

    def load(x: FloatArray, d: FloatArray) -> FloatArray:
        return np.maximum(d - c + e * (2.0 * x - 1.0), 0.0)

    def slopes(x: FloatArray, y: FloatArray) -> FloatArray:
        return np.vstack([y[1], lag**2 * load(x, y[0]).mean(axis=0)])

    def ends(a: FloatArray, b: FloatArray) -> FloatArray:
        return np.array([a[1] + lag**2 * (1.0 - leaving), b[1] - lag**2 * leaving])

    grid = np.linspace(0.0, 1.0, 400)
    start = np.vstack([np.full(400, float(c.max())), np.zeros(400)])
    solution = solve_bvp(slopes, ends, grid, start, tol=1e-5, max_nodes=200_000)
    assert solution.success
    fine = np.linspace(0.0, 1.0, 4001)
    lines = load(fine, solution.sol(fine)[0])
    assert float(np.mean(lines)) == pytest.approx(1.0, abs=2e-3)
    assert float(ours.peak) == pytest.approx(float(lines.max()), rel=2e-4)
    first = float(np.trapezoid(lines, fine, axis=1).max()) / teeth
    assert float(ours.first) == pytest.approx(first, rel=3e-4)
    assert float(ours.contact) == pytest.approx(float(np.mean(lines > 0.0)), abs=0.01)


COMBINATIONS = {
    "stiff shafts, heavy load": (20 * UM, 10 * UM, 0.0, 10 * UM, 0.5),
    "as new, usual": (4 * UM, 10 * UM, 10 * UM, 10 * UM, 1.5),
    "worn and tilted": (4 * UM, 10 * UM, 60 * UM, 30 * UM, 2.0),
    "worn, tilted, light load": (1 * UM, 10 * UM, 60 * UM, 30 * UM, 2.0),
}
RATIO = {  # product of the separate factors over the combined model, medians
    "stiff shafts, heavy load": 1.36,
    "as new, usual": 4.1,
    "worn and tilted": 8.6,
    "worn, tilted, light load": 15.6,
}


@pytest.mark.parametrize("name", COMBINATIONS)
def test_how_far_the_product_of_separate_factors_lies_above(name: str) -> None:
    deflection, sigma, offset, gap, lag = COMBINATIONS[name]
    clearances = drawn_clearances(24, sigma, offset, draws=400, seed=2)
    combined = shared_load(deflection, clearances, tilted(24, gap, draws=400), lag)
    share = first_tooth_share(24 * deflection, clearances, 1.0)
    product = (
        24.0 * np.asarray(share) * float(same_side_factor(lag)) * float(tilt_load_factor(gap / deflection))
    )
    ratio = float(np.median(product) / np.median(combined.peak))
    assert ratio == pytest.approx(RATIO[name], rel=0.05)
    assert ratio > 1.0


sizes = st.floats(0.5, 50.0)


@given(
    load=sizes, offset=st.floats(0.0, 100.0), gap=st.floats(0.0, 60.0), lag=st.floats(0.0, 6.0), more=sizes
)
def test_more_load_never_lowers_the_largest_line_load(
    load: float, offset: float, gap: float, lag: float, more: float
) -> None:
    clearances = drawn_clearances(14, 8 * UM, offset * UM, draws=3, seed=1)
    gaps = tilted(14, gap * UM, draws=3)
    few, many = (shared_load(q * UM, clearances, gaps, lag) for q in (load, load + more))
    assert np.all((load + more) * many.peak >= load * few.peak * (1.0 - 1e-9))
    assert np.all((load + more) * many.first >= load * few.first * (1.0 - 1e-9))
    assert np.all(many.contact >= few.contact - 1e-12)


@given(load=sizes, scale=st.floats(0.01, 100.0), lag=st.floats(0.0, 6.0), leaving=st.floats(0.0, 1.0))
def test_only_ratios_of_lengths_count(load: float, scale: float, lag: float, leaving: float) -> None:
    clearances = drawn_clearances(14, 8 * UM, 20 * UM, draws=3, seed=1)
    gaps = tilted(14, 10 * UM, draws=3)
    one = shared_load(load * UM, clearances, gaps, lag, leaving)
    other = shared_load(scale * load * UM, scale * clearances, scale * gaps, lag, leaving)
    np.testing.assert_allclose(other.peak, one.peak, rtol=1e-6)
    np.testing.assert_allclose(other.first, one.first, rtol=1e-6)


@given(load=sizes, gap=st.floats(0.0, 60.0), lag=st.floats(0.0, 6.0), shift=st.floats(-50.0, 50.0))
def test_a_clearance_more_for_all_changes_nothing(load: float, gap: float, lag: float, shift: float) -> None:
    clearances = drawn_clearances(14, 8 * UM, 20 * UM, draws=3, seed=1)
    gaps = tilted(14, gap * UM, draws=3)
    one, other = (shared_load(load * UM, c, gaps, lag) for c in (clearances, clearances + shift * UM))
    np.testing.assert_allclose(other.peak, one.peak, rtol=1e-6)


def test_the_first_tooth_carries_no_less_than_an_even_share_and_no_more_than_all() -> None:
    clearances = drawn_clearances(30, 10 * UM, 80 * UM, draws=300, seed=9)
    load = shared_load(np.array([[1.0], [10.0]]) * UM, clearances, tilted(30, 20 * UM, draws=300), 2.0)
    assert load.peak.shape == (2, 300)
    assert np.all((load.first >= 1.0 / 30.0) & (load.first <= 1.0 + 1e-9))
    assert np.all(load.peak >= 30.0 * load.first * (1.0 - 1e-9))
    assert np.all((load.contact > 0.0) & (load.contact <= 1.0))


@pytest.mark.parametrize(
    ("arguments", "match"),
    [
        ((0.0, np.zeros(8), np.zeros(8), 1.0), "deflection"),
        ((UM, np.zeros(8), np.zeros(8), -1.0), "lag"),
        ((UM, np.zeros(8), np.zeros(8), 1.0, 1.5), "leaving_share"),
        ((UM, np.array([np.nan, 0.0]), np.zeros(2), 1.0), "finite"),
        ((UM, np.array(0.0), np.array(0.0), 1.0), "axis"),
    ],
)
def test_arguments_out_of_range_are_refused(arguments: tuple[float, ...], match: str) -> None:
    with pytest.raises(DomainError, match=match):
        shared_load(*arguments)  # type: ignore[arg-type]


@given(eta=st.floats(1.0, 200.0))
def test_mean_of_the_wedge_is_one_by_quadrature(eta: float) -> None:
    approach = float(tilt_load_factor(eta)) - eta

    def of_one_tooth(angle: float) -> float:
        slope = eta * np.sin(angle)
        if approach >= slope:
            return approach
        return max(approach + slope, 0.0) ** 2 / (4.0 * slope)

    kink = float(np.arcsin(min(1.0, abs(approach) / eta)))
    mean = quad(of_one_tooth, 0.0, kink)[0] + quad(of_one_tooth, kink, 0.5 * np.pi)[0]
    assert 2.0 / np.pi * mean == pytest.approx(1.0, rel=1e-6)


@given(eta=st.lists(st.floats(0.0, 500.0), min_size=2, max_size=6))
def test_more_tilt_never_evens_the_load(eta: list[float]) -> None:
    factors = [float(tilt_load_factor(value)) for value in sorted(eta)]
    contacts = [float(tilt_contact_share(value)) for value in sorted(eta)]
    assert all(more >= less - 1e-9 for less, more in pairwise(factors))
    assert all(more <= less + 1e-9 for less, more in pairwise(contacts))


@pytest.mark.parametrize("angle", [30.0, 37.5, 45.0])
def test_rack_chord_against_the_true_flank(angle: float) -> None:
    # module 1, tooth of pi/2, root 0.6 below the pitch circle: the true tooth tends to the rack's
    flank = np.radians(angle)
    rack = float(rack_root_chord(0.5 * np.pi, 0.6, flank))
    few, many = (
        float(width_at_radius(0.5 * teeth - 0.6, float(teeth), flank, 0.5 * np.pi)) for teeth in (24, 2400)
    )
    assert many == pytest.approx(rack, rel=2e-3)
    assert few < rack
    assert few == pytest.approx(rack, rel=0.12)


def test_flank_with_a_layer() -> None:
    # nothing under the strip shears more than at half its height: a thin layer helps nothing
    assert float(flank_yield_pressure(1600e6, 600e6, 0.0, 1e-3)) == 600e6
    assert float(flank_yield_pressure(1600e6, 600e6, 0.5e-3, 1e-3)) == 600e6
    # at u = 2: (1 + 4)/4
    assert float(flank_yield_pressure(1600e6, 600e6, 1e-3, 1e-3)) == pytest.approx(750e6)
    assert float(flank_yield_pressure(1600e6, 600e6, 1.0, 1e-3)) == 1600e6
    assert float(flank_yield_pressure(500e6, 600e6, 0.5e-3, 1e-3)) == 500e6


def test_root_with_a_layer() -> None:
    assert float(layered_root_strength(1600e6, 600e6, 0.0, 4e-3)) == 600e6
    assert float(layered_root_strength(1600e6, 600e6, 1e-3, 4e-3)) == pytest.approx(1200e6)
    for through in (2e-3, 3e-3):
        assert float(layered_root_strength(1600e6, 600e6, through, 4e-3)) == 1600e6


def test_without_twist_and_tilt_the_balance_is_that_of_the_middle() -> None:
    clearances = np.abs(np.random.default_rng(3).normal(0.0, 8e-6, (40, 26)))
    gaps = np.zeros_like(clearances)
    plain = shared_load(6e-6, clearances, gaps, 0.0)
    # next to no twist goes the general way
    general = shared_load(6e-6, clearances, gaps, 0.02)
    np.testing.assert_allclose(plain.peak, general.peak, rtol=2e-4)
    np.testing.assert_allclose(plain.first, general.first, rtol=2e-4)
    np.testing.assert_allclose(plain.contact, general.contact, atol=0.05)


STIFFNESS, FORCE, TILT = 1.2e10, 20e3, 1.5e-3  # N/m per m of tooth, N, rad


def load_by_root(teeth: int, length: float) -> float:
    """Largest load per length of a rigid, even, tilted joint: equilibrium by bisection on a fine grid."""
    around = TILT * np.cos(2.0 * np.pi * np.arange(teeth) / teeth)
    along = np.linspace(-0.5 * length, 0.5 * length, 20_001)

    def approach(d: float) -> np.ndarray:
        return np.maximum(d + np.outer(around, along), 0.0)

    d = brentq(lambda d: STIFFNESS * np.trapezoid(approach(d), along).sum() - FORCE, -1e-3, 1e-3, xtol=1e-15)
    return float(STIFFNESS * approach(d).max())


def load_by_kernel(teeth: int, length: float) -> float:
    """The same by the kernel."""
    even = FORCE / (teeth * length)
    ends = TILT * np.cos(2.0 * np.pi * np.arange(teeth) / teeth) * 0.5 * length
    return float(shared_load(even / STIFFNESS, np.zeros(teeth), ends, 0.0).peak) * even


def test_at_one_tilt_longer_teeth_do_not_help_and_many_of_them_share_worse() -> None:
    """One tooth touches at its end over sqrt(2F/(c tilt)), however long; of many, fewer reach that far."""
    lengths = (0.0288, 0.036, 0.045, 0.054)
    assert load_by_kernel(1, 0.054) == pytest.approx(np.sqrt(2.0 * FORCE * STIFFNESS * TILT), rel=5e-4)
    many = [load_by_kernel(21, length) for length in lengths]
    assert many == pytest.approx([load_by_root(21, length) for length in lengths], rel=2e-5)
    assert many == sorted(many)
    assert many[-1] > 1.1 * many[0]
