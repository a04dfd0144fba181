"""The result of a whole check: frozen data, and `to_dict` for the JSON of the result contract."""

import math
from dataclasses import dataclass
from typing import Any, Literal

from torqcheck.assessment.bench.alignment_result import AlignmentResult
from torqcheck.assessment.bench.play_result import PlayResult
from torqcheck.assessment.fatigue.result import FatigueResult
from torqcheck.assessment.stack.result import StackCheck
from torqcheck.assessment.teeth.load_distribution import LoadDistribution
from torqcheck.assessment.verdict.answered import Answered
from torqcheck.assessment.verdict.reason import Reason
from torqcheck.checks import Check, Verdict
from torqcheck.scenario.ledger import Assumption, Caution, MissingReading
from torqcheck.units import in_unit

__all__ = [
    "Assessment",
    "Draws",
    "JointResult",
    "Link",
    "MateResult",
    "MateVerdict",
    "PathStep",
    "ShockResult",
    "WearResult",
    "assumption_entry",
    "interval_entry",
    "missing_entry",
]

MateVerdict = Literal["true mate", "worn mate", "false fit", "not measured"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShockResult:
    """The blow, referred to the first spline joint. SI."""

    joint: str
    start: str
    driven_side: str
    peak_torque: float
    drive_peak_torque: float
    brake_peak_torque: float
    held_peak_torque: float
    band_peak_torque: float
    least_torque: float
    steady_torque: float
    dynamic_factor: float
    natural_frequency: float
    closing_time: float | None
    closing_speed: float | None
    blow_energy: float | None
    contact_losses: int
    slipped: bool
    slip_time: float | None
    firm_peak_torque: float | None
    torque_rise: float | None
    driving_inertia: float
    driven_inertia: float | None
    stiffness: float
    damping_ratio: float
    lash: float
    softest: str
    compliance: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MateResult:
    """Whether the two halves of a joint belong together."""

    verdict: MateVerdict
    reasons: tuple[str, ...]
    next_readings: tuple[str, ...] = ()
    missing: float | None = None
    free_teeth: int | None = None
    off_centre_clearance: float | None = None
    off_centre_offset: float | None = None
    runout: float | None = None
    clearance: float | None = None
    new_clearance: tuple[float, float, float | None] | None = None
    external_wear: float | None = None
    internal_wear: float | None = None

    def to_dict(self) -> dict[str, Any]:
        """Return the finding as plain data, lengths in mm."""
        new = self.new_clearance
        return {
            "verdict": self.verdict,
            "reasons": list(self.reasons),
            "next_readings": list(self.next_readings),
            "assembly": {
                "centred": {"missing_mm": _millimetres(self.missing), "free_teeth": self.free_teeth},
                "off_centre": {
                    "clearance_mm": _millimetres(self.off_centre_clearance),
                    "offset_mm": _millimetres(self.off_centre_offset),
                    "runout_mm": _millimetres(self.runout),
                },
            },
            "lash": {
                "clearance_mm": _millimetres(self.clearance),
                "new_min_mm": None if new is None else new[0] * 1e3,
                "new_max_mm": None if new is None else new[1] * 1e3,
                "bedded_in_mm": None if new is None else _millimetres(new[2]),
            },
            "wear_mm": {
                "external": _millimetres(self.external_wear),
                "internal": _millimetres(self.internal_wear),
            },
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class WearResult:
    """
    Wear life as a range, s of running; None with a reason where there is none to state.

    `frets`: the flanks slip, too little for the wear law to hold.
    """

    verdict: Verdict | None
    life: tuple[float, float, float] | None
    share_reaching_service_life: float | None
    limit: str
    reason: str
    guide_revolutions: float | None
    guide_life: float | None
    slip_amplitude: float | None
    spread: float | None
    softer_member: str
    frets: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class JointResult:
    """One joint of the path with everything that was found about it. SI."""

    name: str
    kind: str
    description: str
    torque: float
    regen_torque: float
    peak_torque: float
    lash: float | None
    lash_limit: float | None
    tilt: float | None
    verdict: Verdict
    undecided_by: tuple[MissingReading, ...]
    doubt: str
    checks: tuple[Check, ...]
    load_distribution: LoadDistribution | None
    mate: MateResult | None
    wear: WearResult | None
    fatigue: FatigueResult
    play: PlayResult | None
    alignment: AlignmentResult | None
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Link:
    """The weakest link: the check with the lowest safety factor over target."""

    joint: str
    check: str
    method: str
    safety_factor: float
    target: float
    interval: tuple[float, float] | None = None
    chance_below_one: float | None = None

    @classmethod
    def of(cls, check: Check, factor: float) -> "Link":
        """Take a check whose safety factor is known to be a number."""
        return cls(
            check.joint,
            check.name,
            check.method,
            factor,
            check.target,
            check.interval,
            check.chance_below_one,
        )


@dataclass(frozen=True, slots=True)
class PathStep:
    """One line of the torque path: what turns how fast under which torque. SI."""

    name: str
    torque: float
    speed: float
    note: str


@dataclass(frozen=True, slots=True)
class Draws:
    """From how many draws the intervals come, how many of them differ in the blow, and their seed."""

    count: int
    blows: int
    seed: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Assessment(Answered):
    """Everything that `assess` found; `besides` are findings that are less grave than what decides."""

    verdict: Verdict
    best_verdict: Verdict
    undecided_by: tuple[MissingReading, ...]
    weakest: Link | None
    path: tuple[PathStep, ...]
    shock: ShockResult
    joints: tuple[JointResult, ...]
    assumptions: tuple[Assumption, ...]
    cautions: tuple[Caution, ...]
    service_life: float
    reliability: float
    running_per_year: float | None
    seed: int
    draws: Draws
    stack: StackCheck | None = None
    decided_by: tuple[Reason, ...] = ()
    besides: tuple[Reason, ...] = ()

    def to_dict(self) -> dict[str, Any]:
        """Return the result as plain data for strict JSON: SI, unit in the key; absent values are None."""
        return {
            **self.head(),
            "verdict": self.verdict,
            "best_verdict": self.best_verdict,
            "decided_by": [reason.to_dict() for reason in self.decided_by],
            "undecided_by": [missing_entry(entry) for entry in self.undecided_by],
            "weakest": None
            if self.weakest is None
            else {
                "joint": self.weakest.joint,
                "check": self.weakest.check,
                "method": self.weakest.method,
                "safety_factor": self.weakest.safety_factor,
                "target": self.weakest.target,
                "interval": interval_entry(self.weakest.interval),
                "chance_below_1": self.weakest.chance_below_one,
            },
            "path": [
                {"name": step.name, "torque_Nm": step.torque, "speed_rad_s": step.speed, "note": step.note}
                for step in self.path
            ],
            "shock": _shock(self.shock),
            "joints": [_joint(joint) for joint in self.joints],
            "stack": None if self.stack is None else self.stack.to_dict(),
            "targets": {
                "service_life_hours": self.service_life / 3600.0,
                "reliability": self.reliability,
                "running_per_year_hours": _hours(self.running_per_year),
            },
            "seed": self.seed,
            "draws": {"count": self.draws.count, "of_the_blow": self.draws.blows, "seed": self.draws.seed},
            "assumptions": [assumption_entry(entry) for entry in self.assumptions],
            "cautions": [{"key": entry.key, "text": entry.text} for entry in self.cautions],
        }


def _hours(seconds: float | None) -> float | None:
    return None if seconds is None else seconds / 3600.0


def _millimetres(length: float | None) -> float | None:
    return None if length is None else length * 1e3


def missing_entry(entry: MissingReading) -> dict[str, str]:
    """Return one missing reading as plain data for JSON."""
    return {"joint": entry.joint, "reading": entry.reading, "how": entry.how}


def _shock(shock: ShockResult) -> dict[str, Any]:
    return {
        "joint": shock.joint,
        "start": shock.start,
        "driven_side": shock.driven_side,
        "peak_torque_Nm": shock.peak_torque,
        "held_peak_torque_Nm": shock.held_peak_torque,
        "band_peak_torque_Nm": shock.band_peak_torque,
        "least_torque_Nm": shock.least_torque,
        "steady_torque_Nm": shock.steady_torque,
        "dynamic_factor": shock.dynamic_factor,
        "natural_frequency_Hz": shock.natural_frequency,
        "closing_time_s": shock.closing_time,
        "closing_speed_rad_s": shock.closing_speed,
        "blow_energy_J": shock.blow_energy,
        "contact_losses": shock.contact_losses,
        "slipped": shock.slipped,
        "slip_time_s": shock.slip_time,
        "firm_peak_torque_Nm": shock.firm_peak_torque,
        "inputs": {
            "torque_rise_Nm_s": shock.torque_rise,
            "driving_inertia_kgm2": shock.driving_inertia,
            "driven_inertia_kgm2": shock.driven_inertia,
            "stiffness_Nm_rad": shock.stiffness,
            "damping_ratio": shock.damping_ratio,
            "lash_rad": shock.lash,
            "softest": shock.softest,
            "compliance_shares": dict(shock.compliance),
        },
    }


def _joint(joint: JointResult) -> dict[str, Any]:
    return {
        "name": joint.name,
        "kind": joint.kind,
        "description": joint.description,
        "torque_Nm": joint.torque,
        "regen_torque_Nm": joint.regen_torque,
        "peak_torque_Nm": joint.peak_torque,
        "lash_rad": joint.lash,
        "lash_limit_mm": _millimetres(joint.lash_limit),
        "tilt_rad": joint.tilt,
        "verdict": joint.verdict,
        "undecided_by": [missing_entry(entry) for entry in joint.undecided_by],
        "doubt": joint.doubt or None,
        "notes": list(joint.notes),
        "checks": [_check(check) for check in joint.checks],
        "load_distribution": None if joint.load_distribution is None else joint.load_distribution.to_dict(),
        "mate": None if joint.mate is None else joint.mate.to_dict(),
        "wear": None if joint.wear is None else _wear(joint.wear),
        "play": None if joint.play is None else joint.play.to_dict(),
        "alignment": None if joint.alignment is None else joint.alignment.to_dict(),
        "fatigue": joint.fatigue.to_dict(),
    }


def interval_entry(interval: tuple[float, float] | None) -> dict[str, float] | None:
    """Return the 5th and the 95th percentile as plain data for JSON."""
    return None if interval is None else {"p5": interval[0], "p95": interval[1]}


def _check(check: Check) -> dict[str, Any]:
    return {
        "name": check.name,
        "method": check.method,
        "member": check.member,
        "value": in_unit(check.value, check.quantity, "si")[0],
        "allowable": in_unit(check.allowable, check.quantity, "si")[0],
        "unit": in_unit(check.value, check.quantity, "si")[1],
        "safety_factor": check.safety_factor,
        "target": check.target,
        "interval": interval_entry(check.interval),
        "chance_below_1": check.chance_below_one,
        "verdict": check.verdict,
        "local": check.local,
        "counts": check.counts,
        "torque_Nm": check.torque,
        "factors": dict(check.factors),
        "mark": check.mark,
        "source": "; ".join(str(source) for source in check.sources),
    }


def _wear(wear: WearResult) -> dict[str, Any]:
    life = wear.life
    names = ("p10", "p50", "p90")
    return {
        "verdict": wear.verdict,
        "life_hours": None if life is None else {n: _hours(v) for n, v in zip(names, life, strict=True)},
        "share_reaching_service_life": wear.share_reaching_service_life,
        "limit": wear.limit,
        "reason": wear.reason,
        "fretting": wear.frets,
        "slip_amplitude_mm": _millimetres(wear.slip_amplitude),
        "sigma_ln": wear.spread,
        "softer_member": wear.softer_member,
        "guide_revolutions": wear.guide_revolutions,
        "guide_hours": _hours(wear.guide_life),
    }


def assumption_entry(entry: Assumption) -> dict[str, Any]:
    """Return one assumption as plain data for JSON, its values in words."""

    def shown(value: float | None) -> str | None:
        if value is None:
            return None
        if entry.kind is None or not math.isfinite(value):
            return f"{value:.3g}"
        number, unit = in_unit(value, entry.kind, "si")
        return f"{number:.3g} {unit}"

    return {
        "key": entry.key,
        "value": entry.word or shown(entry.value),
        "low": shown(entry.low),
        "high": shown(entry.high),
        "mark": entry.mark,
        "why": entry.why,
    }
