"""One scenario with one outlook, made ready for the searches: cases, limits, draws, points of the curve."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from torqcheck.assessment.prepared import Prepared, checks_at, prepared_of
from torqcheck.assessment.ramp.band import drawn
from torqcheck.assessment.ramp.cases import Cases, Sample, members_of, nominal_sample
from torqcheck.assessment.ramp.limits import Limits, joint_peaks, limits_of, quiet
from torqcheck.assessment.ramp.result import Point
from torqcheck.assessment.result import Link
from torqcheck.assessment.torque.starts import starts_of
from torqcheck.checks import Check, weakest_first
from torqcheck.scenario import Scenario
from torqcheck.scenario.estimates import peak_torque
from torqcheck.scenario.ledger import Outlook

__all__ = ["LEAST_DAMPING", "PERCENTILE", "SLOWEST_RISE_TIME", "Question", "question_of"]

PERCENTILE = 0.95
LOW, MIDDLE = 0.05, 0.50
LEAST_DAMPING, MOST_PERIODS = 0.002, 150.0
"""With less damping the play hammers next to for ever; only ramps of so many natural periods are followed."""
SLOWEST_RISE_TIME = 20.0
"""Seconds from zero to full torque: slower than any machine is driven."""


@dataclass(frozen=True, slots=True)
class Question:
    """What the searches ask of one scenario. `regen` holds the swing that has a rise of its own."""

    prepared: Prepared
    limits: Limits
    cases: Cases
    regen: Cases | None
    sample: Sample
    motor_torque: float

    @property
    def slowest(self) -> float:
        """Slowest rise that is looked at, N m/s."""
        path, longest = self.prepared.path, SLOWEST_RISE_TIME
        if path.lash > 0.0 and path.damping_ratio < LEAST_DAMPING:
            longest = min(longest, MOST_PERIODS * float(self.cases.periods.max()))
        return self.motor_torque / longest

    @property
    def steady(self) -> float:
        """Largest torque in the path after the swing, N m at the reference joint."""
        return float(self.cases.steady.max())

    def points(self, cases: Cases, rises: Sequence[float]) -> tuple[Point, ...]:
        """The curve at these rises: as stated from all members, the band from the leading ones."""
        asked = np.array(rises)
        drive, brake = cases.directions(cases.nominal, asked)
        drive_band, brake_band = cases.directions(self.sample, asked)
        demand = np.maximum(drive_band / self.limits.drive, brake_band / self.limits.brake)
        at_limit = np.quantile(demand, PERCENTILE, axis=1)
        high_drive, high_brake = (np.quantile(band, PERCENTILE, axis=1) for band in (drive_band, brake_band))
        largest = np.maximum(drive_band, brake_band)
        low, middle, high = np.quantile(largest, (LOW, MIDDLE, PERCENTILE), axis=1)
        points = []
        for i, rise in enumerate(rises):
            here = self.weakest(float(drive[i, 0]), float(brake[i, 0]))
            there = self.weakest(float(high_drive[i]), float(high_brake[i]))
            stated = max(drive[i, 0] / self.limits.drive, brake[i, 0] / self.limits.brake) <= 1.0
            points.append(
                Point(
                    rise=float(rise),
                    peak=float(max(drive[i, 0], brake[i, 0])),
                    low=float(low[i]),
                    middle=float(middle[i]),
                    high=float(high[i]),
                    factor=here.safety_factor,
                    factor_high=there.safety_factor,
                    weakest=there,
                    holds_as_stated=bool(stated),
                    holds=bool(at_limit[i] <= 1.0),
                )
            )
        return tuple(points)

    def checks(self, drive: float, brake: float) -> tuple[Check, ...]:
        """The checks that a ramp can mend, at these peaks of the reference joint."""
        prepared = quiet(self.prepared)
        mendable = []
        skip = {(check.joint, check.name, check.method) for check in self.limits.standing}
        for index, peak in enumerate(joint_peaks(prepared, drive, brake)):
            mendable += [
                check
                for check in checks_at(prepared, index, peak)
                if check.method != "guide, tabulated"
                and check.decides
                and (check.joint, check.name, check.method) not in skip
            ]
        return tuple(mendable)

    def weakest(self, drive: float, brake: float) -> Link:
        """The weakest of them."""
        check = weakest_first(self.checks(drive, brake))[0]
        factor = check.safety_factor if check.safety_factor is not None else math.inf
        return Link.of(check, factor)

    def holds_at(self, cases: Cases, rise: float) -> bool:
        """Whether the values as stated and the percentile of the draws keep the targets at one rise."""
        asked = np.array([rise])
        if cases.demands(cases.nominal, asked)[0, 0] > 1.0:
            return False
        return bool(np.quantile(cases.demands(self.sample, asked)[0], PERCENTILE) <= 1.0)


def question_of(scenario: Scenario, outlook: Outlook = "as stated", limits: Limits | None = None) -> Question:
    """Resolve a scenario, find the limits unless they are known, and draw."""
    prepared = prepared_of(scenario, outlook)
    load = prepared.loads[prepared.path.reference]
    starts = starts_of(scenario, load, 1.0)
    own = scenario.motor.regen_rise is not None
    shared = tuple(start for start in starts if not (own and start.braking))
    apart = tuple(
        replace(start, torque_rise=load.ratio / load.efficiency) for start in starts if own and start.braking
    )
    limits = limits_of(prepared) if limits is None else limits
    nominal, slip = nominal_sample(prepared.path), prepared.path.slip
    return Question(
        prepared=prepared,
        limits=limits,
        cases=Cases(members_of(prepared.path, shared), limits, nominal, slip),
        regen=Cases(members_of(prepared.path, apart), limits, nominal, slip) if apart else None,
        sample=drawn(prepared),
        motor_torque=peak_torque(scenario.motor),
    )
