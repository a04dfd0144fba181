"""How torque passes from shaft to hub along the engagement: two twisting rods on a bed of springs.

For tooth stress, wear and stiffness. Not to be multiplied into the guide's stresses, whose
allowables hold it already.
"""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED
from torqcheck.domain import require_not_negative, require_positive, require_share
from torqcheck.formulas import Symbol, formula

__all__ = [
    "effective_length_same_side",
    "lag_parameter",
    "leaving_end_factor",
    "opposite_side_factor",
    "same_side_factor",
]

_SMALL = 1e-8  # below it the limits are exact to the last bit
_LAG = Symbol("B", "-", "lag parameter")


@formula(
    "B = sqrt(K (1/ks + 1/kh))",
    result=_LAG,
    source=DERIVED,
    mesh_stiffness=Symbol("K", "N m/rad", "torsional stiffness of the mesh, load even along it"),
    shaft_stiffness=Symbol("ks", "N m/rad", "stiffness of the shaft over the engagement, GJs/L"),
    hub_stiffness=Symbol("kh", "N m/rad", "stiffness of the hub over the engagement, GJh/L"),
)
def lag_parameter(mesh_stiffness: Numeric, shaft_stiffness: Numeric, hub_stiffness: Numeric) -> Numeric:
    """
    Lag parameter of an engagement: how much stiffer the teeth are than the shaft and hub between them.

    ::

        B = sqrt(K (1/ks + 1/kh))          = L sqrt(k (1/GJs + 1/GJh)), k = K/L per length

    Parameters
    ----------
    mesh_stiffness : float or array, N m/rad
        K, of all teeth over the whole engagement, as if the load were even along it.
    shaft_stiffness : float or array, N m/rad
        ks, of the shaft over the length of engagement.
    hub_stiffness : float or array, N m/rad
        kh, of the hub over the length of engagement; infinity for a rigid hub.

    Returns
    -------
    float or array, -
        B. Below about 0.5 the load is nearly even; above 2 most of it sits at one end.

    Raises
    ------
    DomainError
        If a stiffness is not above zero anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: equilibrium of two rods in torsion coupled by springs. Mark: derived. That the
       load gathers at one end is the subject of G. K. Tatur and A. G. Vygonnyi, Russian
       Engineering Journal 49(4), 1969.

    Examples
    --------
    >>> print(f"{lag_parameter(1.8e6, 1.15415e5, 5.87575e5):.4f}")
    4.3196
    """
    require_positive(
        mesh_stiffness=mesh_stiffness, shaft_stiffness=shaft_stiffness, hub_stiffness=hub_stiffness
    )
    compliance = np.divide(1.0, shaft_stiffness) + np.divide(1.0, hub_stiffness)
    return np.sqrt(mesh_stiffness * compliance)


@formula(
    "K = B coth(B)",
    result=Symbol("K", "-", "largest over mean load along the engagement"),
    source=DERIVED,
    lag=_LAG,
)
def same_side_factor(lag: Numeric) -> Numeric:
    """
    Largest over mean load along the teeth when the torque leaves the hub at the end where it enters.

    ::

        K = B coth(B)

    Parameters
    ----------
    lag : float or array, -
        B, from ``lag_parameter``.

    Returns
    -------
    float or array, -
        K, at least 1; the largest load is at the end where the torque enters.

    Raises
    ------
    DomainError
        If lag is negative anywhere.

    Notes
    -----
    The way of a shaft pushed into a flanged hub from the flange's side. NaN gives NaN.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{same_side_factor(0.107991 * 40):.4f}")
    4.3212
    """
    require_not_negative(lag=lag)
    safe = np.maximum(lag, _SMALL)
    return safe / np.tanh(safe)


@formula(
    "K = (B / sinh(B)) max(a + (1 - a) cosh(B), (1 - a) + a cosh(B))",
    result=Symbol("K", "-", "largest over mean load along the engagement"),
    source=DERIVED,
    lag=_LAG,
    shaft_share=Symbol("a", "-", "GJs / (GJs + GJh)"),
)
def opposite_side_factor(lag: Numeric, shaft_share: Numeric) -> Numeric:
    """
    Largest over mean load along the teeth when the torque passes through from end to end.

    ::

        K = (B / sinh(B)) max(a + (1 - a) cosh(B), (1 - a) + a cosh(B))

    Parameters
    ----------
    lag : float or array, -
        B, from ``lag_parameter``.
    shaft_share : float or array, -
        a, torsional rigidity of the shaft over that of shaft and hub together.

    Returns
    -------
    float or array, -
        K, at least 1. The first term is the end where the shaft's torque enters, the second
        the end where it leaves through the hub.

    Raises
    ------
    DomainError
        If lag is negative, or shaft_share is not in (0, 1], anywhere.

    Notes
    -----
    The way of a sleeve between two shafts. With a = 1/2 both ends carry (B/2) coth(B/2).
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{opposite_side_factor(0.107991 * 40, 0.164179):.4f}")
    3.6306
    """
    require_not_negative(lag=lag)
    require_share(shaft_share=shaft_share)
    larger = np.maximum(shaft_share, np.subtract(1.0, shaft_share))
    safe = np.maximum(lag, _SMALL)
    # the larger share stands beside cosh at the harder loaded end; coth and 1/sinh do not overflow
    far = 2.0 * np.exp(-safe) / -np.expm1(-2.0 * safe)
    return safe * ((1.0 - larger) * far + larger / np.tanh(safe))


@formula(
    "q = (B / sinh(B)) ((1 - a) + a cosh(B))",
    result=Symbol("q", "-", "load at the leaving end over the mean load along the engagement"),
    source=DERIVED,
    lag=_LAG,
    shaft_share=Symbol("a", "-", "GJs / (GJs + GJh)"),
)
def leaving_end_factor(lag: Numeric, shaft_share: Numeric) -> Numeric:
    """
    Load where the torque leaves through the hub over the mean load, the torque passing through.

    ::

        q = (B / sinh(B)) ((1 - a) + a cosh(B))

    Parameters
    ----------
    lag : float or array, -
        B, from ``lag_parameter``.
    shaft_share : float or array, -
        a, torsional rigidity of the shaft over that of shaft and hub together.

    Returns
    -------
    float or array, -
        q; with 1 - a instead of a it is the load where the shaft's torque enters.

    Raises
    ------
    DomainError
        If lag is negative, or shaft_share is not in (0, 1], anywhere.

    Notes
    -----
    Below 1 where a stiff hub draws the load to the end where the shaft's torque enters.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{leaving_end_factor(0.107991 * 40, 0.164179):.4f}")
    0.8055
    """
    require_not_negative(lag=lag)
    require_share(shaft_share=shaft_share)
    safe = np.maximum(lag, _SMALL)
    far = 2.0 * np.exp(-safe) / -np.expm1(-2.0 * safe)
    return safe * (np.subtract(1.0, shaft_share) * far + shaft_share / np.tanh(safe))


@formula(
    "Le = L tanh(B) / B",
    result=Symbol("Le", "m", "length that would carry the torque at the largest load"),
    source=DERIVED,
    length=Symbol("L", "m", "length of engagement"),
    lag=_LAG,
)
def effective_length_same_side(length: Numeric, lag: Numeric) -> Numeric:
    """
    Effective length of an engagement whose torque leaves at the end where it enters.

    ::

        Le = L tanh(B) / B

    Parameters
    ----------
    length : float or array, m
        L, of engagement.
    lag : float or array, -
        B, from ``lag_parameter``.

    Returns
    -------
    float or array, m
        Le = L / K, never above L; it stops growing with L at L/B.

    Raises
    ------
    DomainError
        If length is not above zero, or lag is negative, anywhere.

    Notes
    -----
    For a torque that passes through divide the length by ``opposite_side_factor``.
    As the stiffness of the whole joint it is exact for a rigid hub (shaft pushed into it).
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{effective_length_same_side(0.040, 0.107991 * 40) * 1e3:.2f} mm")
    9.26 mm
    """
    require_positive(length=length)
    return length / same_side_factor(lag)
