"""Factors that bring the endurance limit of a polished bar down to that of a part."""

from collections.abc import Mapping
from dataclasses import dataclass
from statistics import NormalDist
from types import MappingProxyType
from typing import Literal

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_positive
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import HANDBOOK
from torqcheck.fatigue._symbols import ULTIMATE
from torqcheck.fatigue.endurance import KSI
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = [
    "SURFACE_FINISHES",
    "TORSION_LOAD_FACTOR",
    "Edition",
    "Finish",
    "SurfaceFinish",
    "load_factor_of_strength",
    "reliability_factor",
    "size_factor",
    "surface_factor",
    "temperature_factor",
]

TORSION_LOAD_FACTOR = 0.59
"""Endurance limit in reversed torsion over that in bending; not to be used together with von Mises."""

Finish = Literal["ground", "machined", "hot rolled", "forged"]
Edition = Literal["9th", "11th"]

_SMALL, _MIDDLE, _LARGE = 2.79e-3, 51e-3, 254e-3  # m, range of the size factor
_COLDEST, _HOTTEST = 294.0, 811.0  # K: 70 to 1000 deg F


@dataclass(frozen=True, slots=True)
class SurfaceFinish:
    """Constants of the surface factor, ka = A (Sut/MPa)^B, and where they stand."""

    coefficient: float
    exponent: float
    source: Source


def _ninth(coefficient: float, exponent: float) -> SurfaceFinish:
    return SurfaceFinish(coefficient, exponent, HANDBOOK)


def _eleventh(
    coefficient: float, exponent: float, mark: Literal["published", "from memory"]
) -> SurfaceFinish:
    work = "Budynas and Nisbett, Mechanical Engineering Design, 11th ed."
    return SurfaceFinish(coefficient, exponent, Source(work, "surface factor", mark))


SURFACE_FINISHES: Mapping[tuple[Finish, Edition], SurfaceFinish] = MappingProxyType(
    {
        ("ground", "9th"): _ninth(1.58, -0.085),
        ("machined", "9th"): _ninth(4.51, -0.265),
        ("hot rolled", "9th"): _ninth(57.7, -0.718),
        ("forged", "9th"): _ninth(272.0, -0.995),
        ("ground", "11th"): _eleventh(1.38, -0.067, "published"),
        ("machined", "11th"): _eleventh(3.04, -0.217, "from memory"),
        ("hot rolled", "11th"): _eleventh(38.6, -0.650, "from memory"),
        ("forged", "11th"): _eleventh(54.9, -0.758, "from memory"),
    }
)
"""By finish and edition of the handbook: the two editions differ, and are not to be mixed."""


@formula(
    "ka = min(1, A (Sut/MPa)^B)",
    result=Symbol("ka", "-", "surface factor"),
    source=HANDBOOK,
    ultimate_strength=ULTIMATE,
    finish_coefficient=Symbol("A", "-", "coefficient of the finish"),
    finish_exponent=Symbol("B", "-", "exponent of the finish"),
)
def surface_factor(
    ultimate_strength: Numeric, finish_coefficient: Numeric, finish_exponent: Numeric
) -> Numeric:
    """
    Endurance limit with a given surface over that of a polished bar.

    ::

        ka = min(1, A (Sut/MPa)^B)

    Parameters
    ----------
    ultimate_strength : float or array, Pa
        Sut.
    finish_coefficient : float or array, -
        A, from ``SURFACE_FINISHES``.
    finish_exponent : float or array, -
        B, likewise; negative.

    Returns
    -------
    float or array, -
        ka, at most 1.

    Raises
    ------
    DomainError
        If ultimate_strength or finish_coefficient is not above zero anywhere.

    Notes
    -----
    The cap at 1 bites only for soft steel with a coarse finish, outside the data. NaN gives NaN.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, chapter 6.
       Mark: published.

    Examples
    --------
    >>> machined = SURFACE_FINISHES["machined", "9th"]
    >>> print(f"{surface_factor(945e6, machined.coefficient, machined.exponent):.5f}")
    0.73398
    """
    require_positive(ultimate_strength=ultimate_strength, finish_coefficient=finish_coefficient)
    return np.minimum(1.0, finish_coefficient * np.power(ultimate_strength / 1e6, finish_exponent))[()]


@formula(
    "kb = 1.24 (d/mm)^-0.107 up to 51 mm, 1.51 (d/mm)^-0.157 above",
    result=Symbol("kb", "-", "size factor"),
    source=HANDBOOK,
    diameter=Symbol("d", "m", "diameter of the section"),
)
def size_factor(diameter: Numeric) -> Numeric:
    """
    Endurance limit of a round bar in bending or torsion over that of the small specimen.

    ::

        kb = 1.24 (d/mm)^-0.107 up to 51 mm, 1.51 (d/mm)^-0.157 above

    Parameters
    ----------
    diameter : float or array, m
        d; the root diameter of a spline.

    Returns
    -------
    float or array, -
        kb; above 1 below 7.5 mm.

    Raises
    ------
    DomainError
        If diameter lies outside 2.79 to 254 mm anywhere.

    Notes
    -----
    The inch form of the same formula, 0.879 d^-0.107, is 0.2 percent higher. NaN gives NaN.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 345.
       Mark: published.

    Examples
    --------
    >>> print(f"{size_factor(0.030):.5f}")
    0.86173
    """
    if np.any(np.less(diameter, _SMALL) | np.greater(diameter, _LARGE)):
        raise DomainError("diameter must lie between 2.79 and 254 mm (and is taken in m)")
    d = np.multiply(diameter, 1e3)
    return np.where(np.greater(diameter, _MIDDLE), 1.51 * d**-0.157, 1.24 * d**-0.107)[()]


@formula(
    "kc = 0.328 (Sut/ksi)^0.125",
    result=Symbol("kc", "-", "endurance limit in reversed torsion over that in bending, mean"),
    source=HANDBOOK,
    ultimate_strength=ULTIMATE,
)
def load_factor_of_strength(ultimate_strength: Numeric) -> Numeric:
    """
    Mean load factor in torsion by strength; the design value is the constant 0.59.

    ::

        kc = 0.328 (Sut/ksi)^0.125

    Parameters
    ----------
    ultimate_strength : float or array, Pa
        Sut.

    Returns
    -------
    float or array, -
        kc.

    Raises
    ------
    DomainError
        If ultimate_strength is not above zero anywhere.

    Notes
    -----
    The scatter of wrought steels is 0.52 to 0.69. Twenty steels tested by Nishihara and others have
    0.600 in the mean with a standard deviation of 0.043. NaN gives NaN.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 333.
       Mark: published.

    Examples
    --------
    >>> print(f"{load_factor_of_strength(945e6):.3f}")
    0.607
    """
    require_positive(ultimate_strength=ultimate_strength)
    return 0.328 * np.power(ultimate_strength / KSI, 0.125)


@formula(
    "kd = 0.975 + 0.432e-3 TF - 0.115e-5 TF^2 + 0.104e-8 TF^3 - 0.595e-12 TF^4,  TF in deg F",
    result=Symbol("kd", "-", "temperature factor"),
    source=HANDBOOK,
    temperature=Symbol("t", "K", "temperature of the part"),
)
def temperature_factor(temperature: Numeric) -> Numeric:
    """
    Strength at a temperature over that at room temperature.

    ::

        kd = 0.975 + 0.432e-3 TF - 0.115e-5 TF^2 + 0.104e-8 TF^3 - 0.595e-12 TF^4,  TF in deg F

    Parameters
    ----------
    temperature : float or array, K
        t.

    Returns
    -------
    float or array, -
        kd; slightly above 1 at a few hundred degrees.

    Raises
    ------
    DomainError
        If temperature lies outside 294 to 811 K (70 to 1000 deg F) anywhere.

    Notes
    -----
    1 where the strength at temperature itself is known and used. NaN gives NaN.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 345; the
       range from memory. Mark: published.

    Examples
    --------
    >>> print(f"{temperature_factor(423.15):.3f}")
    1.024
    """
    if np.any(np.less(temperature, _COLDEST) | np.greater(temperature, _HOTTEST)):
        raise DomainError("temperature must lie between 294 and 811 K")
    TF = 1.8 * np.asarray(temperature) - 459.67
    return (0.975 + TF * (0.432e-3 + TF * (-0.115e-5 + TF * (0.104e-8 - TF * 0.595e-12))))[()]


@formula(
    "ke = 1 - 0.08 za(R)",
    result=Symbol("ke", "-", "reliability factor"),
    source=HANDBOOK,
    reliability=Symbol("R", "-", "share of the parts that bear the limit"),
)
def reliability_factor(reliability: Numeric) -> Numeric:
    """
    Endurance limit that a given share of the parts bears, over the mean one.

    ::

        ke = 1 - 0.08 za(R)

    Parameters
    ----------
    reliability : float or array, -
        R, 0.5 or more and below 1; za is its standard normal deviate.

    Returns
    -------
    float or array, -
        ke.

    Raises
    ------
    DomainError
        If reliability is below 0.5 or not below 1, anywhere.

    Notes
    -----
    Assumes a standard deviation of 8 percent. NaN gives NaN.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 345.
       Mark: published.

    Examples
    --------
    >>> print(f"{reliability_factor(0.99):.3f}")
    0.814
    """
    if np.any(np.less(reliability, 0.5) | np.greater_equal(reliability, 1.0)):
        raise DomainError("reliability must be at least 0.5 and below 1")
    flat = [NormalDist().inv_cdf(share) for share in np.ravel(reliability)]
    return (1.0 - 0.08 * np.reshape(flat, np.shape(reliability)))[()]
