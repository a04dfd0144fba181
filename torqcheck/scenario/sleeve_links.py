"""Which splines a sleeve is the hub of: the joints that belong together, and what contradicts itself."""

from collections.abc import Mapping, Sequence
from typing import Any

from torqcheck.errors import Fault
from torqcheck.scenario.faults import nearest, written_text
from torqcheck.scenario.joint_names import SPLINED, called, joint_name
from torqcheck.scenario.joint_schema import SplineJoint, Tilt, no_wall
from torqcheck.scenario.kinds.key import KeyJoint
from torqcheck.scenario.kinds.sleeve import SleeveJoint
from torqcheck.scenario.sizes import groove_diameter, has_a_size, spline_of

__all__ = ["sleeve_faults", "sleeve_of", "tied_joints"]

BORE_OFF = 0.02
"""Bore over the shaft in it: no fit and no wear of a joint that still holds has so much play."""


def sleeve_of(joints: Sequence[Any], index: int) -> SleeveJoint | None:
    """Return the sleeve that is the hub of a joint; None if no sleeve says so."""
    name = joint_name(joints[index], index)
    for joint in joints:
        if isinstance(joint, SleeveJoint) and name in joint.holds:
            return joint
    return None


def tied_joints(joints: Sequence[Any], index: int) -> frozenset[int]:
    """Indices of the joints that share a reading with one of them: itself, its sleeve, what that holds."""
    joint = joints[index]
    sleeve = joint if isinstance(joint, SleeveJoint) else sleeve_of(joints, index)
    if sleeve is None:
        return frozenset({index})
    return frozenset(
        i for i, other in enumerate(joints) if other is sleeve or joint_name(other, i) in sleeve.holds
    )


def sleeve_faults(raw_joints: Any, joints: Sequence[tuple[int, Any]], name: str) -> list[Fault]:
    """
    Return the faults of sleeves that need the other joints.

    Parameters
    ----------
    raw_joints : list
        Joints as written, so that a joint is known by its name even where it has other faults.
    joints : sequence of (place, joint)
        The sound joints.
    name : str
        Name of the file.
    """
    written = [joint if isinstance(joint, Mapping) else {} for joint in _listed(raw_joints)]
    kinds = {str(called(raw.get("name"), i)): (i, str(raw.get("kind", ""))) for i, raw in enumerate(written)}
    sound = dict(joints)
    faults: list[Fault] = []
    taken: set[str] = set()
    for index, sleeve in joints:
        if not isinstance(sleeve, SleeveJoint):
            continue
        place = f"joint[{index + 1}]"
        for number, held in enumerate(sleeve.holds, start=1):
            fault = _name_fault(f"{place}.holds[{number}]", held, kinds, taken, name)
            taken.add(held)
            if fault is not None:
                faults.append(fault)
                continue
            other = kinds[held][0]
            joint = sound.get(other)
            if isinstance(joint, SplineJoint) and has_a_size(joint, written[other]):
                faults += _held_faults(sleeve, joint, f"joint[{other + 1}]", name)
        places = sorted([index, *(kinds[held][0] for held in sleeve.holds if held in kinds)])
        faults += _stage_faults(written, places, name) + _keyway_faults(sound, index, name)
    return faults


def _listed(raw: Any) -> list[Any]:
    return raw if isinstance(raw, list) else []


def _name_fault(
    key: str, held: str, kinds: Mapping[str, tuple[int, str]], taken: set[str], name: str
) -> Fault | None:
    """A name that is no splined joint, or that has a sleeve already."""
    splined = [known for known, (_, kind) in kinds.items() if kind in SPLINED]
    known = ", ".join(f'"{one}"' for one in splined) or "there is none"
    if held not in kinds:
        mend = f"{nearest(held, splined)}splined joints: {known}"
        return Fault(name, key, written_text(held), "is not the name of a joint", mend)
    if kinds[held][1] not in SPLINED:
        return Fault(name, key, written_text(held), "is not a splined joint", f"splined joints: {known}")
    if held in taken:
        return Fault(name, key, written_text(held), "is held twice", "a spline has one hub, in one sleeve")
    return None


def _held_faults(sleeve: SleeveJoint, joint: SplineJoint, place: str, name: str) -> list[Fault]:
    """A held spline leaves a wall, and floats with its sleeve."""
    faults = []
    outside = joint.internal.outside_diameter or sleeve.outside_diameter
    grooves = groove_diameter(joint, spline_of(joint))
    if no_wall(grooves, outside.value) and joint.internal.outside_diameter is None:
        problem = f"leaves no wall: the teeth of its sleeve reach to {grooves * 1e3:.2f} mm"
        mend = "outside_diameter of the sleeve must be above that, or give that of this end"
        faults.append(
            Fault(name, f"{place}.internal", written_text(sleeve.outside_diameter.text), problem, mend)
        )
    if sleeve.floats is None:
        return faults
    if joint.seat == "fixed":
        problem, mend = "contradicts floats of its sleeve", 'a sleeve that floats is "flexible" at both ends'
        faults.append(Fault(name, f"{place}.seat", '"fixed"', problem, mend))
    if isinstance(joint.tilt, Tilt):
        mend = "keep floats at the sleeve, which tilts both meshes, or the tilt of each spline"
        faults.append(Fault(name, f"{place}.tilt", "", "contradicts floats of its sleeve", mend))
    return faults


def _keyway_faults(sound: Mapping[int, Any], index: int, name: str) -> list[Fault]:
    """The keyway of a sleeve beside a keyed shaft is that of its key: they have one diameter."""
    keyway = sound[index].keyway
    keyed = {i: sound[i] for i in (index - 1, index + 1) if isinstance(sound.get(i), KeyJoint)}
    if keyway is None or not keyed:
        return []
    bore = keyway.bore.value
    if any(abs(bore - key.shaft_diameter.value) <= BORE_OFF * bore for key in keyed.values()):
        return []
    place, key = next(iter(keyed.items()))
    problem = f'contradicts joint[{place + 1}].shaft_diameter = "{key.shaft_diameter.text}"'
    mend = "the shaft of the key lies in this bore: measure both"
    return [Fault(name, f"joint[{index + 1}].keyway.bore", written_text(keyway.bore.text), problem, mend)]


def _stage_faults(written: Sequence[Mapping[str, Any]], places: Sequence[int], name: str) -> list[Fault]:
    """One piece turns at one speed: no gear stage between its ends."""
    return [
        Fault(
            name,
            f"joint[{index + 1}].after",
            written_text(written[index]["after"]),
            "puts a gear stage into a sleeve",
            "a sleeve turns as one piece; write the stage before its first or after its last joint",
        )
        for index in range(places[0] + 1, places[-1] + 1)
        if written[index].get("after")
    ]
