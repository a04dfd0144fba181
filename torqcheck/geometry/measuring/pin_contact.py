"""Where a measuring pin touches the flanks, and which pin touches them at the pitch circle."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import refuse
from torqcheck.formulas import Symbol, formula
from torqcheck.geometry._domain import refuse_bad_teeth, refuse_unless_within_pitch
from torqcheck.geometry.measuring.pins import (
    MODULE,
    PIN,
    PINS,
    PRESSURE_ANGLE,
    SPACE,
    TEETH,
    THICKNESS,
    pin_angle,
)

__all__ = [
    "between_pins_contact_diameter",
    "over_pins_contact_diameter",
    "pin_at_pitch_circle_of_gap",
    "pin_at_pitch_circle_of_space",
]


@formula(
    "Dc = m N cos(a) / cos(phi_c), tan(phi_c) = tan(phi) - d/(m N cos(a))",
    result=Symbol("Dc", "m", "diameter on which the pins touch the flanks"),
    source=PINS,
    teeth=TEETH,
    module=MODULE,
    pressure_angle=PRESSURE_ANGLE,
    tooth_thickness=THICKNESS,
    pin_diameter=PIN,
)
def over_pins_contact_diameter(
    teeth: Numeric,
    module: Numeric,
    pressure_angle: Numeric,
    tooth_thickness: Numeric,
    pin_diameter: Numeric,
) -> Numeric:
    """
    Diameter on which pins between external teeth touch the flanks.

    ::

        Dc = m N cos(a) / cos(phi_c), tan(phi_c) = tan(phi) - d/(m N cos(a))
        inv(phi) = t/(m N) + inv(a) + d/(m N cos(a)) - pi/N

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
    pin_diameter : float or array, m
        d.

    Returns
    -------
    float or array, m
        Dc; a reading is good only if it lies between form diameter and major diameter.

    Raises
    ------
    DomainError
        Where ``over_pins`` raises it, and if the pin would touch below the base circle.

    Notes
    -----
    NaN in gives NaN out.

    References
    ----------
    .. [1] Measurement over pins, from the geometry of the involute. Mark: derived.

    Examples
    --------
    27 teeth, 24/48 pitch, 0.080 in pins:

    >>> t = 0.0254 * np.pi / 48
    >>> contact = over_pins_contact_diameter(27, 0.0254 / 24, np.radians(30.0), t, 0.080 * 0.0254)
    >>> print(f"{contact / 0.0254:.3f} in")
    1.127 in
    """
    refuse_bad_teeth(teeth, module, pressure_angle)
    refuse_unless_within_pitch(module, tooth_thickness=tooth_thickness)
    phi = pin_angle(teeth, module, pressure_angle, tooth_thickness, pin_diameter, 1)
    base_diameter = np.asarray(teeth, dtype=np.float64) * module * np.cos(pressure_angle)
    tangent = np.tan(phi) - pin_diameter / base_diameter
    refuse(np.less(tangent, 0.0), "the pin touches below the base circle; take a larger pin")
    return (base_diameter * np.sqrt(1.0 + tangent**2))[()]


@formula(
    "Dc = m N cos(a) / cos(phi_c), tan(phi_c) = tan(phi) + d/(m N cos(a))",
    result=Symbol("Dc", "m", "diameter on which the pins touch the flanks"),
    source=PINS,
    teeth=TEETH,
    module=MODULE,
    pressure_angle=PRESSURE_ANGLE,
    space_width=SPACE,
    pin_diameter=PIN,
)
def between_pins_contact_diameter(
    teeth: Numeric,
    module: Numeric,
    pressure_angle: Numeric,
    space_width: Numeric,
    pin_diameter: Numeric,
) -> Numeric:
    """
    Diameter on which pins in internal spaces touch the flanks.

    ::

        Dc = m N cos(a) / cos(phi_c), tan(phi_c) = tan(phi) + d/(m N cos(a))
        inv(phi) = s/(m N) + inv(a) - d/(m N cos(a))

    Parameters
    ----------
    teeth : int or array, -
        N, 4 or more.
    module : float or array, m
        m.
    pressure_angle : float or array, rad
        a, at the pitch diameter.
    space_width : float or array, m
        s, along the pitch circle.
    pin_diameter : float or array, m
        d.

    Returns
    -------
    float or array, m
        Dc; a reading is good only if it lies between minor diameter and form diameter.

    Raises
    ------
    DomainError
        Where ``between_pins`` raises it.

    Notes
    -----
    NaN in gives NaN out.

    References
    ----------
    .. [1] Measurement between pins, from the geometry of the involute. Mark: derived.

    Examples
    --------
    27 teeth, 24/48 pitch, 0.072 in pins:

    >>> s = 0.0254 * np.pi / 48
    >>> contact = between_pins_contact_diameter(27, 0.0254 / 24, np.radians(30.0), s, 0.072 * 0.0254)
    >>> print(f"{contact / 0.0254:.3f} in")
    1.127 in
    """
    refuse_bad_teeth(teeth, module, pressure_angle)
    refuse_unless_within_pitch(module, space_width=space_width)
    phi = pin_angle(teeth, module, pressure_angle, space_width, pin_diameter, -1)
    base_diameter = np.asarray(teeth, dtype=np.float64) * module * np.cos(pressure_angle)
    tangent = np.tan(phi) + pin_diameter / base_diameter
    return (base_diameter * np.sqrt(1.0 + tangent**2))[()]


@formula(
    "d = m N cos(a) (tan(a + eta) - tan(a)), eta = (pi m - t) / (m N)",
    result=Symbol("d", "m", "diameter of the pin that touches at the pitch circle"),
    source=PINS,
    teeth=TEETH,
    module=MODULE,
    pressure_angle=PRESSURE_ANGLE,
    tooth_thickness=THICKNESS,
)
def pin_at_pitch_circle_of_gap(
    teeth: Numeric, module: Numeric, pressure_angle: Numeric, tooth_thickness: Numeric
) -> Numeric:
    """
    Pin that touches external teeth just at the pitch circle.

    ::

        d = m N cos(a) (tan(a + eta) - tan(a)), eta = (pi m - t) / (m N)

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

    Returns
    -------
    float or array, m
        d.

    Raises
    ------
    DomainError
        If the teeth are not a whole number of 4 or more, a length is not positive, or the gap is
        so wide that its flanks do not hold a pin.

    Notes
    -----
    NaN in gives NaN out.

    References
    ----------
    .. [1] Measurement over pins, from the geometry of the involute. Mark: derived.

    Examples
    --------
    Ten teeth of the old American series, pitch diameter 1; its table prints 0.2012936:

    >>> pin = pin_at_pitch_circle_of_gap(10, 0.1, np.radians(30.0), np.pi / 20)
    >>> print(f"{pin:.7f}")
    0.2012935
    """
    refuse_bad_teeth(teeth, module, pressure_angle)
    refuse_unless_within_pitch(module, tooth_thickness=tooth_thickness)
    N, a = np.asarray(teeth, dtype=np.float64), np.asarray(pressure_angle, dtype=np.float64)
    eta = (np.pi * module - tooth_thickness) / (module * N)
    refuse(np.greater_equal(a + eta, 0.5 * np.pi), "the gap is too wide to hold a pin on its flanks")
    return np.asarray(module * N * np.cos(a) * (np.tan(a + eta) - np.tan(a)))[()]


@formula(
    "d = m N cos(a) (tan(a) - tan(a - eta)), eta = s / (m N)",
    result=Symbol("d", "m", "diameter of the pin that touches at the pitch circle"),
    source=PINS,
    teeth=TEETH,
    module=MODULE,
    pressure_angle=PRESSURE_ANGLE,
    space_width=SPACE,
)
def pin_at_pitch_circle_of_space(
    teeth: Numeric, module: Numeric, pressure_angle: Numeric, space_width: Numeric
) -> Numeric:
    """
    Pin that touches internal teeth just at the pitch circle.

    ::

        d = m N cos(a) (tan(a) - tan(a - eta)), eta = s / (m N)

    Parameters
    ----------
    teeth : int or array, -
        N, 4 or more.
    module : float or array, m
        m.
    pressure_angle : float or array, rad
        a, at the pitch diameter.
    space_width : float or array, m
        s, along the pitch circle.

    Returns
    -------
    float or array, m
        d.

    Raises
    ------
    DomainError
        If the teeth are not a whole number of 4 or more, a length is not positive, or the pin's
        centre would fall inside the base circle (few teeth, small angle).

    Notes
    -----
    NaN in gives NaN out.

    References
    ----------
    .. [1] Measurement between pins, from the geometry of the involute. Mark: derived.

    Examples
    --------
    27 spaces, 24/48 pitch:

    >>> pin = pin_at_pitch_circle_of_space(27, 0.0254 / 24, np.radians(30.0), 0.0254 * np.pi / 48)
    >>> print(f"{pin / 0.0254:.4f} in")
    0.0732 in
    """
    refuse_bad_teeth(teeth, module, pressure_angle)
    refuse_unless_within_pitch(module, space_width=space_width)
    N, a = np.asarray(teeth, dtype=np.float64), np.asarray(pressure_angle, dtype=np.float64)
    eta = space_width / (module * N)
    refuse(np.less_equal(a - eta, 0.0), "the pin's centre would fall inside the base circle")
    return np.asarray(module * N * np.cos(a) * (np.tan(a) - np.tan(a - eta)))[()]
