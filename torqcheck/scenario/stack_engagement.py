"""An engagement that the axial stack gives is held to what one that is written may be."""

from collections.abc import Sequence
from typing import Any

from torqcheck.errors import Fault
from torqcheck.scenario.faults import written_text
from torqcheck.scenario.joint_names import joint_name
from torqcheck.scenario.joint_schema import SplineJoint
from torqcheck.scenario.quantity import LONGEST_SEAT
from torqcheck.scenario.sizes import MOST_DIAMETERS, has_a_size, most_engagement, spline_of
from torqcheck.scenario.stack_rules import engagement_indices, stack_values
from torqcheck.scenario.stack_schema import Stack, StackDistance, StackResult

__all__ = ["long_engagements"]


def long_engagements(
    stack: Stack | None, raw_joints: Any, joints: Sequence[tuple[int, Any]], name: str
) -> list[Fault]:
    """
    Return the engagements by the stack that no machine has: most often a slip of a unit in one distance.

    Parameters
    ----------
    stack : Stack or None
        The block, as far as its fields are sound one by one.
    raw_joints : list
        Joints as written, which tells what is a size of its own.
    joints : sequence of (place, joint)
        The sound joints.
    name : str
        Name of the file.
    """
    if stack is None or stack_values(stack):
        return []
    splined = [(place, joint) for place, joint in joints if isinstance(joint, SplineJoint)]
    names = [(joint_name(joint, place), joint.kind) for place, joint in splined]
    given = engagement_indices([(result.kind, result.joint) for result in stack.result], names)
    faults = []
    for index, (result, found) in enumerate(zip(stack.result, given, strict=True)):
        if found is None:
            continue
        place, joint = splined[found]
        most, why = _most(joint, raw_joints[place])
        length = _nominal(result, stack.distance)
        if length > most * (1.0 + 1e-9):
            fault = _fault(result, stack.distance, f"{length * 1e3:.0f} mm", f"{most * 1e3:.0f} mm{why}")
            faults.append(Fault(name, f"stack.result[{index + 1}]", written_text(result.name), *fault))
    return faults


def _most(joint: SplineJoint, written: Any) -> tuple[float, str]:
    """Longest engagement that is taken, m, and what it comes from."""
    if has_a_size(joint, written):
        most = most_engagement(spline_of(joint))
        if most < LONGEST_SEAT:
            return most, f" ({MOST_DIAMETERS:g} pitch diameters of the teeth)"
    return LONGEST_SEAT, ""


def _nominal(result: StackResult, distances: Sequence[StackDistance]) -> float:
    """Nominal engagement that a sum gives, m; the least of it, which is checked, is no more."""
    middles = {distance.name: _middle(distance) for distance in distances}
    overlap = sum(middles[name] for name in result.plus) - sum(middles[name] for name in result.minus)
    cuts = [cut.value for cut in (result.external_cut, result.internal_cut) if cut is not None]
    return min([overlap - sum(lost.value for lost in result.less), *cuts])


def _middle(distance: StackDistance) -> float:
    """Middle of what a distance adds, m: a shaft that floats both ways lies on either side of it."""
    if distance.kind == "dimension":
        return distance.length.value
    return 0.5 * distance.length.value if distance.from_stop else 0.0


def _fault(
    result: StackResult, distances: Sequence[StackDistance], length: str, most: str
) -> tuple[str, str]:
    """Problem and mend; a slip of the unit is first looked for in the longest distance that adds."""
    adding = [place for place, one in enumerate(distances) if one.name in result.plus]
    place = max(adding, key=lambda one: distances[one].length.value)
    joint, written = written_text(result.joint), written_text(distances[place].length.text)
    return (
        f"gives {joint} an engagement of {length}, which is no length of a joint that a machine has",
        f"at most {most} is taken; check the lengths of its sum, first stack.distance[{place + 1}].length, "
        f"{written}",
    )
