"""Sharing of a force between tooth pairs: what must hold for any clearances, and another way to solve it."""

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from torqcheck._types import FloatArray
from torqcheck.capacity import effective_teeth, engaged_pairs, engaging_forces, first_tooth_share, pair_loads
from torqcheck.errors import DomainError

UM = 1e-6
STIFFNESS = 450e6  # N/m
clearance_lists = st.lists(st.floats(-200.0, 200.0), min_size=1, max_size=40).map(lambda c: np.array(c) * UM)
forces = st.floats(1.0, 1e6)
stiffnesses = st.floats(1e7, 5e9)


def loads_by_root_search(force: float, clearances: FloatArray, stiffness: float) -> FloatArray:
    """Loads at the approach at which all springs together carry the force, found by bisection."""

    def carried(approach: float) -> float:
        return float(np.sum(stiffness * np.maximum(approach - clearances, 0.0))) - force

    top = float(clearances.min()) + force / stiffness
    approach = brentq(carried, float(clearances.min()), top * (1.0 + 1e-12) + 1e-15, xtol=1e-18, rtol=1e-15)
    return stiffness * np.maximum(approach - clearances, 0.0)


@given(force=forces, clearances=clearance_lists, stiffness=stiffnesses)
def test_loads_add_up_to_the_force(force: float, clearances: FloatArray, stiffness: float) -> None:
    loads = pair_loads(force, clearances, stiffness)
    assert np.all(loads >= 0.0)
    assert float(np.sum(loads)) == pytest.approx(force, rel=1e-9)


@given(force=forces, clearances=clearance_lists, stiffness=stiffnesses)
def test_engaged_pairs_approach_alike_and_the_others_have_clearance_left(
    force: float, clearances: FloatArray, stiffness: float
) -> None:
    loads = pair_loads(force, clearances, stiffness)
    engaged = loads > 0.0
    approach = (clearances + loads / stiffness)[engaged]
    assert approach == pytest.approx(
        np.full(approach.shape, approach[0]), abs=1e-9 * UM + 1e-12 * force / stiffness
    )
    assert np.all(clearances[~engaged] >= approach.max() - 1e-9 * UM - 1e-12 * force / stiffness)


@given(force=forces, clearances=clearance_lists, stiffness=stiffnesses)
def test_count_and_share_are_those_of_the_loads(
    force: float, clearances: FloatArray, stiffness: float
) -> None:
    loads = pair_loads(force, clearances, stiffness)
    share = first_tooth_share(force, clearances, stiffness)
    assert share == pytest.approx(loads.max() / force, rel=1e-9)
    assert share == pytest.approx(loads[np.argmin(clearances)] / force, rel=1e-9)
    assert 1.0 / clearances.size <= share * (1.0 + 1e-12)
    assert share <= 1.0 + 1e-12
    assert effective_teeth(force, clearances, stiffness) == pytest.approx(1.0 / share, rel=1e-12)
    n = int(engaged_pairs(force, clearances, stiffness))
    assert np.count_nonzero(loads > 1e-9 * force) <= n
    assert n >= np.count_nonzero(loads > 0.0) - np.count_nonzero((loads > 0.0) & (loads < 1e-9 * force))
    assert effective_teeth(force, clearances, stiffness) <= n * (1.0 + 1e-12)


@given(force=forces, clearances=clearance_lists, stiffness=stiffnesses, shift=st.floats(-1e3, 1e3))
def test_a_clearance_more_for_all_changes_nothing(
    force: float, clearances: FloatArray, stiffness: float, shift: float
) -> None:
    before = pair_loads(force, clearances, stiffness)
    # rounding of the shifted clearances, as a force
    rounding = 1e-15 * (abs(shift) + 200.0) * UM * stiffness
    assert pair_loads(force, clearances + shift * UM, stiffness) == pytest.approx(before, abs=4.0 * rounding)


@given(force=forces, clearances=clearance_lists, stiffness=stiffnesses, data=st.data())
def test_the_order_of_the_teeth_changes_nothing(
    force: float, clearances: FloatArray, stiffness: float, data: st.DataObject
) -> None:
    order = np.array(data.draw(st.permutations(range(clearances.size))))
    before = pair_loads(force, clearances, stiffness)
    assert pair_loads(force, clearances[order], stiffness) == pytest.approx(
        before[order], rel=1e-9, abs=1e-9 * force
    )


@given(clearances=clearance_lists, stiffness=stiffnesses, force=forces, more=st.floats(1.0, 100.0))
def test_more_force_never_lowers_the_effective_number_of_teeth(
    clearances: FloatArray, stiffness: float, force: float, more: float
) -> None:
    few, many = (effective_teeth(f, clearances, stiffness) for f in (force, more * force))
    assert many >= few * (1.0 - 1e-12)
    assert engaged_pairs(more * force, clearances, stiffness) >= engaged_pairs(force, clearances, stiffness)


@given(clearances=clearance_lists, stiffness=stiffnesses, force=forces, scale=st.floats(0.01, 100.0))
def test_only_force_over_stiffness_and_clearance_counts(
    clearances: FloatArray, stiffness: float, force: float, scale: float
) -> None:
    share = first_tooth_share(force, clearances, stiffness)
    assert first_tooth_share(scale * force, clearances, scale * stiffness) == pytest.approx(share, rel=1e-9)
    assert first_tooth_share(scale * force, scale * clearances, stiffness) == pytest.approx(share, rel=1e-9)


@given(clearances=clearance_lists, stiffness=stiffnesses)
def test_one_pair_after_the_other_touches_at_the_engaging_forces(
    clearances: FloatArray, stiffness: float
) -> None:
    thresholds = engaging_forces(clearances, stiffness)
    assert thresholds[0] == 0.0
    assert np.all(np.diff(thresholds) >= -1e-9 * thresholds[-1] - 1e-9)
    for n in range(1, clearances.size):
        low, high = thresholds[n - 1], thresholds[n]
        if high - low > 1e-6 * thresholds[-1] + 1e-6:
            assert engaged_pairs(0.5 * (low + high), clearances, stiffness) == n
    assert engaged_pairs(1.001 * thresholds[-1] + 1.0, clearances, stiffness) == clearances.size


def test_against_a_root_search_on_random_cases() -> None:
    generator = np.random.default_rng(5)
    for _ in range(500):
        teeth = int(generator.integers(1, 60))
        clearances = generator.normal(0.0, 10.0 ** generator.uniform(-7, -4), teeth)
        clearances += 10.0 ** generator.uniform(-7, -4) * np.sin(2.0 * np.pi * np.arange(teeth) / teeth)
        force, stiffness = 10.0 ** generator.uniform(1, 6), 10.0 ** generator.uniform(7, 10)
        wanted = loads_by_root_search(force, clearances, stiffness)
        # the root search keeps the clearances themselves, so it loses their size to rounding
        rounding = 1e-15 * float(np.abs(clearances).max()) * stiffness * teeth
        assert pair_loads(force, clearances, stiffness) == pytest.approx(
            wanted, rel=1e-9, abs=1e-11 * force + rounding
        )
        assert first_tooth_share(force, clearances, stiffness) == pytest.approx(
            wanted.max() / force, rel=1e-9 + rounding / force
        )


def test_cases_broadcast_over_leading_axes() -> None:
    generator = np.random.default_rng(3)
    clearances = generator.normal(0.0, 10e-6, (4, 1, 7, 12))
    force = np.array([5e3, 2e4, 1e5])[:, None]
    stiffness = np.full((1, 1, 7), 450e6)
    share = np.asarray(first_tooth_share(force, clearances, stiffness))
    loads = pair_loads(force, clearances, stiffness)
    counts = engaged_pairs(force, clearances, stiffness)
    assert share.shape == counts.shape == (4, 3, 7)
    assert loads.shape == (4, 3, 7, 12)
    assert engaging_forces(clearances, stiffness).shape == (4, 1, 7, 12)
    for i, j, k in np.ndindex(4, 3, 7):
        one: Any = (float(force[j, 0]), clearances[i, 0, k], 450e6)
        assert share[i, j, k] == pytest.approx(first_tooth_share(*one), rel=1e-14)
        assert counts[i, j, k] == engaged_pairs(*one)
        assert loads[i, j, k] == pytest.approx(pair_loads(*one), rel=1e-14)


def test_pairs_of_one_clearance_share_evenly() -> None:
    loads = pair_loads(9e3, np.array([4.0, 4.0, 4.0, 900.0]) * UM, STIFFNESS)
    assert loads == pytest.approx([3e3, 3e3, 3e3, 0.0], rel=1e-12)
    assert engaged_pairs(9e3, np.array([4.0, 4.0, 4.0, 900.0]) * UM, STIFFNESS) == 3


def test_a_pair_alone_carries_all() -> None:
    assert first_tooth_share(9e3, np.array([3.0 * UM]), STIFFNESS) == 1.0
    # two pairs so far apart that the second never touches
    assert pair_loads(9e3, np.array([0.0, 21.0 * UM]), STIFFNESS) == pytest.approx([9e3, 0.0])


def test_a_clearance_that_is_not_known_leaves_its_case_unknown() -> None:
    clearances = np.array([[0.0, 1.0, 2.0], [0.0, np.nan, 2.0]]) * UM
    share = np.asarray(first_tooth_share(9e3, clearances, STIFFNESS))
    assert np.isfinite(share[0])
    assert np.isnan(share[1])
    assert np.all(np.isnan(pair_loads(9e3, clearances, STIFFNESS)[1]))
    assert np.all(np.isnan(engaging_forces(clearances, STIFFNESS)[1]))
    for force, stiffness in ((np.nan, STIFFNESS), (9e3, np.nan)):
        assert np.all(np.isnan(first_tooth_share(force, clearances, stiffness)))
        assert np.all(np.isnan(pair_loads(force, clearances, stiffness)))
        assert np.all(engaged_pairs(force, clearances, stiffness) == 1)


@pytest.mark.parametrize(
    ("force", "clearances", "stiffness", "problem"),
    [
        (0.0, np.zeros(3), STIFFNESS, "force must be above zero"),
        (-1.0, np.zeros(3), STIFFNESS, "force must be above zero"),
        (1.0, np.zeros(3), 0.0, "pair_stiffness must be above zero"),
        (1.0, np.array(0.0), STIFFNESS, "one value for each tooth pair"),
        (1.0, np.zeros((3, 0)), STIFFNESS, "one value for each tooth pair"),
        (1.0, np.array([0.0, np.inf]), STIFFNESS, "clearances must be finite"),
    ],
)
def test_arguments_out_of_range_are_refused(
    force: float, clearances: FloatArray, stiffness: float, problem: str
) -> None:
    for function in (pair_loads, first_tooth_share, effective_teeth, engaged_pairs):
        with pytest.raises(DomainError, match=problem):
            function(force, clearances, stiffness)
