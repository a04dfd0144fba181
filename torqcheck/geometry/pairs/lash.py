"""Rotational play in its several forms: dial travel, angle, circumferential clearance."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.formulas import Symbol, formula
from torqcheck.geometry._domain import refuse_negative, refuse_unless_positive
from torqcheck.provenance import Source

__all__ = [
    "angle_from_clearance",
    "angle_from_travel",
    "clearance_from_angle",
    "clearance_from_travel",
    "travel_from_clearance",
]

ARC = Source("Geometry of a small rotation", "arc = angle x radius", "derived")

TRAVEL = Symbol("x", "m", "travel of the indicator, stop to stop")
ARM = Symbol("R", "m", "radius at which the indicator touches")
PITCH_DIAMETER = Symbol("D", "m", "pitch diameter")
CLEARANCE = Symbol("c", "m", "circumferential clearance at the pitch circle")
LASH = Symbol("theta", "rad", "rotational play, stop to stop")


@formula(
    "theta = x / R",
    result=LASH,
    source=ARC,
    travel=TRAVEL,
    radius=ARM,
)
def angle_from_travel(travel: Numeric, radius: Numeric) -> Numeric:
    """
    Rotational play from the travel of a dial indicator on a lever.

    ::

        theta = x / R

    Parameters
    ----------
    travel : float or array, m
        x, stop to stop.
    radius : float or array, m
        R, from the axis to the plunger, which stands square to the lever.

    Returns
    -------
    float or array, rad
        theta.

    Raises
    ------
    DomainError
        If the travel is negative or the radius is not positive.

    Notes
    -----
    Small angles: 1 percent of error is reached at about 10 deg. Play of bearings, keys and damper
    springs between the lever and the spline is contained in the reading. NaN in gives NaN out.

    References
    ----------
    .. [1] Geometry of a small rotation. Mark: derived.

    Examples
    --------
    >>> print(f"{np.degrees(angle_from_travel(0.50e-3, 0.100)):.3f} deg")
    0.286 deg
    """
    refuse_negative(travel=travel)
    refuse_unless_positive(radius=radius)
    return (np.asarray(travel, dtype=np.float64) / radius)[()]


@formula(
    "c = theta D / 2",
    result=CLEARANCE,
    source=ARC,
    angle=LASH,
    pitch_diameter=PITCH_DIAMETER,
)
def clearance_from_angle(angle: Numeric, pitch_diameter: Numeric) -> Numeric:
    """
    Circumferential clearance at the pitch circle from the rotational play.

    ::

        c = theta D / 2

    Parameters
    ----------
    angle : float or array, rad
        theta, stop to stop.
    pitch_diameter : float or array, m
        D.

    Returns
    -------
    float or array, m
        c.

    Raises
    ------
    DomainError
        If the angle is negative or the diameter is not positive.

    Notes
    -----
    Holds for parts held on one axis. NaN in gives NaN out.

    References
    ----------
    .. [1] Geometry of a small rotation. Mark: derived.

    Examples
    --------
    >>> print(f"{clearance_from_angle(0.005, 0.0333375) * 1e3:.4f} mm")
    0.0833 mm
    """
    refuse_negative(angle=angle)
    refuse_unless_positive(pitch_diameter=pitch_diameter)
    return (0.5 * np.asarray(angle, dtype=np.float64) * pitch_diameter)[()]


@formula(
    "theta = 2 c / D",
    result=LASH,
    source=ARC,
    clearance=CLEARANCE,
    pitch_diameter=PITCH_DIAMETER,
)
def angle_from_clearance(clearance: Numeric, pitch_diameter: Numeric) -> Numeric:
    """
    Rotational play from the circumferential clearance at the pitch circle.

    ::

        theta = 2 c / D

    Parameters
    ----------
    clearance : float or array, m
        c.
    pitch_diameter : float or array, m
        D.

    Returns
    -------
    float or array, rad
        theta, stop to stop.

    Raises
    ------
    DomainError
        If the clearance is negative or the diameter is not positive.

    Notes
    -----
    Holds for parts held on one axis. NaN in gives NaN out.

    References
    ----------
    .. [1] Geometry of a small rotation. Mark: derived.

    Examples
    --------
    >>> print(f"{np.degrees(angle_from_clearance(0.1e-3, 0.030)):.3f} deg")
    0.382 deg
    """
    refuse_negative(clearance=clearance)
    refuse_unless_positive(pitch_diameter=pitch_diameter)
    return (2.0 * np.asarray(clearance, dtype=np.float64) / pitch_diameter)[()]


@formula(
    "c = x D / (2 R)",
    result=CLEARANCE,
    source=ARC,
    travel=TRAVEL,
    radius=ARM,
    pitch_diameter=PITCH_DIAMETER,
)
def clearance_from_travel(travel: Numeric, radius: Numeric, pitch_diameter: Numeric) -> Numeric:
    """
    Circumferential clearance at the pitch circle from the travel of a dial indicator.

    ::

        c = x D / (2 R)

    Parameters
    ----------
    travel : float or array, m
        x, stop to stop.
    radius : float or array, m
        R, from the axis to the plunger, which stands square to the lever.
    pitch_diameter : float or array, m
        D.

    Returns
    -------
    float or array, m
        c.

    Raises
    ------
    DomainError
        If the travel is negative, or radius or diameter is not positive.

    Notes
    -----
    Holds for parts held on one axis; with free parts rocking also shifts the axis. NaN in gives
    NaN out.

    References
    ----------
    .. [1] Geometry of a small rotation. Mark: derived.

    Examples
    --------
    >>> print(f"{clearance_from_travel(0.50e-3, 0.100, 0.0333375) * 1e3:.4f} mm")
    0.0833 mm
    """
    return clearance_from_angle(angle_from_travel(travel, radius), pitch_diameter)


@formula(
    "x = 2 c R / D",
    result=TRAVEL,
    source=ARC,
    clearance=CLEARANCE,
    radius=ARM,
    pitch_diameter=PITCH_DIAMETER,
)
def travel_from_clearance(clearance: Numeric, radius: Numeric, pitch_diameter: Numeric) -> Numeric:
    """
    Travel that a dial indicator will show for a circumferential clearance.

    ::

        x = 2 c R / D

    Parameters
    ----------
    clearance : float or array, m
        c.
    radius : float or array, m
        R, from the axis to the plunger, which stands square to the lever.
    pitch_diameter : float or array, m
        D.

    Returns
    -------
    float or array, m
        x, stop to stop.

    Raises
    ------
    DomainError
        If the clearance is negative, or radius or diameter is not positive.

    Notes
    -----
    NaN in gives NaN out.

    References
    ----------
    .. [1] Geometry of a small rotation. Mark: derived.

    Examples
    --------
    0.3 mm of clearance on a 30 mm pitch circle, indicator at 110 mm:

    >>> print(f"{travel_from_clearance(0.3e-3, 0.110, 0.030) * 1e3:.2f} mm")
    2.20 mm
    """
    refuse_unless_positive(radius=radius)
    return np.asarray(angle_from_clearance(clearance, pitch_diameter) * radius, dtype=np.float64)[()]
