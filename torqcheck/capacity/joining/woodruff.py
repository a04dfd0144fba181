"""Woodruff keys: discs in a round seat of the shaft."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity.joining._key_sources import GEOMETRY
from torqcheck.capacity.joining._key_symbols import SHAFT_DEPTH
from torqcheck.domain import require_positive
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula

__all__ = ["woodruff_chord", "woodruff_shaft_seat"]

DISC = Symbol("Dw", "m", "diameter of the disc that a Woodruff key is cut from")


@formula(
    "l = 2 sqrt(t1 (Dw - t1))",
    result=Symbol("l", "m", "chord of a Woodruff key at the surface of the shaft"),
    source=GEOMETRY,
    disc_diameter=DISC,
    shaft_depth=SHAFT_DEPTH,
)
def woodruff_chord(disc_diameter: Numeric, shaft_depth: Numeric) -> Numeric:
    """
    Length of a Woodruff key where it leaves the shaft.

    ::

        l = 2 sqrt(t1 (Dw - t1))

    Parameters
    ----------
    disc_diameter : float or array, m
        Dw, of the disc that the key is cut from.
    shaft_depth : float or array, m
        t1, depth of the seat at its side.

    Returns
    -------
    float or array, m
        l; the length that shears, and that bears in the hub at least.

    Raises
    ------
    DomainError
        If a size is not above zero, or the depth is above half the diameter, anywhere.

    Notes
    -----
    The bottom of the disc rests on the bottom of the seat. NaN gives NaN.

    References
    ----------
    .. [1] Chord of a circle. Mark: derived.

    Examples
    --------
    >>> print(f"{woodruff_chord(0.75 * 0.0254, 0.2143 * 0.0254) * 1e3:.2f} mm")
    17.21 mm
    """
    _require_disc(disc_diameter, shaft_depth)
    return (2.0 * np.sqrt(np.multiply(shaft_depth, np.subtract(disc_diameter, shaft_depth))))[()]


@formula(
    "hb = (R^2 acos(1 - t1/R) - (R - t1) l/2) / l, R = Dw/2, l = 2 sqrt(t1 (Dw - t1))",
    result=Symbol("hb", "m", "mean height that bears in the shaft"),
    source=GEOMETRY,
    disc_diameter=DISC,
    shaft_depth=SHAFT_DEPTH,
)
def woodruff_shaft_seat(disc_diameter: Numeric, shaft_depth: Numeric) -> Numeric:
    """
    Mean height over which a Woodruff key bears in its shaft, along its chord.

    ::

        hb = (R^2 acos(1 - t1/R) - (R - t1) l/2) / l, R = Dw/2, l = 2 sqrt(t1 (Dw - t1))

    Parameters
    ----------
    disc_diameter : float or array, m
        Dw, of the disc that the key is cut from.
    shaft_depth : float or array, m
        t1, depth of the seat at its side.

    Returns
    -------
    float or array, m
        hb, about two thirds of the depth.

    Raises
    ------
    DomainError
        If a size is not above zero, or the depth is above half the diameter, anywhere.

    Notes
    -----
    Area of the segment of the disc that lies in the shaft, over its chord. NaN gives NaN.

    References
    ----------
    .. [1] Segment of a circle. Mark: derived.

    Examples
    --------
    >>> print(f"{woodruff_shaft_seat(0.75 * 0.0254, 0.2143 * 0.0254) * 1e3:.2f} mm")
    3.90 mm
    """
    _require_disc(disc_diameter, shaft_depth)
    radius = np.multiply(0.5, disc_diameter)
    chord = 2.0 * np.sqrt(np.multiply(shaft_depth, np.subtract(disc_diameter, shaft_depth)))
    above = radius - shaft_depth
    area = radius**2 * np.arccos(above / radius) - 0.5 * above * chord
    return (area / chord)[()]


def _require_disc(disc_diameter: Numeric, shaft_depth: Numeric) -> None:
    require_positive(disc_diameter=disc_diameter, shaft_depth=shaft_depth)
    if np.any(np.greater(shaft_depth, np.multiply(0.5, disc_diameter))):
        raise DomainError("shaft_depth must be at most half the diameter of the disc")
