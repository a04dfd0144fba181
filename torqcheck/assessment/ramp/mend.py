"""When even the slowest ramp fails: what would let it hold, computed by changing one thing at a time."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any, TypeAlias

from torqcheck.assessment.ramp.controller import rounded_down, rounded_up
from torqcheck.assessment.ramp.question import Question, question_of
from torqcheck.assessment.ramp.result import Mend
from torqcheck.assessment.result import Link
from torqcheck.checks import Check
from torqcheck.scenario import Scenario
from torqcheck.scenario.estimates import peak_torque
from torqcheck.scenario.joint_schema import SplineJoint, engagement_of

__all__ = ["mends_of"]

MOST_TRIES, STEP, FARTHEST = 6, 0.02, 50.0
LONGEST_ENGAGEMENT = 3.0
MORE_DAMPING = 0.08
"""Upper end of what a metal torque path has."""
LEAST_HELP = 1.01
"""A factor that rises by less has not been helped."""

Edit: TypeAlias = Callable[[float], Scenario]


def mends_of(question: Question, failing: tuple[Check, ...]) -> tuple[Mend, ...]:
    """
    Try, at the slowest ramp, less torque, longer engagement, new lash and more damping.

    Parameters
    ----------
    question : Question
        The scenario as stated.
    failing : tuple of Check
        Checks below their target at the slowest ramp; what their steel would have to allow, and the
        target that would hold, follow from them.
    """
    now = _weakest(question, question.prepared.scenario)
    mends = [
        _less_torque(question),
        _clutch(question),
        *_longer_engagement(question, {check.joint for check in failing}),
        *_softer(question, now),
    ]
    for check in failing:
        needed = check.value * check.target
        mends.append(
            Mend(f"{check.joint}: {check.name}", check.allowable, needed, "stress", check.target, True)
        )
    if now.safety_factor >= 1.0:
        target = rounded_down(now.safety_factor)
        mends.append(Mend("targets.safety_factor", now.target, target, None, now.safety_factor, True))
    return tuple(mend for mend in mends if mend is not None)


def _weakest(question: Question, scenario: Scenario) -> Link:
    """The weakest check of a changed scenario at the slowest ramp."""
    changed = question_of(scenario, question.prepared.ledger.outlook, question.limits)
    return changed.points(changed.cases, [changed.slowest])[0].weakest


def _change(block: Any, **fields: Any) -> Any:
    """A frozen block of the scenario with some fields replaced."""
    return block.model_copy(update=fields)


def _enough(
    question: Question, edit: Edit, now: float, power: float, rounded: Callable[[float], float]
) -> tuple[float, Link]:
    """
    Change a value until the slowest ramp holds, as far as it is rounded, and return the last one tried.

    `power` says how the safety factor goes with the value, roughly: 1 for a length, -1 for a torque.
    """
    value, link = now, _weakest(question, edit(now))
    for _ in range(MOST_TRIES):
        wanted = value * (link.target / link.safety_factor) ** (1.0 / power)
        # at least one step further, lest the last digits stand still
        value = rounded(wanted if rounded(wanted) != value else wanted * (1.0 + power * STEP))
        link = _weakest(question, edit(value))
        if link.safety_factor >= link.target or not 1.0 / FARTHEST < value / now < FARTHEST:
            break
    return value, link


def _less_torque(question: Question) -> Mend | None:
    """Motor torque, driving and braking, that the slowest ramp can bring."""
    scenario, motor = question.prepared.scenario, question.prepared.scenario.motor
    now = peak_torque(motor)

    def with_torque(torque: float) -> Scenario:
        fields: dict[str, Any] = {"boost": motor.boost * torque / now}
        if motor.regen_torque is not None and motor.regen_torque.value > torque:
            fields["regen_torque"] = replace(motor.regen_torque, value=torque)
        return _change(scenario, motor=_change(motor, **fields))  # type: ignore[no-any-return]

    torque, link = _enough(question, with_torque, now, -1.0, rounded_down)
    if link.safety_factor < link.target:
        return None
    return Mend("motor.peak_torque", now, torque, "torque", link.safety_factor, True)


def _longer_engagement(question: Question, joints: set[str]) -> Iterator[Mend]:
    """Engagement with which a failing joint holds, if one of up to three times that of now is enough."""
    scenario = question.prepared.scenario
    for index, (joint, resolved) in enumerate(zip(scenario.joint, question.prepared.joints, strict=True)):
        if not isinstance(joint, SplineJoint) or resolved.name not in joints:
            continue
        now = engagement_of(joint).value
        length, link = _enough(question, _with_engagement(scenario, index), now, 1.0, rounded_up)
        holds = link.safety_factor >= link.target and length <= LONGEST_ENGAGEMENT * now
        if not holds:
            length = LONGEST_ENGAGEMENT * now
            link = _weakest(question, _with_engagement(scenario, index)(length))
        yield Mend(f"{resolved.key}.engagement", now, length, "length", link.safety_factor, holds)


def _with_engagement(scenario: Scenario, index: int) -> Edit:
    """Return the edit that gives one joint another engagement."""
    joint = scenario.joint[index]
    assert isinstance(joint, SplineJoint)

    def edit(length: float) -> Scenario:
        longer = _change(joint, engagement=replace(engagement_of(joint), value=length))
        joints = (*scenario.joint[:index], longer, *scenario.joint[index + 1 :])
        return _change(scenario, joint=joints)  # type: ignore[no-any-return]

    return edit


def _softer(question: Question, now: Link) -> Iterator[Mend]:
    """As-new lash and more damping: they soften the blow, and do nothing about the steady torque."""
    scenario, path = question.prepared.scenario, question.prepared.path
    renewed = tuple(
        _change(joint, lash="as new") if isinstance(joint, SplineJoint) else joint for joint in scenario.joint
    )
    tight = _change(scenario, joint=renewed)
    lash = question_of(tight, "as stated", question.limits).prepared.path.lash
    if lash < path.lash:
        link = _weakest(question, tight)
        yield Mend("lash", path.lash, lash, "angle", link.safety_factor, _helps(now, link))
    if path.damping_ratio < MORE_DAMPING:
        damped = _change(scenario, driven=_change(scenario.driven, damping_ratio=MORE_DAMPING))
        link = _weakest(question, damped)
        yield Mend(
            "driven.damping_ratio",
            path.damping_ratio,
            MORE_DAMPING,
            None,
            link.safety_factor,
            _helps(now, link),
        )


def _clutch(question: Question) -> Mend | None:
    """Slip torque of a clutch at which the slowest ramp holds; what the ground lets through cannot be set."""
    scenario, slip = question.prepared.scenario, question.prepared.scenario.driven.slip
    if slip is None or slip.torque is None or slip.inertia_before is None:
        return None

    reading = slip.torque

    def with_slip(torque: float) -> Scenario:
        weaker = _change(slip, torque=replace(reading, value=torque))
        return _change(scenario, driven=_change(scenario.driven, slip=weaker))  # type: ignore[no-any-return]

    now = reading.value
    torque, link = _enough(question, with_slip, now, -1.0, rounded_down)
    return Mend(
        "driven.slip.torque", now, torque, "torque", link.safety_factor, link.safety_factor >= link.target
    )


def _helps(before: Link, after: Link) -> bool:
    return after.safety_factor > LEAST_HELP * before.safety_factor
