"""Ranges and chances of the shipped scenarios against a run of the whole path for every draw (minutes)."""

import sys
from pathlib import Path

import pytest
from assessment.test_spread import compare
from builder import EXAMPLES

from torqcheck.scenario import load_scenario

DRAWS = 2000
OF_WIDTH, CHANCE = 0.05, 0.01
"""Of the width of a range in the logarithm; of one."""


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_ranges_and_chances_are_those_of_the_long_way(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    difference, below = compare(load_scenario(path), DRAWS, of_width=OF_WIDTH, chance=CHANCE)
    with capsys.disabled():
        sys.stdout.write(
            f"\n{path.stem}: ends differ by {difference:.2%} of the width, chances by {below:.4f}"
        )
