"""Intervals by the long way: the whole path resolved, blown and checked again for every draw."""

from dataclasses import replace

import numpy as np

from torqcheck.assessment.prepared import Prepared, checks_at, prepared_of
from torqcheck.assessment.ranges.uncertain import Uncertain, moved
from torqcheck.assessment.result import ShockResult
from torqcheck.assessment.torque.blow import blow_of, peak_at, worst_blow
from torqcheck.assessment.torque.starts import starts_of
from torqcheck.scenario import Scenario


def stated(scenario: Scenario) -> tuple[Prepared, ShockResult, tuple[float, ...]]:
    """The path, its blow and its peak torques as stated."""
    prepared = prepared_of(scenario)
    shock = worst_blow(scenario, prepared.path, prepared.loads, prepared.ledger)
    joints = range(len(prepared.joints))
    return prepared, shock, tuple(peak_at(i, shock, prepared.path, prepared.loads) for i in joints)


def factors_again(
    scenario: Scenario, shock: ShockResult, uncertain: tuple[Uncertain, ...], deviations: np.ndarray
) -> np.ndarray:
    """Safety factors of all checks: one row each, one column for each column of deviations."""
    columns = []
    for column in deviations.T:
        assumed: dict[str, float] = {}
        changed = scenario
        for entry, deviation in zip(uncertain, column, strict=True):
            changed = moved(changed, entry, float(deviation), assumed)
        columns.append(_factors(prepared_of(changed, deviations=assumed), shock))
    return np.array(columns).T


def _factors(prepared: Prepared, shock: ShockResult) -> list[float]:
    path, loads = prepared.path, prepared.loads
    cases = [
        (start, inertia, stiffness)
        for start in starts_of(prepared.scenario, loads[path.reference])
        for inertia in path.driven_inertias
        for stiffness in path.stiffnesses
    ]
    peaks = np.asarray(blow_of(path, cases).peak_torque)
    braking = np.array([start.braking for start, _, _ in cases])
    here = replace(
        shock,
        drive_peak_torque=float(peaks[~braking].max()),
        brake_peak_torque=float(peaks[braking].max(initial=0.0)),
    )
    checks = [
        check
        for index in range(len(prepared.joints))
        for check in checks_at(prepared, index, peak_at(index, here, path, loads))
    ]
    return [check.safety_factor or np.nan for check in checks]
