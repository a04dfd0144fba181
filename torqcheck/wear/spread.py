"""
Spread of a wear life: lognormal sigmas, how they add, and the percentiles that follow.

The sigmas are assumed, set from the scatter of published wear tests between laboratories.
"""

from dataclasses import dataclass
from statistics import NormalDist

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = [
    "COEFFICIENT_SIGMA_OWN",
    "COEFFICIENT_SIGMA_UNKNOWN",
    "LIMIT_SIGMA",
    "LOAD_SIGMA",
    "SLIP_SIGMA_ASSUMED",
    "SLIP_SIGMA_MEASURED",
    "Percentiles",
    "combined_sigma",
    "lognormal_percentiles",
    "sigma_from_variation",
]

COEFFICIENT_SIGMA_OWN = 0.40
"""Of the wear coefficient, once wear of this joint with this lubricant was measured."""

COEFFICIENT_SIGMA_UNKNOWN = 2.30
"""Of the wear coefficient if the lubrication is not known: spans the classes."""

SLIP_SIGMA_MEASURED = 0.5
"""Of the slip, if the alignment was measured."""

SLIP_SIGMA_ASSUMED = 1.0
"""Of the slip, if the alignment was assumed."""

LOAD_SIGMA = 0.4
"""Of the pressure: load history, sharing, and where in the turn load and slip meet."""

LIMIT_SIGMA = 0.2
"""Of the worn depth at which a limit is really reached."""

_TENTH = NormalDist().inv_cdf(0.9)  # 1.2816


@dataclass(frozen=True, slots=True)
class Percentiles:
    """Tenth, fiftieth and ninetieth percentile of a life; a tenth of such joints ends before p10."""

    p10: Numeric
    p50: Numeric
    p90: Numeric


@formula(
    "S = sqrt(sum(s_i^2))",
    result=Symbol("S", "-", "sigma of the logarithm of the life"),
    source=Source("Derived: logarithms of independent factors add", "", "derived"),
    sigmas=Symbol("s_i", "-", "sigma of the logarithm of each factor"),
)
def combined_sigma(*sigmas: Numeric) -> Numeric:
    """
    Sigma of the logarithm of a life that is a product of independent lognormal factors.

    ::

        S = sqrt(sum(s_i^2))

    Parameters
    ----------
    sigmas : float or array, -
        s_i, one argument for each of coefficient, slip, load and limit.

    Returns
    -------
    float or array, -
        S.

    Raises
    ------
    DomainError
        If no sigma is given, or one is negative anywhere.

    Notes
    -----
    Above 1.5 a life is good for ranking only. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived. That wear coefficients are lognormal: abstract of F. S. Qureshi and
       A. K. Sheikh, IEEE Transactions on Reliability 46, 1997, 38. Mark: published.

    Examples
    --------
    >>> print(f"{combined_sigma(0.857, 0.5, 0.3):.4f}")
    1.0366
    """
    if not sigmas:
        raise DomainError("combined_sigma needs at least one sigma")
    total: Numeric = 0.0
    for sigma in sigmas:
        require_not_negative(sigma=sigma)
        total = total + np.square(sigma)
    return np.sqrt(total)


@formula(
    "s = sqrt(ln(1 + CV^2))",
    result=Symbol("s", "-", "sigma of the logarithm"),
    source=Source("Derived: moments of the lognormal distribution", "", "derived"),
    variation=Symbol("CV", "-", "standard deviation over mean"),
)
def sigma_from_variation(variation: Numeric) -> Numeric:
    """
    Sigma of the logarithm from a coefficient of variation, as test reports give it.

    ::

        s = sqrt(ln(1 + CV^2))

    Parameters
    ----------
    variation : float or array, -
        CV, standard deviation over mean.

    Returns
    -------
    float or array, -
        s.

    Raises
    ------
    DomainError
        If variation is negative anywhere.

    Notes
    -----
    NaN gives NaN.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{sigma_from_variation(0.6):.3f}")
    0.555
    """
    require_not_negative(variation=variation)
    return np.sqrt(np.log1p(np.square(variation)))


@formula(
    "N10 = N50 exp(-1.2816 S),  N90 = N50 exp(+1.2816 S)",
    result=Symbol("N10, N50, N90", "h", "percentiles of the life"),
    source=Source("Derived: quantiles of the lognormal distribution", "", "derived"),
    median=Symbol("N50", "h", "median life"),
    sigma=Symbol("S", "-", "sigma of the logarithm of the life"),
)
def lognormal_percentiles(median: Numeric, sigma: Numeric) -> Percentiles:
    """
    Percentiles of a lognormal life.

    ::

        N10 = N50 exp(-1.2816 S),  N90 = N50 exp(+1.2816 S)

    Parameters
    ----------
    median : float or array, h
        N50, median life; any other unit of life comes back unchanged.
    sigma : float or array, -
        S, from ``combined_sigma``.

    Returns
    -------
    Percentiles
        p10, p50 and p90 in the unit of the median.

    Raises
    ------
    DomainError
        If median is not above zero, or sigma is negative, anywhere.

    Notes
    -----
    For one limit and one phase. Several limits, or grease that ends, need draws: see
    ``life_draws``. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> life = lognormal_percentiles(1033.7, 1.0366)
    >>> print(f"{life.p10:.1f} {life.p90:.0f}")
    273.8 3902
    """
    require_positive(median=median)
    require_not_negative(sigma=sigma)
    factor = np.exp(_TENTH * np.asarray(sigma, dtype=np.float64))
    return Percentiles(median / factor, median, median * factor)
