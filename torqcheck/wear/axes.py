"""Two axes in space: offset and tilt from one plane to another, both directions together."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_angle, require_not_negative, require_positive
from torqcheck.formulas import Symbol, formula
from torqcheck.wear._symbols import KINEMATICS, RADIUS, TILT

__all__ = [
    "offset_along",
    "tilt_at_slip_speed",
    "tilt_between_planes",
    "tilt_of_mesh",
    "total_offset",
    "total_tilt",
]

_UP = Symbol("v", "m", "offset upwards")
_SIDEWAYS = Symbol("h", "m", "offset to the right")
_TILT_UP = Symbol("gv", "rad", "tilt upwards")
_TILT_SIDEWAYS = Symbol("gh", "rad", "tilt to the right")


@formula(
    "ga = atan((e2 - e) / S)",
    result=Symbol("ga", "rad", "tilt along the line in which the offsets were read"),
    source=KINEMATICS,
    offset=Symbol("e", "m", "offset in the plane nearer to the motor"),
    second_offset=Symbol("e2", "m", "offset in the plane nearer to the driven machine"),
    plane_distance=Symbol("S", "m", "distance between the two planes"),
)
def tilt_between_planes(offset: Numeric, second_offset: Numeric, plane_distance: Numeric) -> Numeric:
    """
    Tilt of two axes from their offsets in two planes: the method of two rims.

    ::

        ga = atan((e2 - e) / S)

    Parameters
    ----------
    offset : float or array, m
        e, of the driven axis against the motor's, with its sign.
    second_offset : float or array, m
        e2, the same in the other plane.
    plane_distance : float or array, m
        S.

    Returns
    -------
    float or array, rad
        ga, with its sign.

    Raises
    ------
    DomainError
        If plane_distance is not above zero anywhere.

    Notes
    -----
    Needs no face and does not see end float. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{tilt_between_planes(0.02e-3, 0.10e-3, 0.160) * 1e3:.3f} mrad")
    0.500 mrad
    """
    require_positive(plane_distance=plane_distance)
    return np.arctan(np.subtract(second_offset, offset) / plane_distance)


@formula(
    "e' = e + x tan(ga)",
    result=Symbol("e'", "m", "offset in the other plane"),
    source=KINEMATICS,
    offset=Symbol("e", "m", "offset in the plane of the dial"),
    tilt=TILT,
    distance=Symbol("x", "m", "distance to the other plane, positive towards the driven machine"),
)
def offset_along(offset: Numeric, tilt: Numeric, distance: Numeric) -> Numeric:
    """
    Offset of two tilted axes in another plane than that in which it was read.

    ::

        e' = e + x tan(ga)

    Parameters
    ----------
    offset : float or array, m
        e, of the driven axis against the motor's, with its sign.
    tilt : float or array, rad
        ga, slope of the driven axis along the same line, with its sign.
    distance : float or array, m
        x, to the middle of the engagement say. Negative back towards the motor.

    Returns
    -------
    float or array, m
        e', with its sign.

    Raises
    ------
    DomainError
        If tilt is a right angle or more anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{offset_along(0.05e-3, 1.0e-3, -0.030) * 1e3:.3f} mm")
    0.020 mm
    """
    require_angle(tilt=tilt)
    return np.add(offset, np.multiply(distance, np.tan(tilt)))


@formula(
    "e = sqrt(v^2 + h^2)",
    result=Symbol("e", "m", "offset of the two axes"),
    source=KINEMATICS,
    vertical_offset=_UP,
    horizontal_offset=_SIDEWAYS,
)
def total_offset(vertical_offset: Numeric, horizontal_offset: Numeric) -> Numeric:
    """
    Offset from what it is upwards and sideways.

    ::

        e = sqrt(v^2 + h^2)

    Parameters
    ----------
    vertical_offset : float or array, m
        v.
    horizontal_offset : float or array, m
        h.

    Returns
    -------
    float or array, m
        e, never negative.

    Raises
    ------
    Nothing
        Every offset is allowed.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{total_offset(0.03e-3, -0.04e-3) * 1e3:.2f} mm")
    0.05 mm
    """
    return np.hypot(vertical_offset, horizontal_offset)


@formula(
    "ga = atan(sqrt(tan(gv)^2 + tan(gh)^2))",
    result=TILT,
    source=KINEMATICS,
    vertical_tilt=_TILT_UP,
    horizontal_tilt=_TILT_SIDEWAYS,
)
def total_tilt(vertical_tilt: Numeric, horizontal_tilt: Numeric) -> Numeric:
    """
    Angle between two axes from what it is upwards and sideways.

    ::

        ga = atan(sqrt(tan(gv)^2 + tan(gh)^2))

    Parameters
    ----------
    vertical_tilt : float or array, rad
        gv.
    horizontal_tilt : float or array, rad
        gh.

    Returns
    -------
    float or array, rad
        ga, never negative.

    Raises
    ------
    DomainError
        If one of them is a right angle or more anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{total_tilt(0.3e-3, 0.4e-3) * 1e3:.2f} mrad")
    0.50 mrad
    """
    require_angle(vertical_tilt=vertical_tilt, horizontal_tilt=horizontal_tilt)
    return np.arctan(np.hypot(np.tan(vertical_tilt), np.tan(horizontal_tilt)))


@formula(
    "ga = atan(max |(tan(gv), tan(gh)) +- (v, h) / Ls|)",
    result=TILT,
    source=KINEMATICS,
    vertical_tilt=_TILT_UP,
    horizontal_tilt=_TILT_SIDEWAYS,
    vertical_offset=_UP,
    horizontal_offset=_SIDEWAYS,
    span=Symbol("Ls", "m", "length over which the offset is taken up"),
)
def tilt_of_mesh(
    vertical_tilt: Numeric,
    horizontal_tilt: Numeric,
    vertical_offset: Numeric,
    horizontal_offset: Numeric,
    span: Numeric,
) -> Numeric:
    """
    Tilt that a mesh sees when the offset at its middle is taken up over a span.

    ::

        ga = atan(max |(tan(gv), tan(gh)) +- (v, h) / Ls|)

    Parameters
    ----------
    vertical_tilt : float or array, rad
        gv, slope of the driven axis upwards.
    horizontal_tilt : float or array, rad
        gh, slope of the driven axis to the right.
    vertical_offset : float or array, m
        v, in the middle of this mesh.
    horizontal_offset : float or array, m
        h, in the middle of this mesh.
    span : float or array, m
        Ls, to the other mesh of a floating sleeve; the engagement where there is only one.

    Returns
    -------
    float or array, rad
        ga.

    Raises
    ------
    DomainError
        If span is not above zero, or a tilt is a right angle or more, anywhere.

    Notes
    -----
    A sleeve between two meshes lies along the line from one axis to the other, so that the tilt at
    one mesh is the offset at the other over the span: (v, h) - Ls (tan(gv), tan(gh)) towards the motor,
    with a plus towards the driven machine. Which of the two is not asked; the larger counts. Where
    the directions are not known it is the sum of both amounts. NaN in any argument gives NaN.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    A tilt of 0.8 mrad upwards and an offset of 0.06 mm sideways over 100 mm:

    >>> print(f"{tilt_of_mesh(0.8e-3, 0.0, 0.0, 0.06e-3, 0.100) * 1e3:.2f} mrad")
    1.00 mrad
    """
    require_positive(span=span)
    require_angle(vertical_tilt=vertical_tilt, horizontal_tilt=horizontal_tilt)
    up, sideways = np.tan(vertical_tilt), np.tan(horizontal_tilt)
    more_up, more_sideways = np.divide(vertical_offset, span), np.divide(horizontal_offset, span)
    with_it = np.hypot(up + more_up, sideways + more_sideways)
    against_it = np.hypot(up - more_up, sideways - more_sideways)
    tilt: Numeric = np.arctan(np.maximum(with_it, against_it))
    return tilt


@formula(
    "ga = atan(vp / (w r))",
    result=TILT,
    source=KINEMATICS,
    slip_speed=Symbol("vp", "m/s", "largest speed at which the flanks may slip"),
    speed=Symbol("w", "rad/s", "speed of the joint"),
    pitch_radius=RADIUS,
)
def tilt_at_slip_speed(slip_speed: Numeric, speed: Numeric, pitch_radius: Numeric) -> Numeric:
    """
    Tilt at which the flanks reach a slip speed; the inverse of ``peak_slip_speed``.

    ::

        ga = atan(vp / (w r))

    Parameters
    ----------
    slip_speed : float or array, m/s
        vp.
    speed : float or array, rad/s
        w.
    pitch_radius : float or array, m
        r.

    Returns
    -------
    float or array, rad
        ga.

    Raises
    ------
    DomainError
        If slip_speed is negative, or speed or pitch_radius is not above zero, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    12 mm/s at 3000 rev/min and 20 mm:

    >>> print(f"{tilt_at_slip_speed(0.012, 314.159, 0.020) * 1e3:.2f} mrad")
    1.91 mrad
    """
    require_not_negative(slip_speed=slip_speed)
    require_positive(speed=speed, pitch_radius=pitch_radius)
    tilt: Numeric = np.arctan(np.divide(slip_speed, np.multiply(speed, pitch_radius)))
    return tilt
