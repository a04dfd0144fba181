"""The sizes of a standard as choices for a joint, and what a new size takes out of the file."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from torqcheck.assessment.size.result import Value
from torqcheck.assessment.size.unknown import key_of, without_inspections
from torqcheck.errors import UsageError
from torqcheck.geometry import InvoluteSpline
from torqcheck.geometry.identifying.series import Candidate, candidates, listed_sizes
from torqcheck.geometry.lengths import INCH
from torqcheck.geometry.standards._straight_sizes import ISO_14_SIZES
from torqcheck.scenario import Scenario
from torqcheck.scenario.joint_names import joint_name
from torqcheck.scenario.joint_schema import InvoluteSplineJoint, SplineJoint, StraightSplineJoint
from torqcheck.scenario.sizes import spline_of

__all__ = ["Choice", "pitch_choices", "size_choices"]

SMALLEST, LARGEST = 0.35, 2.5
"""Of the diameter as it is: sizes beyond are not tried."""
SAME_DIAMETER = 0.06
"""Pitch diameters that differ by no more count as about the same; a coarse pitch has no nearer count."""
CLOSE = 1e-6
TIP_GAP = 0.2
"""Of the module: the tips of a DIN 5480 shaft stay so far below the reference diameter."""

NEW_PART = (
    "Another size is a new pair of parts: readings of the old teeth and of their play are taken out, both "
    'parts count as new, the lash "as new". Steel, hardness, bore and outside diameter stay as the file has '
    "them, as what is to be ordered."
)

Choices = tuple[list["Choice"], tuple[str, ...], str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One entry of a list: its place in the order, what it is called, the edits that make it."""

    order: float
    label: str
    value: Value
    unit: str
    changes: dict[str, Any]
    note: str = ""
    extra: Mapping[str, Any]


def size_choices(scenario: Scenario, index: int) -> Choices:
    """
    Sizes of the standard at the pitch, module or proportions of a joint, the smallest first.

    Raises
    ------
    UsageError
        If the joint has no size of a standard.
    """
    joint = scenario.joint[index]
    if isinstance(joint, InvoluteSplineJoint) and joint.standard != "own":
        found = list(_involute_choices(scenario, index, joint))
    elif isinstance(joint, StraightSplineJoint) and joint.standard != "own":
        found = list(_straight_choices(scenario, index, joint))
    else:
        raise _no_standard(joint, index, "teeth")
    found.sort(key=lambda choice: choice.order)
    return found, _notes(scenario, index), _now(joint)


def pitch_choices(scenario: Scenario, index: int) -> Choices:
    """
    Sizes of the same standard at other pitches, the nearest to the pitch diameter as it is.

    Raises
    ------
    UsageError
        If the joint is no involute spline of a standard.
    """
    joint = scenario.joint[index]
    if not isinstance(joint, InvoluteSplineJoint) or joint.standard == "own":
        raise _no_standard(joint, index, "pitch")
    spline = spline_of(joint)
    assert isinstance(spline, InvoluteSpline)
    nearest: dict[float, Candidate] = {}
    for candidate in listed_sizes():
        other = candidate.involute
        if other is None or not _same_form(other, spline):
            continue
        off = _off(other, spline)
        key = round(other.module, 9)
        if off <= SAME_DIAMETER and (key not in nearest or off < _off(nearest[key].involute, spline)):
            nearest[key] = candidate
    found = [_by_pitch(_choice(scenario, index, nearest[key], key), nearest[key]) for key in sorted(nearest)]
    diameter = f"{spline.pitch_diameter * 1e3:.4g} mm"
    note = f"Of each pitch the count is taken that comes nearest to the pitch diameter as it is, {diameter}."
    return found, (note, *_notes(scenario, index)), _now(joint)


def _by_pitch(choice: Choice, candidate: Candidate) -> Choice:
    """Call a size by its pitch, or by its module where it has none."""
    if candidate.pitch is not None:
        return replace(choice, value=Value(candidate.pitch, candidate.designation), unit="pitch")
    module = round((candidate.module or 0.0) * 1e3, 9)
    return replace(choice, value=Value(module, candidate.designation), unit="mm module")


def _off(other: InvoluteSpline | None, spline: InvoluteSpline) -> float:
    return math.inf if other is None else abs(other.pitch_diameter / spline.pitch_diameter - 1.0)


def _same_form(other: InvoluteSpline, spline: InvoluteSpline) -> bool:
    return (
        other.standard == spline.standard
        and other.root == spline.root
        and math.isclose(other.pressure_angle, spline.pressure_angle, abs_tol=CLOSE)
    )


def _involute_choices(scenario: Scenario, index: int, joint: InvoluteSplineJoint) -> Iterator[Choice]:
    spline = spline_of(joint)
    assert isinstance(spline, InvoluteSpline)
    for candidate in listed_sizes():
        other = candidate.involute
        if other is None or not _same_form(other, spline):
            continue
        if not math.isclose(other.module, spline.module, rel_tol=CLOSE):
            continue
        outside = other.external.major_diameter
        if SMALLEST <= outside / spline.external.major_diameter <= LARGEST:
            yield _choice(scenario, index, candidate, outside)


def _choice(scenario: Scenario, index: int, candidate: Candidate, order: float) -> Choice:
    """An involute size; DIN 5480 goes by the reference diameter, the others by the count."""
    spline = candidate.involute
    assert spline is not None
    extra: dict[str, Any] = {
        "designation": candidate.designation,
        "teeth": candidate.teeth,
        "module_mm": spline.module * 1e3,
        "pitch": candidate.pitch,
        "pitch_diameter_mm": spline.pitch_diameter * 1e3,
        "major_diameter_mm": spline.external.major_diameter * 1e3,
    }
    size: dict[str, Any] = {"teeth": candidate.teeth}
    value = Value(candidate.teeth, candidate.designation)
    unit = "teeth"
    if candidate.standard == "din 5480":
        reference = spline.external.major_diameter + TIP_GAP * spline.module
        size |= {"reference_diameter": _mm(reference), "module": _mm(spline.module)}
        extra["reference_diameter_mm"] = round(reference * 1e3, 9)
    elif candidate.pitch is not None:
        size["pitch"] = candidate.pitch
    else:
        size["module"] = _mm(spline.module)
    return Choice(
        order=order,
        label=candidate.designation,
        value=value,
        unit=unit,
        changes=_new_pair(scenario, index, size),
        extra=extra,
    )


def _mm(length: float) -> str:
    return f"{round(length * 1e3, 9):g} mm"


def _new_pair(scenario: Scenario, index: int, size: Mapping[str, Any]) -> dict[str, Any]:
    """Edits that put a new pair of parts of another size in place of the old one."""
    written = dict(scenario.document["joint"][index]["size"])
    changes: dict[str, Any] = {key_of(index, "size"): {**written, **size}}
    for side in ("external", "internal"):
        changes[key_of(index, f"{side}.measured")] = None
        changes[key_of(index, f"{side}.reused")] = False
    changes[key_of(index, "lash")] = "as new"
    changes[key_of(index, "radial_play")] = None
    return changes | without_inspections(scenario, index)[0]


def _straight_choices(scenario: Scenario, index: int, joint: StraightSplineJoint) -> Iterator[Choice]:
    """Sizes of the same series of ISO 14, or of the same count and fit of SAE."""
    spline = spline_of(joint)
    if joint.standard == "iso 14":
        series = next(
            sizes for sizes in ISO_14_SIZES.values() if any(_is(sizes_row, joint) for sizes_row in sizes)
        )
        for teeth, minor, outside, _ in series:
            name = f"{teeth}x{minor}x{outside}"
            yield _straight_choice(scenario, index, name, teeth, outside * 1e-3, {"designation": name})
        return
    for candidate in candidates(spline.teeth):
        other = candidate.spline
        if candidate.standard == spline.standard and _proportions(other) == _proportions(spline):
            assert other is not None
            major = (
                other.external.major_diameter if isinstance(other, InvoluteSpline) else other.major_diameter
            )
            size = {"major_diameter": f"{major / INCH:g} in"}
            yield _straight_choice(scenario, index, candidate.designation, spline.teeth, major, size)


def _is(row: tuple[int, int, int, float], joint: StraightSplineJoint) -> bool:
    return f"{row[0]}x{row[1]}x{row[2]}" == (joint.size.designation or "").replace(" ", "").casefold()


def _proportions(spline: Any) -> tuple[float, float]:
    return round(spline.minor_diameter / spline.major_diameter, 6), round(
        spline.tooth_width / spline.major_diameter, 6
    )


def _straight_choice(
    scenario: Scenario, index: int, name: str, teeth: int, major: float, size: Mapping[str, Any]
) -> Choice:
    return Choice(
        order=major,
        label=name,
        value=Value(round(major * 1e3, 6), name),
        unit="mm major diameter",
        changes=_new_pair(scenario, index, size),
        extra={"designation": name, "teeth": teeth, "major_diameter_mm": round(major * 1e3, 6)},
    )


def _notes(scenario: Scenario, index: int) -> tuple[str, ...]:
    return (NEW_PART, *without_inspections(scenario, index)[1])


def _now(joint: SplineJoint) -> str:
    return spline_of(joint).designation


def _no_standard(joint: Any, index: int, find: str) -> UsageError:
    name = joint_name(joint, index)
    what = f"the {joint.kind} of its own size" if isinstance(joint, SplineJoint) else f"a {joint.kind}"
    goes = "an involute spline of a standard" if find == "pitch" else "a spline of a standard"
    return UsageError(
        f'--find {find}: "{name}" is {what}, with no list of sizes to choose from; it goes with {goes}'
    )
