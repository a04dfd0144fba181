"""Hardness as an unknown: every row of the steel tables, sorted into the bands of the guide's allowables."""

from collections.abc import Iterator, Sequence
from typing import Any

from torqcheck.assessment.compare.choices import changes_of
from torqcheck.errors import UsageError
from torqcheck.materials import BELOW_TABLE, Steel, steels
from torqcheck.materials.tables import table
from torqcheck.scenario import Scenario
from torqcheck.scenario.joint_names import joint_name
from torqcheck.scenario.joint_schema import SplineJoint
from torqcheck.scenario.kinds.key import KeyJoint
from torqcheck.scenario.kinds.pin import PinJoint
from torqcheck.scenario.kinds.shaft import ShaftJoint
from torqcheck.scenario.kinds.sleeve import SleeveJoint

__all__ = ["bands", "cost", "hard_steels", "steel_changes", "steel_rows", "steel_sides", "wanted_sides"]

CASE_HARD = "CH58_63"


def bands() -> tuple[str, ...]:
    """Hardness bands of the guide, the softest first."""
    return (BELOW_TABLE, *(row["hardness_class"] for row in table("allowables")))


def steel_rows(scenario: Scenario) -> tuple[Steel, ...]:
    """Steels that may be ordered: the shipped rows but those for reference, and the user's own."""
    rows = steels(scenario.library).values()
    return tuple(steel for steel in rows if not steel.reference_only and not steel.is_iron)


def steel_sides(joint: Any) -> tuple[tuple[str, str], ...]:
    """Name and key of the parts of a joint whose steel can be chosen."""
    if isinstance(joint, SplineJoint):
        return ("external", "external"), ("internal", "internal")
    if isinstance(joint, ShaftJoint | SleeveJoint):
        return (("", ""),)
    if isinstance(joint, KeyJoint | PinJoint):
        return ("external", "shaft"), ("internal", "hub")
    return ()


def wanted_sides(scenario: Scenario, index: int, side: str | None) -> tuple[tuple[str, str], ...]:
    """
    Return the parts that are asked about: as named, or the new ones, or both if none is known to be new.

    Raises
    ------
    UsageError
        If the joint has no such part.
    """
    joint = scenario.joint[index]
    sides = steel_sides(joint)
    name = joint_name(joint, index)
    if not sides:
        raise UsageError(
            f'--find hardness: "{name}" is a {joint.kind}, whose steel is not solved for; '
            "it goes with a spline, a shaft, a sleeve, a key or a pin"
        )
    if side in {"external", "internal"} and sides == (("", ""),):
        raise UsageError(f'--side {side}: "{name}" is a {joint.kind} and one part; leave --side out')
    if side in {"external", "internal"}:
        return tuple(entry for entry in sides if entry[0] == side)
    if side == "both":
        return sides
    new = tuple(entry for entry in sides if entry[1] and getattr(joint, entry[1]).reused is False)
    return new or sides


def steel_changes(scenario: Scenario, index: int, places: Sequence[str], steel: Steel) -> dict[str, Any]:
    """Edits that make parts of a joint anew of a steel; what was read on the old ones goes."""
    if isinstance(scenario.joint[index], SplineJoint):
        pair = (steel if "external" in places else None, steel if "internal" in places else None)
        return changes_of(scenario, index, pair)
    changes: dict[str, Any] = {}
    for place in places:
        key = f"joint[{index + 1}]" + (f".{place}" if place else "")
        changes |= {f"{key}.steel": steel.id, f"{key}.reused": False, f"{key}.hardness": None}
    return changes


def hard_steels(scenario: Scenario) -> Iterator[tuple[Steel, str]]:
    """The cheapest case-hardened row, and the row with the highest yield strength."""
    rows = steel_rows(scenario)
    hard = [steel for steel in rows if steel.hardness_class == CASE_HARD]
    if hard:
        yield min(hard, key=cost), "case-hardened"
    if rows:
        yield max(rows, key=lambda s: s.yield_strength * s.strength_factor), "the strongest of the tables"


def cost(steel: Steel) -> tuple[float, str]:
    """Order by cost, unknown ones last."""
    index = steel.notes.cost_index
    return (float("inf") if index is None else index, steel.id)
