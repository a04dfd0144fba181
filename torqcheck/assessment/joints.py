"""The kinds of joint that this version checks. A new kind is one line here and one module."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Protocol

from torqcheck.assessment.factors import LifeFactors
from torqcheck.assessment.members import MemberState, member_state
from torqcheck.assessment.shaft_checks import shaft_checks
from torqcheck.assessment.spline_checks import Line, spline_checks
from torqcheck.assessment.spline_state import SplineState, described, spline_state
from torqcheck.assessment.teeth_under_load import TeethUnderLoad, teeth_under_load
from torqcheck.checks import Check
from torqcheck.materials import Steel
from torqcheck.scenario.joint_schema import ShaftJoint, SplineJoint
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.sizes import bore_of
from torqcheck.scenario.steel_library import Library

__all__ = ["JOINT_KINDS", "Resolved", "resolve", "with_draws_of", "with_spline"]

Checker = Callable[[Sequence[Line], LifeFactors, float, float, Ledger, bool], tuple[Check, ...]]
"""Design torques, life factors, top speed (rad/s), target, ledger, guide's checks alone -> checks."""


@dataclass(frozen=True, slots=True)
class Resolved:
    """One joint ready to be checked."""

    key: str
    name: str
    kind: str
    description: str
    spline: SplineState | None
    steel: Steel
    check: Checker
    teeth: TeethUnderLoad | None = None


class _Resolver(Protocol):
    def __call__(self, joint: Any, key: str, name: str, library: Library, ledger: Ledger) -> Resolved: ...


def resolve(joint: Any, index: int, library: Library, ledger: Ledger) -> Resolved:
    """Resolve one joint of the file by its kind."""
    name = joint.name or f"joint {index + 1}"
    return JOINT_KINDS[joint.kind](joint, f"joint[{index + 1}]", name, library, ledger)


def with_spline(resolved: Resolved, state: SplineState) -> Resolved:
    """The same joint with its spline in another state, of wear for instance; its teeth share as before."""

    def check(
        lines: Sequence[Line],
        life: LifeFactors,
        top_speed: float,
        target: float,
        ledger: Ledger,
        no_teeth: bool,
    ) -> tuple[Check, ...]:
        beside = None if no_teeth else resolved.teeth
        return spline_checks(state, tuple(lines), life, top_speed, target, ledger, beside)

    return replace(resolved, spline=state, check=check)


def with_draws_of(resolved: Resolved, known: Resolved) -> Resolved:
    """The same joint with what was drawn of the teeth of another, where those share their load alike."""
    if resolved.teeth is None or known.teeth is None or resolved.spline is None:
        return resolved
    return with_spline(replace(resolved, teeth=resolved.teeth.known_from(known.teeth)), resolved.spline)


def _spline(joint: SplineJoint, key: str, name: str, library: Library, ledger: Ledger) -> Resolved:
    state = spline_state(joint, key, name, library, ledger)
    teeth = teeth_under_load(state, ledger)
    bare = Resolved(key, name, joint.kind, described(state), None, state.external.steel, _no_checks, teeth)
    return with_spline(bare, state)


def _no_checks(
    lines: Sequence[Line],
    life: LifeFactors,
    top_speed: float,
    target: float,
    ledger: Ledger,
    no_teeth: bool,
) -> tuple[Check, ...]:
    return ()


def _shaft(joint: ShaftJoint, key: str, name: str, library: Library, ledger: Ledger) -> Resolved:
    diameter, bore = joint.diameter.value, bore_of(joint)
    member: MemberState = member_state("external", key, name, joint, diameter, library, ledger)

    def check(
        lines: Sequence[Line],
        life: LifeFactors,
        top_speed: float,
        target: float,
        ledger: Ledger,
        no_teeth: bool,
    ) -> tuple[Check, ...]:
        return shaft_checks(name, diameter, bore, member, tuple(lines), life, target)

    description = f"shaft {diameter * 1e3:.1f} mm, bore {bore * 1e3:.1f} mm, {member.steel.id}"
    return Resolved(key, name, joint.kind, description, None, member.steel, check)


JOINT_KINDS: Mapping[str, _Resolver] = {
    "involute spline": _spline,
    "straight spline": _spline,
    "shaft": _shaft,
}
