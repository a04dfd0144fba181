"""The axial stack drawn with characters: a section to scale above its axis, and the range of each sum.

Plain ASCII where the encoding carries no box characters. What a sign means stands in the key below.
"""

from dataclasses import dataclass
from string import ascii_uppercase

from torqcheck.assessment.stack.result import PartPlace, StackCheck
from torqcheck.assessment.stack.sums import Range
from torqcheck.report.formats.letters import can_show
from torqcheck.report.formats.terminal_cells import cut, padded
from torqcheck.report.stack.words import number_text, state_names
from torqcheck.units import System, in_unit

__all__ = ["range_lines", "section_lines"]

MOST_ROWS = 16
CELL = 2.0
"""A character is about twice as high as it is wide."""
SHORTEST = 1e-6
"""m; what is shorter has no length to draw."""
FILLS = "/\\.:+x"
NAME, NUMBER = 18, 8


@dataclass(frozen=True, slots=True)
class _Signs:
    """Characters of lines and corners."""

    flat: str
    upright: str
    top_left: str
    top_right: str
    low_left: str
    low_right: str
    axis: str
    begin: str
    end: str
    here: str
    inner: str
    middle: str


_ASCII = _Signs("-", "|", "+", "+", "+", "+", "-", "|", "|", "^", "=", "o")
_BOXES = _Signs(
    "\u2500", "\u2502", "\u250c", "\u2510", "\u2514", "\u2518", "\u2504", "\u251c", "\u2524", "\u25b2",
    "\u2550", "\u25cf",
)  # fmt: skip
_NEEDED = "\u2500\u2502\u250c\u2510\u2514\u2518\u2504\u251c\u2524\u25b2\u2550\u25cf"


class _Canvas:
    """Rows of characters; row 0 is the lowest."""

    def __init__(self, width: int, height: int) -> None:
        self.cells = [[" "] * width for _ in range(height)]

    def put(self, column: int, row: int, text: str) -> None:
        """Write a text; what would lie outside is left out."""
        for offset, letter in enumerate(text):
            if 0 <= row < len(self.cells) and 0 <= column + offset < len(self.cells[0]):
                self.cells[row][column + offset] = letter

    def lines(self) -> list[str]:
        """Rows from the top down."""
        return ["".join(row).rstrip() for row in reversed(self.cells)]


@dataclass(frozen=True, slots=True)
class _Scale:
    """From a place along the axis, m, to a column."""

    begin: float
    per_column: float
    columns: int

    def column(self, place: float) -> int:
        """Column of a place; what lies outside is drawn at the edge."""
        return round(min(max((place - self.begin) / self.per_column, 0.0), self.columns - 1.0))


def _scale(begin: float, end: float, columns: int) -> _Scale:
    return _Scale(begin, max(end - begin, SHORTEST) / (columns - 1), columns)


def section_lines(
    check: StackCheck, system: System, *, width: int = 80, encoding: str = "ascii"
) -> list[str]:
    """
    Draw the parts in section above the axis, to scale, with what overlaps and what stays free below.

    Parameters
    ----------
    check : StackCheck
        The stack; nothing is drawn without parts.
    system : str
        Units of the numbers.
    width : int, optional
        Columns.
    encoding : str, optional
        Of the terminal; decides about box characters.
    """
    if not check.parts:
        return []
    signs = _BOXES if can_show(encoding, _NEEDED) else _ASCII
    ends = [end for part in check.parts for end in (part.begins_at, part.ends_at)]
    scale = _scale(min(ends), max(ends), width)
    radius = max(0.5 * part.outside_diameter for part in check.parts)
    per_row = CELL * scale.per_column
    squeezed = radius / per_row > MOST_ROWS
    per_row = radius / MOST_ROWS if squeezed else per_row
    canvas = _Canvas(width, max(2, round(radius / per_row) + 1))
    for index, part in enumerate(check.parts):
        _draw_part(canvas, part, index, scale, per_row, signs)
    axis = (signs.axis + " ") * (width // 2)
    return [
        *canvas.lines(),
        axis.rstrip(),
        *_dimensions(check, scale, system, width, signs),
        *_key(check, scale, system, squeezed),
    ]


def _draw_part(
    canvas: _Canvas, part: PartPlace, index: int, scale: _Scale, per_row: float, signs: _Signs
) -> None:
    """One part: outline, fill and letter; a solid one stands on the axis."""
    left, right = sorted((scale.column(part.begins_at), scale.column(part.ends_at)))
    low = round(0.5 * part.bore / per_row) if part.bore else -1
    high = max(round(0.5 * part.outside_diameter / per_row), low + 1)
    fill = FILLS[index % len(FILLS)]
    for row in range(low + 1, high):
        canvas.put(left, row, signs.upright + fill * max(0, right - left - 1) + signs.upright)
    between = signs.flat * max(0, right - left - 1)
    canvas.put(left, high, signs.top_left + between + signs.top_right)
    if part.bore:
        canvas.put(left, low, signs.low_left + between + signs.low_right)
    canvas.put((left + right) // 2, max(0, (low + high) // 2), f" {ascii_uppercase[index]} ")


def _dimensions(check: StackCheck, scale: _Scale, system: System, width: int, signs: _Signs) -> list[str]:
    """One line for each result that says where it begins, and for each collar."""
    lines = []
    for one in check.results:
        if one.begins_at is None:
            continue
        text = f"{one.name} {number_text(one.assembled.nominal, system)}"
        ends = (scale.column(one.begins_at), scale.column(one.begins_at + one.assembled.nominal))
        lines.append(_line(min(ends), max(ends), text, width, signs))
    for collar in check.collars:
        if collar.begins_at is not None:
            text = f"{collar.name} at {number_text(collar.position, system)}"
            lines.append(_beside(scale.column(collar.begins_at), signs.here, text, width))
    return lines


def _line(left: int, right: int, text: str, width: int, signs: _Signs) -> str:
    """A dimension line with its text behind it, or before it where there is no room."""
    inner = max(0, right - left - 1)
    bar = signs.begin + signs.flat * inner + (signs.end if right > left else "")
    return _beside(left, bar, text, width)


def _beside(left: int, drawn: str, text: str, width: int) -> str:
    """Something drawn at a column, its text where there is room for it."""
    if left + len(drawn) + 1 + len(text) <= width:
        return f"{' ' * left}{drawn} {text}"
    before = max(0, left - 1 - len(text))
    return f"{' ' * before}{text[: max(0, left - 1)]} {drawn}"[:width]


def _key(check: StackCheck, scale: _Scale, system: System, squeezed: bool) -> list[str]:
    """What each letter is, and the scale."""
    per, unit = in_unit(scale.per_column, "length", system)
    lines = [
        f"{ascii_uppercase[index]} {part.name}: {number_text(part.begins_at, system)} to "
        f"{number_text(part.ends_at, system)} {unit}"
        for index, part in enumerate(check.parts)
    ]
    heights = "heights drawn in, not to that scale" if squeezed else "heights to the same scale"
    return [*lines, f"One column is {per:.3g} {unit} along the axis; {heights}; nominal, as assembled."]


def range_lines(check: StackCheck, system: System, *, width: int = 80, encoding: str = "ascii") -> list[str]:
    """
    Draw the range of each result, cold and in service: worst case, root sum square, nominal.

    Parameters
    ----------
    check : StackCheck
        Each result is drawn to a scale of its own, since an engagement is long and a gap short.
    system : str
        Units of the numbers.
    width : int, optional
        Columns.
    encoding : str, optional
        Of the terminal.
    """
    signs, words = (_BOXES if can_show(encoding, _NEEDED) else _ASCII), state_names(check)
    lines = []
    for one in check.results:
        wall = one.least if one.least is not None else 0.0 if one.kind == "gap" else None
        values = [one.worst, one.greatest, *([0.0] if one.kind == "gap" else []), *([wall] if wall else [])]
        low, high = min(values), max(values)
        room = width - NAME - 6 - 2 * NUMBER - 2
        scale = _scale(low, high, room)
        for word, state in zip(words, (one.assembled, one.running), strict=True):
            bar = _bar(state, scale, room, 0.0 if one.kind == "gap" else None, wall, signs)
            name = padded(cut(one.name, NAME) if state.state == "assembled" else "", NAME)
            ends = [number_text(value, system) for value in (state.least, state.greatest)]
            lines.append(f"{name} {word:<4} {ends[0]:>{NUMBER}} {bar} {ends[1]}".rstrip())
    return lines


def _bar(
    state: Range, scale: _Scale, room: int, zero: float | None, wall: float | None, signs: _Signs
) -> str:
    """One range as a line of characters."""
    canvas = _Canvas(room, 1)
    for mark, letter in ((wall, ":"), (zero, "0")):
        if mark is not None:
            canvas.put(scale.column(mark), 0, letter)
    left, right = scale.column(state.least), scale.column(state.greatest)
    canvas.put(left, 0, "[" + signs.flat * max(0, right - left - 1) + "]")
    inner = [scale.column(value) for value in state.statistical]
    canvas.put(inner[0], 0, signs.inner * (inner[1] - inner[0] + 1))
    canvas.put(scale.column(state.nominal), 0, signs.middle)
    return "".join(canvas.cells[0])
