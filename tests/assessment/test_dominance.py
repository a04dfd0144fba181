"""Dominance against the definition written out, pair by pair."""

from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.assessment.compare.dominance import dominated_by

Scores = Sequence[tuple[float | None, ...]]
VALUES = st.one_of(st.none(), st.sampled_from([-2.0, 0.0, 1.0, 1.5, float("inf")]), st.floats(-3.0, 3.0))
TABLES = st.integers(1, 4).flatmap(
    lambda columns: st.lists(st.tuples(*[VALUES] * columns), min_size=1, max_size=14)
)


def dominates(one: tuple[float | None, ...], other: tuple[float | None, ...]) -> bool:
    """The definition: comparable and at least as good everywhere, better somewhere."""
    better = False
    for mine, yours in zip(one, other, strict=True):
        if (mine is None) != (yours is None):
            return False
        if mine is None or yours is None:
            continue
        if mine < yours:
            return False
        better = better or mine > yours
    return better


@given(TABLES)
def test_it_is_the_definition(table: Scores) -> None:
    found = dominated_by(table)
    for row, named in zip(table, found, strict=True):
        assert (named is not None) == any(dominates(other, row) for other in table)
        if named is not None:
            assert dominates(table[named], row)
            assert found[named] is None
            first = next(i for i, o in enumerate(table) if found[i] is None and dominates(o, row))
            assert named == first


@given(TABLES)
def test_somebody_always_stays_and_nobody_beats_whoever_beats_him(table: Scores) -> None:
    found = dominated_by(table)
    assert None in found
    for index, named in enumerate(found):
        if named is not None:
            assert found[named] != index


@given(st.tuples(VALUES, VALUES, VALUES), st.integers(2, 5))
def test_equal_choices_all_stay(row: tuple[float | None, ...], times: int) -> None:
    assert dominated_by([row] * times) == (None,) * times


@pytest.mark.parametrize(
    ("table", "wanted"),
    [
        ([], ()),
        ([(1.0, 1.0), (1.0, 2.0)], (1, None)),
        ([(1.0, 2.0), (2.0, 1.0)], (None, None)),
        ([(1.0, None), (2.0, 1.0)], (None, None)),
        ([(1.0, None), (2.0, None)], (1, None)),
        ([(3.0, 3.0), (2.0, 2.0), (1.0, 1.0)], (None, 0, 0)),
    ],
)
def test_by_example(table: Scores, wanted: tuple[int | None, ...]) -> None:
    assert dominated_by(table) == wanted
