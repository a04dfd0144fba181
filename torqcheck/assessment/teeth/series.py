"""Splines in series: what a sleeve hands on to the two splines whose hub it is, their tilt above all."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from torqcheck.scenario.joint_names import joint_name
from torqcheck.scenario.joint_schema import SplineJoint, Tilt
from torqcheck.scenario.kinds.sleeve import Floats, SleeveJoint
from torqcheck.scenario.quantity import Reading, needed
from torqcheck.scenario.sleeve_links import sleeve_of
from torqcheck.scenario.usual import DIAL, TILT_ANGLE
from torqcheck.wear import offset_from_runout, tilts_of_floating_sleeve

__all__ = ["MeshTilt", "linked_joint", "mesh_tilts"]

SWEPT = DIAL / TILT_ANGLE
"""m: circle on which a dial is as good as the usual tolerance of an angle; an angle counts as its face."""


@dataclass(frozen=True, slots=True)
class MeshTilt:
    """Tilt at one mesh of a floating sleeve, rad, and what the tolerances make of it."""

    name: str
    angle: float
    tolerance: float


def linked_joint(joints: Sequence[Any], index: int) -> Any:
    """
    Return one joint with what others say of it.

    Parameters
    ----------
    joints : sequence
        All joints of the file.
    index : int
        Which of them.

    Notes
    -----
    A sleeve gets the splines that it holds. A held spline gets the outside diameter of its sleeve where
    its own is not written; that the torque leaves its hub at the other end, where the sleeve holds
    another spline as well; and, in a sleeve that floats, its share of the offset as tilt.
    """
    joint = joints[index]
    if isinstance(joint, SleeveJoint):
        held = [i for i, other in enumerate(joints) if joint_name(other, i) in joint.holds]
        return joint.holding(tuple((joint_name(joints[i], i), linked_joint(joints, i)) for i in held))
    sleeve = sleeve_of(joints, index) if isinstance(joint, SplineJoint) else None
    return joint if sleeve is None else _held_joint(joint, joint_name(joint, index), sleeve)


def _held_joint(joint: SplineJoint, name: str, sleeve: SleeveJoint) -> SplineJoint:
    update: dict[str, object] = {}
    if joint.internal.outside_diameter is None:
        hub = joint.internal.model_copy(update={"outside_diameter": sleeve.outside_diameter})
        update["internal"] = hub
    if joint.take_off is None and len(sleeve.holds) > 1:
        update["take_off"] = "opposite side"
    if sleeve.floats is not None:
        update["tilt"] = _tilt_at(sleeve.floats, name)
    return joint.model_copy(update=update)


def _tilt_at(floats: Floats, name: str) -> Tilt:
    """Write the share of one mesh as its own readings, so that offset and angle stay apart in the report."""
    if floats.angle is None or name != floats.read_at:
        return Tilt(offset=floats.offset, runout=floats.runout, span=floats.span)
    angle, rim = floats.angle, floats.runout
    if rim is None:
        offset = needed(floats.offset)
        rim = replace(offset, value=2.0 * offset.value, tolerance=2.0 * offset.tolerance)
    face = Reading(math.tan(angle.value) * SWEPT, angle.tolerance * SWEPT, angle.text, "length", angle.mark)
    return Tilt(rim=rim, face=face, diameter=Reading(SWEPT, 0.0, "+/- 0", "length"), span=floats.span)


def mesh_tilts(sleeve: SleeveJoint) -> tuple[MeshTilt, ...]:
    """
    Split offset and angle of two shafts between the two meshes of a floating sleeve.

    The offset tilts the sleeve, and with it both meshes, by offset over span. The angle between the
    shafts adds at the mesh in whose plane the offset was read, in the worst direction. Nothing for a
    sleeve that does not float.
    """
    floats = sleeve.floats
    if floats is None:
        return ()
    offset, doubt = _offset(floats)
    span = floats.span
    angle = floats.angle.value if floats.angle is not None else 0.0
    here, there = tilts_of_floating_sleeve(offset, span.value, angle)
    by_offset = math.hypot(doubt / span.value, offset * span.tolerance / span.value**2)
    by_angle = floats.angle.tolerance if floats.angle is not None else 0.0
    return tuple(
        MeshTilt(name, float(here), math.hypot(by_offset, by_angle))
        if name == floats.read_at
        else MeshTilt(name, float(there), by_offset)
        for name in sleeve.holds
    )


def _offset(floats: Floats) -> tuple[float, float]:
    """Offset and its tolerance, as written or as half of a runout."""
    if floats.offset is not None:
        return floats.offset.value, floats.offset.tolerance
    runout = needed(floats.runout)
    return float(offset_from_runout(runout.value)), 0.5 * runout.tolerance
