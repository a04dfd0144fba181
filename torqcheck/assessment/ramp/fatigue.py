"""What a ramp leaves of the fatigue life, joint by joint: the search does not look at it."""

import numpy as np

from torqcheck.assessment.fatigue.judge import PathBlow, fatigue_of, steady_share, torque_duty_of
from torqcheck.assessment.fatigue.result import FatigueResult
from torqcheck.assessment.prepared import blow_source
from torqcheck.assessment.ramp.question import Question
from torqcheck.scenario.estimates import regen_rise

__all__ = ["fatigue_at_rise"]


def fatigue_at_rise(question: Question, rise: float) -> tuple[FatigueResult | None, ...]:
    """
    Fatigue of each joint under the blows of one rise; None where there is none to state.

    Parameters
    ----------
    question : Question
        The scenario as the ramp search sees it.
    rise : float, N m/s
        At the motor shaft; regeneration with a rise of its own keeps that.
    """
    prepared = question.prepared
    path, ledger = prepared.path, prepared.ledger
    drive, brake = question.cases.directions(question.cases.nominal, np.array([rise]))
    if question.regen is not None:
        own = np.array([regen_rise(prepared.scenario.motor)])
        brake = question.regen.directions(question.regen.nominal, own)[1]
    blow = PathBlow(
        drive_peak=float(drive[0, 0]),
        brake_peak=float(brake[0, 0]),
        # of several inertias tried the smallest: the blow then stands out most over the steady torque
        share=min(steady_share(path.driving_inertia, inertia) for inertia in path.driven_inertias),
        damping_ratio=path.damping_ratio,
    )
    results: list[FatigueResult | None] = []
    for index, (joint, load) in enumerate(zip(prepared.joints, prepared.loads, strict=True)):
        if joint.spline is None:
            results.append(None if joint.fatigue is None else joint.fatigue(prepared, index, blow))
            continue
        duty = torque_duty_of(
            load, prepared.loads[path.reference], prepared.spells, blow, ledger, prepared.scenario.duty_record
        )
        source = blow_source(ledger)
        results.append(fatigue_of(joint.spline, duty, prepared.service_life, source, ledger))
    return tuple(results)
