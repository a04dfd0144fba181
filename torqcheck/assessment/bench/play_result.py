"""What the play of a joint does, as frozen data: the same blow with several plays, and its first tooth."""

from dataclasses import dataclass
from typing import Any, Literal

from torqcheck.provenance import Mark

__all__ = ["FirstTooth", "PlayResult", "PlayRow", "PlayState", "Spread", "percentiles_of"]

PlayState = Literal["as measured", "as inferred", "as assumed", "as new", "at the lash limit"]
Spread = tuple[float, float]
"""Median and 95th percentile."""


@dataclass(frozen=True, slots=True)
class FirstTooth:
    """Load of the first tooth to touch: share of the whole, N, and Pa on its flank (None if crowned)."""

    share: Spread
    load: Spread
    pressure: Spread | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlayRow:
    """One play of a joint and what it does. SI.

    `radial_play` runs from stop to stop. `held` is the first tooth with the shaft held off centre by
    half of it, `centred` with the shaft free to find its centre. `closing_speed` and `blow_energy`
    are those of a start from rest, the speed at the reference joint; None where no gap is crossed.
    """

    state: PlayState
    mark: Mark
    lash: float
    clearance: float
    radial_play: float
    blow_torque: float
    closing_speed: float | None
    blow_energy: float | None
    held: FirstTooth
    centred: FirstTooth
    safety_factor: float | None
    check: str | None

    def to_dict(self) -> dict[str, Any]:
        """Return the row as plain data, the unit in the key."""
        return {
            "state": self.state,
            "lash_mark": self.mark,
            "lash_rad": self.lash,
            "clearance_mm": self.clearance * 1e3,
            "radial_play_mm": self.radial_play * 1e3,
            "blow_torque_Nm": self.blow_torque,
            "closing_speed_rad_s": self.closing_speed,
            "blow_energy_J": self.blow_energy,
            **_tooth(self.held),
            "centred": _tooth(self.centred),
            "safety_factor": self.safety_factor,
            "check": self.check,
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class PlayResult:
    """The rows of one joint, the yield strength that the first flank is held against, and remarks."""

    rows: tuple[PlayRow, ...]
    flank_yield: float
    index_sigma: float
    draws: int
    seed: int
    notes: tuple[str, ...]

    def to_dict(self) -> dict[str, Any]:
        """Return the comparison as plain data, the unit in the key."""
        return {
            "rows": [row.to_dict() for row in self.rows],
            "flank_yield_MPa": self.flank_yield / 1e6,
            "index_sigma_mm": self.index_sigma * 1e3,
            "draws": self.draws,
            "seed": self.seed,
            "note": " ".join(self.notes),
        }


def _tooth(tooth: FirstTooth) -> dict[str, Any]:
    pressure = None if tooth.pressure is None else (tooth.pressure[0] / 1e6, tooth.pressure[1] / 1e6)
    return {
        "first_tooth_N": percentiles_of(tooth.load),
        "first_tooth_share": percentiles_of(tooth.share),
        "first_tooth_pressure_MPa": None if pressure is None else percentiles_of(pressure),
    }


def percentiles_of(values: Spread) -> dict[str, float]:
    """Return a spread as plain data."""
    return {"p50": values[0], "p95": values[1]}
