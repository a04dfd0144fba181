"""The shaft code of 1927: size of a shaft by one low allowable shear stress and shock factors."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import OLD_SHAFT_CODE
from torqcheck.capacity._symbols import MOMENT, TORQUE
from torqcheck.domain import require_positive, require_share
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula

__all__ = ["old_code_allowable_shear", "old_code_diameter"]

_SHEAR = Symbol("ta", "Pa", "allowable shear stress of the old code")


@formula(
    "ta = c min(0.30 Sy, 0.18 Sut)",
    result=_SHEAR,
    source=OLD_SHAFT_CODE,
    yield_strength=Symbol("Sy", "Pa", "yield strength in tension"),
    ultimate_strength=Symbol("Sut", "Pa", "ultimate strength in tension"),
    keyway_share=Symbol("c", "-", "1 for a plain shaft, 0.75 for a keyed one"),
)
def old_code_allowable_shear(
    yield_strength: Numeric, ultimate_strength: Numeric, keyway_share: Numeric = 1.0
) -> Numeric:
    """
    Allowable shear stress of a shaft in the old code.

    ::

        ta = c min(0.30 Sy, 0.18 Sut)

    Parameters
    ----------
    yield_strength : float or array, Pa
        Sy.
    ultimate_strength : float or array, Pa
        Sut.
    keyway_share : float or array, -, optional
        c, what a keyway leaves of the allowable stress: 1 without one, 0.75 with one (from memory).

    Returns
    -------
    float or array, Pa
        ta.

    Raises
    ------
    DomainError
        If a strength is not above zero, or keyway_share not above 0 and at most 1, anywhere.

    Notes
    -----
    An allowance for fatigue is in the figure. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] ASME code for transmission shafting, 1927, after handbooks. Mark: from memory.

    Examples
    --------
    >>> print(f"{old_code_allowable_shear(400e6, 600e6, 0.75) / 1e6:.0f} MPa")
    81 MPa
    """
    require_positive(yield_strength=yield_strength, ultimate_strength=ultimate_strength)
    require_share(keyway_share=keyway_share)
    least = np.minimum(np.multiply(0.30, yield_strength), np.multiply(0.18, ultimate_strength))
    return keyway_share * least


@formula(
    "d = ((16/(pi ta)) sqrt((Cm Mb)^2 + (Ct T)^2))^(1/3)",
    result=Symbol("d", "m", "least diameter of the solid shaft"),
    source=OLD_SHAFT_CODE,
    moment=MOMENT,
    torque=TORQUE,
    allowable_shear=_SHEAR,
    bending_shock=Symbol("Cm", "-", "shock factor of bending"),
    torsion_shock=Symbol("Ct", "-", "shock factor of torsion"),
)
def old_code_diameter(
    moment: Numeric,
    torque: Numeric,
    allowable_shear: Numeric,
    bending_shock: Numeric = 1.5,
    torsion_shock: Numeric = 1.0,
) -> Numeric:
    """
    Least diameter of a solid turning shaft by the old code.

    ::

        d = ((16/(pi ta)) sqrt((Cm Mb)^2 + (Ct T)^2))^(1/3)

    Parameters
    ----------
    moment : float or array, N m
        Mb.
    torque : float or array, N m
        T.
    allowable_shear : float or array, Pa
        ta, from ``old_code_allowable_shear``.
    bending_shock : float or array, -, optional
        Cm: 1.5 steady, 1.5 to 2 minor shock, 2 to 3 heavy shock.
    torsion_shock : float or array, -, optional
        Ct: 1 steady, 1 to 1.5 minor shock, 1.5 to 3 heavy shock.

    Returns
    -------
    float or array, m
        d.

    Raises
    ------
    DomainError
        If allowable_shear is not above zero, or a shock factor below 1, anywhere.

    Notes
    -----
    Kept for comparison with old calculations. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] ASME code for transmission shafting, 1927, after handbooks. Mark: from memory.

    Examples
    --------
    >>> print(f"{old_code_diameter(100.0, 400.0, 55e6) * 1e3:.1f} mm")
    34.1 mm
    """
    require_positive(allowable_shear=allowable_shear)
    if np.any(np.less(bending_shock, 1.0) | np.less(torsion_shock, 1.0)):
        raise DomainError("shock factors must be at least 1")
    load = np.hypot(np.multiply(bending_shock, moment), np.multiply(torsion_shock, torque))
    return np.cbrt(16.0 * load / (np.pi * np.asarray(allowable_shear)))[()]
