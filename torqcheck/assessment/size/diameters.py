"""Bore and outside diameter as unknowns, and the list of all numbers that can be solved for."""

from collections.abc import Callable
from typing import Any

from torqcheck.assessment.size.unknown import MAKERS, Unknown, key_of, millimetres, ratios, steps
from torqcheck.assessment.teeth.series import linked_joint
from torqcheck.capacity.joining import LEAST_WALL_SHARE
from torqcheck.errors import UsageError
from torqcheck.scenario import Scenario
from torqcheck.scenario.joint_names import joint_name
from torqcheck.scenario.joint_schema import SplineJoint
from torqcheck.scenario.kinds.shaft import ShaftJoint
from torqcheck.scenario.kinds.sleeve import SleeveJoint
from torqcheck.scenario.quantity import Reading
from torqcheck.scenario.sizes import groove_diameter, spline_of
from torqcheck.scenario.sleeve_links import sleeve_of

__all__ = ["CONTINUOUS", "unknown_of"]

THINNEST, THICKEST = 1.0 + 2.0 * LEAST_WALL_SHARE, 3.0
"""Of what lies inside the hub: the first is the thinnest wall that workshops make."""
PRACTICE = "; thinner walls are not made (common practice, no source)"
MOST_BORE = 0.98
"""Of the diameter of a plain shaft."""


def unknown_of(scenario: Scenario, index: int, find: str) -> Unknown:
    """
    Describe one unknown of one joint.

    Raises
    ------
    UsageError
        If the joint has no such value; says which joint or command does.
    """
    return _ALL[find](scenario, index)


def _bore(scenario: Scenario, index: int) -> Unknown:
    joint = scenario.joint[index]
    place, stated, most = _bore_place(joint)
    if most is None:
        raise UsageError(
            f'--find bore: "{joint_name(joint, index)}" is a {joint.kind} and has no shaft of its own; '
            "it goes with a spline, a shaft, a key, a pin, set screws, a clamp or an interference fit"
        )
    toothed = isinstance(joint, SplineJoint)
    share, practice = (1.0 / THINNEST, PRACTICE) if toothed else (MOST_BORE, "")
    return Unknown(
        find="bore",
        meaning="bore of the shaft",
        kind="length",
        key=key_of(index, place),
        wanted="largest",
        values=steps(0.0, share * most),
        range_words=f"from solid to {share:.2g} of the diameter outside it, {most * 1e3:.2f} mm{practice}",
        now=stated.value if stated is not None else 0.0,
        write=millimetres,
        fixed={},
    )


def _bore_place(joint: Any) -> tuple[str, Reading | None, float | None]:
    """Key of the bore below the joint, what stands there, and the diameter that it must stay below."""
    if isinstance(joint, SplineJoint):
        return "external.bore", joint.external.bore, float(spline_of(joint).root_diameter)
    if isinstance(joint, ShaftJoint):
        return "bore", joint.bore, joint.diameter.value
    shaft = getattr(joint, "shaft", None)
    if shaft is None or not hasattr(shaft, "bore"):
        return "", None, None
    diameter = getattr(joint, "shaft_diameter", None) or joint.diameter
    return "shaft.bore", shaft.bore, diameter.value


def _outside_diameter(scenario: Scenario, index: int) -> Unknown:
    joint = scenario.joint[index]
    place, stated, inside = _outside_place(scenario, index)
    if inside is None:
        raise UsageError(
            f'--find outside-diameter: "{joint_name(joint, index)}" is a {joint.kind} and has no hub; '
            "it goes with a spline, a sleeve, a key, a pin or an interference fit"
        )
    notes = (
        ()
        if stated is not None
        else ("The file states no outside diameter, so that nothing was checked of it.",)
    )
    high = max(THICKEST * inside, 1.2 * (stated.value if stated is not None else 0.0))
    return Unknown(
        find="outside-diameter",
        meaning="outside diameter",
        kind="length",
        key=key_of(index, place),
        wanted="smallest",
        values=ratios(THINNEST * inside, high),
        range_words=f"{THINNEST:g} to {high / inside:.3g} times what lies inside, {inside * 1e3:.2f} mm"
        f"{PRACTICE}",
        now=None if stated is None else stated.value,
        write=millimetres,
        fixed={},
        notes=notes,
    )


def _outside_place(scenario: Scenario, index: int) -> tuple[str, Reading | None, float | None]:
    """Key of the outside diameter below the joint, what stands there, and what lies inside it."""
    joint: Any = scenario.joint[index]
    if isinstance(joint, SplineJoint):
        sleeve = sleeve_of(scenario.joint, index)
        if sleeve is not None and joint.internal.outside_diameter is None:
            name = joint_name(sleeve, scenario.joint.index(sleeve))
            raise UsageError(
                f'--find outside-diameter: the hub of "{joint_name(joint, index)}" is the sleeve "{name}"; '
                f'ask with --joint "{name}"'
            )
        bottom = groove_diameter(joint, spline_of(joint))
        return "internal.outside_diameter", joint.internal.outside_diameter, bottom
    if isinstance(joint, SleeveJoint):
        return "outside_diameter", joint.outside_diameter, _inside_of(scenario, index)
    hub = getattr(joint, "hub", None)
    if hub is None or not hasattr(hub, "outside_diameter"):
        return "", None, None
    diameter = getattr(joint, "shaft_diameter", None) or joint.diameter
    return "hub.outside_diameter", hub.outside_diameter, diameter.value


def _inside_of(scenario: Scenario, index: int) -> float:
    """Largest diameter inside a sleeve: its own, and the bottoms of the splines that it holds."""
    sleeve = linked_joint(scenario.joint, index)
    own = [] if sleeve.inside_diameter is None else [sleeve.inside_diameter.value]
    held = [
        groove_diameter(other, spline_of(other))
        for i, other in enumerate(scenario.joint)
        if isinstance(other, SplineJoint) and joint_name(other, i) in sleeve.holds
    ]
    return float(max([*own, *held], default=0.5 * sleeve.outside_diameter.value))


_ALL: dict[str, Callable[[Scenario, int], Unknown]] = {
    **MAKERS,
    "bore": _bore,
    "outside-diameter": _outside_diameter,
}
CONTINUOUS = tuple(_ALL)
