"""Elastic stress concentration at the roots of a splined shaft in torsion, and the diameter it stands on."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import SPLINE_STANDARD
from torqcheck.fatigue._symbols import CONCENTRATION, FILLET
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = [
    "diameter_share",
    "equivalent_diameter",
    "spline_stress_concentration",
    "yoshitake_stress_concentration",
]

_MINOR = Symbol("Die", "m", "minor diameter of the external member")
_MAJOR = Symbol("Dee", "m", "major diameter of the external member")
_SHARE = Symbol("Kc", "-", "share of the tooth height that counts for the diameter")


def diameter_share(involute: bool) -> float:
    """
    Kc of the spline standards, the low end of what they give for a kind of spline.

    0.15 for an involute spline (many teeth; 0.3 with few), 0.45 for a straight-sided one (medium
    series; 0.5 in the light one). The lower share gives the higher stress. Mark: from memory.

    Parameters
    ----------
    involute : bool
        An involute spline, not a straight-sided one.
    """
    return 0.15 if involute else 0.45


@formula(
    "dh = Die + Kc Die (Dee - Die)/Dee",
    result=Symbol("dh", "m", "diameter of the plain shaft that stands for the splined one"),
    source=SPLINE_STANDARD,
    minor_diameter=_MINOR,
    major_diameter=_MAJOR,
    share_of_height=_SHARE,
)
def equivalent_diameter(
    minor_diameter: Numeric, major_diameter: Numeric, share_of_height: Numeric
) -> Numeric:
    """
    Diameter on which the nominal stress of a splined shaft in torsion is taken.

    ::

        dh = Die + Kc Die (Dee - Die)/Dee

    Parameters
    ----------
    minor_diameter : float or array, m
        Die.
    major_diameter : float or array, m
        Dee.
    share_of_height : float or array, -
        Kc, see ``diameter_share``.

    Returns
    -------
    float or array, m
        dh.

    Raises
    ------
    DomainError
        If minor_diameter is not above zero or not below major_diameter, or share_of_height is
        negative, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] DIN 5466 and GB/T 17855. Mark: from memory.

    Examples
    --------
    >>> print(f"{equivalent_diameter(0.033, 0.038, 0.15) * 1e3:.3f} mm")
    33.651 mm
    """
    require_positive(minor_diameter=minor_diameter)
    require_not_negative(share_of_height=share_of_height)
    if np.any(np.greater_equal(minor_diameter, major_diameter)):
        raise DomainError("minor_diameter must be below major_diameter")
    height = np.subtract(major_diameter, minor_diameter)
    return minor_diameter + share_of_height * minor_diameter * height / major_diameter


@formula(
    "al = (Die/dh) (1 + 0.17 x (1 + 3.94/(0.1 + x)) + 6.38 (1 + 0.1 x)/y^2)",
    result=Symbol("al", "-", "elastic stress concentration in torsion, on the diameter dh"),
    source=SPLINE_STANDARD,
    minor_diameter=_MINOR,
    major_diameter=_MAJOR,
    fillet_radius=FILLET,
    share_of_height=_SHARE,
)
def spline_stress_concentration(
    minor_diameter: Numeric, major_diameter: Numeric, fillet_radius: Numeric, share_of_height: Numeric
) -> Numeric:
    """
    Elastic stress concentration at the root of a splined shaft in torsion.

    ::

        al = (Die/dh) (1 + 0.17 x (1 + 3.94/(0.1 + x)) + 6.38 (1 + 0.1 x)/y^2)

        x = H/r,  H = (Dee - Die)/2,  y = 2.38 + Die/(2 H) (x + 0.04)^(1/3)
        tau_max = al 16 T/(pi dh^3)

    Parameters
    ----------
    minor_diameter : float or array, m
        Die.
    major_diameter : float or array, m
        Dee.
    fillet_radius : float or array, m
        r.
    share_of_height : float or array, -
        Kc, see ``diameter_share``.

    Returns
    -------
    float or array, -
        al, on the nominal stress at ``equivalent_diameter``; times (Die/dh)^3 it stands on the
        stress at the root diameter.

    Raises
    ------
    DomainError
        If fillet_radius is not above zero, or the diameters are out of order, anywhere.

    Notes
    -----
    In line with 2.8 quoted for a standard fillet of eight teeth under a hub (from memory).
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] DIN 5466 and GB/T 17855. Mark: from memory.

    Examples
    --------
    >>> print(f"{spline_stress_concentration(0.033, 0.038, 0.4e-3, 0.15):.3f}")
    2.717
    """
    require_positive(fillet_radius=fillet_radius)
    dh = equivalent_diameter(minor_diameter, major_diameter, share_of_height)
    H = 0.5 * np.subtract(major_diameter, minor_diameter)
    x = H / fillet_radius
    slope = 2.38 + minor_diameter / (2.0 * H) * np.cbrt(x + 0.04)
    shape = 1.0 + 0.17 * x * (1.0 + 3.94 / (0.1 + x)) + 6.38 * (1.0 + 0.1 * x) / slope**2
    return minor_diameter / dh * shape


@formula(
    "Kts = 6.083 - 14.775 q + 18.250 q^2,  q = 10 r/d",
    result=CONCENTRATION,
    source=Source(
        "Yoshitake, photoelastic tests of 1962, fitted in Peterson's Stress Concentration Factors",
        "splined shaft in torsion, eight teeth, no mating member",
        "from memory",
    ),
    fillet_radius=FILLET,
    root_diameter=Symbol("d", "m", "root diameter of the splined shaft"),
)
def yoshitake_stress_concentration(fillet_radius: Numeric, root_diameter: Numeric) -> Numeric:
    """
    Elastic stress concentration at the root of an eight-tooth splined shaft without its hub.

    ::

        Kts = 6.083 - 14.775 q + 18.250 q^2,  q = 10 r/d

    Parameters
    ----------
    fillet_radius : float or array, m
        r.
    root_diameter : float or array, m
        d; the nominal stress is 16 T/(pi d^3).

    Returns
    -------
    float or array, -
        Kts.

    Raises
    ------
    DomainError
        If fillet_radius over root_diameter lies outside 0.01 to 0.04, anywhere.

    Notes
    -----
    For eight straight-sided teeth. The fit is weakly remembered. NaN gives NaN.

    References
    ----------
    .. [1] Peterson's Stress Concentration Factors, after M. Yoshitake. Mark: from memory.

    Examples
    --------
    >>> print(f"{yoshitake_stress_concentration(0.42e-3, 0.042):.3f}")
    4.788
    """
    require_positive(fillet_radius=fillet_radius, root_diameter=root_diameter)
    slender = np.divide(fillet_radius, root_diameter)
    if np.any(np.less(slender, 0.01 * (1.0 - 1e-12)) | np.greater(slender, 0.04 * (1.0 + 1e-12))):
        raise DomainError("fillet_radius over root_diameter must lie between 0.01 and 0.04")
    q = 10.0 * slender
    return 6.083 + q * (-14.775 + q * 18.250)
