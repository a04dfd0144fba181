"""Outlines for a machine: arcs as arcs, flanks as chords that stay within a stated distance of the flank."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.errors import DomainError
from torqcheck.geometry.drawing.cut_lengths import involute_chord_error
from torqcheck.geometry.drawing.data_block import DataBlock, MemberName
from torqcheck.geometry.drawing.profile import flank_points
from torqcheck.geometry.measuring.pins import between_pins, opposition, over_pins
from torqcheck.geometry.spline import InvoluteSpline, Member, StraightSpline
from torqcheck.geometry.standards.serration import SerrationSpline

__all__ = ["CHORD_ERROR", "CutOutline", "Polyline", "cut_outline"]

CHORD_ERROR = 0.5e-6
"""m; a chord of the drawn flank may lie this far from the true one: half a micrometre."""
_MOST_POINTS = 2000
_SAME_POINT = 1e-9  # m; closer points are one


@dataclass(frozen=True, slots=True)
class Polyline:
    """A closed outline: points, m, and for the piece from each to the next its bulge.

    A bulge is the tangent of a quarter of the angle of an arc, positive when it runs counter-clockwise;
    0 is a straight piece. All arcs have their centre on the axis.
    """

    points: FloatArray
    bulge: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class CutOutline:
    """One member at the middle of its limits, axis at the origin, m.

    `whole` is the section of the shaft or the bore of the hub, tooth 0 of the shaft and space 0 of the
    hub on +x. `space` is one tooth space, the form of the cutter: between tooth 0 and tooth 1 of the
    shaft, closed at its tip circle; of the hub space 0, closed at its minor circle. `pins` holds x, y
    and diameter. `chord_error` is the largest distance of a chord from the true flank.
    """

    member: MemberName
    whole: Polyline
    space: Polyline
    circles: tuple[tuple[str, float], ...]
    pins: tuple[tuple[float, float, float], ...]
    points_per_flank: int
    chord_error: float
    dimensions: tuple[tuple[str, float], ...]
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Flank:
    """One flank of a wave, from the inner to the outer end: radius, angle from the middle of the wave."""

    radius: FloatArray
    angle: FloatArray
    error: float = 0.0


def cut_outline(block: DataBlock, member: MemberName, chord_error: float = CHORD_ERROR) -> CutOutline:
    """
    Outline of one member as a machine can follow it.

    Parameters
    ----------
    block : DataBlock
        What is drawn.
    member : str
        "external" or "internal".
    chord_error : float, m, optional
        How far a chord of an involute flank may lie from it. The points are as many as that takes.

    Returns
    -------
    CutOutline
        Tooth thickness or space width and the tip diameter at the middle of their limits, the root at
        its nominal diameter; what has no limits is nominal, and `words` says so.

    Raises
    ------
    DomainError
        If the error asked for is not above zero, or the dimensions leave no flank.

    Notes
    -----
    Fillets and chamfers are not drawn, since no standard says their form; below the base circle the
    flank is a straight radial line. The flanks of a serration pass through the middle of tooth and gap
    half way between its nominal diameters, which is assumed.

    Examples
    --------
    >>> from torqcheck.geometry import ansi_b92_1
    >>> from torqcheck.geometry.drawing.data_block import block_of_involute
    >>> drawn = cut_outline(block_of_involute(ansi_b92_1.spline(27, "24/48")), "external")
    >>> print(drawn.points_per_flank, f"{drawn.chord_error * 1e6:.2f} micrometre")
    10 0.49 micrometre
    """
    if not 0.0 < chord_error < math.inf:
        raise DomainError("chord_error must be above 0 and finite")
    spline = block.spline
    if isinstance(spline, InvoluteSpline):
        return _involute(block, spline, member, chord_error)
    if isinstance(spline, StraightSpline):
        return _straight(block, spline, member)
    return _serration(spline, member)


def _involute(block: DataBlock, spline: InvoluteSpline, member: MemberName, error: float) -> CutOutline:
    diameters, tip_known = _with_middle_of_tip(block, member)
    width, width_known = _width(block, member)
    shaft = member == "external"
    drawn = replace(spline, external=diameters) if shaft else replace(spline, internal=diameters)
    width = (spline.tooth_thickness if shaft else spline.space_width) if width is None else width
    flank = _fine_flank(drawn, member, width, error)
    circles = [
        ("pitch", spline.pitch_diameter),
        ("base", spline.base_diameter),
        ("major", diameters.major_diameter),
        ("minor", diameters.minor_diameter),
        ("form", diameters.form_diameter),
    ]
    return CutOutline(
        member=member,
        **_lines(spline.teeth, member, flank),
        circles=tuple((name, size) for name, size in circles if size is not None),
        pins=_pins(block, spline, member, width),
        points_per_flank=flank.radius.size,
        chord_error=flank.error,
        dimensions=_dimensions(member, width, diameters),
        words=(
            *_which(member, width_known, tip_known),
            f"flanks: chords within {flank.error * 1e6:.2f} micrometre of the true involute",
            "root fillets are not drawn: the standard does not say their form",
        ),
    )


def _straight(block: DataBlock, spline: StraightSpline, member: MemberName) -> CutOutline:
    diameters, tip_known = _with_middle_of_tip(block, member)
    width, width_known = _width(block, member)
    width = spline.tooth_width if width is None else width
    radius = 0.5 * np.array([diameters.minor_diameter, diameters.major_diameter])
    if width >= 2.0 * radius[0] * math.sin(math.pi / spline.teeth):
        raise DomainError(f"the {member} teeth leave no root between them")
    flank = _Flank(radius, np.arcsin(0.5 * width / radius))
    chamfer = f" (chamfer {spline.chamfer * 1e3:g} mm)" if spline.chamfer else ""
    return CutOutline(
        member=member,
        **_lines(spline.teeth, member, flank),
        circles=(
            ("mean", spline.mean_diameter),
            ("major", diameters.major_diameter),
            ("minor", diameters.minor_diameter),
        ),
        pins=(),
        points_per_flank=2,
        chord_error=0.0,
        dimensions=_dimensions(member, width, diameters),
        words=(
            *_which(member, width_known, tip_known),
            f"flanks are straight and parallel; chamfers and fillets are not drawn{chamfer}",
        ),
    )


def _serration(spline: SerrationSpline, member: MemberName) -> CutOutline:
    """Straight flanks that pass, half way between the nominal diameters, through the middle of a flank."""
    half_gap, mean = 0.5 * spline.gap_angle, 0.5 * spline.mean_diameter
    at_mean = 0.5 * math.pi / spline.teeth
    apex = mean * (math.cos(at_mean) - math.sin(at_mean) / math.tan(half_gap))
    # on the smallest sizes the gap ends sharp before it reaches the nominal diameter
    inner = max(0.5 * spline.minor_diameter, apex)
    radius = np.array([inner, 0.5 * spline.major_diameter])
    along = np.sqrt(radius**2 - (apex * math.sin(half_gap)) ** 2) - apex * math.cos(half_gap)
    from_gap = np.arctan2(along * math.sin(half_gap), apex + along * math.cos(half_gap))
    if inner >= 0.5 * spline.mean_diameter or from_gap[1] >= math.pi / spline.teeth:
        raise DomainError("the nominal diameters leave no flank")
    flank = _Flank(radius, math.pi / spline.teeth - from_gap)
    return CutOutline(
        member=member,
        **_lines(spline.teeth, member, flank),
        circles=(
            ("mean", spline.mean_diameter),
            ("major", spline.major_diameter),
            ("minor", spline.minor_diameter),
        ),
        pins=(),
        points_per_flank=2,
        chord_error=0.0,
        dimensions=(("major diameter", spline.major_diameter), ("minor diameter", spline.minor_diameter)),
        words=(
            "nominal diameters: no limits of this standard could be read",
            "assumed: tooth and gap equal half way between the nominal diameters; no play",
            "flanks are straight; fillets are not drawn",
        ),
    )


def _with_middle_of_tip(block: DataBlock, member: MemberName) -> tuple[Member, bool]:
    """Diameters with the tip at the middle of its limits, and whether it has such."""
    nominal, limits = block.diameters(member), block.external if member == "external" else block.internal
    if limits is None:
        return nominal, False
    middle = (limits.major_diameter if member == "external" else limits.minor_diameter).middle
    if middle is None:
        return nominal, False
    if member == "external":
        return replace(nominal, major_diameter=middle), True
    return replace(nominal, minor_diameter=middle), True


def _width(block: DataBlock, member: MemberName) -> tuple[float | None, bool]:
    band = block.thickness if member == "external" else block.space
    middle = None if band is None else band.middle
    return middle, middle is not None


def _which(member: MemberName, width_known: bool, tip_known: bool) -> tuple[str, ...]:
    """Say which dimensions are drawn."""
    width = "tooth thickness" if member == "external" else "space width"
    tip, root = ("major", "minor") if member == "external" else ("minor", "major")
    known = {True: "middle of its limits", False: "nominal, for want of limits"}
    return (
        f"{width}: {known[width_known]}",
        f"{tip} diameter: {known[tip_known]}; {root} diameter: nominal",
    )


def _dimensions(member: MemberName, width: float, diameters: Member) -> tuple[tuple[str, float], ...]:
    return (
        ("tooth thickness" if member == "external" else "space width", width),
        ("major diameter", diameters.major_diameter),
        ("minor diameter", diameters.minor_diameter),
    )


def _fine_flank(spline: InvoluteSpline, member: MemberName, width: float, error: float) -> _Flank:
    """Flank with as few points as keep every chord within the error: doubled, then halved down."""

    def flank(points: int) -> _Flank:
        x, y = flank_points(spline, member, width, points).T
        radius = np.hypot(x, y)
        base = 0.5 * spline.base_diameter
        roll = np.sqrt(np.maximum((radius / base) ** 2 - 1.0, 0.0))
        chord = involute_chord_error(base, roll[:-1], roll[1:])
        return _Flank(radius, np.arctan2(y, x), float(np.max(chord)))

    return _fewest(flank, error)


def _fewest(flank: Callable[[int], _Flank], error: float) -> _Flank:
    """Flank with the fewest points that hold the error."""
    enough = 4
    while flank(enough).error > error:
        enough *= 2
        if enough > _MOST_POINTS:
            raise DomainError("chord_error is too small for a drawing")
    too_few = enough // 2
    while enough - too_few > 1:
        middle = (enough + too_few) // 2
        enough, too_few = (middle, too_few) if flank(middle).error <= error else (enough, middle)
    return flank(enough)


def _lines(teeth: int, member: MemberName, flank: _Flank) -> dict[str, Polyline]:
    """Whole outline and one tooth space from a flank."""
    radius = np.concatenate((flank.radius, flank.radius[::-1]))
    angle = np.concatenate((-flank.angle, flank.angle[::-1]))
    count, pitch = flank.radius.size, 2.0 * math.pi / teeth
    bulge = np.zeros(2 * count)
    over_tip, over_root = 2.0 * flank.angle[-1], pitch - 2.0 * flank.angle[0]
    bulge[count - 1], bulge[-1] = math.tan(0.25 * over_tip), math.tan(0.25 * over_root)
    around = (angle + pitch * np.arange(teeth)[:, None]).ravel()
    whole = _polyline(np.tile(radius, teeth), around, np.tile(bulge, teeth))
    if member == "internal":
        # up the flank, along the bottom of the space, down again, back along the minor circle
        closed = bulge.copy()
        closed[-1] = -math.tan(0.5 * flank.angle[0])
        return {"whole": whole, "space": _polyline(radius, angle, closed)}
    inward = np.concatenate((flank.angle[::-1], pitch - flank.angle))
    radii = np.concatenate((flank.radius[::-1], flank.radius))
    form = np.zeros(2 * count)
    form[count - 1] = math.tan(0.25 * over_root)
    form[-1] = -math.tan(0.25 * (pitch - over_tip))
    return {"whole": whole, "space": _polyline(radii, inward, form)}


def _polyline(radius: FloatArray, angle: FloatArray, bulge: FloatArray) -> Polyline:
    """Points from polar ones; of two that coincide, where a tooth is pointed, the second stays."""
    points = np.column_stack((radius * np.cos(angle), radius * np.sin(angle)))
    gap = np.hypot(*(np.roll(points, -1, axis=0) - points).T)
    kept = gap > _SAME_POINT
    return Polyline(points[kept], bulge[kept])


def _pins(
    block: DataBlock, spline: InvoluteSpline, member: MemberName, width: float
) -> tuple[tuple[float, float, float], ...]:
    """The pins of the reading, where they touch the flanks that are drawn."""
    pins = block.external_pins if member == "external" else block.internal_pins
    if pins is None:
        return ()
    shaft, half_pitch = member == "external", math.pi / spline.teeth
    read = over_pins if shaft else between_pins
    reading = float(read(spline.teeth, spline.module, spline.pressure_angle, width, pins.pin))
    centre = 0.5 * (reading - pins.pin if shaft else reading + pins.pin) / float(opposition(spline.teeth))
    first = half_pitch if shaft else 0.0
    angles = (first, first + 2.0 * half_pitch * (spline.teeth // 2))
    return tuple((centre * math.cos(angle), centre * math.sin(angle), pins.pin) for angle in angles)
