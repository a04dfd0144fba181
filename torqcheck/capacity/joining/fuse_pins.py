"""Shear pins that are meant to break: at which torque they do."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity.joining._key_sources import PIN_STRENGTH
from torqcheck.capacity.joining._key_symbols import KEYS, PIN, SHAFT
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.formulas import Symbol, formula

__all__ = ["PIN_SCATTER", "PIN_SHEAR_STRENGTH", "pin_breaking_torque"]

PIN_SHEAR_STRENGTH = 0.75
"""Shear over tensile strength of a steel pin; from memory 0.6 to 0.75, one text has 0.82."""
PIN_SCATTER = 0.20
"""By which the torque that breaks a pin misses the prediction, either way; common practice."""


@formula(
    "T = c Sut pi dp^2 d i / 4",
    result=Symbol("T", "N m", "torque at which the pin breaks"),
    source=PIN_STRENGTH,
    ultimate_strength=Symbol("Sut", "Pa", "ultimate strength in tension"),
    shaft_diameter=SHAFT,
    pin_diameter=PIN,
    shear_share=Symbol("c", "-", "shear strength over ultimate strength in tension"),
    carrying=KEYS,
)
def pin_breaking_torque(
    ultimate_strength: Numeric,
    shaft_diameter: Numeric,
    pin_diameter: Numeric,
    shear_share: Numeric = PIN_SHEAR_STRENGTH,
    carrying: Numeric = 1.0,
) -> Numeric:
    """
    Torque at which a pin across the shaft is sheared off, in its two planes.

    ::

        T = c Sut pi dp^2 d i / 4          = (c Sut) (pi dp^2/4) d for one pin

    Parameters
    ----------
    ultimate_strength : float or array, Pa
        Sut of the pin.
    shaft_diameter : float or array, m
        d, where the two planes lie.
    pin_diameter : float or array, m
        dp, in the neck of a necked pin.
    shear_share : float or array, -
        c: 0.6 to 0.75 is common for steel, a text has 0.82 for cold-drawn bar.
    carrying : float or array, -
        i, pins that share the torque.

    Returns
    -------
    float or array, N m
        T. What is found in service lies up to a fifth to either side.

    Raises
    ------
    DomainError
        If a size, the share or the number of pins is not above zero, or the strength is negative, anywhere.

    Notes
    -----
    Both planes break at once; a pin that is loose in its holes is bent and breaks elsewhere. NaN gives NaN.

    References
    ----------
    .. [1] Common range of the shear strength of steel pins. Mark: from memory.
    .. [2] Textbook question on a propeller drive pin, 0.82 of the tensile strength. Mark: published.

    Examples
    --------
    A pin of 7 mm through a shaft of 69 mm, by [2]_:

    >>> print(f"{pin_breaking_torque(621e6, 0.069, 0.007, 0.82):.0f} N m")
    1352 N m
    """
    require_positive(
        shaft_diameter=shaft_diameter, pin_diameter=pin_diameter, shear_share=shear_share, carrying=carrying
    )
    require_not_negative(ultimate_strength=ultimate_strength)
    area = 0.25 * np.pi * np.square(pin_diameter)
    return np.multiply(shear_share * np.asarray(ultimate_strength), area * shaft_diameter * carrying)[()]
