"""A sleeve that floats between two shafts: what offset and angle of the shafts do to its two meshes."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_angle, require_positive
from torqcheck.formulas import Symbol, formula
from torqcheck.wear._symbols import KINEMATICS, TILT
from torqcheck.wear.alignment import tilt_from_offset

__all__ = ["tilt_where_offset_was_read", "tilts_of_floating_sleeve"]


@formula(
    "ga = atan(e / Ls) + b",
    result=TILT,
    source=KINEMATICS,
    offset=Symbol("e", "m", "offset of the two shafts in the plane of this mesh"),
    span=Symbol("Ls", "m", "distance between the two meshes"),
    shaft_angle=Symbol("b", "rad", "angle between the two shafts"),
)
def tilt_where_offset_was_read(offset: Numeric, span: Numeric, shaft_angle: Numeric = 0.0) -> Numeric:
    """
    Largest tilt at that mesh of a floating sleeve in whose plane the offset was read.

    ::

        ga = atan(e / Ls) + b

    Parameters
    ----------
    offset : float or array, m
        e. The sign is ignored.
    span : float or array, m
        Ls, distance between the middles of the two meshes.
    shaft_angle : float or array, rad, optional
        b, between the two shafts. The sign is ignored: its direction is not known.

    Returns
    -------
    float or array, rad
        ga. At the other mesh it is ``tilt_from_offset`` alone.

    Raises
    ------
    DomainError
        If span is not above zero, or shaft_angle a right angle or more, anywhere.

    Notes
    -----
    Let the first shaft lie along x, the second run y = e + b (x - Ls), with e in the plane of the second
    mesh. The sleeve is held to the first axis at x = 0 and to the second at x = Ls, so that it slopes by
    e/Ls. That is its tilt against the first shaft; against the second it is e/Ls - b, at worst the sum.
    Each mesh sees what the offset is in the plane of the other. NaN in any argument gives NaN.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{np.degrees(tilt_where_offset_was_read(0.1e-3, 60e-3, np.radians(0.05))):.4f} deg")
    0.1455 deg
    """
    require_positive(span=span)
    require_angle(shaft_angle=shaft_angle)
    return np.arctan(np.abs(offset) / span) + np.abs(shaft_angle)


def tilts_of_floating_sleeve(
    offset: Numeric, span: Numeric, shaft_angle: Numeric = 0.0
) -> tuple[Numeric, Numeric]:
    """
    Tilt at both meshes of a floating sleeve: where the offset was read, and at the other one.

    Parameters
    ----------
    offset : float or array, m
        Of the two shafts, in the plane of the first of the two meshes that are returned.
    span : float or array, m
        Distance between the middles of the two meshes.
    shaft_angle : float or array, rad, optional
        Angle between the two shafts.

    Raises
    ------
    DomainError
        If span is not above zero, or shaft_angle a right angle or more, anywhere.

    Examples
    --------
    Half the span, double the tilt, at both meshes:

    >>> print([f"{1e3 * tilt:.3f} mrad" for tilt in tilts_of_floating_sleeve(0.12e-3, 60e-3)])
    ['2.000 mrad', '2.000 mrad']
    >>> print([f"{1e3 * tilt:.3f} mrad" for tilt in tilts_of_floating_sleeve(0.12e-3, 30e-3)])
    ['4.000 mrad', '4.000 mrad']
    """
    return tilt_where_offset_was_read(offset, span, shaft_angle), tilt_from_offset(offset, span)
