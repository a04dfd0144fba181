"""The course of wear: closed forms, layers, feedback, grease clock, limits of strength."""

from math import exp, log

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from published._case import Case
from scipy.integrate import solve_ivp

from torqcheck.errors import DomainError
from torqcheck.wear import (
    DepthRates,
    GreaseClock,
    HardLayer,
    WearLimit,
    drawn_runs,
    life_draws,
    percentiles,
    wear_course,
)

RATES = DepthRates(external=1e-6, internal=3e-6)


def test_no_feedback_is_depth_over_rate() -> None:
    course = wear_course(rates=RATES, deepest=1e-3)
    np.testing.assert_allclose(course.exposure, course.total / 4e-6, rtol=1e-12)
    np.testing.assert_allclose(course.internal, 3.0 * course.external, rtol=1e-12)


def test_wear_that_feeds_itself() -> None:
    # dh/dt = a + b h, solved by hand: h = (a/b)(exp(b t) - 1)
    rate, growth = 0.25e-6, 1e-3
    course = wear_course(
        rates=DepthRates(external=rate, internal=0.0), deepest=1e-3, growths=(growth / rate,), cells=400
    )
    fed = float(np.interp(1000.0, course.exposure, course.external))
    Case("dh/dt = a + b h, solved by hand", "1000 h", "derived", {}, "429.57", 1.0).check(fed * 1e6)
    plain = wear_course(rates=DepthRates(external=rate, internal=0.0), deepest=1e-3)
    assert float(np.interp(1000.0, plain.exposure, plain.external)) == pytest.approx(250e-6, rel=1e-9)
    exact = [rate / growth * (exp(growth * hours) - 1.0) for hours in course.exposure]
    np.testing.assert_allclose(course.external, exact, rtol=1e-9)


def test_falling_height_raises_the_pressure() -> None:
    # X = (H - H^2 / 2h) / v, by hand
    course = wear_course(rates=RATES, deepest=1e-3, contact_height=1.8e-3)
    exact = (course.total - course.total**2 / 3.6e-3) / 4e-6
    np.testing.assert_allclose(course.exposure, exact, rtol=1e-12)


def test_a_worn_layer_lets_the_core_wear_faster() -> None:
    course = wear_course(
        rates=RATES, deepest=1e-3, layers={"internal": HardLayer(depth=0.3e-3, core_over_layer=2.0)}
    )
    assert course.exposure_at("internal", 0.3e-3) == pytest.approx(100.0)
    assert course.exposure_at("internal", 0.6e-3) == pytest.approx(150.0)
    assert course.exposure_at("external", 0.1e-3) == pytest.approx(100.0)
    np.testing.assert_allclose(course.total, course.external + course.internal)
    assert np.isinf(course.exposure_at("internal", 1e-3))


@pytest.mark.parametrize("depth", [0.3e-3, 0.2517e-3, 0.4321e-3])
def test_a_step_ends_where_the_layer_does(depth: float) -> None:
    # the layer's time and the core's, by hand; the steps are coarse and do not end at the layer by themselves
    layer = HardLayer(depth=depth, core_over_layer=2.0)
    course = wear_course(rates=RATES, deepest=1e-3, layers={"internal": layer}, cells=7)
    exact = depth / 3e-6 + (0.6e-3 - depth) / 6e-6
    assert course.exposure_at("internal", 0.6e-3) == pytest.approx(exact, rel=1e-12)
    assert course.exposure_at("external", 1e-6 * exact) == pytest.approx(exact, rel=1e-12)


def test_everything_at_once_against_an_integrator() -> None:
    layer = HardLayer(depth=0.05e-3, core_over_layer=3.0)
    height, growth = 1.6e-3, 2e3
    course = wear_course(
        rates=RATES,
        deepest=0.5e-3,
        contact_height=height,
        layers={"external": layer},
        growths=(growth,),
        cells=2000,
    )

    def slope(_: float, depths: np.ndarray) -> list[float]:  # type: ignore[type-arg]
        total = depths[0] + depths[1]
        factor = (1.0 + growth * total) / (1.0 - total / height)
        return [RATES.external * factor * (3.0 if depths[0] >= layer.depth else 1.0), RATES.internal * factor]

    hours = np.linspace(0.0, course.exposure[-1], 9)[1:-1]
    solution = solve_ivp(
        slope, (0.0, hours[-1]), [0.0, 0.0], t_eval=hours, rtol=1e-9, atol=1e-15, max_step=0.2
    )
    for member, depths in zip(("external", "internal"), solution.y, strict=True):
        ours = np.interp(hours, course.exposure, course.of(member))  # type: ignore[arg-type]
        np.testing.assert_allclose(ours, depths, rtol=2e-4)


@given(
    depth=st.floats(1e-6, 1e-3),
    height=st.floats(1.1e-3, 1e-2),
    growth=st.floats(0.0, 1e4),
    ratio=st.floats(0.01, 100.0),
)
def test_course_only_goes_down(depth: float, height: float, growth: float, ratio: float) -> None:
    rates = DepthRates(external=1e-6, internal=ratio * 1e-6)
    course = wear_course(rates=rates, deepest=depth, contact_height=height, growths=(growth,))
    assert np.all(np.diff(course.exposure) > 0.0)
    assert np.all(np.diff(course.total) > 0.0)
    assert course.total[-1] == pytest.approx(depth, rel=1e-9)
    doubled = DepthRates(external=2e-6, internal=2.0 * ratio * 1e-6)
    twice = wear_course(rates=doubled, deepest=depth, contact_height=height, growths=(growth,))
    # twice the coefficient, half the life
    np.testing.assert_allclose(2.0 * twice.exposure, course.exposure, rtol=1e-9)


@given(
    hours=st.floats(0.0, 1e5),
    working=st.floats(0.0, 2e3),
    ratio=st.floats(0.1, 200.0),
    renewal=st.none() | st.floats(1.0, 1e3),
    regreased=st.lists(st.floats(1.0, 2e3), max_size=3, unique=True).map(lambda found: tuple(sorted(found))),
)
def test_clock_and_its_inverse(
    hours: float, working: float, ratio: float, renewal: float | None, regreased: tuple[float, ...]
) -> None:
    clock = GreaseClock(working=working, ratio=ratio, renewal=renewal, regreased=regreased)
    exposure = float(clock.exposure(hours))
    assert min(1.0, ratio) * hours <= exposure * (1 + 1e-9) <= max(1.0, ratio) * hours * (1 + 2e-9)
    assert float(clock.hours(exposure)) == pytest.approx(hours, rel=1e-6, abs=1e-6)


def test_regreasing_gives_the_grease_its_time_again() -> None:
    clock = GreaseClock(working=100.0, ratio=10.0, regreased=(150.0,))
    # 100 h at 1, 50 h at 10, then 100 h at 1 and the rest at 10
    assert clock.exposure(300.0) == pytest.approx(100.0 + 500.0 + 100.0 + 500.0)
    assert clock.hours(650.0) == pytest.approx(200.0)


def test_what_no_clock_can_show_is_refused() -> None:
    for change, message in (
        ({"working": -1.0}, "working must not be negative"),
        ({"ratio": 0.0}, "ratio must be above zero"),
        ({"renewal": 0.0}, "renewal must be above zero"),
        ({"regreased": (20.0, 10.0)}, "regreased must be above zero"),
    ):
        with pytest.raises(DomainError, match=message):
            GreaseClock(**change)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"rates": DepthRates(external=0.0, internal=0.0)}, "nothing wears"),
        ({"deepest": 0.0}, "deepest must be above zero"),
        ({"contact_height": 1e-3}, "before the contact height is used up"),
        ({"growths": (-1.0,)}, "growths must not be negative"),
    ],
)
def test_what_cannot_wear_down_is_refused(change: dict[str, object], message: str) -> None:
    with pytest.raises(DomainError, match=message):
        wear_course(**({"rates": RATES, "deepest": 1e-3} | change))  # type: ignore[arg-type]


def test_a_strength_that_falls_ends_the_life_where_it_comes_to_one() -> None:
    depths, factors = np.array([0.0, 1e-3]), np.array([2.0, 0.5])
    limit = WearLimit(name="strength", member="both", sigma=0.0, factors=(depths, factors))
    course = wear_course(rates=RATES, deepest=1e-3)
    drawn = life_draws(course, [limit], drawn_runs(sigma=0.0, limits=[limit], seed=1))
    np.testing.assert_allclose(drawn.hours, (2.0 / 3.0) * 1e-3 / 4e-6, rtol=1e-9)
    # with a spread of the factor the median stays, and so does the chance to be below 1 now
    limit = WearLimit(name="strength", member="both", sigma=0.4, factors=(depths, factors))
    drawn = life_draws(course, [limit], drawn_runs(sigma=0.0, limits=[limit], seed=1))
    assert float(percentiles(drawn.hours).p50) == pytest.approx(2.0 / 3.0 * 250.0, rel=1e-3)
    from statistics import NormalDist

    assert float(np.mean(drawn.hours == 0.0)) == pytest.approx(NormalDist().cdf(-log(2.0) / 0.4), abs=2e-3)


def test_strength_that_dips_and_recovers_ends_at_the_dip() -> None:
    depths, factors = np.array([0.0, 0.4e-3, 0.8e-3, 1e-3]), np.array([1.6, 0.8, 1.4, 1.2])
    limit = WearLimit(name="strength", member="both", sigma=0.0, factors=(depths, factors))
    course = wear_course(rates=RATES, deepest=1e-3)
    drawn = life_draws(
        course,
        [limit, WearLimit(name="d", member="both", depth=1e-3, sigma=0.0)],
        drawn_runs(sigma=0.0, limits=[limit, limit], seed=1),
    )
    np.testing.assert_allclose(drawn.hours, 0.3e-3 / 4e-6, rtol=1e-9)
    assert drawn.governing == "strength"
