"""What a comparison takes from the check of one choice."""

from collections.abc import Iterator
from dataclasses import dataclass

from torqcheck.assessment.assess import assess, weakest_of
from torqcheck.assessment.prepared import prepared_of
from torqcheck.assessment.result import Assessment, JointResult, Link
from torqcheck.assessment.verdict.beside import percent_beside
from torqcheck.checks import Verdict, weakest_first
from torqcheck.errors import DomainError, NoSolutionError
from torqcheck.scenario import Scenario
from torqcheck.scenario.ledger import MissingReading

__all__ = ["Found", "Hindrance", "Unanswered", "found_from", "found_in"]

HOUR = 3600.0


@dataclass(frozen=True, slots=True)
class Unanswered:
    """A choice that could not be checked, and why."""

    reason: str


@dataclass(frozen=True, slots=True)
class Hindrance:
    """What keeps the path from a pass: at which joint, what it is called, and how far it is off, in words."""

    joint: str
    what: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """
    What the check of one choice says; all of it stands in its assessment. SI.

    Parameters
    ----------
    weakest, here : Link or None
        Weakest check of the whole path, and of the joint that is compared; None if nothing is loaded.
    verdict, joint_verdict : str
        Of the whole path, and of the joint.
    hindered : tuple of Hindrance
        What keeps the path from a pass.
    missing : tuple of MissingReading
        Readings without which no pass is given.
    life : tuple of float or None
        Wear life of the joint in s, 10th and 50th percentile.
    life_reason : str
        Why there is no wear life to state, else which limit ends it.
    fatigue_life : float or None
        Running time until the damage of the joint is 1, s; infinite where it is beyond what is known.
    fatigue_reason : str
        Why it is none or infinite.
    vickers : tuple of float
        Flank hardness of shaft and hub that the check has used.
    kept : tuple of bool
        Whether shaft and hub are old parts that stay.
    """

    weakest: Link | None
    here: Link | None
    verdict: Verdict
    joint_verdict: Verdict
    hindered: tuple[Hindrance, ...]
    missing: tuple[MissingReading, ...]
    life: tuple[float, float] | None
    life_reason: str
    fatigue_life: float | None
    fatigue_reason: str
    vickers: tuple[float, float]
    kept: tuple[bool, bool]


def found_in(scenario: Scenario, index: int) -> Found | Unanswered:
    """Assess a scenario, and take from the result what a comparison shows of one joint."""
    try:
        return found_from(scenario, index, assess(scenario))
    except (DomainError, NoSolutionError) as error:
        return Unanswered(str(error))


def found_from(scenario: Scenario, index: int, result: Assessment) -> Found:
    """Take from an assessment what a comparison shows of one joint."""
    joint, state = result.joints[index], prepared_of(scenario, "as stated").joints[index].spline
    assert state is not None
    assert joint.wear is not None
    life, fatigue = joint.wear.life, joint.fatigue
    governing = fatigue.governing
    endless = governing is not None and governing.life is None and governing.damage_per_hour is not None
    return Found(
        weakest=result.weakest,
        here=weakest_of((joint,)),
        verdict=result.verdict,
        joint_verdict=joint.verdict,
        hindered=tuple(_hindrances(result)),
        missing=result.undecided_by,
        life=None if life is None else life[:2],
        life_reason=joint.wear.reason if life is None else joint.wear.limit,
        fatigue_life=float("inf") if endless else fatigue.life,
        fatigue_reason=fatigue.reason,
        vickers=(state.external.vickers, state.internal.vickers),
        kept=(state.joint.external.reused is not False, state.joint.internal.reused is not False),
    )


def _hindrances(result: Assessment) -> Iterator[Hindrance]:
    """What keeps the path from a pass, joint by joint."""
    for joint in result.joints:
        if joint.verdict != "pass":
            yield from (Hindrance(joint.name, what, text) for what, text in _of_joint(joint, result))
    if result.stack is not None and result.stack.verdict != "pass":
        yield Hindrance("axial stack", "stack", "see torqcheck stack")


def _of_joint(joint: JointResult, result: Assessment) -> Iterator[tuple[str, str]]:
    """Its parts of the verdict that are no pass: name, and name with numbers."""
    for check in weakest_first(joint.checks):
        if check.counts and check.verdict != "pass" and check.safety_factor is not None:
            numbers = f"{check.safety_factor:.3g} of {check.target:.3g}"
            yield f"{check.name}, {check.method}", f"{check.name} ({check.method}), {numbers}"
    if joint.mate is not None and joint.mate.verdict in {"worn mate", "false fit"}:
        yield joint.mate.verdict, joint.mate.verdict
    if joint.alignment is not None and joint.alignment.beyond is not None:
        yield "alignment", f"alignment: {joint.alignment.beyond.what}"
    if joint.doubt:
        yield "bands of the blow", joint.doubt.rstrip(".")
    if wear := _of_wear(joint, result):
        yield "wear", wear
    for missing in joint.undecided_by:
        yield f"reading: {missing.reading}", f"a reading is missing: {missing.reading}"


def _of_wear(joint: JointResult, result: Assessment) -> str:
    """How the wear life falls short; nothing if it does not."""
    wear = joint.wear
    if wear is None or wear.verdict in {None, "pass"}:
        return ""
    if wear.share_reaching_service_life is None:
        return wear.reason
    share = percent_beside(wear.share_reaching_service_life, result.reliability)
    return (
        f"wear: {share} % of the estimates reach "
        f"{result.service_life / HOUR:.0f} h, {100.0 * result.reliability:.0f} % wanted"
    )
