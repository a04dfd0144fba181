"""Wear coefficients: units, the two conventions of the dimensionless one, and hardness."""

from typing import Literal, get_args

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source
from torqcheck.wear._symbols import ARCHARD, COEFFICIENT, PRESSURE

__all__ = [
    "CUBIC_MILLIMETRE_PER_NEWTON_METRE",
    "HARD_FLANK_VICKERS",
    "KILOGRAM_FORCE_PER_SQUARE_MILLIMETRE",
    "Convention",
    "hardness_scale",
    "implied_wear_coefficient",
    "wear_coefficient_from_hardness",
]

Convention = Literal["K over H", "K over 3 H"]

CUBIC_MILLIMETRE_PER_NEWTON_METRE = 1e-9
"""m2/N in one mm3/(N m)."""

KILOGRAM_FORCE_PER_SQUARE_MILLIMETRE = 9.80665e6
"""Pa in one unit of Vickers or Brinell hardness."""

HARD_FLANK_VICKERS = 697.0
"""
Vickers hardness of 60 HRC, for which the wear coefficients of the lubrication classes hold; hardness
conversion of non-austenitic steel, from memory.
"""

_DIVISOR = {"K over H": 1.0, "K over 3 H": 3.0}


@formula(
    "k = K / (c H)",
    result=COEFFICIENT,
    source=ARCHARD,
    dimensionless=Symbol("K", "-", "dimensionless wear coefficient"),
    hardness=Symbol("H", "Pa", "hardness of the wearing body"),
    convention=Symbol("c", "-", "1 or 3, by the convention in which K is given"),
)
def wear_coefficient_from_hardness(
    dimensionless: Numeric, hardness: Numeric, *, convention: Convention
) -> Numeric:
    """
    Wear coefficient of one body from a dimensionless one and the hardness.

    ::

        k = K / (c H)          c = 1 for "K over H", 3 for "K over 3 H"

    Parameters
    ----------
    dimensionless : float or array, -
        K.
    hardness : float or array, Pa
        H; a Vickers or Brinell number times ``KILOGRAM_FORCE_PER_SQUARE_MILLIMETRE``.
    convention : str, -
        "K over H" (V = K F s / H, after Archard and Hirst) or "K over 3 H" (V = K F s / (3 H), after
        Rabinowicz). It has no default: tables print K without saying which, and they differ by 3.

    Returns
    -------
    float or array, m2/N
        k, volume worn from one body per load and path.

    Raises
    ------
    DomainError
        If dimensionless is negative, hardness is not above zero, or convention is neither.

    Notes
    -----
    A well-read encyclopedia page prints the list of Archard and Hirst beside the formula with
    the 3, although the list was defined without it (from memory).
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] J. F. Archard and W. Hirst, Proceedings of the Royal Society A 236, 1956, 397. Mark: from
       memory.

    Examples
    --------
    >>> hard = 850 * KILOGRAM_FORCE_PER_SQUARE_MILLIMETRE
    >>> k = wear_coefficient_from_hardness(1.3e-4, hard, convention="K over H")
    >>> print(f"{k / CUBIC_MILLIMETRE_PER_NEWTON_METRE:.3e} mm3/(N m)")
    1.560e-05 mm3/(N m)
    """
    require_not_negative(dimensionless=dimensionless)
    require_positive(hardness=hardness)
    if convention not in _DIVISOR:
        raise DomainError(f"convention must be one of {', '.join(get_args(Convention))}")
    return dimensionless / (_DIVISOR[convention] * hardness)


@formula(
    "f = max(1, 697 / HV)",
    result=Symbol("f", "-", "wear coefficient over that of a flank of 60 HRC"),
    source=ARCHARD,
    hardness_vickers=Symbol("HV", "-", "Vickers hardness of the flank"),
)
def hardness_scale(hardness_vickers: Numeric) -> Numeric:
    """
    Factor by which a flank softer than 60 HRC wears faster, at least.

    ::

        f = max(1, 697 / HV)

    Parameters
    ----------
    hardness_vickers : float or array, -
        HV, Vickers hardness of the flank.

    Returns
    -------
    float or array, -
        f, never below 1: harder than 60 HRC is given no credit.

    Raises
    ------
    DomainError
        If hardness_vickers is not above zero anywhere.

    Notes
    -----
    From the law, by which wear goes with 1/H at a fixed dimensionless coefficient. A lower bound:
    unhardened steel in dry contact may be worse by another order. In one pump drive the change from
    60 to 35 HRC together with a shorter engagement, grease once and runout cost more than a factor
    3.3 in life, where hardness alone explains 2. NaN gives NaN.

    References
    ----------
    .. [1] J. F. Archard and W. Hirst, Proceedings of the Royal Society A 236, 1956, 397; 697 HV for
       60 HRC. Mark: from memory.

    Examples
    --------
    >>> print(f"{hardness_scale(345.0):.2f}")
    2.02
    """
    require_positive(hardness_vickers=hardness_vickers)
    return np.maximum(1.0, HARD_FLANK_VICKERS / hardness_vickers)


@formula(
    "k = h / (p s1 n)",
    result=COEFFICIENT,
    source=Source("Derived from the linear wear law", "", "derived"),
    depth=Symbol("h", "m", "worn depth, normal to the flank"),
    pressure=PRESSURE,
    path_per_revolution=Symbol("s1", "m", "slip path per revolution"),
    revolutions=Symbol("n", "-", "revolutions"),
)
def implied_wear_coefficient(
    depth: Numeric, pressure: Numeric, path_per_revolution: Numeric, revolutions: Numeric
) -> Numeric:
    """
    Wear coefficient that a worn depth after a number of revolutions amounts to.

    ::

        k = h / (p s1 n)

    Parameters
    ----------
    depth : float or array, m
        h, worn depth, normal to the flank.
    pressure : float or array, Pa
        p, mean pressure on the flank.
    path_per_revolution : float or array, m
        s1, slip path per revolution.
    revolutions : float or array, -
        n.

    Returns
    -------
    float or array, m2/N
        k, of the one body whose depth is given.

    Raises
    ------
    DomainError
        If depth is negative, or another argument is not above zero, anywhere.

    Notes
    -----
    For two uses: to learn the coefficient of a joint from an inspection, and to see what the
    spline guide's wear-life factor tacitly assumes, by giving it the revolutions and the
    pressure that the guide allows. The guide then implies dry wear at 1e4 revolutions
    and near-film lubrication at 1e10: the two rest on different models.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: the linear wear law turned round. Mark: derived.

    Examples
    --------
    >>> k = implied_wear_coefficient(0.25e-3, 34.5e6, 4 * 0.020 * 1e-3, 1e8)
    >>> print(f"{k / CUBIC_MILLIMETRE_PER_NEWTON_METRE:.1e} mm3/(N m)")
    9.1e-07 mm3/(N m)
    """
    require_not_negative(depth=depth)
    require_positive(pressure=pressure, path_per_revolution=path_per_revolution, revolutions=revolutions)
    return depth / (pressure * path_per_revolution * revolutions)
