"""Round shafts twisted beyond the yield of their surface: reserve, core, twist, what stays behind.

One material without hardening, one strength over the section, solid unless said.
"""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED, PLASTIC
from torqcheck.capacity._symbols import BORE, OUTER, TORQUE
from torqcheck.capacity.torsion import elastic_torque, polar_second_moment
from torqcheck.domain import require_not_negative, require_positive, require_tube
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula

__all__ = [
    "elastic_core_share",
    "permanent_twist",
    "plastic_reserve",
    "plastic_twist",
    "residual_shear_stress",
]

_DIAMETER = Symbol("D", "m", "diameter of the solid shaft")
_YIELD = Symbol("tau_y", "Pa", "yield strength in shear")
_MODULUS = Symbol("G", "Pa", "shear modulus")


@formula(
    "Tp/Ty = (4/3) (1 - h^3) / (1 - h^4),  h = d/D",
    result=Symbol("Tp/Ty", "-", "fully plastic torque over the torque at first yield"),
    source=DERIVED,
    outer_diameter=OUTER,
    bore=BORE,
)
def plastic_reserve(outer_diameter: Numeric, bore: Numeric = 0.0) -> Numeric:
    """
    Fully plastic torque of a round shaft over its torque at first yield.

    ::

        Tp/Ty = (4/3) (1 - h^3) / (1 - h^4),  h = d/D

    Parameters
    ----------
    outer_diameter : float or array, m
        D.
    bore : float or array, m, optional
        d, diameter of a concentric hole; 0 for a solid shaft.

    Returns
    -------
    float or array, -
        4/3 for a solid shaft, falling to 1 as the wall becomes thin.

    Raises
    ------
    DomainError
        If outer_diameter is not above bore, or bore is negative, anywhere.

    Notes
    -----
    Tp = (pi/12) tau_y (D^3 - d^3) is the moment of tau_y over the whole section; Ty is
    ``elastic_torque``. A reserve and not a working limit: a shaft that has used any of it stays
    twisted, and a second overload the other way starts from locked-in stress. It needs a ductile
    core and counts once, not for repeated torque. NaN gives NaN.

    References
    ----------
    .. [1] Lecture on elastoplastic torsion, 2018: 4/3 for the solid shaft. Mark: published.
       The hollow form is derived here. Mark: derived.

    Examples
    --------
    >>> print(f"{plastic_reserve(0.030):.4f}, {plastic_reserve(0.030, bore=0.015):.4f}")
    1.3333, 1.2444
    """
    require_tube(outer_diameter, bore)
    h = bore / outer_diameter
    # (1 - h) is cancelled from both brackets, so that a thin wall loses no digits
    return 4.0 / 3.0 * (1.0 + h + h**2) / ((1.0 + h) * (1.0 + h**2))


@formula(
    "rho/c = (4 - 3 T/Ty)^(1/3)",
    result=Symbol("rho/c", "-", "radius of the elastic core over the radius of the shaft"),
    source=PLASTIC,
    torque_ratio=Symbol("T/Ty", "-", "torque over the torque at first yield"),
)
def elastic_core_share(torque_ratio: Numeric) -> Numeric:
    """
    Radius of the still elastic core of an overloaded solid shaft, over the shaft's radius.

    ::

        rho/c = (4 - 3 T/Ty)^(1/3)          1 below first yield

    Parameters
    ----------
    torque_ratio : float or array, -
        T/Ty, torque over the torque at first yield. The sign is ignored.

    Returns
    -------
    float or array, -
        From 1 (surface just yields, or less) down to 0 (wholly plastic).

    Raises
    ------
    DomainError
        If torque_ratio is above 4/3 in size anywhere: the section cannot carry it.

    Notes
    -----
    T = (4/3) Ty [1 - (rho/c)^3 / 4] solved for the core. No strain hardening. NaN gives NaN.

    References
    ----------
    .. [1] Lecture on elastoplastic torsion, 2018. Mark: published.

    Examples
    --------
    >>> print(f"{elastic_core_share(1.2):.5f}")
    0.73681
    """
    ratio = np.abs(torque_ratio)
    if np.any(np.greater(ratio, 4.0 / 3.0)):
        raise DomainError("torque_ratio must not be above 4/3: a solid section cannot carry more")
    return np.cbrt(4.0 - 3.0 * np.maximum(ratio, 1.0))


@formula(
    "phi = tau_y / (G rho)",
    result=Symbol("phi", "rad/m", "twist per length under load"),
    source=PLASTIC,
    torque=TORQUE,
    diameter=_DIAMETER,
    shear_yield=_YIELD,
    shear_modulus=_MODULUS,
)
def plastic_twist(
    torque: Numeric, diameter: Numeric, shear_yield: Numeric, shear_modulus: Numeric
) -> Numeric:
    """
    Twist per length of a solid shaft under a torque that may be beyond first yield.

    ::

        phi = tau_y / (G rho)          rho, radius of the elastic core; T/(G J) below first yield

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    diameter : float or array, m
        D, of the solid shaft.
    shear_yield : float or array, Pa
        tau_y, yield strength in shear.
    shear_modulus : float or array, Pa
        G.

    Returns
    -------
    float or array, rad/m
        phi, while the torque acts.

    Raises
    ------
    DomainError
        If diameter, shear_yield or shear_modulus is not above zero, or the torque is at or above
        4/3 of the torque at first yield, where the twist has no bound.

    Notes
    -----
    No strain hardening: a real steel twists less. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Lecture on elastoplastic torsion, 2018. Mark: published.

    Examples
    --------
    >>> twist = plastic_twist(35e3, 0.100, 150e6, 200e9)
    >>> print(f"{twist:.7f} rad/m")
    0.0197979 rad/m
    """
    require_positive(diameter=diameter, shear_yield=shear_yield, shear_modulus=shear_modulus)
    ratio = np.abs(torque) / elastic_torque(diameter, shear_yield)
    core = elastic_core_share(ratio)
    if np.any(np.less_equal(core, 0.0)):
        raise DomainError(
            "torque must be below 4/3 of the torque at first yield: the twist has no bound there"
        )
    at_yield = 2.0 * shear_yield / (shear_modulus * diameter)
    return at_yield * np.minimum(ratio, 1.0) / core


@formula(
    "phi_p = phi - T / (G J)",
    result=Symbol("phi_p", "rad/m", "twist per length that stays after release"),
    source=PLASTIC,
    torque=TORQUE,
    diameter=_DIAMETER,
    shear_yield=_YIELD,
    shear_modulus=_MODULUS,
)
def permanent_twist(
    torque: Numeric, diameter: Numeric, shear_yield: Numeric, shear_modulus: Numeric
) -> Numeric:
    """
    Twist per length that stays in a solid shaft after an overload is taken off.

    ::

        phi_p = phi - T / (G J)          phi from ``plastic_twist``

    Parameters
    ----------
    torque : float or array, N m
        T, the overload. The sign is ignored.
    diameter : float or array, m
        D, of the solid shaft.
    shear_yield : float or array, Pa
        tau_y, yield strength in shear.
    shear_modulus : float or array, Pa
        G.

    Returns
    -------
    float or array, rad/m
        phi_p; 0 as long as the surface did not yield.

    Raises
    ------
    DomainError
        If diameter, shear_yield or shear_modulus is not above zero, or the torque is at or above
        4/3 of the torque at first yield.

    Notes
    -----
    Release is elastic. Read the other way it is a gauge: a twist that the eye sees along the
    splines of a reused shaft tells the overload that it has had.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Lecture on elastoplastic torsion, 2018. Mark: published.

    Examples
    --------
    >>> print(f"{permanent_twist(35e3, 0.100, 150e6, 200e9):.8f} rad/m")
    0.00197251 rad/m
    """
    loaded = plastic_twist(torque, diameter, shear_yield, shear_modulus)
    returned = np.abs(torque) / (shear_modulus * polar_second_moment(diameter))
    return np.maximum(loaded - returned, 0.0)


@formula(
    "tau_r = tau_y min(1, r/rho) - T r / J",
    result=Symbol("tau_r", "Pa", "shear stress locked in after release"),
    source=PLASTIC,
    torque=TORQUE,
    diameter=_DIAMETER,
    shear_yield=_YIELD,
    radius=Symbol("r", "m", "radius at which the stress is asked for"),
)
def residual_shear_stress(
    torque: Numeric, diameter: Numeric, shear_yield: Numeric, radius: Numeric
) -> Numeric:
    """
    Shear stress locked into a solid shaft by an overload beyond first yield.

    ::

        tau_r = tau_y min(1, r/rho) - T r / J          0 if the surface did not yield

    Parameters
    ----------
    torque : float or array, N m
        T, the overload. The sign is ignored.
    diameter : float or array, m
        D, of the solid shaft.
    shear_yield : float or array, Pa
        tau_y, yield strength in shear.
    radius : float or array, m
        r, from the axis outward; D/2 for the surface.

    Returns
    -------
    float or array, Pa
        tau_r, positive in the sense of the overload; negative at the surface.

    Raises
    ------
    DomainError
        If diameter or shear_yield is not above zero, radius is negative or beyond the surface,
        or the torque is above 4/3 of the torque at first yield.

    Notes
    -----
    Release is elastic. At the surface the stress helps against the next torque of the same hand
    and harms against the other hand: a shaft that was overloaded one way must not be turned
    round. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Lecture on elastoplastic torsion, 2018. Mark: published.

    Examples
    --------
    >>> print(f"{residual_shear_stress(35e3, 0.100, 150e6, 0.050) / 1e6:.2f} MPa")
    -28.25 MPa
    """
    require_positive(diameter=diameter, shear_yield=shear_yield)
    require_not_negative(radius=radius)
    if np.any(np.greater(2.0 * np.asarray(radius), diameter)):
        raise DomainError("radius must not lie beyond the surface")
    ratio = np.abs(torque) / elastic_torque(diameter, shear_yield)
    share = 2.0 * radius / diameter
    core = elastic_core_share(ratio)
    # below first yield the loaded stress is ratio * share, and nothing stays; a core of 0 leaves
    # the whole section at yield, which the limit 1 gives without a division by zero
    loaded = np.minimum(1.0, share / np.where(np.equal(core, 0.0), np.finfo(float).tiny, core))
    return shear_yield * (loaded * np.minimum(ratio, 1.0) - ratio * share)
