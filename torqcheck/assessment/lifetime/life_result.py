"""The result of `life`: how each joint wears, when its life ends and when to open it; frozen data."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from torqcheck.assessment.fatigue.result import FatigueResult
from torqcheck.assessment.lifetime.inspection_plan import InspectionPlan
from torqcheck.assessment.result import MateResult, assumption_entry, missing_entry
from torqcheck.assessment.verdict.answered import Answered
from torqcheck.assessment.verdict.whole import WholeCheck
from torqcheck.checks import Verdict
from torqcheck.scenario.ledger import Assumption, Caution, MissingReading

__all__ = ["JointLife", "Life", "LifeLimit", "LifePoint", "OtherJoint", "SeenReading"]

Range = tuple[float | None, float | None, float | None]
"""Tenth, fiftieth and ninetieth percentile; None beyond what was followed."""


@dataclass(frozen=True, slots=True)
class LifePoint:
    """A joint after some running hours: lash in m; blow in N m and lowest factor at the median lash."""

    hours: float
    lash: Range
    blow: float
    safety_factor: float | None
    check: str
    damage: float | None = None


@dataclass(frozen=True, slots=True)
class LifeLimit:
    """One thing that can end the life: its own hours if nothing else did, and the share that it ends."""

    name: str
    hours: Range
    share: float


@dataclass(frozen=True, slots=True)
class SeenReading:
    """A later lash reading beside what was expected before it, m along the pitch circle, and hours."""

    hours: float
    clearance: float
    expected: tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class JointLife:
    """One joint. Hours run from where the lash of the scenario was read; m, N m."""

    name: str
    verdict: Verdict | None
    mate: MateResult
    reason: str
    life: tuple[float, float, float] | None = None
    limit: str = ""
    share_reaching: float | None = None
    plain_median: float | None = None
    limits: tuple[LifeLimit, ...] = ()
    growth: tuple[LifePoint, ...] = ()
    fan: tuple[LifePoint, ...] = ()
    lash_limit: float
    plan: InspectionPlan | None = None
    stop_travel: tuple[float, float] | None = None
    pitch_diameter: float
    readings: tuple[SeenReading, ...] = ()
    rate_over_median: tuple[float, float, float] | None = None
    sigma: float | None = None
    guide_revolutions: float | None = None
    guide_hours: float | None = None
    fatigue: FatigueResult

    @property
    def now(self) -> float:
        """Running hours at the last reading."""
        return self.readings[-1].hours if self.readings else 0.0

    def to_dict(self) -> dict[str, Any]:
        """Return the joint as plain data, the unit in the key."""
        plan = self.plan
        return {
            "name": self.name,
            "verdict": self.verdict,
            "mate": self.mate.verdict,
            "life_hours": _named(self.life),
            "share_reaching_service_life": self.share_reaching,
            "limit": self.limit or None,
            "reason": self.reason or None,
            "median_hours_without_blow_wear": self.plain_median,
            "limits": [
                {"name": limit.name, "hours": _named(limit.hours), "share": limit.share}
                for limit in self.limits
            ],
            "growth": [_point(point) for point in self.growth],
            "lash_limit_mm": 1e3 * self.lash_limit,
            "inspection_hours": None if plan is None else plan.interval,
            "next_inspection_hours": None if plan is None else plan.next_at,
            "stop_reading_mm": None if plan is None else 1e3 * plan.stop_reading,
            "stop_reading_travel": None
            if self.stop_travel is None
            else {"travel_mm": 1e3 * self.stop_travel[0], "radius_mm": 1e3 * self.stop_travel[1]},
            "chance_between_inspections": None if plan is None else plan.chance,
            "readings": [
                {
                    "hours": seen.hours,
                    "lash_mm": 1e3 * seen.clearance,
                    "expected_mm": _named([1e3 * value for value in seen.expected]),
                }
                for seen in self.readings
            ],
            "rate_over_median": _named(self.rate_over_median),
            "sigma_ln": self.sigma,
            "guide_revolutions": self.guide_revolutions,
            "guide_hours": self.guide_hours,
            "fatigue": self.fatigue.to_dict(),
        }


@dataclass(frozen=True, slots=True)
class OtherJoint:
    """A joint beside the splines: it does not wear here, but it can tire."""

    name: str
    kind: str
    fatigue: FatigueResult

    def to_dict(self) -> dict[str, Any]:
        """Return the joint as plain data."""
        return {"name": self.name, "kind": self.kind, "fatigue": self.fatigue.to_dict()}


@dataclass(frozen=True, slots=True, kw_only=True)
class Life(Answered):
    """Everything that `life` found; `verdict` is that of the lives alone, `whole` that of the whole check."""

    verdict: Verdict | None
    whole: WholeCheck
    joints: tuple[JointLife, ...]
    others: tuple[OtherJoint, ...]
    service_life: float
    reliability: float
    hours_per_year: float | None
    blow_wear: float
    draws: int
    seed: int
    undecided_by: tuple[MissingReading, ...]
    assumptions: tuple[Assumption, ...]
    cautions: tuple[Caution, ...]

    @property
    def worse(self) -> Verdict | None:
        """The worse of both verdicts; None where neither finds fault and no life is stated."""
        return self.whole.verdict if self.whole.worse_than(self.verdict) else self.verdict

    def to_dict(self) -> dict[str, Any]:
        """Return the full result as plain data for JSON, the unit in the key; absent values are None."""
        return {
            **self.head(),
            "verdict": self.verdict,
            "whole_check": self.whole.to_dict(),
            "undecided_by": [missing_entry(entry) for entry in self.undecided_by],
            "joints": [joint.to_dict() for joint in self.joints],
            "other_joints": [joint.to_dict() for joint in self.others],
            "targets": {
                "service_life_hours": self.service_life / 3600.0,
                "reliability": self.reliability,
                "running_per_year_hours": self.hours_per_year,
            },
            "blow_wear_share": self.blow_wear,
            "draws": self.draws,
            "seed": self.seed,
            "assumptions": [assumption_entry(entry) for entry in self.assumptions],
            "cautions": [{"key": entry.key, "text": entry.text} for entry in self.cautions],
        }


def _named(values: Sequence[float | None] | None) -> dict[str, float | None] | None:
    return None if values is None else dict(zip(("p10", "p50", "p90"), values, strict=True))


def _point(point: LifePoint) -> dict[str, Any]:
    return {
        "hours": point.hours,
        "lash_mm": _named([None if value is None else 1e3 * value for value in point.lash]),
        "blow_Nm": point.blow,
        "safety_factor": point.safety_factor,
        "check": point.check or None,
        "fatigue_damage": point.damage,
    }
