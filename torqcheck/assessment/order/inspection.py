"""What the shop measures on a new part: with which tool, at which stage, within which limits."""

from collections.abc import Iterator
from dataclasses import replace

from torqcheck.assessment.order.making import PRACTICE, runout
from torqcheck.assessment.order.note import core_words, surface_words
from torqcheck.assessment.order.result import Step
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.geometry import InvoluteSpline
from torqcheck.geometry.drawing.data_block import DataBlock, MemberName
from torqcheck.geometry.standards.limits import Band
from torqcheck.materials import Steel, treatment_note
from torqcheck.provenance import Mark

__all__ = ["inspection_steps"]

CUT_HARD = ("as delivered", "quench and temper", "casting")
"""Ways of treatment after which the teeth are cut: nothing is measured twice."""
CRACKS = 40.0
"""HRC from which the teeth are tested for cracks."""
BRINELL_OF_CRACKS = 371.0
"""The same in HB."""


def inspection_steps(
    state: SplineState, block: DataBlock, side: MemberName, steel: Steel | None
) -> Iterator[Step]:
    """
    Steps of inspection in their order.

    Parameters
    ----------
    state : SplineState
        The joint.
    block : DataBlock
        Dimensions and limits.
    side : str
        Which part.
    steel : Steel or None
        Its steel; None where it is still to be chosen: it is then taken as one that is hardened.
    """
    process = None if steel is None else treatment_note(steel).process
    width = tuple(_widths(block, side))
    count = _count(block.spline.teeth)
    turn = _turn(block.spline.teeth)
    if process in CUT_HARD:
        yield count
        yield from width
    else:
        yield replace(count, stage="before heat treatment")
        finished = "finished limits: cut so that a test piece comes back from the heat treatment within them"
        yield from (replace(step, stage="before heat treatment", accept=finished) for step in width)
        yield replace(turn, stage="before heat treatment")
        yield from (replace(step, stage="after heat treatment") for step in width)
    if steel is not None:
        yield from _hardness(steel)
    yield Step(
        stage="finished",
        what="runout of the teeth at both ends, pin or ball in every space or in six of them",
        tool="dial indicator, part between centres or on the locating diameter",
        accept="total reading",
        band=Band(None, runout(state)),
        mark=PRACTICE,
    )
    yield from _diameters(block, side)
    yield turn


def _count(teeth: int) -> Step:
    return Step(
        stage="finished",
        what="count the teeth, twice, the first one marked with paint",
        tool="eye and paint",
        accept=f"{teeth}",
        mark=PRACTICE,
    )


def _turn(teeth: int) -> Step:
    """One tooth more or less goes on too, and a good part may bind in one place only."""
    return Step(
        stage="with the mate",
        what=(
            f"GO gauge, or the mate itself, slid on over the full length in each of its {teeth} positions, "
            "turned on by one tooth at a time"
        ),
        tool="gauge or mate, both counted; no hammer",
        accept=(
            "goes on by hand in every position and rocks the same in each; going on in one position "
            "proves nothing"
        ),
        mark=PRACTICE,
    )


def _widths(block: DataBlock, side: MemberName) -> Iterator[Step]:
    """Pins where they rest on the flanks; the span beside them; straight sides directly."""
    limits = block.external if side == "external" else block.internal
    mark: Mark = PRACTICE if limits is None else limits.width_source.mark
    pins = block.external_pins if side == "external" else block.internal_pins
    between = "over" if side == "external" else "between"
    places = "at three places round and at both ends"
    if pins is not None:
        shaft_tool, hub_tool = "micrometer, gauge pins", "gauge blocks or inside micrometer, gauge pins"
        yield Step(
            stage="finished",
            what=f"{between} two pins, {places}",
            tool=shaft_tool if side == "external" else hub_tool,
            accept="all six readings" if limits is not None else "at the stated width; agree the tolerance",
            band=pins.reading,
            pin=pins.pin,
            mark=mark,
        )
        spans = block.external_spans if side == "external" else ()
        for span in spans[:1]:
            yield Step(
                stage="finished",
                what=f"span over {span.count} teeth, {places}, where no pins are at hand",
                tool="disc micrometer",
                accept="all six readings",
                band=span.reading,
                mark=mark,
            )
        return
    if isinstance(block.spline, InvoluteSpline):
        yield Step(
            stage="finished",
            what=f"reading {between} pins, {places}",
            tool="micrometer and gauge pins",
            accept="limits are to be agreed first",
            mark=PRACTICE,
        )
        return
    band = block.thickness if side == "external" else block.space
    yield Step(
        stage="finished",
        what=f"{'tooth' if side == 'external' else 'slot'} width, square to its middle, {places}",
        tool="micrometer" if side == "external" else "gauge blocks",
        accept="all six readings" if band is not None else "limits are to be agreed first",
        band=band,
        mark=mark,
    )


def _hardness(steel: Steel) -> Iterator[Step]:
    """Hardness off the flanks, depth on a test piece, cracks where steel is hard."""
    hard = steel.surface_treatment != "none"
    yield Step(
        stage="after heat treatment" if treatment_note(steel).process not in CUT_HARD else "finished",
        what="hardness on the end face of a tooth and on the body, three places, never on a flank",
        tool="bench tester; file or portable tester only to sort",
        accept=f"{surface_words(steel)}; core {core_words(steel)}" if hard else core_words(steel),
        mark=steel.surface_mark if hard and steel.surface_mark else steel.source.mark,
    )
    if hard:
        yield Step(
            stage="after heat treatment",
            what="depth of the hard layer on a test piece of the same bar, treated in the same batch",
            tool="cut, polish, hardness traverse",
            accept=treatment_note(steel).depth_rule,
            mark=PRACTICE,
        )
    highest = steel.surface_hardness_min if hard else None
    if (highest is not None and highest >= CRACKS) or steel.core_hardness_min >= BRINELL_OF_CRACKS:
        yield Step(
            stage="after heat treatment",
            what="cracks at tooth roots, run-out, keyway ends, cross holes; again after any grinding",
            tool="magnetic particles (dye on stainless steel)",
            accept="no indication",
            mark=PRACTICE,
        )


def _diameters(block: DataBlock, side: MemberName) -> Iterator[Step]:
    """Tip diameter, which clears the root of the mate, or centres."""
    limits = block.external if side == "external" else block.internal
    if limits is None:
        return
    band = limits.major_diameter if side == "external" else limits.minor_diameter
    if band.minimum is None and band.maximum is None:
        return
    yield Step(
        stage="finished",
        what="outside diameter of the teeth" if side == "external" else "inside diameter of the teeth",
        tool="micrometer" if side == "external" else "bore gauge",
        band=band,
        mark=limits.diameter_source.mark,
    )
