"""Round shafts in bending, alone and together with torsion, while they are elastic."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import MECHANICS
from torqcheck.capacity._symbols import BENDING_STRESS, BORE, MOMENT, OUTER, OVERHANG, SHEAR_STRESS
from torqcheck.domain import require_not_negative, require_tube
from torqcheck.formulas import Symbol, formula

__all__ = ["bending_stress", "overhung_moment", "von_mises_stress"]


@formula(
    "sb = 32 Mb D / (pi (D^4 - d^4))",
    result=BENDING_STRESS,
    source=MECHANICS,
    moment=MOMENT,
    outer_diameter=OUTER,
    bore=BORE,
)
def bending_stress(moment: Numeric, outer_diameter: Numeric, bore: Numeric = 0.0) -> Numeric:
    """
    Largest bending stress of a round shaft, solid or hollow.

    ::

        sb = 32 Mb D / (pi (D^4 - d^4))

    Parameters
    ----------
    moment : float or array, N m
        Mb, bending moment. The sign is ignored.
    outer_diameter : float or array, m
        D.
    bore : float or array, m, optional
        d, diameter of a concentric hole; 0 for a solid shaft.

    Returns
    -------
    float or array, Pa
        sb, never negative.

    Raises
    ------
    DomainError
        If outer_diameter is not above bore, or bore is negative, anywhere.

    Notes
    -----
    Elastic, straight, round sections away from load points; no notch factor. In a shaft that turns
    under a load that does not, this is the amplitude of a fully reversed stress.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Standard mechanics of materials, bending of beams. Mark: derived.

    Examples
    --------
    47.3 N m on a solid shaft of 25 mm:

    >>> print(f"{bending_stress(47.3, 0.025) / 1e6:.1f} MPa")
    30.8 MPa
    """
    require_tube(outer_diameter, bore)
    return 32.0 * np.abs(moment) * outer_diameter / (np.pi * (outer_diameter**4 - bore**4))


@formula(
    "sv = sqrt(sb^2 + 3 tau^2)",
    result=Symbol("sv", "Pa", "equivalent tensile stress by von Mises"),
    source=MECHANICS,
    bending_stress=BENDING_STRESS,
    shear_stress=SHEAR_STRESS,
)
def von_mises_stress(bending_stress: Numeric, shear_stress: Numeric) -> Numeric:
    """
    Tensile stress that yields a ductile metal as bending and torsion do together.

    ::

        sv = sqrt(sb^2 + 3 tau^2)

    Parameters
    ----------
    bending_stress : float or array, Pa
        sb. The sign is ignored.
    shear_stress : float or array, Pa
        tau. The sign is ignored.

    Returns
    -------
    float or array, Pa
        sv, never negative.

    Raises
    ------
    DomainError
        Never.

    Notes
    -----
    Distortion energy, for ductile metals. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Standard mechanics of materials, distortion energy. Mark: derived.

    Examples
    --------
    >>> print(f"{von_mises_stress(30.8e6, 100e6) / 1e6:.1f} MPa")
    175.9 MPa
    """
    result: Numeric = np.hypot(bending_stress, np.sqrt(3.0) * np.asarray(shear_stress))[()]
    return result


@formula(
    "Mb = F a",
    result=MOMENT,
    source=MECHANICS,
    force=Symbol("F", "N", "force across the axis"),
    overhang=OVERHANG,
)
def overhung_moment(force: Numeric, overhang: Numeric) -> Numeric:
    """
    Bending moment of a force across the axis at some distance.

    ::

        Mb = F a

    Parameters
    ----------
    force : float or array, N
        F. The sign is ignored.
    overhang : float or array, m
        a, distance of the force from the section.

    Returns
    -------
    float or array, N m
        Mb.

    Raises
    ------
    DomainError
        If overhang is negative anywhere.

    Notes
    -----
    On a shaft that turns under a force that does not, the stress is fully reversed once a turn.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Statics. Mark: derived.

    Examples
    --------
    >>> print(f"{overhung_moment(788.0, 0.060):.1f} N m")
    47.3 N m
    """
    require_not_negative(overhang=overhang)
    return np.multiply(np.abs(force), overhang)
