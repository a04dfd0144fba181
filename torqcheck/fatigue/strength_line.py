"""The line of strength against life (S-N), in three pieces: up to 1e3, to 1e6, and below the limit."""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import HANDBOOK, HANDBOOK_MEMORY, LECTURES
from torqcheck.fatigue._symbols import AMPLITUDE, COEFFICIENT, ENDURANCE, EXPONENT, LOW_CYCLE, ULTIMATE
from torqcheck.fatigue.endurance import KSI, bending_limit
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = [
    "LIFE_AT_LIMIT",
    "LOW_CYCLE_LIFE",
    "BelowLimit",
    "StrengthLine",
    "amplitude_on_line",
    "life_below_limit",
    "life_on_line",
    "line_coefficient",
    "line_exponent",
    "low_cycle_exponent",
    "strength_fraction",
    "strength_fraction_11th",
]

LOW_CYCLE_LIFE = 1e3
"""Cycles at which the line begins."""
LIFE_AT_LIMIT = 1e6
"""Cycles at which it reaches the endurance limit."""

BelowLimit = Literal["infinite", "elementary", "haibach"]
"""What amplitudes below the limit do: nothing, as the line carried on, or as a line half as steep."""

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
    "S = a N^b",
    result=AMPLITUDE,
    source=HANDBOOK,
    life=Symbol("N", "-", "cycles to failure"),
    coefficient=COEFFICIENT,
    exponent=EXPONENT,
)
def amplitude_on_line(life: Numeric, coefficient: Numeric, exponent: Numeric) -> Numeric:
    """
    Reversed amplitude that is borne for a number of cycles, on the line between 1e3 and 1e6.

    ::

        S = a N^b

    Parameters
    ----------
    life : float or array, -
        N.
    coefficient : float or array, Pa
        a.
    exponent : float or array, -
        b, negative.

    Returns
    -------
    float or array, Pa
        S.

    Raises
    ------
    DomainError
        If life or coefficient is not above zero, or exponent not below zero, anywhere.

    Notes
    -----
    The line is carried on beyond both ends; ``StrengthLine`` knows where it ends.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 286.
       Mark: published.

    Examples
    --------
    >>> print(f"{amplitude_on_line(1e4, 133.1, -0.0785):.1f} ksi")
    64.6 ksi
    """
    require_positive(life=life, coefficient=coefficient)
    if np.any(np.greater_equal(exponent, 0.0)):
        raise DomainError("exponent must be below zero")
    return coefficient * np.power(life, exponent)


@formula(
    "N = (S/a)^(1/b)",
    result=Symbol("N", "-", "cycles to failure"),
    source=HANDBOOK,
    amplitude=AMPLITUDE,
    coefficient=COEFFICIENT,
    exponent=EXPONENT,
)
def life_on_line(amplitude: Numeric, coefficient: Numeric, exponent: Numeric) -> Numeric:
    """
    Cycles to failure at a reversed amplitude, on the line between 1e3 and 1e6.

    ::

        N = (S/a)^(1/b)

    Parameters
    ----------
    amplitude : float or array, Pa
        S, fully reversed, the notch factor on it.
    coefficient : float or array, Pa
        a.
    exponent : float or array, -
        b, negative.

    Returns
    -------
    float or array, -
        N; infinite at no amplitude.

    Raises
    ------
    DomainError
        If amplitude is negative, coefficient not above zero, or exponent not below zero, anywhere.

    Notes
    -----
    The line is carried on beyond both ends; ``StrengthLine`` knows where it ends.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 286.
       Mark: published.

    Examples
    --------
    >>> print(f"{life_on_line(55.0, 133.128, line_exponent(77.4, 45.0)):.0f}")
    77614
    """
    require_not_negative(amplitude=amplitude)
    require_positive(coefficient=coefficient)
    if np.any(np.greater_equal(exponent, 0.0)):
        raise DomainError("exponent must be below zero")
    ratio = np.divide(amplitude, coefficient)
    some = np.where(np.equal(ratio, 0.0), 1.0, ratio)
    # an amplitude far below the line has a life that no float can hold: infinite
    with np.errstate(over="ignore"):
        return np.where(np.equal(ratio, 0.0), np.inf, np.power(some, np.divide(1.0, exponent)))[()]


@formula(
    "N = 1e6 (Se/S)^(-2/b - 1)",
    result=Symbol("N", "-", "cycles to failure"),
    source=LECTURES,
    amplitude=AMPLITUDE,
    endurance_limit=ENDURANCE,
    exponent=EXPONENT,
)
def life_below_limit(amplitude: Numeric, endurance_limit: Numeric, exponent: Numeric) -> Numeric:
    """
    Life at an amplitude below the limit, when larger ones in between have started cracks (Haibach).

    ::

        N = 1e6 (Se/S)^(-2/b - 1)

    Parameters
    ----------
    amplitude : float or array, Pa
        S, fully reversed.
    endurance_limit : float or array, Pa
        Se of the part.
    exponent : float or array, -
        b of the line above the limit, negative.

    Returns
    -------
    float or array, -
        N; infinite at no amplitude.

    Raises
    ------
    DomainError
        If amplitude is negative, endurance_limit not above zero, or exponent not in -1 to 0,
        anywhere.

    Notes
    -----
    The slope m = -1/b becomes 2 m - 1. Meant for mixed loads; a load that never exceeds the limit
    may live for ever. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] E. Haibach, on the modified damage sum. Mark: from memory.

    Examples
    --------
    >>> print(f"{life_below_limit(100e6, 143.5e6, -0.1837):.3g}")
    3.56e+07
    """
    require_not_negative(amplitude=amplitude)
    require_positive(endurance_limit=endurance_limit)
    if np.any(np.greater_equal(exponent, 0.0) | np.less_equal(exponent, -1.0)):
        raise DomainError("exponent must lie between -1 and 0")
    ratio = np.divide(amplitude, endurance_limit)
    some = np.where(np.equal(ratio, 0.0), 1.0, ratio)
    with np.errstate(over="ignore"):
        lives = LIFE_AT_LIMIT * np.power(some, np.divide(2.0, exponent) + 1.0)
    return np.where(np.equal(ratio, 0.0), np.inf, lives)[()]


@formula(
    "c = log10(S3/Su) / 3",
    result=Symbol("c", "-", "exponent of the line S = Su N^c up to 1e3 cycles"),
    source=HANDBOOK_MEMORY,
    low_cycle_strength=LOW_CYCLE,
    strength=Symbol("S", "Pa", "ultimate strength, Sut or Ssu"),
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


@dataclass(frozen=True, slots=True)
class StrengthLine:
    """
    Strength against life of one part: ultimate at one cycle, S3 at 1e3, the limit at 1e6. Pa.

    Scalars or arrays that broadcast.
    """

    ultimate: Numeric
    low_cycle: Numeric
    limit: Numeric

    @property
    def coefficient(self) -> Numeric:
        """The a of S = a N^b."""
        return line_coefficient(self.low_cycle, self.limit)

    @property
    def exponent(self) -> Numeric:
        """The b of S = a N^b."""
        return line_exponent(self.low_cycle, self.limit)

    def life(self, amplitude: Numeric, below: BelowLimit = "haibach") -> Numeric:
        """
        Cycles to failure at a fully reversed amplitude.

        Parameters
        ----------
        amplitude : float or array, Pa
            Equivalent reversed amplitude; may be infinite where the mean alone breaks the part.
        below : str, optional
            What amplitudes below the limit do: ``infinite`` nothing, ``elementary`` as the line
            carried on, ``haibach`` as a line of slope 2 m - 1.

        Returns
        -------
        float or array, -
            Cycles, at least 1; infinite where nothing is done.

        Raises
        ------
        DomainError
            If amplitude is negative, or below is none of the three words.
        """
        if below not in ("infinite", "elementary", "haibach"):
            raise DomainError("below must be one of infinite, elementary, haibach")
        require_not_negative(amplitude=amplitude)
        S = np.minimum(amplitude, self.ultimate)
        lives = life_on_line(S, self.coefficient, self.exponent)
        if below == "haibach":
            under = life_below_limit(np.minimum(S, self.limit), self.limit, self.exponent)
        else:
            under = np.full(np.shape(S), np.inf) if below == "infinite" else lives
        slow = low_cycle_exponent(self.low_cycle, self.ultimate)
        few = np.power(np.maximum(S, self.low_cycle) / self.ultimate, np.divide(1.0, slow))
        lives = np.where(np.less(S, self.limit), under, np.where(np.greater(S, self.low_cycle), few, lives))
        return np.where(np.isnan(S), np.nan, lives)[()]

    def amplitude(self, life: Numeric, below: BelowLimit = "haibach") -> Numeric:
        """
        Fully reversed amplitude that is borne for a number of cycles; the inverse of ``life``.

        Parameters
        ----------
        life : float or array, -
            Cycles; below 1 counts as 1.
        below : str, optional
            As in ``life``; with ``infinite`` the limit is borne for ever.

        Returns
        -------
        float or array, Pa
            Amplitude.

        Raises
        ------
        DomainError
            If life is not above zero, or below is none of the three words.
        """
        if below not in ("infinite", "elementary", "haibach"):
            raise DomainError("below must be one of infinite, elementary, haibach")
        require_positive(life=life)
        N = np.maximum(life, 1.0)
        line = amplitude_on_line(N, self.coefficient, self.exponent)
        slow = low_cycle_exponent(self.low_cycle, self.ultimate)
        few = self.ultimate * np.power(np.minimum(N, LOW_CYCLE_LIFE), slow)
        if below == "haibach":
            flat = np.divide(1.0, np.divide(2.0, self.exponent) + 1.0)
            under = self.limit * np.power(np.maximum(N, LIFE_AT_LIMIT) / LIFE_AT_LIMIT, flat)
        else:
            under = line if below == "elementary" else np.broadcast_to(self.limit, np.shape(line))
        middle = np.where(np.less(N, LOW_CYCLE_LIFE), few, line)
        return np.where(np.greater(N, LIFE_AT_LIMIT), under, middle)[()]
