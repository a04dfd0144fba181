"""Safety factors of a notched shaft in bending and torsion, for endless life."""

import numpy as np

from torqcheck._types import FloatArray, Numeric
from torqcheck.domain import require_not_negative, require_positive, require_tube
from torqcheck.fatigue._sources import SHAFT_DESIGN
from torqcheck.fatigue._symbols import (
    ALTERNATING,
    BORE,
    ENDURANCE,
    MEAN_LOAD,
    SAFETY,
    SECTION,
    TENSILE_YIELD,
    ULTIMATE,
)
from torqcheck.formulas import formula

__all__ = [
    "de_elliptic_factor",
    "de_gerber_factor",
    "de_goodman_factor",
    "de_soderberg_factor",
]


def _section(
    alternating_load: Numeric,
    mean_load: Numeric,
    diameter: Numeric,
    endurance_limit: Numeric,
    strength: Numeric,
    bore: Numeric,
) -> FloatArray:
    """Section modulus in torsion, pi d^3 c/16; loads and strengths are looked at on the way."""
    require_tube(diameter, bore)
    require_not_negative(alternating_load=alternating_load, mean_load=mean_load)
    require_positive(endurance_limit=endurance_limit, strength=strength)
    return np.asarray(np.pi / 16.0 * (diameter**4 - bore**4) / diameter)


def _inverse(share: Numeric) -> Numeric:
    """Safety factor from the share of the strength that is used."""
    used = np.asarray(share)
    return np.where(np.equal(used, 0.0), np.inf, 1.0 / np.where(np.equal(used, 0.0), 1.0, used))[()]


@formula(
    "1/n = 16/(pi d^3 c) (A/Se + B/Sut)",
    result=SAFETY,
    source=SHAFT_DESIGN,
    alternating_load=ALTERNATING,
    mean_load=MEAN_LOAD,
    diameter=SECTION,
    endurance_limit=ENDURANCE,
    ultimate_strength=ULTIMATE,
    bore=BORE,
)
def de_goodman_factor(
    alternating_load: Numeric,
    mean_load: Numeric,
    diameter: Numeric,
    endurance_limit: Numeric,
    ultimate_strength: Numeric,
    bore: Numeric = 0.0,
) -> Numeric:
    """
    Safety factor of a notched shaft for endless life, after Goodman.

    ::

        1/n = 16/(pi d^3 c) (A/Se + B/Sut)
        c = 1 - (di/d)^4

    Parameters
    ----------
    alternating_load : float or array, N m
        A, from ``combined_load``.
    mean_load : float or array, N m
        B, likewise.
    diameter : float or array, m
        d.
    endurance_limit : float or array, Pa
        Se of the part; in bending, for A and B hold the factor of torsion.
    ultimate_strength : float or array, Pa
        Sut.
    bore : float or array, m, optional
        di, diameter of a concentric hole; 0 for a solid shaft.

    Returns
    -------
    float or array, -
        n; infinite without load.

    Raises
    ------
    DomainError
        If a load is negative, a strength not above zero, or there is no wall, anywhere.

    Notes
    -----
    Distortion energy of bending and torsion together, for endless life.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Budynas and Nisbett, Mechanical Engineering Design, 8th ed., chapter 7, worked problem 7-1.
       Mark: published.

    Examples
    --------
    >>> factor = de_goodman_factor(150.0, 200.0, 0.030, 200e6, 700e6)
    >>> print(f"{factor:.2f}")
    5.12
    """
    section = _section(alternating_load, mean_load, diameter, endurance_limit, ultimate_strength, bore)
    amplitude = alternating_load / np.multiply(section, endurance_limit)
    return _inverse(amplitude + mean_load / np.multiply(section, ultimate_strength))


@formula(
    "1/n = 16/(pi d^3 c) (A/Se + B/Sy)",
    result=SAFETY,
    source=SHAFT_DESIGN,
    alternating_load=ALTERNATING,
    mean_load=MEAN_LOAD,
    diameter=SECTION,
    endurance_limit=ENDURANCE,
    yield_strength=TENSILE_YIELD,
    bore=BORE,
)
def de_soderberg_factor(
    alternating_load: Numeric,
    mean_load: Numeric,
    diameter: Numeric,
    endurance_limit: Numeric,
    yield_strength: Numeric,
    bore: Numeric = 0.0,
) -> Numeric:
    """
    Safety factor of a notched shaft for endless life, after Soderberg.

    ::

        1/n = 16/(pi d^3 c) (A/Se + B/Sy)
        c = 1 - (di/d)^4

    Parameters
    ----------
    alternating_load : float or array, N m
        A, from ``combined_load``.
    mean_load : float or array, N m
        B, likewise.
    diameter : float or array, m
        d.
    endurance_limit : float or array, Pa
        Se of the part; in bending, for A and B hold the factor of torsion.
    yield_strength : float or array, Pa
        Sy.
    bore : float or array, m, optional
        di, diameter of a concentric hole; 0 for a solid shaft.

    Returns
    -------
    float or array, -
        n; infinite without load.

    Raises
    ------
    DomainError
        If a load is negative, a strength not above zero, or there is no wall, anywhere.

    Notes
    -----
    Distortion energy of bending and torsion together, for endless life.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Budynas and Nisbett, Mechanical Engineering Design, 8th ed., chapter 7, worked problem 7-1.
       Mark: published.

    Examples
    --------
    >>> factor = de_soderberg_factor(150.0, 200.0, 0.030, 200e6, 500e6)
    >>> print(f"{factor:.2f}")
    4.61
    """
    section = _section(alternating_load, mean_load, diameter, endurance_limit, yield_strength, bore)
    amplitude = alternating_load / np.multiply(section, endurance_limit)
    return _inverse(amplitude + mean_load / np.multiply(section, yield_strength))


@formula(
    "1/n = 16/(pi d^3 c) sqrt((A/Se)^2 + (B/Sy)^2)",
    result=SAFETY,
    source=SHAFT_DESIGN,
    alternating_load=ALTERNATING,
    mean_load=MEAN_LOAD,
    diameter=SECTION,
    endurance_limit=ENDURANCE,
    yield_strength=TENSILE_YIELD,
    bore=BORE,
)
def de_elliptic_factor(
    alternating_load: Numeric,
    mean_load: Numeric,
    diameter: Numeric,
    endurance_limit: Numeric,
    yield_strength: Numeric,
    bore: Numeric = 0.0,
) -> Numeric:
    """
    Safety factor of a notched shaft for endless life, on the ellipse of the shaft standard.

    ::

        1/n = 16/(pi d^3 c) sqrt((A/Se)^2 + (B/Sy)^2)
        c = 1 - (di/d)^4

    Parameters
    ----------
    alternating_load : float or array, N m
        A, from ``combined_load``.
    mean_load : float or array, N m
        B, likewise.
    diameter : float or array, m
        d.
    endurance_limit : float or array, Pa
        Se of the part; in bending, for A and B hold the factor of torsion.
    yield_strength : float or array, Pa
        Sy.
    bore : float or array, m, optional
        di, diameter of a concentric hole; 0 for a solid shaft.

    Returns
    -------
    float or array, -
        n; infinite without load.

    Raises
    ------
    DomainError
        If a load is negative, a strength not above zero, or there is no wall, anywhere.

    Notes
    -----
    Distortion energy of bending and torsion together, for endless life.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Budynas and Nisbett, Mechanical Engineering Design, 8th ed., chapter 7, worked problem 7-1.
       Mark: published.

    Examples
    --------
    >>> factor = de_elliptic_factor(150.0, 200.0, 0.030, 200e6, 500e6)
    >>> print(f"{factor:.2f}")
    6.24
    """
    section = _section(alternating_load, mean_load, diameter, endurance_limit, yield_strength, bore)
    amplitude = alternating_load / np.multiply(section, endurance_limit)
    return _inverse(np.hypot(amplitude, mean_load / np.multiply(section, yield_strength)))


@formula(
    "1/n = 8 A/(pi d^3 c Se) (1 + sqrt(1 + (2 B Se/(A Sut))^2))",
    result=SAFETY,
    source=SHAFT_DESIGN,
    alternating_load=ALTERNATING,
    mean_load=MEAN_LOAD,
    diameter=SECTION,
    endurance_limit=ENDURANCE,
    ultimate_strength=ULTIMATE,
    bore=BORE,
)
def de_gerber_factor(
    alternating_load: Numeric,
    mean_load: Numeric,
    diameter: Numeric,
    endurance_limit: Numeric,
    ultimate_strength: Numeric,
    bore: Numeric = 0.0,
) -> Numeric:
    """
    Safety factor of a notched shaft for endless life, after Gerber.

    ::

        1/n = 8 A/(pi d^3 c Se) (1 + sqrt(1 + (2 B Se/(A Sut))^2))
        c = 1 - (di/d)^4

    Parameters
    ----------
    alternating_load : float or array, N m
        A, from ``combined_load``.
    mean_load : float or array, N m
        B, likewise.
    diameter : float or array, m
        d.
    endurance_limit : float or array, Pa
        Se of the part; in bending, for A and B hold the factor of torsion.
    ultimate_strength : float or array, Pa
        Sut.
    bore : float or array, m, optional
        di, diameter of a concentric hole; 0 for a solid shaft.

    Returns
    -------
    float or array, -
        n; infinite without load.

    Raises
    ------
    DomainError
        If a load is negative, a strength not above zero, or there is no wall, anywhere.

    Notes
    -----
    Distortion energy of bending and torsion together, for endless life.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Budynas and Nisbett, Mechanical Engineering Design, 8th ed., chapter 7, worked problem 7-1.
       Mark: published.

    Examples
    --------
    >>> factor = de_gerber_factor(150.0, 200.0, 0.030, 200e6, 700e6)
    >>> print(f"{factor:.2f}")
    6.26
    """
    section = _section(alternating_load, mean_load, diameter, endurance_limit, ultimate_strength, bore)
    amplitude = alternating_load / np.multiply(section, endurance_limit)
    # written without the division by A, so that it holds for a steady load as well
    mean = mean_load / np.multiply(section, ultimate_strength)
    return _inverse(0.5 * (amplitude + np.hypot(amplitude, 2.0 * mean)))
