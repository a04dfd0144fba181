"""Lines drawn with characters: everything at its place, nothing too wide, no colour, ASCII if asked."""

import math
import re

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from torqcheck.errors import DomainError
from torqcheck.report.plots.scale import linear_scale, log_scale
from torqcheck.report.plots.terminal_plot import Level, Mark, Series, line_plot

LABELS = {"x_label": "time, ms", "y_label": "torque, N m"}
LINE = Series("torque in the path", (0.0, 10.0), (0.0, 100.0))


class Plot:
    """What a reader takes from the characters: the cells, and the numbers at the ticks of both axes."""

    def __init__(self, lines: tuple[str, ...]) -> None:
        self.lines = lines
        body = re.compile(r"^ *(-?[\d.]*) ([|+])")
        rows = [line for line in lines if body.match(line)]
        foot = next(i for i, line in enumerate(lines) if re.match(r"^ +\+[-+]+$", line))
        self.left = lines[foot].index("+") + 1
        rows = [line for line in rows if lines.index(line) < foot and len(line) >= self.left - 1]
        first = next(i for i, line in enumerate(lines) if line[self.left - 1 : self.left] in ("|", "+"))
        self.cells = [line[self.left :] for line in lines[first:foot]][::-1]
        self.above = [line[self.left :] for line in lines[1:first]]
        self.x_at = self._numbers(lines[foot], lines[foot + 1])
        self.y_at = {
            row: float(text)
            for row, line in enumerate(lines[first:foot][::-1])
            if (text := line[: self.left - 1].strip())
        }
        self.key = lines[foot + 3 :]

    def _numbers(self, axis: str, numbers: str) -> dict[int, float]:
        ticks = [i for i, sign in enumerate(axis) if sign == "+" and i >= self.left]
        found = {}
        for text in re.finditer(r"\S+", numbers):
            middle = 0.5 * (text.start() + text.end() - 1)
            found[min(ticks, key=lambda tick: abs(tick - middle)) - self.left] = float(text.group())
        return found

    @staticmethod
    def _value(at: dict[int, float], cell: int) -> float:
        (a, va), (b, vb) = min(at.items()), max(at.items())
        return va + (vb - va) * (cell - a) / (b - a)

    def x(self, column: int) -> float:
        return self._value(self.x_at, column)

    def y(self, row: int) -> float:
        return self._value(self.y_at, row)

    @property
    def x_cell(self) -> float:
        return self.x(1) - self.x(0)

    @property
    def y_cell(self) -> float:
        return self.y(1) - self.y(0)

    def places(self, sign: str) -> list[tuple[float, float]]:
        """Values at which a sign stands in the plot."""
        return [
            (self.x(column), self.y(row))
            for row, cells in enumerate(self.cells)
            for column, found in enumerate(cells)
            if found == sign
        ]


def test_every_sample_has_its_cell_and_every_cell_a_sample() -> None:
    x = np.linspace(0.0, 60.0, 1500)
    y = 120.0 * np.sin(x / 7.0) - 30.0
    plot = Plot(line_plot((Series("swing", x, y),), **LABELS))
    drawn = np.array(plot.places("*"))
    assert len(plot.cells) == 18
    assert len(drawn) > 60
    for px, py in zip(x[::7], y[::7], strict=True):
        off = np.abs(drawn - (px, py)) / (plot.x_cell, plot.y_cell)
        assert off.max(axis=1).min() <= 0.5 + 1e-6
    for px, py in drawn:
        off = np.abs(np.column_stack((x - px, y - py))) / (plot.x_cell, plot.y_cell)
        assert off.max(axis=1).min() <= 0.55  # a cell may hold a stretch between two samples


def test_marks_and_levels_stand_where_they_should() -> None:
    marks = (Mark("flanks meet", 2.887), Mark("peak", 7.08, 83.0), Mark("flanks part", 9.5))
    plot = Plot(line_plot((LINE,), **LABELS, marks=marks, levels=(Level("steady", 40.0),)))
    (letters,) = plot.above
    assert abs(plot.x(letters.index("A")) - 2.887) <= 0.5 * plot.x_cell + 1e-9
    assert abs(plot.x(letters.index("C")) - 9.5) <= 0.5 * plot.x_cell + 1e-9
    assert "B" not in letters
    ((x, y),) = plot.places("B")
    assert abs(x - 7.08) <= 0.5 * plot.x_cell + 1e-9
    assert abs(y - 83.0) <= 0.5 * plot.y_cell + 1e-9
    upright = {round(x, 6) for x, _ in plot.places(":")}
    assert upright == {round(plot.x(letters.index(sign)), 6) for sign in "AC"}
    (row,) = [row for row, cells in enumerate(plot.cells) if cells.endswith(" a")]
    assert abs(plot.y(row) - 40.0) <= 0.5 * plot.y_cell + 1e-9
    assert plot.cells[row].count("-") > 50
    assert plot.key == (
        "  ***  torque in the path",
        "  --a  steady",
        "  : A  flanks meet",
        "    B  peak",
        "  : C  flanks part",
    )


def test_ticks_are_round_and_the_axes_reach_everything() -> None:
    plot = Plot(
        line_plot((Series("y", (0.0, 83.2), (0.0, 604.9)),), **LABELS, levels=(Level("limit", 700.0),))
    )
    assert sorted(plot.x_at.values()) == pytest.approx(list(np.arange(0.0, 81.0, 20.0)))
    assert sorted(plot.y_at.values()) == [100.0 * number for number in range(9)]
    assert plot.y(17) >= 700.0 - 0.5 * plot.y_cell
    assert len(plot.places("*")) >= 60


def test_lines_are_told_apart_and_the_first_is_on_top() -> None:
    upper, lower = Series("motor torque", (0, 10), (50, 100)), Series("path", (0, 10), (0, 50))
    plot = Plot(line_plot((upper, lower), **LABELS))
    assert plot.key[:2] == ("  ***  motor torque", "  ooo  path")
    assert min(y for _, y in plot.places("*")) >= 45.0
    assert max(y for _, y in plot.places("o")) <= 55.0
    crossed = Plot(line_plot((LINE, Series("falling", (0, 10), (100, 0))), **LABELS))
    reference = Plot(line_plot((LINE,), **LABELS))
    assert len(crossed.places("*")) == len(reference.places("*"))


def test_a_line_under_another_is_said_to_be_there() -> None:
    lines = line_plot((LINE, Series("the same again", LINE.x, LINE.y)), **LABELS)
    assert any("the same again (hidden behind the lines above)" in line for line in lines)


def test_a_break_in_the_data_is_a_break_in_the_line() -> None:
    x = np.linspace(0.0, 10.0, 201)
    broken = np.where(np.abs(x - 5.0) < 1.0, math.nan, 1.0)
    plot = Plot(line_plot((Series("y", x, broken), Series("zero", (0, 10), (0, 0))), **LABELS))
    xs = np.array([x for x, _ in plot.places("*")])
    assert not np.any(np.abs(xs - 5.0) < 0.9)
    assert np.sum(xs < 4.0) > 20
    assert np.sum(xs > 6.0) > 20


def test_logarithmic_axis() -> None:
    x = np.geomspace(200.0, 1e5, 300)
    lines = line_plot(
        (Series("peak", x, np.log10(x)),), **LABELS, log_x=True, marks=(Mark("chosen", 5000.0),)
    )
    plot = Plot(lines)
    assert {1000.0, 10000.0, 100000.0} <= set(plot.x_at.values())
    letter = plot.above[0].index("A")
    tick = next(column for column, value in plot.x_at.items() if value == 5000.0)
    assert letter == tick
    # log10 of a logarithmic axis is a straight line
    columns = np.array([(column, value) for column, value in plot.x_at.items()])
    slope, start = np.polyfit(columns[:, 0], np.log10(columns[:, 1]), 1)
    assert np.abs(start + slope * columns[:, 0] - np.log10(columns[:, 1])).max() < 0.5 * slope + 0.01
    with pytest.raises(DomainError, match="needs finite values above 0"):
        line_plot((LINE,), **LABELS, log_x=True)


def test_fine_dots_follow_the_line_four_times_closer() -> None:
    x = np.linspace(0.0, 60.0, 600)
    y = 120.0 + 115.0 * np.sin(x / 7.0)
    lines = line_plot((Series("swing", x, y),), **LABELS, encoding="utf-8")
    rows = [line for line in lines if re.search("[\u2502\u2524]", line)][::-1]
    left = re.search("[\u2502\u2524]", rows[0])
    assert left is not None
    scale = linear_scale(0.0, float(y.max()), 18, 2, 5)
    worst = 0.0
    for column in range(60):
        dots = []
        for row, line in enumerate(rows):
            bits = ord(line[left.end() + column : left.end() + column + 1] or " ") - 0x2800
            if bits > 0:
                levels = ((0x40 | 0x80), (0x04 | 0x20), (0x02 | 0x10), (0x01 | 0x08))
                dots += [row - 0.5 + (n + 0.5) / 4.0 for n, mask in enumerate(levels) if bits & mask]
        assert dots
        heights = [scale.low + dot * scale.cell for dot in dots]
        nearest = min(np.abs(y[:, None] - np.array(heights)).min(axis=0))
        worst = max(worst, float(nearest))
    assert worst <= 0.5 * scale.cell / 4.0 + 1e-6


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp1252", "no such encoding"])
def test_plain_ascii_where_boxes_cannot_be_shown(encoding: str) -> None:
    lines = line_plot(
        (Series("Drehmoment \u00b1 5 \u2102", LINE.x, LINE.y),), x_label="t, \u00b5s", y_label="N\u00b7m",
        encoding=encoding, levels=(Level("\u2264 4", 4.0),), marks=(Mark("\u00e9", 3.0),),
    )  # fmt: skip
    assert "".join(lines).isascii()


def test_boxes_and_dots_where_they_can_be_shown() -> None:
    text = "".join(line_plot((LINE,), **LABELS, encoding="utf-8"))
    assert "\u2502" in text
    assert re.search("[\u2801-\u28ff]", text)


numbers = st.floats(-1e12, 1e12) | st.sampled_from([0.0, 1e-300, -1e-9, 1.0, math.nan, math.inf])
finite = st.floats(-1e9, 1e9)
texts = st.text(max_size=120)


@given(
    data=st.lists(st.lists(st.tuples(numbers, numbers), max_size=8), min_size=1, max_size=8),
    label=texts,
    marks=st.lists(st.tuples(texts, finite, st.none() | finite), max_size=26),
    levels=st.lists(finite, max_size=6),
    width=st.integers(40, 160),
    height=st.integers(5, 40),
    encoding=st.sampled_from(["ascii", "utf-8"]),
)
@settings(max_examples=300, deadline=None)
def test_never_wider_than_asked_and_never_an_escape_character(  # type: ignore[no-untyped-def]
    data, label, marks, levels, width, height, encoding
) -> None:
    series = tuple(Series(label, [x for x, _ in one], [y for _, y in one]) for one in data)
    if not any(math.isfinite(x) and math.isfinite(y) for one in data for x, y in one):
        with pytest.raises(DomainError, match="nothing to draw"):
            line_plot(series, **LABELS)
        return
    lines = line_plot(
        series, x_label=label, y_label=label, width=width, height=height, encoding=encoding,
        marks=tuple(Mark(*mark) for mark in marks), levels=tuple(Level(label, y) for y in levels),
    )  # fmt: skip
    assert max(map(len, lines)) <= width
    assert all(line.isprintable() and line == line.rstrip() for line in lines)
    assert encoding != "ascii" or "".join(lines).isascii()
    assert len(lines) >= height + 3


@given(low=finite, span=st.floats(0.0, 1e9), count=st.integers(20, 200))
@example(low=0.00012, span=1e-8, count=20)
@settings(max_examples=300, deadline=None)
def test_scales_reach_both_ends_and_waste_little(low: float, span: float, count: int) -> None:
    high = low + span
    scale = linear_scale(low, high, count, 8, 20)
    for value in (low, high):
        assert -0.01 <= scale.place(value) <= count - 1 + 0.01
        assert abs(scale.place(value) - scale.cell_of(value)) <= 0.51
    assert len(scale.ticks) >= 2
    assert all(0 <= cell < count for cell, _ in scale.ticks)
    if span > max(1e-6 * abs(low), 1e-270):
        assert scale.place(high) - scale.place(low) >= (0.85 if count >= 60 else 0.6) * (count - 2)
        for cell, text in scale.ticks:
            if "e" not in text and len(text) < 8:
                assert scale.place(float(text)) == pytest.approx(cell, abs=1e-3)


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ({"width": 39}, "at least 40 columns and 5 rows"),
        ({"height": 4}, "at least 40 columns and 5 rows"),
        ({"marks": (Mark("x", math.nan),)}, "must lie at finite values"),
        ({"levels": (Level("x", math.inf),)}, "must lie at finite values"),
        ({"marks": (Mark("x", 1.0),) * 27}, "at most 26 marks"),
        ({"series": ()}, "shows 1 to 8 lines, not 0"),
        ({"series": (Series("uneven", (1.0, 2.0), (1.0,)),)}, "uneven: 2 values of x and 1 of y"),
        ({"series": (Series("empty", (), ()),)}, "nothing to draw"),
        ({"series": (Series("vast", (0.0, 1.0), (-1.7e308, 1.7e308)),)}, "must be finite"),
    ],
)
def test_what_cannot_be_drawn_is_refused(arguments: dict[str, object], message: str) -> None:
    with pytest.raises(DomainError, match=message):
        line_plot(**({"series": (LINE,)} | LABELS | arguments))  # type: ignore[arg-type]


def test_log_scale_of_one_value_has_a_decade_around_it() -> None:
    scale = log_scale(100.0, 100.0, 50)
    assert 0 < scale.cell_of(100.0) < 49
    assert "100" in dict(scale.ticks).values()
