"""Solve for one unknown of one joint, so that all targets hold."""

from collections.abc import Callable
from pathlib import Path
from typing import Any, Literal

from torqcheck.assessment.size.asker import Asker
from torqcheck.assessment.size.axial_stack import beside_stack
from torqcheck.assessment.size.diameters import CONTINUOUS, unknown_of
from torqcheck.assessment.size.from_list import DISCRETE, solved_list
from torqcheck.assessment.size.hardness import solved_hardness
from torqcheck.assessment.size.number import solved_number
from torqcheck.assessment.size.result import Size
from torqcheck.assessment.size.torque_ramp import beside_ramp
from torqcheck.assessment.size.unknown import Unknown
from torqcheck.assessment.verdict.answered import answered_for
from torqcheck.errors import UsageError
from torqcheck.scenario import Scenario, load_scenario
from torqcheck.scenario.edits import written_at
from torqcheck.scenario.faults import nearest, printable
from torqcheck.scenario.joint_names import joint_name, joints_called
from torqcheck.scenario.joint_schema import SplineJoint
from torqcheck.scenario.usual import has_tolerance
from torqcheck.units import in_unit

__all__ = ["FINDS", "Side", "size"]

SHORT_SHARE = 0.2
"""Of the longest engagement that is tried, half of the pitch diameter: so short a hub is hardly guided."""
Side = Literal["external", "internal", "both"]
FINDS = (
    "engagement",
    "teeth",
    "pitch",
    "hardness",
    "bore",
    "outside-diameter",
    "lash",
    "tilt",
    "torque-rise",
    "motor-torque",
)


def size(
    path_or_scenario: str | Path | Scenario,
    joint: str | None,
    find: str,
    side: Side | None = None,
    *,
    whole_path: bool = False,
    progress: Callable[[int], None] | None = None,
) -> Size:
    """
    Solve for one unknown of a joint so that everything that `assess` judges passes.

    Parameters
    ----------
    path_or_scenario : str, Path or Scenario
        A scenario file, or one that was loaded before.
    joint : str or None
        Name of the joint, or its place from 1 on; the only splined one if None.
    find : str
        One of `FINDS`.
    side : str, optional
        Of which part, where it matters.
    whole_path : bool, optional
        Demand a pass of every joint and of the axial stack.
    progress : callable, optional
        Told how many scenarios have been asked.

    Raises
    ------
    UsageError
        If there is no such joint or unknown, or they do not go together.
    ScenarioError
        If the file cannot be used.

    Notes
    -----
    No value is taken to hold because a neighbour does: the whole range is scanned first, as far as it
    makes sense, and the answer is the value from which on all others hold, up to the end of the range or
    of the stretch that holds. What no value changes is set aside, and named.
    """
    scenario = path_or_scenario if isinstance(path_or_scenario, Scenario) else load_scenario(path_or_scenario)
    index = _index(scenario, joint)
    _refuse(find, side)
    asker = Asker(scenario, index, whole_path=whole_path, progress=progress)
    if find in CONTINUOUS:
        unknown = unknown_of(scenario, index, find)
        fields = solved_number(asker, unknown)
        fields |= {"kind": unknown.kind, "meaning": unknown.meaning, "wanted": unknown.wanted}
        fields["unit"] = in_unit(0.0, unknown.kind, "si")[1]
        fields |= {"notes": (*fields["notes"], *_short(unknown, fields), *_exact(scenario, unknown, fields))}
        fields |= beside_stack(scenario, index, fields) if find == "engagement" else {}
        fields |= beside_ramp(scenario, fields) if find == "torque-rise" else {}
    elif find == "hardness":
        fields = solved_hardness(asker, side)
    else:
        fields = solved_list(asker, find)
    return _result(scenario, index, find, asker, fields)


def _short(unknown: Unknown, fields: dict[str, Any]) -> tuple[str, ...]:
    """Say of a very short engagement what nobody has judged."""
    exact = fields["exact"]
    if unknown.find != "engagement" or exact is None or exact > SHORT_SHARE * unknown.values[-1]:
        return ()
    return (
        "So short an engagement carries the torque; how well it guides hub and shaft on one another is not "
        "judged here.",
    )


def _exact(scenario: Scenario, unknown: Unknown, fields: dict[str, Any]) -> tuple[str, ...]:
    """Say that the value counts as exact where the file states a tolerance with it."""
    if fields["value"] is None:
        return ()
    written = [str(written_at(scenario, key) or "") for key in unknown.changes(unknown.values[0])]
    if not any(map(has_tolerance, written)):
        return ()
    return (
        "The value counts as exact; the file states a tolerance with it. Write it with the tolerance that "
        "the reading will have, and assess it again: a tolerance can take the pass.",
    )


def _result(scenario: Scenario, index: int, find: str, asker: Asker, fields: dict[str, Any]) -> Size:
    # what the file does not hold need not be taken out
    fields["changes"] = {
        key: written
        for key, written in fields["changes"].items()
        if written is not None or written_at(scenario, key) is not None
    }
    return Size(
        **answered_for(scenario),
        joint=joint_name(scenario.joint[index], index),
        find=find,
        whole_path=asker.whole_path,
        trials=asker.count,
        **fields,
    )


def _index(scenario: Scenario, joint: str | None) -> int:
    """Place of a joint that is called by its name or its number; of the only splined one by default."""
    names = [joint_name(other, index) for index, other in enumerate(scenario.joint)]
    if joint is None:
        splined = [index for index, other in enumerate(scenario.joint) if isinstance(other, SplineJoint)]
        if len(splined) == 1:
            return splined[0]
        known = ", ".join(f'"{printable(name)}"' for name in names)
        raise UsageError(f"--joint is needed here: {len(splined)} joints are splined; the file has {known}")
    found = joints_called(scenario.joint, joint)
    if len(found) == 1:
        return found[0]
    shown = printable(joint[:60])
    known = ", ".join(f'"{printable(name)}"' for name in names)
    if found:
        raise UsageError(
            f'--joint "{shown}" names {len(found)} joints; call it by its place, 1 to {len(names)}'
        )
    raise UsageError(f'--joint: no joint is called "{shown}"; {nearest(joint, names)}the file has {known}')


def _refuse(find: str, side: str | None) -> None:
    """Refuse an unknown that is not offered, and a side where there is none to choose."""
    if find not in FINDS:
        raise UsageError(
            f'--find "{printable(find[:60])}" is not offered; {nearest(find, FINDS)}one of {", ".join(FINDS)}'
        )
    if side is not None and find != "hardness":
        raise UsageError(f"--side goes with --find hardness, not with --find {find}")
    assert find in CONTINUOUS or find in DISCRETE
