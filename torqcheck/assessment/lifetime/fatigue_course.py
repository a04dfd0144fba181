"""Torsional fatigue of a joint while its play grows: the blow grows with it, and so does the damage."""

import math
from dataclasses import dataclass

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.assessment.fatigue.cycles import TorqueDuty
from torqcheck.assessment.fatigue.judge import (
    damage_per_hour,
    fatigue_members,
    fatigue_of,
    path_blow,
    torque_duty_of,
)
from torqcheck.assessment.fatigue.result import FatigueResult
from torqcheck.assessment.lifetime.growth import JointGrowth
from torqcheck.assessment.prepared import Prepared, blow_source
from torqcheck.assessment.result import ShockResult
from torqcheck.draws import evenly_spread, normal_deviates
from torqcheck.fatigue import LIFE_SCATTER
from torqcheck.wear import Runs

__all__ = ["FatigueCourse", "fatigue_course", "fatigue_now"]

SCATTER_SIGMA = math.log(LIFE_SCATTER) / 1.81
"""Of the logarithm of a fatigue life: 93 of 100 estimates lay within the factor either way."""


@dataclass(frozen=True, slots=True)
class FatigueCourse:
    """
    Damage of the member that suffers most as the flanks wear.

    Parameters
    ----------
    name : str
        What ends the life, as a limit.
    exposure : array, h
        Where the states of wear lie on the course.
    per_hour : array
        Damage per hour in each of them.
    """

    name: str
    exposure: FloatArray
    per_hour: FloatArray

    def hours(self, runs: Runs, seed: int) -> FloatArray:
        """Running hours of each draw until its damage is 1, the scatter of fatigue lives drawn."""
        scatter = np.exp(SCATTER_SIGMA * normal_deviates(evenly_spread(runs.speed.size, 1, seed))[0])
        # evenly spread along another draw would pair every fast wear with the same scatter
        scatter = np.random.default_rng(seed).permutation(scatter)
        times = np.array([runs.hours(exposure) for exposure in self.exposure])
        damage = self._damages(times)
        rate = np.maximum(self.per_hour[-1], 1e-300)
        result = np.asarray(times[-1] + np.maximum(scatter - damage[-1], 0.0) / rate)
        for below, above, early, late in zip(damage, damage[1:], times, times[1:], strict=False):
            here = (below < scatter) & (above >= scatter)
            step = np.where(here, above - below, 1.0)
            result = np.where(here, early + (scatter - below) / step * (late - early), result)
        return result

    def damage_at(self, runs: Runs, hours: float) -> float:
        """Damage after some running hours in the median draw."""
        exposures = np.array([np.median(runs.hours(exposure)) for exposure in self.exposure])
        damage = self._damages(exposures[:, None])[:, 0]
        beyond = max(hours - float(exposures[-1]), 0.0)
        return float(np.interp(hours, exposures, damage)) + beyond * float(self.per_hour[-1])

    def _damages(self, times: FloatArray) -> FloatArray:
        """Damage added up until each state of wear."""
        rate = 0.5 * (self.per_hour[1:] + self.per_hour[:-1])
        steps = rate[:, None] * np.diff(times, axis=0)
        return np.asarray(np.concatenate((np.zeros((1, times.shape[1])), np.cumsum(steps, axis=0))))


def _duty(prepared: Prepared, index: int, shock: ShockResult) -> TorqueDuty:
    """Torque cycles of one joint, from the duty list or from the record that stands in its place."""
    blow = path_blow(shock)
    reference, record = prepared.loads[prepared.path.reference], prepared.scenario.duty_record
    return torque_duty_of(prepared.loads[index], reference, prepared.spells, blow, prepared.ledger, record)


def fatigue_now(prepared: Prepared, index: int, shock: ShockResult) -> FatigueResult:
    """Torsional fatigue of a splined joint as it is, under the blow as computed."""
    state = prepared.joints[index].spline
    assert state is not None
    duty = _duty(prepared, index, shock)
    return fatigue_of(state, duty, prepared.service_life, blow_source(prepared.ledger), prepared.ledger)


def fatigue_course(
    prepared: Prepared, index: int, shock: ShockResult, growth: JointGrowth
) -> FatigueCourse | None:
    """
    Follow the damage of a splined joint along its course of wear.

    Parameters
    ----------
    prepared : Prepared
        The path.
    index : int
        Which joint.
    shock : ShockResult
        Its worst blow as it is.
    growth : JointGrowth
        How the joint wears, and what blows come of it.

    Returns
    -------
    FatigueCourse or None
        None where the duty holds no torque cycles or the steel has no fatigue life to state.
    """
    state = prepared.joints[index].spline
    assert state is not None
    duty = _duty(prepared, index, shock)
    members = [member for member in fatigue_members(state, prepared.ledger) if not member.reason]
    if not duty.names or not members:
        return None
    drive, brake = growth.strength.drive, growth.strength.brake
    if not np.any(brake > 0.0):
        brake = drive  # what reverses without regeneration goes as far back as forth
    rates = np.array([damage_per_hour(member, duty, drive, brake) for member in members])
    worst = int(np.argmax(rates[:, 0]))
    course = growth.model.course
    return FatigueCourse(
        f"torsional fatigue, {members[worst].side} member",
        np.interp(growth.strength.depth, course.total, course.exposure),
        rates.max(axis=0),
    )
