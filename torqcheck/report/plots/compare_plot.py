"""Pictures of a comparison: safety against cost, in characters and as a figure."""

import math
from pathlib import Path
from typing import Any

from torqcheck.assessment.compare.result import Choice, Comparison, margin
from torqcheck.report.formats.figure_file import write_drawing
from torqcheck.report.plots.point_plot import WIDEST_LINEAR, Point, point_plot
from torqcheck.report.plots.ramp_plot import plot_table
from torqcheck.report.sheet import Table

__all__ = ["BEST_SIGN", "OTHER_SIGN", "compare_plot", "compare_words", "sign_of", "write_compare_figure"]

BEST_SIGN, OTHER_SIGN = "*", "."
"""Signs of choices for which no letter is left: not dominated, and dominated."""
ROWS = 14
PAGE = (8.2, 5.2)
_BEST: dict[str, Any] = {"facecolor": "#1c3f60", "edgecolor": "#1c3f60", "marker": "o", "s": 34}
_OTHER: dict[str, Any] = {"facecolor": "none", "edgecolor": "#6b6b6b", "marker": "s", "s": 22}
_TARGET: dict[str, Any] = {"color": "black", "linewidth": 0.9, "linestyle": "dashdot"}
_X = "relative cost, per kilogram and indicative"


def sign_of(row: Choice) -> str:
    """Letter of a choice, or the sign that stands for those beyond the alphabet."""
    return row.letter or (BEST_SIGN if row.dominated_by is None else OTHER_SIGN)


def _drawn(found: Comparison) -> list[Choice]:
    """Choices that have a cost and a load, those that nothing dominates first."""
    able = [
        row for row in found.rows if row.cost_index is not None and 0.0 < margin(row.found.here) < math.inf
    ]
    return sorted(able, key=lambda row: (row.dominated_by is not None, not row.letter))


def _y_label(found: Comparison) -> str:
    return f"weakest safety factor at {found.joint} over its target"


def compare_plot(found: Comparison, *, width: int) -> Table | None:
    """The plot of characters; None where fewer than two choices can be drawn."""
    rows = _drawn(found)
    if len(rows) < 2:
        return None
    points = [Point(row.cost_index or 0.0, margin(row.found.here), sign_of(row)) for row in rows]
    lines = point_plot(
        points,
        x_label=_X,
        y_label=_y_label(found),
        level=1.0,
        level_label="target met from here upwards",
        width=width,
        height=ROWS,
    )
    key = (
        f"Letters as in the table: capitals (then {BEST_SIGN}) are not dominated, small letters (then "
        f"{OTHER_SIGN}) are."
    )
    table = plot_table("Safety against cost", lines)
    return Table(table.title, table.columns, table.rows, legend=key)


def compare_words(found: Comparison, path: Path) -> str:
    """Say in words what the figure shows."""
    rows = _drawn(found)
    if not rows:
        return f"{path}: no choice has both a cost and a load to draw; the figure says so"
    best = [row for row in rows if row.dominated_by is None]
    named = "; ".join(
        f"{sign_of(row)} {row.name} {margin(row.found.here):.3g} at {row.cost_index:.3g}" for row in best[:8]
    )
    more = f"; and {len(best) - 8} more" if len(best) > 8 else ""
    return (
        f"{path}: {_y_label(found)} against {_X}, {len(rows)} choices; filled circles are not dominated "
        f"({named}{more}), hollow squares are; the dash-dot line is the target"
    )


def write_compare_figure(path: Path, found: Comparison) -> None:
    """
    Draw the choices and write the figure whole.

    Raises
    ------
    OutputError
        If the folder is missing or not writable, or the name has another ending.
    """
    write_drawing(path, lambda figure: _draw(figure, found), f"torqcheck compare, {found.title}")


def _draw(figure: Any, found: Comparison) -> None:
    figure.set_size_inches(*PAGE)
    figure.text(0.02, 0.95, f"Steels side by side: {found.title}"[:90], fontsize=11, fontweight="bold")
    rows = _drawn(found)
    if not rows:
        figure.text(0.1, 0.5, "No choice has both a cost and a load to draw.")
        return
    axes = figure.subplots(1, 1)
    figure.subplots_adjust(left=0.08, right=0.76, top=0.92, bottom=0.1)
    margins = [margin(row.found.here) for row in rows]
    for dominated, label, look in (
        (True, "hollow square: dominated", _OTHER),
        (False, "filled circle: not dominated", _BEST),
    ):
        chosen = [row for row in rows if (row.dominated_by is not None) is dominated]
        if chosen:
            axes.scatter(
                [row.cost_index for row in chosen], [margin(row.found.here) for row in chosen],
                label=label, zorder=3, **look,
            )  # fmt: skip
    _letters(axes, [row for row in rows if row.dominated_by is None])
    axes.axhline(1.0, label="dash-dot: target", **_TARGET)
    if max(*margins, 1.0) > WIDEST_LINEAR * min(*margins, 1.0):
        axes.set_yscale("log")
    axes.set(xlabel=_X, ylabel=_y_label(found))
    axes.legend(loc="best", fontsize=8)


def _letters(axes: Any, best: list[Choice]) -> None:
    """Letters at the points that nothing dominates, and what they stand for beside the picture."""
    places: dict[tuple[float, float], str] = {}
    for row in best:
        place = row.cost_index or 0.0, margin(row.found.here)
        places[place] = f"{places[place]} {sign_of(row)}" if place in places else sign_of(row)
    for place, letters in places.items():
        axes.annotate(letters, place, (0, 6), textcoords="offset points", fontsize=8, ha="center")
    lines = [f"{row.letter} {row.name}" for row in best if row.letter]
    axes.text(1.02, 1.0, "\n".join(lines), transform=axes.transAxes, fontsize=7, va="top")
