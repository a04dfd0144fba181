"""Hubs that screws clamp on a shaft: the torque that they hold, whether thin or stiff."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED
from torqcheck.capacity.joining._fit_symbols import FRICTION, SCREW_FORCE, SCREWS, SEAT, SEAT_LENGTH
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = [
    "LEVER",
    "one_slit_belt_torque",
    "one_slit_stiff_torque",
    "two_piece_pressure",
    "two_piece_stiff_torque",
    "two_piece_torque",
]

LEVER = Source("Lever model of a clamp hub hinged opposite its slit", "", "from memory")

_GRIP = Symbol("T", "N m", "torque at which the clamp begins to slip")
_CLAMP = {"screw_force": SCREW_FORCE, "screws": SCREWS, "diameter": SEAT, "friction": FRICTION}


def _friction_couple(screw_force: Numeric, screws: Numeric, diameter: Numeric, friction: Numeric) -> Numeric:
    """Return mu n F d, which all forms have in common."""
    require_not_negative(screw_force=screw_force, friction=friction)
    require_positive(screws=screws, diameter=diameter)
    return friction * screws * screw_force * diameter


@formula(
    "p = n F / (d L)",
    result=Symbol("p", "Pa", "mean pressure in the seat"),
    source=DERIVED,
    screw_force=SCREW_FORCE,
    screws=SCREWS,
    diameter=SEAT,
    length=SEAT_LENGTH,
)
def two_piece_pressure(screw_force: Numeric, screws: Numeric, diameter: Numeric, length: Numeric) -> Numeric:
    """
    Pressure in the seat of a two-piece clamp whose bore lies on the shaft all around.

    ::

        p = n F / (d L)

    Parameters
    ----------
    screw_force : float or array, N
        F, preload of one screw.
    screws : float or array, -
        n, screws in all, of both sides.
    diameter : float or array, m
        d, of the shaft.
    length : float or array, m
        L, of the seat.

    Returns
    -------
    float or array, Pa
        p.

    Raises
    ------
    DomainError
        If screw_force is negative or another argument is not above zero, anywhere.

    Notes
    -----
    The screws pull the halves together with n F against the pressure on the projected area d L.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Balance of one half. Mark: derived.

    Examples
    --------
    >>> print(f"{two_piece_pressure(25e3, 4.0, 0.030, 0.040) / 1e6:.1f} MPa")
    83.3 MPa
    """
    require_not_negative(screw_force=screw_force)
    require_positive(screws=screws, diameter=diameter, length=length)
    return screws * screw_force / (diameter * length)


@formula("T = (pi / 2) mu n F d", result=_GRIP, source=DERIVED, **_CLAMP)
def two_piece_torque(screw_force: Numeric, screws: Numeric, diameter: Numeric, friction: Numeric) -> Numeric:
    """
    Torque that a two-piece clamp holds when its bore lies on the shaft all around.

    ::

        T = (pi / 2) mu n F d

    Parameters
    ----------
    screw_force : float or array, N
        F, preload of one screw.
    screws : float or array, -
        n, screws in all, of both sides.
    diameter : float or array, m
        d, of the shaft.
    friction : float or array, -
        mu.

    Returns
    -------
    float or array, N m
        T.

    Raises
    ------
    DomainError
        If screw_force or friction is negative, or screws or diameter is not above zero, anywhere.

    Notes
    -----
    ``two_piece_pressure`` over the area pi d L at the radius d/2. A bore that is a little too large
    touches at two lines, see ``two_piece_stiff_torque``. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Even pressure in the seat. Mark: derived.

    Examples
    --------
    >>> print(f"{two_piece_torque(25e3, 4.0, 0.030, 0.12):.0f} N m")
    565 N m
    """
    return 0.5 * np.pi * _friction_couple(screw_force, screws, diameter, friction)


@formula("T = mu n F d", result=_GRIP, source=DERIVED, **_CLAMP)
def two_piece_stiff_torque(
    screw_force: Numeric, screws: Numeric, diameter: Numeric, friction: Numeric
) -> Numeric:
    """
    Torque that a two-piece clamp holds when its stiff halves touch the shaft at one line each.

    ::

        T = mu n F d

    Parameters
    ----------
    screw_force : float or array, N
        F, preload of one screw.
    screws : float or array, -
        n, screws in all, of both sides.
    diameter : float or array, m
        d, of the shaft.
    friction : float or array, -
        mu.

    Returns
    -------
    float or array, N m
        T.

    Raises
    ------
    DomainError
        If screw_force or friction is negative, or screws or diameter is not above zero, anywhere.

    Notes
    -----
    Both halves press with n F, and each holds mu n F at the radius d/2. An answer in a forum counts one
    of the two lines only and gets half of it; the shaft is pressed from both sides.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Balance of one half that touches at one line. Mark: derived.

    Examples
    --------
    >>> print(f"{two_piece_stiff_torque(25e3, 4.0, 0.030, 0.12):.0f} N m")
    360 N m
    """
    return _friction_couple(screw_force, screws, diameter, friction)


@formula("T = pi mu n F d", result=_GRIP, source=DERIVED, **_CLAMP)
def one_slit_belt_torque(
    screw_force: Numeric, screws: Numeric, diameter: Numeric, friction: Numeric
) -> Numeric:
    """
    Torque that a clamp hub with one slit holds when it is so thin that it wraps the shaft like a belt.

    ::

        T = pi mu n F d

    Parameters
    ----------
    screw_force : float or array, N
        F, preload of one screw.
    screws : float or array, -
        n, screws across the slit.
    diameter : float or array, m
        d, of the shaft.
    friction : float or array, -
        mu.

    Returns
    -------
    float or array, N m
        T.

    Raises
    ------
    DomainError
        If screw_force or friction is negative, or screws or diameter is not above zero, anywhere.

    Notes
    -----
    The band carries n F all around, presses with 2 pi n F in all, and holds that times mu at the radius
    d/2. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Band under even tension around a shaft. Mark: derived.

    Examples
    --------
    >>> print(f"{one_slit_belt_torque(25e3, 1.0, 0.030, 0.12):.0f} N m")
    283 N m
    """
    return np.pi * _friction_couple(screw_force, screws, diameter, friction)


@formula("T = 2 mu n F d", result=_GRIP, source=LEVER, **_CLAMP)
def one_slit_stiff_torque(
    screw_force: Numeric, screws: Numeric, diameter: Numeric, friction: Numeric
) -> Numeric:
    """
    Torque that a clamp hub with one slit holds when its stiff jaws turn about a hinge opposite the slit.

    ::

        T = 2 mu n F d

    Parameters
    ----------
    screw_force : float or array, N
        F, preload of one screw, less what it takes to close the hub without a shaft.
    screws : float or array, -
        n, screws across the slit.
    diameter : float or array, m
        d, of the shaft.
    friction : float or array, -
        mu.

    Returns
    -------
    float or array, N m
        T.

    Raises
    ------
    DomainError
        If screw_force or friction is negative, or screws or diameter is not above zero, anywhere.

    Notes
    -----
    The screw sits about twice as far from the hinge as the line on which a jaw touches, so that each jaw
    presses with 2 n F. A screw nearer to the hinge holds less.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Lever model of a clamp hub. Mark: from memory.

    Examples
    --------
    >>> print(f"{one_slit_stiff_torque(25e3, 1.0, 0.030, 0.12):.0f} N m")
    180 N m
    """
    return 2.0 * _friction_couple(screw_force, screws, diameter, friction)
