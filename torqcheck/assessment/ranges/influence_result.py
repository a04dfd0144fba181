"""What moves the weakest link most: the result, and its JSON."""

from dataclasses import dataclass
from typing import Any

from torqcheck.assessment.ranges.uncertain import Uncertain
from torqcheck.assessment.result import Link, interval_entry
from torqcheck.assessment.verdict.answered import Answered
from torqcheck.units import in_unit

__all__ = ["Influence", "InfluenceRow", "WearShares", "spread_from"]


@dataclass(frozen=True, slots=True, kw_only=True)
class InfluenceRow:
    """
    One reading or assumption.

    Parameters
    ----------
    uncertain : Uncertain
        What it is, its value, its spread and how to know it better.
    share : float
        Total effect: the part of the spread that is left if all else were known exactly.
    share_band : tuple of float
        Between these it lies in 95 of 100 repetitions with other draws of the same number.
    first_order : float
        The part by which the spread shrinks on average once this one is known exactly.
    interval_if_known : tuple of float
        5th and 95th percentile of the lowest safety factor if it were known exactly.
    """

    uncertain: Uncertain
    share: float
    share_band: tuple[float, float]
    first_order: float
    interval_if_known: tuple[float, float]

    def to_dict(self) -> dict[str, Any]:
        """Return the row as plain data for JSON."""
        entry = self.uncertain
        low, high = entry.ends
        return {
            "key": entry.key,
            "share": self.share,
            "interval_if_known": interval_entry(self.interval_if_known),
            "share_p2_5": self.share_band[0],
            "share_p97_5": self.share_band[1],
            "first_order": self.first_order,
            "meaning": entry.meaning,
            "value": _shown(entry, entry.value),
            "low": _shown(entry, low),
            "high": _shown(entry, high),
            "spread_from": spread_from(entry),
            "mark": entry.mark,
            "better": entry.better or None,
        }


def _shown(entry: Uncertain, value: float, digits: int = 4) -> str:
    """A value in words, with its unit."""
    if entry.scale:
        return f"{value:.{digits}g} {entry.scale}"
    if entry.kind is None:
        return f"{value:.{digits}g}"
    number, unit = in_unit(value, entry.kind, "si")
    return f"{number:.{digits}g} {unit}"


def spread_from(entry: Uncertain) -> str:
    """Where the spread of a value comes from."""
    if entry.band is not None:
        return "band of the assumption"
    return "tolerance as written" if entry.written else "usual tolerance"


@dataclass(frozen=True, slots=True, kw_only=True)
class WearShares:
    """
    What makes the wear life of one joint uncertain.

    Parameters
    ----------
    joint : str
        Name of the joint.
    sigma : float
        Of the logarithm of the life, all parts together.
    sigma_drawn : float
        The same from the drawn lives; larger where grease ends at a time that nobody knows.
    parts : tuple
        What, sigma, share of the square of the sum, how to know it better; largest first.
    grease : bool
        The time for which the grease works comes on top and is not in the parts.
    """

    joint: str
    sigma: float
    sigma_drawn: float | None
    parts: tuple[tuple[str, float, float, str], ...]
    grease: bool

    def to_dict(self) -> dict[str, Any]:
        """Return the shares as plain data for JSON."""
        return {
            "joint": self.joint,
            "sigma_ln": self.sigma,
            "sigma_ln_drawn": self.sigma_drawn,
            "grease_life_on_top": self.grease,
            "rows": [
                {"what": what, "sigma_ln": sigma, "share": share, "better": better}
                for what, sigma, share, better in self.parts
            ],
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class Influence(Answered):
    """
    Everything that `influence` found.

    The interval is that of the lowest factor over all checks of the joints as a whole; `apart` are the
    checks of the first tooth alone, which are judged by themselves, the weakest first.
    """

    verdict: str
    weakest: Link | None
    interval: tuple[float, float] | None
    chance_below_one: float | None
    governing: tuple[tuple[str, str, str, float], ...]
    apart: tuple[Link, ...]
    rows: tuple[InfluenceRow, ...]
    unmoved: tuple[str, ...]
    wear: tuple[WearShares, ...]
    draws: int
    blows: int
    evaluations: int
    seed: int

    def to_dict(self) -> dict[str, Any]:
        """Return the result as plain data for JSON."""
        weakest = self.weakest
        return {
            **self.head(),
            "verdict": self.verdict,
            "weakest": None
            if weakest is None
            else {
                "joint": weakest.joint,
                "check": weakest.check,
                "method": weakest.method,
                "safety_factor": weakest.safety_factor,
                "target": weakest.target,
            },
            "quantity": "logarithm of the lowest safety factor over target, over all checks of the joints as "
            "a whole",
            "measure": "total effect (Sobol), variance-based",
            "interval": interval_entry(self.interval),
            "chance_below_1": self.chance_below_one,
            "governing": [
                {"joint": joint, "check": check, "method": method, "share_of_draws": share}
                for joint, check, method, share in self.governing
            ],
            "judged_apart": [_apart(link) for link in self.apart],
            "rows": [row.to_dict() for row in self.rows],
            "moves_nothing": list(self.unmoved),
            "wear": [entry.to_dict() for entry in self.wear],
            "draws": {
                "count": self.draws,
                "of_the_blow": self.blows,
                "evaluations": self.evaluations,
                "seed": self.seed,
            },
        }


def _apart(link: Link) -> dict[str, Any]:
    """A check of the first tooth alone as plain data."""
    return {
        "joint": link.joint,
        "check": link.check,
        "method": link.method,
        "safety_factor": link.safety_factor,
        "target": link.target,
        "interval": interval_entry(link.interval),
        "chance_below_1": link.chance_below_one,
    }
