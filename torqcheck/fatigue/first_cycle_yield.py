"""Yield in the first cycle of a notched shaft in bending and torsion."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_positive, require_tube
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import HANDBOOK_YIELD
from torqcheck.fatigue._symbols import BENDING_NOTCH, BORE, SECTION, TENSILE_YIELD, TORSION_NOTCH
from torqcheck.formulas import Symbol, formula

__all__ = ["first_cycle_yield_factor"]


@formula(
    "n = Sy/sqrt((32 Kf M/(pi d^3 c))^2 + 3 (16 Kfs T/(pi d^3 c))^2)",
    result=Symbol("n", "-", "safety factor against yield"),
    source=HANDBOOK_YIELD,
    moment=Symbol("M", "N m", "largest bending moment, mean plus alternating"),
    torque=Symbol("T", "N m", "largest torque, mean plus alternating"),
    diameter=SECTION,
    yield_strength=TENSILE_YIELD,
    bore=BORE,
    bending_notch_factor=BENDING_NOTCH,
    torsion_notch_factor=TORSION_NOTCH,
)
def first_cycle_yield_factor(
    moment: Numeric,
    torque: Numeric,
    diameter: Numeric,
    yield_strength: Numeric,
    bore: Numeric = 0.0,
    bending_notch_factor: Numeric = 1.0,
    torsion_notch_factor: Numeric = 1.0,
) -> Numeric:
    """
    Safety factor against yield of a notched shaft under its largest load.

    ::

        n = Sy/sqrt((32 Kf M/(pi d^3 c))^2 + 3 (16 Kfs T/(pi d^3 c))^2)
        c = 1 - (di/d)^4

    Parameters
    ----------
    moment : float or array, N m
        M. The sign is ignored.
    torque : float or array, N m
        T. The sign is ignored.
    diameter : float or array, m
        d.
    yield_strength : float or array, Pa
        Sy.
    bore : float or array, m, optional
        di, diameter of a concentric hole; 0 for a solid shaft.
    bending_notch_factor : float or array, -, optional
        Kf; 1 for yield of the whole section.
    torsion_notch_factor : float or array, -, optional
        Kfs; 1 for yield of the whole section.

    Returns
    -------
    float or array, -
        n; infinite without load.

    Raises
    ------
    DomainError
        If there is no wall, yield_strength is not above zero, or a notch factor below 1, anywhere.

    Notes
    -----
    With the notch factors it sees the first yield at the root of the notch, which a ductile steel
    bears without harm to the section.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Budynas and Nisbett, Mechanical Engineering Design, eqs 7-15 and 7-16. Mark: from memory.

    Examples
    --------
    >>> factor = first_cycle_yield_factor(142.4, 124.3, 0.02794, 565e6, 0.0, 1.58, 1.39)
    >>> print(f"{factor:.2f}")
    4.48
    """
    require_tube(diameter, bore)
    require_positive(yield_strength=yield_strength)
    if np.any(np.less(bending_notch_factor, 1.0) | np.less(torsion_notch_factor, 1.0)):
        raise DomainError("notch factors must be at least 1")
    section = np.pi / 16.0 * (diameter**4 - bore**4) / diameter
    bending = 2.0 * np.multiply(bending_notch_factor, moment)
    load = np.asarray(np.hypot(bending, np.sqrt(3.0) * np.multiply(torsion_notch_factor, torque)))
    some = np.where(np.equal(load, 0.0), 1.0, load)
    return np.where(np.equal(load, 0.0), np.inf, yield_strength * section / some)[()]
