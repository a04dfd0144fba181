"""Locking collars, which hold along the axis, and split muffs, which join two shafts."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity.joining._fit_symbols import FRICTION, SCREW_FORCE, SCREWS, SEAT
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = ["collar_axial_hold", "split_muff_torque"]

_COLLAR = Source(
    "Instructor's solutions to Budynas and Nisbett, Mechanical Engineering Design, 8th ed.",
    "locking collar",
    "published",
)
_KHURMI = Source(
    "Khurmi and Gupta, A Textbook of Machine Design", "split muff coupling, eq 13", "from memory"
)


@formula(
    "Fa = 2 pi mu n F",
    result=Symbol("Fa", "N", "axial force at which the collar begins to slip"),
    source=_COLLAR,
    screw_force=SCREW_FORCE,
    screws=SCREWS,
    friction=FRICTION,
)
def collar_axial_hold(screw_force: Numeric, screws: Numeric, friction: Numeric) -> Numeric:
    """
    Axial force that a slit locking collar holds.

    ::

        Fa = 2 pi mu n F

    Parameters
    ----------
    screw_force : float or array, N
        F, preload of one screw.
    screws : float or array, -
        n, screws across the slit.
    friction : float or array, -
        mu.

    Returns
    -------
    float or array, N
        Fa.

    Raises
    ------
    DomainError
        If screw_force or friction is negative, or screws is not above zero, anywhere.

    Notes
    -----
    Derived again: the band presses with 2 pi n F in all. A collar is an axial stop and no torque path.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Instructor's solutions to Budynas and Nisbett, Mechanical Engineering Design, 8th ed.,
       locking collar. Mark: published.

    Examples
    --------
    >>> print(f"{collar_axial_hold(5926.0, 1.0, 0.12):.0f}")
    4468
    """
    require_not_negative(screw_force=screw_force, friction=friction)
    require_positive(screws=screws)
    return 2.0 * np.pi * friction * screws * screw_force


@formula(
    "T = (pi^2 / 16) mu db^2 s n d",
    result=Symbol("T", "N m", "torque at which the muff begins to slip"),
    source=_KHURMI,
    bolt_diameter=Symbol("db", "m", "diameter of the bolt that carries the stress"),
    bolt_stress=Symbol("s", "Pa", "tensile stress of the bolts"),
    screws=SCREWS,
    diameter=SEAT,
    friction=FRICTION,
)
def split_muff_torque(
    bolt_diameter: Numeric, bolt_stress: Numeric, screws: Numeric, diameter: Numeric, friction: Numeric
) -> Numeric:
    """
    Torque of a split muff that joins two shafts, from the stress of its bolts.

    ::

        T = (pi^2 / 16) mu db^2 s n d

    Parameters
    ----------
    bolt_diameter : float or array, m
        db, core diameter of the bolts.
    bolt_stress : float or array, Pa
        s, tensile stress of the bolts.
    screws : float or array, -
        n, bolts in all, half of them on each shaft.
    diameter : float or array, m
        d, of the shafts.
    friction : float or array, -
        mu. The 0.3 of the textbook is more than a turned shaft gives.

    Returns
    -------
    float or array, N m
        T.

    Raises
    ------
    DomainError
        If bolt_stress or friction is negative, or another argument is not above zero, anywhere.

    Notes
    -----
    ``two_piece_torque`` with half of the bolts and F = s pi db^2/4.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Khurmi and Gupta, A Textbook of Machine Design, eq 13. Mark: from memory; derived again here.

    Examples
    --------
    >>> print(f"{split_muff_torque(0.0222, 70e6, 6.0, 0.075, 0.3):.0f} N m")
    2873 N m
    """
    require_not_negative(bolt_stress=bolt_stress, friction=friction)
    require_positive(bolt_diameter=bolt_diameter, screws=screws, diameter=diameter)
    return np.pi**2 / 16.0 * friction * bolt_diameter**2 * bolt_stress * screws * diameter
