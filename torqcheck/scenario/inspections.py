"""Readings of the lash taken in service: which joint each belongs to, and what it says in SI."""

import datetime
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from torqcheck.errors import DomainError, Fault
from torqcheck.scenario.faults import nearest, written_text
from torqcheck.scenario.joint_names import SPLINED, called, joint_name
from torqcheck.scenario.joint_schema import Lash, SplineJoint
from torqcheck.scenario.ledger import Ledger, Outlook
from torqcheck.scenario.parts import stated_lash
from torqcheck.scenario.schema import InspectionEntry, Scenario
from torqcheck.scenario.sizes import has_a_size, lash_faults, load_diameter, spline_of

__all__ = [
    "Inspection",
    "inspected_joints",
    "inspection_faults",
    "inspections_of",
    "warn_of_inspections",
    "with_newest_lash",
    "with_possible_readings",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Inspection:
    """
    One reading of the lash of a joint after some running.

    Parameters
    ----------
    running_time : float, s
        Since the lash that stands at the joint was true.
    clearance, tolerance : float, m
        Along the pitch circle; the tolerance is two standard deviations, that of the instrument where
        none is written.
    regreased : bool
        The joint was cleaned and greased again.
    date : date or None
        As written.
    """

    running_time: float
    clearance: float
    tolerance: float
    regreased: bool = False
    date: datetime.date | None = None


@dataclass(frozen=True, slots=True)
class _Shrunk:
    """
    A reading below an earlier one of its joint by more than both tolerances allow: where, when, in words.

    `after` is the reading that bears out those before it, where as many have followed as shrank in a row:
    two that shrink alike may mean that a part was changed.
    """

    joint: int
    place: int
    when: str
    read: str
    before: tuple[str, str]
    after: tuple[str, str] | None = None


def inspections_of(scenario: Scenario, index: int, pitch_diameter: float) -> tuple[Inspection, ...]:
    """
    Return the inspections of one joint, in the order of time.

    Parameters
    ----------
    scenario : Scenario
        The file.
    index : int
        Place of the joint in the file, 0 for the first.
    pitch_diameter : float, m
        Diameter of the circle along which the clearance is wanted (mean diameter of straight sides).
    """
    kinds = [(joint.name, joint.kind) for joint in scenario.joint]
    return tuple(
        _inspection(entry, pitch_diameter)
        for entry in scenario.inspection
        if _joint_index(entry.joint, kinds) == index
    )


def inspected_joints(scenario: Scenario) -> tuple[int | None, ...]:
    """Return for each inspection of the file the place of the joint that it was taken at."""
    kinds = [(joint.name, joint.kind) for joint in scenario.joint]
    return tuple(_joint_index(entry.joint, kinds) for entry in scenario.inspection)


def with_newest_lash(scenario: Scenario) -> Scenario:
    """Return the scenario as it stands today: each joint with the lash that was read last."""
    kinds = [(joint.name, joint.kind) for joint in scenario.joint]
    newest = {_joint_index(entry.joint, kinds): entry.lash for entry in scenario.inspection}
    if not newest:
        return scenario
    joints = tuple(
        joint.model_copy(update={"lash": newest[index]}) if index in newest else joint
        for index, joint in enumerate(scenario.joint)
    )
    return scenario.model_copy(update={"joint": joints})


def with_possible_readings(scenario: Scenario, outlook: Outlook) -> Scenario:
    """
    Return the scenario without the readings of a play that would have shrunk.

    Parameters
    ----------
    scenario : Scenario
        The file.
    outlook : str
        In the favourable one it is the earlier readings that were wrong: the joint begins with the lash
        that was read last. Not where a later reading bears the earlier ones out.
    """
    shrunk = tuple(_shrunk(scenario))
    if not shrunk:
        return scenario
    doubted, dropped = {one.joint for one in shrunk if one.after is None}, {one.place for one in shrunk}
    joints = scenario.joint
    if outlook == "favourable":
        newest = with_newest_lash(scenario).joint
        joints = tuple(newest[i] if i in doubted else joint for i, joint in enumerate(joints))
        dropped |= {place for place, index in enumerate(inspected_joints(scenario)) if index in doubted}
    kept = tuple(entry for place, entry in enumerate(scenario.inspection) if place not in dropped)
    return scenario.model_copy(update={"joint": joints, "inspection": kept})


def _inspection(entry: InspectionEntry, diameter: float) -> Inspection:
    reading = stated_lash(entry.lash, diameter)
    return Inspection(
        running_time=entry.hours.value,
        clearance=reading.clearance,
        tolerance=reading.tolerance,
        regreased=entry.regreased,
        date=entry.date,
    )


def _joint_index(name: str, kinds: Sequence[tuple[str, str]]) -> int | None:
    """Place of the joint that an inspection means: by its name, or the only splined one."""
    if not name:
        splined = [index for index, (_, kind) in enumerate(kinds) if kind in SPLINED]
        return splined[0] if len(splined) == 1 else None
    for index, (own, _) in enumerate(kinds):
        if name == called(own, index):
            return index
    return None


def warn_of_inspections(scenario: Scenario, ledger: Ledger) -> None:
    """Say which readings cannot be the growth of a play, and which tolerances were taken for them."""
    if any(_bare(entry.lash) for entry in scenario.inspection):
        ledger.assume_word(
            "inspection.lash",
            "+/- 0.02 mm on a dial or a clearance, 1 mm on the arm of the dial, 5 % of an angle",
            "no tolerance is written with the reading of an inspection",
        )
    inspected = set(inspected_joints(scenario))
    for index, joint in enumerate(scenario.joint):
        if index in inspected and isinstance(joint, SplineJoint) and joint.lash == "not measured":
            ledger.warn(
                f"joint[{index + 1}] inspections",
                f"{joint_name(joint, index)}: the lash was not measured when the hours of its inspections "
                "began, so they show no growth. Write the first inspection as the lash of the joint and "
                "count the hours from there.",
            )
    for one in _shrunk(scenario):
        _tell(one, joint_name(scenario.joint[one.joint], one.joint), ledger)


def _tell(one: _Shrunk, name: str, ledger: Ledger) -> None:
    """Name a reading that is left out, and ask for another where none has borne out those before it."""
    before, more = one.before
    if one.after is None:
        mend = "Play does not shrink: read it again at the same place of the shaft, or a part was changed."
    else:
        mend = (
            f"Play does not shrink, and {one.after[0]} it read {one.after[1]}: the smaller one was read "
            "wrongly. Where a part was changed instead, let the hours begin anew."
        )
    ledger.warn(
        f"joint[{one.joint + 1}] inspections {one.when}",
        f"{name}: the lash read {one.when}, {one.read}, is smaller than {before}, {more}, by more than "
        f"their tolerances allow together, and is left out. {mend}",
    )
    if one.after is None:
        ledger.miss(
            name,
            "lash, once more",
            f"{one.when} it read {one.read}, less than the {more} {before}, and play does not shrink: read "
            "it again at the same place of the shaft and take out the reading that was wrong; where a part "
            "was changed, let the hours begin anew",
        )


def _bare(lash: Lash) -> bool:
    readings = (lash.travel, lash.radius, lash.clearance, lash.angle)
    return any(reading is not None and reading.tolerance == 0.0 for reading in readings)


@dataclass(frozen=True, slots=True)
class _Read:
    """A play as it was read, m, with its tolerance."""

    when: str
    clearance: float
    tolerance: float

    @property
    def words(self) -> str:
        return f"{self.clearance * 1e3:.3f} mm"

    def lack(self, earlier: "_Read") -> float:
        """How far it lies below an earlier one beyond what their tolerances, independent, allow."""
        return earlier.clearance - self.clearance - math.hypot(earlier.tolerance, self.tolerance)


def _shrunk(scenario: Scenario) -> Iterator[_Shrunk]:
    """Readings below any of those before: a play that was there does not go away."""
    inspected = inspected_joints(scenario)
    for index, joint in enumerate(scenario.joint):
        if index not in inspected or not isinstance(joint, SplineJoint):
            continue
        diameter = load_diameter(spline_of(joint))
        places = [place for place, found in enumerate(inspected) if found == index]
        earlier: list[_Read] = []
        if isinstance(joint.lash, Lash):
            first = stated_lash(joint.lash, diameter)
            earlier.append(_Read("at the start", first.clearance, first.tolerance))
        waiting: list[_Shrunk] = []
        followed = 0
        for place, reading in zip(places, inspections_of(scenario, index, diameter), strict=True):
            when = f"after {reading.running_time / 3600.0:g} h"
            now = _Read(when, reading.clearance, reading.tolerance)
            above = max(earlier, key=now.lack, default=None)
            if above is not None and now.lack(above) > 0.0:
                waiting.append(_Shrunk(index, place, when, now.words, (above.when, above.words)))
                followed = 0
                continue
            followed += 1
            if followed >= len(waiting):
                yield from (replace(one, after=(when, now.words)) for one in waiting)
                waiting = []
            earlier.append(now)
        yield from waiting


def inspection_faults(
    entries: Sequence[InspectionEntry], raw_joints: Any, joints: Sequence[tuple[int, Any]], name: str
) -> list[Fault]:
    """
    Return the faults of the inspections that need the joints.

    Parameters
    ----------
    entries : sequence
        Inspections that are sound one by one.
    raw_joints : list
        Joints as written, so that a joint is known by its name even where it has other faults.
    joints : sequence of (place, joint)
        The sound joints.
    name : str
        Name of the file.
    """
    kinds = [
        (str(joint.get("name", "")), str(joint.get("kind", ""))) if isinstance(joint, Mapping) else ("", "")
        for joint in (raw_joints if isinstance(raw_joints, list) else [])
    ]
    sound = dict(joints)
    faults: list[Fault] = []
    last: dict[int, InspectionEntry] = {}
    for number, entry in enumerate(entries, start=1):
        place = f"inspection[{number}]"
        index = _joint_index(entry.joint, kinds)
        if index is None or kinds[index][1] not in SPLINED:
            faults.append(_joint_fault(f"{place}.joint", entry.joint, index, kinds, name))
            continue
        faults += _order_faults(place, entry, last.get(index), name)
        last[index] = entry
        joint = sound.get(index)
        if isinstance(joint, SplineJoint) and has_a_size(joint, raw_joints[index]):
            faults += _whole_pitch(place, entry, joint, name)
    return faults


def _joint_fault(
    key: str, written: str, index: int | None, kinds: Sequence[tuple[str, str]], name: str
) -> Fault:
    """Say why an inspection belongs to no splined joint."""
    splined = [called(own, i) for i, (own, kind) in enumerate(kinds) if kind in SPLINED]
    if not splined:
        shown = written_text(written) if written else ""
        return Fault(name, key, shown, "has no splined joint to belong to", "leave it out")
    known = ", ".join(f'"{own}"' for own in splined)
    if not written:
        mend = f"several joints are splined; write joint = one of {known}"
        return Fault(name, key, "", "is missing", mend)
    problem = "is not the name of a joint" if index is None else "is not a splined joint and has no lash"
    hint = nearest(written, splined) if index is None else ""
    return Fault(name, key, written_text(written), problem, f"{hint}known: {known}")


def _order_faults(
    place: str, entry: InspectionEntry, before: InspectionEntry | None, name: str
) -> list[Fault]:
    """Hours rise from one inspection of a joint to the next, and dates do not go back."""
    if before is None:
        return []
    faults = []
    if entry.hours.value <= before.hours.value:
        problem = f'is not above the "{before.hours.text}" of the inspection before it'
        mend = "hours count from the lash that stands at the joint; write the inspections in their order"
        faults.append(Fault(name, f"{place}.hours", written_text(entry.hours.text), problem, mend))
    if entry.date is not None and before.date is not None and entry.date < before.date:
        problem = f"is before {before.date}, the date of the inspection before it"
        faults.append(Fault(name, f"{place}.date", str(entry.date), problem, "mend the date or the order"))
    return faults


def _whole_pitch(place: str, entry: InspectionEntry, joint: SplineJoint, name: str) -> list[Fault]:
    """Refuse a reading beyond the pitch of the teeth."""
    try:
        spline = spline_of(joint)
    except DomainError:  # refused at the joint itself
        return []
    return [
        Fault(name, f"{place}.{key}", "", problem, mend)
        for key, problem, mend in lash_faults(entry.lash, spline)
    ]
