"""What a sleeve has to be told about that no stress shows: thin walls, ends that differ, float, whirling."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from torqcheck.assessment.kinds.hub_wall import thin_wall_words
from torqcheck.assessment.teeth.series import mesh_tilts
from torqcheck.capacity.joining import (
    GRAVITY,
    LEAST_WALL_SHARE,
    LEAST_WALL_SHARE_TOUCHED,
    WHIRLING_SHARE,
    tube_mass,
    unbalance_force,
    wall_share,
    whirling_speed,
)
from torqcheck.scenario.joint_schema import Lash, SplineJoint
from torqcheck.scenario.parts import stated_lash
from torqcheck.scenario.sizes import load_diameter, spline_of

if TYPE_CHECKING:
    from torqcheck.assessment.kinds.sleeve import Section
    from torqcheck.materials import Steel
    from torqcheck.scenario.kinds.sleeve import SleeveJoint
    from torqcheck.scenario.ledger import Ledger

__all__ = ["say_how_it_floats", "warn_of_ends", "warn_of_speed", "warn_of_wall"]

ALIKE = 0.1e-3
"""Two readings of one outside diameter may differ by so much, m."""
RPM = 30.0 / math.pi


def say_how_it_floats(joint: SleeveJoint) -> tuple[str, ...]:
    """Say what tilt each mesh gets, and from what."""
    floats, tilts = joint.floats, mesh_tilts(joint)
    if floats is None:
        return ()
    read = floats.offset.text if floats.offset is not None else f"half of {_text(floats.runout)}"
    angle = f" and their angle of {floats.angle.text}" if floats.angle is not None else ""
    shares = ", ".join(f"{tilt.name} {math.degrees(tilt.angle):.3f} deg" for tilt in tilts)
    adds = f"; the angle adds at {floats.read_at}, where the offset was read" if floats.read_at else ""
    return (
        f"it floats: the offset of its two shafts, {read}{angle}, over a span of {floats.span.text} tilts "
        f"both meshes: {shares}{adds}. Half the span would double what the offset does.",
    )


def _text(reading: object) -> str:
    return str(getattr(reading, "text", ""))


def warn_of_wall(key: str, name: str, sections: Sequence[Section], ledger: Ledger) -> None:
    """Say where the wall of an end is thin for its diameter, whatever its stress; the rest is a tube."""
    ends = [section for section in sections if section.loaded_inside]
    if not ends:
        return
    thinnest = min(ends, key=lambda section: float(wall_share(section.outside, section.inside)))
    share = float(wall_share(thinnest.outside, thinnest.inside))
    if share >= LEAST_WALL_SHARE_TOUCHED:
        return
    word = "thin" if share < LEAST_WALL_SHARE else "on the thin side"
    wall = thin_wall_words(thinnest.outside, thinnest.inside, word)
    ledger.warn(
        f"{key} wall",
        f"{name}: the wall over {thinnest.place}, {wall}. It opens under the load inside it and warps in "
        "heat treatment, whatever the stresses say.",
    )


def warn_of_ends(joint: SleeveJoint, key: str, name: str, ledger: Ledger) -> None:
    """Say where the file contradicts itself about one piece of steel; the weaker reading is used."""
    for other, spline in joint.held:
        own = spline.internal.outside_diameter
        difference = 0.0 if own is None else own.value - joint.outside_diameter.value
        known = ALIKE + joint.outside_diameter.tolerance + (own.tolerance if own is not None else 0.0)
        if own is not None and abs(difference) > known:
            ledger.warn(
                f"{key} outside diameter, {other}",
                f"{name}: its outside diameter is {joint.outside_diameter.text}, that of the hub of {other} "
                f"{own.text}. Right for a stepped sleeve; otherwise measure again. The smaller one is used "
                "for the wall of the sleeve there.",
            )
        if spline.internal.steel.casefold() != joint.steel.casefold():
            ledger.warn(
                f"{key} steel, {other}",
                f"{name}: it is {joint.steel}, the hub of {other} {spline.internal.steel}. One piece has one "
                "steel, unless an end was hardened by itself.",
            )
    if joint.floats is not None and joint.end_play is None:
        ledger.warn(
            f"{key} end play",
            f"{name}: a sleeve that floats needs a stop at both ends and end play between them, as much as "
            "shafts and housing grow warm and more; say how much it is as end_play.",
        )
    elif joint.floats is not None and joint.end_play is not None and joint.end_play.value == 0.0:
        ledger.warn(
            f"{key} end play",
            f"{name}: without end play the sleeve pushes on both shafts as soon as anything grows warm, and "
            "under torque the teeth hold it there.",
        )


def warn_of_speed(
    joint: SleeveJoint,
    key: str,
    name: str,
    bore: float,
    steel: Steel,
    top_speed: float,
    ledger: Ledger,
) -> None:
    """Say what turns too fast: a long tube that whirls, a sleeve that nothing centres."""
    outside, length = joint.outside_diameter.value, joint.length.value
    between = length if joint.floats is None else joint.floats.span.value
    critical = float(whirling_speed(outside, between, bore, steel.elastic_modulus, steel.density))
    if top_speed > WHIRLING_SHARE * critical:
        ledger.warn(
            f"{key} whirling",
            f"{name}: it whirls at {critical * RPM:.0f} rev/min on rigid supports at its ends; the top speed "
            f"of {top_speed * RPM:.0f} rev/min is above {WHIRLING_SHARE:g} of that. Make it shorter or of a "
            "larger diameter.",
        )
    if joint.floats is None:
        return
    mass = float(tube_mass(outside, length, bore, steel.density))
    beside = 0.5 * max(_radial_play(spline) for _, spline in joint.held)
    pull = float(unbalance_force(mass, beside, top_speed))
    text = (
        f"{name}: it weighs {mass:.2f} kg and nothing but its teeth carries it. Under torque the flanks "
        f"centre it; running light it hangs {beside * 1e3:.2f} mm beside the axis, and knocks."
    )
    if pull > mass * GRAVITY:
        text += (
            f" At top speed it pulls there with {pull:.0f} N, {pull / (mass * GRAVITY):.1f} times its "
            "weight: make it lighter and its play smaller, and do not run it fast without load."
        )
    ledger.warn(f"{key} float", text)


def _radial_play(joint: SplineJoint) -> float:
    """Play across the axis: as read, else what the lash leaves, else the largest that is new."""
    if joint.radial_play is not None:
        return joint.radial_play.value
    spline = spline_of(joint)
    clearance = spline.new_clearance.maximum
    if isinstance(joint.lash, Lash):
        clearance = float(stated_lash(joint.lash, load_diameter(spline)).clearance)
    return clearance * math.cos(spline.pressure_angle)
