"""Readings narrow the estimate: against the conjugate pair, against quadrature, and at the limits."""

from math import exp, log, sqrt

import numpy as np
import pytest
from scipy.integrate import dblquad

from torqcheck.errors import DomainError
from torqcheck.wear import (
    Course,
    DepthRates,
    GreaseClock,
    LashObservation,
    Reread,
    reread_runs,
    wear_course,
)

RATE = 2e-7  # m/h of both members together
SIGMA, OWN = 1.9, 0.4


def straight() -> Course:
    return wear_course(rates=DepthRates(external=0.5 * RATE, internal=0.5 * RATE), deepest=20e-3)


def reread(
    *observations: LashObservation, seed: int = 1, clearance_sigma: float = 0.0, **more: object
) -> Reread:
    arguments = {
        "course": straight(),
        "clearance": 0.1e-3,
        "clearance_sigma": clearance_sigma,
        "clearance_per_depth": 1.0,
        "sigma": SIGMA,
        "observations": observations,
        "limits": (),
        "seed": seed,
    }
    return reread_runs(**(arguments | more))  # type: ignore[arg-type]


def seen(hours: float, growth: float, sigma: float = 1e-8, **more: bool) -> LashObservation:
    return LashObservation(hours=hours, clearance=0.1e-3 + growth, sigma=sigma, **more)


@pytest.mark.parametrize("factor", [0.2, 1.0, 3.0])
def test_one_perfect_reading_is_the_conjugate_pair(factor: float) -> None:
    # normal prior of ln(rate), normal observation: mean and variance in closed form
    found = np.log(reread(seen(500.0, factor * RATE * 500.0)).runs.speed)
    precision = 1 / SIGMA**2 + 1 / OWN**2
    mean = log(factor) / OWN**2 / precision
    error = sqrt(1 / precision / found.size)
    assert float(np.mean(found)) == pytest.approx(mean, abs=4 * error)
    assert float(np.std(found)) == pytest.approx(1 / sqrt(precision), rel=0.02)


def test_three_perfect_readings_are_the_conjugate_chain() -> None:
    growths = (0.5, 1.6, 0.9)  # of the median, in each interval of 200 h
    read, total = [], 0.0
    for index, growth in enumerate(growths):
        total += growth * RATE * 200.0
        read.append(seen(200.0 * (index + 1), total))
    found = np.log(reread(*read).runs.speed)
    precision = 1 / SIGMA**2 + 3 / OWN**2
    assert float(np.mean(found)) == pytest.approx(sum(map(log, growths)) / OWN**2 / precision, abs=0.01)
    assert float(np.std(found)) == pytest.approx(1 / sqrt(precision), rel=0.02)


@pytest.mark.parametrize("growth", [0.02e-3, 0.1e-3, 0.135e-3, 0.4e-3])
def test_a_coarse_gauge_against_quadrature(growth: float) -> None:
    # posterior of u = ln(speed) with e = what does not repeat itself, gauge of 0.03 mm
    gauge, hours = 0.03e-3, 500.0

    def weight(e: float, u: float) -> float:
        grown = RATE * hours * exp(u + e)
        return exp(-0.5 * (u / SIGMA) ** 2 - 0.5 * (e / OWN) ** 2 - 0.5 * ((growth - grown) / gauge) ** 2)

    edges = -6 * SIGMA, 3.5, lambda u: -4 * OWN, lambda u: 4 * OWN
    mass = dblquad(weight, *edges, epsabs=1e-7)[0]
    mean = dblquad(lambda e, u: u * weight(e, u), *edges, epsabs=1e-7)[0] / mass
    square = dblquad(lambda e, u: u * u * weight(e, u), *edges, epsabs=1e-7)[0] / mass
    found = reread(seen(hours, growth, gauge))
    speeds = np.log(found.runs.speed)
    spread = sqrt(square - mean**2)
    assert found.effective > 500
    assert float(np.mean(speeds)) == pytest.approx(mean, abs=0.04 * spread)
    assert float(np.std(speeds)) == pytest.approx(spread, rel=0.04)


def test_a_coarse_gauge_on_a_course_that_slows_down_against_quadrature() -> None:
    # fast at first, a seventh of that later: the same reading is worth more hours where wear is slow
    gauge, hours, growth = 0.035e-3, 500.0, 0.16e-3
    exposure = np.concatenate(([0.0], np.geomspace(1.0, 1e6, 3000)))
    depth = 0.12e-3 * (1.0 - np.exp(-exposure / 200.0)) + 1e-7 * exposure
    course = Course(exposure=exposure, external=0.5 * depth, internal=0.5 * depth)

    def weight(e: float, u: float) -> float:
        ran = hours * exp(u + e)
        grown = 0.12e-3 * (1.0 - exp(-ran / 200.0)) + 1e-7 * ran
        return exp(-0.5 * (u / SIGMA) ** 2 - 0.5 * (e / OWN) ** 2 - 0.5 * ((growth - grown) / gauge) ** 2)

    edges = -6 * SIGMA, 3.5, lambda u: -4 * OWN, lambda u: 4 * OWN
    mass = dblquad(weight, *edges, epsabs=1e-7)[0]
    mean = dblquad(lambda e, u: u * weight(e, u), *edges, epsabs=1e-7)[0] / mass
    square = dblquad(lambda e, u: u * u * weight(e, u), *edges, epsabs=1e-7)[0] / mass
    found = reread(seen(hours, growth, gauge), course=course)
    speeds, spread = np.log(found.runs.speed), sqrt(square - mean**2)
    assert float(np.mean(speeds)) == pytest.approx(mean, abs=0.04 * spread)
    assert float(np.std(speeds)) == pytest.approx(spread, rel=0.04)


def test_a_reading_as_predicted_leaves_the_median() -> None:
    found = reread(seen(500.0, RATE * 500.0, 1e-6)).runs
    error = float(np.std(np.log(found.speed))) * 1.2533 / sqrt(found.speed.size)
    assert log(float(np.median(found.speed))) == pytest.approx(0.0, abs=5 * error)


def test_nothing_grown_is_an_upper_bound_only() -> None:
    found = reread(seen(500.0, 0.0, 0.02e-3)).runs
    before = reread().runs
    assert np.quantile(found.speed, 0.95) < 0.6 * np.quantile(before.speed, 0.95)
    # what is far below the gauge stays as likely as it was, one against the other
    low, lower = (float(np.mean(found.speed < limit)) for limit in (0.02, 0.005))
    was_low, was_lower = (float(np.mean(before.speed < limit)) for limit in (0.02, 0.005))
    assert lower / low == pytest.approx(was_lower / was_low, rel=0.1)


def test_from_the_reading_on_the_lash_is_the_reading() -> None:
    found = reread(seen(500.0, 0.2e-3, 1e-6), clearance_sigma=5e-6)
    total = straight().total_at(found.runs.exposure(500.0))
    np.testing.assert_allclose(found.clearance + total, 0.3e-3, atol=6e-6)
    later = straight().total_at(found.runs.exposure(1000.0)) - total
    np.testing.assert_allclose(later, found.runs.speed * RATE * 500.0, rtol=1e-6)


def test_grease_that_may_have_ended_is_weighed_by_the_reading() -> None:
    # the growth of 400 h at the fast rate tells that the grease ended early
    clock = GreaseClock(working=500.0, ratio=100.0)
    little, much = (
        reread(seen(600.0, growth, 1e-6), clock=clock, working_sigma=1.0, sigma=0.5).runs.clock.working
        for growth in (RATE * 600.0, RATE * 100.0 * 400.0)
    )
    assert float(np.median(much)) < 300.0 < 500.0 < float(np.median(little))


def test_regreasing_is_counted() -> None:
    clock = GreaseClock(working=100.0, ratio=50.0)
    plain, renewed = (
        reread(seen(500.0, 0.2e-3, 1e-6, regreased=again), clock=clock).runs for again in (False, True)
    )
    assert plain.clock.regreased == ()
    assert renewed.clock.regreased == (500.0,)
    assert np.median(renewed.exposure(590.0)) < np.median(plain.exposure(590.0))


def test_surprise_counts_standard_deviations() -> None:
    spread = sqrt(SIGMA**2 + OWN**2)
    for factor in (0.1, 1.0, 50.0):
        found = reread(seen(500.0, factor * RATE * 500.0))
        assert found.surprise == pytest.approx(abs(log(factor)) / spread, abs=2e-3)


def test_same_seed_same_draws() -> None:
    one, two, other = (reread(seen(500.0, 0.2e-3, 1e-6), seed=seed).runs.speed for seed in (3, 3, 4))
    np.testing.assert_array_equal(one, two)
    assert float(np.median(other)) == pytest.approx(float(np.median(one)), rel=0.02)


def test_what_contradicts_is_refused() -> None:
    with pytest.raises(DomainError, match="hours must be above zero"):
        reread(seen(500.0, 1e-4), seen(400.0, 2e-4))
    with pytest.raises(DomainError, match="draws must be at least"):
        reread(draws=10)
    with pytest.raises(DomainError, match="no wear of this joint"):
        reread(seen(500.0, 30e-3))
    for name in ("sigma", "own_sigma", "clearance_per_depth"):
        for value in (0.0, -1.0):
            with pytest.raises(DomainError, match=f"^{name} must be above zero"):
                reread(seen(500.0, 1e-4), **{name: value})


def test_weights_next_to_nothing_still_count_candidates() -> None:
    from torqcheck.wear.inspection import _effective

    weights = np.array([1.0, 1.0, 0.5, 0.0])
    for scale in (1.0, 1e-200, 1e-300):
        assert _effective(scale * weights) == pytest.approx(2.5**2 / 2.25, rel=1e-12)
