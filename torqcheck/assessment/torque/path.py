"""Torque and speed at each joint, from the motor through ratios and efficiencies."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from torqcheck.elementwise import least
from torqcheck.scenario.estimates import Spell, peak_torque, regen_torque
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import needed
from torqcheck.scenario.schema import Scenario, Slip

__all__ = ["JointLoad", "slip_torque", "torque_path"]


STAGE_EFFICIENCY = 0.97
SLIP_EFFICIENCY = 0.95


@dataclass(frozen=True, slots=True)
class JointLoad:
    """What reaches one joint when nothing swings. SI; arrays where the scenario holds columns.

    Parameters
    ----------
    ratio : float
        Motor speed over the speed of this joint.
    efficiency : float
        Of all stages between the motor and this joint.
    motor_torque : float
        Peak motor torque referred to this joint, before any slip.
    torque : float
        The same, limited by what ground or clutch let through.
    regen_torque : float
        Largest braking torque at this joint, positive, limited likewise.
    motor_regen_torque : float
        The same, before any slip.
    slip_governs : bool
        The slip limit is below what the motor can give.
    slip_torque, brake_slip_torque : float
        What ground or clutch let through, driving and braking; inf without a slip limit.
    """

    ratio: float
    efficiency: float
    motor_torque: float
    torque: float
    regen_torque: float
    motor_regen_torque: float
    slip_governs: bool
    slip_torque: float = math.inf
    brake_slip_torque: float = math.inf

    def speed(self, motor_speed: float) -> float:
        """Speed of this joint, rad/s."""
        return motor_speed / self.ratio

    def beyond(self, other: "JointLoad") -> tuple[float, float]:
        """Ratio and efficiency of the stages from another joint to this one."""
        return self.ratio / other.ratio, self.efficiency / other.efficiency


def slip_torque(slip: Slip, ledger: Ledger, *, regenerating: bool = False) -> float:
    """Torque at the last joint that ground or clutch let through, N m.

    Driving, the losses behind the joint add to what the wheel lets through; braking they subtract.
    """
    if slip.torque is not None:
        return slip.torque.value
    grip = needed(slip.coefficient) * needed(slip.normal_force).value
    grip *= needed(slip.rolling_radius).value / needed(slip.ratio)
    efficiency = slip.efficiency
    if efficiency is None:
        efficiency = ledger.assume(
            "driven.slip.efficiency", SLIP_EFFICIENCY, None, "losses between the last joint and the wheel"
        )
    return grip * efficiency if regenerating else grip / efficiency


def torque_path(scenario: Scenario, spells: Sequence[Spell], ledger: Ledger) -> tuple[JointLoad, ...]:
    """Return the load of each joint in the order of the file."""
    stages = _stages(scenario, ledger)
    peak = peak_torque(scenario.motor)
    regen = regen_torque(scenario.motor, spells, ledger, scenario.duty_record)
    last_ratio, last_efficiency = stages[-1]
    slip = scenario.driven.slip
    loads = []
    for ratio, efficiency in stages:
        drive = peak * ratio * efficiency
        # braking, the losses between joint and motor are overcome at the joint as well
        full_brake = regen * ratio / efficiency
        grip = brake_grip = math.inf
        if slip is not None:
            to_last = last_ratio / ratio
            losses = last_efficiency / efficiency
            grip = slip_torque(slip, ledger) / (to_last * losses)
            brake_grip = slip_torque(slip, ledger, regenerating=True) / to_last * losses
        torque, brake = least(drive, grip), least(full_brake, brake_grip)
        slips = torque < drive
        loads.append(JointLoad(ratio, efficiency, drive, torque, brake, full_brake, slips, grip, brake_grip))
    if np.any(loads[-1].slip_governs):
        _warn_of_slip(slip, ledger)
    return tuple(loads)


def _warn_of_slip(slip: Slip | None, ledger: Ledger) -> None:
    """Say what the slip limit bounds and what it does not."""
    known = slip is not None and slip.inertia_before is not None
    blow = (
        "the blow is computed with the slip element behind inertia_before"
        if known
        else "the blow is computed without it, because inertia_before is not given"
    )
    ledger.warn(
        "slip limit",
        "The steady torque is limited by what ground or clutch let through, not by the motor. That bounds "
        f"the blow hardly at all: the inertia before the slip still has to be stopped; {blow}. On better "
        "ground the limit is gone.",
    )


def _stages(scenario: Scenario, ledger: Ledger) -> list[tuple[float, float]]:
    """Cumulative ratio and efficiency from the motor to each joint."""
    ratio, efficiency = 1.0, 1.0
    if scenario.reduction is not None:
        ratio, stated = scenario.reduction.ratio, scenario.reduction.efficiency
        efficiency = (
            stated
            if stated is not None
            else ledger.assume("reduction.efficiency", STAGE_EFFICIENCY, None, "one gear stage")
        )
    stages = []
    for joint in scenario.joint:
        for step_ratio, step_efficiency in joint.after:
            ratio *= step_ratio
            efficiency *= step_efficiency
        stages.append((ratio, efficiency))
    return stages
