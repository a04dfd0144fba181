"""The answer on the ramp: frozen data, and `to_dict` for the JSON of the result contract."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from torqcheck.assessment.ramp.controller import Language, Rise
from torqcheck.assessment.ramp.first_tooth_result import FirstTooth
from torqcheck.assessment.result import Link, assumption_entry, missing_entry
from torqcheck.assessment.verdict.answered import Answered
from torqcheck.assessment.verdict.reason import Reason
from torqcheck.checks import Check, Verdict
from torqcheck.scenario.ledger import Assumption, Caution, MissingReading
from torqcheck.units import Kind

__all__ = ["Mend", "Point", "Ramp", "RegenRamp", "TracedBlow", "TwoStageSetting", "Window"]


@dataclass(frozen=True, slots=True)
class Window:
    """Faster rises that hold by their phase alone, N m/s; `fast` is infinite if it has no end."""

    slow: float
    fast: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """One rise, N m/s at the motor shaft, with the peak torque at the reference joint, N m.

    `peak` and `factor` are for the values as stated; `low`, `middle` and `high` for the 5th, 50th and
    95th percentile of the draws, `factor_high` for the last. The factors are those of the weakest check.
    """

    rise: float
    peak: float
    low: float
    middle: float
    high: float
    factor: float
    factor_high: float
    weakest: Link
    holds_as_stated: bool
    holds: bool


@dataclass(frozen=True, slots=True)
class TwoStageSetting:
    """Closing torque, N m, its duration, s, then the slope, N m/s; and what it brings. At the motor shaft."""

    closing_torque: float
    closing_time: float
    rise: float
    time_to_peak: float
    time_in_one_stage: float

    @property
    def saved(self) -> float:
        """Share of the time to full torque that it saves."""
        return 1.0 - self.time_to_peak / self.time_in_one_stage


@dataclass(frozen=True, slots=True, kw_only=True)
class RegenRamp:
    """The swing from drive into regeneration, where it has a rise of its own. N m/s at the motor shaft."""

    as_set: Point
    largest: float | None
    regen_torque: float

    @property
    def holds(self) -> bool:
        """Whether the rise that is set keeps the targets, as stated and over the draws."""
        return self.as_set.holds and self.as_set.holds_as_stated


@dataclass(frozen=True, slots=True)
class Mend:
    """Something that would let the slowest ramp hold, or would not; SI.

    `value` is what is needed (or what was tried), `now` what is there; `factor` the safety factor that
    it gives at the slowest ramp; `helps` says whether that is worth anything.
    """

    key: str
    now: float
    value: float
    kind: Kind | None
    factor: float
    helps: bool


@dataclass(frozen=True, slots=True)
class TracedBlow:
    """The worst blow with the values as stated at one setting: its name, and what the kernel is given."""

    setting: str
    start: str
    arguments: Mapping[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ramp(Answered):
    """
    Everything that the search for the ramp found.

    `verdict` and `decided_by` are those of `assess` with the setting recommended, if there is one;
    `as_set_verdict` is that of `assess` as set now, where the search would leave the setting as it is.
    """

    verdict: Verdict
    language: Language
    motor_torque: float
    joint: str
    allowed: tuple[float, float]
    steady: float
    recommended: Point | None
    any_rise: bool
    limit: float | None
    limit_as_stated: float | None
    proven: bool
    as_set: Point
    slowest: Point
    curve: tuple[Point, ...]
    lobes: tuple[tuple[float, float], ...]
    windows: tuple[Window, ...]
    two_stage: TwoStageSetting | None
    two_stage_reason: str
    regeneration: RegenRamp | None
    standing: tuple[Check, ...]
    besides: tuple[str, ...]
    first_teeth: tuple[FirstTooth, ...]
    decided_by: tuple[Reason, ...]
    as_set_verdict: Verdict | None
    failing: tuple[Check, ...]
    mends: tuple[Mend, ...]
    traced: tuple[TracedBlow, ...]
    undecided_by: tuple[MissingReading, ...]
    assumptions: tuple[Assumption, ...]
    cautions: tuple[Caution, ...]
    draws: int
    seed: int
    percentile: float

    @property
    def weakest(self) -> Link:
        """The weakest check at the setting recommended, at the slowest ramp if there is none."""
        return (self.recommended or self.slowest).weakest

    @property
    def reason(self) -> str:
        """Why this setting, in one sentence."""
        weakest, percent = self.weakest, f"{100 * self.percentile:.0f}"
        if self.recommended is None:
            return (
                f"even the slowest ramp looked at, {self.said(self.slowest.rise).rise_time:g} s, leaves "
                f"{weakest.joint}, {weakest.check}, at a safety factor of {weakest.safety_factor:.3g} "
                f"against {weakest.target:g} in the {percent}th percentile of the draws"
            )
        text = (
            "at this rise and at every slower one all checks that feel the blow keep their target, as "
            f"stated and in {percent} of 100 draws"
        )
        if self.any_rise:
            return (
                f"{text}; even a torque that is there at once does, so this is only the fastest usual setting"
            )
        return f"{text}; the next faster setting is not sure to"

    def said(self, rise: float) -> Rise:
        """A rise in the forms of the controller."""
        return Rise(rise, self.motor_torque)

    def to_dict(self) -> dict[str, Any]:
        """Return the full result as plain data for JSON: SI values, the unit in the key."""
        best = self.recommended
        return {
            **self.head(),
            "verdict": self.verdict,
            "decided_by": [reason.to_dict() for reason in self.decided_by],
            **self._said(None if best is None else best.rise),
            "weakest": _link(self.weakest),
            "curve": [self._point(point) for point in self.curve if math.isfinite(point.rise)],
            "two_stage": self._two_stage(),
            "two_stage_reason": self.two_stage_reason or None,
            "reason": self.reason,
            "motor_peak_torque_Nm": self.motor_torque,
            "recommended": None if best is None else self._point(best),
            "as_set": self._point(self.as_set),
            "slowest": self._point(self.slowest),
            "limit": self._limit(self.limit),
            "limit_as_stated": self._limit(self.limit_as_stated),
            "any_rise_holds": self.any_rise,
            "slower_rises_proven": self.proven,
            "fast_windows": [
                {"from_Nm_s": window.slow, "to_Nm_s": _finite(window.fast)} for window in self.windows
            ],
            "regeneration": self._regeneration(),
            "reference_joint": self.joint,
            "allowed_peak_torque_Nm": {"driving": self.allowed[0], "braking": self.allowed[1]},
            "steady_torque_Nm": self.steady,
            "not_mended_by_a_ramp": [_check(check) for check in self.standing]
            + [{"finding": finding} for finding in self.besides],
            "first_tooth_not_held": [tooth.to_dict() for tooth in self.first_teeth],
            "verdict_as_set": self.as_set_verdict,
            "failing_at_the_slowest": [_check(check) for check in self.failing],
            "mends": [
                {
                    "key": mend.key,
                    "now": mend.now,
                    "value": mend.value,
                    "kind": mend.kind,
                    "safety_factor": mend.factor,
                    "helps": mend.helps,
                }
                for mend in self.mends
            ],
            "percentile": 100.0 * self.percentile,
            "draws": self.draws,
            "seed": self.seed,
            "undecided_by": [missing_entry(entry) for entry in self.undecided_by],
            "assumptions": [assumption_entry(entry) for entry in self.assumptions],
            "cautions": [{"key": entry.key, "text": entry.text} for entry in self.cautions],
        }

    def _two_stage(self) -> dict[str, Any] | None:
        """The rise in two stages, if one was found."""
        found = self.two_stage
        if found is None:
            return None
        return {
            "closing_torque_Nm": found.closing_torque,
            "closing_time_s": found.closing_time,
            "torque_rise_Nm_s": found.rise,
            "time_to_full_torque_s": found.time_to_peak,
            "time_in_one_stage_s": found.time_in_one_stage,
            "saved": found.saved,
        }

    def _regeneration(self) -> dict[str, Any] | None:
        """What was found about the rise in regeneration, if it has one of its own."""
        found = self.regeneration
        if found is None:
            return None
        return {
            "as_set": self._point(found.as_set),
            "largest_regen_rise_Nm_s": found.largest,
            "regen_torque_Nm": found.regen_torque,
        }

    def _said(self, rise: float | None) -> dict[str, float | None]:
        """The three forms of a rise; an instant one has no slope and no percentage."""
        if rise is None:
            return {"torque_rise_Nm_s": None, "rise_time_s": None, "percent_per_10ms": None}
        said = self.said(rise)
        return {
            "torque_rise_Nm_s": _finite(rise),
            "rise_time_s": said.rise_time,
            "percent_per_10ms": _finite(said.percent_per_10ms),
        }

    def _limit(self, rise: float | None) -> dict[str, float | None] | None:
        return None if rise is None else self._said(rise)

    def _point(self, point: Point) -> dict[str, Any]:
        return {
            **self._said(point.rise),
            "peak_torque_Nm": point.peak,
            "safety_factor": point.factor,
            "peak_torque_band_Nm": {"p5": point.low, "p50": point.middle, "p95": point.high},
            "safety_factor_p95": point.factor_high,
            "weakest": _link(point.weakest),
            "holds_as_stated": point.holds_as_stated,
            "holds": point.holds,
        }


def _finite(value: float) -> float | None:
    return value if math.isfinite(value) else None


def _link(link: Link) -> dict[str, Any]:
    return {
        "joint": link.joint,
        "check": link.check,
        "method": link.method,
        "safety_factor": _finite(link.safety_factor),
        "target": link.target,
    }


def _check(check: Check) -> dict[str, Any]:
    return {
        "joint": check.joint,
        "check": check.name,
        "method": check.method,
        "safety_factor": check.safety_factor,
        "target": check.target,
        "verdict": check.verdict,
    }
