"""The line of strength against life (S-N), in three pieces: up to 1e3, to 1e6, and below the limit."""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import HANDBOOK
from torqcheck.fatigue._symbols import AMPLITUDE, COEFFICIENT, EXPONENT
from torqcheck.fatigue.beyond_the_line import (
    LIFE_AT_LIMIT,
    amplitude_below_limit,
    amplitude_of_few_cycles,
    life_below_limit,
)
from torqcheck.fatigue.strength_line_constants import line_coefficient, line_exponent, low_cycle_exponent
from torqcheck.formulas import Symbol, formula

__all__ = [
    "LOW_CYCLE_LIFE",
    "BelowLimit",
    "StrengthLine",
    "amplitude_on_line",
    "life_on_line",
]

LOW_CYCLE_LIFE = 1e3
"""Cycles at which the line begins."""
BelowLimit = Literal["infinite", "elementary", "haibach"]
"""What amplitudes below the limit do: nothing, as the line carried on, or as a line half as steep."""


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
        few = amplitude_of_few_cycles(np.minimum(N, LOW_CYCLE_LIFE), self.ultimate, slow)
        if below == "haibach":
            under = amplitude_below_limit(np.maximum(N, LIFE_AT_LIMIT), self.limit, self.exponent)
        else:
            under = line if below == "elementary" else np.broadcast_to(self.limit, np.shape(line))
        middle = np.where(np.less(N, LOW_CYCLE_LIFE), few, line)
        return np.where(np.greater(N, LIFE_AT_LIMIT), under, middle)[()]
