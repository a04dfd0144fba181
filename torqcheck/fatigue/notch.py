"""Notch sensitivity of steel after Neuber, and the fatigue notch factor."""

import numpy as np

from torqcheck._types import FloatArray, Numeric
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import HANDBOOK
from torqcheck.fatigue._symbols import CONCENTRATION, FILLET, ULTIMATE
from torqcheck.fatigue.endurance import KSI
from torqcheck.formulas import Symbol, formula

__all__ = [
    "NOTCH_RANGE",
    "fatigue_notch_factor",
    "notch_constant_in_bending",
    "notch_constant_in_torsion",
    "notch_sensitivity",
]

NOTCH_RANGE = (50.0 * KSI, 220.0 * KSI)
"""Ultimate strengths for which the notch constant in torsion holds, Pa; from memory."""

_ROOT_INCH = 0.0254**0.5
_NOTCH_CONSTANT = Symbol("sqrt(A)", "m^0.5", "square root of the notch constant of the steel")


def _in_range(ultimate_strength: Numeric) -> FloatArray:
    low, high = NOTCH_RANGE
    if np.any(np.less(ultimate_strength, low) | np.greater(ultimate_strength, high)):
        raise DomainError("ultimate_strength must lie between 345 and 1517 MPa (50 to 220 ksi)")
    return np.asarray(np.divide(ultimate_strength, KSI))


@formula(
    "sqrt(A) = 0.190 - 2.51e-3 Su + 1.35e-5 Su^2 - 2.67e-8 Su^3,  sqrt(in), Su in ksi",
    result=_NOTCH_CONSTANT,
    source=HANDBOOK,
    ultimate_strength=ULTIMATE,
)
def notch_constant_in_torsion(ultimate_strength: Numeric) -> Numeric:
    """
    Neuber's notch constant of steel in torsion, its square root.

    ::

        sqrt(A) = 0.190 - 2.51e-3 Su + 1.35e-5 Su^2 - 2.67e-8 Su^3,  sqrt(in), Su in ksi

    Parameters
    ----------
    ultimate_strength : float or array, Pa
        Sut.

    Returns
    -------
    float or array, m^0.5
        sqrt(A).

    Raises
    ------
    DomainError
        If ultimate_strength lies outside ``NOTCH_RANGE`` anywhere: beyond it the polynomial turns
        negative.

    Notes
    -----
    NaN gives NaN.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 296,
       eq 6-35b; the range from memory. Mark: published.

    Examples
    --------
    >>> print(f"{notch_constant_in_torsion(945e6) / 0.0254**0.5:.5f} sqrt(in)")
    0.03084 sqrt(in)
    """
    Su = _in_range(ultimate_strength)
    root: Numeric = (_ROOT_INCH * (0.190 + Su * (-2.51e-3 + Su * (1.35e-5 - Su * 2.67e-8))))[()]
    return root


@formula(
    "sqrt(A) = 0.246 - 3.08e-3 Su + 1.51e-5 Su^2 - 2.67e-8 Su^3,  sqrt(in), Su in ksi",
    result=_NOTCH_CONSTANT,
    source=HANDBOOK,
    ultimate_strength=ULTIMATE,
)
def notch_constant_in_bending(ultimate_strength: Numeric) -> Numeric:
    """
    Neuber's notch constant of steel in bending or axial load, its square root.

    ::

        sqrt(A) = 0.246 - 3.08e-3 Su + 1.51e-5 Su^2 - 2.67e-8 Su^3,  sqrt(in), Su in ksi

    Parameters
    ----------
    ultimate_strength : float or array, Pa
        Sut.

    Returns
    -------
    float or array, m^0.5
        sqrt(A).

    Raises
    ------
    DomainError
        If ultimate_strength lies outside ``NOTCH_RANGE`` anywhere.

    Notes
    -----
    NaN gives NaN.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 296,
       eq 6-35a; the range from memory. Mark: published.

    Examples
    --------
    >>> print(f"{notch_constant_in_bending(100 * KSI) / 0.0254**0.5:.4f} sqrt(in)")
    0.0623 sqrt(in)
    """
    Su = _in_range(ultimate_strength)
    root: Numeric = (_ROOT_INCH * (0.246 + Su * (-3.08e-3 + Su * (1.51e-5 - Su * 2.67e-8))))[()]
    return root


@formula(
    "qs = 1 / (1 + sqrt(A)/sqrt(r))",
    result=Symbol("qs", "-", "notch sensitivity"),
    source=HANDBOOK,
    fillet_radius=FILLET,
    notch_constant=_NOTCH_CONSTANT,
)
def notch_sensitivity(fillet_radius: Numeric, notch_constant: Numeric) -> Numeric:
    """
    Share of the elastic stress concentration that fatigue feels.

    ::

        qs = 1 / (1 + sqrt(A)/sqrt(r))

    Parameters
    ----------
    fillet_radius : float or array, m
        r, radius of the notch.
    notch_constant : float or array, m^0.5
        sqrt(A), see ``notch_constant_in_torsion``.

    Returns
    -------
    float or array, -
        qs, from 0 to 1.

    Raises
    ------
    DomainError
        If fillet_radius is not above zero or notch_constant is negative, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 296.
       Mark: published.

    Examples
    --------
    >>> print(f"{notch_sensitivity(0.4e-3, notch_constant_in_torsion(945e6)):.5f}")
    0.80274
    """
    require_positive(fillet_radius=fillet_radius)
    require_not_negative(notch_constant=notch_constant)
    return 1.0 / (1.0 + notch_constant / np.sqrt(fillet_radius))


@formula(
    "Kfs = 1 + qs (Kts - 1)",
    result=Symbol("Kfs", "-", "fatigue notch factor in torsion"),
    source=HANDBOOK,
    stress_concentration=CONCENTRATION,
    sensitivity=Symbol("qs", "-", "notch sensitivity"),
)
def fatigue_notch_factor(stress_concentration: Numeric, sensitivity: Numeric) -> Numeric:
    """
    Factor by which a notch lowers the fatigue strength.

    ::

        Kfs = 1 + qs (Kts - 1)

    Parameters
    ----------
    stress_concentration : float or array, -
        Kts, elastic, 1 or more.
    sensitivity : float or array, -
        qs, 0 to 1.

    Returns
    -------
    float or array, -
        Kfs, laid on the stress.

    Raises
    ------
    DomainError
        If stress_concentration is below 1, or sensitivity outside 0 to 1, anywhere.

    Notes
    -----
    In doubt Kfs = Kts. Never multiplied into the guide method, whose allowables contain the notch.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 296.
       Mark: published.

    Examples
    --------
    >>> print(f"{fatigue_notch_factor(2.8, 0.80274):.5f}")
    2.44493
    """
    if np.any(np.less(stress_concentration, 1.0)):
        raise DomainError("stress_concentration must be at least 1")
    if np.any(np.less(sensitivity, 0.0) | np.greater(sensitivity, 1.0)):
        raise DomainError("sensitivity must lie between 0 and 1")
    return 1.0 + np.multiply(sensitivity, np.subtract(stress_concentration, 1.0))
