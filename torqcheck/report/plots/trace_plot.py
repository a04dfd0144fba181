"""Pictures of a torque-time trace: lines for a terminal, and a figure that is readable without colour."""

from pathlib import Path
from textwrap import shorten
from typing import Any

from torqcheck.report.formats.figure_file import write_drawing
from torqcheck.report.numbers import significant
from torqcheck.report.plots.terminal_plot import Level, Mark, Series, line_plot
from torqcheck.report.plots.trace_events import MILLISECONDS, TracePicture
from torqcheck.units import System, in_unit

__all__ = ["draw_trace", "terminal_trace", "trace_words", "write_trace_figure"]

TIME_LABEL = "time from the beginning of the rise, ms"
# the page, in inches
PAGE_WIDE, LEFT, RIGHT, HEADING, AXES_TALL, AXIS_TEXT = 8.2, 0.75, 0.2, 0.75, 3.1, 0.6
LEGEND_ROWS, KEY_COLUMNS, KEY_ROW = 3, 3, 0.18
LONGEST_TITLE = 80
LETTER_GAP = 0.022
"""Share of the width that a letter above the figure needs."""
_PATH = {"color": "#1c3f60", "linewidth": 1.5, "linestyle": "solid"}
_MOTOR = {"color": "black", "linewidth": 1.1, "linestyle": (0, (5, 2))}
_STEADY = {"color": "black", "linewidth": 0.9, "linestyle": "dashdot"}
_MOMENT = {"color": "#555555", "linewidth": 0.8, "linestyle": "dotted"}
_GAP = {"facecolor": "#f1efe9", "edgecolor": "#8a8a8a", "hatch": "....", "linewidth": 0.0}
_PAPER = {"facecolor": "white", "edgecolor": "none", "pad": 0.5}
_SLIP = {"facecolor": "none", "edgecolor": "#6b5a33", "hatch": "////", "linewidth": 0.0}


def _torque(value: float, system: System) -> str:
    number, unit = in_unit(value, "torque", system)
    return f"{significant(number)} {unit}"


def _axis_label(system: System) -> str:
    return f"torque, {in_unit(0.0, 'torque', system)[1]}"


def terminal_trace(
    picture: TracePicture,
    *,
    width: int = 80,
    height: int = 18,
    encoding: str = "ascii",
    system: System = "si",
) -> tuple[str, ...]:
    """
    Draw a trace as lines of text, at most `width` columns wide.

    Raises
    ------
    DomainError
        If the size is too small.
    """
    scale = in_unit(1.0, "torque", system)[0]
    times, torque = picture.shown_path()
    motor_times, motor_torque = picture.shown_motor()
    marks = tuple(
        Mark(
            event.words(system),
            event.time * MILLISECONDS,
            event.torque * scale if event.is_point else None,
        )
        for event in picture.named
    )
    lines = line_plot(
        (
            Series("torque in the path", times * MILLISECONDS, torque * scale),
            Series("motor torque", motor_times * MILLISECONDS, motor_torque * scale),
        ),
        x_label=TIME_LABEL,
        y_label=_axis_label(system),
        width=width,
        height=height,
        marks=marks,
        levels=(
            Level(f"steady torque in the path, {_torque(picture.steady_torque, system)}",
                  picture.steady_torque * scale),
        ),
        encoding=encoding,
    )  # fmt: skip
    return (*lines, *(f"       {words}"[:width] for words in picture.uncounted()))


def trace_words(picture: TracePicture, path: Path, system: System = "si") -> tuple[str, ...]:
    """Say in words what the figure shows."""
    until = significant(picture.until * MILLISECONDS)
    return (
        f"{path}: {picture.title}; torque in the path (solid) and of the motor (dashed) up to {until} ms, "
        f"steady torque {_torque(picture.steady_torque, system)} (dash-dot)",
        "; ".join((*(event.words(system) for event in picture.named), *picture.uncounted())),
    )


def write_trace_figure(path: Path, picture: TracePicture, system: System = "si") -> None:
    """
    Draw a trace and write the figure whole.

    Raises
    ------
    OutputError
        If the folder is missing or not writable, or the name has another ending.
    """
    write_drawing(path, lambda figure: draw_trace(figure, picture, system), f"torqcheck, {picture.title}")


def draw_trace(figure: Any, picture: TracePicture, system: System) -> None:
    """Lines, shaded spans and letters, and under the axes what they stand for."""
    words = [f"{event.letter}  {event.words(system)}" for event in picture.named]
    rows = -(-len(words) // KEY_COLUMNS)
    below = AXIS_TEXT + KEY_ROW * (LEGEND_ROWS + rows + len(picture.uncounted()) + 2)
    tall = HEADING + AXES_TALL + below
    figure.set_size_inches(PAGE_WIDE, tall)
    wide = PAGE_WIDE - LEFT - RIGHT
    figure.text(
        0.15 / PAGE_WIDE,
        1.0 - 0.28 / tall,
        shorten(picture.title, LONGEST_TITLE),
        fontsize=11,
        fontweight="bold",
    )
    axes = figure.add_axes((LEFT / PAGE_WIDE, below / tall, wide / PAGE_WIDE, AXES_TALL / tall))
    scale = in_unit(1.0, "torque", system)[0]
    _spans(axes, picture)
    _lines(axes, picture, scale, system)
    _letters(axes, picture, scale)
    top = below - AXIS_TEXT
    figure.legend(
        loc="upper left", bbox_to_anchor=(LEFT / PAGE_WIDE, top / tall), ncols=2, fontsize=8, frameon=False,
        handlelength=4.0, borderpad=0.0, borderaxespad=0.0,
    )  # fmt: skip
    top -= KEY_ROW * (LEGEND_ROWS + 1)
    places = [
        (LEFT + wide / KEY_COLUMNS * (n // rows), top - KEY_ROW * (n % rows)) for n in range(len(words))
    ]
    for number, line in enumerate(picture.uncounted()):
        words.append(line)
        places.append((LEFT, top - KEY_ROW * (rows + number)))
    for line, (left, height) in zip(words, places, strict=True):
        figure.text(left / PAGE_WIDE, height / tall, line, fontsize=7.5)


def _spans(axes: Any, picture: TracePicture) -> None:
    """Shade where nothing touches and where the slip element slides."""
    gap, slip = "dots: in the gap, nothing touches", "strokes: the slip element slides"
    for words, style, spans in ((gap, _GAP, picture.spans("gap")), (slip, _SLIP, picture.spans("slip"))):
        for number, (start, end) in enumerate(spans):
            label = words if number == 0 else None
            axes.axvspan(start * MILLISECONDS, end * MILLISECONDS, label=label, **style)


def _lines(axes: Any, picture: TracePicture, scale: float, system: System) -> None:
    """Draw the torque in the path, that of the motor, and the steady torque."""
    times, torque = picture.shown_path()
    motor_times, motor_torque = picture.shown_motor()
    axes.plot(times * MILLISECONDS, torque * scale, label="solid: torque in the path", zorder=4, **_PATH)
    axes.plot(
        motor_times * MILLISECONDS, motor_torque * scale, label="dashed: motor torque", zorder=3, **_MOTOR
    )
    axes.axhline(
        picture.steady_torque * scale,
        label=f"dash-dot: steady torque in the path, {_torque(picture.steady_torque, system)}",
        **_STEADY,
    )
    axes.set(xlabel=TIME_LABEL, ylabel=_axis_label(system), xlim=(0.0, picture.until * MILLISECONDS))
    axes.margins(y=0.08)


def _letters(axes: Any, picture: TracePicture, scale: float) -> None:
    """Moments as dotted lines with letters above the axes, heights as dots with letters beside them."""
    ends: list[float] = []
    for event in picture.named:
        x = event.time * MILLISECONDS
        if event.is_point:
            y = event.torque * scale
            axes.plot([x], [y], marker="o", markersize=4.0, color="black", zorder=6)
            axes.annotate(
                event.letter,
                (x, y),
                (6, 4),
                textcoords="offset points",
                fontweight="bold",
                zorder=5,
                bbox=_PAPER,
            )
            continue
        axes.axvline(x, zorder=2, **_MOMENT)
        share = event.time / picture.until
        row = next((row for row, end in enumerate(ends) if share - end > LETTER_GAP), len(ends))
        ends[row : row + 1] = [share]
        axes.text(
            share, 1.01 + 0.045 * row, event.letter, transform=axes.transAxes, ha="center", fontweight="bold"
        )
