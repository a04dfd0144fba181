"""Points of characters: where they stand, what hides what, and that nothing leaves the page."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqcheck.errors import DomainError
from torqcheck.report.plots.point_plot import Point, point_plot

LABELS = {"x_label": "cost", "y_label": "safety", "level": 1.0, "level_label": "target"}


def drawn(points: list[Point], width: int = 60, height: int = 10) -> tuple[str, ...]:
    return point_plot(points, width=width, height=height, **LABELS)  # type: ignore[arg-type]


def test_more_expensive_stands_right_and_safer_stands_higher() -> None:
    lines = drawn([Point(1.0, 0.5, "A"), Point(3.0, 2.0, "B"), Point(2.0, 1.4, "c")])
    places = {
        sign: (row, line.index(sign))
        for row, line in enumerate(lines[1:11])
        for sign in "ABc"
        if sign in line
    }
    assert places["A"][1] < places["c"][1] < places["B"][1]
    assert places["B"][0] < places["c"][0] < places["A"][0]
    level = next(row for row, line in enumerate(lines[1:11]) if "----" in line)
    assert places["c"][0] < level < places["A"][0]
    assert lines[-1] == "  ---  target"


def test_the_first_of_two_on_one_place_is_seen_and_the_other_is_counted() -> None:
    lines = drawn([Point(1.0, 0.5, "A"), Point(3.0, 2.0, "B"), Point(1.0, 0.5, "a")])
    assert lines[-1] == "1 more lie behind others."
    assert "a" not in "".join(lines[1:11])


def test_a_wide_range_is_drawn_logarithmically() -> None:
    lines = drawn([Point(1.0, 0.1, "A"), Point(2.0, 10.0, "B"), Point(3.0, 1.0, "C")], height=13)
    rows = {sign: next(i for i, line in enumerate(lines[1:14]) if sign in line) for sign in "ABC"}
    assert rows["C"] - rows["B"] == rows["A"] - rows["C"]


@given(
    st.lists(st.tuples(st.floats(0.1, 30.0), st.floats(1e-3, 50.0)), min_size=1, max_size=60),
    st.integers(40, 100),
    st.integers(5, 20),
)
def test_never_wider_than_asked_and_every_point_is_drawn_or_counted(
    values: list[tuple[float, float]], width: int, height: int
) -> None:
    lines = drawn([Point(x, y, "X") for x, y in values], width, height)
    assert all(len(line) <= width and line.isascii() and line == line.rstrip() for line in lines)
    seen = sum(line.count("X") for line in lines[1 : height + 1])
    hidden = int(lines[-1].split()[0]) if lines[-1].endswith("others.") else 0
    assert seen + hidden == len(values)


def test_nothing_or_nonsense_is_refused() -> None:
    for points in ([], [Point(1.0, float("nan"), "A")], [Point(float("inf"), 1.0, "A")]):
        with pytest.raises(DomainError, match="nothing to draw"):
            drawn(points)
    with pytest.raises(DomainError, match="40 columns and 5 rows"):
        drawn([Point(1.0, 1.0, "A")], width=39)
