"""The engagement that the axial stack gives to a joint: the least of the worst case, cold and in service."""

from typing import Any

from torqcheck.assessment.stack.sums import Service, SignedSum, State
from torqcheck.assessment.stack.terms import sum_of, terms_of
from torqcheck.scenario import Scenario
from torqcheck.scenario.joint_names import joint_name
from torqcheck.scenario.joint_schema import SplineJoint
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.quantity import Reading
from torqcheck.scenario.stack_rules import engagement_indices

__all__ = ["LEAST_CHECKED", "with_stack_engagement"]

LEAST_CHECKED = 1e-3
"""m; what is checked where the stack lets the teeth come apart."""
STATES: tuple[State, ...] = ("assembled", "running")


def with_stack_engagement(scenario: Scenario, ledger: Ledger) -> Scenario:
    """
    Return the scenario with the engagements that its stack gives; the smaller one where both are written.

    It counts at the least of the worst case over both states, so that it is not drawn again.
    """
    if scenario.stack is None:
        return scenario
    results = [(result.kind, result.joint) for result in scenario.stack.result]
    indices = engagement_indices(results, [(joint.name, joint.kind) for joint in scenario.joint])
    if all(index is None for index in indices):
        return scenario
    terms = terms_of(scenario.stack, ledger)
    joints: list[Any] = list(scenario.joint)
    for place, index in enumerate(indices):
        joint = joints[index] if index is not None else None
        if isinstance(joint, SplineJoint) and index is not None:
            signed = sum_of(scenario.stack.result[place], terms, place)
            joints[index] = _with(joint, index, signed, ledger)
    return scenario.model_copy(update={"joint": tuple(joints)})


def _with(joint: SplineJoint, index: int, signed: SignedSum, ledger: Ledger) -> SplineJoint:
    """One joint with the engagement of the stack, unless what it states itself is smaller."""
    service: Service = "most" if ledger.outlook == "favourable" else "as stated"
    least = min(signed.least(state, service) for state in STATES)
    key, name = f"joint[{index + 1}]", joint_name(joint, index)
    own = joint.engagement
    if own is not None:
        _compare(key, name, own, signed, ledger)
        if own.value <= least:
            return joint
    if least < LEAST_CHECKED:
        ledger.warn(
            f"{key} engagement by the stack",
            f"{name}: in the worst case the axial stack leaves {least * 1e3:.2f} mm of engagement. The "
            f"checks take {LEAST_CHECKED * 1e3:g} mm and mean little: mend the stack first.",
        )
        least = LEAST_CHECKED
    ledger.assume(
        f"{key}.engagement",
        least,
        "length",
        "by the axial stack: the least in the worst case, cold and in service",
        mark="derived",
    )
    # no tolerance: it is at its least already
    reading = Reading(least, 0.0, f"{least * 1e3:.3f} mm +/- 0 mm", "length", "derived")
    return joint.model_copy(update={"engagement": reading})


def _compare(key: str, name: str, own: Reading, signed: SignedSum, ledger: Ledger) -> None:
    """Say where the engagement as written and that by the stack cannot both be right."""
    ranges = [signed.range(state) for state in STATES]
    low, high = min(one.least for one in ranges), max(one.greatest for one in ranges)
    if low <= own.value + own.tolerance and own.value - own.tolerance <= high:
        return
    ledger.warn(
        f"{key} engagement twice",
        f'{name}: engagement = "{own.text}" and the axial stack, {low * 1e3:.2f} to {high * 1e3:.2f} mm, '
        "contradict each other by more than the tolerances; the smaller one is used. Mend the one that is "
        "wrong.",
    )
