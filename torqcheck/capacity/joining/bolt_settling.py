"""What a bolt loses of its preload while rough faces flatten: springs of bolt and clamped parts."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED
from torqcheck.capacity.joining._bolt_symbols import BOLT_DIAMETER, SCREW_STRETCH, TENSILE_AREA
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.formulas import Symbol, formula

__all__ = ["bolt_stiffness", "clamped_stiffness", "settling_loss"]

_GRIP = Symbol("l", "m", "clamped length")
_MODULUS = Symbol("E", "Pa", "modulus of elasticity")
CONE = 0.5774
"""Tangent of 30 degrees, half the angle of the pressure cone, as the book rounds it."""


@formula(
    "kb = E At / (l + d)",
    result=Symbol("kb", "N/m", "stiffness of the bolt in tension"),
    source=SCREW_STRETCH,
    tensile_area=TENSILE_AREA,
    diameter=BOLT_DIAMETER,
    clamped_length=_GRIP,
    elastic_modulus=_MODULUS,
)
def bolt_stiffness(
    tensile_area: Numeric, diameter: Numeric, clamped_length: Numeric, elastic_modulus: Numeric
) -> Numeric:
    """
    Stiffness in tension of a bolt, threaded over its length, with what stretches within head and nut.

    ::

        kb = E At / (l + d)

    Parameters
    ----------
    tensile_area : float or array, m2
        At.
    diameter : float or array, m
        d, nominal.
    clamped_length : float or array, m
        l, between head and nut, or between head and tapped hole.
    elastic_modulus : float or array, Pa
        E, of the bolt.

    Returns
    -------
    float or array, N/m
        kb.

    Raises
    ------
    DomainError
        If an argument is not above zero, anywhere.

    Notes
    -----
    Half of head and half of nut, or of the thread in a tapped hole, stretch as well, together about as much
    as one diameter more of bolt. A plain shank is stiffer by a fifth. NaN in any argument gives NaN in the
    same place.

    References
    ----------
    .. [1] Rod in tension; the addition as in VDI 2230, rounded. Mark: from memory.

    Examples
    --------
    >>> print(f"{bolt_stiffness(58e-6, 0.010, 0.024, 207e9) / 1e6:.0f} N/um")
    353 N/um
    """
    require_positive(
        tensile_area=tensile_area,
        diameter=diameter,
        clamped_length=clamped_length,
        elastic_modulus=elastic_modulus,
    )
    return elastic_modulus * tensile_area / (clamped_length + diameter)


@formula(
    "km = 0.5774 pi E d / (2 ln(5 (0.5774 l + 0.5 d) / (0.5774 l + 2.5 d)))",
    result=Symbol("km", "N/m", "stiffness of the clamped parts"),
    source=SCREW_STRETCH,
    diameter=BOLT_DIAMETER,
    clamped_length=_GRIP,
    elastic_modulus=_MODULUS,
)
def clamped_stiffness(diameter: Numeric, clamped_length: Numeric, elastic_modulus: Numeric) -> Numeric:
    """
    Stiffness in compression of what a bolt clamps, by two cones of 30 degrees under its washers.

    ::

        km = 0.5774 pi E d / (2 ln(5 (0.5774 l + 0.5 d) / (0.5774 l + 2.5 d)))

    Parameters
    ----------
    diameter : float or array, m
        d, of the bolt; its washer face has 1.5 d.
    clamped_length : float or array, m
        l.
    elastic_modulus : float or array, Pa
        E, of the clamped parts, all of one metal.

    Returns
    -------
    float or array, N/m
        km.

    Raises
    ------
    DomainError
        If an argument is not above zero, anywhere.

    Notes
    -----
    The parts must be wide enough for the cones. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Budynas and Nisbett, Mechanical Engineering Design, eq. 8-22. Mark: from memory.

    Examples
    --------
    >>> print(f"{clamped_stiffness(0.010, 0.024, 207e9) / 1e6:.0f} N/um")
    2118 N/um
    """
    require_positive(diameter=diameter, clamped_length=clamped_length, elastic_modulus=elastic_modulus)
    d, cone = diameter, CONE * clamped_length
    return 0.5 * CONE * np.pi * elastic_modulus * d / np.log(5.0 * (cone + 0.5 * d) / (cone + 2.5 * d))


@formula(
    "Fz = fz kb km / (kb + km)",
    result=Symbol("Fz", "N", "preload lost by settling"),
    source=DERIVED,
    settling=Symbol("fz", "m", "what threads, heads and faces give way together"),
    bolt_stiffness=Symbol("kb", "N/m", "stiffness of the bolt in tension"),
    clamped_stiffness=Symbol("km", "N/m", "stiffness of the clamped parts"),
)
def settling_loss(settling: Numeric, bolt_stiffness: Numeric, clamped_stiffness: Numeric) -> Numeric:
    """
    Preload that a bolt loses while rough faces flatten.

    ::

        Fz = fz kb km / (kb + km)

    Parameters
    ----------
    settling : float or array, m
        fz.
    bolt_stiffness : float or array, N/m
        kb.
    clamped_stiffness : float or array, N/m
        km.

    Returns
    -------
    float or array, N
        Fz.

    Raises
    ------
    DomainError
        If settling is negative, or a stiffness is not above zero, anywhere.

    Notes
    -----
    Bolt and clamped parts are two springs behind one another, shortened by fz: a long thin bolt loses
    least. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Two springs in series. Mark: derived.

    Examples
    --------
    >>> print(f"{settling_loss(8e-6, 353e6, 2118e6) / 1e3:.2f} kN")
    2.42 kN
    """
    require_not_negative(settling=settling)
    require_positive(bolt_stiffness=bolt_stiffness, clamped_stiffness=clamped_stiffness)
    return settling / (np.divide(1.0, bolt_stiffness) + np.divide(1.0, clamped_stiffness))
