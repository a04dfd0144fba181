"""Checks of the first tooth alone, which the search for a ramp leaves out: what a setting does to them."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from torqcheck.assessment.prepared import Prepared, checks_at
from torqcheck.assessment.ramp.controller import language_of, settable
from torqcheck.assessment.ramp.first_tooth_result import FirstTooth
from torqcheck.assessment.ramp.limits import Limits, joint_peaks, quiet
from torqcheck.assessment.ramp.question import Question
from torqcheck.assessment.ramp.search import find_fastest
from torqcheck.checks import Check
from torqcheck.scenario.estimates import regen_rise

__all__ = ["first_teeth_short"]

HALVINGS = 40


def first_teeth_short(question: Question, rise: float, as_set: float) -> tuple[FirstTooth, ...]:
    """
    Find the checks of the first tooth alone that a setting does not hold.

    Parameters
    ----------
    question : Question
        The path, as stated.
    rise, as_set : float
        The setting and that of the scenario, N m/s at the motor shaft.
    """
    prepared = quiet(question.prepared)
    now = {_key(check): check for check in _local(prepared, _peaks(question, as_set))}
    short = [check for check in _local(prepared, _peaks(question, rise)) if check.margin < 1.0]
    if not short:
        return ()
    slower = _slower(question, prepared, _peaks(question, rise))
    return tuple(
        FirstTooth(
            check.joint,
            check.name,
            check.method,
            check.target,
            check.margin * check.target,
            now[_key(check)].margin * check.target,
            slower,
        )
        for check in short
    )


def _key(check: Check) -> tuple[str, str, str]:
    return check.joint, check.name, check.member


def _peaks(question: Question, rise: float) -> tuple[float, ...]:
    """Peak torque at every joint with the values as stated."""
    swings = [(question.cases, rise)]
    if question.regen is not None:
        swings.append((question.regen, regen_rise(question.prepared.scenario.motor)))
    found = []
    for cases, at in swings:
        drive, brake = cases.directions(cases.nominal, np.array([at]))
        found.append(joint_peaks(question.prepared, float(drive[0, 0]), float(brake[0, 0])))
    return tuple(max(peaks) for peaks in zip(*found, strict=True))


def _local(prepared: Prepared, peaks: tuple[float, ...]) -> Iterator[Check]:
    """Checks of the first tooth that bed in, at these peaks of the joints."""
    for index, peak in enumerate(peaks):
        yield from _local_at(prepared, index, peak)


def _local_at(prepared: Prepared, index: int, peak: float) -> list[Check]:
    return [
        check
        for check in checks_at(prepared, index, peak)
        if check.counts and check.local and not check.decides
    ]


def _slower(question: Question, prepared: Prepared, peaks: tuple[float, ...]) -> float | None:
    """Fastest setting at which they hold together with every slower one, as stated; None if none does."""
    drive = brake = np.inf
    there = prepared.loads[prepared.path.reference]
    for index, peak in enumerate(peaks):
        allowed = _allowed(prepared, index, peak)
        ratio, losses = prepared.loads[index].beyond(there)
        drive = min(drive, allowed / (ratio * losses))
        brake = min(brake, allowed * losses / ratio)
    if drive <= 0.0:
        return None
    limits: Limits = replace(
        question.limits, drive=min(drive, question.limits.drive), brake=min(brake, question.limits.brake)
    )
    regen, motor = question.regen, prepared.scenario.motor
    if regen is not None:
        asked = np.array([regen_rise(motor)])
        if replace(regen, limits=limits).demands(regen.nominal, asked)[0, 0] > 1.0:
            return None
    found = find_fastest(replace(question.cases, limits=limits), question.slowest).rise
    if found is None:
        return None
    return settable(found, question.motor_torque, language_of(motor))


def _allowed(prepared: Prepared, index: int, peak: float) -> float:
    """Largest peak torque at which they hold, N m, infinite if they do at this one; 0 if at none."""

    def holds(torque: float) -> bool:
        return all(check.margin >= 1.0 for check in _local_at(prepared, index, torque))

    if holds(peak):
        return float("inf")
    low, high = 0.0, peak
    if not holds(low):
        return 0.0
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if holds(middle) else (low, middle)
    return low
