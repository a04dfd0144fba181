"""What a seat under pressure holds by friction: torque, axial force, both; the force that presses it on."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED
from torqcheck.capacity._symbols import TORQUE
from torqcheck.capacity.joining._fit_symbols import AXIAL, FRICTION, PRESSURE, SEAT, SEAT_LENGTH
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.formulas import Symbol, formula

__all__ = ["grip_force", "grip_force_needed", "grip_torque", "pressing_force", "torque_beside_thrust"]

_SEAT_ARGUMENTS = {"pressure": PRESSURE, "diameter": SEAT, "length": SEAT_LENGTH, "friction": FRICTION}


def _holding_force(pressure: Numeric, diameter: Numeric, length: Numeric, friction: Numeric) -> Numeric:
    require_not_negative(pressure=pressure, friction=friction)
    require_positive(diameter=diameter, length=length)
    return friction * pressure * np.pi * diameter * length


@formula(
    "T = mu p pi d^2 L / 2",
    result=Symbol("T", "N m", "torque at which the seat begins to slip"),
    source=DERIVED,
    **_SEAT_ARGUMENTS,
)
def grip_torque(pressure: Numeric, diameter: Numeric, length: Numeric, friction: Numeric) -> Numeric:
    """
    Torque at which a seat under pressure begins to slip.

    ::

        T = mu p pi d^2 L / 2

    Parameters
    ----------
    pressure : float or array, Pa
        p, in the seat: the least of all the states in which torque is passed on.
    diameter : float or array, m
        d, of the seat.
    length : float or array, m
        L, of the seat.
    friction : float or array, -
        mu.

    Returns
    -------
    float or array, N m
        T.

    Raises
    ------
    DomainError
        If pressure or friction is negative, or diameter or length is not above zero, anywhere.

    Notes
    -----
    Friction mu p on the area pi d L at the radius d/2. Holds as long as the pressure is even; a hub
    with a web or a flange is stiffer there. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Any textbook of machine elements. Mark: derived.

    Examples
    --------
    >>> print(f"{grip_torque(15.33e6, 0.040, 0.040, 0.12):.0f} N m")
    185 N m
    """
    return 0.5 * diameter * _holding_force(pressure, diameter, length, friction)


@formula(
    "F = mu p pi d L",
    result=Symbol("F", "N", "axial force at which the seat begins to slip"),
    source=DERIVED,
    **_SEAT_ARGUMENTS,
)
def grip_force(pressure: Numeric, diameter: Numeric, length: Numeric, friction: Numeric) -> Numeric:
    """
    Force along the axis at which a seat under pressure begins to slip.

    ::

        F = mu p pi d L

    Parameters
    ----------
    pressure : float or array, Pa
        p, in the seat.
    diameter : float or array, m
        d, of the seat.
    length : float or array, m
        L, of the seat.
    friction : float or array, -
        mu.

    Returns
    -------
    float or array, N
        F.

    Raises
    ------
    DomainError
        If pressure or friction is negative, or diameter or length is not above zero, anywhere.

    Notes
    -----
    It is also the resultant of torque and axial force that slips, see ``grip_force_needed``.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Any textbook of machine elements. Mark: derived.

    Examples
    --------
    >>> print(f"{grip_force(21.72e6, 0.100, 0.100, 0.15) / 1e3:.1f} kN")
    102.4 kN
    """
    return _holding_force(pressure, diameter, length, friction)


@formula(
    "Fr = sqrt((2 T / d)^2 + Fa^2)",
    result=Symbol("Fr", "N", "friction that torque and axial force need together"),
    source=DERIVED,
    torque=TORQUE,
    axial_force=AXIAL,
    diameter=SEAT,
)
def grip_force_needed(torque: Numeric, axial_force: Numeric, diameter: Numeric) -> Numeric:
    """
    Friction that a seat needs for a torque and an axial force at the same time.

    ::

        Fr = sqrt((2 T / d)^2 + Fa^2)

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    axial_force : float or array, N
        Fa. The sign is ignored.
    diameter : float or array, m
        d, of the seat.

    Returns
    -------
    float or array, N
        Fr, to be held by ``grip_force``.

    Raises
    ------
    DomainError
        If diameter is not above zero anywhere.

    Notes
    -----
    Friction points one way only: what turns the hub and what pushes it add at a right angle.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Sum of two forces at a right angle in the seat. Mark: derived.

    Examples
    --------
    >>> print(f"{grip_force_needed(300.0, 8000.0, 0.040):.0f} N")
    17000 N
    """
    require_positive(diameter=diameter)
    return np.hypot(2.0 * torque / diameter, axial_force)


@formula(
    "Tr = sqrt(T^2 + (Fa d / 2)^2)",
    result=Symbol("Tr", "N m", "torque that needs as much friction as torque and thrust together"),
    source=DERIVED,
    torque=TORQUE,
    axial_force=AXIAL,
    diameter=SEAT,
)
def torque_beside_thrust(torque: Numeric, axial_force: Numeric, diameter: Numeric) -> Numeric:
    """
    Torque that needs as much friction as a torque and a thrust together.

    ::

        Tr = sqrt(T^2 + (Fa d / 2)^2)

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    axial_force : float or array, N
        Fa. The sign is ignored.
    diameter : float or array, m
        d, of the seat.

    Returns
    -------
    float or array, N m
        Tr, to be held against ``grip_torque`` or the torque of a bush in its catalogue.

    Raises
    ------
    DomainError
        If diameter is not above zero anywhere.

    Notes
    -----
    ``grip_force_needed`` times half the diameter. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Sum of two forces at a right angle in the seat. Mark: derived.

    Examples
    --------
    >>> print(f"{torque_beside_thrust(300.0, 8000.0, 0.040):.0f} N m")
    340 N m
    """
    require_positive(diameter=diameter)
    return np.hypot(torque, 0.5 * axial_force * diameter)


@formula(
    "Fp = mu p pi d L",
    result=Symbol("Fp", "N", "force that presses the hub the last bit on"),
    source=DERIVED,
    **_SEAT_ARGUMENTS,
)
def pressing_force(pressure: Numeric, diameter: Numeric, length: Numeric, friction: Numeric) -> Numeric:
    """
    Force of the press when the hub has come to the full depth of its seat.

    ::

        Fp = mu p pi d L

    Parameters
    ----------
    pressure : float or array, Pa
        p, in the seat.
    diameter : float or array, m
        d, of the seat.
    length : float or array, m
        L, of the seat that is covered: the force rises evenly with it.
    friction : float or array, -
        mu, while it slides in.

    Returns
    -------
    float or array, N
        Fp.

    Raises
    ------
    DomainError
        If pressure or friction is negative, or diameter or length is not above zero, anywhere.

    Notes
    -----
    A press with a gauge thus measures friction times pressure, the very thing that holds the torque:
    T = Fp d/2 if the friction stays the same. Pressing off may need more after the joint has stood.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Any textbook of machine elements. Mark: derived.

    Examples
    --------
    >>> print(f"{pressing_force(114.5e6, 0.040, 0.040, 0.07) / 1e3:.1f} kN")
    40.3 kN
    """
    return _holding_force(pressure, diameter, length, friction)
