"""The kinds of joint that this version checks. A new kind is one case here and one module."""

from dataclasses import replace
from typing import Any, Protocol

from torqcheck.assessment.resolved import Requirement, Resolved
from torqcheck.assessment.teeth.checks import spline_checks
from torqcheck.assessment.teeth.proportions import warn_of_proportions
from torqcheck.assessment.teeth.softer_half import warn_of_softer_half
from torqcheck.assessment.teeth.state import SplineState, described, spline_state
from torqcheck.assessment.teeth.under_load import teeth_under_load
from torqcheck.capacity import spline_mesh_stiffness
from torqcheck.checks import Check
from torqcheck.elementwise import number
from torqcheck.scenario.joint_names import joint_name
from torqcheck.scenario.joint_schema import SplineJoint
from torqcheck.scenario.ledger import Ledger
from torqcheck.scenario.steel_library import Library

__all__ = ["resolve", "with_draws_of", "with_spline"]


class _Resolver(Protocol):
    def __call__(self, joint: Any, key: str, name: str, library: Library, ledger: Ledger) -> Resolved: ...


def resolve(joint: Any, index: int, library: Library, ledger: Ledger) -> Resolved:
    """Resolve one joint of the file by its kind."""
    name = joint_name(joint, index)
    resolver = _spline if isinstance(joint, SplineJoint) else _resolver(joint.kind)
    return resolver(joint, f"joint[{index + 1}]", name, library, ledger)


def with_spline(resolved: Resolved, state: SplineState) -> Resolved:
    """The same joint with its spline in another state, of wear for instance; its teeth share as before."""

    def check(asked: Requirement) -> tuple[Check, ...]:
        return spline_checks(state, asked, resolved.teeth)

    mesh = spline_mesh_stiffness(state.pitch_diameter, state.spline.teeth, state.engagement)
    return replace(resolved, spline=state, check=check, stiffness=number(mesh), lash=state.lash_angle)


def with_draws_of(resolved: Resolved, known: Resolved) -> Resolved:
    """The same joint with what was drawn of the teeth of another, where those share their load alike."""
    if resolved.teeth is None or known.teeth is None or resolved.spline is None:
        return resolved
    return with_spline(replace(resolved, teeth=resolved.teeth.known_from(known.teeth)), resolved.spline)


def _spline(joint: SplineJoint, key: str, name: str, library: Library, ledger: Ledger) -> Resolved:
    state = spline_state(joint, key, name, library, ledger)
    warn_of_proportions(state, ledger)
    warn_of_softer_half(state, ledger)
    teeth = teeth_under_load(state, ledger)
    bare = Resolved(
        key=key,
        name=name,
        kind=joint.kind,
        description=described(state),
        spline=None,
        steel=state.external.steel,
        diameter=state.root_diameter,
        check=_no_checks,
        teeth=teeth,
        stiffness_name=f"teeth of {name}",
    )
    return with_spline(bare, state)


def _no_checks(asked: Requirement) -> tuple[Check, ...]:
    return ()


def _resolver(kind: str) -> _Resolver:
    """How a joint without teeth is resolved; a kind that no file asks for is not loaded."""
    match kind:
        case "shaft":
            from torqcheck.assessment.kinds.shaft import resolve_shaft

            return resolve_shaft
        case "key":
            from torqcheck.assessment.kinds.key import resolve_key

            return resolve_key
        case "pin":
            from torqcheck.assessment.kinds.pin import resolve_pin

            return resolve_pin
        case "set screws":
            from torqcheck.assessment.kinds.set_screws import resolve_set_screws

            return resolve_set_screws
        case "interference fit":
            from torqcheck.assessment.kinds.interference import resolve_interference_fit

            return resolve_interference_fit
        case "clamp":
            from torqcheck.assessment.kinds.clamp import resolve_clamp

            return resolve_clamp
        case "sleeve":
            from torqcheck.assessment.kinds.sleeve import resolve_sleeve

            return resolve_sleeve
        case "weld":
            from torqcheck.assessment.kinds.weld import resolve_weld

            return resolve_weld
        case "bolted flange":
            from torqcheck.assessment.kinds.flange import resolve_bolted_flange

            return resolve_bolted_flange
    raise AssertionError(f"no joint is a {kind}")
