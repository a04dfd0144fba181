"""How unevenly the teeth of one joint carry a torque, as frozen data."""

from dataclasses import dataclass
from typing import Any

from torqcheck.assessment.bench.play_result import Spread, percentiles_of

__all__ = ["LoadDistribution"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadDistribution:
    """How unevenly the teeth carry one torque. SI; spreads are median and 95th percentile of the draws.

    `line_load` is the largest load per length of any tooth, `first` the share of the whole load that
    one tooth carries, `peak` the largest over the mean load per length with everything at once;
    `axial` and `tilt` are what twist alone and tilt alone would make of it.
    """

    torque: float
    teeth: int
    line_load: Spread
    first: Spread
    peak: Spread
    contact: float
    axial: float
    tilt: float
    take_off: str
    length: float
    off_centre: float
    index_sigma: float
    draws: int
    seed: int

    @property
    def effective_length(self) -> float:
        """Length that would carry the torque at its largest load, teeth even."""
        return self.length / self.axial

    def to_dict(self) -> dict[str, Any]:
        """Return the block as plain data, the unit in the key."""
        return {
            "torque_Nm": self.torque,
            "first_tooth_share": percentiles_of(self.first),
            "even_share": 1.0 / self.teeth,
            "peak_over_mean": percentiles_of(self.peak),
            "peak_line_load_N_mm": percentiles_of((self.line_load[0] / 1e3, self.line_load[1] / 1e3)),
            "contact_share": self.contact,
            "axial_factor": self.axial,
            "tilt_factor": self.tilt,
            "take_off": self.take_off,
            "effective_length_mm": self.effective_length * 1e3,
            "off_centre_mm": self.off_centre * 1e3,
            "index_error_um": self.index_sigma * 1e6,
            "draws": self.draws,
            "seed": self.seed,
        }
