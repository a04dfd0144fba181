"""Keys of which a sweep takes whole columns at once, and the scenario with those columns in it.

A key stands here only where its value enters the arithmetic by itself. Where another value hangs on it
(a tilt that rocks with the lash, an engagement that the stack gives) it is resolved point by point by
the ordinary code instead: `takes_column` says which.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any, TypeAlias

from torqcheck._types import FloatArray
from torqcheck.assessment.joints import with_spline
from torqcheck.assessment.prepared import Prepared
from torqcheck.assessment.resolved import Resolved
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.geometry import clearance_from_angle
from torqcheck.scenario import Scenario
from torqcheck.scenario.edits import Place
from torqcheck.scenario.joint_schema import SplineJoint, Tilt
from torqcheck.scenario.sleeve_links import sleeve_of

__all__ = ["Columns", "joints_with_columns", "moves_blow", "scenario_with_columns", "takes_column"]

Columns: TypeAlias = Mapping[Place, FloatArray]
"""By place in the file, one value for each point, in SI."""

_BLOCKS = {
    "motor": {
        "peak_torque", "boost", "torque_rise", "rise_time", "percent_per_10ms", "regen_torque", "regen_rise",
        "rotor_inertia", "max_speed",
    },
    "reduction": {"ratio", "efficiency", "inertia"},
    "driven": {"inertia", "stiffness", "damping_ratio"},
    "targets": {"safety_factor"},
}  # fmt: skip
_BY_RECORD = {"peak_torque", "boost", "max_speed"}
"""A torque record is scaled by these, and must fit them."""
_FREE_TILT = {"angle", "turns_with_shaft"}
_ONLY_STRESS = {"max_speed", "safety_factor", "bore", "outside_diameter", "angle of the tilt"}


@dataclass(frozen=True, slots=True)
class _JointColumn:
    """A key of a splined joint: whether its column is all that changes, and how the joint takes it."""

    free: Callable[[Scenario, int, SplineJoint], bool]
    put: Callable[[SplineState, FloatArray], SplineState]


def _held(scenario: Scenario, index: int) -> bool:
    """Whether a sleeve says something of the joint."""
    return sleeve_of(scenario.joint, index) is not None


def _stands_firm(joint: SplineJoint) -> bool:
    """Whether the tilt takes nothing from play or engagement."""
    if joint.nose_supported is False:
        return False
    tilt = joint.tilt
    return joint.seat == "fixed" or not isinstance(tilt, Tilt) or tilt.span is not None or _free_tilt(tilt)


def _free_tilt(tilt: Any) -> bool:
    return isinstance(tilt, Tilt) and tilt.angle is not None and tilt.model_fields_set <= _FREE_TILT


def _engagement_is_free(scenario: Scenario, index: int, joint: SplineJoint) -> bool:
    return scenario.stack is None and _stands_firm(joint) and not _held(scenario, index)


def _tilt_is_free(scenario: Scenario, index: int, joint: SplineJoint) -> bool:
    rocks = joint.nose_supported is False or joint.seat == "fixed"
    return _free_tilt(joint.tilt) and not rocks and not _held(scenario, index)


def _lash_is_free(scenario: Scenario, index: int, joint: SplineJoint) -> bool:
    return not scenario.inspection and _stands_firm(joint)


def _bore_is_free(scenario: Scenario, index: int, joint: SplineJoint) -> bool:
    return True


def _outside_is_free(scenario: Scenario, index: int, joint: SplineJoint) -> bool:
    return not _held(scenario, index)


def _with_clearance(state: SplineState, column: Any) -> SplineState:
    return replace(state, lash=replace(state.lash, clearance=column))


_JOINT: Mapping[Place, _JointColumn] = {
    ("engagement",): _JointColumn(
        _engagement_is_free, lambda state, column: replace(state, engagement=_any(column))
    ),
    ("tilt", "angle"): _JointColumn(
        _tilt_is_free, lambda state, column: replace(state, tilt=replace(state.tilt, angle=_any(column)))
    ),
    ("lash", "clearance"): _JointColumn(_lash_is_free, _with_clearance),
    ("lash", "angle"): _JointColumn(
        _lash_is_free,
        lambda state, column: _with_clearance(state, clearance_from_angle(column, state.pitch_diameter)),
    ),
    ("external", "bore"): _JointColumn(
        _bore_is_free, lambda state, column: replace(state, bore=_any(column))
    ),
    ("internal", "outside_diameter"): _JointColumn(
        _outside_is_free, lambda state, column: replace(state, outside_diameter=_any(column))
    ),
}


def _any(column: FloatArray) -> Any:
    return column


def takes_column(scenario: Scenario, place: Place) -> bool:
    """Whether a whole column of values may stand at a place at once, with nothing else resolved again."""
    if place[0] == "joint" and len(place) > 2:
        index = int(place[1])
        joint, rule = scenario.joint[index], _JOINT.get(place[2:])
        return rule is not None and isinstance(joint, SplineJoint) and rule.free(scenario, index, joint)
    if len(place) != 2 or place[1] not in _BLOCKS.get(str(place[0]), ()):
        return False
    if scenario.duty_record is not None and place[1] in _BY_RECORD:
        return False
    # without a duty list, regeneration decides what is assumed for one
    return place[1] != "regen_torque" or bool(scenario.duty)


def moves_blow(place: Place) -> bool:
    """Whether the blow can change with the value at a place that takes a column."""
    last = "angle of the tilt" if place[-2:] == ("tilt", "angle") else place[-1]
    return last not in _ONLY_STRESS


def scenario_with_columns(scenario: Scenario, columns: Columns) -> Scenario:
    """Return the scenario with columns in its blocks; those of joints are left to `joints_with_columns`."""
    blocks: dict[str, dict[str, Any]] = {}
    for place, column in columns.items():
        if place[0] == "joint":
            continue
        block, field = str(place[0]), str(place[1])
        present = getattr(getattr(scenario, block), field)
        plain = isinstance(present, int | float)
        blocks.setdefault(block, {})[field] = column if plain else replace(present, value=column)
    changed = {name: getattr(scenario, name).model_copy(update=fields) for name, fields in blocks.items()}
    return scenario.model_copy(update=changed)


def joints_with_columns(prepared: Prepared, columns: Columns) -> tuple[Resolved, ...]:
    """Return the joints of a path with columns in the states of its splines."""
    joints = list(prepared.joints)
    for place, column in columns.items():
        if place[0] != "joint":
            continue
        index = int(place[1])
        state = joints[index].spline
        assert state is not None
        joints[index] = with_spline(joints[index], _JOINT[place[2:]].put(state, column))
    return tuple(joints)
