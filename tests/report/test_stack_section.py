"""The stack drawn with characters: to scale, within its width, with and without box characters."""

from pathlib import Path

import pytest

from torqcheck.assessment.stack.judge import stack
from torqcheck.assessment.stack.result import PartPlace, StackCheck
from torqcheck.report.stack.section import range_lines, section_lines
from torqcheck.report.stack.words import number_text, stack_line, stack_words
from torqcheck.units import System

SCENARIO = Path(__file__).parents[2] / "scenarios" / "glasshouse_tug.toml"


@pytest.fixture(scope="module")
def check() -> StackCheck:
    return stack(SCENARIO).check


@pytest.mark.parametrize("encoding", ["ascii", "utf-8", "latin-1", "no such encoding"])
@pytest.mark.parametrize("width", [60, 80])
def test_it_keeps_to_its_width_and_encoding(check: StackCheck, width: int, encoding: str) -> None:
    lines = section_lines(check, "si", width=width, encoding=encoding)
    drawn = lines[: next(i for i, line in enumerate(lines) if line.startswith("A "))]
    drawn += range_lines(check, "si", width=width, encoding=encoding)
    assert max(map(len, drawn)) <= width
    text = "".join(lines)
    assert text.isascii() == (encoding != "utf-8")
    assert ("\u250c" in text) == (encoding == "utf-8")


def test_parts_stand_to_scale(check: StackCheck) -> None:
    """232 mm on 79 columns: the coupler's edges at 74.6 and 146.6 mm."""
    lines = section_lines(check, "si", width=80)
    coupler = next(line for line in lines if " B " in line)
    assert coupler.index("|") == round(74.6 / 232.0 * 79)
    bar = next(line for line in lines if "teeth in mesh" in line).split(" teeth")[0]
    assert len(bar.strip()) == pytest.approx(33.15 / 232.0 * 79, abs=1.01)
    key = [line for line in lines if line.startswith(("A ", "B ", "C ", "D "))]
    assert key[1] == "B coupler: 74.60 to 146.60 mm"


def test_heights_are_drawn_in_where_they_would_not_fit() -> None:
    base = stack(SCENARIO).check
    wide = PartPlace("wheel", 0.0, 0.05, 2.0, 0.0)
    stout = StackCheck(**{name: getattr(base, name) for name in base.__slots__} | {"parts": (wide,)})
    lines = section_lines(stout, "si")
    assert len(lines) < 40
    assert "heights drawn in, not to that scale" in lines[-1]
    none = StackCheck(**{name: getattr(base, name) for name in base.__slots__} | {"parts": ()})
    assert section_lines(none, "si") == []


def test_what_lies_far_outside_is_drawn_at_the_edge(check: StackCheck) -> None:
    """Parts of next to no length, results a long way off: no line grows beyond the width."""
    dot = PartPlace("washer", 0.0, 0.0, 0.01, 0.0)
    tiny = StackCheck(**{name: getattr(check, name) for name in check.__slots__} | {"parts": (dot,)})
    lines = section_lines(tiny, "si", width=80)
    assert max(map(len, lines[:-1])) <= 80
    assert len(lines) < 40


@pytest.mark.parametrize(("value", "system", "text"), [
    (0.99999, "si", "999.99"), (1.2345, "si", "1234.5"), (-0.25, "inch", "-9.8425"),
    (-1.0, "inch", "-39.370"),
])  # fmt: skip
def test_long_lengths_lose_a_digit(value: float, system: System, text: str) -> None:
    assert number_text(value, system) == text


def test_a_range_shows_worst_case_squares_and_nominal_in_order(check: StackCheck) -> None:
    cold, hot = range_lines(check, "si")[2:4]
    for line in (cold, hot):
        marks = [line.index("["), line.index("="), line.index("o", 25), line.rindex("="), line.rindex("]")]
        assert marks == sorted(marks)
    assert cold.index("0 ", 30) < cold.index(":") < cold.index("[")
    assert hot.index("[") < cold.index("[")


def test_one_line_for_the_whole_and_sentences_for_each(check: StackCheck) -> None:
    line = stack_line(check, ("si",))
    assert (
        line == "Axial stack: FAIL. nose to plug: bottoms on the plug by 0.09 mm when hot in the worst case."
    )
    words = list(stack_words(check, ("si",)))
    assert words[0].startswith("nose to plug: bottoms on")
    assert words[-1].startswith('0.50 mm more shim in "adapter shims" (of the stock: 0.50 mm) mends it')
