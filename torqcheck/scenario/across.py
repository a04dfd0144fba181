"""Rules that tie blocks of the file to each other: the motor to the spells, the joints to the path."""

import math
from collections.abc import Mapping, Sequence
from typing import Any

from torqcheck.errors import Fault
from torqcheck.scenario.faults import written_text
from torqcheck.scenario.joint_names import joint_name
from torqcheck.scenario.joint_schema import SplineJoint
from torqcheck.scenario.sizes import has_a_size, load_diameter, spline_of

__all__ = ["faults_across"]

LEAST_TOTAL, MOST_TOTAL, LEAST_LEFT = 1e-5, 1e5, 1e-3
"""Ratio of all gear stages up to a joint, and what they leave of the power: beyond, a slip of the pen."""


def faults_across(
    blocks: Mapping[str, Any], raw_joints: Any, joints: Sequence[tuple[int, Any]], name: str
) -> list[Fault]:
    """
    Return the faults that show only where blocks are held against each other.

    Parameters
    ----------
    blocks : mapping
        The sound blocks by their keys; None where a block has faults of its own.
    raw_joints : list
        Joints as written, which tells what is a size of its own.
    joints : sequence of (place, joint)
        The sound joints.
    name : str
        Name of the file.
    """
    faults = _name_faults(joints, name) + _stage_faults(blocks.get("reduction"), joints, name)
    faults += _speed_faults(blocks, name) + _slip_faults(blocks, name)
    return faults + _limit_faults(blocks.get("targets"), raw_joints, joints, name)


def _stage_faults(reduction: Any, joints: Sequence[tuple[int, Any]], name: str) -> list[Fault]:
    """Stages that are sound one by one may multiply to what no machine has; the first place is enough."""
    ratio = reduction.ratio if reduction is not None else 1.0
    left = 1.0
    for index, joint in joints:
        for own_ratio, efficiency in joint.after:
            ratio, left = ratio * own_ratio, left * efficiency
        if LEAST_TOTAL <= ratio <= MOST_TOTAL and left >= LEAST_LEFT:
            continue
        if left < LEAST_LEFT:
            problem = f"leaves {left:.2g} of the power after all stages up to here"
            taken = f"at least {LEAST_LEFT:g} is taken"
        else:
            problem = f"brings the ratio of all stages up to here to {ratio:.3g}"
            taken = f"{LEAST_TOTAL:f} to {MOST_TOTAL:.0f} is taken"
        mend = f"{taken}; give each stage once, as [ratio, efficiency]"
        return [Fault(name, f"joint[{index + 1}].after", "", problem, mend)]
    return []


def _speed_faults(blocks: Mapping[str, Any], name: str) -> list[Fault]:
    """No spell turns faster than the motor can."""
    motor, duty = blocks.get("motor"), blocks.get("duty") or ()
    return [
        Fault(
            name,
            f"duty[{index + 1}].speed",
            written_text(spell.speed.text),
            "is above motor.max_speed",
            "lower it, or mend motor.max_speed",
        )
        for index, spell in enumerate(duty)
        if motor is not None and spell.speed.value > motor.max_speed.value * (1.0 + 1e-9)
    ]


def _limit_faults(targets: Any, raw_joints: Any, joints: Sequence[tuple[int, Any]], name: str) -> list[Fault]:
    """A limit of a whole pitch is none: the teeth would pass each other before; the first joint is enough."""
    limit = targets.lash_limit if targets is not None else None
    if limit is None:
        return []
    for index, joint in joints:
        if not isinstance(joint, SplineJoint) or not has_a_size(joint, raw_joints[index]):
            continue
        spline = spline_of(joint)
        pitch = math.pi * load_diameter(spline) / spline.teeth
        if limit.value >= pitch:
            problem = f"is a whole pitch of {joint_name(joint, index)} ({pitch * 1e3:.3g} mm) or more"
            mend = "the teeth would pass each other; check the number and the unit"
            return [Fault(name, "targets.lash_limit", written_text(limit.text), problem, mend)]
    return []


def _slip_faults(blocks: Mapping[str, Any], name: str) -> list[Fault]:
    """What lies before the slip element is part of the whole driven inertia."""
    driven = blocks.get("driven")
    if driven is None or driven.slip is None or driven.inertia is None:
        return []
    before = driven.slip.inertia_before
    if before is None or before.value < driven.inertia.value:
        return []
    mend = "driven.inertia is all that turns behind the joint, what lies beyond the slip included"
    key, text = "driven.slip.inertia_before", written_text(before.text)
    return [Fault(name, key, text, "is not below driven.inertia", mend)]


def _name_faults(joints: Sequence[tuple[int, Any]], name: str) -> list[Fault]:
    """Reports refer to a joint by its name, so each has its own."""
    names = [joint_name(joint, index) for index, joint in joints]
    return [
        Fault(
            name,
            f"joint[{index + 1}].name",
            written_text(own),
            "is used twice",
            "give each joint its own name",
        )
        for place, ((index, _), own) in enumerate(zip(joints, names, strict=True))
        if own in names[:place]
    ]
