"""Lives as draws: closed forms, two phases of grease, several limits, refusals."""

from collections.abc import Sequence
from math import erf, exp, log, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from published._case import Case

from torqcheck._types import FloatArray
from torqcheck.errors import DomainError
from torqcheck.wear import (
    LEAST_DRAWS,
    DepthRates,
    GreaseClock,
    LifeDraws,
    WearLimit,
    combined_sigma,
    drawn_runs,
    hours_to_depth,
    life_draws,
    lognormal_percentiles,
    percentiles,
    share_reaching,
    sigma_from_variation,
    wear_course,
)

RATES = DepthRates(external=0.2418e-6, internal=0.2418e-6)
CASE_DEPTH = WearLimit(name="case depth", member="external", depth=0.25e-3, sigma=0.0)
PLAY = WearLimit(name="play", member="both", depth=0.40e-3, sigma=0.0)
MEDIAN = 0.25e-3 / (3000 * 60 * 1.343564e-12)


def check(where: str, printed: str, ours: float, slack: float = 0.0, because: str = "") -> None:
    case = Case("Lognormal life, reckoned by hand", where, "derived", {}, printed, 1.0, slack, because)
    case.check(ours)


def linear_life(
    rates: DepthRates,
    limits: Sequence[WearLimit],
    sigma: float,
    *,
    seed: int = 1,
    draws: int = LEAST_DRAWS,
    clock: GreaseClock | None = None,
    working_sigma: float = 0.0,
) -> LifeDraws:
    """Lives without any feedback of the wear on itself: what closed forms can be held against."""
    course = wear_course(rates=rates, deepest=1.0)
    runs = drawn_runs(
        sigma=sigma, limits=limits, seed=seed, clock=clock, working_sigma=working_sigma, draws=draws
    )
    return life_draws(course, limits, runs)


def test_percentiles_of_the_worked_life() -> None:
    check("median", "1033.7", MEDIAN)
    wide = lognormal_percentiles(MEDIAN, 1.80)
    check("class only, p10", "102.9", float(wide.p10))
    why = "reckoned with 1.2816 for 1.28155"
    check("class only, p90", "10381", float(wide.p90), 1.0, why)
    sigma = float(combined_sigma(0.857, 0.5, 0.3))
    check("sigma", "1.0366", sigma)
    better = lognormal_percentiles(MEDIAN, sigma)
    check("known pair, p10", "273.8", float(better.p10))
    check("known pair, p90", "3902", float(better.p90), 0.5, why)
    check("known pair, factor", "3.775", float(better.p90 / better.p50))


@pytest.mark.parametrize(
    ("sigma", "factor", "variation"),
    [
        (0.5, "1.90", "0.53"),
        (0.857, "3.0", "1.04"),  # ln 3 over 1.2816, printed as 0.86
        (1.0, "3.60", "1.31"),
        (1.5, "6.84", "2.91"),
        (1.8, "10.0", "4.95"),
        (2.3, "19.1", "14.05"),
    ],
)
def test_sigma_in_other_words(sigma: float, factor: str, variation: str) -> None:
    check("factor", factor, float(lognormal_percentiles(1.0, sigma).p90))
    check("variation", variation, sqrt(exp(sigma**2) - 1))
    assert float(sigma_from_variation(sqrt(exp(sigma**2) - 1))) == pytest.approx(sigma, rel=1e-12)


@pytest.mark.parametrize(("variation", "printed"), [(0.4, "0.385"), (0.6, "0.555"), (0.8, "0.703")])
def test_sigma_from_a_test_report(variation: float, printed: str) -> None:
    check("sigma", printed, float(sigma_from_variation(variation)))


def test_grease_that_ends() -> None:
    hours = float(hours_to_depth(250e-6, 0.25e-6, 62.5, 2.5e-6))
    check("two phases", "156.25", hours)


@given(
    depth=st.floats(0.0, 1e-3),
    rate=st.floats(0.0, 1e-5),
    induction=st.floats(0.0, 1e3),
    rate_after=st.floats(1e-8, 1e-5),
)
def test_depth_after_the_hours_is_the_depth(
    depth: float, rate: float, induction: float, rate_after: float
) -> None:
    hours = float(hours_to_depth(depth, rate, induction, rate_after))
    worn = rate * min(hours, induction) + rate_after * max(hours - induction, 0.0)
    assert worn == pytest.approx(depth, rel=1e-9, abs=1e-15)


@given(depth=st.floats(1e-6, 1e-3), rate=st.floats(1e-8, 1e-5), induction=st.floats(0.0, 1e3))
def test_alike_rates_make_one_phase(depth: float, rate: float, induction: float) -> None:
    assert float(hours_to_depth(depth, rate, induction, rate)) == pytest.approx(depth / rate, rel=1e-9)


def test_draws_agree_with_the_closed_form() -> None:
    limit = WearLimit(name="case depth", member="external", depth=0.25e-3, sigma=0.2)
    sigma = float(combined_sigma(1.8, 0.5, 0.4))
    drawn = linear_life(RATES, [limit], sigma, draws=400_000)
    ours = percentiles(drawn.hours)
    exact = lognormal_percentiles(0.25e-3 / RATES.external, combined_sigma(sigma, 0.2))
    total = float(combined_sigma(sigma, 0.2))
    # standard error of a quantile of ln(life): S sqrt(q (1 - q)/n)/phi; five of them
    for share, density, got, wanted in (
        (0.1, 0.17550, ours.p10, exact.p10),
        (0.5, 0.39894, ours.p50, exact.p50),
        (0.9, 0.17550, ours.p90, exact.p90),
    ):
        error = total * sqrt(share * (1 - share) / 400_000) / density
        assert log(float(got) / float(wanted)) == pytest.approx(0.0, abs=5 * error)
    service = 500.0
    normal = (log(0.25e-3 / RATES.external) - log(service)) / total
    expected = 0.5 * (1 + erf(normal / sqrt(2)))
    assert share_reaching(drawn.hours, service) == pytest.approx(expected, abs=5 * 0.5 / sqrt(400_000))


def test_two_limits_against_independent_normals() -> None:
    # S = 0 for the rate: the life is the smaller of two independent lognormals, whose survival is
    # the product of both
    limits = [
        WearLimit(name="external", member="external", depth=0.25e-3, sigma=0.5),
        WearLimit(name="play", member="both", depth=0.55e-3, sigma=0.3),
    ]
    drawn = linear_life(RATES, limits, 0.0, draws=200_000)
    for service in (600.0, 1000.0, 1500.0):
        survival = 1.0
        for limit, rate in zip(limits, (0.2418e-6, 0.4836e-6), strict=True):
            normal = log(limit.depth / rate / service) / limit.sigma
            survival *= 0.5 * (1 + erf(normal / sqrt(2)))
        assert share_reaching(drawn.hours, service) == pytest.approx(survival, abs=0.006)
    assert 0.2 < drawn.shares[0] < 0.8
    assert sum(drawn.shares) == pytest.approx(1.0)
    assert drawn.governing == limits[int(np.argmax(drawn.shares))].name


def test_the_first_limit_ends_the_life() -> None:
    # alike rates: 0.25 mm on one part comes after 0.40 mm on both together
    drawn = linear_life(RATES, [CASE_DEPTH, PLAY], 1.0)
    assert set(drawn.limit.tolist()) == {1}
    assert drawn.governing == "play"
    assert drawn.names == ("case depth", "play")
    # with a hard partner the case of the other goes first
    hard = DepthRates(external=0.2418e-6, internal=0.05e-6)
    drawn = linear_life(hard, [CASE_DEPTH, PLAY], 1.0)
    assert drawn.governing == "case depth"


def test_same_seed_same_life() -> None:
    one, two, other = (linear_life(RATES, [CASE_DEPTH, PLAY], 1.8, seed=seed) for seed in (7, 7, 8))
    np.testing.assert_array_equal(one.hours, two.hours)
    assert not np.array_equal(one.hours, other.hours)
    assert one.hours.size == LEAST_DRAWS
    with pytest.raises(ValueError, match="read-only"):
        one.hours[0] = 0.0


def test_no_spread_is_the_plain_sum() -> None:
    drawn = linear_life(
        DepthRates(external=0.25e-6, internal=0.25e-6),
        [WearLimit(name="depth", member="external", depth=250e-6, sigma=0.0)],
        0.0,
        clock=GreaseClock(working=62.5, ratio=10.0),
    )
    np.testing.assert_allclose(drawn.hours, 156.25, rtol=1e-12)
    life = percentiles(drawn.hours)
    assert (life.p10, life.p50, life.p90) == pytest.approx((156.25,) * 3)


def test_grease_that_ends_shortens_the_long_lives_only() -> None:
    # what is worn out within the induction is so with and without it
    plain = linear_life(RATES, [CASE_DEPTH], 1.8)
    ended = linear_life(RATES, [CASE_DEPTH], 1.8, clock=GreaseClock(working=500.0, ratio=20.0))
    early = plain.hours < 500.0
    np.testing.assert_allclose(ended.hours[early], plain.hours[early], rtol=1e-12)
    assert np.all(ended.hours[~early] < plain.hours[~early])
    assert np.all(ended.hours[~early] >= 500.0)
    np.testing.assert_allclose(ended.hours[~early] - 500.0, (plain.hours[~early] - 500.0) / 20.0, rtol=1e-9)


@settings(max_examples=20, deadline=None)
@given(factor=st.floats(0.01, 100.0))
def test_life_scales_with_one_over_the_rate(factor: float) -> None:
    scaled = DepthRates(external=RATES.external * factor, internal=RATES.internal * factor)
    one, two = (linear_life(rates, [CASE_DEPTH, PLAY], 1.0) for rates in (RATES, scaled))
    np.testing.assert_allclose(two.hours * factor, one.hours, rtol=1e-12)
    np.testing.assert_array_equal(one.limit, two.limit)


def test_a_part_that_does_not_wear_does_not_end_the_life() -> None:
    rates = DepthRates(external=0.0, internal=0.3e-6)
    drawn = linear_life(rates, [CASE_DEPTH, PLAY], 1.0)
    assert drawn.shares == (0.0, 1.0)
    assert np.all(np.isfinite(drawn.hours))


def test_a_limit_already_reached_leaves_no_hours() -> None:
    gone = WearLimit(name="play", member="both", depth=0.0)
    drawn = linear_life(RATES, [CASE_DEPTH, gone], 1.0)
    assert np.all(drawn.hours == 0.0)
    assert drawn.governing == "play"


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"draws": 19_999}, "draws must be at least 20000"),
        ({"limits": []}, "no limit is ever reached"),
        ({"rates": DepthRates(external=0.0, internal=0.0)}, "nothing wears"),
        ({"rates": DepthRates(external=-1e-9, internal=0.0)}, "external must not be negative"),
        ({"sigma": -0.1}, "sigma must not be negative"),
        ({"limits": [WearLimit(name="x", member="both", depth=-1e-6)]}, "depth must not be negative"),
    ],
)
def test_what_cannot_be_drawn_is_refused(change: dict[str, object], message: str) -> None:
    arguments: dict[str, object] = {"rates": RATES, "limits": [PLAY], "sigma": 1.0}
    with pytest.raises(DomainError, match=message):
        linear_life(**arguments | change)  # type: ignore[arg-type]


def test_spread_refuses_nonsense() -> None:
    with pytest.raises(DomainError, match="at least one sigma"):
        combined_sigma()
    with pytest.raises(DomainError, match="sigma must not be negative"):
        combined_sigma(0.5, -0.1)
    with pytest.raises(DomainError, match="median must be above zero"):
        lognormal_percentiles(0.0, 1.0)
    with pytest.raises(DomainError, match="sigma must not be negative"):
        lognormal_percentiles(1.0, -1.0)


def test_percentiles_take_arrays() -> None:
    life = lognormal_percentiles(np.array([100.0, 200.0]), np.array([0.0, np.nan]))
    np.testing.assert_array_equal(life.p10, [100.0, np.nan])


DEPTH = WearLimit(name="depth", member="external", depth=2e-3, sigma=0.0)


def grease_hours(renewal: float | None, sigma: float = 0.0) -> FloatArray:
    clock = GreaseClock(working=100.0, ratio=10.0, renewal=renewal)
    rates = DepthRates(external=1e-6, internal=1e-6)
    return linear_life(rates, [DEPTH], 0.5, seed=7, clock=clock, working_sigma=sigma).hours


def drawn_speed() -> FloatArray:
    return drawn_runs(sigma=0.5, limits=[DEPTH], seed=7).speed


def test_renewal_inside_the_grease_s_time_keeps_the_first_rate() -> None:
    assert grease_hours(80.0) == pytest.approx(2e-3 / (1e-6 * drawn_speed()), rel=1e-9)


def test_late_renewal_against_a_walk_through_the_intervals() -> None:
    spread = drawn_speed()
    hours = grease_hours(150.0)
    for draw in range(0, LEAST_DRAWS, 997):
        depth, time = 0.0, 0.0
        while True:
            for rate, length in ((1e-6 * spread[draw], 100.0), (1e-5 * spread[draw], 50.0)):
                if depth + rate * length >= 2e-3:
                    time += (2e-3 - depth) / rate
                    break
                depth, time = depth + rate * length, time + length
            else:
                continue
            break
        assert hours[draw] == pytest.approx(time, rel=1e-9)


def test_the_later_the_renewal_the_shorter_the_life_and_none_is_the_shortest() -> None:
    order = [np.median(grease_hours(renewal)) for renewal in (80.0, 150.0, 400.0, 4000.0, None)]
    assert order == sorted(order, reverse=True)


def test_scatter_of_the_grease_s_time_widens_the_life() -> None:
    sharp, vague = (np.percentile(grease_hours(None, sigma), [10, 90]) for sigma in (0.0, 1.0))
    assert vague[1] / vague[0] > sharp[1] / sharp[0]


@pytest.mark.parametrize("count", [0, 2])
def test_rate_grease_and_limits_are_drawn_independently(count: int) -> None:
    limits = [WearLimit(name=str(i), member="both", depth=1e-3, sigma=0.3) for i in range(count)]
    runs = drawn_runs(sigma=1.8, limits=limits, seed=1, clock=GreaseClock(working=100.0), working_sigma=0.7)
    logs = np.log(np.vstack((runs.speed, np.asarray(runs.clock.working), runs.limit_factors)))
    # independent normals: a sample correlation of 20,000 scatters by 1/sqrt(20000) = 0.007 at most
    np.testing.assert_allclose(np.corrcoef(logs), np.eye(2 + count), atol=0.02)
    np.testing.assert_allclose(np.std(logs, axis=1), (1.8, 0.7, 0.3, 0.3)[: 2 + count], rtol=0.02)
