"""Counting of cycles: what is kept, what repeats, how a ringing blow is counted."""

import subprocess
import sys

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.errors import DomainError
from torqcheck.fatigue import counted_cycles, first_ringing_share

torques = st.lists(st.integers(-300, 300).map(float), min_size=2, max_size=40)


@given(torques)
def test_the_largest_cycle_spans_the_whole_series(series: list[float]) -> None:
    found = counted_cycles(series)
    if max(series) == min(series):
        assert found.range.size == 0
        return
    assert found.range[-1] == max(series) - min(series)
    assert found.mean[-1] == 0.5 * (max(series) + min(series))
    assert found.amplitude[-1] == 0.5 * found.range[-1]
    assert np.all(found.count == np.round(found.count))


@given(torques)
def test_ranges_add_up_to_the_way_travelled(series: list[float]) -> None:
    closed = np.append(series, series[0])
    travelled = float(np.sum(np.abs(np.diff(closed))))
    found = counted_cycles(series)
    assert 2.0 * float(np.sum(found.range * found.count)) == pytest.approx(travelled)
    once = counted_cycles(series, repeats=False)
    assert 2.0 * float(np.sum(once.range * once.count)) == pytest.approx(
        float(np.sum(np.abs(np.diff(series))))
    )


@given(torques, st.integers(0, 39))
def test_it_does_not_matter_where_a_repeating_series_begins(series: list[float], start: int) -> None:
    turned = list(np.roll(series, start))
    first, second = counted_cycles(series), counted_cycles(turned)
    assert np.array_equal(first.range, second.range)
    assert np.array_equal(first.count, second.count)
    assert first.crossings == second.crossings


@given(torques)
def test_points_on_the_way_and_plateaus_change_nothing(series: list[float]) -> None:
    closed = np.append(series, series[0])
    middles = 0.5 * (closed[:-1] + closed[1:])
    dense = np.ravel(np.column_stack([series, series, middles]))
    first, second = counted_cycles(series), counted_cycles(dense)
    assert np.array_equal(first.range, second.range)
    assert np.array_equal(first.count, second.count)


@given(torques)
def test_half_cycles_once_and_their_sum_when_it_repeats(series: list[float]) -> None:
    assert np.all(2.0 * counted_cycles(series, repeats=False).count % 1.0 == 0.0)


def test_crossings_count_changes_of_sign_only() -> None:
    assert counted_cycles([0, 5, 0, 5, 0]).crossings == 0
    assert counted_cycles([5, 0, -5, 0]).crossings == 2  # out of drive and back into it
    assert counted_cycles([5, 0, -5, 0], repeats=False).crossings == 1


@pytest.mark.parametrize("series", [[], [1.0], [[1.0, 2.0]], [1.0, float("nan")], [1.0, float("inf")]])
def test_what_is_no_series_is_refused(series: list[float]) -> None:
    with pytest.raises(DomainError, match="must be one row of at least two finite numbers"):
        counted_cycles(series)


@pytest.mark.parametrize("zeta", [0.01, 0.03, 0.1])
def test_ringing_after_a_start_counts_as_derived(zeta: float) -> None:
    steady, overshoot = 200.0, 100.0
    w = np.pi / np.sqrt(1.0 - zeta**2)  # extremes at whole numbers
    halves = np.arange(0, 30)
    extremes = steady + overshoot * (-1.0) ** halves * np.exp(-zeta * w * halves)
    found = counted_cycles([0.0, *extremes, steady, 0.0])
    start, *_ = found.range[::-1]
    assert start == pytest.approx(steady + overshoot)
    ringing = 0.5 * found.range[-2:-6:-1]
    decay = np.exp(-2.0 * zeta * w)
    wanted = overshoot * float(first_ringing_share(zeta)) * decay ** np.arange(4)
    assert ringing == pytest.approx(wanted, rel=1e-9)


def test_the_library_is_loaded_only_when_a_series_is_counted() -> None:
    code = (
        "import sys, torqcheck.fatigue as f; assert 'rainflow' not in sys.modules;"
        "f.counted_cycles([0, 1]); assert 'rainflow' in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
