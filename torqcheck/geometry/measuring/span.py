"""Span over several external teeth, chord of one tooth, and tooth thickness from them."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import refuse
from torqcheck.formulas import Symbol, formula
from torqcheck.geometry._domain import refuse_bad_teeth, refuse_unless_positive, refuse_unless_within_pitch
from torqcheck.geometry.involute import involute
from torqcheck.geometry.measuring.pins import MODULE, PRESSURE_ANGLE, TEETH, THICKNESS
from torqcheck.provenance import Source

__all__ = ["chordal_height", "chordal_thickness", "span_over_teeth", "thickness_from_span"]

SPAN = Source("Span over teeth, from the geometry of the involute", "length of the base tangent", "derived")
CHORD = Source("Elements of metric gear technology", "section 10, Table 10-1", "published")
SPANNED = Symbol("k", "-", "number of teeth spanned")


def _refuse_bad_count(teeth: Numeric, spanned_teeth: Numeric) -> None:
    """Refuse a number of spanned teeth that is not whole, below 1 or not below N."""
    whole = np.abs(spanned_teeth - np.round(spanned_teeth))
    refuse(
        np.less(spanned_teeth, 1.0) | np.greater(whole, 0.0) | np.greater_equal(spanned_teeth, teeth),
        "spanned_teeth must be a whole number, at least 1 and below the number of teeth",
    )


@formula(
    "W = cos(a) ((k - 1) pi m + t + m N inv(a))",
    result=Symbol("W", "m", "span over k teeth"),
    source=SPAN,
    teeth=TEETH,
    module=MODULE,
    pressure_angle=PRESSURE_ANGLE,
    tooth_thickness=THICKNESS,
    spanned_teeth=SPANNED,
)
def span_over_teeth(
    teeth: Numeric,
    module: Numeric,
    pressure_angle: Numeric,
    tooth_thickness: Numeric,
    spanned_teeth: Numeric,
) -> Numeric:
    """
    Span over several external teeth, between parallel faces that touch the outer two flanks.

    ::

        W = cos(a) ((k - 1) pi m + t + m N inv(a))

    Parameters
    ----------
    teeth : int or array, -
        N, 4 or more.
    module : float or array, m
        m.
    pressure_angle : float or array, rad
        a, at the pitch diameter.
    tooth_thickness : float or array, m
        t, along the pitch circle.
    spanned_teeth : int or array, -
        k, teeth between the faces; about N a/pi + 0.5.

    Returns
    -------
    float or array, m
        W. It changes by cos(a) per change of thickness.

    Raises
    ------
    DomainError
        If a number of teeth is not whole or out of range, a length is not positive, or the
        thickness leaves no space.

    Notes
    -----
    The faces touch on the diameter sqrt((m N cos(a))^2 + W^2), which must lie between form and
    major diameter; short spline teeth often allow one k only. NaN in gives NaN out.

    References
    ----------
    .. [1] Span over teeth, from the geometry of the involute. Mark: derived.

    Examples
    --------
    Shaft 50 x 2 x 24 of DIN 5480 over 4 teeth; the standard prints 21.179 mm:

    >>> print(f"{span_over_teeth(24, 0.002, np.radians(30.0), 3.0261e-3, 4) * 1e3:.3f} mm")
    21.179 mm
    """
    refuse_bad_teeth(teeth, module, pressure_angle)
    refuse_unless_within_pitch(module, tooth_thickness=tooth_thickness)
    _refuse_bad_count(teeth, spanned_teeth)
    N, k, m = (
        np.asarray(teeth, dtype=np.float64),
        np.asarray(spanned_teeth, dtype=np.float64),
        np.asarray(module, dtype=np.float64),
    )
    arc = (k - 1.0) * np.pi * m + tooth_thickness + m * N * involute(pressure_angle)
    return (np.cos(pressure_angle) * arc)[()]


@formula(
    "t = W / cos(a) - (k - 1) pi m - m N inv(a)",
    result=Symbol("t", "m", "tooth thickness along the pitch circle"),
    source=SPAN,
    teeth=TEETH,
    module=MODULE,
    pressure_angle=PRESSURE_ANGLE,
    span=Symbol("W", "m", "span over k teeth"),
    spanned_teeth=SPANNED,
)
def thickness_from_span(
    teeth: Numeric,
    module: Numeric,
    pressure_angle: Numeric,
    span: Numeric,
    spanned_teeth: Numeric,
) -> Numeric:
    """
    Tooth thickness from a span over several external teeth.

    ::

        t = W / cos(a) - (k - 1) pi m - m N inv(a)

    Parameters
    ----------
    teeth : int or array, -
        N, 4 or more.
    module : float or array, m
        m.
    pressure_angle : float or array, rad
        a, at the pitch diameter.
    span : float or array, m
        W, the reading.
    spanned_teeth : int or array, -
        k, teeth between the faces.

    Returns
    -------
    float or array, m
        t. Flanks worn unevenly are averaged over the outer two.

    Raises
    ------
    DomainError
        If a number of teeth is not whole or out of range, a length is not positive, or no tooth of
        this pitch can give the reading (often a miscounted k).

    Notes
    -----
    NaN in gives NaN out.

    References
    ----------
    .. [1] Span over teeth, from the geometry of the involute. Mark: derived.

    Examples
    --------
    >>> print(f"{thickness_from_span(24, 0.002, np.radians(30.0), 21.179e-3, 4) * 1e3:.3f} mm")
    3.026 mm
    """
    refuse_bad_teeth(teeth, module, pressure_angle)
    refuse_unless_positive(span=span)
    _refuse_bad_count(teeth, spanned_teeth)
    N, k, m = (
        np.asarray(teeth, dtype=np.float64),
        np.asarray(spanned_teeth, dtype=np.float64),
        np.asarray(module, dtype=np.float64),
    )
    thickness = span / np.cos(pressure_angle) - (k - 1.0) * np.pi * m - m * N * involute(pressure_angle)
    refuse_unless_within_pitch(module, tooth_thickness=thickness)
    return np.asarray(thickness)[()]


@formula(
    "chord = D sin(t/D)",
    result=Symbol("chord", "m", "straight width of the tooth at the pitch circle"),
    source=CHORD,
    pitch_diameter=Symbol("D", "m", "pitch diameter"),
    tooth_thickness=THICKNESS,
)
def chordal_thickness(pitch_diameter: Numeric, tooth_thickness: Numeric) -> Numeric:
    """
    Straight width of a tooth at the pitch circle, as a tooth caliper reads it.

    ::

        chord = D sin(t/D)

    Parameters
    ----------
    pitch_diameter : float or array, m
        D.
    tooth_thickness : float or array, m
        t, along the pitch circle.

    Returns
    -------
    float or array, m
        The chord, a little less than t.

    Raises
    ------
    DomainError
        If a length is not positive or the tooth takes half the circle.

    Notes
    -----
    Set the tooth caliper to ``chordal_height``. NaN in gives NaN out.

    References
    ----------
    .. [1] Elements of metric gear technology, section 10, Table 10-1. Mark: published.

    Examples
    --------
    The worked example of [1]_ (module 10 mm, 12 teeth, thickness 17.8918 mm) prints 17.8256 mm:

    >>> print(f"{chordal_thickness(0.120, 17.8918e-3) * 1e3:.4f} mm")
    17.8256 mm
    """
    refuse_unless_positive(pitch_diameter=pitch_diameter, tooth_thickness=tooth_thickness)
    angle = np.asarray(tooth_thickness) / pitch_diameter
    refuse(np.greater_equal(angle, 0.5 * np.pi), "tooth_thickness takes more than half the circle")
    return (pitch_diameter * np.sin(angle))[()]


@formula(
    "height = (Do - D cos(t/D)) / 2",
    result=Symbol("height", "m", "height of the tip above the chord"),
    source=CHORD,
    pitch_diameter=Symbol("D", "m", "pitch diameter"),
    tooth_thickness=THICKNESS,
    major_diameter=Symbol("Do", "m", "major diameter of the external teeth"),
)
def chordal_height(pitch_diameter: Numeric, tooth_thickness: Numeric, major_diameter: Numeric) -> Numeric:
    """
    Height of the tooth tip above the chord at the pitch circle: the setting of a tooth caliper.

    ::

        height = (Do - D cos(t/D)) / 2

    Parameters
    ----------
    pitch_diameter : float or array, m
        D.
    tooth_thickness : float or array, m
        t, along the pitch circle.
    major_diameter : float or array, m
        Do, as measured on the part.

    Returns
    -------
    float or array, m
        The height.

    Raises
    ------
    DomainError
        If a length is not positive or the major diameter lies below the pitch diameter.

    Notes
    -----
    NaN in gives NaN out.

    References
    ----------
    .. [1] Elements of metric gear technology, section 10, Table 10-1. Mark: published.

    Examples
    --------
    The worked example of [1]_, with an addendum of 13 mm, prints 13.6657 mm:

    >>> print(f"{chordal_height(0.120, 17.8918e-3, 0.146) * 1e3:.4f} mm")
    13.6657 mm
    """
    refuse_unless_positive(
        pitch_diameter=pitch_diameter, tooth_thickness=tooth_thickness, major_diameter=major_diameter
    )
    refuse(np.less(major_diameter, pitch_diameter), "major_diameter lies below pitch_diameter")
    D = np.asarray(pitch_diameter)
    return (0.5 * (major_diameter - D * np.cos(tooth_thickness / D)))[()]
