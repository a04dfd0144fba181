"""Safety factor over target of every joint and check as bars, readable without colour."""

from typing import Any

from torqcheck.assessment.result import Assessment
from torqcheck.checks import Check, Verdict
from torqcheck.report.formats.letters import text_width
from torqcheck.report.numbers import significant
from torqcheck.report.play import as_if_mates
from torqcheck.report.sheet import VERDICT, Column, Figure, Table
from torqcheck.report.words import VERDICT_WORDS

__all__ = ["factor_figure"]

MOST = 12
"""Bars; the lowest are shown, whatever does not pass, and the lowest of each joint."""
ENDS = 4.0
"""The axis ends here; longer bars are broken off with an arrow."""
WIDTH, HEAD, FOOT, ROW, LEFT, RIGHT = 7.2, 0.1, 0.55, 0.27, 3.0, 0.15
NAME_SIZE, NAME_LINES = 7.5, 2
STRIP = 0.2
"""Left free beside the names, inches; pixels make letters a little wider than they are."""
_STYLES: dict[Verdict, dict[str, str]] = {
    "pass": {"facecolor": "#f2f2f2", "hatch": ""},
    "marginal": {"facecolor": "#d9d9d9", "hatch": "////"},
    "undecided": {"facecolor": "#d9d9d9", "hatch": "...."},
    "fail": {"facecolor": "#8c8c8c", "hatch": "xxxx"},
}


def factor_figure(assessment: Assessment) -> Figure | None:
    """The bars with the same in a table; None where nothing is loaded."""
    loaded = [
        check
        for joint in assessment.joints
        for check in joint.checks
        if check.counts and check.safety_factor is not None
    ]
    shown = _chosen(loaded)
    if not shown:
        return None
    left = len(loaded) - len(shown)
    caption = (
        "Safety factor divided by its target; below 1 (solid line) the target is missed. Plain: pass, "
        "strokes: marginal, crossed: fail."
    )
    if left:
        passing = f"{left} checks that pass are" if left > 1 else "1 check that passes is"
        caption += (
            f" {passing} left out, none of them the lowest of its joint; the table of checks has them all."
        )
    if any(not check.counts for joint in assessment.joints for check in joint.checks):
        caption += " What stands beside and decides nothing is not drawn."
    return Figure(
        f"Safety factor over target, lowest first{as_if_mates(assessment)}",
        lambda figure: _draw(figure, shown),
        caption,
        _words(shown),
    )


def _chosen(checks: list[Check]) -> tuple[Check, ...]:
    """Whatever does not pass, the lowest of each joint, and the lowest of all, in order of the margin."""
    ordered = sorted(checks, key=lambda check: check.margin)
    lowest = {check.joint: index for index, check in reversed(list(enumerate(ordered)))}
    kept = {index for index, check in enumerate(ordered) if check.verdict != "pass"} | {*lowest.values()}
    others = [index for index in range(len(ordered)) if index not in kept]
    kept |= {*others[: max(0, MOST - len(kept))]}
    return tuple(ordered[index] for index in sorted(kept))


def _name(check: Check) -> str:
    return f"{check.joint}: {check.name} ({check.method})"


def _words(checks: tuple[Check, ...]) -> Table:
    """Every bar as a row."""
    columns = (
        Column("Joint, check (method)"),
        Column(VERDICT),
        Column("Factor", "right"),
        Column("Target", "right"),
        Column("over target", "right"),
    )
    rows = tuple(
        (
            _name(check),
            VERDICT_WORDS[check.verdict],
            significant(check.safety_factor or 0.0),
            f"{check.target:.3g}",
            significant(check.margin),
        )
        for check in checks
    )
    return Table("The figure in numbers", columns, rows, tuple(check.verdict for check in checks))


def _label(joint: str, check: str) -> list[str]:
    """Lines beside a bar, as many as there is room for; a long name of a joint is cut, its check never."""
    for kept in range(len(joint), -1, -1):
        name = joint if kept == len(joint) else f"{joint[:kept].rstrip()}\u2026"
        lines = _wrapped(f"{name}: {check}")
        if len(lines) <= NAME_LINES and all(_fits(line) for line in lines):
            return lines
    return _wrapped(check)[:NAME_LINES]


def _fits(line: str) -> bool:
    return text_width(line, NAME_SIZE) <= LEFT - STRIP


def _wrapped(text: str) -> list[str]:
    """Lines that fit beside the bars; a word that is too wide has one of its own."""
    lines: list[str] = []
    for word in text.split():
        if lines and _fits(f"{lines[-1]} {word}"):
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def _draw(figure: Any, checks: tuple[Check, ...]) -> None:
    """One bar for each check, the lowest on top; numbers and verdict inside or behind it."""
    names = ["\n".join(_label(check.joint, f"{check.name} ({check.method})")) for check in checks]
    rows = [max(1, name.count("\n") + 1) for name in names]
    tall = HEAD + FOOT + ROW * len(checks) + 0.1 * sum(count - 1 for count in rows)
    figure.set_size_inches(WIDTH, tall)
    box = (LEFT / WIDTH, FOOT / tall, (WIDTH - LEFT - RIGHT) / WIDTH, (tall - HEAD - FOOT) / tall)
    axes = figure.add_axes(box)
    for level, check in enumerate(checks):
        margin = check.margin
        style = _STYLES[check.verdict]
        axes.barh(level, min(margin, ENDS), height=0.72, edgecolor="black", linewidth=0.6, **style)
        arrow = " \u2192" if margin > ENDS else ""
        text = (
            f"{significant(check.safety_factor or 0.0)} of {check.target:.3g} {VERDICT_WORDS[check.verdict]}"
        )
        inside = margin > 0.55 * ENDS
        axes.text(
            min(margin, ENDS) - 0.05 if inside else margin + 0.05, level, text + arrow, va="center",
            ha="right" if inside else "left", fontsize=7.5, zorder=5,
            bbox={"facecolor": "white", "edgecolor": "none", "pad": 0.8},
        )  # fmt: skip
    axes.axvline(1.0, color="black", linewidth=1.4)
    axes.set(
        xlim=(0.0, ENDS), ylim=(len(checks) - 0.4, -0.6), yticks=range(len(checks)),
        xlabel="safety factor over target",
    )  # fmt: skip
    axes.set_yticklabels(names, fontsize=NAME_SIZE)
    axes.tick_params(axis="y", length=0)
    for side in ("top", "right"):
        axes.spines[side].set_visible(False)
