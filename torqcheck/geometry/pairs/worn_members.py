"""How far one member is worn, held against the limits of its standard, as far as the reading tells."""

import math
from dataclasses import dataclass, replace
from typing import Literal

from torqcheck.errors import DomainError
from torqcheck.geometry.lengths import INCH
from torqcheck.geometry.measuring.pin_contact import between_pins_contact_diameter, over_pins_contact_diameter
from torqcheck.geometry.pairs.bench_readings import (
    PinReading,
    Reading,
    Side,
    millimetres,
    pin_gains,
    width_over_pins,
)
from torqcheck.geometry.spline import InvoluteSpline, NewClearance
from torqcheck.geometry.standards import ansi_b92_1, ansi_b92_1_tolerances, iso_4156, iso_4156_tolerances

__all__ = [
    "CALIPER",
    "MICROMETER",
    "Judged",
    "WearLimits",
    "WornMember",
    "new_clearance",
    "width_limits",
    "worn_external",
    "worn_internal",
]

Judged = Literal["within limits", "worn", "impossible", "cannot tell"]

CALIPER = 0.02e-3
"""Tolerance of a digital caliper, m, two sigma (mark: common practice, no source)."""
MICROMETER = 0.005e-3
"""Tolerance of a micrometer over gauge pins, m, two sigma (mark: common practice, no source)."""
GAUGE_PIN = 0.0025e-3
"""Tolerance of the diameter of a gauge pin, m, two sigma (mark: common practice, no source)."""

_WIDEST_CLASS = 7
_USUAL_CLASS = 5
_STAND_IN_CLASS = 6
_NAMES: dict[Side, tuple[str, str, str, str]] = {
    "external": ("tooth of the shaft", "thin", "least", "over pins"),
    "internal": ("space of the hub", "wide", "most", "between pins"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class WearLimits:
    """Limits of the actual width of one member, m, of one tolerance class.

    `effective` is tv max of the tooth or sv min of the space: beyond it no class makes the part.
    `limit` is t min or s max, what wear is counted from. `widest` is that limit in class 7.
    """

    effective: float
    limit: float
    widest: float
    fit_class: int
    stand_in: bool

    @property
    def words(self) -> str:
        """The class, for a sentence."""
        return f"class {self.fit_class}" + (
            " of ISO 4156 (stand-in for limits that could not be read)" if self.stand_in else ""
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class WornMember:
    """One member held against the limits of its standard. Lengths in m, along the pitch circle.

    `wear` is by how much the flank pair has passed `limit`: the least that must be gone (0 within
    the limits). `tolerance` is two sigma of `width`; `tolerance_needed` is the tolerance of a pin reading
    that would decide. Values are None where nothing was read; `reason` then says so.
    """

    side: Side
    width: float | None
    tolerance: float | None
    wear: float | None
    limit: float
    judged: Judged
    reason: str
    next_reading: str | None = None
    tolerance_needed: float | None = None


def width_limits(spline: InvoluteSpline, side: Side, fit_class: int | None = None) -> WearLimits:
    """
    Limits of the actual tooth thickness or space width, of a tolerance class and of the widest one.

    t min = tv max - (m + lam), s max = sv min + (m + lam). All classes share tv max and sv min.

    Parameters
    ----------
    spline : InvoluteSpline
        The spline.
    side : str
        "external" or "internal".
    fit_class : int, optional
        4 to 7; left out, 5, and 6 where another standard's tolerances stand in.

    Raises
    ------
    DomainError
        If the class does not exist.
    """
    stand_in = spline.standard not in {ansi_b92_1.STANDARD, iso_4156.STANDARD}
    chosen = fit_class if fit_class is not None else _STAND_IN_CLASS if stand_in else _USUAL_CLASS
    sign = -1.0 if side == "external" else 1.0
    effective = spline.tooth_thickness if side == "external" else spline.space_width
    limit, widest = (effective + sign * _total(spline, number) for number in (chosen, _WIDEST_CLASS))
    return WearLimits(effective=effective, limit=limit, widest=widest, fit_class=chosen, stand_in=stand_in)


def new_clearance(spline: InvoluteSpline, fit_class: int | None = None) -> NewClearance:
    """
    Lash of a new pair of a tolerance class, along the pitch circle.

    Parameters
    ----------
    spline : InvoluteSpline
        The spline.
    fit_class : int, optional
        4 (closest) to 7; that of the spline itself if not given.

    Raises
    ------
    DomainError
        If the class does not exist.
    """
    if fit_class is None:
        return spline.new_clearance
    if spline.standard != ansi_b92_1.STANDARD:
        stand_in = spline.standard != iso_4156.STANDARD
        words = f"both members class {fit_class}, fit H/h" + (" of ISO 4156, in stead" if stand_in else "")
        return iso_4156.class_clearance(spline.teeth, spline.module, fit_class, words, stand_in)
    P = INCH / spline.module
    machining = ansi_b92_1_tolerances.machining_tolerance(spline.teeth, P, fit_class)
    return replace(
        spline.new_clearance,
        maximum=2.0 * machining,
        bedded_in=2.0 * _total(spline, fit_class),
        assumes=f"both members class {fit_class}, side fit (least effective clearance 0)",
    )


def _total(spline: InvoluteSpline, fit_class: int) -> float:
    """Return machining tolerance and variation allowance of one member together."""
    if spline.standard == ansi_b92_1.STANDARD:
        P = INCH / spline.module
        return ansi_b92_1_tolerances.machining_tolerance(
            spline.teeth, P, fit_class
        ) + ansi_b92_1_tolerances.variation_allowance(spline.teeth, P, fit_class)
    return iso_4156_tolerances.total_tolerance(spline.teeth, spline.module, fit_class)


def worn_external(
    spline: InvoluteSpline,
    pins: PinReading | None,
    worn_step: Reading | None = None,
    fit_class: int | None = None,
) -> WornMember:
    """
    Judge the shaft by a reading over pins, a worn step, or both.

    Parameters
    ----------
    spline : InvoluteSpline
        The spline that the shaft is taken to be.
    pins : PinReading or None
        Reading over two pins.
    worn_step : Reading, optional
        Depth of the worn band below the unworn flank, normal to it.
    fit_class : int, optional
        Tolerance class of the new part.

    Returns
    -------
    WornMember
        "impossible" where the tooth is thicker than any class makes it; "cannot tell" where the
        limit lies inside the tolerance of the reading.
    """
    return _worn(spline, "external", pins, worn_step, fit_class)


def worn_internal(
    spline: InvoluteSpline,
    pins: PinReading | None,
    worn_step: Reading | None = None,
    fit_class: int | None = None,
) -> WornMember:
    """
    Judge the hub by a reading between pins, a worn step, or both.

    Parameters
    ----------
    spline : InvoluteSpline
        The spline.
    pins : PinReading or None
        Between pins, m.
    worn_step : Reading, m, optional
        Depth of the band that the mate has worn into a flank.
    fit_class : int, optional
        As for ``worn_external``.

    Raises
    ------
    DomainError
        If the class does not exist.
    """
    return _worn(spline, "internal", pins, worn_step, fit_class)


def _worn(
    spline: InvoluteSpline,
    side: Side,
    pins: PinReading | None,
    step: Reading | None,
    fit_class: int | None,
) -> WornMember:
    limits = width_limits(spline, side, fit_class)
    if pins is None:
        return _by_step(spline, side, step, limits)
    how = _NAMES[side][3]
    try:
        width = width_over_pins(spline, side, pins)
        astray = _contact_astray(spline, side, width.value, pins.pin)
    except DomainError as error:
        reason = f"The reading {how} is impossible for {spline.designation}: {error}."
        return _member(side, None, limits, "impossible", reason, _measure_the_pins(how))
    width, note = _without_bridging(spline, side, width, step, limits)
    member = _by_width(spline, side, width, limits, pins)
    reason = f"{member.reason}{note}"
    if astray and member.judged != "impossible":
        return _member(side, None, limits, "cannot tell", astray, _other_pins(spline, side))
    return _member(side, width, limits, member.judged, reason, member.next_reading, member.tolerance_needed)


def _member(
    side: Side,
    width: Reading | None,
    limits: WearLimits,
    judged: Judged,
    reason: str,
    next_reading: str | None = None,
    tolerance_needed: float | None = None,
) -> WornMember:
    sign = 1.0 if side == "external" else -1.0
    return WornMember(
        side=side,
        width=width.value if width else None,
        tolerance=width.tolerance if width else None,
        wear=max(0.0, sign * (limits.limit - width.value)) if width else None,
        limit=limits.limit,
        judged=judged,
        reason=reason,
        next_reading=next_reading,
        tolerance_needed=tolerance_needed,
    )


def _by_width(
    spline: InvoluteSpline, side: Side, width: Reading, limits: WearLimits, pins: PinReading
) -> WornMember:
    """Hold a width against the limits, its tolerance counted."""
    name, worn, extreme, how = _NAMES[side]
    sign = 1.0 if side == "external" else -1.0
    shown = f"The {name} is {millimetres(width.value)} +/- {millimetres(width.tolerance)} wide"
    if sign * (width.value - limits.effective) > width.tolerance:
        reason = (
            f"{shown}, {millimetres(abs(width.value - limits.effective))} beyond what any class of this "
            f"standard makes ({millimetres(limits.effective)}): the wrong standard is assumed, or reading or "
            "pin are not what was written."
        )
        return _member(side, width, limits, "impossible", reason, _measure_the_pins(how))
    passed = sign * (limits.limit - width.value)
    bound = f"the {extreme} of {limits.words}, {millimetres(limits.limit)}"
    if passed > width.tolerance:
        wide = sign * (limits.widest - width.value) <= width.tolerance
        reason = f"{shown}, {millimetres(passed)} too {worn} against {bound}." + (
            f" A new part of class {_WIDEST_CLASS} may be that {worn}." if wide else ""
        )
        return _member(side, width, limits, "worn", reason)
    if -passed >= width.tolerance:
        return _member(side, width, limits, "within limits", f"{shown}, within {bound}.")
    needed = _needed(spline, side, width, abs(passed), pins)
    return _member(
        side,
        width,
        limits,
        "cannot tell",
        f"Cannot tell with this reading: {shown[0].lower()}{shown[1:]}, and {bound}, lies inside that.",
        _deciding(side, needed, pins),
        needed,
    )


def _needed(spline: InvoluteSpline, side: Side, width: Reading, gap: float, pins: PinReading) -> float | None:
    """Return the tolerance of a reading over gauge pins that would leave the limit outside; None if none."""
    per_width, per_pin = pin_gains(spline, side, width.value, pins.pin)
    square = (gap * per_width) ** 2 - (per_pin * min(pins.pin_tolerance, GAUGE_PIN)) ** 2
    return math.sqrt(square) if square > 0.0 else None


def _deciding(side: Side, needed: float | None, pins: PinReading) -> str:
    """Name the instrument that would decide."""
    how = _NAMES[side][3]
    if needed is None or needed < MICROMETER:
        return (
            "the width lies on the limit itself, closer than a micrometer reads: take the part as worn, or "
            f"average micrometer readings {how} at three places along the tooth and three around"
        )
    fine = "a micrometer" if side == "external" else "gauge blocks or an inside micrometer"
    tool = fine if needed < CALIPER or pins.reading_tolerance <= CALIPER else "a digital caliper"
    return f"a reading {how} good to {millimetres(needed)} decides: {tool}, gauge pins instead of shanks"


def _measure_the_pins(how: str) -> str:
    return (
        f"measure the pins, count the teeth again and repeat the reading {how}; then read with a second size "
        "of pin, which needs no pitch and no angle"
    )


def _contact_astray(spline: InvoluteSpline, side: Side, width: float, pin: float) -> str | None:
    """Return a sentence if the pins touch past the end of the flank, where the formula means nothing."""
    function = over_pins_contact_diameter if side == "external" else between_pins_contact_diameter
    contact = float(function(spline.teeth, spline.module, spline.pressure_angle, width, pin))
    low: float | None = spline.internal.minor_diameter
    high = spline.internal.form_diameter
    if side == "external":
        low, high = spline.external.form_diameter, spline.external.major_diameter
    if (low is None or contact >= low) and (high is None or contact <= high):
        return None
    return (
        f"These pins would touch on a diameter of {millimetres(contact)}, outside the true flank: "
        "the reading says nothing of the width."
    )


def _other_pins(spline: InvoluteSpline, side: Side) -> str:
    size = (1.92 if side == "external" else 1.728) * spline.module
    return f"read with pins of about {millimetres(size)}"


def _without_bridging(
    spline: InvoluteSpline, side: Side, width: Reading, step: Reading | None, limits: WearLimits
) -> tuple[Reading, str]:
    """
    Take off a worn step that the pins cannot have felt.

    Had they touched the worn band, the unworn width would have been beyond what any class makes.
    """
    if step is None:
        return width, ""
    depth = step.value / math.cos(spline.pressure_angle)
    tolerance = math.hypot(width.tolerance, step.tolerance / math.cos(spline.pressure_angle))
    sign = 1.0 if side == "external" else -1.0
    if sign * (width.value - limits.effective) + depth <= tolerance:
        return width, ""
    return (
        Reading(width.value - sign * depth, tolerance),
        f" The worn step of {millimetres(step.value)} is more than the pins show: they rode on unworn ends, "
        "and the step is counted besides; use balls instead of pins.",
    )


def _by_step(spline: InvoluteSpline, side: Side, step: Reading | None, limits: WearLimits) -> WornMember:
    """Judge without pins: a worn step is wear for certain, but from an unknown width."""
    name, _, _, how = _NAMES[side]
    pins = f"read {how} with gauge pins, at the least and the most worn place"
    if step is None:
        reason = (
            f"The {name} was not read {how}; a caliper on the tips says nothing of the wear of the flanks."
        )
        return _member(side, None, limits, "cannot tell", reason, pins)
    sign = 1.0 if side == "external" else -1.0
    slant = math.cos(spline.pressure_angle)
    middle = 0.5 * (limits.effective + limits.limit)
    spread = 0.5 * abs(limits.effective - limits.limit)
    width = Reading(middle - sign * step.value / slant, math.hypot(spread, step.tolerance / slant))
    shown = f"A worn step of {millimetres(step.value)} leaves a {name} about {millimetres(width.value)} wide"
    bound = f"the limit of {limits.words}, {millimetres(limits.limit)}"
    if sign * (limits.limit - width.value) > width.tolerance:
        return _member(side, width, limits, "worn", f"{shown}, past {bound}.")
    reason = f"{shown}, +/- {millimetres(width.tolerance)}, since the new width is not known; {bound}."
    return _member(side, width, limits, "cannot tell", reason, pins)
