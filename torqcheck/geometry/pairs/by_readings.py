"""Judging a pair of equal count by its readings: pitch, overlap, widths, lash."""

import math
from collections.abc import Sequence

from torqcheck.geometry.pairs.bench_readings import PartReadings, Side, millimetres
from torqcheck.geometry.pairs.finding import (
    COUNT,
    COUNT_IS_NOT_ENOUGH,
    PLAY_FELT,
    RENEW_BOTH,
    SNUG_FIT,
    Found,
    Judgement,
    MateVerdict,
)
from torqcheck.geometry.pairs.pseudo_mates import MOST_WEAR, neighbours_with_equal_count
from torqcheck.geometry.pairs.unmasking import separating_reading, trials
from torqcheck.geometry.pairs.worn_members import (
    WornMember,
)
from torqcheck.geometry.spline import InvoluteSpline

__all__ = ["judged_by_readings"]

_LEAST_OVERLAP = 0.8  # of the overlap that the standard gives


def judged_by_readings(found: Found) -> Judgement:
    """Counts agree: pitch, overlap, then widths and lash."""
    if found.unmasking.verdict == "different pitch":
        return _result(found, "false fit", (found.unmasking.reason,), ())
    for obstacle in (_impossible, _shallow, _of_another_size, _disputed):
        hindrance = obstacle(found)
        if hindrance is not None:
            return _result(found, "not measured", *hindrance)
    if any(member.judged == "worn" for member in found.members):
        return _unless_imitated(found, _worn_reasons(found))
    if found.lash.standing == "beyond new":
        unidentified = _unidentified(found)
        if unidentified:
            said = (*found.lash.reasons, *_past_replacing(found), COUNT_IS_NOT_ENOUGH)
            return _result(found, "not measured", said, unidentified)
        return _unless_imitated(found, ())
    return _without_wear(found)


def _impossible(found: Found) -> tuple[tuple[str, ...], tuple[str, ...]] | None:
    """A width that the standard cannot make: the stated spline or a reading is wrong."""
    wrong = [member for member in found.members if member.judged == "impossible"]
    if not wrong:
        return None
    return (
        (*(member.reason for member in wrong), found.unmasking.reason),
        tuple(member.next_reading for member in wrong if member.next_reading),
    )


def _of_another_size(found: Found) -> tuple[tuple[str, ...], tuple[str, ...]] | None:
    """Readings of one part that speak against the stated size."""
    stated = found.spline.designation
    fits = (found.unmasking.external_fits, found.unmasking.internal_fits)
    reasons, asked = [], []
    for side, part, left in zip(_SIDES, found.parts, fits, strict=True):
        if stated in left:
            continue
        against = trials((found.spline,), side, part)[0].against
        name = "shaft" if side == "external" else "hub"
        reasons.append(f"The readings of the {name} speak against {stated}: {against}.")
        if left:
            reasons.append(f"They agree with {' or '.join(left[:3])}.")
        asked.append(f"diameters and pins of the {name} again; then what spline it is, from these readings")
        other: Side = "internal" if side == "external" else "external"
        if left and not _identified(other, found.parts[1 if side == "external" else 0]):
            asked.append(
                "minor diameter and pins of the hub, to see whether it is of that size too"
                if side == "external"
                else "outside diameter and pins of the shaft, to see whether it is of that size too"
            )
    return (tuple(reasons), tuple(asked)) if reasons else None


def _shallow(found: Found) -> tuple[tuple[str, ...], tuple[str, ...]] | None:
    """Teeth that face each other on too little depth are one tooth apart, or of another series."""
    outer, inner = found.parts[0].major_diameter, found.parts[1].minor_diameter
    if outer is None or inner is None:
        return None
    overlap = 0.5 * (outer.value - inner.value)
    tolerance = 0.5 * math.hypot(outer.tolerance, inner.tolerance)
    usual = found.spline.radial_overlap
    if overlap + tolerance >= _LEAST_OVERLAP * usual:
        return None
    return (
        (
            f"The teeth face each other on {millimetres(overlap)} of depth, where {millimetres(usual)} is "
            "usual: a miscount by one, or another series.",
        ),
        (f"teeth of both parts: {COUNT}", "both diameters again"),
    )


def _disputed(found: Found) -> tuple[tuple[str, ...], tuple[str, ...]] | None:
    """Readings of the lash that contradict each other, pins among the doubtful."""
    if "pins" not in found.lash.doubtful and not (found.lash.doubtful and found.lash.clearance is None):
        return None
    return found.lash.reasons, found.lash.next_readings


def _worn_reasons(found: Found) -> tuple[str, ...]:
    """Return the sentences for a pair of which a part is worn past its limit."""
    worn = [member for member in found.members if member.judged == "worn"]
    reasons = [member.reason for member in worn]
    if len(worn) == 1:
        reasons.append(RENEW_BOTH)
    return tuple(reasons)


def _past_replacing(found: Found) -> tuple[str, ...]:
    """Play at which published practice replaces the pair."""
    read = found.lash.clearance
    if read is None or read - (found.lash.tolerance or 0.0) <= MOST_WEAR:
        return ()
    return (f"The play is past {millimetres(MOST_WEAR)}, at which published practice replaces a pair.",)


def _unless_imitated(found: Found, reasons: tuple[str, ...]) -> Judgement:
    """Worn mate, unless a neighbouring spline explains the same readings with less wear."""
    said = (*reasons, *found.lash.reasons, *_past_replacing(found))
    by_widths = [
        (side, other)
        for side, part, member in zip(_SIDES, found.parts, found.members, strict=True)
        if member.judged == "worn"
        for other in _less_worn(found.spline, side, part, member)
    ]
    imitators = by_widths or ([] if reasons else _of_equal_lash(found))
    if not imitators:
        return _result(found, "worn mate", said, ())
    side, other = imitators[0]
    return _result(
        found,
        "not measured",
        (
            *said,
            f"Cannot tell wear from another pitch: {'a shaft' if side == 'external' else 'a hub'} of "
            f"{other.standard.upper()} {other.designation} would read the same.",
        ),
        _separating(found.spline, imitators),
        tuple(side for side in _SIDES if any(side == worn for worn, _ in by_widths)),
    )


_SIDES: tuple[Side, Side] = ("external", "internal")


def _separating(spline: InvoluteSpline, imitators: Sequence[tuple[Side, InvoluteSpline]]) -> tuple[str, ...]:
    """Return one reading for each member that could be another spline."""
    first = dict(reversed(imitators))
    return tuple(separating_reading(spline, first[side], side) for side in _SIDES if side in first)


def _less_worn(
    spline: InvoluteSpline, side: Side, part: PartReadings, member: WornMember
) -> tuple[InvoluteSpline, ...]:
    """Return neighbours that fit all readings of a part and would be less worn than it seems."""
    splines = (spline, *(item.spline for item in neighbours_with_equal_count(spline)))
    seems = (member.wear or 0.0) - (member.tolerance or 0.0)
    return tuple(
        item.spline
        for item in trials(splines, side, part)[1:]
        if item.fits and item.wear is not None and item.wear < seems
    )


def _of_equal_lash(found: Found) -> list[tuple[Side, InvoluteSpline]]:
    """Return neighbours one part of which could be, with no more lash than was read."""
    read = found.lash.clearance
    if read is None or found.unmasking.verdict == "same pitch":
        return []
    most = read + (found.lash.tolerance or 0.0)
    left = {
        "external": set(found.unmasking.external_fits),
        "internal": set(found.unmasking.internal_fits),
    }
    imitators: list[tuple[Side, InvoluteSpline]] = []
    for item in neighbours_with_equal_count(found.spline):
        ways: tuple[tuple[Side, float | None], ...] = (
            ("external", item.as_shaft.lash),
            ("internal", item.as_hub.lash),
        )
        for side, felt in ways:
            if felt is not None and felt <= most and item.spline.designation in left[side]:
                imitators.append((side, item.spline))
    return imitators


def _without_wear(found: Found) -> Judgement:
    """No part and no lash is past its limit: a true mate if enough was read to say so."""
    unread = [m for m in found.members if m.judged == "cannot tell"]
    straddling = [m for m in unread if m.width is not None or not _never_read(m, found)]
    lash_sound = found.lash.standing in {"new", "bedded in"}
    reasons = (*(m.reason for m in found.members if m not in unread or m in straddling), *found.lash.reasons)
    asked = tuple(m.next_reading for m in unread if m.next_reading)
    if found.lash.standing == "below new":
        return _result(found, "not measured", reasons, (*asked, *found.lash.next_readings))
    if straddling or (unread and not lash_sound):
        shown = tuple(m.reason for m in found.members)
        return _result(found, "not measured", (*shown, *found.lash.reasons), (*asked, *_lash_asked(found)))
    imitators = _of_equal_lash(found) if unread else []
    if imitators:
        other = imitators[0][1]
        reason = f"Cannot tell from {other.standard.upper()} {other.designation}, which has no more lash."
        return _result(found, "not measured", (*reasons, reason), _separating(found.spline, imitators))
    unidentified = _unidentified(found)
    if unidentified:
        return _result(found, "not measured", (*reasons, COUNT_IS_NOT_ENOUGH), unidentified)
    return _result(found, "true mate", (*reasons, *_angle_taken(found)), ())


def _unidentified(found: Found) -> tuple[str, ...]:
    """Return the reading that would identify each old part of which only the teeth were counted."""
    return tuple(
        reading
        for side, part, reading in zip(_SIDES, found.parts, _IDENTIFYING, strict=True)
        if not _identified(side, part)
    )


def _identified(side: Side, part: PartReadings) -> bool:
    """Whether a part is new, or more of it was read than its count."""
    tip = part.major_diameter if side == "external" else part.minor_diameter
    return part.new or bool(part.pins or part.spans) or tip is not None


_IDENTIFYING = (
    "outside diameter of the shaft with a caliper, or its reading over pins",
    "minor diameter of the hub with a caliper, or its reading between pins",
)


def _angle_taken(found: Found) -> tuple[str, ...]:
    """Say where the pressure angle comes from: pins of one size and tips do not show it."""
    pairs = zip(found.parts, (found.unmasking.external, found.unmasking.internal), strict=True)
    blind = any(not part.new and (known is None or not known.angle_free) for part, known in pairs)
    if not blind:
        return ()
    angle = math.degrees(found.spline.pressure_angle)
    return (
        f"The pressure angle of {angle:g} deg is taken from the stated size: tips and pins of one size do "
        "not show it. Marking blue on the flanks does: a part of another angle bears on one edge.",
    )


def _never_read(member: WornMember, found: Found) -> bool:
    part = found.parts[0] if member.side == "external" else found.parts[1]
    return not part.pins and part.worn_step is None


def _lash_asked(found: Found) -> tuple[str, ...]:
    return found.lash.next_readings if found.lash.clearance is None else ()


def _result(
    found: Found,
    verdict: MateVerdict,
    reasons: tuple[str, ...],
    next_readings: tuple[str, ...],
    imitated: tuple[Side, ...] = (),
) -> Judgement:
    felt = found.lash.standing == "beyond new" or verdict == "worn mate"
    return Judgement(
        verdict=verdict,
        reasons=tuple(dict.fromkeys(reasons)),
        next_readings=tuple(dict.fromkeys(next_readings)),
        external=found.members[0],
        internal=found.members[1],
        lash=found.lash,
        unmasking=found.unmasking,
        practice=(SNUG_FIT, PLAY_FELT) if felt else (SNUG_FIT,),
        imitated=imitated,
    )
