"""Factors of the spline guide that have a closed form: load distribution and wear life."""

import math

import numpy as np

from torqcheck._types import BoolArray, Numeric
from torqcheck.domain import require_angle, require_not_negative, require_positive
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = [
    "END_GAP_TABLE_LIMIT",
    "WEAR_LIFE_TABLE",
    "beyond_load_distribution_table",
    "end_gap",
    "load_distribution_factor",
    "wear_life_factor",
    "wear_life_revolutions",
]

_INCH = 0.0254
_UNIT_GAP = 0.002 * _INCH  # end gap up to which the table keeps the factor at 1
_UNIT_REVOLUTIONS = 1e8  # revolutions at which the wear-life factor is 1
_EXPONENT = 2.0 / math.log10(2.0)  # 6.644: ten times the revolutions take 2^(-1/2) of the pressure

END_GAP_TABLE_LIMIT = 0.032 * _INCH
"""Largest end gap of the guide's table, m: 0.008 in per in over a face of 4 in."""

WEAR_LIFE_TABLE = (1e4, 1e10)
"""First and last number of revolutions in the guide's table."""

_TILT = Symbol("ga", "rad", "angle between the two axes")
_FACE = Symbol("F", "m", "face width, full length of engagement")
_LOAD_TABLE = Source("Machinery's Handbook, Involute Splines", "Table 8; closed form derived", "derived")
_WEAR_TABLE = Source("Machinery's Handbook, Involute Splines", "Table 10; closed form derived", "derived")


@formula(
    "e = F tan(ga)",
    result=Symbol("e", "m", "end gap"),
    source=_LOAD_TABLE,
    tilt=_TILT,
    face_width=_FACE,
)
def end_gap(tilt: Numeric, face_width: Numeric) -> Numeric:
    """
    Gap that tilt opens between two flanks from one end of the teeth to the other.

    ::

        e = F tan(ga)

    Parameters
    ----------
    tilt : float or array, rad
        ga, angle between the two axes. The sign is ignored.
    face_width : float or array, m
        F, full length of engagement.

    Returns
    -------
    float or array, m
        e, never negative.

    Raises
    ------
    DomainError
        If face_width is negative, or tilt is a right angle or more, anywhere.

    Notes
    -----
    The guide's tables give misalignment in inches per inch, the tangent of the angle.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: geometry of a tilted face. Mark: derived.

    Examples
    --------
    >>> print(f"{end_gap(0.004, 0.0254) * 1e3:.4f} mm")
    0.1016 mm
    """
    require_not_negative(face_width=face_width)
    require_angle(tilt=tilt)
    return face_width * np.tan(np.abs(tilt))


@formula(
    "Km = max(1, 1 + 0.5 log2(F tan(ga) / e0)), e0 = 0.0508 mm",
    result=Symbol("Km", "-", "load-distribution factor"),
    source=_LOAD_TABLE,
    tilt=_TILT,
    face_width=_FACE,
)
def load_distribution_factor(tilt: Numeric, face_width: Numeric) -> Numeric:
    """
    Load-distribution (misalignment) factor of a flexible spline.

    ::

        Km = max(1, 1 + 0.5 log2(F tan(ga) / e0)), e0 = 0.0508 mm          0.002 in

    Parameters
    ----------
    tilt : float or array, rad
        ga, angle between the two axes. The sign is ignored.
    face_width : float or array, m
        F, full length of engagement.

    Returns
    -------
    float or array, -
        Km, at least 1. For a fixed seat the factor is 1 and this function is not asked.

    Raises
    ------
    DomainError
        If face_width is negative, or tilt is a right angle or more, anywhere. Not beyond the
        table: see ``beyond_load_distribution_table``.

    Notes
    -----
    Reproduces all 16 cells of the table in [1]_ exactly: they depend on the end gap alone, and
    each doubling of the gap adds one half. Metric reprints round the faces of 0.5, 1, 2 and 4 in
    to 12, 25, 50 and 100 mm; the closed form needs no rounding. Only to be used with the
    guide's allowables: an elastic tilt model has much larger factors on another scale.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Machinery's Handbook, Involute Splines, Table 8. Mark: published; the closed form: derived.

    Examples
    --------
    >>> print(f"{load_distribution_factor(0.004, 0.0254):.3f}")
    1.500
    """
    gap = end_gap(tilt, face_width)
    return 1.0 + 0.5 * np.log2(np.maximum(gap / _UNIT_GAP, 1.0))


def beyond_load_distribution_table(tilt: Numeric, face_width: Numeric) -> bool | BoolArray:
    """
    Whether the end gap is larger than any in the guide's table, so that the factor is extrapolated.

    Parameters
    ----------
    tilt : float or array, rad
        Angle between the two axes.
    face_width : float or array, m
        Width of the teeth that mesh.
    """
    # a rounding bit must not push the last cell of the table out of it
    return np.greater(end_gap(tilt, face_width), END_GAP_TABLE_LIMIT * (1.0 + 1e-9))


@formula(
    "Kw = min(4, 2^((8 - log10(n)) / 2))",
    result=Symbol("Kw", "-", "wear-life factor"),
    source=_WEAR_TABLE,
    revolutions=Symbol("n", "-", "revolutions of the joint in its life"),
)
def wear_life_factor(revolutions: Numeric) -> Numeric:
    """
    Wear-life factor of a flexible spline.

    ::

        Kw = min(4, 2^((8 - log10(n)) / 2))

    Parameters
    ----------
    revolutions : float or array, -
        n, revolutions of the joint in its life: revolutions and not starts.

    Returns
    -------
    float or array, -
        Kw, 1 at 1e8 revolutions; never above 4, since the table starts at 1e4 revolutions.

    Raises
    ------
    DomainError
        If revolutions is negative anywhere.

    Notes
    -----
    Fits every entry of the table in [1]_ within its rounding: 2.83 where it prints 2.8, 1.41 for
    1.4, 0.71 for 0.7. Each turn of a misaligned flexible spline is one full rocking cycle, hence
    revolutions. Above 1e10 revolutions the form is extrapolated. NaN gives NaN.

    References
    ----------
    .. [1] Machinery's Handbook, Involute Splines, Table 10. Mark: published; the closed form: derived.

    Examples
    --------
    >>> print(f"{wear_life_factor(1e8):.2f}, {wear_life_factor(1e10):.2f}, {wear_life_factor(500):.2f}")
    1.00, 0.50, 4.00
    """
    require_not_negative(revolutions=revolutions)
    counted = np.maximum(revolutions, WEAR_LIFE_TABLE[0])
    return 2.0 ** (0.5 * np.log10(_UNIT_REVOLUTIONS / counted))


@formula(
    "n = 1e8 (Sa / Sc)^(2 / log10(2))",
    result=Symbol("n", "-", "revolutions until the guide's wear limit"),
    source=_WEAR_TABLE,
    pressure_at_unit_factor=Symbol("Sc", "Pa", "flank pressure with all factors but the wear-life factor"),
    allowable=Symbol("Sa", "Pa", "allowable flank pressure of the guide's table"),
)
def wear_life_revolutions(pressure_at_unit_factor: Numeric, allowable: Numeric) -> Numeric:
    """
    Revolutions that the guide grants a flexible spline at a flank pressure.

    ::

        n = 1e8 (Sa / Sc)^(2 / log10(2))          exponent 6.644

    Parameters
    ----------
    pressure_at_unit_factor : float or array, Pa
        Sc, flank pressure times application and load-distribution factors, with a wear-life
        factor of 1.
    allowable : float or array, Pa
        Sa, allowable flank pressure of the guide's table.

    Returns
    -------
    float or array, -
        n. Outside ``WEAR_LIFE_TABLE`` it is extrapolated; below its first entry the guide grants
        no life at all, because its factor never exceeds 4.

    Raises
    ------
    DomainError
        If a pressure is not above zero anywhere: an unloaded flank has no life by this rule.

    Notes
    -----
    The inverse of ``wear_life_factor`` before its cap. The high power acts like a threshold of
    pressure; it knows neither slip nor lubricant and must not be blended with a wear law, by
    which life falls with the first power of the pressure.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Machinery's Handbook, Involute Splines, Table 10. Mark: published; the closed form: derived.

    Examples
    --------
    >>> print(f"{wear_life_revolutions(2 * 34.5e6, 34.5e6):.3g}")
    1e+06
    """
    require_positive(pressure_at_unit_factor=pressure_at_unit_factor, allowable=allowable)
    return _UNIT_REVOLUTIONS * (allowable / pressure_at_unit_factor) ** _EXPONENT
