"""Rainflow after ASTM E1049-85; its example as quoted by the tests of a public library."""

import numpy as np
import pytest
from published._case import Case

from torqcheck.fatigue import CountedCycles, counted_cycles

STANDARD = "ASTM E1049-85, Standard Practices for Cycle Counting in Fatigue Analysis"
EXAMPLE = [-2, 1, -3, 5, -1, 3, -4, 4, -2]
DAY = [0, 180, 60, 240, 0, -90, 0, 240, -60, 120, 0]


def parts(found: CountedCycles) -> list[tuple[float, float, float]]:
    return sorted(zip(found.range, found.mean, found.count, strict=True))


@pytest.mark.parametrize(("size", "printed"), [(3, "0.5"), (4, "1.5"), (6, "0.5"), (8, "1.0"), (9, "0.5")])
def test_example_of_the_standard(size: float, printed: str) -> None:
    found = counted_cycles(EXAMPLE, repeats=False)
    ours = float(np.sum(found.count[found.range == size]))
    Case(STANDARD, "example", "published", {}, printed, 1.0, 1e-12, "exact").check(ours)


def test_example_in_parts() -> None:
    found = counted_cycles(EXAMPLE, repeats=False)
    assert parts(found) == [
        (3, -0.5, 0.5),
        (4, -1, 0.5),
        (4, 1, 1),
        (6, 1, 0.5),
        (8, 0, 0.5),
        (8, 1, 0.5),
        (9, 0.5, 0.5),
    ]


def test_example_as_a_repeating_history() -> None:
    found = counted_cycles(EXAMPLE)
    assert list(zip(found.range, found.count, strict=True)) == [(3, 1), (4, 1), (7, 1), (9, 1)]


def test_torque_day() -> None:
    found = counted_cycles(DAY, repeats=False)
    assert parts(found) == [
        (120, 60, 0.5),
        (120, 120, 1),
        (180, 30, 0.5),
        (240, 120, 0.5),
        (300, 90, 0.5),
        (330, 75, 1.0),  # two halves
    ]
    assert found.crossings == 4  # into regeneration and out of it, twice


def test_torque_day_that_repeats_holds_one_swing_from_drive_to_regeneration() -> None:
    found = counted_cycles(DAY)
    assert found.range[-1] == 330
    assert found.mean[-1] == 75
    assert found.count.tolist() == [1.0] * len(found.count)
    assert found.crossings == 4
