"""Crowned teeth: how much crown a tilt asks for, and whether the contact stays off the ends."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED
from torqcheck.domain import require_angle, require_not_negative, require_positive
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = ["contact_shift", "crown_radius", "edge_margin", "least_crown_height"]

_CROWN_RULE = Source("Machinery's Handbook, Involute Splines", "crowned splines, unnumbered", "from memory")
_FACE = Symbol("F", "m", "face width of the crowned teeth")
_CROWN = Symbol("A", "m", "crown height at the tooth ends")
_RADIUS = Symbol("r2", "m", "radius of curvature of the crowned flank")
_TILT = Symbol("ga", "rad", "angle between the two axes")


@formula(
    "r2 = F^2 / (8 A)",
    result=_RADIUS,
    source=_CROWN_RULE,
    face_width=_FACE,
    crown_height=_CROWN,
)
def crown_radius(face_width: Numeric, crown_height: Numeric) -> Numeric:
    """
    Radius of curvature of a crowned flank from its crown height.

    ::

        r2 = F^2 / (8 A)

    Parameters
    ----------
    face_width : float or array, m
        F.
    crown_height : float or array, m
        A, how much each flank falls away at the tooth ends.

    Returns
    -------
    float or array, m
        r2.

    Raises
    ------
    DomainError
        If an argument is not above zero anywhere.

    Notes
    -----
    Circle through the middle and the ends, without the A/2 that is lost in it.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Machinery's Handbook, Involute Splines, crowned splines. Mark: from memory.

    Examples
    --------
    >>> print(f"{crown_radius(0.0127, 11.083e-6):.3f} m")
    1.819 m
    """
    require_positive(face_width=face_width, crown_height=crown_height)
    return face_width**2 / (8.0 * crown_height)


@formula(
    "A = (F / 2) tan(ga)",
    result=_CROWN,
    source=_CROWN_RULE,
    face_width=_FACE,
    tilt=_TILT,
)
def least_crown_height(face_width: Numeric, tilt: Numeric) -> Numeric:
    """
    Least crown height for a tilt by the guide, which asks for somewhat more than this.

    ::

        A = (F / 2) tan(ga)

    Parameters
    ----------
    face_width : float or array, m
        F.
    tilt : float or array, rad
        ga, angle between the two axes. The sign is ignored.

    Returns
    -------
    float or array, m
        A.

    Raises
    ------
    DomainError
        If face_width is not above zero, or tilt is a right angle or more, anywhere.

    Notes
    -----
    The contact then sits at a quarter of the face from the middle; under load it spreads, and
    reaches the edge as soon as its half width is more than the other quarter: see ``edge_margin``.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Machinery's Handbook, Involute Splines, crowned splines. Mark: from memory.

    Examples
    --------
    >>> print(f"{least_crown_height(0.0127, 0.0017453) * 1e6:.2f} um")
    11.08 um
    """
    require_positive(face_width=face_width)
    require_angle(tilt=tilt)
    return 0.5 * face_width * np.tan(np.abs(tilt))


@formula(
    "s = r2 tan(ga)",
    result=Symbol("s", "m", "shift of the contact from the middle of the face"),
    source=DERIVED,
    crown_radius=_RADIUS,
    tilt=_TILT,
)
def contact_shift(crown_radius: Numeric, tilt: Numeric) -> Numeric:
    """
    Shift of the contact on a crowned flank from the middle of the face when the joint is tilted.

    ::

        s = r2 tan(ga)

    Parameters
    ----------
    crown_radius : float or array, m
        r2, radius of curvature of the crowned flank.
    tilt : float or array, rad
        ga, angle between the two axes. The sign is ignored.

    Returns
    -------
    float or array, m
        s.

    Raises
    ------
    DomainError
        If crown_radius is not above zero, or tilt is a right angle or more, anywhere.

    Notes
    -----
    Where the slope of the crown equals the tilt. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived from the geometry of a cylinder on a tilted plane. Mark: derived.

    Examples
    --------
    >>> print(f"{contact_shift(1.819, 0.0017453) * 1e3:.3f} mm")
    3.175 mm
    """
    require_positive(crown_radius=crown_radius)
    require_angle(tilt=tilt)
    return crown_radius * np.tan(np.abs(tilt))


@formula(
    "m = F / 2 - s - b",
    result=Symbol("m", "m", "distance from the contact to the nearer end of the teeth"),
    source=DERIVED,
    face_width=_FACE,
    half_width=Symbol("b", "m", "half width of the contact along the tooth"),
    shift=Symbol("s", "m", "shift of the contact from the middle of the face"),
)
def edge_margin(face_width: Numeric, half_width: Numeric, shift: Numeric) -> Numeric:
    """
    Distance between the contact on a crowned flank and the nearer end of the teeth.

    ::

        m = F / 2 - s - b

    Parameters
    ----------
    face_width : float or array, m
        F.
    half_width : float or array, m
        b, from ``contact_half_width``.
    shift : float or array, m
        s, from ``contact_shift``.

    Returns
    -------
    float or array, m
        m. Negative: the edge carries load, and the true pressure is above the computed one.

    Raises
    ------
    DomainError
        If face_width is not above zero, or half_width or shift is negative, anywhere.

    Notes
    -----
    The guide's least crown alone does not keep the contact off the edge.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{edge_margin(0.0127, 0.00346, 0.003175) * 1e3:.2f} mm")
    -0.29 mm
    """
    require_positive(face_width=face_width)
    require_not_negative(half_width=half_width, shift=shift)
    return 0.5 * face_width - shift - half_width
