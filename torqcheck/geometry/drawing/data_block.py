"""All that a drawing says about one splined joint, and what readings with pins make of its parts."""

import math
from dataclasses import dataclass
from typing import Literal

from torqcheck.errors import DomainError
from torqcheck.geometry.measuring.pin_choice import (
    PinReading,
    SpanReading,
    external_pins,
    external_spans,
    internal_pins,
    internal_spans,
)
from torqcheck.geometry.measuring.pin_sensitivity import (
    between_pins_per_pin,
    between_pins_per_space,
    over_pins_per_pin,
    over_pins_per_thickness,
)
from torqcheck.geometry.measuring.pins import space_from_pins, thickness_from_pins
from torqcheck.geometry.spline import InvoluteSpline, Member, StraightSpline
from torqcheck.geometry.standards.limits import Band, ExternalLimits, InternalLimits, involute_limits
from torqcheck.geometry.standards.serration import SerrationSpline
from torqcheck.geometry.standards.straight_limits import iso_14_limits, sae_limits

__all__ = [
    "DataBlock",
    "MeasuredWidth",
    "MemberName",
    "block_of_involute",
    "block_of_serration",
    "block_of_straight",
    "measured_space",
    "measured_thickness",
]

MemberName = Literal["external", "internal"]


@dataclass(frozen=True, slots=True, kw_only=True)
class DataBlock:
    """Dimensions, limits and readings with pins of both members; absent is what the basis does not give."""

    spline: InvoluteSpline | StraightSpline | SerrationSpline
    external: ExternalLimits | None = None
    internal: InternalLimits | None = None
    external_pins: PinReading | None = None
    internal_pins: PinReading | None = None
    external_spans: tuple[SpanReading, ...] = ()
    internal_spans: tuple[SpanReading, ...] = ()

    def diameters(self, member: MemberName) -> Member:
        """Nominal diameters of one member; a fit of ISO 4156 draws those of the shaft in with the flank."""
        spline = self.spline
        if isinstance(spline, StraightSpline | SerrationSpline):
            return Member(
                major_diameter=spline.major_diameter,
                minor_diameter=spline.minor_diameter,
                form_diameter=None,
            )
        if member == "internal":
            return spline.internal
        shaft, limits = spline.external, self.external
        if limits is None or limits.major_diameter.maximum is None:
            return shaft
        drawn_in = shaft.major_diameter - limits.major_diameter.maximum
        return Member(
            major_diameter=shaft.major_diameter - drawn_in,
            minor_diameter=shaft.minor_diameter - drawn_in,
            form_diameter=limits.form_diameter,
        )

    @property
    def thickness(self) -> Band | None:
        """Actual limits of the tooth."""
        limits = self.external
        return None if limits is None or limits.tooth_thickness is None else limits.tooth_thickness.actual

    @property
    def space(self) -> Band | None:
        """Actual limits of the space."""
        limits = self.internal
        return None if limits is None or limits.space_width is None else limits.space_width.actual

    @property
    def effective_clearance(self) -> Band | None:
        """Play between new flanks as it shows: effective space less effective tooth, m."""
        shaft, hub = self.external, self.internal
        if shaft is None or hub is None or shaft.tooth_thickness is None or hub.space_width is None:
            return None
        return _difference(hub.space_width.effective, shaft.tooth_thickness.effective)

    @property
    def actual_clearance(self) -> Band | None:
        """Space less tooth as cut, m; shows as play once the errors of form have bedded in."""
        return _difference(self.space, self.thickness)


def _difference(space: Band | None, tooth: Band | None) -> Band | None:
    """Space less tooth at both ends; None where an end is missing."""
    if space is None or tooth is None:
        return None
    if space.minimum is None or space.maximum is None or tooth.minimum is None or tooth.maximum is None:
        return None
    return Band(space.minimum - tooth.maximum, space.maximum - tooth.minimum)


def block_of_involute(
    spline: InvoluteSpline,
    fit_class: int | None = None,
    fit: str | None = None,
    length: float | None = None,
    *,
    pin: float | None = None,
    hub_pin: float | None = None,
) -> DataBlock:
    """
    Data block of an involute spline; arguments as ``involute_limits`` takes them.

    Parameters
    ----------
    spline : InvoluteSpline
        Of ANSI B92.1, ISO 4156 or DIN 5480.
    fit_class : int, optional
        See ``involute_limits``, like the next two.
    fit : str, optional
        Letter of the fit.
    length : float, m, optional
        Of the engagement.
    pin, hub_pin : float, m, optional
        The user's own pins for shaft and hub; recommended ones if not given.

    Raises
    ------
    DomainError
        Where ``involute_limits`` raises it.
    """
    external, internal = involute_limits(spline, fit_class, fit, length)
    tooth, space = external.tooth_thickness, internal.space_width
    return DataBlock(
        spline=spline,
        external=external,
        internal=internal,
        external_pins=None if tooth is None else external_pins(spline, tooth, pin),
        internal_pins=None if space is None else internal_pins(spline, space, hub_pin),
        external_spans=() if tooth is None else external_spans(spline, tooth),
        internal_spans=() if space is None else internal_spans(spline, space),
    )


def block_of_straight(spline: StraightSpline, fit: str = "sliding", hardened: bool = False) -> DataBlock:
    """
    Data block of a straight-sided spline of ISO 14 (fit sliding, close, fixed) or SAE J499.

    Parameters
    ----------
    spline : StraightSpline
        Of ISO 14 or SAE J499.
    fit : str, optional
        See ``iso_14_limits``; SAE J499 has it in its designation.
    hardened : bool, optional
        Whether the hub is hardened after broaching (ISO 14 only).

    Raises
    ------
    DomainError
        If the standard has no limits or the fit is another.
    """
    if spline.standard == "iso 14":
        external, internal = iso_14_limits(spline, fit, hardened)
    elif spline.standard == "sae j499":
        external, internal = sae_limits(spline)
    else:
        raise DomainError(f"no limits are known for a straight-sided spline of {spline.standard!r}")
    return DataBlock(spline=spline, external=external, internal=internal)


def block_of_serration(spline: SerrationSpline) -> DataBlock:
    """Data block of a serration: nominal sizes only, no limits are known."""
    return DataBlock(spline=spline)


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredWidth:
    """Tooth thickness or space width from a reading with pins, m.

    `beyond_new` is how far it has passed the worn end of the new limits: material lost at least,
    both flanks together; 0 inside the limits, None where there are none. `impossible` says that it
    lies beyond the other end by more than its tolerance, where no wear can bring it.
    """

    width: float
    tolerance: float
    reading: float
    pin: float
    beyond_new: float | None
    impossible: bool


def measured_thickness(
    block: DataBlock, over_pins: float, pin: float, tolerance: float = 0.0, pin_tolerance: float = 0.0
) -> MeasuredWidth:
    """
    Tooth thickness of a shaft from its reading over pins, beside the new limits.

    Parameters
    ----------
    block : DataBlock
        Of an involute spline.
    over_pins, pin : float, m
        Reading and pin as measured.
    tolerance, pin_tolerance : float, m, optional
        Tolerances of both.

    Raises
    ------
    DomainError
        If the spline is not an involute one, or reading and spline do not belong together.
    """
    spline = _involute(block)
    shape = (spline.teeth, spline.module, spline.pressure_angle)
    width = float(thickness_from_pins(*shape, over_pins, pin))
    by_pin = float(over_pins_per_pin(*shape, width, pin)) * pin_tolerance
    spread = math.hypot(tolerance, by_pin) / float(over_pins_per_thickness(*shape, width, pin))
    limits = None if block.external is None else block.external.tooth_thickness
    least = None if limits is None else limits.actual.minimum
    most = None if limits is None or limits.effective is None else limits.effective.maximum
    return MeasuredWidth(
        width=width,
        tolerance=spread,
        reading=over_pins,
        pin=pin,
        beyond_new=None if least is None else max(0.0, least - width),
        impossible=most is not None and width - spread > most,
    )


def measured_space(
    block: DataBlock, between_pins: float, pin: float, tolerance: float = 0.0, pin_tolerance: float = 0.0
) -> MeasuredWidth:
    """
    Space width of a hub from its reading between pins, beside the new limits.

    Parameters
    ----------
    block : DataBlock
        Of an involute spline.
    between_pins, pin : float, m
        Reading and pin as measured.
    tolerance, pin_tolerance : float, m, optional
        Tolerances of both.

    Raises
    ------
    DomainError
        If the spline is not an involute one, or reading and spline do not belong together.
    """
    spline = _involute(block)
    shape = (spline.teeth, spline.module, spline.pressure_angle)
    width = float(space_from_pins(*shape, between_pins, pin))
    by_pin = float(between_pins_per_pin(*shape, width, pin)) * pin_tolerance
    spread = math.hypot(tolerance, by_pin) / float(between_pins_per_space(*shape, width, pin))
    limits = None if block.internal is None else block.internal.space_width
    most = None if limits is None else limits.actual.maximum
    least = None if limits is None or limits.effective is None else limits.effective.minimum
    return MeasuredWidth(
        width=width,
        tolerance=spread,
        reading=between_pins,
        pin=pin,
        beyond_new=None if most is None else max(0.0, width - most),
        impossible=least is not None and width + spread < least,
    )


def _involute(block: DataBlock) -> InvoluteSpline:
    """Return the spline of a block, which must be an involute one."""
    if not isinstance(block.spline, InvoluteSpline):
        raise DomainError("pins measure involute splines; measure straight flanks directly")
    return block.spline
