"""What to do after a verdict, fitting what decided it; one place for terminal and printout."""

from collections.abc import Iterator

from torqcheck.assessment.result import Assessment
from torqcheck.assessment.verdict.reason import Reason, ReasonKind

__all__ = ["next_step"]

PASSED = "Next: {first}, guard what turns, and spin up behind a barrier."
ON_PAPER = "sign below, file the printout with the parts' readings"
ON_SCREEN = "print it with `torqcheck sheet`, sign it and file it with the parts' readings"
FALSE_FIT = (
    "Next: do not put it together. Find the part that belongs to the other one (`torqcheck identify` tells "
    "which spline lies on the bench), and check again."
)
STACK_FIRST = "First the stack: `torqcheck stack` says what has to move, and by which shim."
STACK = "Next: do not put it together so. `torqcheck stack` says what has to move, and by which shim."
FAILED = "Next: do not run it so."
MARGINAL = "Next: decide whether that is enough."
READINGS = (
    "Next: take {what} named above, write {it} into the file, and check again (`torqcheck influence` tells "
    "which reading moves the result most)."
)
STRENGTH = (
    "`torqcheck compare` shows which steels would hold, `torqcheck size` which engagement, count or bore; "
    "`torqcheck why` takes the factor apart."
)
OTHER_JOINT = (
    "`torqcheck why` takes the factor apart and shows which size, steel, preload or fit it hangs on; change "
    "that and check again."
)
BLOW = "Where the blow brings it down, `torqcheck ramp` looks for a gentler setting of the controller."
FIRST_TOOTH = (
    "For the first tooth: a truer alignment, more engagement or a harder steel (`torqcheck size`, `torqcheck "
    "compare`), or leave it to bed in and look at its flank at the first inspection."
)
WEAR = (
    "For the wear: better lubrication, or a truer alignment of the joint; `torqcheck life` shows what ends "
    "the life, and when to open the joint."
)
LOST = "For the wear: renew what is worn; `torqcheck order` gives the drawing data of the new part."
FRETTING = (
    "For the wear, of which no life can be stated: a lubricant that works and is renewed in time; look for "
    "red-brown dust and for cracks at each inspection."
)
FATIGUE = (
    "For the fatigue: a tougher steel (`torqcheck compare`) or softer blows (`torqcheck ramp`); `torqcheck "
    "life` shows the damage over time."
)
WORN = (
    "For the worn mate: renew both parts (`torqcheck order` gives the drawing data), or run it on and read "
    "the lash again at the times that `torqcheck life` names."
)
ALIGNMENT = "For the alignment: put the axes in line and read them again."
BAND = "For the band of the blow: know its inertia and damping better (`torqcheck influence`)."
BY_KIND: tuple[tuple[ReasonKind, str], ...] = (
    ("first tooth", FIRST_TOOTH),
    ("wear", WEAR),
    ("fatigue", FATIGUE),
    ("mate", WORN),
    ("alignment", ALIGNMENT),
    ("band of the blow", BAND),
)
RAISING = ("guide, simulated", "larger load", "material")


def next_step(assessment: Assessment, *, on_paper: bool = False) -> str:
    """
    Say what to do now.

    Parameters
    ----------
    assessment : Assessment
        The result.
    on_paper : bool, optional
        Whether it stands on the printout, with the place to sign below.
    """
    verdict, kinds = assessment.verdict, [reason.kind for reason in assessment.decided_by]
    if any(joint.mate is not None and joint.mate.verdict == "false fit" for joint in assessment.joints):
        return FALSE_FIT
    if verdict == "pass":
        return PASSED.format(first=ON_PAPER if on_paper else ON_SCREEN)
    if verdict == "undecided":
        several = len(assessment.undecided_by) != 1
        return READINGS.format(
            what="the readings" if several else "the reading", it="them" if several else "it"
        )
    if verdict == "fail" and set(kinds) == {"stack"}:
        return STACK
    return " ".join((FAILED if verdict == "fail" else MARGINAL, *dict.fromkeys(_advice(assessment))))


def _advice(assessment: Assessment) -> Iterator[str]:
    """One sentence for each sort of finding that decides."""
    decided = assessment.decided_by
    kinds = {reason.kind for reason in decided}
    if "stack" in kinds:
        yield STACK_FIRST
    for reason in decided:
        if reason.kind == "check":
            yield STRENGTH if _splined(assessment, reason) else OTHER_JOINT
    if any(reason.kind == "check" and _blown(assessment, reason) for reason in decided):
        yield BLOW
    for kind, words in BY_KIND:
        if kind in kinds:
            yield words if kind != "wear" or _has_a_life(assessment) else _no_life(assessment)


def _no_life(assessment: Assessment) -> str:
    """What to do about wear that is at its limit, or that no law speaks of."""
    return LOST if assessment.verdict == "fail" else FRETTING


def _splined(assessment: Assessment, reason: Reason) -> bool:
    """Whether a check is one of a splined joint."""
    return any(joint.name == reason.joint and joint.mate is not None for joint in assessment.joints)


def _blown(assessment: Assessment, reason: Reason) -> bool:
    """Whether the blow loads a check harder than the steady torque does."""
    return any(
        joint.name == reason.joint
        and reason.method in RAISING
        and joint.peak_torque > max(joint.torque, joint.regen_torque)
        for joint in assessment.joints
    )


def _has_a_life(assessment: Assessment) -> bool:
    """Whether the wear that decides is one of a life that is too short, not one that is over."""
    return any(
        joint.wear is not None and joint.wear.verdict == assessment.verdict and joint.wear.life is not None
        for joint in assessment.joints
    )
