"""How strongly a pin reading answers to tooth thickness, space width and pin diameter."""

import numpy as np

from torqcheck._types import Numeric
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
    opposition,
    pin_angle,
)

__all__ = [
    "between_pins_per_pin",
    "between_pins_per_space",
    "over_pins_per_pin",
    "over_pins_per_thickness",
]


@formula(
    "dM/dt = f cos(a) / sin(phi)",
    result=Symbol("dM/dt", "-", "change of the dimension over pins per change of tooth thickness"),
    source=PINS,
    teeth=TEETH,
    module=MODULE,
    pressure_angle=PRESSURE_ANGLE,
    tooth_thickness=THICKNESS,
    pin_diameter=PIN,
)
def over_pins_per_thickness(
    teeth: Numeric,
    module: Numeric,
    pressure_angle: Numeric,
    tooth_thickness: Numeric,
    pin_diameter: Numeric,
) -> Numeric:
    """
    Change of the dimension over pins for a change of tooth thickness.

    ::

        dM/dt = f cos(a) / sin(phi)
        inv(phi) = t/(m N) + inv(a) + d/(m N cos(a)) - pi/N
        f = 1 for even N, cos(pi/(2 N)) for odd N

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
    float or array, -
        dM/dt, above 1: the reading magnifies wear.

    Raises
    ------
    DomainError
        Where ``over_pins`` raises it.

    Notes
    -----
    Divide an uncertainty of the reading by it to get that of the thickness.
    NaN in gives NaN out.

    References
    ----------
    .. [1] Derivative of the equations of ``over_pins``. Mark: derived.

    Examples
    --------
    27 teeth, 24/48 pitch, 0.080 in pins:

    >>> t = 0.0254 * np.pi / 48
    >>> slope = over_pins_per_thickness(27, 0.0254 / 24, np.radians(30.0), t, 0.080 * 0.0254)
    >>> print(f"{slope:.2f}")
    1.56
    """
    refuse_bad_teeth(teeth, module, pressure_angle)
    refuse_unless_within_pitch(module, tooth_thickness=tooth_thickness)
    phi = pin_angle(teeth, module, pressure_angle, tooth_thickness, pin_diameter, 1)
    return (opposition(teeth) * np.cos(pressure_angle) / np.sin(phi))[()]


@formula(
    "dM/dd = 1 + f / sin(phi)",
    result=Symbol("dM/dd", "-", "change of the dimension over pins per change of pin diameter"),
    source=PINS,
    teeth=TEETH,
    module=MODULE,
    pressure_angle=PRESSURE_ANGLE,
    tooth_thickness=THICKNESS,
    pin_diameter=PIN,
)
def over_pins_per_pin(
    teeth: Numeric,
    module: Numeric,
    pressure_angle: Numeric,
    tooth_thickness: Numeric,
    pin_diameter: Numeric,
) -> Numeric:
    """
    Change of the dimension over pins for a change of pin diameter.

    ::

        dM/dd = 1 + f / sin(phi)
        inv(phi) = t/(m N) + inv(a) + d/(m N cos(a)) - pi/N
        f = 1 for even N, cos(pi/(2 N)) for odd N

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
    float or array, -
        dM/dd, nearly 3 for 30 deg teeth.

    Raises
    ------
    DomainError
        Where ``over_pins`` raises it.

    Notes
    -----
    A pin that is off by 0.01 mm shifts the reading by about 0.03 mm: measure the pins.
    NaN in gives NaN out.

    References
    ----------
    .. [1] Derivative of the equations of ``over_pins``. Mark: derived.

    Examples
    --------
    27 teeth, 24/48 pitch, 0.080 in pins:

    >>> t = 0.0254 * np.pi / 48
    >>> slope = over_pins_per_pin(27, 0.0254 / 24, np.radians(30.0), t, 0.080 * 0.0254)
    >>> print(f"{slope:.2f}")
    2.81
    """
    refuse_bad_teeth(teeth, module, pressure_angle)
    refuse_unless_within_pitch(module, tooth_thickness=tooth_thickness)
    phi = pin_angle(teeth, module, pressure_angle, tooth_thickness, pin_diameter, 1)
    return (1.0 + opposition(teeth) / np.sin(phi))[()]


@formula(
    "dM/ds = f cos(a) / sin(phi)",
    result=Symbol("dM/ds", "-", "change of the dimension between pins per change of space width"),
    source=PINS,
    teeth=TEETH,
    module=MODULE,
    pressure_angle=PRESSURE_ANGLE,
    space_width=SPACE,
    pin_diameter=PIN,
)
def between_pins_per_space(
    teeth: Numeric,
    module: Numeric,
    pressure_angle: Numeric,
    space_width: Numeric,
    pin_diameter: Numeric,
) -> Numeric:
    """
    Change of the dimension between pins for a change of space width.

    ::

        dM/ds = f cos(a) / sin(phi)
        inv(phi) = s/(m N) + inv(a) - d/(m N cos(a))
        f = 1 for even N, cos(pi/(2 N)) for odd N

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
    float or array, -
        dM/ds, above 1, large for few teeth.

    Raises
    ------
    DomainError
        Where ``between_pins`` raises it.

    Notes
    -----
    Divide an uncertainty of the reading by it to get that of the space width.
    NaN in gives NaN out.

    References
    ----------
    .. [1] Derivative of the equations of ``between_pins``. Mark: derived.

    Examples
    --------
    27 teeth, 24/48 pitch, 0.072 in pins:

    >>> s = 0.0254 * np.pi / 48
    >>> slope = between_pins_per_space(27, 0.0254 / 24, np.radians(30.0), s, 0.072 * 0.0254)
    >>> print(f"{slope:.2f}")
    1.91
    """
    refuse_bad_teeth(teeth, module, pressure_angle)
    refuse_unless_within_pitch(module, space_width=space_width)
    phi = pin_angle(teeth, module, pressure_angle, space_width, pin_diameter, -1)
    return (opposition(teeth) * np.cos(pressure_angle) / np.sin(phi))[()]


@formula(
    "dM/dd = -(1 + f / sin(phi))",
    result=Symbol("dM/dd", "-", "change of the dimension between pins per change of pin diameter"),
    source=PINS,
    teeth=TEETH,
    module=MODULE,
    pressure_angle=PRESSURE_ANGLE,
    space_width=SPACE,
    pin_diameter=PIN,
)
def between_pins_per_pin(
    teeth: Numeric,
    module: Numeric,
    pressure_angle: Numeric,
    space_width: Numeric,
    pin_diameter: Numeric,
) -> Numeric:
    """
    Change of the dimension between pins for a change of pin diameter.

    ::

        dM/dd = -(1 + f / sin(phi))
        inv(phi) = s/(m N) + inv(a) - d/(m N cos(a))
        f = 1 for even N, cos(pi/(2 N)) for odd N

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
    float or array, -
        dM/dd, negative: a larger pin sits nearer the axis and takes up more of the gap.

    Raises
    ------
    DomainError
        Where ``between_pins`` raises it.

    Notes
    -----
    A pin that is off by 0.01 mm shifts the reading by 0.03 mm or more: measure the pins.
    NaN in gives NaN out.

    References
    ----------
    .. [1] Derivative of the equations of ``between_pins``. Mark: derived.

    Examples
    --------
    27 teeth, 24/48 pitch, 0.072 in pins:

    >>> s = 0.0254 * np.pi / 48
    >>> slope = between_pins_per_pin(27, 0.0254 / 24, np.radians(30.0), s, 0.072 * 0.0254)
    >>> print(f"{slope:.2f}")
    -3.20
    """
    refuse_bad_teeth(teeth, module, pressure_angle)
    refuse_unless_within_pitch(module, space_width=space_width)
    phi = pin_angle(teeth, module, pressure_angle, space_width, pin_diameter, -1)
    return (-1.0 - opposition(teeth) / np.sin(phi))[()]
