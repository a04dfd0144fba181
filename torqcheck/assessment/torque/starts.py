"""The ways in which the motor torque can rise and take up the lash."""

from dataclasses import dataclass

import numpy as np

from torqcheck.assessment.torque.path import JointLoad
from torqcheck.scenario.estimates import regen_rise, torque_rise
from torqcheck.scenario.schema import Scenario

__all__ = ["Start", "starts_of"]


@dataclass(frozen=True, slots=True)
class Start:
    """One way in which the torque can rise: what it is called, from where, to where, how fast. SI."""

    name: str
    start_torque: float
    peak_torque: float
    torque_rise: float
    braking: bool = False


def starts_of(scenario: Scenario, load: JointLoad, rise: float | None = None) -> tuple[Start, ...]:
    """
    Return the starts that come into question at one joint; with regeneration the swings both ways.

    With columns of torques they stand in all rows if any of them brakes: where none does they mean nothing.

    Parameters
    ----------
    scenario : Scenario
        Motor torques and rises.
    load : JointLoad
        The joint to which everything is referred.
    rise : float, N m/s, optional
        Rise of the motor torque at the motor shaft, instead of that of the scenario. Regeneration
        follows it unless the scenario gives it a rise of its own.
    """
    motor = scenario.motor
    drive = torque_rise(motor) if rise is None else rise
    slope = drive * load.ratio * load.efficiency
    starts = [Start("rest", 0.0, load.motor_torque, slope)]
    brake = load.motor_regen_torque
    if np.any(brake > 0.0):
        back = (drive if motor.regen_rise is None else regen_rise(motor)) * load.ratio / load.efficiency
        starts.append(Start("regeneration", -brake, load.motor_torque, slope))
        starts.append(Start("drive into regeneration", -load.motor_torque, brake, back, braking=True))
    return tuple(starts)
