"""What worn depth means for play and for the teeth, and the depth at which a limit is reached."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_angle, require_not_negative, require_positive, require_share
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source
from torqcheck.wear._symbols import ANGLE, RADIUS

__all__ = [
    "THICKNESS_LOSS_LIMIT",
    "clearance_growth",
    "depth_at_thickness_loss",
    "depth_sum_at_lash_limit",
    "lash_growth",
]

THICKNESS_LOSS_LIMIT = 0.10
"""Loss of tooth thickness, as a share, at which a spline counts as worn out: assumed, none is published."""

_DERIVED = Source("Derived: thickness along the pitch circle, depth along the normal", "", "derived")
_EXTERNAL = Symbol("h_ext", "m", "depth worn from a flank of the external member")
_INTERNAL = Symbol("h_int", "m", "depth worn from a flank of the internal member")
_FLANKS = Symbol("f", "-", "flanks of each tooth that wear: 1 or 2")


@formula(
    "dc = f (h_ext + h_int) / cos(al)",
    result=Symbol("dc", "m", "growth of the clearance along the pitch circle"),
    source=_DERIVED,
    external_depth=_EXTERNAL,
    internal_depth=_INTERNAL,
    pressure_angle=ANGLE,
    wearing_flanks=_FLANKS,
)
def clearance_growth(
    external_depth: Numeric, internal_depth: Numeric, pressure_angle: Numeric, wearing_flanks: Numeric = 1.0
) -> Numeric:
    """
    Growth of the circumferential clearance by wear.

    ::

        dc = f (h_ext + h_int) / cos(al)

    Parameters
    ----------
    external_depth : float or array, m
        h_ext, depth worn from a flank of the external member, normal to the flank.
    internal_depth : float or array, m
        h_int, the same for the internal member.
    pressure_angle : float or array, rad
        al.
    wearing_flanks : float or array, -, optional
        f, 1 if only the drive flanks wear, 2 if the coast flanks wear as much.

    Returns
    -------
    float or array, m
        dc, along the pitch circle.

    Raises
    ------
    DomainError
        If a depth is negative, pressure_angle is a right angle or more, or wearing_flanks is not
        above zero, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> from math import radians
    >>> print(f"{clearance_growth(1e-4, 1e-4, radians(30)) * 1e3:.4f} mm")
    0.2309 mm
    """
    require_not_negative(external_depth=external_depth, internal_depth=internal_depth)
    require_angle(pressure_angle=pressure_angle)
    require_positive(wearing_flanks=wearing_flanks)
    return wearing_flanks * (external_depth + internal_depth) / np.cos(pressure_angle)


@formula(
    "db = f (h_ext + h_int) / (r cos(al))",
    result=Symbol("db", "rad", "growth of the lash"),
    source=_DERIVED,
    external_depth=_EXTERNAL,
    internal_depth=_INTERNAL,
    pitch_radius=RADIUS,
    pressure_angle=ANGLE,
    wearing_flanks=_FLANKS,
)
def lash_growth(
    external_depth: Numeric,
    internal_depth: Numeric,
    pitch_radius: Numeric,
    pressure_angle: Numeric,
    wearing_flanks: Numeric = 1.0,
) -> Numeric:
    """
    Growth of the rotational play by wear.

    ::

        db = f (h_ext + h_int) / (r cos(al))

    Parameters
    ----------
    external_depth : float or array, m
        h_ext, depth worn from a flank of the external member, normal to the flank.
    internal_depth : float or array, m
        h_int, the same for the internal member.
    pitch_radius : float or array, m
        r.
    pressure_angle : float or array, rad
        al.
    wearing_flanks : float or array, -, optional
        f, 1 if only the drive flanks wear, 2 if the coast flanks wear as much.

    Returns
    -------
    float or array, rad
        db, to be added to the lash of the new joint.

    Raises
    ------
    DomainError
        If a depth is negative, a size or wearing_flanks is not above zero, or pressure_angle is a
        right angle or more, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> from math import radians
    >>> print(f"{np.degrees(lash_growth(1e-4, 1e-4, 0.020, radians(30))):.2f} deg")
    0.66 deg
    """
    require_positive(pitch_radius=pitch_radius)
    return clearance_growth(external_depth, internal_depth, pressure_angle, wearing_flanks) / pitch_radius


@formula(
    "h_ext + h_int = (c_max - c0) cos(al) / f",
    result=Symbol("h_ext + h_int", "m", "depths worn from both members together"),
    source=_DERIVED,
    clearance=Symbol("c0", "m", "circumferential clearance now"),
    clearance_limit=Symbol("c_max", "m", "circumferential clearance that is still accepted"),
    pressure_angle=ANGLE,
    wearing_flanks=_FLANKS,
)
def depth_sum_at_lash_limit(
    clearance: Numeric, clearance_limit: Numeric, pressure_angle: Numeric, wearing_flanks: Numeric = 1.0
) -> Numeric:
    """
    Depth, of both members together, at which the play reaches its limit.

    ::

        h_ext + h_int = (c_max - c0) cos(al) / f

    Parameters
    ----------
    clearance : float or array, m
        c0, circumferential clearance now, along the pitch circle.
    clearance_limit : float or array, m
        c_max, circumferential clearance that is still accepted.
    pressure_angle : float or array, rad
        al.
    wearing_flanks : float or array, -, optional
        f, 1 if only the drive flanks wear, 2 if the coast flanks wear as much.

    Returns
    -------
    float or array, m
        The sum of both depths; 0 if the joint is at or beyond its limit now.

    Raises
    ------
    DomainError
        If a clearance is negative, pressure_angle is a right angle or more, or wearing_flanks is
        not above zero, anywhere.

    Notes
    -----
    The inverse of ``clearance_growth``. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> from math import radians
    >>> print(f"{depth_sum_at_lash_limit(0.05e-3, 0.40e-3, radians(30)) * 1e3:.4f} mm")
    0.3031 mm
    """
    require_not_negative(clearance=clearance, clearance_limit=clearance_limit)
    require_angle(pressure_angle=pressure_angle)
    require_positive(wearing_flanks=wearing_flanks)
    room = np.maximum(np.subtract(clearance_limit, clearance), 0.0)
    return room * np.cos(pressure_angle) / wearing_flanks


@formula(
    "h = x t cos(al) / f",
    result=Symbol("h", "m", "depth worn from a flank, normal to it"),
    source=_DERIVED,
    thickness=Symbol("t", "m", "tooth thickness at the pitch line"),
    pressure_angle=ANGLE,
    loss=Symbol("x", "-", "share of the thickness that may be lost"),
    wearing_flanks=_FLANKS,
)
def depth_at_thickness_loss(
    thickness: Numeric,
    pressure_angle: Numeric,
    loss: Numeric = THICKNESS_LOSS_LIMIT,
    wearing_flanks: Numeric = 1.0,
) -> Numeric:
    """
    Depth at which a tooth has lost a share of its thickness.

    ::

        h = x t cos(al) / f

    Parameters
    ----------
    thickness : float or array, m
        t, tooth thickness at the pitch line.
    pressure_angle : float or array, rad
        al.
    loss : float or array, -, optional
        x, share of the thickness that may be lost; a tenth assumed.
    wearing_flanks : float or array, -, optional
        f, 1 if only the drive flanks wear, 2 if the coast flanks wear as much.

    Returns
    -------
    float or array, m
        h, normal to the flank.

    Raises
    ------
    DomainError
        If thickness or wearing_flanks is not above zero, pressure_angle is a right angle or more,
        or loss is not in (0, 1], anywhere.

    Notes
    -----
    For a case-hardened flank the other limit of depth is the effective case depth itself, which
    is measured along the normal as well. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived; the tenth itself: assumed. Mark: derived.

    Examples
    --------
    >>> from math import radians
    >>> print(f"{depth_at_thickness_loss(3.14e-3, radians(30)) * 1e3:.4f} mm")
    0.2719 mm
    """
    require_positive(thickness=thickness, wearing_flanks=wearing_flanks)
    require_angle(pressure_angle=pressure_angle)
    require_share(loss=loss)
    return loss * thickness * np.cos(pressure_angle) / wearing_flanks
