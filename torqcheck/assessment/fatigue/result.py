"""What was found about the torsional fatigue of one joint: frozen data, and its JSON."""

from dataclasses import dataclass
from typing import Any

from torqcheck.checks import Check, Member, Verdict
from torqcheck.fatigue import LIFE_SCATTER

__all__ = ["CycleKind", "DinSafety", "FatigueMemberResult", "FatigueResult"]


@dataclass(frozen=True, slots=True, kw_only=True)
class CycleKind:
    """One kind of cycle at the governing place. N m, Pa; `life` is None where it does nothing."""

    name: str
    per_hour: float
    torque_low: float
    torque_high: float
    amplitude: float
    mean: float
    reversed_amplitude: float
    life: float | None
    damage_share: float

    def to_dict(self) -> dict[str, Any]:
        """Return it as plain data, stresses in MPa."""
        return {
            "name": self.name,
            "per_hour": self.per_hour,
            "torque_low_Nm": self.torque_low,
            "torque_high_Nm": self.torque_high,
            "amplitude_MPa": self.amplitude / 1e6,
            "mean_MPa": self.mean / 1e6,
            "reversed_amplitude_MPa": self.reversed_amplitude / 1e6,
            "life_cycles": self.life,
            "damage_share": self.damage_share,
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class DinSafety:
    """The second method, beside and never blended: infinite life after the outline of DIN 743. Pa."""

    safety_factor: float
    least: float
    amplitude: float
    allowable: float
    notch_factor: float
    limit: float

    def to_dict(self) -> dict[str, Any]:
        """Return it as plain data, nominal stresses in MPa."""
        return {
            "safety_factor": self.safety_factor,
            "least": self.least,
            "amplitude_MPa": self.amplitude / 1e6,
            "allowable_MPa": self.allowable / 1e6,
            "notch_factor": self.notch_factor,
            "limit_MPa": self.limit / 1e6,
            "mark": "from memory",
            "holds_for": "infinite life under the largest torque cycle, no credit for a hard layer",
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class FatigueMemberResult:
    """
    One member or notch: damage per hour at each place and at the worst, and the steps that lead there. SI.

    Beside it, never blended: `din_743` for a splined shaft, `de_goodman` for a notch of a shaft; both
    are safety factors for endless life.
    """

    side: Member
    damage_per_hour: float | None
    life: float | None
    reason: str
    place: str = ""
    places: tuple[tuple[str, float], ...] = ()
    steps: dict[str, float]
    cycles: tuple[CycleKind, ...] = ()
    din_743: DinSafety | None = None
    de_goodman: float | None = None
    check: Check | None = None

    @property
    def worst_cycle(self) -> CycleKind | None:
        """The kind of cycle that does most of the damage."""
        return max(self.cycles, key=lambda kind: kind.damage_share, default=None)

    def to_dict(self) -> dict[str, Any]:
        """Return it as plain data."""
        return {
            "member": self.side,
            "damage_per_hour": self.damage_per_hour,
            "life_hours": None if self.life is None else self.life / 3600.0,
            "reason": self.reason or None,
            "place": self.place or None,
            "places": [{"name": name, "damage_per_hour": damage} for name, damage in self.places],
            "steps": dict(self.steps),
            "cycles": [kind.to_dict() for kind in self.cycles],
            "din_743": None if self.din_743 is None else self.din_743.to_dict(),
            "de_goodman_factor": self.de_goodman,
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class FatigueResult:
    """Torsional fatigue of one joint: its members, the one that suffers most first. SI."""

    verdict: Verdict | None
    service_damage: float | None
    members: tuple[FatigueMemberResult, ...]
    reason: str

    @property
    def governing(self) -> FatigueMemberResult | None:
        """The member that suffers most."""
        return self.members[0] if self.members else None

    @property
    def life(self) -> float | None:
        """Running time until the damage is 1, s; None with a reason where there is none to state."""
        governing = self.governing
        return None if governing is None else governing.life

    @property
    def life_range(self) -> tuple[float, float] | None:
        """The life divided and multiplied by the scatter of such estimates, s."""
        return None if self.life is None else (self.life / LIFE_SCATTER, self.life * LIFE_SCATTER)

    @property
    def checks(self) -> tuple[Check, ...]:
        """One check for each member that has a damage."""
        return tuple(member.check for member in self.members if member.check is not None)

    def to_dict(self) -> dict[str, Any]:
        """Return the finding as plain data: hours, MPa, N m."""
        governing, span = self.governing, self.life_range
        return {
            "damage_per_hour": None if governing is None else governing.damage_per_hour,
            "life_hours": None if self.life is None else self.life / 3600.0,
            "life_hours_range": None
            if span is None
            else {"low": span[0] / 3600.0, "high": span[1] / 3600.0, "factor": LIFE_SCATTER},
            "service_damage": self.service_damage,
            "verdict": self.verdict,
            "reason": self.reason or None,
            "member": None if governing is None else governing.side,
            "place": None if governing is None else governing.place or None,
            "steps": {} if governing is None else dict(governing.steps),
            "cycles": [] if governing is None else [kind.to_dict() for kind in governing.cycles],
            "din_743": None
            if governing is None or governing.din_743 is None
            else governing.din_743.to_dict(),
            "de_goodman_factor": None if governing is None else governing.de_goodman,
            "members": [member.to_dict() for member in self.members],
        }
