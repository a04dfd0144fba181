"""Torque at yield of a shaft with a hard layer on a softer core."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED
from torqcheck.capacity.torsion import elastic_torque
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula

__all__ = ["balanced_case_depth", "case_limited_torque", "core_limited_torque"]

_DIAMETER = Symbol("d", "m", "diameter of the solid shaft (root diameter of a spline)")
_CASE = Symbol("tau_case", "Pa", "yield strength in shear of the hard layer")
_CORE = Symbol("tau_core", "Pa", "yield strength in shear of the core")


@formula(
    "T = (pi d^3 / 16) tau_case",
    result=Symbol("T", "N m", "torque at which the surface yields"),
    source=DERIVED,
    diameter=_DIAMETER,
    case_shear_yield=_CASE,
)
def case_limited_torque(diameter: Numeric, case_shear_yield: Numeric) -> Numeric:
    """
    Torque at which the surface of a case-hardened solid shaft yields.

    ::

        T = (pi d^3 / 16) tau_case

    Parameters
    ----------
    diameter : float or array, m
        d, of the solid shaft; root diameter of a spline.
    case_shear_yield : float or array, Pa
        tau_case, yield strength in shear of the hard layer.

    Returns
    -------
    float or array, N m
        T. The smaller of this and ``core_limited_torque`` governs.

    Raises
    ------
    DomainError
        If diameter is not above zero or case_shear_yield is negative, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: elastic torsion of a round bar, stress at the surface. Mark: derived.

    Examples
    --------
    >>> print(f"{case_limited_torque(0.030, 966e6):.0f} N m")
    5121 N m
    """
    require_positive(diameter=diameter)
    return elastic_torque(diameter, case_shear_yield)


@formula(
    "T = (pi d^3 / 16) tau_core / (1 - 2 x/d)",
    result=Symbol("T", "N m", "torque at which the core yields under the hard layer"),
    source=DERIVED,
    diameter=_DIAMETER,
    core_shear_yield=_CORE,
    case_depth=Symbol("x", "m", "effective depth of the hard layer"),
)
def core_limited_torque(diameter: Numeric, core_shear_yield: Numeric, case_depth: Numeric) -> Numeric:
    """
    Torque at which the core of a case-hardened solid shaft yields, just under the hard layer.

    ::

        T = (pi d^3 / 16) tau_core / (1 - 2 x/d)

    Parameters
    ----------
    diameter : float or array, m
        d, of the solid shaft; root diameter of a spline.
    core_shear_yield : float or array, Pa
        tau_core, yield strength in shear of the core.
    case_depth : float or array, m
        x, effective depth of the hard layer.

    Returns
    -------
    float or array, N m
        T. The smaller of this and ``case_limited_torque`` governs.

    Raises
    ------
    DomainError
        If diameter is not above zero, core_shear_yield or case_depth is negative, or case_depth
        reaches the axis, anywhere.

    Notes
    -----
    The stress falls in a straight line from the surface to the axis; the step in strength lies at
    the effective case depth. A thin case hardly helps: 1 mm on 30 mm adds 7 percent to the yield
    torque of the core. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: elastic torsion of a round bar, stress at depth x. Mark: derived.

    Examples
    --------
    >>> print(f"{core_limited_torque(0.030, 366e6, 0.003):.0f} N m")
    2425 N m
    """
    require_positive(diameter=diameter)
    require_not_negative(case_depth=case_depth)
    if np.any(np.greater_equal(2.0 * np.asarray(case_depth), diameter)):
        raise DomainError("case_depth must end before the axis of the shaft")
    return elastic_torque(diameter, core_shear_yield) / (1.0 - 2.0 * case_depth / diameter)


@formula(
    "x/d = (1 - tau_core / tau_case) / 2",
    result=Symbol("x/d", "-", "case depth over diameter at which both yield together"),
    source=DERIVED,
    core_shear_yield=_CORE,
    case_shear_yield=_CASE,
)
def balanced_case_depth(core_shear_yield: Numeric, case_shear_yield: Numeric) -> Numeric:
    """
    Case depth, as a share of the diameter, at which surface and core yield at the same torque.

    ::

        x/d = (1 - tau_core / tau_case) / 2

    Parameters
    ----------
    core_shear_yield : float or array, Pa
        tau_core, yield strength in shear of the core.
    case_shear_yield : float or array, Pa
        tau_case, yield strength in shear of the hard layer.

    Returns
    -------
    float or array, -
        x/d; a deeper layer brings no more static torque.

    Raises
    ------
    DomainError
        If case_shear_yield is not above zero, core_shear_yield is negative or above
        case_shear_yield, anywhere.

    Notes
    -----
    Agrees with a finite element study of hardened splines (Materials and Design 54, 2014, 130),
    which has the highest static strength with the layer at half the radius, x/d = 0.25.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: both torques of this module set equal. Mark: derived.

    Examples
    --------
    >>> print(f"{balanced_case_depth(366e6, 966e6):.3f}")
    0.311
    """
    require_positive(case_shear_yield=case_shear_yield)
    require_not_negative(core_shear_yield=core_shear_yield)
    if np.any(np.greater(core_shear_yield, case_shear_yield)):
        raise DomainError("core_shear_yield must not be above case_shear_yield")
    return 0.5 * (1.0 - core_shear_yield / case_shear_yield)
