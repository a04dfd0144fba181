"""Pictures of a sweep over one or two keys: a line or a map, of characters or drawn."""

from pathlib import Path
from typing import Any

import numpy as np

from torqcheck.assessment.sweep.keys import VariedKey
from torqcheck.assessment.sweep.summary import Map
from torqcheck.report.formats.figure_file import write_drawing
from torqcheck.report.numbers import significant
from torqcheck.report.plots.ramp_plot import plot_table
from torqcheck.report.plots.terminal_plot import Level, Series, line_plot
from torqcheck.report.sheet import Table

__all__ = ["figure_words", "sweep_plots", "write_sweep_figure"]

ROWS, MAP_ROWS, MAP_COLUMNS = 13, 20, 60
LABEL = "weakest safety factor over its target"
PAGE = (7.4, 5.2)
MOST_CONTOURS = 12
LEVELS = (0.25, 0.5, 0.75, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 6.0, 8.0, 12.0)
KEY_OF_MAP = (
    "0 to 9: tenths of the target, below it (7: 0.7 to 0.8). Target reached: '.' 1 to 1.5 times, '+' 1.5 to "
    "2 times, '#' more or unloaded. 'x': refused, no result."
)


def sweep_plots(plan: Map | None, *, width: int, encoding: str) -> tuple[Table, ...]:
    """A line over one key, a map over two; nothing where there is too little to draw."""
    if plan is None or np.count_nonzero(np.isfinite(plan.margin)) < 2:
        return ()
    if len(plan.keys) == 1:
        return (plot_table("Factor over target along the key", _line(plan, width, encoding)),)
    if min(plan.margin.shape) < 2:
        return ()
    return (plot_table("Factor over target, as a map", tuple(_map(plan, width))),)


def _line(plan: Map, width: int, encoding: str) -> tuple[str, ...]:
    key = plan.keys[0]
    return line_plot(
        (Series("weakest check", plan.values[0], plan.margin),),
        x_label=key.title,
        y_label=LABEL,
        width=width,
        height=ROWS,
        levels=(Level("target reached", 1.0),),
        log_x=key.logarithmic,
        encoding=encoding,
    )


def _map(plan: Map, width: int) -> list[str]:
    """One sign for a level of both keys; of many levels every so many-th is shown."""
    upright, across = plan.keys
    rows, columns = (
        np.unique(np.linspace(0, count - 1, min(count, most)).round().astype(int))
        for count, most in zip(plan.margin.shape, (MAP_ROWS, min(MAP_COLUMNS, width - 16)), strict=True)
    )
    labels = {int(row): f"{plan.values[0][row]:.5g}" for row in (rows[0], rows[len(rows) // 2], rows[-1])}
    margin = max(len(label) for label in labels.values())
    lines = [f"up: {upright.title}"]
    for row in reversed(rows):
        signs = "".join(_sign(float(plan.margin[row, column])) for column in columns)
        lines.append(f"{labels.get(int(row), ''):>{margin}} |{signs}")
    low, high = (f"{plan.values[1][column]:.5g}" for column in (columns[0], columns[-1]))
    gap = max(1, len(columns) - len(low) - len(high))
    lines.append(" " * (margin + 2) + low + " " * gap + high)
    lines.append(f"across: {across.title}")
    return [*lines, *_wrapped(KEY_OF_MAP, width)]


def _wrapped(text: str, width: int) -> list[str]:
    import textwrap

    return textwrap.wrap(text, width)


def _sign(margin: float) -> str:
    """One character for a factor over target."""
    if np.isnan(margin):
        return "x"
    if margin < 1.0:
        return str(int(10.0 * margin))
    if margin < 1.5:
        return "."
    return "+" if margin < 2.0 else "#"


def write_sweep_figure(path: Path, plan: Map, title: str) -> None:
    """
    Draw the line or the contours and write the figure whole.

    Raises
    ------
    OutputError
        If the folder is missing or not writable, or the name has another ending.
    """
    write_drawing(path, lambda figure: _draw(figure, plan, title), f"torqcheck sweep, {title}")


def figure_words(plan: Map, path: Path) -> str:
    """Say in words what the figure shows."""
    keys = " and ".join(key.title for key in plan.keys)
    finite = plan.margin[np.isfinite(plan.margin)]
    span = f"; it runs from {significant(finite.min())} to {significant(finite.max())}" if finite.size else ""
    line = (
        "dashed line: target reached"
        if len(plan.keys) == 1
        else "thick line: 1, target reached; hatched: refused"
    )
    return f"{path}: {LABEL} against {keys} ({line}){span}"


def _draw(figure: Any, plan: Map, title: str) -> None:
    figure.set_size_inches(*PAGE)
    axes = figure.subplots()
    figure.subplots_adjust(left=0.11, right=0.97, top=0.9, bottom=0.12)
    figure.text(0.02, 0.95, f"Sweep: {title}"[:90], fontsize=11, fontweight="bold")
    if len(plan.keys) == 1:
        _draw_line(axes, plan)
    else:
        _draw_contours(axes, plan)


def _scale(key: VariedKey) -> str:
    return "log" if key.logarithmic else "linear"


def _draw_line(axes: Any, plan: Map) -> None:
    key = plan.keys[0]
    margin = np.where(np.isfinite(plan.margin), plan.margin, np.nan)
    axes.plot(plan.values[0], margin, color="#1c3f60", linewidth=1.8)
    axes.axhline(1.0, color="black", linewidth=1.0, linestyle=(0, (4, 2)))
    axes.annotate(
        "target reached", (0.01, 1.0), (0, 3), xycoords=axes.get_yaxis_transform(),
        textcoords="offset points", fontsize=8,
    )  # fmt: skip
    axes.set(xlabel=key.title, ylabel=LABEL, xscale=_scale(key), ylim=(0.0, None))


def _draw_contours(axes: Any, plan: Map) -> None:
    upright, across = plan.keys
    axes.set(xlabel=across.title, ylabel=upright.title, xscale=_scale(across), yscale=_scale(upright))
    field = np.ma.masked_invalid(plan.margin)
    if min(field.shape) >= 2 and field.count() >= 4:
        low, high = float(field.min()), float(field.max())
        levels = [level for level in LEVELS if low < level < high] or [0.5 * (low + high)]
        if high > low:
            thin = axes.contour(
                plan.values[1], plan.values[0], field, levels=levels[:MOST_CONTOURS], colors="#1c3f60",
                linewidths=0.9,
            )  # fmt: skip
            axes.clabel(thin, fmt="%.3g", fontsize=8)
        if low < 1.0 < high:
            thick = axes.contour(
                plan.values[1], plan.values[0], field, levels=[1.0], colors="black", linewidths=2.4
            )
            axes.clabel(thick, fmt={1.0: "1: target"}, fontsize=9)
    refused = np.isnan(plan.margin).astype(float)
    if np.any(refused) and min(refused.shape) >= 2:
        axes.contourf(
            plan.values[1], plan.values[0], refused, levels=[0.5, 1.5], colors="none", hatches=["////"]
        )
