"""What one edited scenario says: every demand on a joint by itself, so that a search can tell them apart."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, TypeAlias

from torqcheck.assessment.assess import assess, assess_without_ranges
from torqcheck.assessment.result import Assessment, JointResult
from torqcheck.checks import VERDICTS, Check, Verdict, weakest
from torqcheck.errors import DomainError, NoSolutionError
from torqcheck.scenario import Scenario

__all__ = ["STACK", "Demand", "Key", "Sort", "Trial", "confirmed_trial", "quick_trial", "refused", "trial_of"]

Sort: TypeAlias = Literal["check", "wear", "fatigue", "mate", "alignment", "blow", "reading", "stack", "rule"]
Key: TypeAlias = tuple[str, ...]
STACK = "the axial stack"


@dataclass(frozen=True, slots=True)
class Demand:
    """
    One thing that must be right before a joint passes.

    `factor` and `target` where it is a number (of a wear life the share of the estimates that reach the
    service life, and the reliability that is wanted); `words` what is wrong otherwise.
    """

    sort: Sort
    key: Key
    name: str
    verdict: Verdict
    factor: float | None = None
    target: float | None = None
    words: str = ""

    @property
    def margin(self) -> float | None:
        """Factor over target; None where there is no number."""
        if self.factor is None or self.target is None:
            return None
        return self.factor / self.target

    @property
    def joint(self) -> str:
        """Whose demand it is."""
        return self.key[0]


@dataclass(frozen=True, slots=True)
class Trial:
    """
    One edited scenario: the verdict, every demand on what is asked about, and the lowest factor.

    `effective_length`, m, is what teeth that share evenly would need; `axial_factor` and `tilt_factor` are
    what twist alone and tilt alone make of the load at the end of a tooth. None beside a spline.
    `no_wear_life` says why no wear life is stated and judged, `frets` whether for a slip too small for it.
    """

    verdict: Verdict
    demands: tuple[Demand, ...]
    safety_factor: float | None
    governing: str
    refused: str = ""
    effective_length: float | None = None
    axial_factor: float | None = None
    tilt_factor: float | None = None
    no_wear_life: str = ""
    frets: bool = False

    def holds(self, aside: frozenset[Key] = frozenset()) -> bool:
        """Whether every demand is met, but for those that are set aside."""
        return not self.refused and not any(self.unmet(aside))

    def unmet(self, aside: frozenset[Key] = frozenset()) -> tuple[Demand, ...]:
        """Demands that are not met, the worst first."""
        left = (d for d in self.demands if d.verdict != "pass" and d.key not in aside)
        return tuple(
            sorted(
                left, key=lambda d: (-VERDICTS.index(d.verdict), math.inf if d.margin is None else d.margin)
            )
        )

    def margin(self, aside: frozenset[Key] = frozenset()) -> float:
        """Lowest factor over its target, of those that are not set aside; NaN if the file was refused."""
        if self.refused:
            return math.nan
        margins = [d.margin for d in self.demands if d.margin is not None and d.key not in aside]
        return min(margins, default=math.inf)

    def tightest(self, aside: frozenset[Key] = frozenset()) -> Demand | None:
        """What decides: the worst that is not met, or else the number with the lowest margin."""
        unmet = self.unmet(aside)
        if unmet:
            return unmet[0]
        numbers = [d for d in self.demands if d.margin is not None and d.key not in aside]
        return min(numbers, key=lambda d: d.margin or 0.0, default=None)

    def find(self, key: Key) -> Demand | None:
        """One demand by its key."""
        return next((d for d in self.demands if d.key == key), None)


def quick_trial(scenario: Scenario, *, index: int, whole_path: bool) -> Trial:
    """Ask one scenario without the ranges of its factors, which decide nothing."""
    try:
        return trial_of(assess_without_ranges(scenario), index, whole_path)
    except (DomainError, NoSolutionError) as error:
        return refused(str(error))


def confirmed_trial(scenario: Scenario, *, index: int, whole_path: bool) -> Trial:
    """Ask one scenario as `torqcheck assess` does."""
    try:
        return trial_of(assess(scenario), index, whole_path)
    except (DomainError, NoSolutionError) as error:
        return refused(str(error))


def refused(reason: str) -> Trial:
    """Stand in for a scenario that cannot be."""
    return Trial("fail", (Demand("rule", ("", "rule"), reason, "fail", words=reason),), None, reason, reason)


def trial_of(found: Assessment, index: int, whole_path: bool) -> Trial:
    """Read the demands on one joint, or on the whole path, from an assessment."""
    joints = found.joints if whole_path else (found.joints[index],)
    demands = [demand for joint in joints for demand in _demands(joint, found.reliability)]
    demands += _stack_demands(found, index, whole_path)
    check = weakest(check for joint in joints for check in joint.checks)
    own = found.joints[index]
    spread = own.load_distribution
    return Trial(
        verdict=found.verdict if whole_path else own.verdict,
        demands=tuple(demands),
        safety_factor=None if check is None else check.safety_factor,
        governing="" if check is None else _check_name(check, own.name),
        effective_length=None if spread is None else spread.effective_length,
        axial_factor=None if spread is None else spread.axial,
        tilt_factor=None if spread is None else spread.tilt,
        no_wear_life=own.wear.reason if own.wear is not None and own.wear.verdict is None else "",
        frets=own.wear is not None and own.wear.frets,
    )


def _check_name(check: Check, joint: str = "") -> str:
    """Name of a check as reports call it, with its joint where that is another one."""
    other = f"{check.joint}: " if joint and check.joint != joint else ""
    method = {"guide, tabulated": "steady torque", "guide, simulated": "blow"}.get(check.method)
    return f"{other}{check.name}{f' ({method})' if method else ''}"


def _demands(joint: JointResult, reliability: float) -> Iterator[Demand]:
    """Everything that the verdict of one joint is made of."""
    for check in joint.checks:
        if check.counts:
            key: Key = (joint.name, check.name, check.method, check.member)
            yield Demand("check", key, _check_name(check), check.verdict, check.safety_factor, check.target)
    wear = joint.wear
    if wear is not None and wear.verdict is not None:
        share = wear.share_reaching_service_life
        key = (joint.name, "wear life")
        yield Demand("wear", key, "wear life", wear.verdict, share, reliability, wear.reason)
    if joint.fatigue.verdict is not None:
        damage = joint.fatigue.service_damage
        words = "" if damage is None else f"fatigue damage {damage:.3g} over the service life"
        key = (joint.name, "fatigue life")
        yield Demand("fatigue", key, "fatigue life", joint.fatigue.verdict, words=words)
    yield from _plain_demands(joint)


def _plain_demands(joint: JointResult) -> Iterator[Demand]:
    """What is no number: mate, alignment, the band of the blow, readings."""
    if joint.mate is not None and joint.mate.verdict in {"false fit", "worn mate"}:
        verdict: Verdict = "fail" if joint.mate.verdict == "false fit" else "marginal"
        reason = joint.mate.reasons[0] if joint.mate.reasons else ""
        yield Demand("mate", (joint.name, "mate"), joint.mate.verdict, verdict, words=reason)
    alignment = joint.alignment
    if alignment is not None and any(row.passed for row in alignment.limits):
        words = "tilted beyond what its teeth are meant for"
        yield Demand("alignment", (joint.name, "alignment"), "alignment", "fail", words=words)
    if joint.doubt:
        yield Demand(
            "blow", (joint.name, "band"), "blow at the end of its band", "marginal", words=joint.doubt
        )
    for entry in joint.undecided_by:
        key = (joint.name, "reading", entry.joint, entry.reading)
        words = f"{entry.joint}: {entry.reading} ({entry.how})"
        yield Demand("reading", key, f"reading missing: {entry.reading}", "undecided", words=words)


def _stack_demands(found: Assessment, index: int, whole_path: bool) -> Iterator[Demand]:
    """The axial stack, of the whole path, or as far as it speaks of the joint."""
    if found.stack is None:
        return
    name = found.joints[index].name
    for result in found.stack.results:
        if whole_path or result.joint == name:
            words = result.doubt or f"{result.name}: see torqcheck stack"
            yield Demand("stack", (STACK, result.name), result.name, result.verdict, words=words)
    if not whole_path:
        return
    for collar in found.stack.collars:
        words = f"{collar.name}: see torqcheck stack"
        yield Demand("stack", (STACK, collar.name), collar.name, collar.verdict, words=words)
