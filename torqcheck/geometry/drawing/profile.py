"""Outlines of involute splines as points: the shaft's section and the hub's bore, true flanks."""

from typing import Literal, NamedTuple

import numpy as np

from torqcheck._types import FloatArray
from torqcheck.errors import DomainError
from torqcheck.geometry._domain import refuse_unless_within_pitch
from torqcheck.geometry.involute import inverse_involute, involute, width_at_radius
from torqcheck.geometry.spline import InvoluteSpline

__all__ = ["MemberName", "external_profile", "flank_points", "internal_profile"]

MemberName = Literal["external", "internal"]

_LEAST_POINTS = 3
_ARC_SHARE = 3  # an arc takes a third as many steps as a flank, and more where they would be coarse
_COARSEST = 0.24  # rad between points of an arc, times points on a flank: 0.01 rad at 24 points


class _Wave(NamedTuple):
    """What repeats around the outline: a tooth of the shaft, or a space of the hub. Lengths in m."""

    inner: float  # radius from which it rises
    outer: float  # radius to which it rises
    width: float  # along the pitch circle


def external_profile(
    spline: InvoluteSpline, tooth_thickness: float | None = None, points_per_flank: int = 24
) -> FloatArray:
    """
    Outline of the whole section of the shaft.

    Parameters
    ----------
    spline : InvoluteSpline
        Its external member is drawn.
    tooth_thickness : float, m, optional
        Along the pitch circle, of a worn tooth for example; the spline's own if not given.
    points_per_flank : int, -, optional
        Points on each flank, 3 or more; each arc at tip and root takes a third of that or more.

    Returns
    -------
    array of shape (n, 2), m
        x and y, counter-clockwise, tooth 0 centred on +x. The last point is joined to the first,
        which is not repeated; no two neighbours are the same.

    Raises
    ------
    DomainError
        If the thickness does not lie between 0 and the circular pitch, or the points are too few.

    Notes
    -----
    The flank is the involute from tip to root circle, and a straight radial line below the base
    circle. Fillets are not drawn, since no standard says their form: between form and root
    diameter the real part holds more metal. A tooth so thin that its flanks meet below the major
    diameter is drawn pointed; teeth so thick that they meet above the root circle end there.
    Wear is drawn as even over the flank: both flanks turned about the axis, which moves an involute
    by the same distance everywhere. A width that is NaN gives an outline of NaN.

    Examples
    --------
    >>> from torqcheck.geometry import ansi_b92_1
    >>> outline = external_profile(ansi_b92_1.spline(27, "24/48"))
    >>> print(f"{np.hypot(*outline.T).max() * 2e3:.3f} mm over the tips")
    29.633 mm over the tips
    """
    return _outline(spline, _wave(spline, "external", tooth_thickness), points_per_flank)


def internal_profile(
    spline: InvoluteSpline, space_width: float | None = None, points_per_flank: int = 24
) -> FloatArray:
    """
    Outline of the hub's bore, the hole with its splines.

    Parameters
    ----------
    spline : InvoluteSpline
        Its internal member is drawn.
    space_width : float, m, optional
        Along the pitch circle, of a worn space for example; the spline's own if not given.
    points_per_flank : int, -, optional
        Points on each flank, 3 or more; each arc at tip and root takes a third of that or more.

    Returns
    -------
    array of shape (n, 2), m
        x and y, counter-clockwise, space 0 centred on +x. The last point is joined to the first,
        which is not repeated; no two neighbours are the same.

    Raises
    ------
    DomainError
        If the width does not lie between 0 and the circular pitch, or the points are too few.

    Notes
    -----
    A space has the form of an external tooth; what ``external_profile`` says of flanks and fillets
    holds here too. Teeth of the hub so thin that their flanks meet outside the minor diameter are
    drawn pointed. A width that is NaN gives an outline of NaN.

    Examples
    --------
    >>> from torqcheck.geometry import ansi_b92_1
    >>> outline = internal_profile(ansi_b92_1.spline(27, "24/48"))
    >>> print(f"{np.hypot(*outline.T).min() * 2e3:.3f} mm between the tips")
    27.517 mm between the tips
    """
    return _outline(spline, _wave(spline, "internal", space_width), points_per_flank)


def flank_points(
    spline: InvoluteSpline, member: MemberName, width: float | None = None, points: int = 24
) -> FloatArray:
    """
    Points of one flank of tooth 0 of the shaft, or of space 0 of the hub.

    Parameters
    ----------
    spline : InvoluteSpline
        Where the flank belongs.
    member : str
        "external" or "internal".
    width : float, m, optional
        Tooth thickness or space width along the pitch circle; the spline's own if not given.
    points : int, -, optional
        How many, 3 or more.

    Returns
    -------
    array of shape (points, 2), m
        x and y from the inner to the outer end; the flank on the side of positive y.

    Raises
    ------
    DomainError
        If the width does not lie between 0 and the circular pitch, the points are too few, or
        there is no such member.

    Notes
    -----
    See ``external_profile``. The other flank is the mirror image, y reversed.

    Examples
    --------
    >>> from torqcheck.geometry import ansi_b92_1
    >>> flank = flank_points(ansi_b92_1.spline(27, "24/48"), "external", points=3)
    >>> print(np.array2string(flank * 1e3, precision=3))
    [[13.525  1.147]
     [14.168  0.878]
     [14.807  0.529]]
    """
    radius, angle = _flank(spline, _wave(spline, member, width), points)
    return np.column_stack((radius * np.cos(angle), radius * np.sin(angle)))


def _wave(spline: InvoluteSpline, member: MemberName, width: float | None) -> _Wave:
    """Return radii and width of a tooth or space, within what two meeting flanks leave of them."""
    if member not in ("external", "internal"):
        raise DomainError(f'member {member!r} is neither "external" nor "internal"')
    diameters = spline.external if member == "external" else spline.internal
    if width is None:
        width = spline.tooth_thickness if member == "external" else spline.space_width
    refuse_unless_within_pitch(
        spline.module, **{"tooth_thickness" if member == "external" else "space_width": width}
    )
    inner, outer = 0.5 * diameters.minor_diameter, 0.5 * diameters.major_diameter
    base = 0.5 * spline.base_diameter
    # polar half-width that the flanks would have at the base circle; it falls by inv(phi) outwards
    at_base = width / spline.pitch_diameter + float(involute(spline.pressure_angle))
    outer = min(outer, base / float(np.cos(inverse_involute(at_base))))
    too_wide = at_base - np.pi / spline.teeth
    if too_wide > 0.0:
        inner = max(inner, base / float(np.cos(inverse_involute(too_wide))))
    if inner >= outer:
        raise DomainError(f"the {member} teeth leave no flank between their two diameters")
    return _Wave(inner, outer, width)


def _flank(spline: InvoluteSpline, wave: _Wave, points: int) -> tuple[FloatArray, FloatArray]:
    """Return radius and polar angle from the middle of the wave, from the inner to the outer end."""
    if points < _LEAST_POINTS:
        raise DomainError(f"a flank takes {_LEAST_POINTS} points or more")
    base = 0.5 * spline.base_diameter
    if wave.inner < base < wave.outer:
        # the part below the base circle is straight: one point more is all that it needs
        radius = np.concatenate(([wave.inner], np.linspace(base, wave.outer, points - 1)))
    else:
        radius = np.linspace(wave.inner, wave.outer, points)
    width = width_at_radius(radius, spline.pitch_diameter, spline.pressure_angle, wave.width)
    return radius, np.clip(0.5 * width / radius, 0.0, np.pi / spline.teeth)


def _outline(spline: InvoluteSpline, wave: _Wave, points: int) -> FloatArray:
    """Return the closed outline: flank up, arc at the outer, flank down, arc at the inner circle."""
    radius, angle = _flank(spline, wave, points)
    tip = _between(-angle[-1], angle[-1], points)
    root = _between(angle[0], 2.0 * np.pi / spline.teeth - angle[0], points)
    radii = (radius, np.full(tip.size, radius[-1]), radius[::-1], np.full(root.size, radius[0]))
    angles = (-angle, tip, angle[::-1], root)
    one = np.concatenate(radii)
    turn = 2.0 * np.pi / spline.teeth * np.arange(spline.teeth)
    around = (np.concatenate(angles) + turn[:, None]).ravel()
    closed = np.tile(one, spline.teeth)
    outline = np.column_stack((closed * np.cos(around), closed * np.sin(around)))
    # a pointed tooth has an arc of no length
    same = np.hypot(*(outline - np.roll(outline, 1, axis=0)).T) <= 1e-12 * wave.outer
    return np.asarray(outline[~same], dtype=np.float64)


def _between(start: float, end: float, points: int) -> FloatArray:
    """Return polar angles that divide an arc, its ends left out."""
    arc = 0.0 if np.isnan(end - start) else end - start
    steps = max(2, points // _ARC_SHARE, int(np.ceil(arc * points / _COARSEST)))
    return np.linspace(start, end, steps + 1)[1:-1]
