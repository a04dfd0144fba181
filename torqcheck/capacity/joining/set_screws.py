"""Set screws: what they hold against turning."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity.joining._key_sources import SET_SCREW
from torqcheck.capacity.joining._key_symbols import SHAFT
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.formulas import Symbol, formula

__all__ = ["HARDER_BY", "SOFT_SCREW", "set_screw_torque"]

SOFT_SCREW = 0.85
"""What is left of the holding power where the screw is not clearly harder than the shaft; published."""
HARDER_BY = 10.0
"""HRC by which the screw should be harder than the shaft; published."""


@formula(
    "T = Fh f i d / 2",
    result=Symbol("T", "N m", "torque at which the screws begin to slip"),
    source=SET_SCREW,
    holding_power=Symbol("Fh", "N", "holding power of one set screw at the surface of the shaft"),
    shaft_diameter=SHAFT,
    screws=Symbol("i", "-", "set screws, as many of them as count"),
    point_factor=Symbol("f", "-", "factor of the form of the point; cup 1"),
)
def set_screw_torque(
    holding_power: Numeric, shaft_diameter: Numeric, screws: Numeric = 1.0, point_factor: Numeric = 1.0
) -> Numeric:
    """
    Torque that set screws hold, to a slip of 0.25 mm at the surface of the shaft.

    ::

        T = Fh f i d / 2

    Parameters
    ----------
    holding_power : float or array, N
        Fh of one screw with a cup point at its seating torque.
    shaft_diameter : float or array, m
        d.
    screws : float or array, -
        i; a second screw adds less than the first.
    point_factor : float or array, -
        f: cup 1, cone 1.07, flat and dog 0.92, oval 0.90.

    Returns
    -------
    float or array, N m
        T. Lists ask for a factor of 1.5 to 2 at rest and of 4 to 8 under a load that varies.

    Raises
    ------
    DomainError
        If the diameter, the number or the factor is not above zero, or the holding power is negative,
        anywhere.

    Notes
    -----
    Tests with a shaft of about 15 HRC. Lists of holding power disagree by a factor of 2.5. NaN gives NaN.

    References
    ----------
    .. [1] Catalogue pages on set screws, torsional holding power. Mark: published.

    Examples
    --------
    A screw that holds 50 lbf on a shaft of 1/4 in:

    >>> print(f"{set_screw_torque(50 * 4.448222, 0.00635) / 0.1129848:.2f} lbf in")
    6.25 lbf in
    """
    require_positive(shaft_diameter=shaft_diameter, screws=screws, point_factor=point_factor)
    require_not_negative(holding_power=holding_power)
    return np.multiply(0.5 * np.asarray(holding_power), point_factor * screws * shaft_diameter)[()]
