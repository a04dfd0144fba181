"""Least diameters of a notched shaft in bending and torsion, for endless life."""

import numpy as np

from torqcheck._types import FloatArray, Numeric
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import SHAFT_DESIGN
from torqcheck.fatigue._symbols import (
    ALTERNATING,
    BORE_SHARE,
    ENDURANCE,
    LEAST,
    MEAN_LOAD,
    TENSILE_YIELD,
    ULTIMATE,
    WANTED,
)
from torqcheck.formulas import formula

__all__ = [
    "de_elliptic_diameter",
    "de_gerber_diameter",
    "de_goodman_diameter",
    "de_soderberg_diameter",
]


def _wall(
    alternating_load: Numeric,
    mean_load: Numeric,
    safety_factor: Numeric,
    endurance_limit: Numeric,
    strength: Numeric,
    bore_share: Numeric,
) -> FloatArray:
    """16 n/(pi c); loads and strengths are looked at on the way."""
    require_not_negative(alternating_load=alternating_load, mean_load=mean_load, bore_share=bore_share)
    require_positive(safety_factor=safety_factor, endurance_limit=endurance_limit, strength=strength)
    if np.any(np.greater_equal(bore_share, 1.0)):
        raise DomainError("bore_share must be below 1")
    return np.asarray(16.0 / np.pi * np.divide(safety_factor, 1.0 - np.power(bore_share, 4)))


@formula(
    "d = (16 n/(pi c) (A/Se + B/Sut))^(1/3)",
    result=LEAST,
    source=SHAFT_DESIGN,
    alternating_load=ALTERNATING,
    mean_load=MEAN_LOAD,
    safety_factor=WANTED,
    endurance_limit=ENDURANCE,
    ultimate_strength=ULTIMATE,
    bore_share=BORE_SHARE,
)
def de_goodman_diameter(
    alternating_load: Numeric,
    mean_load: Numeric,
    safety_factor: Numeric,
    endurance_limit: Numeric,
    ultimate_strength: Numeric,
    bore_share: Numeric = 0.0,
) -> Numeric:
    """
    Least diameter of a notched shaft for endless life, after Goodman.

    ::

        d = (16 n/(pi c) (A/Se + B/Sut))^(1/3)
        c = 1 - q^4

    Parameters
    ----------
    alternating_load : float or array, N m
        A, from ``combined_load``.
    mean_load : float or array, N m
        B, likewise.
    safety_factor : float or array, -
        n.
    endurance_limit : float or array, Pa
        Se of the part; in bending, for A and B hold the factor of torsion.
    ultimate_strength : float or array, Pa
        Sut.
    bore_share : float or array, -, optional
        q, bore over diameter; 0 for a solid shaft.

    Returns
    -------
    float or array, m
        d.

    Raises
    ------
    DomainError
        If a load is negative, a strength or safety_factor not above zero, or bore_share outside 0 to
        below 1, anywhere.

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
    >>> print(f"{de_goodman_diameter(338.4, 265.5, 2.0, 210e6, 700e6) * 1e3:.2f} mm")
    27.27 mm
    """
    wall = _wall(alternating_load, mean_load, safety_factor, endurance_limit, ultimate_strength, bore_share)
    used = np.divide(alternating_load, endurance_limit) + np.divide(mean_load, ultimate_strength)
    result: Numeric = np.cbrt(wall * used)[()]
    return result


@formula(
    "d = (16 n/(pi c) (A/Se + B/Sy))^(1/3)",
    result=LEAST,
    source=SHAFT_DESIGN,
    alternating_load=ALTERNATING,
    mean_load=MEAN_LOAD,
    safety_factor=WANTED,
    endurance_limit=ENDURANCE,
    yield_strength=TENSILE_YIELD,
    bore_share=BORE_SHARE,
)
def de_soderberg_diameter(
    alternating_load: Numeric,
    mean_load: Numeric,
    safety_factor: Numeric,
    endurance_limit: Numeric,
    yield_strength: Numeric,
    bore_share: Numeric = 0.0,
) -> Numeric:
    """
    Least diameter of a notched shaft for endless life, after Soderberg.

    ::

        d = (16 n/(pi c) (A/Se + B/Sy))^(1/3)
        c = 1 - q^4

    Parameters
    ----------
    alternating_load : float or array, N m
        A, from ``combined_load``.
    mean_load : float or array, N m
        B, likewise.
    safety_factor : float or array, -
        n.
    endurance_limit : float or array, Pa
        Se of the part; in bending, for A and B hold the factor of torsion.
    yield_strength : float or array, Pa
        Sy.
    bore_share : float or array, -, optional
        q, bore over diameter; 0 for a solid shaft.

    Returns
    -------
    float or array, m
        d.

    Raises
    ------
    DomainError
        If a load is negative, a strength or safety_factor not above zero, or bore_share outside 0 to
        below 1, anywhere.

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
    >>> print(f"{de_soderberg_diameter(338.4, 265.5, 2.0, 210e6, 560e6) * 1e3:.2f} mm")
    27.70 mm
    """
    wall = _wall(alternating_load, mean_load, safety_factor, endurance_limit, yield_strength, bore_share)
    used = np.divide(alternating_load, endurance_limit) + np.divide(mean_load, yield_strength)
    result: Numeric = np.cbrt(wall * used)[()]
    return result


@formula(
    "d = (16 n/(pi c) sqrt((A/Se)^2 + (B/Sy)^2))^(1/3)",
    result=LEAST,
    source=SHAFT_DESIGN,
    alternating_load=ALTERNATING,
    mean_load=MEAN_LOAD,
    safety_factor=WANTED,
    endurance_limit=ENDURANCE,
    yield_strength=TENSILE_YIELD,
    bore_share=BORE_SHARE,
)
def de_elliptic_diameter(
    alternating_load: Numeric,
    mean_load: Numeric,
    safety_factor: Numeric,
    endurance_limit: Numeric,
    yield_strength: Numeric,
    bore_share: Numeric = 0.0,
) -> Numeric:
    """
    Least diameter of a notched shaft for endless life, on the ellipse of the shaft standard.

    ::

        d = (16 n/(pi c) sqrt((A/Se)^2 + (B/Sy)^2))^(1/3)
        c = 1 - q^4

    Parameters
    ----------
    alternating_load : float or array, N m
        A, from ``combined_load``.
    mean_load : float or array, N m
        B, likewise.
    safety_factor : float or array, -
        n.
    endurance_limit : float or array, Pa
        Se of the part; in bending, for A and B hold the factor of torsion.
    yield_strength : float or array, Pa
        Sy.
    bore_share : float or array, -, optional
        q, bore over diameter; 0 for a solid shaft.

    Returns
    -------
    float or array, m
        d.

    Raises
    ------
    DomainError
        If a load is negative, a strength or safety_factor not above zero, or bore_share outside 0 to
        below 1, anywhere.

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
    >>> print(f"{de_elliptic_diameter(338.4, 265.5, 2.0, 210e6, 560e6) * 1e3:.2f} mm")
    25.77 mm
    """
    wall = _wall(alternating_load, mean_load, safety_factor, endurance_limit, yield_strength, bore_share)
    result: Numeric = np.cbrt(
        wall * np.hypot(np.divide(alternating_load, endurance_limit), np.divide(mean_load, yield_strength))
    )[()]
    return result


@formula(
    "d = (8 n A/(pi c Se) (1 + sqrt(1 + (2 B Se/(A Sut))^2)))^(1/3)",
    result=LEAST,
    source=SHAFT_DESIGN,
    alternating_load=ALTERNATING,
    mean_load=MEAN_LOAD,
    safety_factor=WANTED,
    endurance_limit=ENDURANCE,
    ultimate_strength=ULTIMATE,
    bore_share=BORE_SHARE,
)
def de_gerber_diameter(
    alternating_load: Numeric,
    mean_load: Numeric,
    safety_factor: Numeric,
    endurance_limit: Numeric,
    ultimate_strength: Numeric,
    bore_share: Numeric = 0.0,
) -> Numeric:
    """
    Least diameter of a notched shaft for endless life, after Gerber.

    ::

        d = (8 n A/(pi c Se) (1 + sqrt(1 + (2 B Se/(A Sut))^2)))^(1/3)
        c = 1 - q^4

    Parameters
    ----------
    alternating_load : float or array, N m
        A, from ``combined_load``.
    mean_load : float or array, N m
        B, likewise.
    safety_factor : float or array, -
        n.
    endurance_limit : float or array, Pa
        Se of the part; in bending, for A and B hold the factor of torsion.
    ultimate_strength : float or array, Pa
        Sut.
    bore_share : float or array, -, optional
        q, bore over diameter; 0 for a solid shaft.

    Returns
    -------
    float or array, m
        d.

    Raises
    ------
    DomainError
        If a load is negative, a strength or safety_factor not above zero, or bore_share outside 0 to
        below 1, anywhere.

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
    >>> print(f"{de_gerber_diameter(338.4, 265.5, 2.0, 210e6, 700e6) * 1e3:.2f} mm")
    25.85 mm
    """
    wall = _wall(alternating_load, mean_load, safety_factor, endurance_limit, ultimate_strength, bore_share)
    amplitude = np.divide(alternating_load, endurance_limit)
    # written without the division by A, so that it holds for a steady load as well
    mean = np.divide(mean_load, ultimate_strength)
    result: Numeric = np.cbrt(0.5 * wall * (amplitude + np.hypot(amplitude, 2.0 * mean)))[()]
    return result
