"""What was found about the axial stack: frozen data, and the JSON of it."""

from dataclasses import dataclass
from typing import Any, Literal

from torqcheck.assessment.stack.sums import Contributor, Range
from torqcheck.checks import Verdict
from torqcheck.scenario.ledger import MissingReading

__all__ = ["CollarResult", "PartPlace", "ShimResult", "StackCheck", "SumResult"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SumResult:
    """
    One engagement or gap, m.

    `least` is what it must have: as written, or assumed for a gap, or None for an engagement that only
    must not come apart.
    """

    name: str
    kind: Literal["engagement", "gap"]
    joint: str
    against: str
    assembled: Range
    running: Range
    growth: float
    least: float | None
    least_assumed: bool
    verdict: Verdict
    best_verdict: Verdict
    doubt: str
    contributors: tuple[Contributor, ...]
    begins_at: float | None

    @property
    def worse(self) -> Range:
        """The state in which it is the least."""
        return min(self.assembled, self.running, key=lambda state: state.least)

    @property
    def worst(self) -> float:
        """Least value over both states in the worst case."""
        return self.worse.least

    @property
    def greatest(self) -> float:
        """Largest value over both states in the worst case."""
        return max(self.assembled.greatest, self.running.greatest)

    @property
    def chance(self) -> float:
        """Chance that it closes, or comes apart, in the worse state."""
        return max(self.assembled.chance, self.running.chance)

    @property
    def room(self) -> float:
        """What is left above the least that it must have; negative where it is short."""
        return self.worst - (self.least or 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class CollarResult:
    """Where a stop collar must sit, m: as stated, and the window."""

    name: str
    engagement: str
    gap: str
    position: float
    low: float
    high: float
    verdict: Verdict
    begins_at: float | None

    @property
    def move(self) -> float:
        """How far to move it into the window; 0 if it is there or there is none."""
        if self.low > self.high:
            return 0.0
        return min(max(self.position, self.low), self.high) - self.position


@dataclass(frozen=True, slots=True, kw_only=True)
class ShimResult:
    """The pack of shims that brings one result to its target, m; None with a reason where none does."""

    place: str
    result: str
    target: float
    pack: tuple[float, ...] | None
    wanted: float
    reason: str
    after: tuple[SumResult, ...]

    @property
    def thickness(self) -> float | None:
        """Thickness of the pack; None where there is none."""
        return None if self.pack is None else sum(self.pack)


@dataclass(frozen=True, slots=True)
class PartPlace:
    """A part of the drawing, m."""

    name: str
    begins_at: float
    ends_at: float
    outside_diameter: float
    bore: float


@dataclass(frozen=True, slots=True, kw_only=True)
class StackCheck:
    """The axial stack as it is: every sum, the collars, the shims, one verdict."""

    verdict: Verdict
    best_verdict: Verdict
    results: tuple[SumResult, ...]
    collars: tuple[CollarResult, ...]
    shim: ShimResult | None
    parts: tuple[PartPlace, ...]
    assembled_at: float
    running_at: float
    missing: tuple[MissingReading, ...]

    def to_dict(self) -> dict[str, Any]:
        """Return it as plain data, lengths in mm."""
        shim = self.shim
        return {
            "verdict": self.verdict,
            "joints": [_engagement(one) for one in self.results if one.kind == "engagement"],
            "gaps": [_gap(one) for one in self.results if one.kind == "gap"],
            "collars": [
                {
                    "name": collar.name,
                    "position_mm": 1e3 * collar.position,
                    "least_mm": 1e3 * collar.low,
                    "most_mm": 1e3 * collar.high,
                    "move_mm": 1e3 * collar.move,
                    "verdict": collar.verdict,
                }
                for collar in self.collars
            ],
            "shim_mm": None if shim is None or shim.thickness is None else 1e3 * shim.thickness,
            "shim": None
            if shim is None
            else {
                "in": shim.place,
                "result": shim.result,
                "target_mm": 1e3 * shim.target,
                "wanted_mm": 1e3 * shim.wanted,
                "pack_mm": None if shim.pack is None else [1e3 * piece for piece in shim.pack],
                "reason": shim.reason or None,
                "after": [_after(one) for one in shim.after],
            },
            "assembled_at_K": self.assembled_at,
            "running_at_K": self.running_at,
        }


def _engagement(one: SumResult) -> dict[str, Any]:
    return {
        "name": one.joint or one.name,
        "result": one.name,
        "engagement_mm": {
            "min": 1e3 * one.worst,
            "nominal": 1e3 * one.assembled.nominal,
            "max": 1e3 * one.greatest,
        },
        "chance_of_coming_apart": one.chance,
        **_common(one),
    }


def _gap(one: SumResult) -> dict[str, Any]:
    return {
        "name": one.name,
        "min_mm": 1e3 * one.worst,
        "nominal_mm": 1e3 * one.assembled.nominal,
        "max_mm": 1e3 * one.greatest,
        "chance_of_contact": one.chance,
        "against": one.against or None,
        **_common(one),
    }


def _common(one: SumResult) -> dict[str, Any]:
    return {
        "least_allowed_mm": None if one.least is None else 1e3 * one.least,
        "least_allowed_mark": None if one.least is None else "assumed" if one.least_assumed else "measured",
        "verdict": one.verdict,
        "doubt": one.doubt or None,
        "growth_mm": 1e3 * one.growth,
        "assembled": _range(one.assembled),
        "running": _range(one.running),
        "contributors": [
            {
                "name": each.name,
                "tolerance_mm": 1e3 * each.tolerance,
                "share_of_worst_case": each.share_of_worst,
                "share_of_variance": each.share_of_variance,
                "growth_mm": 1e3 * each.growth,
            }
            for each in one.contributors
        ],
    }


def _range(state: Range) -> dict[str, Any]:
    def ends(pair: tuple[float, float]) -> dict[str, float]:
        return {"min": 1e3 * pair[0], "max": 1e3 * pair[1]}

    return {
        "nominal_mm": 1e3 * state.nominal,
        "worst_case_mm": ends((state.least, state.greatest)),
        "root_sum_square_mm": ends(state.statistical),
        "root_sum_square_x_1.5_mm": ends(state.widened),
        "chance_below_0": state.chance,
        "chance_below_0_as_if_normal": state.normal_chance,
    }


def _after(one: SumResult) -> dict[str, Any]:
    return {
        "name": one.name,
        "kind": one.kind,
        "min_mm": 1e3 * one.worst,
        "nominal_mm": 1e3 * one.assembled.nominal,
        "max_mm": 1e3 * one.greatest,
        "verdict": one.verdict,
    }
