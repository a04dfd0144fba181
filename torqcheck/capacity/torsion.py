"""Round shafts in torsion while they are elastic."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import LECTURE, SHIGLEY
from torqcheck.capacity._symbols import BORE, OUTER, TORQUE
from torqcheck.domain import require_not_negative, require_positive, require_tube
from torqcheck.formulas import Symbol, formula

__all__ = [
    "SHEAR_TO_TENSILE_YIELD",
    "elastic_torque",
    "elastic_twist",
    "polar_second_moment",
    "shear_yield_strength",
    "torsional_shear_stress",
]

SHEAR_TO_TENSILE_YIELD = 0.577
"""Shear yield over tensile yield by von Mises, rounded as printed by Budynas and Nisbett, p 347."""


@formula(
    "J = pi (D^4 - d^4) / 32",
    result=Symbol("J", "m4", "polar second moment of area"),
    source=LECTURE,
    outer_diameter=OUTER,
    bore=BORE,
)
def polar_second_moment(outer_diameter: Numeric, bore: Numeric = 0.0) -> Numeric:
    """
    Polar second moment of area of a round section, solid or hollow.

    ::

        J = pi (D^4 - d^4) / 32

    Parameters
    ----------
    outer_diameter : float or array, m
        D. For a splined shaft use the root diameter.
    bore : float or array, m, optional
        d, diameter of a concentric hole; 0 for a solid shaft.

    Returns
    -------
    float or array, m4
        J.

    Raises
    ------
    DomainError
        If outer_diameter is not above bore, or bore is negative, anywhere.

    Notes
    -----
    Round sections only. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Strength-of-materials lecture, torsion of circular shafts, pages m06_04_s030 and
       m06_23_s070. Mark: published.

    Examples
    --------
    >>> print(f"{polar_second_moment(0.040, bore=0.030) * 1e12:.2f} mm4")
    171805.85 mm4
    """
    require_tube(outer_diameter, bore)
    return np.pi * (outer_diameter**4 - bore**4) / 32.0


@formula(
    "tau = 16 T D / (pi (D^4 - d^4))",
    result=Symbol("tau", "Pa", "shear stress at the outer surface"),
    source=LECTURE,
    torque=TORQUE,
    outer_diameter=OUTER,
    bore=BORE,
)
def torsional_shear_stress(torque: Numeric, outer_diameter: Numeric, bore: Numeric = 0.0) -> Numeric:
    """
    Largest shear stress of a round shaft, solid or hollow, in pure torsion.

    ::

        tau = 16 T D / (pi (D^4 - d^4))          at the outer surface

    Parameters
    ----------
    torque : float or array, N m
        T, torque in the shaft. The sign is ignored.
    outer_diameter : float or array, m
        D. For a splined shaft use the root diameter.
    bore : float or array, m, optional
        d, diameter of a concentric hole; 0 for a solid shaft.

    Returns
    -------
    float or array, Pa
        tau, never negative. Shape: the broadcast shape of the arguments.

    Raises
    ------
    DomainError
        If outer_diameter is not above bore, or bore is negative, anywhere.

    Notes
    -----
    Holds for elastic, straight, round sections away from load points. Not contained: notch
    factor of key slots and spline roots, bending, residual stress, yielding.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Strength-of-materials lecture, torsion of circular shafts, pages m06_04_s010 (formula)
       and m06_04_s040 (worked example). Mark: published.

    Examples
    --------
    A tube of 40 mm outside and 5 mm wall under 430 N m; [1]_ gives 50 MPa:

    >>> stress = torsional_shear_stress(430.0, 0.040, bore=0.030)
    >>> print(f"{stress / 1e6:.1f} MPa")
    50.1 MPa
    """
    require_tube(outer_diameter, bore)
    return 16.0 * np.abs(torque) * outer_diameter / (np.pi * (outer_diameter**4 - bore**4))


@formula(
    "tau_y = 0.577 Sy",
    result=Symbol("tau_y", "Pa", "yield strength in shear"),
    source=SHIGLEY,
    yield_strength=Symbol("Sy", "Pa", "yield strength in tension"),
)
def shear_yield_strength(yield_strength: Numeric) -> Numeric:
    """
    Yield strength in shear of a ductile steel, from its tensile yield.

    ::

        tau_y = 0.577 Sy

    Parameters
    ----------
    yield_strength : float or array, Pa
        Sy, yield strength in tension.

    Returns
    -------
    float or array, Pa
        tau_y.

    Raises
    ------
    DomainError
        If yield_strength is negative anywhere.

    Notes
    -----
    The distortion-energy (von Mises) value 1/sqrt(3), rounded as [1]_ prints it. The maximum
    shear (Tresca) value would be 0.5. A list of steels of 0 to 52 HRC in T. Fett, Heat Treating
    Progress, Oct 2009, has about 0.60, so that 0.577 is slightly on the safe side.
    For ductile metals only. NaN gives NaN.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 347.
       Mark: published.

    Examples
    --------
    >>> print(f"{shear_yield_strength(655e6) / 1e6:.1f} MPa")
    377.9 MPa
    """
    require_not_negative(yield_strength=yield_strength)
    return SHEAR_TO_TENSILE_YIELD * yield_strength


@formula(
    "Ty = (pi / 16) tau_y (D^4 - d^4) / D",
    result=Symbol("Ty", "N m", "torque at which the surface begins to yield"),
    source=LECTURE,
    outer_diameter=OUTER,
    shear_yield=Symbol("tau_y", "Pa", "yield strength in shear"),
    bore=BORE,
)
def elastic_torque(outer_diameter: Numeric, shear_yield: Numeric, bore: Numeric = 0.0) -> Numeric:
    """
    Torque at which the surface of a round shaft begins to yield.

    ::

        Ty = (pi / 16) tau_y (D^4 - d^4) / D

    Parameters
    ----------
    outer_diameter : float or array, m
        D. For a splined shaft use the root diameter.
    shear_yield : float or array, Pa
        tau_y, yield strength in shear.
    bore : float or array, m, optional
        d, diameter of a concentric hole; 0 for a solid shaft.

    Returns
    -------
    float or array, N m
        Ty.

    Raises
    ------
    DomainError
        If outer_diameter is not above bore, or bore or shear_yield is negative, anywhere.

    Notes
    -----
    The inverse of ``torsional_shear_stress``. One strength over the whole section: for a hard
    layer on a soft core see ``torqcheck.capacity.hard_layer``. No notch factor: in a ductile
    shaft the root of a spline yields locally long before the section does, which matters for
    fatigue and not for this torque. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Strength-of-materials lecture, torsion of circular shafts, page m06_04_s040; the same
       limit opens the lecture on elastoplastic torsion, 2018. Mark: published.

    Examples
    --------
    A solid shaft of 100 mm at 150 MPa:

    >>> print(f"{elastic_torque(0.100, 150e6) / 1e3:.2f} kN m")
    29.45 kN m
    """
    require_tube(outer_diameter, bore)
    require_not_negative(shear_yield=shear_yield)
    return np.pi / 16.0 * shear_yield * (outer_diameter**4 - bore**4) / outer_diameter


@formula(
    "phi = 32 T L / (pi G (D^4 - d^4))",
    result=Symbol("phi", "rad", "twist between the ends"),
    source=LECTURE,
    torque=TORQUE,
    length=Symbol("L", "m", "length of the shaft"),
    outer_diameter=OUTER,
    shear_modulus=Symbol("G", "Pa", "shear modulus"),
    bore=BORE,
)
def elastic_twist(
    torque: Numeric, length: Numeric, outer_diameter: Numeric, shear_modulus: Numeric, bore: Numeric = 0.0
) -> Numeric:
    """
    Twist of a round shaft, solid or hollow, between its ends.

    ::

        phi = 32 T L / (pi G (D^4 - d^4))

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    length : float or array, m
        L.
    outer_diameter : float or array, m
        D.
    shear_modulus : float or array, Pa
        G.
    bore : float or array, m, optional
        d, diameter of a concentric hole; 0 for a solid shaft.

    Returns
    -------
    float or array, rad
        phi, never negative.

    Raises
    ------
    DomainError
        If there is no wall, or length or shear_modulus is not above zero, anywhere.

    Notes
    -----
    Elastic. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Strength-of-materials lecture, torsion of circular shafts, module 6. Mark: published.

    Examples
    --------
    500 N m on 200 mm of a solid shaft of 25 mm:

    >>> print(f"{elastic_twist(500.0, 0.200, 0.025, 79.3e9) * 57.2958:.2f} deg")
    1.88 deg
    """
    require_tube(outer_diameter, bore)
    require_positive(length=length, shear_modulus=shear_modulus)
    return 32.0 * np.abs(torque) * length / (np.pi * shear_modulus * (outer_diameter**4 - bore**4))
