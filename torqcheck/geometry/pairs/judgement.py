"""Judging a pair: true mate, worn mate, false fit, not measured; counts before everything else."""

import math
from collections.abc import Sequence

from torqcheck.errors import DomainError
from torqcheck.geometry._domain import LEAST_TEETH
from torqcheck.geometry.pairs.bench_readings import PartReadings, Reading, Side, millimetres
from torqcheck.geometry.pairs.by_readings import judged_by_readings
from torqcheck.geometry.pairs.finding import (
    COUNT,
    COUNT_IS_NOT_ENOUGH,
    COUNT_THE_TEETH,
    PLAY_FELT,
    PRACTICE,
    SNUG_FIT,
    Found,
    Judgement,
    MateVerdict,
)
from torqcheck.geometry.pairs.lash_comparison import LashReading, compare_lash, lash_from_pins
from torqcheck.geometry.pairs.mating import centred_assembly, neighbour
from torqcheck.geometry.pairs.unmasking import unmask
from torqcheck.geometry.pairs.worn_members import (
    WornMember,
    new_clearance,
    width_limits,
    worn_external,
    worn_internal,
)
from torqcheck.geometry.spline import InvoluteSpline

__all__ = [
    "COUNT_IS_NOT_ENOUGH",
    "COUNT_THE_TEETH",
    "PLAY_FELT",
    "PRACTICE",
    "SNUG_FIT",
    "Judgement",
    "MateVerdict",
    "judge",
]


def judge(
    spline: InvoluteSpline,
    external: PartReadings,
    internal: PartReadings,
    lash: Sequence[LashReading] = (),
    fit_class: int | None = None,
) -> Judgement:
    """
    Judge a pair, in this order: counts, pitch of each part, overlap, widths, lash.

    Different counts are a false fit whatever else was read. A reading whose tolerance contains the
    limit decides nothing: the verdict is then "not measured", and `next_readings` says what would.

    Parameters
    ----------
    spline : InvoluteSpline
        The spline that the pair is said to be.
    external, internal : PartReadings
        Readings of shaft and hub.
    lash : sequence of LashReading, optional
        Play of the pair, each way of reading it once; that from pins is added here.
    fit_class : int, optional
        Tolerance class of the new parts, 4 to 7; left out, class 5, and 6 where it stands in.

    Returns
    -------
    Judgement
        Verdict, reasons, members, lash, unmasking and readings to take.

    Raises
    ------
    DomainError
        If the class does not exist, a way of reading the lash occurs twice, or a lash is a whole pitch.
    """
    counts = tuple(
        spline.teeth if part.new and part.teeth is None else part.teeth for part in (external, internal)
    )
    early = _by_count(spline, counts[0], counts[1])
    if early is not None:
        return early
    members = (
        _member(spline, "external", external, fit_class),
        _member(spline, "internal", internal, fit_class),
    )
    _refuse_a_whole_pitch(spline, lash)
    ways = [*lash, *_lash_by_pins(external, internal, members)]
    found = Found(
        spline,
        (external, internal),
        members,
        compare_lash(ways, new_clearance(spline, fit_class)),
        unmask(spline, external, internal),
    )
    return judged_by_readings(found)


def _refuse_a_whole_pitch(spline: InvoluteSpline, lash: Sequence[LashReading]) -> None:
    """With no teeth left on either part the play would be one pitch."""
    pitch = math.pi * spline.module
    for reading in lash:
        if reading.clearance >= pitch:
            raise DomainError(
                f"clearance {millimetres(reading.clearance)} (by {reading.by}) must be below the circular "
                f"pitch, {millimetres(pitch)}"
            )


def _by_count(spline: InvoluteSpline, outer: int | None, inner: int | None) -> Judgement | None:
    """Return the verdict where the counts alone give it."""
    if outer is not None and inner is not None and outer != inner:
        return _false_count(spline, outer, inner)
    if outer is None or inner is None:
        missing = [name for name, count in (("shaft", outer), ("hub", inner)) if count is None]
        return Judgement(
            verdict="not measured",
            reasons=(f"The teeth of the {' and the '.join(missing)} have not been counted.",),
            next_readings=tuple(f"teeth of the {name}: {COUNT}" for name in missing),
            practice=(SNUG_FIT, COUNT_THE_TEETH),
        )
    if outer != spline.teeth:
        return Judgement(
            verdict="not measured",
            reasons=(
                f"Both parts have {outer} teeth, the stated size has {spline.teeth}: it is another spline.",
            ),
            next_readings=(f"state the size for {outer} teeth",),
            practice=(SNUG_FIT, COUNT_THE_TEETH),
        )
    return None


def _false_count(spline: InvoluteSpline, outer: int, inner: int) -> Judgement:
    """Different counts: say what it would take to put the parts together."""
    reasons = [
        f"The shaft has {outer} teeth and the hub {inner}: a false fit, however well they slide together."
    ]
    assembly = None
    if min(outer, inner) >= LEAST_TEETH:
        assembly = centred_assembly(neighbour(spline, outer), neighbour(spline, inner))
        reasons.append(f"{assembly.words[0].upper()}{assembly.words[1:]}")
    if max(outer, inner) % min(outer, inner) == 0:
        reasons.append(
            "One count is a multiple of the other: only a design known to leave out teeth may do that."
        )
    return Judgement(
        verdict="false fit",
        reasons=tuple(reasons),
        next_readings=(),
        assembly=assembly,
        practice=(SNUG_FIT, COUNT_THE_TEETH),
    )


def _member(spline: InvoluteSpline, side: Side, part: PartReadings, fit_class: int | None) -> WornMember:
    """Judge one member; of several pin readings the one that shows most wear counts."""
    function = worn_external if side == "external" else worn_internal
    if part.pins:
        found = [function(spline, pins, part.worn_step, fit_class) for pins in part.pins]
        return max(found, key=lambda member: (_GRAVITY[member.judged], member.wear or 0.0))
    if part.new and part.worn_step is None:
        limits = width_limits(spline, side, fit_class)
        return WornMember(
            side=side,
            width=None,
            tolerance=None,
            wear=None,
            limit=limits.limit,
            judged="within limits",
            reason=f"The {'shaft' if side == 'external' else 'hub'} is new, made to the stated size.",
        )
    return function(spline, None, part.worn_step, fit_class)


_GRAVITY = {"within limits": 0, "cannot tell": 1, "worn": 2, "impossible": 3}


def _lash_by_pins(
    external: PartReadings, internal: PartReadings, members: tuple[WornMember, WornMember]
) -> tuple[LashReading, ...]:
    """Return the clearance from the widths of both members, if both were read with pins."""
    outer, inner = members
    if not (external.pins and internal.pins) or outer.width is None or inner.width is None:
        return ()
    tolerances = (outer.tolerance or 0.0, inner.tolerance or 0.0)
    return (lash_from_pins(Reading(outer.width, tolerances[0]), Reading(inner.width, tolerances[1])),)
