"""Turning points of a torque damped above critical, against a dense grid and bisection."""

import numpy as np
import pytest
from scipy.optimize import brentq

from torqcheck.shock import creep
from torqcheck.shock.arithmetic import ARRAYS, FLOATS

LENGTH = 30.0


def motion(seed: int) -> creep.Creep:
    """Any load, slope and exponentials, of like size and of either sign."""
    rng = np.random.default_rng(seed)
    load, slope, fast, slow = rng.normal(size=4) * (1.0, 0.3, 1.0, 1.0)
    quick = 1.0 + rng.exponential()
    if seed % 2:  # a quick fall against a slow rise on a gentle slope: up, down and up again, or the reverse
        fast, slow, slope = (
            (hand := np.sign(load)) * -abs(fast),
            hand * 2.0 * abs(slow),
            hand * 0.1 * abs(slope),
        )
    return creep.Creep(load, slope if seed % 3 else 0.0, fast, slow, quick, 1.0 / quick)


def rate(of: creep.Creep, time: float) -> float:
    """Slope of the torque, written out anew."""
    falls = of.quick * of.fast * np.exp(-of.quick * time) + of.slow / of.quick * np.exp(-time / of.quick)
    return float(of.slope - falls)


def turning_points(of: creep.Creep) -> list[float]:
    """Every change of sign of the rate on a grid that is fine where the exponentials are quick."""
    grid = np.concatenate(([0.0], np.geomspace(1e-6, LENGTH, 20_000)))
    signs = np.sign([rate(of, t) for t in grid])
    return [
        brentq(lambda t: rate(of, t), grid[i], grid[i + 1], xtol=1e-14)
        for i in np.flatnonzero(signs[:-1] * signs[1:] < 0.0)
    ]


FOUND = {seed: turning_points(motion(seed)) for seed in range(60)}


def test_the_sample_has_none_one_and_two_of_them() -> None:
    assert {len(found) for found in FOUND.values()} == {0, 1, 2}


@pytest.mark.parametrize("seed", FOUND)
def test_every_turning_point_is_found_in_its_order(seed: int) -> None:
    first_at, first, second_at, second, end = creep.stationary(FLOATS, motion(seed), LENGTH)
    found = [float(t) for t, there in ((first_at, first), (second_at, second)) if there]
    expected = [t for t in FOUND[seed] if t < end]
    assert found == pytest.approx(expected, rel=1e-6, abs=1e-7)
    # none lies beyond the end of the search
    assert len(expected) == len(FOUND[seed])


def test_an_array_of_cases_finds_what_each_finds_alone() -> None:
    every = creep.Creep(*(np.array(column) for column in zip(*(motion(s) for s in FOUND), strict=True)))
    together = creep.stationary(ARRAYS, every, np.full(len(FOUND), LENGTH))
    for index, seed in enumerate(FOUND):
        alone = creep.stationary(FLOATS, motion(seed), LENGTH)
        for ours, expected, exists in ((0, 0, 1), (2, 2, 3)):
            assert bool(together[exists][index]) == bool(alone[exists])
            if alone[exists]:
                assert together[ours][index] == pytest.approx(float(alone[expected]), rel=1e-6, abs=1e-7)
