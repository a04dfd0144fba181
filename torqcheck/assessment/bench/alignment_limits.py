"""The alignment of one joint against what standards and practice permit."""

from dataclasses import replace

from torqcheck.assessment.bench.alignment_result import LimitRow
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.geometry import InvoluteSpline
from torqcheck.materials import (
    AlignmentLimit,
    alignment_limit,
    shaft_runout_limits,
    short_coupling_limit,
    tooth_tilt_limit,
)
from torqcheck.scenario.alignment import Across
from torqcheck.scenario.joint_schema import Tilt
from torqcheck.scenario.tilt_reading import AlignmentReading
from torqcheck.wear import peak_slip_speed

__all__ = ["limit_rows", "tooth_limit_row"]

_RPM = 0.10471975511965977
_KINDS = {"tilt": "angle", "offset": "length", "run-out": "length", "slip speed": "slip speed"}


def tooth_limit_row(state: SplineState) -> LimitRow:
    """Tilt of the mesh against that which its teeth are meant for: the one limit that decides."""
    limit = tooth_tilt_limit(crowned=state.crown_height is not None)
    reading = state.tilt.alignment
    mesh = Across(state.tilt.angle, 0.0 if reading is None else reading.mesh.tolerance)
    kind = "crowned" if state.crown_height is not None else "straight"
    if state.tilt.turns_with_shaft:
        limit = replace(limit, hard=False)  # it stands for wear, which needs a tilt that stands still
    return _row(f"tilt of mesh, {kind} teeth", mesh, limit, measured=_measured(state))


def _measured(state: SplineState) -> bool:
    reading = state.tilt.alignment
    return state.tilt.measured or (reading is not None and reading.measured)


def limit_rows(state: SplineState, reading: AlignmentReading, speed: float) -> tuple[LimitRow, ...]:
    """
    Compare one joint with every row of the table that concerns it.

    Parameters
    ----------
    state : SplineState
        The joint.
    reading : AlignmentReading
        How its axes lie.
    speed : float, rad/s
        Of the joint in the fastest spell of the duty.
    """
    measured = reading.measured
    rows = _of_rigid(reading) if state.joint.seat == "fixed" else _of_flexible(state, reading, speed)
    if reading.turning_offset is not None:
        turning = Across(2.0 * reading.turning_offset.total, 2.0 * reading.turning_offset.tolerance)
        spline = state.spline
        end = spline.external.major_diameter if isinstance(spline, InvoluteSpline) else spline.major_diameter
        for limit in shaft_runout_limits(end):
            rows.append((f"run-out, {limit.item.split(',')[-1].strip()}", turning, limit))
    return tuple(_row(what, found, limit, measured=measured) for what, found, limit in rows) + (
        () if state.joint.seat == "fixed" else (tooth_limit_row(state),)
    )


_Compared = list[tuple[str, Across, AlignmentLimit]]


def _of_rigid(reading: AlignmentReading) -> _Compared:
    """A joint that cannot rock forces both axes into line."""
    rows: _Compared = []
    if reading.offset is not None:
        rows.append(
            ("offset, two bearings on each side", reading.offset, alignment_limit("two-bearing-offset"))
        )
    if reading.tilt is not None:
        rows.append(("tilt of axes, ball bearings", reading.tilt, alignment_limit("ball-bearing")))
        rows.append(("tilt of axes, roller bearings", reading.tilt, alignment_limit("roller-bearing")))
    return rows


def _of_flexible(state: SplineState, reading: AlignmentReading, speed: float) -> _Compared:
    """A joint that rocks: slip speed, and practice for short flexible couplings."""
    rows: _Compared = []
    rpm = f"{speed / _RPM:.0f} rpm"
    if speed > 0.0 and not state.tilt.turns_with_shaft:
        radius = 0.5 * state.pitch_diameter
        slip, ends = (
            float(peak_slip_speed(radius, angle, speed))
            for angle in (state.tilt.angle, state.tilt.angle + reading.mesh.tolerance)
        )
        rows.append((f"slip speed at {rpm}", Across(slip, ends - slip), alignment_limit("slip-speed")))
    for quantity, found in (("offset", reading.offset), ("tilt", reading.tilt)):
        if found is not None:
            name = "offset" if quantity == "offset" else "tilt of axes"
            rows.append((f"{name}, short couplings", found, short_coupling_limit(quantity, speed)))
            rows.append((f"{name}, two bearings each", found, alignment_limit(f"two-bearing-{quantity}")))
    tilt, rule = state.joint.tilt, alignment_limit("span-rule")
    slow = rule.speed is not None and speed <= rule.speed
    if isinstance(tilt, Tilt) and tilt.span is not None and reading.offset is not None and slow:
        share = Across(reading.offset.total / tilt.span.value, reading.offset.tolerance / tilt.span.value)
        rows.append(("offset over its span", share, rule))
    return rows


def _row(what: str, found: Across, limit: AlignmentLimit, *, measured: bool) -> LimitRow:
    kind = _KINDS[limit.quantity]
    return LimitRow(
        what=what,
        kind="length" if kind == "length" else "angle" if kind == "angle" else "slip speed",
        value=found.total,
        tolerance=found.tolerance,
        limit=limit.limit,
        excellent=limit.excellent,
        hard=limit.hard,
        measured=measured,
        source=limit.source,
    )
