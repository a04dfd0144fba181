"""The figures of the printout, each with the same in words or numbers."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from torqcheck.assessment.lifetime.life_result import JointLife, Life
from torqcheck.assessment.pictured import Pictured
from torqcheck.assessment.result import Assessment
from torqcheck.assessment.stack.finding import StackFinding
from torqcheck.report.life import growth_table
from torqcheck.report.plots.factor_plot import factor_figure
from torqcheck.report.plots.hardness_plot import hardness_figure
from torqcheck.report.plots.life_plot import draw_fan, drawn_joints
from torqcheck.report.plots.ramp_trace import blow_picture
from torqcheck.report.plots.stack_figure import draw_stack
from torqcheck.report.plots.trace_events import trace_table
from torqcheck.report.plots.trace_plot import draw_trace
from torqcheck.report.sheet import Figure, Note
from torqcheck.report.stack.words import stack_words
from torqcheck.units import System

__all__ = ["figures_of"]

WIDE, TALL = 7.2, 3.4
"""Inches, of the fan of one joint."""


def figures_of(assessment: Assessment, shown: Pictured, systems: tuple[System, ...]) -> Iterator[Figure]:
    """Every figure that the assessment gives rise to."""
    if (factors := factor_figure(assessment)) is not None:
        yield factors
    yield _trace(shown, systems[0])
    if shown.life is not None:
        for joint in drawn_joints(shown.life):
            yield _fan(shown.life, joint, systems[0])
    if (allowed := hardness_figure(shown.members, systems[0])) is not None:
        yield allowed
    if shown.stack is not None:
        yield _stack(shown.stack, systems)


def _trace(shown: Pictured, system: System) -> Figure:
    """Torque in the path over time, with the blow."""
    picture = blow_picture(shown.blow)
    caption = (
        "Torque in the path (solid) and of the motor (dashed) from the beginning of the rise, at the worst "
        "start, with the values as stated. Dash-dot: steady torque in the path. Dots: nothing touches; "
        "strokes: a slip element slides. The letters stand in the table."
    )
    return Figure(
        picture.title,
        lambda figure: draw_trace(figure, replace(picture, title=""), system),
        caption,
        trace_table(picture, system),
    )


def _fan(life: Life, joint: JointLife, system: System) -> Figure:
    """Lash of one joint over the running hours."""

    def draw(figure: Any) -> None:
        figure.set_size_inches(WIDE, TALL)
        axes = figure.add_axes((0.1, 0.14, 0.87, 0.77))
        draw_fan(axes, joint, system)

    table = growth_table(life, joint, system)
    caption = (
        "Lash over the running hours from where the lash of the scenario was read. Solid: median; dashed: "
        "one and nine joints in ten; dash-dot: limit; dotted: stop at this reading; diamonds: later readings."
    )
    nothing = Note("The figure in words", ("Nothing grows within the hours that are shown.",))
    return Figure(f"Lash of {joint.name} over time", draw, caption, table or nothing)


def _stack(found: StackFinding, systems: tuple[System, ...]) -> Figure:
    """Section of the parts, and the range of each sum."""
    caption = (
        "Parts to scale, nominal as assembled, and the ranges as assembled (circles) and in service "
        "(squares): thin line the worst case, thick line root sum square, dashed the least that is wanted."
    )
    words = Note("The figure in words", tuple(stack_words(found.check, systems)))
    return Figure("Axial stack", lambda figure: draw_stack(figure, found, systems[0]), caption, words)
