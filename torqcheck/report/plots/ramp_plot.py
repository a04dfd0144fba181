"""Pictures of the curve: peak torque and weakest safety factor against the torque rise."""

import math
from pathlib import Path
from typing import Any

from torqcheck.assessment.ramp.result import Point, Ramp
from torqcheck.report.formats.figure_file import write_drawing
from torqcheck.report.numbers import significant
from torqcheck.report.plots.terminal_plot import Level, Mark, Series, line_plot
from torqcheck.report.sheet import Column, Table
from torqcheck.units import System, in_unit

__all__ = ["curve_plots", "curve_words", "plot_table", "write_curve_figure"]

PEAK_ROWS, FACTOR_ROWS = 13, 11
PAGE = (8.2, 7.4)
_STATED: dict[str, Any] = {"color": "black", "linewidth": 1.0, "linestyle": (0, (4, 2))}
_HIGH: dict[str, Any] = {"color": "#1c3f60", "linewidth": 1.8, "linestyle": "solid"}
_BAND: dict[str, Any] = {"facecolor": "#dce6f0", "edgecolor": "#9db8d2", "hatch": "....", "linewidth": 0.0}
_LIMIT: dict[str, Any] = {"color": "black", "linewidth": 0.9, "linestyle": "dashdot"}
_PAPER: dict[str, Any] = {"facecolor": "white", "edgecolor": "none", "pad": 0.5}
_SETTING: dict[str, Any] = {"color": "#6b5a33", "linewidth": 1.0, "linestyle": "dotted"}


def plot_table(title: str, lines: tuple[str, ...]) -> Table:
    """Lines that are already drawn, as a part of a sheet."""
    return Table(title, (Column(""),), tuple((line,) for line in lines))


def _finite(ramp: Ramp) -> list[Point]:
    return [point for point in ramp.curve if math.isfinite(point.rise)]


def _settings(ramp: Ramp) -> list[tuple[str, float]]:
    """Rises that the pictures mark, within what they show."""
    named = [("as set now", ramp.as_set.rise)]
    if ramp.recommended is not None:
        named.insert(0, ("recommended", ramp.recommended.rise))
    return [(name, rise) for name, rise in named if math.isfinite(rise)]


def curve_plots(ramp: Ramp, system: System, *, width: int, encoding: str) -> tuple[Table, ...]:
    """Both plots as characters."""
    torque, torque_unit = in_unit(1.0, "torque", system)
    slope, slope_unit = in_unit(1.0, "torque rise", system)
    points = _finite(ramp)
    rises = [slope * point.rise for point in points]
    percent = f"{100 * ramp.percentile:.0f}"
    marks = tuple(
        Mark(f"{name}, {significant(slope * rise)} {slope_unit}", slope * rise)
        for name, rise in _settings(ramp)
    )
    shared: dict[str, Any] = {
        "x_label": f"torque rise at the motor shaft, {slope_unit}",
        "width": width,
        "marks": marks,
        "log_x": True,
        "encoding": encoding,
    }
    peak = line_plot(
        (
            Series(f"{percent}th percentile", rises, [torque * point.high for point in points]),
            Series(
                "values as stated",
                [slope * rise for rise, _ in ramp.lobes],
                [torque * value for _, value in ramp.lobes],
            ),
        ),
        y_label=f"peak torque at {ramp.joint}, {torque_unit}",
        height=PEAK_ROWS,
        levels=(
            Level(
                f"allowed, {significant(torque * min(ramp.allowed))} {torque_unit}",
                torque * min(ramp.allowed),
            ),
        ),
        **shared,
    )
    target = ramp.weakest.target
    factor = line_plot(
        (
            Series(f"{percent}th percentile of the torque", rises, [point.factor_high for point in points]),
            Series("values as stated", rises, [point.factor for point in points]),
        ),
        y_label="safety factor of the weakest check",
        height=FACTOR_ROWS,
        levels=(Level(f"target, {target:.3g}", target),),
        **shared,
    )
    return plot_table("Peak torque", peak), plot_table("Weakest safety factor", factor)


def curve_words(ramp: Ramp, path: Path) -> str:
    """Say in words what the figure shows."""
    percent = f"{100 * ramp.percentile:.0f}"
    return (
        f"{path}: peak torque at {ramp.joint} and weakest safety factor against the torque rise; {percent}th "
        "percentile (solid), values as stated (dashed), 5th to 95th percentile (dotted area), allowed torque "
        "and target (dash-dot), settings (dotted lines)"
    )


def write_curve_figure(path: Path, ramp: Ramp, system: System) -> None:
    """
    Draw the curve and write the figure whole.

    Raises
    ------
    OutputError
        If the folder is missing or not writable, or the name has another ending.
    """
    write_drawing(path, lambda figure: _draw(figure, ramp, system), f"torqcheck ramp, {ramp.title}")


def _draw(figure: Any, ramp: Ramp, system: System) -> None:
    """Two pairs of axes over one scale of rises."""
    from matplotlib.ticker import FormatStrFormatter, LogLocator, NullFormatter

    torque, torque_unit = in_unit(1.0, "torque", system)
    slope, slope_unit = in_unit(1.0, "torque rise", system)
    points, percent = _finite(ramp), f"{100 * ramp.percentile:.0f}"
    rises = [slope * point.rise for point in points]
    figure.set_size_inches(*PAGE)
    upper, lower = figure.subplots(2, 1, sharex=True)
    figure.subplots_adjust(left=0.09, right=0.975, top=0.93, bottom=0.08, hspace=0.1)
    figure.text(0.02, 0.96, f"Torque ramp: {ramp.title}"[:90], fontsize=11, fontweight="bold")
    low, high = ([torque * getattr(point, name) for point in points] for name in ("low", "high"))
    upper.fill_between(rises, low, high, label="dotted area: 5th to 95th percentile", **_BAND)
    upper.plot(rises, high, label=f"solid: {percent}th percentile", **_HIGH)
    lobes = [slope * rise for rise, _ in ramp.lobes], [torque * peak for _, peak in ramp.lobes]
    upper.plot(*lobes, label="dashed: values as stated", **_STATED)
    upper.axhline(torque * min(ramp.allowed), label="dash-dot: allowed", **_LIMIT)
    upper.set(ylabel=f"peak torque, {torque_unit}")
    lower.plot(rises, [p.factor_high for p in points], label=f"solid: at the {percent}th percentile", **_HIGH)
    lower.plot(rises, [p.factor for p in points], label="dashed: values as stated", **_STATED)
    lower.axhline(ramp.weakest.target, label="dash-dot: target", **_LIMIT)
    lower.set(xscale="log", ylabel="weakest safety factor", xlabel=f"torque rise, {slope_unit}")
    lower.xaxis.set_major_locator(LogLocator(subs=(1.0, 2.0, 5.0)))
    lower.xaxis.set_major_formatter(FormatStrFormatter("%g"))
    lower.xaxis.set_minor_formatter(NullFormatter())
    for axes in (upper, lower):
        for name, rise in _settings(ramp):
            axes.axvline(slope * rise, **_SETTING)
            axes.annotate(
                name, (slope * rise, 0.02), (3, 0), xycoords=axes.get_xaxis_transform(),
                textcoords="offset points", rotation=90, fontsize=8, bbox=_PAPER, zorder=5,
            )  # fmt: skip
        axes.legend(loc="best", fontsize=8)
