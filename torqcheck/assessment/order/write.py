"""`order`: the drawing data of a new part of a splined joint, so that a shop can cut and gauge it."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from torqcheck.assessment.assess import assess_without_ranges
from torqcheck.assessment.bench.mate import mate_of
from torqcheck.assessment.lifetime.wear_model import lash_limit
from torqcheck.assessment.order.inspection import inspection_steps
from torqcheck.assessment.order.making import making_lines
from torqcheck.assessment.order.mate import lacking_of_mate, mate_fit
from torqcheck.assessment.order.material import material_lines
from torqcheck.assessment.order.note import order_note
from torqcheck.assessment.order.result import Lacking, Order, OrderLine, OrderSide
from torqcheck.assessment.stack.engagement import with_stack_engagement
from torqcheck.assessment.teeth.series import linked_joint
from torqcheck.assessment.teeth.state import SplineState, spline_state
from torqcheck.assessment.verdict.answered import answered_for
from torqcheck.assessment.verdict.whole import WholeCheck
from torqcheck.errors import DomainError, NoSolutionError, UsageError
from torqcheck.geometry import InvoluteSpline, StraightSpline
from torqcheck.geometry.drawing.data_block import DataBlock, MemberName, block_of_involute, block_of_straight
from torqcheck.geometry.measuring.pin_choice import external_pins, internal_pins
from torqcheck.geometry.standards.limits import FITS, Band, WidthLimits
from torqcheck.materials import Steel, steel, treatment_note
from torqcheck.provenance import Source
from torqcheck.scenario import Scenario, load_scenario
from torqcheck.scenario.joint_names import joint_name, joints_called
from torqcheck.scenario.joint_schema import SplineJoint
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.marked import own_values

__all__ = ["order"]

SIDES: tuple[MemberName, ...] = ("external", "internal")
UNKNOWN = "unknown"
HARDENED_WHEN_BORED = ("carburised", "age hardened", "maraging")
"""Ways of treatment whose strength comes after the part has its form."""


def order(
    path_or_scenario: str | Path | Scenario,
    joint: str = "",
    side: MemberName | None = None,
    *,
    fit: str | None = None,
    fit_class: int | None = None,
) -> Order:
    """
    Put together what a shop needs to make the new part of a splined joint.

    Parameters
    ----------
    path_or_scenario : str, Path or Scenario
        A scenario file, or one that was loaded before.
    joint : str, optional
        Name of a splined joint; may be left out where there is only one.
    side : str, optional
        "external" or "internal"; the parts that are new (``reused = false``) if not given.
    fit, fit_class : optional
        As ``torqcheck.geometry.standards.limits.involute_limits`` takes them; the usual ones if not given.

    Returns
    -------
    Order
        Frozen. Its state says whether the shop can begin.

    Raises
    ------
    ScenarioError
        If the file cannot be used.
    UsageError
        If there is no such joint, nothing is new, or the fit is none of the standard.
    """
    scenario = path_or_scenario if isinstance(path_or_scenario, Scenario) else load_scenario(path_or_scenario)
    ledger, stated = Ledger(), scenario
    scenario = with_stack_engagement(scenario, ledger)
    index = _index(scenario, joint)
    name = joint_name(scenario.joint[index], index)
    linked = linked_joint(scenario.joint, index)
    assert isinstance(linked, SplineJoint)
    state = spline_state(linked, f"joint[{index + 1}]", name, scenario.library, ledger)
    sides = (side,) if side is not None else _new_sides(linked, name)
    block = _block(state, fit, fit_class)
    mate = mate_of(state, ledger)
    limit = lash_limit(scenario, ledger)
    examples = own_values(scenario)
    lacking = [] if examples is None else [Lacking(f"{examples.reading}: {examples.how}.")]
    lacking += _lacking_of_spline(block, sides)
    made = []
    for one in sides:
        chosen = _steel(state, one, scenario)
        fitted = mate_fit(state, block, one, mate, limit)
        lacking += [*_lacking_of_steel(name, one, chosen), *lacking_of_mate(state, one, mate, fitted, limit)]
        made.append(
            OrderSide(
                side=one,
                steel=chosen,
                drawing_note="" if chosen is None else order_note(chosen),
                material=() if chosen is None else tuple(_material(state, block, one, chosen)),
                making=tuple(making_lines(state, block, one)),
                inspection=tuple(inspection_steps(state, block, one, chosen)),
                mate=fitted,
            )
        )
    return Order(
        **answered_for(scenario),
        whole=_whole(stated),
        joint=name,
        block=block,
        fit_words=_fit_words(block, fit, fit_class),
        lacking=tuple(lacking),
        sides=tuple(made),
        sources=_sources(made),
    )


def _whole(scenario: Scenario) -> WholeCheck | None:
    """What the whole check says; a part can be ordered where that has no answer."""
    try:
        return WholeCheck.of(assess_without_ranges(scenario))
    except (DomainError, NoSolutionError):
        return None


def _index(scenario: Scenario, wanted: str) -> int:
    """Place of the joint that is meant by its name or its number, a splined one."""
    splined = [i for i, joint in enumerate(scenario.joint) if isinstance(joint, SplineJoint)]
    names = ", ".join(f'"{joint_name(scenario.joint[i], i)}"' for i in splined)
    if not splined:
        raise UsageError(f"{scenario.path.name}: has no splined joint, and no other kind can be ordered")
    if not wanted:
        if len(splined) > 1:
            raise UsageError(f"which joint? write --joint with one of the splined joints: {names}")
        return splined[0]
    found = joints_called(scenario.joint, wanted)
    meant = [index for index in found if index in splined]
    if len(meant) == 1:
        return meant[0]
    if found and not meant:
        kind = scenario.joint[found[0]].kind
        raise UsageError(f"--joint {wanted[:60]!r} is a {kind}; the splined joints are {names}")
    raise UsageError(f"--joint {wanted[:60]!r} is no joint of the scenario; the splined joints are {names}")


def _new_sides(joint: SplineJoint, name: str) -> tuple[MemberName, ...]:
    """The parts that are to be made: those that the scenario calls new."""
    members = {"external": joint.external, "internal": joint.internal}
    new = tuple(side for side in SIDES if members[side].reused is False)
    if not new:
        raise UsageError(
            f"{name}: no part is new (reused = false); say which is to be made: --side external or "
            "--side internal"
        )
    return new


def _block(state: SplineState, fit: str | None, fit_class: int | None) -> DataBlock:
    """Dimensions and limits by the standard; without limits where it has none."""
    try:
        return _block_of(state, fit, fit_class)
    except DomainError as error:
        if fit is None and fit_class is None:
            raise
        given = " ".join(
            f"{name} {value}"
            for name, value in (("--fit", fit), ("--fit-class", fit_class))
            if value is not None
        )
        raise UsageError(f"{given}: {error}") from error


def _block_of(state: SplineState, fit: str | None, fit_class: int | None) -> DataBlock:
    spline = state.spline
    if isinstance(spline, InvoluteSpline) and spline.standard in FITS:
        length = state.engagement if spline.standard != "ansi b92.1" else None
        return block_of_involute(spline, fit_class, fit, length)
    if fit_class is not None:
        raise DomainError(f"{spline.standard} has no tolerance classes here; leave --fit-class out")
    if isinstance(spline, StraightSpline) and spline.standard == "iso 14":
        hardened = state.internal.steel.surface_treatment != "none"
        return block_of_straight(spline, fit or "sliding", hardened)
    if fit is not None:
        raise DomainError(f"the fit of {spline.standard} is not chosen here; leave --fit out")
    if isinstance(spline, StraightSpline) and spline.standard == "sae j499":
        return block_of_straight(spline)
    if isinstance(spline, InvoluteSpline):
        return _own_block(spline)
    return DataBlock(spline=spline)


def _own_block(spline: InvoluteSpline) -> DataBlock:
    """A spline of no standard: nominal sizes, and what pins would read at the stated width."""
    tooth = WidthLimits(Band(spline.tooth_thickness, spline.tooth_thickness), None)
    space = WidthLimits(Band(spline.space_width, spline.space_width), None)
    return DataBlock(
        spline=spline, external_pins=external_pins(spline, tooth), internal_pins=internal_pins(spline, space)
    )


def _lacking_of_spline(block: DataBlock, sides: Sequence[MemberName]) -> Iterator[Lacking]:
    """What a drawing lacks where the standard, or its copy, gives no limits."""
    spline = block.spline
    if spline.standard == "own":
        yield Lacking(
            "The spline is of no standard: the drawing lacks the limits of tooth and space, form diameter, "
            "root fillet and the variation of spacing. Agree them with the shop, or send the mate as a "
            "gauge; what is printed are the sizes of the scenario without tolerance."
        )
    elif "external" in sides and block.thickness is None:
        known = () if block.external is None else block.external.absent
        yield Lacking(
            f"The tooth of the shaft has no limits: {dict(known).get('tooth_thickness', 'none are known')}. "
            "Agree them with the shop by the hole that it has to go into."
        )


def _steel(state: SplineState, side: MemberName, scenario: Scenario) -> Steel | None:
    """The row as it is ordered, whatever was measured on the part; None where it is unknown."""
    member = state.joint.external if side == "external" else state.joint.internal
    written = member.steel.strip()
    return None if written.lower() == UNKNOWN else steel(written, scenario.library)


def _lacking_of_steel(name: str, side: MemberName, chosen: Steel | None) -> Iterator[Lacking]:
    if chosen is None:
        yield Lacking(
            f'{name}, {side} member: steel = "unknown". A steel must be chosen first; write its row into '
            "the scenario and run torqcheck assess again (torqcheck materials lists the rows, --harder-than "
            "those with harder flanks)."
        )


def _material(state: SplineState, block: DataBlock, side: MemberName, chosen: Steel) -> Iterator[OrderLine]:
    """Lines on the steel; a hub hardened when it is bored has the section of its wall, else of the bar."""
    tip, outside = block.diameters("external").major_diameter, state.outside_diameter
    if side == "external":
        return material_lines(chosen, tip, state.new_widths[0], state.joint.external.welded_near)
    section = block.diameters("internal").major_diameter if outside is None else outside
    if outside is not None and treatment_note(chosen).process in HARDENED_WHEN_BORED:
        section = 0.5 * (outside - tip)
    return material_lines(chosen, section, state.new_widths[1], state.joint.internal.welded_near)


def _fit_words(block: DataBlock, fit: str | None, fit_class: int | None) -> str:
    """Name fit and class, and which of them were assumed."""
    limits = block.external
    if limits is None:
        return "none: the spline is of no standard"
    words = f"{limits.fit}"
    if limits.fit_class is not None:
        words += f", tolerance class {limits.fit_class}"
    if block.spline.standard == "sae j499":
        return f"{words}, as the size says"
    assumed = [] if fit is not None else ["the fit"]
    if limits.fit_class is not None and fit_class is None:
        assumed.append("the class")
    if not assumed:
        return words
    options = "--fit and --fit-class" if limits.fit_class is not None else "--fit"
    names = " and ".join(assumed)
    are, them = ("is", "it") if len(assumed) == 1 else ("are", "them")
    return (
        f"{words}. {names[0].upper()}{names[1:]} {are} assumed, for the scenario has none; "
        f"change {them} with {options}."
    )


def _sources(sides: Sequence[OrderSide]) -> tuple[Source, ...]:
    """Sources of steel and treatment, each once; those of the spline stand with its dimensions."""
    found: dict[Source, None] = {}
    for side in sides:
        if side.steel is None:
            continue
        note = treatment_note(side.steel)
        cited = (side.steel.source, note.source, note.growth_source, note.depth_source)
        found.update(dict.fromkeys(entry for entry in cited if entry is not None))
    return tuple(found)
