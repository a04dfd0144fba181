"""Whether two parts of equal count are of one pitch and angle, each judged by its own readings."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from torqcheck.errors import DomainError
from torqcheck.geometry.lengths import INCH
from torqcheck.geometry.pairs.base_circle import (
    FLANK_FORM,
    base_diameter_of_pins,
    base_pitch_of_spans,
)
from torqcheck.geometry.pairs.bench_readings import (
    PartReadings,
    Reading,
    Side,
    millimetres,
    thickness_over_span,
    width_over_pins,
)
from torqcheck.geometry.pairs.pseudo_mates import MOST_WEAR, neighbours_with_equal_count
from torqcheck.geometry.pairs.worn_members import CALIPER, MICROMETER, width_limits
from torqcheck.geometry.spline import InvoluteSpline

__all__ = [
    "PitchEstimate",
    "Pitches",
    "Trial",
    "Unmasking",
    "pitch_estimate",
    "separating_reading",
    "trials",
    "unmask",
]

Pitches = Literal["same pitch", "different pitch", "cannot tell"]

SIZE_BAND = 0.010 * INCH
"""By how much tips are made below (hub: above) their nominal diameter, m (mark: from memory)."""
_BAND_MODULES = 0.1  # large modules have wider bands
_SURE = 1.5  # three sigma, tolerances being two


@dataclass(frozen=True, slots=True, kw_only=True)
class PitchEstimate:
    """Base circle of one part from its own readings, m, two sigma.

    `module` and `pitch_diameter` follow at the pressure angle of the spline asked about. From tips
    (`by` "tip diameter") its proportions are assumed too, so that the angle stays open.
    """

    base_diameter: Reading
    base_pitch: Reading
    module: Reading
    pitch_diameter: Reading
    by: Literal["two spans", "two pin sizes", "tip diameter"]

    @property
    def angle_free(self) -> bool:
        """Whether the base circle was found without an assumed pressure angle."""
        return self.by != "tip diameter"


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """One spline held against all readings of one part; `wear` from its pins or span, m, if any."""

    spline: InvoluteSpline
    fits: bool
    wear: float | None
    against: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Unmasking:
    """What each part is by itself, and whether that is the same. Names are designations."""

    verdict: Pitches
    reason: str
    external: PitchEstimate | None
    internal: PitchEstimate | None
    external_fits: tuple[str, ...]
    internal_fits: tuple[str, ...]
    next_readings: tuple[str, ...]


def _band(spline: InvoluteSpline) -> float:
    return max(SIZE_BAND, _BAND_MODULES * spline.module)


def _tip(part: PartReadings, side: Side) -> Reading | None:
    return part.major_diameter if side == "external" else part.minor_diameter


def _nominal_tip(spline: InvoluteSpline, side: Side) -> float:
    return spline.external.major_diameter if side == "external" else spline.internal.minor_diameter


def pitch_estimate(spline: InvoluteSpline, side: Side, part: PartReadings) -> PitchEstimate | None:
    """
    Base circle, pitch circle and module of one part from its own readings, the surest way taken.

    Parameters
    ----------
    spline : InvoluteSpline
        Gives the number of teeth, the angle at which the module is stated and, for a reading of
        the tips, the proportions.
    side : str
        "external" or "internal".
    part : PartReadings
        Its readings.

    Returns
    -------
    PitchEstimate or None
        None where neither spans, pins nor tips say anything.

    Raises
    ------
    DomainError
        If no involute gives the readings of spans or pins.
    """
    found: list[PitchEstimate] = []
    spans = base_pitch_of_spans(part.spans)
    if spans is not None:
        found.append(_estimate(spline, _scaled(spans, spline.teeth / math.pi), "two spans"))
    by_pins = base_diameter_of_pins(side, spline.teeth, part.pins)
    if by_pins is not None:
        found.append(_estimate(spline, by_pins, "two pin sizes"))
    if found:
        return min(found, key=lambda estimate: estimate.base_diameter.tolerance)
    tip = _tip(part, side)
    if tip is None:
        return None
    half = 0.5 * _band(spline)
    sign = 1.0 if side == "external" else -1.0
    nominal = Reading(tip.value + sign * half, math.hypot(tip.tolerance, half))
    base = _scaled(nominal, spline.base_diameter / _nominal_tip(spline, side))
    return _estimate(spline, base, "tip diameter")


def _scaled(reading: Reading, factor: float) -> Reading:
    return Reading(reading.value * factor, reading.tolerance * factor)


def _estimate(
    spline: InvoluteSpline, base: Reading, by: Literal["two spans", "two pin sizes", "tip diameter"]
) -> PitchEstimate:
    diameter = _scaled(base, 1.0 / math.cos(spline.pressure_angle))
    return PitchEstimate(
        base_diameter=base,
        base_pitch=_scaled(base, math.pi / spline.teeth),
        module=_scaled(diameter, 1.0 / spline.teeth),
        pitch_diameter=diameter,
        by=by,
    )


def trials(splines: Sequence[InvoluteSpline], side: Side, part: PartReadings) -> tuple[Trial, ...]:
    """
    Hold splines against all readings of one part, wear allowed in the wearing direction only.

    The first is the spline that the part is said to be: its wear is not bounded. Of any other no
    more is believed than the play at which published practice replaces a pair.
    """
    return tuple(
        _trial(spline, side, part, math.inf if index == 0 else MOST_WEAR)
        for index, spline in enumerate(splines)
    )


def _trial(spline: InvoluteSpline, side: Side, part: PartReadings, most_wear: float) -> Trial:
    against = _against_tip(spline, side, part) or _against_base(spline, side, part)
    wear = None
    if against is None:
        against, wear = _against_widths(spline, side, part, most_wear)
    return Trial(spline=spline, fits=against is None, wear=wear, against=against)


def _against_tip(spline: InvoluteSpline, side: Side, part: PartReadings) -> str | None:
    """Return why the tips speak against a spline."""
    tip, nominal = _tip(part, side), _nominal_tip(spline, side)
    if tip is None:
        return None
    sign = 1.0 if side == "external" else -1.0
    above = sign * (tip.value - nominal)
    if -_band(spline) - tip.tolerance <= above <= tip.tolerance:
        return None
    name = "outside diameter" if side == "external" else "minor diameter"
    reason = f"{name} {millimetres(tip.value)}, where it has {millimetres(nominal)}"
    return reason if above > 0.0 else f"{reason} (unless the tips were turned, ground or worn)"


def _against_base(spline: InvoluteSpline, side: Side, part: PartReadings) -> str | None:
    """Return why spans or pins of two sizes speak against a spline, its wear and width aside."""
    if len(part.pins) < 2 and len(part.spans) < 2:
        return None
    try:
        estimate = pitch_estimate(spline, side, part)
    except DomainError as error:
        return str(error)
    if estimate is None or not estimate.angle_free:
        return None
    base = estimate.base_diameter
    if abs(base.value - spline.base_diameter) <= _SURE * base.tolerance:
        return None
    return (
        f"base diameter by {estimate.by} {millimetres(base.value)} +/- {millimetres(base.tolerance)}, where "
        f"it has {millimetres(spline.base_diameter)}"
    )


def _against_widths(
    spline: InvoluteSpline, side: Side, part: PartReadings, most_wear: float
) -> tuple[str | None, float | None]:
    """Return why thickness or space speaks against a spline, and the wear that it would mean."""
    limits = width_limits(spline, side)
    sign = 1.0 if side == "external" else -1.0
    try:
        widths = [width_over_pins(spline, side, pins) for pins in part.pins]
        if side == "external":
            widths += [thickness_over_span(spline, span) for span in part.spans]
    except DomainError as error:
        return str(error), None
    wear: float | None = None
    for width in widths:
        if sign * (width.value - limits.effective) > width.tolerance:
            return f"{millimetres(width.value)} is beyond its {millimetres(limits.effective)}", None
        lost = max(0.0, sign * (limits.limit - width.value))
        if lost - width.tolerance > most_wear:
            return f"it would be worn by {millimetres(lost)}", None
        wear = lost if wear is None else max(wear, lost)
    return None, wear


def unmask(spline: InvoluteSpline, external: PartReadings, internal: PartReadings) -> Unmasking:
    """
    Say whether two parts of equal count are of one pitch, from readings of each part by itself.

    How they fit together is not asked: a neighbouring standard fits like a worn mate. Base circles
    found without an angle are compared at once; then each part is held against the stated spline
    and against every standard spline of that count within 6 percent of its pitch.

    Parameters
    ----------
    spline : InvoluteSpline
        The spline that the pair is said to be, of the counted number of teeth.
    external, internal : PartReadings
        Diameters, pins of two sizes, spans; whatever was read.

    Returns
    -------
    Unmasking
        "same pitch" where only the stated spline is left for both parts, "different pitch" where
        no spline is left for both, else "cannot tell" with the reading that would decide.
    """
    splines = (spline, *(item.spline for item in neighbours_with_equal_count(spline)))
    parts: tuple[tuple[Side, PartReadings], ...] = (("external", external), ("internal", internal))
    estimates = [_estimate_or_none(spline, side, part) for side, part in parts]
    fits = [_fitting(splines, side, part) for side, part in parts]
    verdict, reason = _compared(estimates) or _weighed(spline, fits)
    readings = _next(spline, fits) if verdict == "cannot tell" else ()
    return Unmasking(
        verdict=verdict,
        reason=reason,
        external=estimates[0],
        internal=estimates[1],
        external_fits=tuple(item.designation for item in fits[0]),
        internal_fits=tuple(item.designation for item in fits[1]),
        next_readings=readings,
    )


def _fitting(splines: Sequence[InvoluteSpline], side: Side, part: PartReadings) -> tuple[InvoluteSpline, ...]:
    """Return the splines that a part can be; a new part is what it is said to be."""
    if part.new:
        return (splines[0],)
    return tuple(item.spline for item in trials(splines, side, part) if item.fits)


def _estimate_or_none(spline: InvoluteSpline, side: Side, part: PartReadings) -> PitchEstimate | None:
    try:
        return pitch_estimate(spline, side, part)
    except DomainError:
        return None


def _compared(estimates: Sequence[PitchEstimate | None]) -> tuple[Pitches, str] | None:
    """Compare base circles that were both found without an angle; None if they do not differ for sure."""
    first, second = estimates
    if first is None or second is None or not (first.angle_free and second.angle_free):
        return None
    one, other = first.base_pitch, second.base_pitch
    if abs(one.value - other.value) <= _SURE * math.hypot(one.tolerance, other.tolerance):
        return None
    return "different pitch", (
        f"The base pitch of the shaft is {millimetres(one.value)} +/- {millimetres(one.tolerance)} (by "
        f"{first.by}), that of the hub {millimetres(other.value)} +/- {millimetres(other.tolerance)} (by "
        f"{second.by}): they are not of one pitch and angle, however they fit."
    )


def _names(splines: Sequence[InvoluteSpline]) -> str:
    shown = [f"{item.standard.upper()} {item.designation}" for item in splines[:3]]
    more = len(splines) - len(shown)
    return " or ".join(shown) + (f" or {more} more" if more else "")


def _weighed(spline: InvoluteSpline, fits: Sequence[tuple[InvoluteSpline, ...]]) -> tuple[Pitches, str]:
    """Decide from what each part can be."""
    outer, inner = fits
    if not outer or not inner:
        part = "shaft" if not outer else "hub"
        return "cannot tell", (
            f"The readings of the {part} agree with no spline of {spline.teeth} teeth near this pitch: a "
            "slip of the reading, or an old or maker's own series."
        )
    common = [item for item in outer if item in inner]
    if not common:
        return "different pitch", (
            f"By its own readings the shaft is {_names(outer)}, the hub {_names(inner)}: no spline is left "
            "for both. Where a diameter decided, tips that were turned or ground could mislead."
        )
    if list(outer) == list(inner) == [spline]:
        return "same pitch", f"By its own readings each part can only be {_names((spline,))}."
    if spline not in common:
        return "cannot tell", (
            f"Both parts can be {_names(common)}, but not both {_names((spline,))}: the stated size is wrong."
        )
    return "cannot tell", (
        f"The shaft can be {_names(outer)}; the hub can be {_names(inner)}."
        if max(len(outer), len(inner)) <= 3
        else f"The readings leave {len(outer)} splines for the shaft and {len(inner)} for the hub."
    )


def _next(spline: InvoluteSpline, fits: Sequence[tuple[InvoluteSpline, ...]]) -> tuple[str, ...]:
    """Name, for each part that can be several splines, the reading that separates the first two."""
    sides: tuple[Side, Side] = ("external", "internal")
    return tuple(
        separating_reading(spline, next(item for item in left if item != spline), side)
        for side, left in zip(sides, fits, strict=True)
        if any(item != spline for item in left)
    )


def separating_reading(first: InvoluteSpline, second: InvoluteSpline, side: Side) -> str:
    """Return the simplest reading that tells one part of two splines of equal count apart."""
    pair = f"{first.designation} from {second.designation}"
    tips = [_nominal_tip(item, side) for item in (first, second)]
    if abs(tips[0] - tips[1]) > max(_band(first), _band(second)) + 2.0 * CALIPER:
        name = "outside diameter of the shaft" if side == "external" else "minor diameter of the hub"
        return (
            f"{name} with a caliper, which tells {pair}: "
            f"{millimetres(tips[0])} against {millimetres(tips[1])}"
        )
    pitches = [math.pi * item.base_diameter / item.teeth for item in (first, second)]
    apart = abs(pitches[0] - pitches[1])
    if apart < 1e-9:
        return (
            f"pin reading with micrometer and gauge pins, which tells {pair} by the width of tooth and space"
        )
    if side == "internal":
        return (
            f"two sizes of pin in the hub with gauge blocks, or an impression of its spaces, which tells "
            f"{pair}: base diameter {millimetres(first.base_diameter)} against "
            f"{millimetres(second.base_diameter)}"
        )
    often = math.ceil(
        (_SURE * math.sqrt(2.0) * math.hypot(MICROMETER, math.sqrt(2.0) * FLANK_FORM) / apart) ** 2
    )
    places = f", mean of {often} places" if often > 1 else ""
    return (
        f"spans over two numbers of teeth with a micrometer{places}, which tell {pair}: they differ by "
        f"{millimetres(pitches[0])} against {millimetres(pitches[1])}"
    )
