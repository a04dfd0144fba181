"""The search for windows of values that hold, on made-up lines; and rounding to the safe side."""

import math
from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from typing import Any, Literal

import pytest
from builder import loaded
from hypothesis import given, settings
from hypothesis import strategies as st

from torqcheck.assessment.size.diameters import unknown_of
from torqcheck.assessment.size.rounding import roundings
from torqcheck.assessment.size.search import Sample, find_windows, sampled
from torqcheck.materials.stock import next_bar, stock_bars

SCENARIO = loaded()


def line(*good: tuple[float, float]) -> Any:
    """A line that holds in some stretches; its margin tells nothing of them."""

    def ask(values: Sequence[float]) -> list[Sample]:
        return [Sample(v, any(a <= v <= b for a, b in good), 1.0) for v in values]

    return ask


def windows_of(ask: Any, values: Sequence[float], tolerance: float = 1e-9) -> list[tuple[float, float]]:
    return [(w.low, w.high) for w in find_windows(ask, sampled(ask, values), tolerance=tolerance)]


def test_two_windows_are_found_with_the_gap_between_them() -> None:
    ask = line((30.0, 40.0), (44.0, 90.0))
    found = find_windows(ask, ask([float(v) for v in range(10, 91, 2)]), tolerance=1e-9)
    assert [w.low for w in found] == pytest.approx([30.0, 44.0], rel=1e-8)
    assert [w.high for w in found] == pytest.approx([40.0, 90.0], rel=1e-8)
    first, second = found
    assert first.below is not None
    assert first.above is not None
    assert first.below < 30.0 < first.low * (1.0 + 1e-8)
    assert first.high < first.above
    assert second.above is None


@pytest.mark.parametrize(
    ("good", "expected"),
    [((), []), (((0.0, 100.0),), [(1.0, 9.0)]), (((0.0, 1.0),), [(1.0, 1.0)]), (((9.0, 9.0),), [(9.0, 9.0)])],
)
def test_the_ends_of_the_range_count(good: Any, expected: list[tuple[float, float]]) -> None:
    found = windows_of(line(*good), [1.0, 3.0, 5.0, 7.0, 9.0])
    assert found == [pytest.approx(pair, rel=1e-6) for pair in expected]


def test_a_dip_between_two_values_of_the_scan_is_found_by_its_neighbours() -> None:
    def ask(values: Sequence[float]) -> list[Sample]:
        margins = [1.02 + 0.02 * abs(v - 5.3) - 0.2 * math.exp(-(((v - 5.3) / 0.4) ** 2)) for v in values]
        return [Sample(v, m >= 1.0, m) for v, m in zip(values, margins, strict=True)]

    scan = [0.0, 2.0, 4.5, 6.3, 8.0, 10.0]
    assert all(sample.holds for sample in ask(scan))
    (first, second) = find_windows(ask, sampled(ask, scan), tolerance=1e-6)
    assert first.high < 5.3 < second.low


@settings(max_examples=60, deadline=None)
@given(st.lists(st.floats(0.01, 100.0), min_size=2, max_size=8, unique=True))
def test_every_edge_lies_between_what_holds_and_what_does_not(edges: list[float]) -> None:
    edges = sorted(edges)[: 2 * (len(edges) // 2)]
    good = list(zip(edges[::2], edges[1::2], strict=True))
    ask = line(*good)
    for window in find_windows(ask, ask([float(v) for v in range(101)]), tolerance=1e-6):
        for inside, outside in ((window.low, window.below), (window.high, window.above)):
            assert ask([inside])[0].holds
            if outside is not None:
                assert not ask([outside])[0].holds
                assert abs(outside - inside) <= 1e-6 * max(inside, outside) * (1.0 + 1e-9)


# rounding


@settings(max_examples=80, deadline=None)
@given(
    find=st.sampled_from(
        ["engagement", "bore", "lash", "tilt", "motor-torque", "torque-rise", "outside-diameter"]
    ),
    share=st.floats(0.02, 0.98),
    system=st.sampled_from(["si", "inch"]),
)
def test_rounding_goes_to_the_safe_side_and_no_farther_than_a_step(
    find: str, share: float, system: Literal["si", "inch"]
) -> None:
    unknown = unknown_of(SCENARIO, 0, find)
    low, high = max(unknown.values[0], 1e-3 * unknown.values[-1]), unknown.values[-1]
    edge = low + share * (high - low)
    found = list(roundings(unknown, edge, system, SCENARIO.motor))
    assert found
    first = found[0].value
    sign = 1.0 if unknown.wanted == "smallest" else -1.0
    assert sign * (first - edge) >= -1e-8 * edge
    assert all(sign * (b.value - a.value) > 0.0 for a, b in pairwise(found))
    if unknown.kind == "length" and find in {"engagement", "bore"}:
        step = 0.5e-3 if system == "si" else 0.0254 / 32.0
        assert abs(first - edge) < step * (1.0 + 1e-6)
        assert first / step == pytest.approx(round(first / step), abs=1e-6)


def test_fractions_of_an_inch_are_written_as_one_says_them() -> None:
    unknown = unknown_of(SCENARIO, 0, "engagement")
    edge = 1.22 * 0.0254
    (inch, *_) = roundings(unknown, edge, "inch", SCENARIO.motor)
    assert inch.text == "1 1/4 in"
    assert inch.value == pytest.approx(float(Fraction(5, 4)) * 0.0254)
    (metric, *_) = roundings(unknown, edge, "si", SCENARIO.motor)
    assert metric.text == "31 mm"


def test_a_bar_is_never_thinner_than_asked_and_stands_in_the_table() -> None:
    for system in ("metric", "inch"):
        bars = stock_bars(system)  # type: ignore[arg-type]
        assert [bar.diameter for bar in bars] == sorted(bar.diameter for bar in bars)
        for bar in bars:
            number = sum(Fraction(part) for part in bar.size.split()[:-1])
            assert float(number) * (1e-3 if system == "metric" else 0.0254) == pytest.approx(bar.diameter)
            assert next_bar(bar.diameter, system) == bar  # type: ignore[arg-type]
            assert bar.source.mark == "common practice, no source"
    assert next_bar(10.0, "metric") is None
