"""What the alignment of one joint does to it: limits, and the same joint without offset, without tilt."""

import math
from dataclasses import dataclass, replace

from torqcheck.assessment.bench.alignment_limits import limit_rows, tooth_limit_row
from torqcheck.assessment.bench.alignment_result import AlignmentResult, AlignmentRow, RowState
from torqcheck.assessment.lifetime.wear_model import depth_rates, wears_by_tilt
from torqcheck.assessment.prepared import Prepared
from torqcheck.assessment.teeth.state import SplineState
from torqcheck.assessment.teeth.under_load import TeethUnderLoad
from torqcheck.assessment.torque.path import JointLoad
from torqcheck.capacity import forced_offset_force, load_distribution_factor, overhung_stiffness
from torqcheck.checks import Verdict
from torqcheck.materials import wear_class
from torqcheck.scenario.estimates import Spell
from torqcheck.scenario.joint_schema import bore_of
from torqcheck.scenario.kinds.shaft import ShaftJoint
from torqcheck.scenario.tilt_reading import AlignmentReading
from torqcheck.wear import peak_slip_speed, slip_amplitude

__all__ = ["alignment_of", "alignment_verdict"]

NOTICEABLE = 0.005e-3
"""m; a growth of feet that is worth a word."""
TENTH = 0.1e-3
"""m; offset for which the force on a shaft end is told."""


@dataclass(frozen=True, slots=True)
class _Case:
    """One state of the alignment that is looked at."""

    name: RowState
    tilt: float


def alignment_verdict(state: SplineState) -> Verdict | None:
    """Fail where the tilt, less its tolerance, is beyond what the teeth are meant for; None otherwise."""
    if state.joint.seat == "fixed":
        return None
    row = tooth_limit_row(state)
    return "fail" if row.passed else None


def alignment_of(prepared: Prepared, index: int, torque: float) -> AlignmentResult | None:
    """
    Compare the alignment of one joint with its limits, and with the joint put in line.

    Parameters
    ----------
    prepared : Prepared
        The path, as stated.
    index : int
        Which joint.
    torque : float, N m
        Largest torque that reaches it, the blow included.

    Returns
    -------
    AlignmentResult or None
        None where the joint is no spline, or nothing was read of one that cannot rock.

    Notes
    -----
    Every row goes through the code of the wear life and of the first tooth, with another tilt. The
    rows need not add up: offset and tilt of the axes lie in directions of their own, and their sum
    is a length.
    """
    joint, load = prepared.joints[index], prepared.loads[index]
    state, teeth = joint.spline, joint.teeth
    if state is None or teeth is None or state.tilt.alignment is None or torque <= 0.0:
        return None
    reading, rigid = state.tilt.alignment, state.joint.seat == "fixed"
    speed = load.speed(max((spell.speed for spell in prepared.spells), default=0.0))
    cases = () if rigid else _cases(state, reading)
    result = AlignmentResult(
        reading=reading,
        tilt=state.tilt.angle,
        tolerance=0.0 if rigid else reading.mesh.tolerance,
        speed=speed,
        torque=torque,
        limits=limit_rows(state, reading, speed),
        rows=tuple(_row(case, state, teeth, load, prepared.spells, speed, torque) for case in cases),
        notes=_notes(state, reading),
    )
    if rigid:
        _warn_of_force(prepared, index, reading)
    return result


def _cases(state: SplineState, reading: AlignmentReading) -> tuple[_Case, ...]:
    """The states to compare, the present one first."""
    rocking, parts = reading.rocking, (reading.without_offset, reading.without_tilt)
    cases = [_Case("as read" if reading.measured else "as assumed", state.tilt.angle)]
    if reading.cold_mesh is not None:
        cases.append(_Case("feet cold", reading.cold_mesh + rocking))
    if all(part > 0.0 for part in parts):
        cases.append(_Case("without offset", parts[0] + rocking))
        cases.append(_Case("without tilt", parts[1] + rocking))
    return (*cases, _Case("aligned", rocking))


def _row(
    case: _Case,
    state: SplineState,
    teeth: TeethUnderLoad,
    load: JointLoad,
    spells: tuple[Spell, ...],
    speed: float,
    torque: float,
) -> AlignmentRow:
    """The joint with another tilt, through the code of every other check."""
    same = case.tilt == state.tilt.angle
    other = state if same else replace(state, tilt=replace(state.tilt, angle=case.tilt, tolerance=0.0))
    radius = 0.5 * state.pitch_diameter
    shared = (teeth if same else replace(teeth, state=other, _known={})).at(torque)
    guide = state.crown_height is None
    return AlignmentRow(
        state=case.name,
        tilt=case.tilt,
        slip_amplitude=float(slip_amplitude(radius, case.tilt)),
        slip_speed=float(peak_slip_speed(radius, case.tilt, speed)),
        wear_rate=_wear_rate(other, load, spells),
        load_factor=float(load_distribution_factor(case.tilt, state.engagement)) if guide else None,
        peak=shared.peak,
        first=shared.first,
    )


def _wear_rate(state: SplineState, load: JointLoad, spells: tuple[Spell, ...]) -> float | None:
    """Median depth per hour of both flanks; None where the wear law has nothing to say."""
    if state.tilt.angle == 0.0 and state.tilt.tolerance == 0.0:
        return 0.0
    if not wears_by_tilt(state):
        return None
    rates = depth_rates(state, load, spells, wear_class(state.lubrication))
    return rates.external + rates.internal


def _notes(state: SplineState, reading: AlignmentReading) -> tuple[str, ...]:
    """What the tables do not say by themselves."""
    notes = []
    warm, cold = reading.offset, reading.cold_offset
    if warm is not None and cold is not None:
        notes.append(_on_growth(reading))
    if reading.turning_offset is not None and not state.tilt.turns_with_shaft:
        notes.append(
            f"{reading.turning_offset.total * 1e3:.3f} mm of offset turn with the shaft: no cyclic slip, but "
            "the same teeth and the bearings are loaded all the time."
        )
    if reading.rocking > 0.0:
        notes.append("Aligned, the shaft nose still rocks in its play: support it first.")
    if state.joint.seat == "fixed":
        notes.append("A joint that cannot rock has no tolerance: align it as well as you can.")
    return tuple(notes)


def _on_growth(reading: AlignmentReading) -> str:
    """Say what warm feet do, and where to set the machine cold."""
    warm, cold = reading.offset, reading.cold_offset
    assert warm is not None
    assert cold is not None
    if warm.vertical is None or cold.vertical is None:
        return (
            f"Warm feet add up to {(warm.total - cold.total) * 1e3:.3f} mm of offset: the readings have no "
            "direction, so the harder one counts. Read rim and face at four places."
        )
    rise = cold.vertical - warm.vertical
    if abs(rise) < NOTICEABLE:
        return "Both machines grow alike as they warm up."
    where = "above" if rise > 0.0 else "below"
    return (
        f"Warm, the motor rises by {rise * 1e3:.3f} mm against the driven machine. To run in line, set it "
        f"cold so that the driven axis reads {abs(rise) * 1e3:.3f} mm {where} that of the motor."
    )


def _warn_of_force(prepared: Prepared, index: int, reading: AlignmentReading) -> None:
    """A joint that cannot rock forces its offset upon the shafts."""
    name, key = prepared.joints[index].name, prepared.joints[index].key
    if reading.offset is None or reading.offset.total <= 0.0:
        return
    prepared.ledger.warn(
        f"{key} forced offset",
        f"{name}: the seat cannot rock, so the offset of {reading.offset.total * 1e3:.3f} mm is forced "
        "upon shafts and bearings. It bends both shafts at every turn, with the offset over the sum of what "
        f"both shaft ends give way by for each newton: {_force_in_words(prepared, index)}.",
    )


def _force_in_words(prepared: Prepared, index: int) -> str:
    """Force for each 0.1 mm, by the sizes of the shaft beside the joint if the file has them."""
    for beside in (index - 1, index + 1):
        if not 0 <= beside < len(prepared.joints):
            continue
        joint, resolved = prepared.scenario.joint[beside], prepared.joints[beside]
        if not isinstance(joint, ShaftJoint) or joint.forced_offset is None:
            continue
        given = joint.forced_offset
        own = overhung_stiffness(
            joint.diameter.value,
            given.overhang.value,
            given.bearing_spacing.value,
            resolved.steel.elastic_modulus,
            bore_of(joint),
        )
        other = given.stiffness_of_other_side
        force = float(forced_offset_force(TENTH, own, math.inf if other is None else other.value))
        against = "the other side rigid" if other is None else "the other side as stated"
        return f"{force:.0f} N for each 0.1 mm at {resolved.name}, {against}"
    return "0.1 mm between two shafts of 25 mm, held 60 mm away, makes some 800 N"
