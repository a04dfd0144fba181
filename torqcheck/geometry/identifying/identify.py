"""Which standard spline is this? Ranked candidates from any readings, and an honest "cannot tell".

Rule of the verdict. `identified`: at least two lengths speak for the best candidate, no reading is off by
more than its tolerance (two standard deviations; a candidate off by more than two is not allowed at all),
and it is at least 20 times as likely as the best candidate that is another part, and as a spline of no
standard. `none of these`: no candidate is allowed, or a spline of no standard is at least 20 times as likely
as the best. Everything between is `cannot tell`. Two names for the same flanks and tips count as one part.
Limits are assumed. The model is told in ``_fit``.
"""

import math

import numpy as np

from torqcheck.geometry.identifying._around import (
    chosen,
    indistinguishable,
    neighbours,
    pin_doubts,
    pseudo_mates,
)
from torqcheck.geometry.identifying._fit import AGREES, ASSUMED_MODEL, Fit, columns_of, fit
from torqcheck.geometry.identifying._next_reading import next_reading
from torqcheck.geometry.identifying._room import MOST_WEAR, Side
from torqcheck.geometry.identifying.identification import (
    Identification,
    IdentificationVerdict,
    PinDoubt,
    Ranked,
)
from torqcheck.geometry.identifying.readings import (
    Measured,
    PinPair,
    Readings,
    refuse_bad_readings,
    with_tolerances,
)
from torqcheck.geometry.identifying.series import Candidate

__all__ = ["CLEARLY_BETTER", "Identification", "Measured", "PinPair", "Readings", "identify"]

CLEARLY_BETTER = 20.0
"""Least likelihood ratio of the best candidate to any other part (assumed)."""

_SHOWN = 10
_FAINT = 1e-4  # rivals less likely than this, relative to the best, are not shown
_NEAREST = 4  # shown where nothing agrees
_LEAST_LENGTHS = 2
_WITHIN = 1.0  # tolerances
_CAREFUL_TEETH = 60  # above this a caliper across odd teeth errs by less than 0.1 %


def identify(side: Side, readings: Readings) -> Identification:
    """
    Rank the sizes of all standards by how well they agree with readings on one member.

    Parameters
    ----------
    side : str
        "external" for a shaft, "internal" for a hub.
    readings : Readings
        Number of teeth and any lengths, in m, with their tolerances (two standard deviations); where none is
        written, those of a caliper and of drill shanks as pins are assumed.

    Returns
    -------
    Identification
        Verdict with reasons, ranked candidates, miscounts, pseudo-mates, doubts about the pins, and, as long
        as it is open which candidate it is, the reading to take next.

    Raises
    ------
    DomainError
        If the readings are impossible by themselves or with each other.
    """
    refuse_bad_readings(side, readings)
    readings, assumed = with_tolerances(readings)
    refuse_bad_readings(side, readings)
    rivals = chosen(readings, readings.teeth)
    found = fit(columns_of(readings.teeth, side, rivals), readings) if rivals else None
    ranked = _ranked(side, rivals, found) if found else ()
    doubts = _doubts(side, readings, rivals, found)
    verdict, reasons = _verdict(ranked, found, rivals, doubts)
    best = ranked[0] if ranked and ranked[0].allowed else None
    parts = tuple(r for r in ranked if r.same_part_as is None)
    root_undecided = best is not None and any(
        r.same_part_as == best.candidate.designation and r.candidate.root != best.candidate.root
        for r in ranked
    )
    return Identification(
        side=side,
        readings=readings,
        verdict=verdict,
        reasons=reasons,
        candidates=ranked,
        compared=len(rivals),
        root_undecided=root_undecided and readings.minor_diameter is None,
        indistinguishable=indistinguishable(side, readings, ranked),
        pin_doubts=doubts,
        neighbours=neighbours(side, readings, best.candidate if best else None),
        pseudo_mates=pseudo_mates(side, best.candidate) if best else (),
        next_reading=None
        if verdict != "cannot tell"
        else next_reading(side, readings, parts, doubt_pins=bool(doubts)),
        cautions=_cautions(side, readings, best),
        assumptions=(*assumed, ASSUMED_MODEL),
    )


def _ranked(side: Side, rivals: tuple[Candidate, ...], found: Fit) -> tuple[Ranked, ...]:
    """Candidates that are allowed, the likeliest first; where there are none, the nearest ones."""
    best = float(np.max(found.likelihood))
    anything = math.isfinite(best)
    if anything:
        order = np.argsort(-found.likelihood, kind="stable")[:_SHOWN]
        shown = [int(i) for i in order if found.likelihood[i] >= best + math.log(_FAINT)]
    else:
        shown = [int(i) for i in _nearest(found)]
    result: list[Ranked] = []
    for index in shown:
        candidate = rivals[index]
        twin = next(
            (
                r.candidate.designation
                for r in result
                if r.same_part_as is None and candidate.same_part(r.candidate, side)
            ),
            None,
        )
        room = candidate.rooms[side].width
        width = _present(found.width[index])
        off = None if width is None else (room.basic - width) * (1.0 if side == "external" else -1.0)
        result.append(
            Ranked(
                candidate=candidate,
                deviation=_present(found.deviation[index]),
                width=width,
                excess=off,
                wear=_present(found.wear[index]),
                likelihood=math.exp(float(found.likelihood[index]) - best) if anything else None,
                allowed=bool(found.allowed[index] > 0.0),
                same_part_as=twin,
            )
        )
    return tuple(result)


def _nearest(found: Fit) -> list[int]:
    """Candidates that come closest though none agrees: diameters right first, then the least deviation."""
    order = np.lexsort((found.deviation, found.diameter_deviation > AGREES))
    within = [int(i) for i in order if np.isfinite(found.deviation[i])]
    return within[:_NEAREST]


def _present(value: float) -> float | None:
    return float(value) if math.isfinite(value) else None


def _doubts(
    side: Side, readings: Readings, rivals: tuple[Candidate, ...], found: Fit | None
) -> tuple[PinDoubt, ...]:
    """Where no candidate agrees: those whose diameters do, and whose pins may have been of another size."""
    if found is None or np.any(found.allowed > 0.0):
        return ()
    right: list[Candidate] = []
    for candidate, off in zip(rivals, found.diameter_deviation, strict=True):
        if off <= AGREES and not any(candidate.same_part(other, side) for other in right):
            right.append(candidate)
    return pin_doubts(side, readings, right)


def _verdict(
    ranked: tuple[Ranked, ...],
    found: Fit | None,
    rivals: tuple[Candidate, ...],
    doubts: tuple[PinDoubt, ...],
) -> tuple[IdentificationVerdict, tuple[str, ...]]:
    """Return the verdict by the rule at the head of this module, with its reasons."""
    if found is None:
        return "none of these", (
            "no standard here has such a spline: teeth, pitch and flanks taken together",
        )
    if not ranked or not ranked[0].allowed:
        return _nothing_agrees(ranked, doubts)
    best = ranked[0]
    index = rivals.index(best.candidate)
    own = math.exp(min(found.own_series - float(found.likelihood[index]), 700.0))
    if own >= CLEARLY_BETTER:
        return "none of these", (
            f"a spline of no standard is {own:.3g} times as likely as {best.candidate.designation}, the best "
            "here",
        )
    rival = next((r for r in ranked[1:] if r.same_part_as != best.candidate.designation), None)
    ratio = 1.0 / rival.likelihood if rival and rival.likelihood else math.inf
    reasons = []
    if found.predicted[index] < _LEAST_LENGTHS:
        reasons.append("one length is not enough: at least two must speak for a candidate")
    if best.deviation is not None and best.deviation > _WITHIN:
        reasons.append(
            f"a reading lies {best.deviation:.2g} tolerances off {best.candidate.designation}: read it "
            "again, more finely if you can"
        )
    if rival and ratio < CLEARLY_BETTER:
        reasons.append(
            f"{best.candidate.designation} is only {ratio:.3g} times as likely as "
            f"{rival.candidate.designation}; {CLEARLY_BETTER:g} times are wanted"
        )
    if own * CLEARLY_BETTER > 1.0:
        reasons.append(
            f"{best.candidate.designation} is only {1.0 / own:.3g} times as likely as a spline of no standard"
        )
    if reasons:
        return "cannot tell", tuple(reasons)
    return "identified", (_clear(rival, ratio),)


def _clear(rival: Ranked | None, ratio: float) -> str:
    if rival is None:
        return "no other part agrees with the readings"
    return f"{ratio:.3g} times as likely as the next part, {rival.candidate.designation}"


def _nothing_agrees(
    nearest: tuple[Ranked, ...], doubts: tuple[PinDoubt, ...]
) -> tuple[IdentificationVerdict, tuple[str, ...]]:
    """No size agrees; unless another pin would explain it, that is an answer."""
    most = MOST_WEAR * 1e3
    reasons = [
        f"no size of the standards agrees with every reading to {AGREES:g} tolerances, wear up to {most:g} "
        "mm allowed"
    ]
    reasons += [
        f"{r.candidate.designation} would need a width {r.excess * 1e3:.2f} mm off the basic one: worn out, "
        "or not this standard"
        for r in nearest
        if r.excess is not None and r.excess > MOST_WEAR and r.same_part_as is None
    ]
    if doubts:
        return "cannot tell", (
            *reasons,
            "a pin of another size than the one written would explain the reading",
        )
    return "none of these", (*reasons, "makers had series of their own: measure it as a spline of its own")


def _cautions(side: Side, readings: Readings, best: Ranked | None) -> tuple[str, ...]:
    """Doubts about the readings themselves."""
    tip = readings.major_diameter if side == "external" else readings.minor_diameter
    cautions = []
    if readings.teeth % 2 and tip is not None and readings.teeth <= _CAREFUL_TEETH:
        off = 0.5 * (1.0 - math.cos(math.pi / readings.teeth))
        word = "low" if side == "external" else "wrong"
        cautions.append(
            f"{readings.teeth} teeth are odd: a caliper across a tip and the gap opposite reads up to "
            f"{off * 100:.2g} % ({off * tip.value * 1e3:.2f} mm) {word}; take the diameter with a ring or in "
            "a V-block (allowed for in the ranking)"
        )
    if best is not None and not best.candidate.listed:
        cautions.append(
            f"{best.candidate.designation} lies outside the list of its standard (from memory): check"
        )
    if best is not None and best.wear and round(best.wear * 1e3, 2) > 0.0:
        cautions.append(
            f"{best.wear * 1e3:.2f} mm of the width lies beyond tolerance class 7: worn, or another spline"
        )
    return tuple(cautions)
