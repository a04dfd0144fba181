"""Endurance limit of a polished bar and of a part, and the ultimate strength in shear."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.fatigue._sources import HANDBOOK
from torqcheck.fatigue._symbols import ULTIMATE
from torqcheck.formulas import Symbol, formula

__all__ = [
    "KSI",
    "SHEAR_TO_TENSILE_ULTIMATE",
    "bending_limit",
    "endurance_limit",
    "shear_ultimate_strength",
]

KSI = 6.894757293168e6
"""1000 psi in Pa."""
SHEAR_TO_TENSILE_ULTIMATE = 0.67
"""Ultimate strength in shear over that in tension, for fatigue."""

_LIMIT_SHARE, _HIGHEST_LIMIT = 0.5, 700e6


@formula(
    "Se' = min(0.5 Sut, 700 MPa)",
    result=Symbol("Se'", "Pa", "endurance limit of a polished bar in rotating bending"),
    source=HANDBOOK,
    ultimate_strength=ULTIMATE,
)
def bending_limit(ultimate_strength: Numeric) -> Numeric:
    """
    Endurance limit of a small polished steel bar in rotating bending.

    ::

        Se' = min(0.5 Sut, 700 MPa)

    Parameters
    ----------
    ultimate_strength : float or array, Pa
        Sut.

    Returns
    -------
    float or array, Pa
        Se', at about a million cycles and a reliability of one half.

    Raises
    ------
    DomainError
        If ultimate_strength is not above zero anywhere.

    Notes
    -----
    Steel only. Older editions print 0.504 for 0.5, some sheets a cap of 690 MPa.
    NaN gives NaN.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, chapter 6.
       Mark: published.

    Examples
    --------
    >>> print(f"{bending_limit(945e6) / 1e6:.1f} MPa")
    472.5 MPa
    """
    require_positive(ultimate_strength=ultimate_strength)
    return np.minimum(_LIMIT_SHARE * ultimate_strength, _HIGHEST_LIMIT)[()]


@formula(
    "Ssu = 0.67 Sut",
    result=Symbol("Ssu", "Pa", "ultimate strength in shear"),
    source=HANDBOOK,
    ultimate_strength=ULTIMATE,
)
def shear_ultimate_strength(ultimate_strength: Numeric) -> Numeric:
    """
    Ultimate strength in shear of steel, as fatigue in torsion uses it.

    ::

        Ssu = 0.67 Sut

    Parameters
    ----------
    ultimate_strength : float or array, Pa
        Sut.

    Returns
    -------
    float or array, Pa
        Ssu.

    Raises
    ------
    DomainError
        If ultimate_strength is negative anywhere.

    Notes
    -----
    Other figures are not contradictions: 0.8 Sut is the nominal stress at rupture of a solid bar,
    which contains its plastic reserve of 4/3. NaN gives NaN.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 347.
       Mark: published.

    Examples
    --------
    >>> print(f"{shear_ultimate_strength(945e6) / 1e6:.2f} MPa")
    633.15 MPa
    """
    require_not_negative(ultimate_strength=ultimate_strength)
    return SHEAR_TO_TENSILE_ULTIMATE * ultimate_strength


@formula(
    "Se = ka kb kc kd ke Se'",
    result=Symbol("Se", "Pa", "endurance limit of the part"),
    source=HANDBOOK,
    limit_of_bar=Symbol("Se'", "Pa", "endurance limit of a polished bar in rotating bending"),
    surface_factor=Symbol("ka", "-", "surface factor"),
    size_factor=Symbol("kb", "-", "size factor"),
    load_factor=Symbol("kc", "-", "load factor: 1 bending, 0.85 axial, 0.59 torsion"),
    temperature_factor=Symbol("kd", "-", "temperature factor"),
    reliability_factor=Symbol("ke", "-", "reliability factor"),
)
def endurance_limit(
    limit_of_bar: Numeric,
    surface_factor: Numeric,
    size_factor: Numeric,
    load_factor: Numeric = 1.0,
    temperature_factor: Numeric = 1.0,
    reliability_factor: Numeric = 1.0,
) -> Numeric:
    """
    Endurance limit of a part, from that of a polished bar.

    ::

        Se = ka kb kc kd ke Se'

    Parameters
    ----------
    limit_of_bar : float or array, Pa
        Se', see ``bending_limit``.
    surface_factor : float or array, -
        ka.
    size_factor : float or array, -
        kb.
    load_factor : float or array, -, optional
        kc; 0.59 for torsion, in which case the result is a shear stress.
    temperature_factor : float or array, -, optional
        kd.
    reliability_factor : float or array, -, optional
        ke.

    Returns
    -------
    float or array, Pa
        Se, without the notch: the stress carries that (``fatigue_notch_factor``).

    Raises
    ------
    DomainError
        If anything is negative anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 345.
       Mark: published.

    Examples
    --------
    >>> print(f"{endurance_limit(472.5e6, 0.73398, 0.86173, 0.59, 1.0, 0.814) / 1e6:.2f} MPa")
    143.53 MPa
    """
    require_not_negative(
        limit_of_bar=limit_of_bar,
        surface_factor=surface_factor,
        size_factor=size_factor,
        load_factor=load_factor,
        temperature_factor=temperature_factor,
        reliability_factor=reliability_factor,
    )
    return surface_factor * size_factor * load_factor * temperature_factor * reliability_factor * limit_of_bar
