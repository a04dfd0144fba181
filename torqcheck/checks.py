"""One stress against one limit, and the words for the outcome."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal

from torqcheck.provenance import Mark, Source, weakest_mark

__all__ = [
    "VERDICTS",
    "Check",
    "Member",
    "Method",
    "Quantity",
    "Verdict",
    "weakest",
    "weakest_first",
    "worst_verdict",
]

Verdict = Literal["pass", "marginal", "undecided", "fail"]
Method = Literal["guide, tabulated", "guide, simulated", "material", "larger load"]
Member = Literal[
    "external",
    "internal",
    "both",
    "shaft",
    "hub",
    "key",
    "bolts",
    "dowels",
    "flange",
    "driving flange",
    "driven flange",
    "pin",
    "screws",
    "sleeve",
    "weld",
]
Quantity = Literal["stress", "torque", "force"]
"""What value and allowable are: Pa, N m or N."""

VERDICTS: tuple[Verdict, ...] = ("pass", "marginal", "undecided", "fail")
"""From best to worst."""

_NO_FACTORS: Mapping[str, float] = MappingProxyType({})


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One stress, torque or force against one limit, in one member of one joint. SI, no rounding.

    `value` holds the load factors and `allowable` the life factor, so that the safety factor is
    simply their ratio; the factors themselves stand in `factors`. `torque` is that of the joint under
    which the value arises, 0 where none enters. `interval` holds the 5th and the
    95th percentile of the safety factor, and `chance_below_one` the share of draws in which it is
    below 1, over everything that was read or assumed; None until it has been drawn.

    A `local` check sees first yield of one tooth or one end of it. Ductile steel gives way there until
    others share, so that the check is marginal at worst; where the part `cracks` instead, it fails.

    A check that does not count (`counts`) belongs to a path beside the one that carries the joint, like the
    bolts in clearance holes beside the friction of the faces: it is shown, and decides nothing.
    """

    joint: str
    name: str
    method: Method
    member: Member
    value: float
    allowable: float
    target: float
    torque: float
    factors: Mapping[str, float] = field(default_factory=lambda: _NO_FACTORS)
    sources: tuple[Source, ...]
    interval: tuple[float, float] | None = None
    chance_below_one: float | None = None
    local: bool = False
    cracks: bool = False
    quantity: Quantity = "stress"
    counts: bool = True

    @property
    def safety_factor(self) -> float | None:
        """Allowable over value; None when nothing loads the part."""
        return self.allowable / self.value if self.value else None

    @property
    def verdict(self) -> Verdict:
        """Pass at the target or above, fail below 1, marginal between or where the part beds in."""
        factor = self.safety_factor
        if factor is None or factor >= self.target:
            return "pass"
        return "marginal" if factor >= 1.0 or not self.decides else "fail"

    @property
    def decides(self) -> bool:
        """Whether the joint is lost where the safety factor is below 1."""
        return self.counts and (self.cracks or not self.local)

    @property
    def mark(self) -> Mark:
        """The weakest mark of everything that the check rests on."""
        return weakest_mark(source.mark for source in self.sources)

    @property
    def margin(self) -> float:
        """Safety factor over target; what the weakest link is the lowest of. Infinite if unloaded."""
        factor = self.safety_factor
        return float("inf") if factor is None else factor / self.target


def weakest_first(checks: Iterable[Check]) -> list[Check]:
    """
    Return the checks in the order of their margin; local ones stand last, unless they fail.

    Behind all of them stand those that do not count.

    Parameters
    ----------
    checks : iterable of Check
        In any order.
    """
    return sorted(
        checks,
        key=lambda check: (not check.counts, check.local and check.verdict != "fail", check.margin),
    )


def weakest(checks: Iterable[Check]) -> Check | None:
    """
    Return the check that is the weakest link; None where nothing that counts is loaded.

    Parameters
    ----------
    checks : iterable of Check
        In any order.
    """
    loaded = [check for check in checks if check.counts and check.safety_factor is not None]
    return weakest_first(loaded)[0] if loaded else None


def worst_verdict(verdicts: tuple[Verdict, ...]) -> Verdict:
    """
    Return the worst of several verdicts: fail, then undecided, then marginal, then pass.

    Parameters
    ----------
    verdicts : tuple of str
        None at all is a pass.
    """
    return max(verdicts, key=VERDICTS.index, default="pass")
