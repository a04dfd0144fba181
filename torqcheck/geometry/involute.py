"""The involute function, its inverse, and the width of an involute tooth or space at any radius."""

import numpy as np

from torqcheck._types import FloatArray, Numeric
from torqcheck.domain import refuse
from torqcheck.errors import NoSolutionError
from torqcheck.formulas import Symbol, formula
from torqcheck.geometry._domain import refuse_unless_positive
from torqcheck.provenance import Source

__all__ = ["inverse_involute", "involute", "width_at_radius"]

GEOMETRY = Source("Geometry of the involute", "length unwound from the base circle", "derived")

# tan(x) - x = x^3 (1/3 + 2/15 x^2 + ...): below this angle the difference loses digits, the series none
_SERIES_BELOW = 0.1
_SERIES = (
    1 / 3,
    2 / 15,
    17 / 315,
    62 / 2835,
    1382 / 155925,
    21844 / 6081075,
    929569 / 638512875,
    6404582 / 10854718875,
)
_MOST_STEPS = 40


@formula(
    "inv(a) = tan(a) - a",
    result=Symbol("inv(a)", "-", "involute of the angle"),
    source=GEOMETRY,
    angle=Symbol("a", "rad", "angle between radius and flank"),
)
def involute(angle: Numeric) -> Numeric:
    """
    Involute function of an angle.

    ::

        inv(a) = tan(a) - a

    Parameters
    ----------
    angle : float or array, rad
        a, angle between the radius and the flank at a point of an involute; 0 at the base circle.

    Returns
    -------
    float or array, -
        inv(a), the polar angle between that point and the start of the involute.

    Raises
    ------
    DomainError
        If the angle is negative or not below pi/2, anywhere.

    Notes
    -----
    Below 0.1 rad the power series is summed, since the plain difference loses digits there.
    NaN in gives NaN out.

    References
    ----------
    .. [1] Geometry of the involute, length unwound from the base circle. Mark: derived.

    Examples
    --------
    >>> print(f"{involute(np.radians(30.0)):.7f}")
    0.0537515
    """
    refuse(np.less(angle, 0.0) | np.greater_equal(angle, 0.5 * np.pi), "angle must be 0 or more, below pi/2")
    return _involute(np.asarray(angle, dtype=np.float64))[()]


def _involute(angle: FloatArray) -> FloatArray:
    """Return tan(a) - a to full precision; no checks."""
    return _tangent_less_angle(angle, np.tan(angle))


def _tangent_less_angle(angle: FloatArray, tangent: FloatArray) -> FloatArray:
    """Return the difference to full precision, for an angle and its tangent."""
    square = np.square(np.minimum(angle, _SERIES_BELOW))
    series = np.polynomial.polynomial.polyval(square, _SERIES) * angle**3
    return np.where(angle < _SERIES_BELOW, series, tangent - angle)


@formula(
    "a such that tan(a) - a = v",
    result=Symbol("a", "rad", "angle whose involute is v"),
    source=GEOMETRY,
    value=Symbol("v", "-", "involute of the angle"),
)
def inverse_involute(value: Numeric) -> Numeric:
    """
    Angle whose involute is given.

    ::

        a such that tan(a) - a = v

    Parameters
    ----------
    value : float or array, -
        v, above 0.

    Returns
    -------
    float or array, rad
        a, between 0 and pi/2, right to 1e-13 of itself.

    Raises
    ------
    DomainError
        If the value is zero, negative or infinite, anywhere: no point of a flank has it.

    Notes
    -----
    Newton's method on the tangent u: u - atan(u) = v is convex and rising, so that every step after
    the first comes down on the root from one side and none can overshoot. Start from the series
    u = s + s^3/5, s = (3 v)^(1/3), or from the bound u < v + pi/2, whichever is less.
    NaN in gives NaN out.

    References
    ----------
    .. [1] Geometry of the involute, length unwound from the base circle. Mark: derived.

    Examples
    --------
    >>> print(f"{np.degrees(inverse_involute(involute(np.radians(30.0)))):.10f} deg")
    30.0000000000 deg
    """
    refuse_unless_positive(value=value)
    wanted = np.asarray(value, dtype=np.float64)
    root = np.cbrt(3.0 * wanted)
    tangent = np.minimum(root + 0.2 * root**3, wanted + 0.5 * np.pi)
    for _ in range(_MOST_STEPS):
        excess = _tangent_less_angle(np.arctan(tangent), tangent) - wanted
        step = excess * (1.0 + (1.0 / tangent) ** 2)
        tangent = tangent - step
        # convergence is quadratic: after so small a step only rounding is left
        if not np.any(np.abs(step) > 1e-12 * tangent):
            return np.arctan(tangent)[()]
    raise NoSolutionError(f"no angle found for the involute value(s) {value!r}")


@formula(
    "w(r) = 2 r (w/D + inv(a) - inv(phi)), cos(phi) = D cos(a) / (2 r)",
    result=Symbol("w(r)", "m", "width along the arc at radius r"),
    source=GEOMETRY,
    radius=Symbol("r", "m", "radius at which the width is wanted"),
    pitch_diameter=Symbol("D", "m", "pitch diameter"),
    pressure_angle=Symbol("a", "rad", "pressure angle at the pitch diameter"),
    width=Symbol("w", "m", "width along the pitch circle"),
)
def width_at_radius(
    radius: Numeric, pitch_diameter: Numeric, pressure_angle: Numeric, width: Numeric
) -> Numeric:
    """
    Width of an external tooth or of an internal space at a radius, along the arc.

    ::

        w(r) = 2 r (w/D + inv(a) - inv(phi)), cos(phi) = D cos(a) / (2 r)

    Parameters
    ----------
    radius : float or array, m
        r.
    pitch_diameter : float or array, m
        D.
    pressure_angle : float or array, rad
        a, at the pitch diameter.
    width : float or array, m
        w, tooth thickness of the external or space width of the internal member at D.

    Returns
    -------
    float or array, m
        w(r). Negative above the radius at which the two flanks of a tooth meet.

    Raises
    ------
    DomainError
        If a radius, diameter or width is not positive, or the angle is not between 0 and pi/2.

    Notes
    -----
    The space of an internal spline has the form of an external tooth, so one formula serves both.
    An involute starts at its base circle; below it phi = 0 is used, which is a radial flank.
    Fillets at the root and chamfers at the tip are not contained. NaN in gives NaN out.

    References
    ----------
    .. [1] Geometry of the involute, length unwound from the base circle. Mark: derived.

    Examples
    --------
    Tooth of a 27-tooth spline, 24/48 pitch, 30 deg, at its major diameter:

    >>> width = width_at_radius(0.0148167, 0.028575, np.radians(30.0), 0.0016624)
    >>> print(f"{width * 1e3:.3f} mm")
    1.057 mm
    """
    refuse_unless_positive(radius=radius, pitch_diameter=pitch_diameter, width=width)
    refuse(
        np.less_equal(pressure_angle, 0.0) | np.greater_equal(pressure_angle, 0.5 * np.pi),
        "pressure_angle must lie between 0 and pi/2 rad",
    )
    r, D, a = np.asarray(radius), np.asarray(pitch_diameter), np.asarray(pressure_angle)
    phi = np.arccos(np.minimum(D * np.cos(a) / (2.0 * r), 1.0))
    return (2.0 * r * (width / D + _involute(a) - _involute(phi)))[()]
