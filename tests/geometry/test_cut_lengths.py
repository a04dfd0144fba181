"""Chord error of an involute and run-out of a cutter, against points laid out here."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.errors import DomainError
from torqcheck.geometry import ansi_b92_1, between_pins, iso_4156
from torqcheck.geometry.drawing.cut_lengths import cutter_run_out, involute_chord_error
from torqcheck.geometry.drawing.cut_outline import cut_outline
from torqcheck.geometry.drawing.data_block import (
    MemberName,
    block_of_involute,
    block_of_serration,
    block_of_straight,
    measured_space,
)
from torqcheck.geometry.standards import serration
from torqcheck.geometry.standards.serration import SIZES
from torqcheck.geometry.standards.straight import iso_14

MEMBERS: tuple[MemberName, ...] = ("external", "internal")


@given(
    base=st.floats(1e-3, 0.5), start=st.floats(0.0, 1.5), length=st.floats(1e-3, 0.5)
)  # fmt: skip
def test_chord_error_is_the_largest_distance_of_the_curve(base: float, start: float, length: float) -> None:
    roll = np.linspace(start, start + length, 20001)
    x, y = base * (np.cos(roll) + roll * np.sin(roll)), base * (np.sin(roll) - roll * np.cos(roll))
    dx, dy = x[-1] - x[0], y[-1] - y[0]
    away = np.abs((x - x[0]) * dy - (y - y[0]) * dx) / math.hypot(dx, dy)
    ours = float(involute_chord_error(base, start, start + length))
    assert ours == pytest.approx(float(away.max()), rel=1e-6, abs=1e-12 * base)


def test_chord_error_has_no_sign_and_passes_nan() -> None:
    assert involute_chord_error(0.01, 0.3, 0.3) == 0.0
    both = involute_chord_error(0.01, np.array([0.3, math.nan]), np.array([0.4, 0.4]))
    assert isinstance(both, np.ndarray)
    assert both[0] > 0.0
    assert math.isnan(both[1])


@pytest.mark.parametrize(
    ("arguments", "problem"),
    [((0.0, 0.1, 0.2), "base_radius"), ((0.01, -0.1, 0.2), "roll_start"), ((0.01, 0.3, 0.2), "roll_end")],
)
def test_impossible_chords_are_refused(arguments: tuple[float, float, float], problem: str) -> None:
    with pytest.raises(DomainError, match=problem):
        involute_chord_error(*arguments)


@given(depth=st.floats(1e-4, 0.02), cutter=st.floats(0.041, 0.2))
def test_run_out_ends_where_the_cutter_leaves_the_tips(depth: float, cutter: float) -> None:
    length = float(cutter_run_out(depth, cutter))
    # the circle of the cutter stands on the root; at the tip it is as far from the centre as its radius
    assert math.hypot(length, 0.5 * cutter - depth) == pytest.approx(0.5 * cutter, rel=1e-12)


def test_too_deep_a_space_is_refused() -> None:
    with pytest.raises(DomainError, match="half the cutter_diameter"):
        cutter_run_out(0.04, 0.063)
    with pytest.raises(DomainError, match="tooth_depth must be above 0"):
        cutter_run_out(0.0, 0.063)


def test_the_points_are_as_few_as_the_error_allows() -> None:
    block = block_of_involute(iso_4156.spline(24, 5e-3))
    sizes = [cut_outline(block, "external", error) for error in (1e-5, 1e-6, 1e-7)]
    assert [drawn.chord_error <= error for drawn, error in zip(sizes, (1e-5, 1e-6, 1e-7), strict=True)]
    counts = [drawn.points_per_flank for drawn in sizes]
    assert counts == sorted(set(counts))
    # the error of a chord falls with the square of its length
    assert (counts[2] - 1) / (counts[1] - 1) == pytest.approx(math.sqrt(10.0), rel=0.1)


@pytest.mark.parametrize("error", [0.0, -1e-6, math.nan, 1e-13])
def test_an_error_that_cannot_be_held_is_refused(error: float) -> None:
    with pytest.raises(DomainError, match="chord_error"):
        cut_outline(block_of_involute(iso_4156.spline(24, 5e-3)), "external", error)


@pytest.mark.parametrize("size", SIZES, ids=str)
def test_every_serration_leaves_tips_and_gaps(size: tuple[int, int]) -> None:
    drawn = cut_outline(block_of_serration(serration.spline(f"{size[0]}x{size[1]}")), "external")
    radii = np.hypot(*drawn.whole.points.T)
    # the gap of 60 deg, as wide as the tooth half way, ends sharp here
    mean, quarter = 0.25e-3 * sum(size), 0.5 * math.pi / SIZES[size]
    apex = mean * (math.cos(quarter) - math.sin(quarter) * math.sqrt(3.0))
    assert radii.min() == pytest.approx(max(0.5e-3 * size[0], apex))
    assert radii.max() == pytest.approx(0.5e-3 * size[1])
    arcs = 1 if apex > 0.5e-3 * size[0] else 2
    assert np.count_nonzero(drawn.whole.bulge > 0.0) == arcs * SIZES[size]


@pytest.mark.parametrize("member", ["external", "internal"])
def test_a_straight_sided_outline_runs_from_root_to_tip(member: MemberName) -> None:
    # 6 x 26 x 30: tips in the middle of their limits, roots nominal; flanks from one to the other
    block = block_of_straight(iso_14("6x26x30"))
    drawn = cut_outline(block, member)
    sizes = dict(drawn.dimensions)
    radii = np.hypot(*drawn.whole.points.T)
    assert 2.0 * radii.max() == pytest.approx(sizes["major diameter"], rel=1e-12)
    assert 2.0 * radii.min() == pytest.approx(sizes["minor diameter"], rel=1e-12)
    assert sizes["major diameter"] == pytest.approx(0.030, abs=0.5e-3)
    assert sizes["minor diameter"] == pytest.approx(0.026, abs=0.5e-3)


def test_an_outline_says_which_dimensions_it_shows() -> None:
    block = block_of_involute(ansi_b92_1.spline(27, "24/48"))
    shaft, hub = (cut_outline(block, member).words for member in MEMBERS)
    assert shaft[0].startswith("tooth thickness: ")
    assert shaft[1].startswith("major diameter: ")
    assert "minor diameter: nominal" in shaft[1]
    assert hub[0].startswith("space width: ")
    assert hub[1].startswith("minor diameter: ")
    assert "major diameter: nominal" in hub[1]


def test_a_reading_of_a_hub_without_limits_is_held_against_none() -> None:
    block = replace(block_of_involute(ansi_b92_1.spline(27, "24/48")), internal=None)
    pin = 1.728 * 0.0254 / 24
    found = measured_space(block, float(between_pins(27, 0.0254 / 24, math.radians(30.0), 1.70e-3, pin)), pin)
    assert found.width == pytest.approx(1.70e-3, rel=1e-9)
    assert found.beyond_new is None
    assert not found.impossible
