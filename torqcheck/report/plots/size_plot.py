"""Safety factor over target against the unknown, drawn with characters."""

from torqcheck.assessment.size.result import Size
from torqcheck.report.numbers import significant
from torqcheck.report.plots.ramp_plot import plot_table
from torqcheck.report.plots.terminal_plot import Level, Mark, Series, line_plot
from torqcheck.report.sheet import Table
from torqcheck.units import System, in_unit

__all__ = ["size_plots"]

ROWS = 13
WIDE_RANGE = 20.0
"""Range from end to end, as a ratio, from which the axis is logarithmic."""


def size_plots(found: Size, system: System, *, width: int, encoding: str) -> tuple[Table, ...]:
    """Draw the curve of a number; nothing for a list of sizes or where there is nothing to draw."""
    if found.kind is None:
        return ()
    scale, unit = in_unit(1.0, found.kind, system)
    points = [point for point in found.curve if not point.refused and point.margin is not None]
    points = [point for point in points if point.margin is not None and point.margin < float("inf")]
    if len(points) < 2:
        return ()
    values = [scale * point.value for point in points]
    log_x = values[0] > 0.0 and values[-1] > WIDE_RANGE * values[0]
    marks = []
    if found.exact is not None:
        marks.append(Mark(f"edge, {significant(scale * found.exact, 4)} {unit}", scale * found.exact))
    if isinstance(found.now, float) and values[0] <= scale * found.now <= values[-1]:
        marks.append(Mark(f"as it is, {significant(scale * found.now, 4)} {unit}", scale * found.now))
    lines = line_plot(
        (Series("lowest margin of what depends on it", values, [point.margin or 0.0 for point in points]),),
        x_label=f"{found.meaning}, {unit}",
        y_label="safety factor over its target",
        width=width,
        height=ROWS,
        marks=marks,
        levels=(Level("target", 1.0),),
        log_x=log_x,
        encoding=encoding,
    )
    return (plot_table(f"Safety factor against {found.meaning}", lines),)
