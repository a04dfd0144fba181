"""Pictures of the life: the fan of the lash over the running hours."""

from pathlib import Path
from typing import Any

from torqcheck.assessment.lifetime.life_result import JointLife, Life
from torqcheck.report.formats.figure_file import write_drawing
from torqcheck.report.numbers import about, significant
from torqcheck.report.plots.ramp_plot import plot_table
from torqcheck.report.plots.terminal_plot import Level, Mark, Series, line_plot
from torqcheck.report.sheet import Table
from torqcheck.units import System, in_unit

__all__ = ["draw_fan", "drawn_joints", "fan_plots", "fan_words", "write_fan_figure"]

ROWS = 14
WIDTH, HEAD, HEIGHT_OF_ONE = 8.2, 0.65, 3.6
ABOVE = 1.25
"""The axis ends at so many times the limit."""
_MEDIAN: dict[str, Any] = {"color": "#1c3f60", "linewidth": 1.8, "linestyle": "solid"}
_EDGE: dict[str, Any] = {"color": "#1c3f60", "linewidth": 1.0, "linestyle": (0, (4, 2))}
_FAN: dict[str, Any] = {"facecolor": "#dce6f0", "edgecolor": "#9db8d2", "hatch": "....", "linewidth": 0.0}
_LIMIT: dict[str, Any] = {"color": "black", "linewidth": 0.9, "linestyle": "dashdot"}
_STOP: dict[str, Any] = {"color": "#6b5a33", "linewidth": 1.0, "linestyle": "dotted"}
_SEEN: dict[str, Any] = {"color": "black", "marker": "D", "linestyle": "none", "markersize": 5}


def _lines(joint: JointLife, length: float) -> tuple[list[float], list[list[float]]]:
    """Hours, and the three percentiles; broken where they leave the picture."""
    top = length * ABOVE * joint.lash_limit
    hours = [point.hours for point in joint.fan]
    lines = []
    for index in range(3):
        values = [point.lash[index] for point in joint.fan]
        lines.append([_inside(value, length, top) for value in values])
    return hours, lines


def _inside(value: float | None, length: float, top: float) -> float:
    return float("nan") if value is None or length * value > top else length * value


def drawn_joints(life: Life) -> tuple[JointLife, ...]:
    """Return the joints that have a life to draw."""
    return tuple(joint for joint in life.joints if joint.fan)


def fan_plots(life: Life, system: System, *, width: int, encoding: str) -> tuple[Table, ...]:
    """One plot of characters for each joint that has a life."""
    length, unit = in_unit(1.0, "length", system)
    plots = []
    for joint in drawn_joints(life):
        hours, (low, middle, high) = _lines(joint, length)
        levels = [Level(f"limit, {significant(length * joint.lash_limit)} {unit}", length * joint.lash_limit)]
        marks = [
            Mark(f"read, {significant(length * seen.clearance)} {unit}", seen.hours, length * seen.clearance)
            for seen in joint.readings
            if seen.hours >= hours[0]
        ]
        if joint.plan is not None:
            stop = length * joint.plan.stop_reading
            levels.append(Level(f"stop at this reading, {significant(stop)} {unit}", stop))
            if hours[0] <= joint.plan.next_at <= hours[-1]:
                marks.append(Mark(f"open it again, {about(joint.plan.next_at)} h", joint.plan.next_at))
        plots.append(
            plot_table(
                f"Lash of {joint.name} over time",
                line_plot(
                    (
                        Series("median", hours, middle),
                        Series("nine in ten have less", hours, high),
                        Series("one in ten has less", hours, low),
                    ),
                    x_label="running hours",
                    y_label=f"lash along the pitch circle, {unit}",
                    width=width,
                    height=ROWS,
                    marks=tuple(marks),
                    levels=tuple(levels),
                    encoding=encoding,
                ),
            )
        )
    return tuple(plots)


def fan_words(life: Life, path: Path) -> str:
    """Say in words what the figure shows."""
    names = ", ".join(joint.name for joint in drawn_joints(life))
    if not names:
        return f"{path}: no joint of this scenario has a wear life to draw; the figure says so"
    return (
        f"{path}: lash over the running hours of {names}; median (solid), one and nine joints in ten "
        "(dashed, dotted area between), limit (dash-dot), stop reading (dotted line), readings (diamonds)"
    )


def write_fan_figure(path: Path, life: Life, system: System) -> None:
    """
    Draw the fan of every joint that has a life and write the figure whole.

    Raises
    ------
    OutputError
        If the folder is missing or not writable, or the name has another ending.
    """
    write_drawing(path, lambda figure: _draw(figure, life, system), f"torqcheck life, {life.title}")


def _draw(figure: Any, life: Life, system: System) -> None:
    """One pair of axes for each joint, one above the other."""
    joints = drawn_joints(life)
    high = HEAD + HEIGHT_OF_ONE * max(1, len(joints))
    figure.set_size_inches(WIDTH, high)
    figure.text(
        0.02, 1.0 - 0.1 / high, f"Lash over time: {life.title}"[:90], fontsize=11, fontweight="bold", va="top"
    )
    if not joints:
        figure.text(0.1, 0.5, "No joint of this scenario has a wear life to draw.")
        return
    axes = figure.subplots(len(joints), 1, squeeze=False)[:, 0]
    figure.subplots_adjust(left=0.1, right=0.975, top=1.0 - HEAD / high, bottom=0.5 / high, hspace=0.4)
    for pair, joint in zip(axes, joints, strict=True):
        draw_fan(pair, joint, system)


def draw_fan(axes: Any, joint: JointLife, system: System) -> None:
    """The fan of one joint."""
    length, unit = in_unit(1.0, "length", system)
    top = length * ABOVE * joint.lash_limit
    hours = [point.hours for point in joint.fan]
    low, middle, high = (_clipped(joint, index, length, top) for index in range(3))
    axes.fill_between(hours, low, high, label="dotted area: eight in ten", **_FAN)
    for values in (low, high):
        axes.plot(hours, values, **_EDGE)
    axes.plot(hours, middle, label="solid: median", **_MEDIAN)
    axes.axhline(length * joint.lash_limit, label="dash-dot: limit", **_LIMIT)
    if joint.plan is not None:
        axes.axhline(length * joint.plan.stop_reading, label="dotted: stop at this reading", **_STOP)
    if joint.readings:
        seen = [(reading.hours, length * reading.clearance) for reading in joint.readings]
        axes.plot(*zip(*seen, strict=True), label="diamonds: read", **_SEEN)
    axes.set(ylim=(0.0, top), xlabel="running hours", ylabel=f"lash, {unit}")
    axes.set_title(joint.name, loc="left", fontsize=9)
    axes.legend(loc="lower right", fontsize=8)


def _clipped(joint: JointLife, index: int, length: float, top: float) -> list[float]:
    """One percentile, cut off at the upper edge of the picture."""
    values = (point.lash[index] for point in joint.fan)
    return [top if value is None else min(length * value, top) for value in values]
