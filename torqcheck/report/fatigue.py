"""Torsional fatigue for people: how much of the life the duty takes, where, and what takes most."""

from torqcheck.assessment.fatigue.result import CycleKind, FatigueMemberResult
from torqcheck.assessment.result import Assessment, JointResult
from torqcheck.checks import Check, Member
from torqcheck.fatigue import DIN_743_LEAST_SAFETY, LIFE_SCATTER
from torqcheck.report.numbers import about, significant
from torqcheck.report.sheet import Column, Table
from torqcheck.units import System, in_unit

__all__ = ["fatigue_table", "is_fatigue"]

LEAST_SHOWN = 1e-3
"""Damage below which its digits say nothing."""
MEMBER_WORDS: dict[Member, str] = {"external": "shaft", "internal": "hub"}
"""In a spline; other parts go by their own name."""


def is_fatigue(check: Check) -> bool:
    """Whether a check is one of fatigue, whose target is no safety factor that somebody chose."""
    return check.name.startswith(("torsional fatigue", "fatigue, "))


def fatigue_table(assessment: Assessment, systems: tuple[System, ...]) -> Table | None:
    """
    Lay out the torsional fatigue of each joint that has one.

    Parameters
    ----------
    assessment : Assessment
        The result.
    systems : tuple of str
        Unit systems; the first is shown.
    """
    joints = [joint for joint in assessment.joints if joint.fatigue.governing is not None]
    if not joints:
        return None
    hours = about(assessment.service_life / 3600.0)
    columns = (
        Column("Joint", width=14),
        Column("Damage", "right"),
        Column("Life, h", "right", width=15),
        Column("Begins at", width=16),
        Column("What does most / why no life", width=20),
    )
    return Table(
        f"{_title(joints)}, damage over {hours} h",
        columns,
        tuple(_row(joint, systems[0]) for joint in joints),
        tuple(joint.fatigue.verdict for joint in joints),
        _legend(joints),
    )


def _title(joints: list[JointResult]) -> str:
    """Splines are looked at in torsion alone, notches of a shaft in torsion and bending."""
    notched = any(member.de_goodman is not None for joint in joints for member in joint.fatigue.members)
    return "Fatigue" if notched else "Torsional fatigue"


def _row(joint: JointResult, system: System) -> tuple[str, ...]:
    fatigue, governing = joint.fatigue, joint.fatigue.governing
    assert governing is not None
    if governing.damage_per_hour is None:
        return (joint.name, "-", "-", _part(governing), governing.reason)
    damage = fatigue.service_damage or 0.0
    shown = f"< {LEAST_SHOWN:g}" if damage < LEAST_SHOWN else significant(damage, 2)
    return (joint.name, shown, _life(joint), _place(governing), _most(governing.worst_cycle, system))


def _life(joint: JointResult) -> str:
    span = joint.fatigue.life_range
    return "no end in sight" if span is None else f"{about(span[0] / 3600.0)} to {about(span[1] / 3600.0)}"


def _part(member: FatigueMemberResult) -> str:
    return MEMBER_WORDS.get(member.side, member.side)


def _place(member: FatigueMemberResult) -> str:
    return f"{_part(member)}, {member.place}"


def _most(kind: CycleKind | None, system: System) -> str:
    """The cycle that does most of the damage, with its torques and its part."""
    if kind is None:
        return "-"
    (low, unit), (high, _) = (in_unit(torque, "torque", system) for torque in _ends(kind))
    part = f"{100.0 * kind.damage_share:.0f} %"
    if low == high:
        return f"{part} by {kind.name} under {significant(low)} {unit}"
    return f"{part} by {kind.name}, {significant(low)} to {significant(high)} {unit}"


def _ends(kind: CycleKind) -> tuple[float, float]:
    """Lowest and highest torque, a rounding error of either counted as nothing."""
    small = 1e-9 * max(abs(kind.torque_low), abs(kind.torque_high))
    low, high = (0.0 if abs(end) <= small else end for end in (kind.torque_low, kind.torque_high))
    return low, high


def _legend(joints: list[JointResult]) -> str:
    second = [
        f"{joint.name} {significant(member.din_743.safety_factor)}"
        for joint in joints
        for member in joint.fatigue.members
        if member.din_743 is not None
    ]
    beside = ""
    if second:
        beside = (
            f" Beside it, a second method: safety of the shaft by the outline of DIN 743 (from memory) "
            f"against cracking at any number of cycles, {DIN_743_LEAST_SAFETY:g} wanted: {'; '.join(second)}."
        )
    return (
        f"Damage 1: a crack is expected; up to 0.3 passes, up to 1 is marginal. Life: the estimate divided "
        f"and multiplied by {LIFE_SCATTER:g}, for one part can last that much longer than the next. Each "
        "torque cycle counts with the peak of its blow and the ringing after it. In the table of checks the "
        "stress is the reversed one that does the same damage, the limit is what is borne that often, and "
        f"the target is the factor at a damage of 0.3.{_ranges(joints)}{beside}{_endless(joints)}"
    )


def _endless(joints: list[JointResult]) -> str:
    """The factor for endless life beside the damage, notch by notch."""
    factors = [
        f"{joint.name}, {member.place} {significant(member.de_goodman)}"
        for joint in joints
        for member in joint.fatigue.members
        if member.de_goodman is not None
    ]
    if not factors:
        return ""
    return (
        " At the notches of a shaft bending and torsion are taken together by von Mises; a load that stands "
        "still counts once a turn. Beside it, for information: DE-Goodman factor against a crack at any "
        f"number of cycles: {'; '.join(factors)}."
    )


def _ranges(joints: list[JointResult]) -> str:
    """A weld goes by the whole range of its stress."""
    if not any(member.side == "weld" for joint in joints for member in joint.fatigue.members):
        return ""
    return " At a weld both are ranges, largest less smallest, whatever the mean."
