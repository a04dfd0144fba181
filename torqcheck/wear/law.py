"""The linear wear law, and what it wears from the flanks of a tilted spline."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_angle, require_not_negative
from torqcheck.formulas import Symbol, formula
from torqcheck.wear._symbols import (
    ANGLE,
    ARCHARD,
    COEFFICIENT,
    HEIGHT,
    LENGTH,
    PRESSURE,
    RADIUS,
    TEETH,
    TILT,
    TORQUE,
    WEAR_DERIVED,
)
from torqcheck.wear.contact import wear_flank_pressure
from torqcheck.wear.slip import slip_path_per_revolution

__all__ = ["depth_per_revolution", "worn_depth", "worn_volume", "worn_volume_per_revolution"]


@formula(
    "h = k p s",
    result=Symbol("h", "m", "worn depth, normal to the flank"),
    source=ARCHARD,
    wear_coefficient=COEFFICIENT,
    pressure=PRESSURE,
    path=Symbol("s", "m", "slip path"),
)
def worn_depth(wear_coefficient: Numeric, pressure: Numeric, path: Numeric) -> Numeric:
    """
    Depth worn from one body at one place.

    ::

        h = k p s

    Parameters
    ----------
    wear_coefficient : float or array, m2/N
        k, of this body.
    pressure : float or array, Pa
        p, at this place.
    path : float or array, m
        s, slip path of the mate over this place.

    Returns
    -------
    float or array, m
        h.

    Raises
    ------
    DomainError
        If an argument is negative anywhere.

    Notes
    -----
    Both bodies of a spline rub over their whole path at the same pressure, so that each takes
    this depth with its own coefficient. No running-in, no threshold.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Local form of the law of J. F. Archard and W. Hirst, Proceedings of the Royal Society A 236,
       1956, 397. Mark: from memory.

    Examples
    --------
    >>> print(f"{worn_depth(1e-15, 9.6225e6, 139.626e-6) * 1e12:.4f} pm")
    1.3436 pm
    """
    require_not_negative(wear_coefficient=wear_coefficient, pressure=pressure, path=path)
    return wear_coefficient * pressure * path


@formula(
    "V = k F s",
    result=Symbol("V", "m3", "worn volume"),
    source=ARCHARD,
    wear_coefficient=COEFFICIENT,
    normal_force=Symbol("F", "N", "normal force"),
    path=Symbol("s", "m", "slip path"),
)
def worn_volume(wear_coefficient: Numeric, normal_force: Numeric, path: Numeric) -> Numeric:
    """
    Volume worn from one body.

    ::

        V = k F s

    Parameters
    ----------
    wear_coefficient : float or array, m2/N
        k, of this body.
    normal_force : float or array, N
        F.
    path : float or array, m
        s, slip path.

    Returns
    -------
    float or array, m3
        V.

    Raises
    ------
    DomainError
        If an argument is negative anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] J. F. Archard and W. Hirst, Proceedings of the Royal Society A 236, 1956, 397. Mark: from
       memory.

    Examples
    --------
    >>> print(f"{worn_volume(1.33e-13, 21.0, 4.5) * 1e9:.5f} mm3")
    0.01257 mm3
    """
    require_not_negative(wear_coefficient=wear_coefficient, normal_force=normal_force, path=path)
    return wear_coefficient * normal_force * path


@formula(
    "h1 = k p s1,  p = T / (r cos(al) z L hc),  s1 = 4 r tan(ga)",
    result=Symbol("h1", "m", "depth worn per revolution, normal to the flank"),
    source=WEAR_DERIVED,
    wear_coefficient=COEFFICIENT,
    torque=TORQUE,
    pitch_radius=RADIUS,
    teeth=TEETH,
    length=LENGTH,
    contact_height=HEIGHT,
    pressure_angle=ANGLE,
    tilt=TILT,
)
def depth_per_revolution(
    *,
    wear_coefficient: Numeric,
    torque: Numeric,
    pitch_radius: Numeric,
    teeth: Numeric,
    length: Numeric,
    contact_height: Numeric,
    pressure_angle: Numeric,
    tilt: Numeric,
) -> Numeric:
    """
    Depth worn from the flanks of one body in one revolution of a tilted spline.

    ::

        h1 = k p s1,  p = T / (r cos(al) z L hc),  s1 = 4 r tan(ga)

    Parameters
    ----------
    wear_coefficient : float or array, m2/N
        k, of this body.
    torque : float or array, N m
        T. The sign is ignored.
    pitch_radius : float or array, m
        r. It cancels: a larger joint has less force and more path.
    teeth : float or array, -
        z.
    length : float or array, m
        L, engaged length.
    contact_height : float or array, m
        hc, height of the contact band, measured along the flank: ``flank_height`` of the radial depth.
    pressure_angle : float or array, rad
        al.
    tilt : float or array, rad
        ga, angle between the two axes, fixed in space. The sign is ignored.

    Returns
    -------
    float or array, m
        h1, normal to the flank.

    Raises
    ------
    DomainError
        If wear_coefficient is negative, a size is not above zero, or an angle is a right angle or
        more, anywhere.

    Notes
    -----
    Load even over the flanks and over the revolution. If load and slip speed rise and fall
    together the depth may be up to pi/2 times this, if they alternate less. For a band that
    covers a share of the flank divide by that share.
    Below a slip amplitude of 20 um the law does not hold: see ``slip_regime``.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: the linear wear law with the slip of two tilted axes. Mark: derived.

    Examples
    --------
    >>> from math import radians
    >>> depth = depth_per_revolution(
    ...     wear_coefficient=1e-15, torque=200.0, pitch_radius=0.020, teeth=20, length=0.030,
    ...     contact_height=0.002, pressure_angle=radians(30), tilt=radians(0.1),
    ... )
    >>> print(f"{depth * 3000 * 60 * 1e6:.4f} um per hour at 3000 rev/min")
    0.2418 um per hour at 3000 rev/min
    """
    pressure = wear_flank_pressure(torque, pitch_radius, teeth, length, contact_height, pressure_angle)
    return worn_depth(wear_coefficient, pressure, slip_path_per_revolution(pitch_radius, tilt))


@formula(
    "V1 = 4 k T tan(ga) / cos(al)",
    result=Symbol("V1", "m3", "volume worn per revolution"),
    source=WEAR_DERIVED,
    wear_coefficient=COEFFICIENT,
    torque=TORQUE,
    pressure_angle=ANGLE,
    tilt=TILT,
)
def worn_volume_per_revolution(
    *, wear_coefficient: Numeric, torque: Numeric, pressure_angle: Numeric, tilt: Numeric
) -> Numeric:
    """
    Volume worn from all flanks of one body in one revolution of a tilted spline.

    ::

        V1 = 4 k T tan(ga) / cos(al)

    Parameters
    ----------
    wear_coefficient : float or array, m2/N
        k, of this body.
    torque : float or array, N m
        T. The sign is ignored.
    pressure_angle : float or array, rad
        al.
    tilt : float or array, rad
        ga, angle between the two axes, fixed in space. The sign is ignored.

    Returns
    -------
    float or array, m3
        V1. It knows neither size nor tooth count nor how the load is shared.

    Raises
    ------
    DomainError
        If wear_coefficient is negative, or an angle is a right angle or more, anywhere.

    Notes
    -----
    The normal forces of all teeth add to T/(r cos(al)) however they are shared, and each tooth
    slips 4 r tan(ga). NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: the linear wear law with the slip of two tilted axes. Mark: derived.

    Examples
    --------
    >>> from math import radians
    >>> volume = worn_volume_per_revolution(
    ...     wear_coefficient=1e-15, torque=200.0, pressure_angle=radians(30), tilt=radians(0.1)
    ... )
    >>> print(f"{volume * 1e9:.5e} mm3")
    1.61227e-06 mm3
    """
    require_not_negative(wear_coefficient=wear_coefficient)
    require_angle(pressure_angle=pressure_angle, tilt=tilt)
    return 4.0 * wear_coefficient * np.abs(torque) * np.tan(np.abs(tilt)) / np.cos(pressure_angle)
