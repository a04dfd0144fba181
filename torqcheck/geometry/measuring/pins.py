"""Dimension over and between two measuring pins, and tooth thickness and space width from it."""

import numpy as np

from torqcheck._types import FloatArray, Numeric
from torqcheck.domain import refuse
from torqcheck.formulas import Symbol, formula
from torqcheck.geometry._domain import refuse_bad_teeth, refuse_unless_positive, refuse_unless_within_pitch
from torqcheck.geometry.involute import inverse_involute, involute
from torqcheck.provenance import Source

__all__ = [
    "between_pins",
    "opposition",
    "over_pins",
    "pin_angle",
    "space_from_pins",
    "thickness_from_pins",
]

PINS = Source(
    "Measurement over pins, from the geometry of the involute",
    "the internal form is quoted in ANSI B92.1",
    "derived",
)
TEETH = Symbol("N", "-", "number of teeth")
MODULE = Symbol("m", "m", "module, pitch diameter over teeth")
PRESSURE_ANGLE = Symbol("a", "rad", "pressure angle at the pitch diameter")
THICKNESS = Symbol("t", "m", "tooth thickness along the pitch circle")
SPACE = Symbol("s", "m", "space width along the pitch circle")
PIN = Symbol("d", "m", "pin diameter")


def opposition(teeth: Numeric) -> FloatArray:
    """Share f of the diameter that two pins span: 1 for an even number of teeth, else cos(pi/(2 N))."""
    number = np.asarray(teeth, dtype=np.float64)
    return np.where(np.mod(number, 2.0) == 0.0, 1.0, np.cos(0.5 * np.pi / number))


def pin_angle(
    teeth: Numeric, module: Numeric, pressure_angle: Numeric, width: Numeric, pin_diameter: Numeric, side: int
) -> FloatArray:
    """
    Pressure angle phi at the centre of a pin that rests on both flanks, rad.

    Parameters
    ----------
    teeth : int or array, -
        N, 4 or more.
    module : float or array, m
        Module.
    pressure_angle : float or array, rad
        At the pitch diameter.
    width : float or array, m
        Tooth thickness or space width along the pitch circle.
    pin_diameter : float or array, m
        Of the pin.
    side : int, -
        1 for external teeth, -1 for internal ones.

    Raises
    ------
    DomainError
        If the numbers describe no flank, or no pin of this diameter rests on both flanks.
    """
    refuse_bad_teeth(teeth, module, pressure_angle)
    refuse_unless_positive(pin_diameter=pin_diameter)
    pitch_diameter = np.asarray(teeth, dtype=np.float64) * module
    share = pin_diameter / (pitch_diameter * np.cos(pressure_angle))
    gap = np.pi / np.asarray(teeth, dtype=np.float64) if side > 0 else 0.0
    value = width / pitch_diameter + involute(pressure_angle) + side * share - gap
    refuse(
        np.less_equal(value, 0.0),
        "no pin of this diameter rests on both flanks: its centre would fall inside the base circle; "
        f"take a {'larger' if side > 0 else 'smaller'} pin",
    )
    return np.asarray(inverse_involute(value))


def _pin_angle_from_reading(ratio: FloatArray) -> FloatArray:
    """Return phi from 1/cos(phi); the tangent keeps digits near the base circle, acos would not."""
    refuse(
        np.less_equal(ratio, 1.0) | np.isinf(ratio),
        "this reading puts the centre of the pin inside the base circle: reading, pin diameter, "
        "number of teeth or pitch do not belong together",
    )
    return np.arctan(np.sqrt((ratio - 1.0) * (ratio + 1.0)))


@formula(
    "M = f m N cos(a) / cos(phi) + d, inv(phi) = t/(m N) + inv(a) + d/(m N cos(a)) - pi/N",
    result=Symbol("M", "m", "dimension over two pins"),
    source=PINS,
    teeth=TEETH,
    module=MODULE,
    pressure_angle=PRESSURE_ANGLE,
    tooth_thickness=THICKNESS,
    pin_diameter=PIN,
)
def over_pins(
    teeth: Numeric,
    module: Numeric,
    pressure_angle: Numeric,
    tooth_thickness: Numeric,
    pin_diameter: Numeric,
) -> Numeric:
    """
    Dimension over two pins laid in the most nearly opposite gaps of external teeth.

    ::

        M = f m N cos(a) / cos(phi) + d, inv(phi) = t/(m N) + inv(a) + d/(m N cos(a)) - pi/N
        f = 1 for even N, cos(pi/(2 N)) for odd N

    Parameters
    ----------
    teeth : int or array, -
        N, 4 or more.
    module : float or array, m
        m; for an inch spline 0.0254 m over the diametral pitch.
    pressure_angle : float or array, rad
        a, at the pitch diameter.
    tooth_thickness : float or array, m
        t, along the pitch circle.
    pin_diameter : float or array, m
        d, pins or balls.

    Returns
    -------
    float or array, m
        M. Shape: the broadcast shape of the arguments.

    Raises
    ------
    DomainError
        If the teeth are not a whole number of 4 or more, a length is not positive, the thickness
        leaves no space, or the pin is too small to rest on the flanks.

    Notes
    -----
    Exact for an involute flank. That the pin really touches inside the flank and clear of the root
    must be checked beside it (``over_pins_contact_diameter``). NaN in gives NaN out.

    References
    ----------
    .. [1] Measurement over pins, from the geometry of the involute; the internal form is quoted in
       ANSI B92.1. Mark: derived.

    Examples
    --------
    Shaft 50 x 2 x 24 of DIN 5480 over 4 mm pins; the standard prints 54.218 mm:

    >>> reading = over_pins(24, 0.002, np.radians(30.0), 3.0261e-3, 4e-3)
    >>> print(f"{reading * 1e3:.3f} mm")
    54.218 mm
    """
    refuse_bad_teeth(teeth, module, pressure_angle)
    refuse_unless_within_pitch(module, tooth_thickness=tooth_thickness)
    phi = pin_angle(teeth, module, pressure_angle, tooth_thickness, pin_diameter, 1)
    base_diameter = np.asarray(teeth, dtype=np.float64) * module * np.cos(pressure_angle)
    return (opposition(teeth) * base_diameter / np.cos(phi) + pin_diameter)[()]


@formula(
    "M = f m N cos(a) / cos(phi) - d, inv(phi) = s/(m N) + inv(a) - d/(m N cos(a))",
    result=Symbol("M", "m", "dimension between two pins"),
    source=PINS,
    teeth=TEETH,
    module=MODULE,
    pressure_angle=PRESSURE_ANGLE,
    space_width=SPACE,
    pin_diameter=PIN,
)
def between_pins(
    teeth: Numeric,
    module: Numeric,
    pressure_angle: Numeric,
    space_width: Numeric,
    pin_diameter: Numeric,
) -> Numeric:
    """
    Dimension between two pins laid in the most nearly opposite spaces of internal teeth.

    ::

        M = f m N cos(a) / cos(phi) - d, inv(phi) = s/(m N) + inv(a) - d/(m N cos(a))
        f = 1 for even N, cos(pi/(2 N)) for odd N

    Parameters
    ----------
    teeth : int or array, -
        N, 4 or more.
    module : float or array, m
        m; for an inch spline 0.0254 m over the diametral pitch.
    pressure_angle : float or array, rad
        a, at the pitch diameter.
    space_width : float or array, m
        s, along the pitch circle.
    pin_diameter : float or array, m
        d, pins or balls.

    Returns
    -------
    float or array, m
        M. Shape: the broadcast shape of the arguments.

    Raises
    ------
    DomainError
        If the teeth are not a whole number of 4 or more, a length is not positive, the space
        leaves no tooth, or the pin is too large to rest on the flanks.

    Notes
    -----
    Exact for an involute flank. Where the pin would reach the root, it needs a flat there, which
    changes nothing in the formula. NaN in gives NaN out.

    References
    ----------
    .. [1] Measurement over pins, from the geometry of the involute; the internal form is quoted in
       ANSI B92.1. Mark: derived.

    Examples
    --------
    Hub of 36 teeth, 16/32 pitch, 30 deg, 0.108 in pins, space of the basic width:

    >>> reading = between_pins(36, 0.0254 / 16, np.radians(30.0), 0.0254 * np.pi / 32, 0.108 * 0.0254)
    >>> print(f"{reading / 0.0254:.4f} in")
    2.0945 in
    """
    refuse_bad_teeth(teeth, module, pressure_angle)
    refuse_unless_within_pitch(module, space_width=space_width)
    phi = pin_angle(teeth, module, pressure_angle, space_width, pin_diameter, -1)
    base_diameter = np.asarray(teeth, dtype=np.float64) * module * np.cos(pressure_angle)
    return (opposition(teeth) * base_diameter / np.cos(phi) - pin_diameter)[()]


@formula(
    "t = m N (inv(phi) - inv(a) - d/(m N cos(a)) + pi/N), cos(phi) = f m N cos(a) / (M - d)",
    result=Symbol("t", "m", "tooth thickness along the pitch circle"),
    source=PINS,
    teeth=TEETH,
    module=MODULE,
    pressure_angle=PRESSURE_ANGLE,
    over_pins=Symbol("M", "m", "dimension over two pins"),
    pin_diameter=PIN,
)
def thickness_from_pins(
    teeth: Numeric,
    module: Numeric,
    pressure_angle: Numeric,
    over_pins: Numeric,
    pin_diameter: Numeric,
) -> Numeric:
    """
    Tooth thickness of external teeth from a reading over two pins.

    ::

        t = m N (inv(phi) - inv(a) - d/(m N cos(a)) + pi/N), cos(phi) = f m N cos(a) / (M - d)
        f = 1 for even N, cos(pi/(2 N)) for odd N

    Parameters
    ----------
    teeth : int or array, -
        N, 4 or more.
    module : float or array, m
        m; for an inch spline 0.0254 m over the diametral pitch.
    pressure_angle : float or array, rad
        a, at the pitch diameter.
    over_pins : float or array, m
        M, the reading.
    pin_diameter : float or array, m
        d, measured, not nominal: its error counts nearly three times.

    Returns
    -------
    float or array, m
        t. Shape: the broadcast shape of the arguments.

    Raises
    ------
    DomainError
        If the teeth are not a whole number of 4 or more, a length is not positive, or no tooth of
        this pitch can give the reading.

    Notes
    -----
    For odd N the factor f is part of the reading; left out, a 27-tooth 24/48 shaft seems 0.0013 in
    too thin, as if worn. A worn tooth read with pins is as thick as its least worn place lets the pin
    sink; balls read one place. NaN in gives NaN out.

    References
    ----------
    .. [1] Measurement over pins, from the geometry of the involute; the internal form is quoted in
       ANSI B92.1. Mark: derived.

    Examples
    --------
    27 teeth, 24/48 pitch, 1.2400 in over 0.080 in pins:

    >>> thickness = thickness_from_pins(27, 0.0254 / 24, np.radians(30.0), 1.24 * 0.0254, 0.08 * 0.0254)
    >>> print(f"{thickness / 0.0254:.5f} in")
    0.06085 in
    """
    refuse_bad_teeth(teeth, module, pressure_angle)
    refuse_unless_positive(over_pins=over_pins, pin_diameter=pin_diameter)
    N = np.asarray(teeth, dtype=np.float64)
    base_diameter = N * module * np.cos(pressure_angle)
    phi = _pin_angle_from_reading(
        (np.asarray(over_pins) - pin_diameter) / (opposition(teeth) * base_diameter)
    )
    unwound = np.tan(phi) - phi - involute(pressure_angle) - pin_diameter / base_diameter
    thickness = N * module * (unwound + np.pi / N)
    refuse_unless_within_pitch(module, tooth_thickness=thickness)
    return thickness[()]


@formula(
    "s = m N (inv(phi) - inv(a) + d/(m N cos(a))), cos(phi) = f m N cos(a) / (M + d)",
    result=Symbol("s", "m", "space width along the pitch circle"),
    source=PINS,
    teeth=TEETH,
    module=MODULE,
    pressure_angle=PRESSURE_ANGLE,
    between_pins=Symbol("M", "m", "dimension between two pins"),
    pin_diameter=PIN,
)
def space_from_pins(
    teeth: Numeric,
    module: Numeric,
    pressure_angle: Numeric,
    between_pins: Numeric,
    pin_diameter: Numeric,
) -> Numeric:
    """
    Space width of internal teeth from a reading between two pins.

    ::

        s = m N (inv(phi) - inv(a) + d/(m N cos(a))), cos(phi) = f m N cos(a) / (M + d)
        f = 1 for even N, cos(pi/(2 N)) for odd N

    Parameters
    ----------
    teeth : int or array, -
        N, 4 or more.
    module : float or array, m
        m; for an inch spline 0.0254 m over the diametral pitch.
    pressure_angle : float or array, rad
        a, at the pitch diameter.
    between_pins : float or array, m
        M, the reading.
    pin_diameter : float or array, m
        d, measured, not nominal.

    Returns
    -------
    float or array, m
        s. Shape: the broadcast shape of the arguments.

    Raises
    ------
    DomainError
        If the teeth are not a whole number of 4 or more, a length is not positive, or no space of
        this pitch can give the reading.

    Notes
    -----
    The reading does not depend on which flank is worn: it gives the whole gain in width.
    NaN in gives NaN out.

    References
    ----------
    .. [1] Measurement over pins, from the geometry of the involute; the internal form is quoted in
       ANSI B92.1. Mark: derived.

    Examples
    --------
    27 teeth, 24/48 pitch, 1.0250 in between 0.072 in pins:

    >>> width = space_from_pins(27, 0.0254 / 24, np.radians(30.0), 1.025 * 0.0254, 0.072 * 0.0254)
    >>> print(f"{width / 0.0254:.5f} in")
    0.06860 in
    """
    refuse_bad_teeth(teeth, module, pressure_angle)
    refuse_unless_positive(between_pins=between_pins, pin_diameter=pin_diameter)
    N = np.asarray(teeth, dtype=np.float64)
    base_diameter = N * module * np.cos(pressure_angle)
    phi = _pin_angle_from_reading(
        (np.asarray(between_pins) + pin_diameter) / (opposition(teeth) * base_diameter)
    )
    width = N * module * (np.tan(phi) - phi - involute(pressure_angle) + pin_diameter / base_diameter)
    refuse_unless_within_pitch(module, space_width=width)
    return width[()]
