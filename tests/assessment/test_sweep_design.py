import numpy as np
import pytest
from builder import loaded
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.assessment.sweep.design import Design, shuffled
from torqcheck.assessment.sweep.run import question_of

KEYS = ("joint[1].engagement=20:40 mm:3", "motor.peak_torque=100:300 N*m:5", "targets.safety_factor=1,2")


def latin(points: int, seed: int = 0) -> Design:
    return question_of(loaded(), KEYS, design="latin", points=points, seed=seed).design


@given(count=st.integers(1, 3000), seed=st.integers(0, 2**63 - 1), number=st.integers(0, 20))
def test_the_order_of_the_strata_is_a_permutation(count: int, seed: int, number: int) -> None:
    assert np.array_equal(np.sort(shuffled(np.arange(count), count, seed, number)), np.arange(count))


def test_a_permutation_can_be_asked_for_any_part() -> None:
    whole = shuffled(np.arange(1000), 1000, 3, 1)
    assert np.array_equal(whole[700:710], shuffled(np.arange(700, 710), 1000, 3, 1))


def test_a_grid_has_every_combination_once_and_the_last_key_runs_fastest() -> None:
    design = question_of(loaded(), KEYS).design
    found = design.stretch(0, design.points)
    rows = list(zip(*(value.tolist() for value in found.values), strict=True))
    assert rows[:3] == [(20.0, 100.0, 1.0), (20.0, 100.0, 2.0), (20.0, 150.0, 1.0)]
    assert len(set(rows)) == len(rows) == 30
    part = design.stretch(7, 19)
    assert [tuple(v[i] for v in part.values) for i in range(12)] == rows[7:19]


def test_each_stratum_of_a_hypercube_holds_one_point() -> None:
    found = latin(500).stretch(0, 500)
    for value, low, high in zip(found.values, (20.0, 100.0), (40.0, 300.0), strict=False):
        stratum = np.floor((value - low) / (high - low) * 500 * (1.0 + 1e-15)).astype(int)
        assert np.array_equal(np.sort(stratum), np.arange(500))
    assert np.count_nonzero(found.values[2] == 1.0) == 250


def test_points_of_a_hypercube_depend_on_seed_and_number_alone() -> None:
    whole, again, other = latin(400).stretch(0, 400), latin(400), latin(400, seed=1).stretch(0, 400)
    for key in range(3):
        parts = [again.stretch(first, first + 50).values[key] for first in range(0, 400, 50)]
        assert np.array_equal(whole.values[key], np.concatenate(parts))
    assert not np.array_equal(whole.values[0], other.values[0])


def test_keys_of_a_hypercube_are_not_tied_to_each_other() -> None:
    found = latin(20_000).stretch(0, 20_000)
    assert abs(np.corrcoef(found.values[0], found.values[1])[0, 1]) < 0.03
    assert abs(np.corrcoef(found.values[0], np.arange(20_000))[0, 1]) < 0.03


@pytest.mark.parametrize("points", [1, 2])
def test_the_smallest_hypercubes(points: int) -> None:
    assert latin(points).stretch(0, points).count == points
