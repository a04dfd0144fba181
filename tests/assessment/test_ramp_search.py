"""The search for the largest rise, against brute force on fine grids and against closed forms."""

import math

import numpy as np
import pytest
from assessment._ramp_cases import DRIVING, PEAK, SLOWEST, STIFFNESS, cases_with, draws_around
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from torqcheck.assessment.ramp.cases import Cases
from torqcheck.assessment.ramp.search import find_fastest, find_fastest_percentile, find_windows

PERIOD = 2.0 * math.pi * math.sqrt(DRIVING / STIFFNESS)  # driven side held


def undamped(periods: float) -> float:
    """Peak over steady torque of a ramp without lash and damping (closed form, standard result) [derived]."""
    return 1.0 + abs(math.sin(math.pi * periods)) / (math.pi * periods)


def periods_of(rise: float) -> float:
    return PEAK / rise / PERIOD


# maxima of the side lobes, where tan(pi x) = pi x: 1.217234, 1.128375, 1.091325 [derived]
@pytest.mark.parametrize(
    ("factor", "low", "high"),
    [
        (1.9, 0.1, 0.9),
        (1.3, 0.5, 0.9),  # above the first side lobe
        (1.2172, 1.430297, 1.6),  # just below it: the lobe is 0.003 percent higher
        (1.2, 1.430297, 1.9),
        (1.13, 1.430297, 1.9),
        (1.1283, 2.459024, 2.6),  # just below the second
        (1.0913, 3.470890, 3.6),  # and the third
    ],
)
def test_limit_without_lash_is_that_of_the_closed_form(factor: float, low: float, high: float) -> None:
    wanted = brentq(lambda x: undamped(x) - factor, low, high, xtol=1e-13)
    found = find_fastest(cases_with(factor), SLOWEST)
    assert found.rise is not None
    assert periods_of(found.rise) == pytest.approx(wanted, rel=1e-6)
    assert periods_of(found.rise) >= wanted * (1.0 - 1e-9)  # on the slower side


def test_window_between_first_and_second_lobe_is_named_and_not_taken() -> None:
    cases = cases_with(1.2)
    limit = find_fastest(cases, SLOWEST).rise
    assert limit is not None
    (window,) = find_windows(cases, limit, 100.0 * PEAK)
    edges = [brentq(lambda x: undamped(x) - 1.2, *bracket) for bracket in ((1.0, 1.42), (0.5, 1.0))]
    assert periods_of(window.slow) == pytest.approx(edges[0], rel=0.02)
    assert periods_of(window.fast) == pytest.approx(edges[1], rel=0.02)
    assert limit < window.slow < window.fast


def test_a_limit_above_the_step_allows_any_rise() -> None:
    # a torque that is there at once: factor 2 without lash, 1 + sqrt(1 + 2 beta) with it [derived]
    assert find_fastest(cases_with(2.0001), SLOWEST).any_rise
    assert not find_fastest(cases_with(1.9999), SLOWEST).any_rise
    step = 1.0 + math.sqrt(1.0 + 2.0 * 0.7)
    assert find_fastest(cases_with(1.0001 * step, damping=1e-4, lash=0.7), SLOWEST).any_rise
    assert not find_fastest(cases_with(0.98 * step, damping=1e-4, lash=0.7), SLOWEST).any_rise


def test_a_limit_below_the_steady_torque_allows_none() -> None:
    found = find_fastest(cases_with(0.99, damping=0.05, lash=0.3), SLOWEST)
    assert found.rise is None
    assert not found.any_rise


def first_failing(cases: Cases, points_per_lobe: int, most_lobes: float) -> tuple[float, float]:
    """Brute force: the slowest failing rise of a fine grid over the lobes, and the grid point before it."""
    periods = np.arange(most_lobes, 0.004, -1.0 / points_per_lobe)
    rises = PEAK / (periods * float(cases.periods[0]))
    fails = np.flatnonzero(cases.demands(cases.nominal, rises)[:, 0] > 1.0)
    if fails.size == 0:
        return math.inf, math.inf
    return float(rises[fails[0]]), float(rises[max(fails[0] - 1, 0)])


def random_cases(seed: int) -> Cases:
    rng = np.random.default_rng(seed)
    starts = (0.0,) if rng.random() < 0.5 else (0.0, -float(rng.uniform(0.1, 1.0)) * PEAK)
    return cases_with(
        1.0 + 10.0 ** rng.uniform(-1.6, -0.1),
        damping=10.0 ** rng.uniform(-2.3, -1.0),
        lash=float(rng.random() < 0.8) * 10.0 ** rng.uniform(-2.0, 0.3),
        driven=float(rng.choice([math.inf, 0.1, 1.2])),
        starts=starts,
    )


@pytest.mark.parametrize("seed", range(240))
def test_no_lobe_is_missed(seed: int) -> None:
    """Two hundred and forty lobed cases against 64 points in each lobe."""
    cases = random_cases(seed)
    fails, before = first_failing(cases, 64, 150.0)
    found = find_fastest(cases, SLOWEST)
    assert found.rise is not None
    if math.isinf(fails):
        assert found.any_rise or found.rise > 100.0 * PEAK
        return
    assert found.rise <= fails * (1.0 + 1e-9)
    assert found.rise >= before * (1.0 - 1e-3)


def test_brute_force_meets_lobes_that_a_bisection_would_fall_for() -> None:
    """Keep the test above honest: in many of its cases faster rises hold again behind the first failing."""
    lobed = 0
    for seed in range(60):
        cases = random_cases(seed)
        fails, _ = first_failing(cases, 16, 150.0)
        if math.isfinite(fails):
            faster = fails * np.geomspace(1.001, 20.0, 400)
            lobed += bool(np.any(cases.demands(cases.nominal, faster)[:, 0] <= 1.0))
    assert lobed > 20


@pytest.mark.parametrize("seed", range(12))
def test_percentile_of_draws_against_brute_force(seed: int) -> None:
    cases = random_cases(1000 + seed)
    draws = draws_around(cases, 160, 0.04, seed)
    limit = find_fastest(cases, SLOWEST).rise
    assert limit is not None
    fastest = min(limit, 50.0 * PEAK)
    found = find_fastest_percentile(cases, draws, 0.95, SLOWEST, fastest)
    rises = np.geomspace(SLOWEST, fastest, 1200)
    demands = cases.demands(draws, rises)
    low, demand, high = np.quantile(demands, (0.933, 0.95, 0.967), axis=1)
    # a standard error of the percentile of 160 draws: sqrt(0.95 x 0.05/160) = 0.017 in rank
    fails, surely = np.flatnonzero(demand > 1.0), np.flatnonzero(demand > 1.0 + 0.5 * (high - low))
    if fails.size == 0:
        assert found.rise == pytest.approx(fastest)
        return
    assert found.rise is not None
    assert found.rise >= rises[fails[0] - 1] * (1.0 - 0.01)
    if surely.size:
        assert found.rise <= rises[surely[0]]
    assert demand[np.searchsorted(rises, found.rise) - 1] <= 1.0 + 1e-9


@settings(max_examples=40, deadline=None)
@given(
    factor=st.floats(1.03, 1.8),
    more=st.floats(1.0, 1.3),
    damping=st.floats(0.005, 0.15),
    lash=st.floats(0.0, 2.0),
)
def test_a_higher_limit_never_asks_for_a_slower_ramp(
    factor: float, more: float, damping: float, lash: float
) -> None:
    tight, loose = (
        find_fastest(cases_with(f, damping=damping, lash=lash), SLOWEST).rise for f in (factor, more * factor)
    )
    assert tight is not None
    assert loose is not None
    assert loose >= tight * (1.0 - 1e-6)


@settings(max_examples=20, deadline=None)
@given(scale=st.floats(0.3, 3.0), factor=st.floats(1.05, 1.8), lash=st.floats(0.05, 1.0))
def test_the_limit_scales_with_the_torque(scale: float, factor: float, lash: float) -> None:
    """Torque and lash times the same number: the same motion, larger; the rise goes with it."""
    plain = find_fastest(cases_with(factor, damping=0.03, lash=lash), SLOWEST).rise
    large = find_fastest(cases_with(factor, damping=0.03, lash=lash, peak=scale * PEAK), scale * SLOWEST).rise
    assert plain is not None
    assert large is not None
    assert large == pytest.approx(scale * plain, rel=1e-5)


@pytest.mark.parametrize("seed", range(12))
def test_what_is_called_proven_holds_far_below_the_slowest_rise_too(seed: int) -> None:
    cases = random_cases(2000 + seed)
    found = find_fastest(cases, SLOWEST)
    if found.proven:
        slower = SLOWEST / np.geomspace(1.0, 30.0, 12)
        assert np.all(cases.demands(cases.nominal, slower)[:, 0] <= 1.0)
    assert not find_fastest(cases_with(1.2, damping=0.0, lash=0.5), 40.0 * SLOWEST).proven
    assert find_fastest(cases_with(1.2, damping=0.03, lash=0.5), SLOWEST).proven
