"""Peak torque of the blow in many draws of everything that it is computed from."""

from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.assessment.prepared import Prepared
from torqcheck.assessment.torque.blow import blow_of, peak_through
from torqcheck.assessment.torque.path_rows import PathRows
from torqcheck.assessment.torque.slip_element import blow_arguments, peaks_of
from torqcheck.assessment.torque.starts import starts_of

__all__ = ["DrawnTorques", "blows_per_draw", "drawn_torques"]

LEADING = 0.8
"""Starts and driven sides whose peak as stated comes so near the largest one are drawn."""


@dataclass(frozen=True, slots=True)
class DrawnTorques:
    """Steady and simulated peak torque of each joint, N m: one row for each joint, one column per draw."""

    steady: FloatArray
    peak: FloatArray


def drawn_torques(prepared: Prepared, drawn: PathRows) -> DrawnTorques:
    """
    Follow every draw through the shock kernel.

    Parameters
    ----------
    prepared : Prepared
        The path as stated.
    drawn : PathRows
        The path in each draw, one column each.
    """
    path, loads = prepared.path, prepared.loads
    steady = []
    for index in range(len(loads)):
        motor, brake, grip, brake_grip = drawn.load(index)
        steady.append(np.maximum(np.minimum(motor, grip), np.minimum(brake, brake_grip)))
    drive, braking = _largest_peaks(prepared, drawn)
    there, peaks = loads[path.reference], []
    for load in loads:
        peaks.append(peak_through(load, there, drive, braking))
    return DrawnTorques(np.array(steady), np.array(peaks))


def _largest_peaks(prepared: Prepared, drawn: PathRows) -> tuple[FloatArray, FloatArray]:
    """Largest peak driving and braking in each draw, at the reference joint."""
    leading = _leading(prepared)
    arguments = [_arguments(prepared, drawn, member) for member in leading]
    together = {
        name: np.stack([np.broadcast_to(part[name], drawn.lash.shape) for part in arguments])
        for name in arguments[0]
    }
    peaks = peaks_of(together)
    braking = np.array([drawn.starts[start].braking for start, _, _ in leading])
    nothing = np.zeros(drawn.lash.shape)
    return (
        np.max(peaks[~braking], axis=0, initial=0.0) if np.any(~braking) else nothing,
        np.max(peaks[braking], axis=0, initial=0.0) if np.any(braking) else nothing,
    )


def blows_per_draw(prepared: Prepared) -> int:
    """How many blows are followed for each draw."""
    return len(_leading(prepared))


def _leading(prepared: Prepared) -> list[tuple[int, int, int]]:
    """Starts with driven sides, by index: of many only those whose peak as stated comes near the largest."""
    path = prepared.path
    starts = starts_of(prepared.scenario, prepared.loads[path.reference])
    members = [
        (start, inertia, stiffness)
        for start in range(len(starts))
        for inertia in range(len(path.driven_inertias))
        for stiffness in range(len(path.stiffnesses))
    ]
    if len(members) == 1:
        return members
    cases = [(starts[s], path.driven_inertias[i], path.stiffnesses[k]) for s, i, k in members]
    peaks = np.asarray(blow_of(path, cases).peak_torque)
    largest = float(peaks.max())
    return [member for member, peak in zip(members, peaks, strict=True) if peak >= LEADING * largest]


def _arguments(prepared: Prepared, drawn: PathRows, member: tuple[int, int, int]) -> dict[str, Any]:
    """What the kernel is given for one start and one driven side in every draw."""
    start, inertia, stiffness = member
    peak_torque, coast_torque, rise = drawn.start(start)
    driven = drawn.driven_inertia(inertia)
    element = prepared.path.slip
    if element is not None:
        driving_grip, braking_grip, before = drawn.slip
        element = replace(
            element, driving_torque=driving_grip, braking_torque=braking_grip, inertia_before=before
        )
    braking = np.full(drawn.lash.shape, drawn.starts[start].braking)
    further = blow_arguments(element, braking, drawn.driving_inertia, driven, -coast_torque)
    return {
        "torque_rise": rise,
        "peak_torque": peak_torque,
        "driving_inertia": drawn.driving_inertia,
        "driven_inertia": driven,
        "stiffness": drawn.stiffness(stiffness),
        "damping_ratio": drawn.damping_ratio,
        "lash": drawn.lash,
        **further,
    }
