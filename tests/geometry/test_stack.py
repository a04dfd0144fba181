"""Kernels of the axial stack: limits, chances against Monte Carlo, packs of shims against every pack."""

import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from torqcheck.errors import DomainError
from torqcheck.geometry import (
    axial_holding_force,
    chance_below,
    chance_of_sum_below,
    deviation_of_sum,
    fewest_shims,
    statistical_tolerance,
    thermal_growth,
    usable_engagement,
    worst_case_tolerance,
)

lengths = st.lists(st.floats(1e-9, 1e-3), min_size=1, max_size=8)
DRAWS = 1_000_000


@given(tolerances=lengths)
def test_root_sum_square_lies_between_the_widest_and_the_worst_case(tolerances: list[float]) -> None:
    squares, worst = float(statistical_tolerance(tolerances)), float(worst_case_tolerance(tolerances))
    assert max(tolerances) <= squares * (1 + 1e-12)
    assert squares <= worst * (1 + 1e-12)


@given(tolerances=lengths, seed=st.integers(0, 1000))
def test_the_worst_case_holds_every_draw_within_the_tolerances(tolerances: list[float], seed: int) -> None:
    half = np.asarray(tolerances)
    drawn = np.random.default_rng(seed).uniform(-1.0, 1.0, (500, len(half))) @ half
    assert np.abs(drawn).max() <= float(worst_case_tolerance(half)) * (1 + 1e-12)


def test_tolerances_along_the_first_axis_broadcast() -> None:
    many = np.array([[0.1, 0.2], [0.2, 0.1], [0.2, 0.3]])
    assert worst_case_tolerance(many) == pytest.approx([0.5, 0.6])
    assert statistical_tolerance(many) == pytest.approx([0.3, math.sqrt(0.14)])


MIXES = {
    "normal": (0.12, ()),
    "one float": (0.0, (0.30,)),
    "normal and one float": (0.08, (0.30,)),
    "two floats": (0.0, (0.30, 0.17)),
    "normal and four": (0.05, (0.30, 0.20, 0.10, 0.05)),
    "normal and a hair": (0.12, (1e-9,)),
}


@pytest.mark.parametrize("mix", MIXES)
@pytest.mark.parametrize("nominal", [0.0, 0.1, 0.25])
def test_chance_against_a_million_draws(mix: str, nominal: float) -> None:
    """Within four standard errors of the share that is counted."""
    deviation, halves = MIXES[mix]
    random = np.random.default_rng(20_260_314)
    sums = nominal + random.normal(0.0, 1.0, DRAWS) * deviation
    for half in halves:
        sums += random.uniform(-half, half, DRAWS)
    counted = float(np.mean(sums < 0.0))
    error = math.sqrt(max(counted * (1.0 - counted), 1.0 / DRAWS) / DRAWS)
    assert chance_of_sum_below(0.0, nominal, deviation, halves) == pytest.approx(counted, abs=4.0 * error)
    assert float(np.std(sums)) == pytest.approx(deviation_of_sum(deviation, halves), rel=4e-3)


def test_two_even_spreads_of_one_width_make_a_triangle() -> None:
    """Sum of two even spreads of half width a: P(sum < -x) = (2 a - x)^2 / (8 a^2)."""
    assert chance_of_sum_below(0.0, 0.4, 0.0, (0.3, 0.3)) == pytest.approx(0.04 / 0.72, abs=2e-5)


def test_many_even_spreads_come_near_the_normal_distribution() -> None:
    halves = (0.1,) * 12
    exact = chance_of_sum_below(0.0, 0.3, 0.0, halves, draws=200_000)
    assert exact == pytest.approx(float(chance_below(0.0, 0.3, deviation_of_sum(0.0, halves))), abs=1.5e-3)


def test_chance_without_scatter_is_a_step() -> None:
    assert chance_of_sum_below(0.0, 0.1, 0.0, ()) == 0.0
    assert chance_of_sum_below(0.0, -0.1, 0.0, ()) == 1.0
    assert float(chance_below(0.0, 0.0, 0.0)) == 0.5


stocks = st.lists(st.integers(1, 12), min_size=1, max_size=5, unique=True)


@settings(max_examples=60)
@given(stock=stocks, least=st.integers(-2, 30), room=st.integers(0, 4))
def test_packs_against_every_pack(stock: list[int], least: int, room: int) -> None:
    """In tenths of a millimetre; the fewest pieces, of those the thinnest pack."""
    found = fewest_shims([s * 1e-4 for s in stock], [0.0] * len(stock), least * 1e-4, (least + room) * 1e-4)
    every = [
        (count, sum(pack))
        for count in range(5)
        for pack in itertools.combinations_with_replacement(stock, count)
        if least <= sum(pack) <= least + room
    ]
    assert (found is None) == (not every)
    if found is not None:
        assert (len(found), sum(stock[place] for place in found)) == min(every)


def test_the_tolerance_of_a_shim_counts() -> None:
    stock, tolerances = [0.5e-3, 0.6e-3], [0.05e-3, 0.02e-3]
    assert fewest_shims(stock, tolerances, 0.48e-3) == (1,)
    assert fewest_shims(stock, tolerances, 0.45e-3) == (0,)
    assert fewest_shims(stock, tolerances, 0.48e-3, 0.61e-3) is None


def test_of_two_packs_of_one_thickness_the_truer_counts() -> None:
    stock, tolerances = [0.1e-3, 0.2e-3, 0.3e-3], [0.03e-3, 0.0, 0.0]
    assert fewest_shims(stock, tolerances, 0.4e-3, 0.4e-3) == (1, 1)
    assert fewest_shims(stock[::-1], tolerances[::-1], 0.4e-3, 0.4e-3) == (1, 1)


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: thermal_growth(-1e-6, 0.1, 60.0), "expansion"),
        (lambda: thermal_growth(1e-6, -0.1, 60.0), "length"),
        (lambda: worst_case_tolerance([0.1, -0.1]), "tolerances"),
        (lambda: statistical_tolerance([-0.1]), "tolerances"),
        (lambda: statistical_tolerance([0.1], 0.0), "inflation"),
        (lambda: usable_engagement(0.03, -0.001), "lost_length"),
        (lambda: usable_engagement(0.03, 0.001, 0.0), "external_cut"),
        (lambda: usable_engagement(0.03, 0.001, 0.03, -1.0), "internal_cut"),
        (lambda: axial_holding_force(1.0, 0.0, 0.1), "pitch_diameter"),
        (lambda: axial_holding_force(1.0, 0.03, -0.1), "friction"),
        (lambda: chance_below(0.0, 0.1, -0.1), "deviation"),
        (lambda: chance_of_sum_below(0.0, 0.1, -0.1, ()), "deviation"),
        (lambda: chance_of_sum_below(0.0, 0.1, 0.1, (-0.1,)), "half_widths"),
        (lambda: fewest_shims([0.0], [0.0], 0.1), "stock_1"),
        (lambda: fewest_shims([0.1], [-1.0], 0.1), "tolerance_1"),
        (lambda: fewest_shims([0.1], [], 0.1), "needs a tolerance"),
    ],
)
def test_impossible_arguments_are_refused(call, said: str) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(DomainError, match=said):
        call()


def test_not_a_number_stays_one() -> None:
    nan = float("nan")
    for value in (
        thermal_growth(nan, 0.1, 60.0),
        worst_case_tolerance([nan, 0.1]),
        statistical_tolerance([nan, 0.1]),
        usable_engagement(nan, 0.001, 0.03),
        axial_holding_force(nan, 0.03, 0.1),
        chance_below(nan, 0.1, 0.1),
        chance_of_sum_below(nan, 0.1, 0.1, (0.2,)),
        chance_of_sum_below(nan, 0.1, 0.0, (0.2,)),
    ):
        assert math.isnan(float(value))


def test_the_sign_of_the_torque_does_not_matter() -> None:
    assert axial_holding_force(-300.0, 0.03, 0.15) == axial_holding_force(300.0, 0.03, 0.15)
