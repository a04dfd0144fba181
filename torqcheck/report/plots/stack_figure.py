"""The axial stack as a figure: section of the parts with engagement and gaps, and the range of each sum."""

from pathlib import Path
from typing import Any

from torqcheck.assessment.stack.finding import StackFinding
from torqcheck.assessment.stack.result import PartPlace, StackCheck, SumResult
from torqcheck.report.formats.figure_file import write_drawing
from torqcheck.report.stack.words import number_text, state_names
from torqcheck.units import System, in_unit

__all__ = ["draw_stack", "stack_figure_words", "write_stack_figure"]

WIDTH, HEAD, ROW, GAP = 8.2, 0.55, 0.55, 0.75
MOST_HIGH = 5.0
LINE = 0.3
"""Inches: page, heading, one result in the ranges, between the panels, tallest section, a dimension line."""
_FILLS: tuple[dict[str, Any], ...] = (
    {"facecolor": "#9db8d2", "edgecolor": "#1c3f60", "hatch": "\\\\\\\\"},
    {"facecolor": "#ece3d0", "edgecolor": "#6b5a33", "hatch": "...."},
    {"facecolor": "#c9d8c2", "edgecolor": "#33552b", "hatch": "////"},
    {"facecolor": "#dddddd", "edgecolor": "#444444", "hatch": "xxxx"},
)
_COLD, _HOT = {"color": "#1c3f60"}, {"color": "#8a3b12"}


def stack_figure_words(finding: StackFinding, path: Path) -> str:
    """Say in words what the figure shows."""
    check = finding.check
    parts = ", ".join(part.name for part in check.parts)
    section = f"section to scale of {parts}; " if parts else "no parts are stated, so no section; "
    names = ", ".join(one.name for one in check.results)
    return (
        f"{path}: {section}ranges of {names}, as assembled (circles) and in service (squares): thin line the "
        "worst case, thick line root sum square, dashed the least that is wanted"
    )


def write_stack_figure(path: Path, finding: StackFinding, system: System) -> None:
    """
    Draw section and ranges and write the figure whole.

    Raises
    ------
    OutputError
        If the folder is missing or not writable, or the name has another ending.
    """
    write_drawing(
        path, lambda figure: draw_stack(figure, finding, system), f"torqcheck stack, {finding.title}"
    )


def draw_stack(figure: Any, finding: StackFinding, system: System) -> None:
    """Section above, ranges below, one panel for each result; lengths in inches."""
    check = finding.check
    section = _section_height(check)
    lines = [one for one in check.results if one.begins_at is not None]
    marks = [collar for collar in check.collars if collar.begins_at is not None]
    below = LINE * (len(lines) + len(marks)) if check.parts else 0.0
    ranges = (ROW + 0.35) * len(check.results)
    total = HEAD + section + below + (GAP if check.parts else 0.1) + ranges + 0.35
    figure.set_size_inches(WIDTH, total)
    title = f"Axial stack: {finding.title}"[:90]
    figure.text(0.02, 1.0 - 0.1 / total, title, fontsize=11, fontweight="bold", va="top")
    if check.parts:
        bottom = (total - HEAD - section - below) / total
        _section(figure.add_axes((0.04, bottom, 0.92, (section + below) / total)), check, system, below)
    for index, one in enumerate(check.results):
        bottom = (0.45 + (ROW + 0.35) * (len(check.results) - 1 - index)) / total
        _range(figure.add_axes((0.27, bottom, 0.68, 0.7 * ROW / total)), one, state_names(check), system)


def _extent(check: StackCheck) -> tuple[float, float, float]:
    """Ends of the parts along the axis, and the largest radius, m."""
    ends = [end for part in check.parts for end in (part.begins_at, part.ends_at)]
    return min(ends), max(ends), max(0.5 * part.outside_diameter for part in check.parts)


def _section_height(check: StackCheck) -> float:
    if not check.parts:
        return 0.0
    begin, end, radius = _extent(check)
    return min(MOST_HIGH, max(1.0, 0.92 * WIDTH * 2.0 * radius / max(end - begin, 1e-9)))


def _section(axes: Any, check: StackCheck, system: System, below: float) -> None:
    """Both halves of the section, and a dimension line for each result that says where it begins."""
    begin, end, radius = _extent(check)
    unit = in_unit(1.0, "length", system)[0]
    high = _section_height(check)
    line = 2.0 * radius * unit / high * LINE
    for index, part in enumerate(check.parts):
        _part(axes, part, index, unit)
    axes.plot((begin * unit, end * unit), (0.0, 0.0), color="black", linewidth=0.7, linestyle="dashdot")
    level = -radius * unit
    for one in check.results:
        if one.begins_at is not None:
            level -= line
            _dimension(axes, one, level, unit, system, check)
    for collar in check.collars:
        if collar.begins_at is not None:
            level -= line
            axes.plot([collar.begins_at * unit], [level], marker="^", color="black")
            text = f"  {collar.name} at {number_text(collar.position, system)}"
            axes.text(collar.begins_at * unit, level, text, va="center", fontsize=8)
    axes.set(
        xlim=(begin * unit, end * unit),
        ylim=(-radius * unit * (1.0 + 2.0 * (below + 0.08) / high), radius * unit),
        yticks=[],
    )
    for side in ("top", "right", "left"):
        axes.spines[side].set_visible(False)
    axes.set_xlabel(
        f"along the axis, {in_unit(1.0, 'length', system)[1]} (nominal, as assembled)", fontsize=8
    )


def _part(axes: Any, part: PartPlace, index: int, unit: float) -> None:
    """A part above and below the axis, with its name."""
    from matplotlib.patches import Rectangle

    left, right = sorted((part.begins_at * unit, part.ends_at * unit))
    outer, inner = 0.5 * part.outside_diameter * unit, 0.5 * part.bore * unit
    style = _FILLS[index % len(_FILLS)]
    for low in (inner, -outer):
        axes.add_patch(Rectangle((left, low), right - left, outer - inner, linewidth=1.0, **style))
    axes.text(
        0.5 * (left + right), 0.5 * (outer + inner), part.name, ha="center", va="center", fontsize=8,
        bbox={"facecolor": "white", "edgecolor": "none", "pad": 1.0},
    )  # fmt: skip


def _dimension(
    axes: Any, one: SumResult, level: float, unit: float, system: System, check: StackCheck
) -> None:
    """A dimension line with name and number."""
    assert one.begins_at is not None
    begin, end, _ = _extent(check)
    left, right = sorted((one.begins_at * unit, (one.begins_at + one.assembled.nominal) * unit))
    axes.plot((left, right), (level, level), color="black", linewidth=1.2, marker="|", markersize=7)
    text = (
        f"{one.name} {number_text(one.assembled.nominal, system)} "
        f"({number_text(one.worst, system)} to {number_text(one.greatest, system)})"
    )
    to_the_right = 0.5 * (left + right) < 0.5 * (begin + end) * unit
    axes.text(
        right if to_the_right else left, level, f"  {text}  ", va="center",
        ha="left" if to_the_right else "right", fontsize=8,
    )  # fmt: skip


def _range(axes: Any, one: SumResult, names: tuple[str, str], system: System) -> None:
    """Worst case and root sum square of one result, cold above, in service below."""
    unit, label = in_unit(1.0, "length", system)
    for level, state, style, marker in ((1.0, one.assembled, _COLD, "o"), (0.0, one.running, _HOT, "s")):
        axes.plot(
            (state.least * unit, state.greatest * unit), (level, level), linewidth=1.0, marker="|", **style
        )
        axes.plot([value * unit for value in state.statistical], (level, level), linewidth=4.0, **style)
        axes.plot([state.nominal * unit], [level], marker=marker, markeredgecolor="white", **style)
    if one.kind == "gap":
        axes.axvline(0.0, color="black", linewidth=1.0)
    if one.least is not None:
        axes.axvline(one.least * unit, color="black", linewidth=0.9, linestyle="dashed")
    axes.set(ylim=(-0.6, 1.6), yticks=[1.0, 0.0], yticklabels=names)
    axes.tick_params(labelsize=8)
    axes.set_title(f"{one.name}, {label}: {one.verdict}", fontsize=9, loc="left", pad=3)
