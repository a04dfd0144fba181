"""Constants of the strength line: share of the ultimate strength at 1e3 cycles, coefficient, exponents."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_positive
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import HANDBOOK, HANDBOOK_MEMORY
from torqcheck.fatigue._symbols import COEFFICIENT, ENDURANCE, EXPONENT, LOW_CYCLE, ULTIMATE
from torqcheck.fatigue.endurance import KSI, bending_limit
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = [
    "line_coefficient",
    "line_exponent",
    "low_cycle_exponent",
    "strength_fraction",
    "strength_fraction_11th",
]

_CHART_BEGINS, _CHART_ENDS = 70.0 * KSI, 1400e6
_SOFT_FRACTION = 0.9


@formula(
    "f = min(0.9, ((Sut + 50 ksi)/Sut) 2000^bb),  bb = -log10((Sut + 50 ksi)/Se') / log10(2e6)",
    result=Symbol("f", "-", "amplitude at 1000 cycles over ultimate strength"),
    source=HANDBOOK_MEMORY,
    ultimate_strength=ULTIMATE,
)
def strength_fraction(ultimate_strength: Numeric) -> Numeric:
    """
    Share of the ultimate strength that is borne for 1000 reversed cycles.

    ::

        f = min(0.9, ((Sut + 50 ksi)/Sut) 2000^bb),  bb = -log10((Sut + 50 ksi)/Se') / log10(2e6)

    Parameters
    ----------
    ultimate_strength : float or array, Pa
        Sut.

    Returns
    -------
    float or array, -
        f; the same for tension and, as f Ssu, for torsion.

    Raises
    ------
    DomainError
        If ultimate_strength is not above zero anywhere.

    Notes
    -----
    The chart that this formula draws [1]_ gives 0.86, 0.82 and 0.795 at 90, 120 and 151 ksi (read),
    the formula 0.858, 0.821 and 0.797. The chart ends at 1400 MPa; above it f is held, which agrees
    with 0.77 used for 1600 MPa in a solution that was read. Other books use 1e3 and 1e6 in place of
    2e3 and 2e6: not to be mixed. NaN gives NaN.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, chapter 6;
       the formula behind the chart. Mark: from memory.

    Examples
    --------
    >>> print(f"{strength_fraction(945e6):.5f}")
    0.80650
    """
    require_positive(ultimate_strength=ultimate_strength)
    Sut = np.minimum(ultimate_strength, _CHART_ENDS)
    true_strength = Sut + 50.0 * KSI
    bb = -np.log10(true_strength / bending_limit(Sut)) / np.log10(2e6)
    f: Numeric = np.minimum(_SOFT_FRACTION, true_strength / Sut * 2000.0**bb)
    return f


@formula(
    "f = min(0.9, 1.06 - 2.8e-3 Su + 6.9e-6 Su^2),  Su in ksi",
    result=Symbol("f", "-", "amplitude at 1000 cycles over ultimate strength"),
    source=Source("Budynas and Nisbett, Mechanical Engineering Design, 11th ed.", "", "from memory"),
    ultimate_strength=ULTIMATE,
)
def strength_fraction_11th(ultimate_strength: Numeric) -> Numeric:
    """
    Share of the ultimate strength borne for 1000 cycles, by the polynomial of the 11th edition.

    ::

        f = min(0.9, 1.06 - 2.8e-3 Su + 6.9e-6 Su^2),  Su in ksi

    Parameters
    ----------
    ultimate_strength : float or array, Pa
        Sut.

    Returns
    -------
    float or array, -
        f.

    Raises
    ------
    DomainError
        If ultimate_strength is not above zero anywhere.

    Notes
    -----
    Held at both ends of the chart, 70 and 203 ksi. NaN gives NaN.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 11th ed. Mark: from memory.

    Examples
    --------
    >>> print(f"{strength_fraction_11th(120 * KSI):.3f}")
    0.823
    """
    require_positive(ultimate_strength=ultimate_strength)
    Su = np.minimum(ultimate_strength, _CHART_ENDS) / KSI
    f = np.where(
        np.less(ultimate_strength, _CHART_BEGINS), _SOFT_FRACTION, 1.06 - 2.8e-3 * Su + 6.9e-6 * Su**2
    )
    return np.minimum(_SOFT_FRACTION, f)[()]


@formula(
    "a = S3^2 / Se",
    result=COEFFICIENT,
    source=HANDBOOK,
    low_cycle_strength=LOW_CYCLE,
    endurance_limit=ENDURANCE,
)
def line_coefficient(low_cycle_strength: Numeric, endurance_limit: Numeric) -> Numeric:
    """
    Coefficient of the line S = a N^b through S3 at 1e3 and Se at 1e6 cycles.

    ::

        a = S3^2 / Se

    Parameters
    ----------
    low_cycle_strength : float or array, Pa
        S3, f Sut or f Ssu.
    endurance_limit : float or array, Pa
        Se of the part.

    Returns
    -------
    float or array, Pa
        a.

    Raises
    ------
    DomainError
        If either is not above zero anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, chapter 6.
       Mark: published.

    Examples
    --------
    >>> print(f"{line_coefficient(0.86 * 90.0, 45.0):.1f} ksi")
    133.1 ksi
    """
    require_positive(low_cycle_strength=low_cycle_strength, endurance_limit=endurance_limit)
    return np.square(low_cycle_strength) / endurance_limit


@formula(
    "b = -log10(S3/Se) / 3",
    result=EXPONENT,
    source=HANDBOOK,
    low_cycle_strength=LOW_CYCLE,
    endurance_limit=ENDURANCE,
)
def line_exponent(low_cycle_strength: Numeric, endurance_limit: Numeric) -> Numeric:
    """
    Exponent of the line S = a N^b through S3 at 1e3 and Se at 1e6 cycles.

    ::

        b = -log10(S3/Se) / 3

    Parameters
    ----------
    low_cycle_strength : float or array, Pa
        S3, f Sut or f Ssu.
    endurance_limit : float or array, Pa
        Se of the part.

    Returns
    -------
    float or array, -
        b, negative.

    Raises
    ------
    DomainError
        If either is not above zero, or S3 is not above Se, anywhere.

    Notes
    -----
    A life is very sensitive to b: 0.001 more or less moves it by some 14 percent.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, chapter 6.
       Mark: published.

    Examples
    --------
    >>> print(f"{line_exponent(0.86 * 90.0, 45.0):.4f}")
    -0.0785
    """
    require_positive(low_cycle_strength=low_cycle_strength, endurance_limit=endurance_limit)
    if np.any(np.less_equal(low_cycle_strength, endurance_limit)):
        raise DomainError("low_cycle_strength must be above endurance_limit")
    return -np.log10(np.divide(low_cycle_strength, endurance_limit)) / 3.0


@formula(
    "c = log10(S3/Su) / 3",
    result=Symbol("c", "-", "exponent of the line S = Su N^c up to 1e3 cycles"),
    source=HANDBOOK_MEMORY,
    low_cycle_strength=LOW_CYCLE,
    strength=Symbol("Su", "Pa", "ultimate strength, Sut or Ssu"),
)
def low_cycle_exponent(low_cycle_strength: Numeric, strength: Numeric) -> Numeric:
    """
    Exponent of the line from the ultimate strength at one cycle to S3 at 1e3.

    ::

        c = log10(S3/Su) / 3

    Parameters
    ----------
    low_cycle_strength : float or array, Pa
        S3, f Sut or f Ssu.
    strength : float or array, Pa
        Su, the ultimate strength of the same kind.

    Returns
    -------
    float or array, -
        c, negative.

    Raises
    ------
    DomainError
        If either is not above zero, or S3 is not below Su, anywhere.

    Notes
    -----
    Flatter than the line above 1e3 cycles; carrying that one on would promise too much here.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, chapter 6.
       Mark: from memory.

    Examples
    --------
    >>> print(f"{low_cycle_exponent(0.9, 1.0):.4f}")
    -0.0153
    """
    require_positive(low_cycle_strength=low_cycle_strength, strength=strength)
    if np.any(np.greater_equal(low_cycle_strength, strength)):
        raise DomainError("low_cycle_strength must be below the ultimate strength")
    return np.log10(np.divide(low_cycle_strength, strength)) / 3.0
