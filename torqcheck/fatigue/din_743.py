"""Endurance in torsion by the outline of DIN 743: a second method, shown beside, never blended."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import DIN_743
from torqcheck.fatigue._symbols import STRENGTH_SIZE, ULTIMATE
from torqcheck.formulas import Symbol, formula

__all__ = [
    "DIN_743_LEAST_SAFETY",
    "din_allowable_amplitude",
    "din_endurance_limit",
    "din_mean_sensitivity",
]

DIN_743_LEAST_SAFETY = 1.2
"""Least safety factor that the standard asks for. Mark: from memory."""

_LIMIT_SHARE = 0.3

_LIMIT = Symbol("tWK", "Pa", "endurance limit of the notched part in reversed torsion")


@formula(
    "tWK = 0.3 Sut K1/Kt",
    result=_LIMIT,
    source=DIN_743,
    ultimate_strength=ULTIMATE,
    total_factor=Symbol("Kt", "-", "total factor on the endurance limit"),
    strength_size=STRENGTH_SIZE,
)
def din_endurance_limit(
    ultimate_strength: Numeric, total_factor: Numeric, strength_size: Numeric = 1.0
) -> Numeric:
    """
    Endurance limit of the notched part in reversed torsion, as a nominal stress.

    ::

        tWK = 0.3 Sut K1/Kt

    Parameters
    ----------
    ultimate_strength : float or array, Pa
        Sut, of the reference bar; of the section with K1 = 1.
    total_factor : float or array, -
        Kt.
    strength_size : float or array, -, optional
        K1.

    Returns
    -------
    float or array, Pa
        tWK.

    Raises
    ------
    DomainError
        If anything is not above zero anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] DIN 743, outline. Mark: from memory.

    Examples
    --------
    >>> print(f"{din_endurance_limit(1000e6, 1.628763, 0.95) / 1e6:.3f} MPa")
    174.979 MPa
    """
    require_positive(
        ultimate_strength=ultimate_strength, total_factor=total_factor, strength_size=strength_size
    )
    return _LIMIT_SHARE * ultimate_strength * strength_size / total_factor


@formula(
    "psi = tWK / (2 K1 Sut - tWK)",
    result=Symbol("psi", "-", "sensitivity to mean stress"),
    source=DIN_743,
    notched_limit=_LIMIT,
    ultimate_strength=ULTIMATE,
    strength_size=STRENGTH_SIZE,
)
def din_mean_sensitivity(
    notched_limit: Numeric, ultimate_strength: Numeric, strength_size: Numeric = 1.0
) -> Numeric:
    """
    Sensitivity of the endurance limit in torsion to the mean stress.

    ::

        psi = tWK / (2 K1 Sut - tWK)

    Parameters
    ----------
    notched_limit : float or array, Pa
        tWK.
    ultimate_strength : float or array, Pa
        Sut.
    strength_size : float or array, -, optional
        K1.

    Returns
    -------
    float or array, -
        psi.

    Raises
    ------
    DomainError
        If anything is not above zero, or tWK is not below 2 K1 Sut, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] DIN 743, outline. Mark: from memory.

    Examples
    --------
    >>> print(f"{din_mean_sensitivity(174.979e6, 1000e6, 0.95):.6f}")
    0.101436
    """
    require_positive(
        notched_limit=notched_limit, ultimate_strength=ultimate_strength, strength_size=strength_size
    )
    left = 2.0 * np.multiply(strength_size, ultimate_strength) - notched_limit
    if np.any(np.less_equal(left, 0.0)):
        raise DomainError("notched_limit must be below twice the ultimate strength")
    return notched_limit / left


@formula(
    "tA = tWK / (1 + psi |tm|/ta)",
    result=Symbol("tA", "Pa", "amplitude that is borne for ever, at the same ratio of mean to amplitude"),
    source=DIN_743,
    notched_limit=_LIMIT,
    mean_sensitivity=Symbol("psi", "-", "sensitivity to mean stress"),
    mean_over_amplitude=Symbol("tm/ta", "-", "mean over amplitude of the nominal stress"),
)
def din_allowable_amplitude(
    notched_limit: Numeric, mean_sensitivity: Numeric, mean_over_amplitude: Numeric
) -> Numeric:
    """
    Amplitude in torsion that is borne for ever, amplitude and mean growing together.

    ::

        tA = tWK / (1 + psi |tm|/ta)

    Parameters
    ----------
    notched_limit : float or array, Pa
        tWK.
    mean_sensitivity : float or array, -
        psi.
    mean_over_amplitude : float or array, -
        tm/ta; its sign is ignored.

    Returns
    -------
    float or array, Pa
        tA, a nominal stress; over the amplitude it is the safety factor, 1.2 or more wanted.

    Raises
    ------
    DomainError
        If notched_limit is not above zero, or mean_sensitivity is negative, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] DIN 743, outline. Mark: from memory.

    Examples
    --------
    >>> print(f"{din_allowable_amplitude(174.979e6, 0.101436, 1.0) / 1e6:.3f} MPa")
    158.864 MPa
    """
    require_positive(notched_limit=notched_limit)
    require_not_negative(mean_sensitivity=mean_sensitivity)
    return notched_limit / (1.0 + mean_sensitivity * np.abs(mean_over_amplitude))
