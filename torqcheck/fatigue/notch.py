"""Notches in torsion: notch sensitivity after Neuber, and the stress concentration of spline roots."""

import numpy as np

from torqcheck._types import FloatArray, Numeric
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.fatigue._sources import HANDBOOK, SPLINE_STANDARD
from torqcheck.fatigue._symbols import FILLET, ULTIMATE
from torqcheck.fatigue.endurance import KSI
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = [
    "NOTCH_RANGE",
    "diameter_share",
    "equivalent_diameter",
    "fatigue_notch_factor",
    "notch_constant_in_bending",
    "notch_constant_in_torsion",
    "notch_sensitivity",
    "spline_stress_concentration",
    "yoshitake_stress_concentration",
]

NOTCH_RANGE = (50.0 * KSI, 220.0 * KSI)
"""Ultimate strengths for which the notch constant in torsion holds, Pa; from memory."""

_ROOT_INCH = 0.0254**0.5
_NOTCH_CONSTANT = Symbol("sqrt(A)", "m^0.5", "square root of the notch constant of the steel")
_CONCENTRATION = Symbol("Kts", "-", "elastic stress concentration in torsion")
_MINOR = Symbol("Die", "m", "minor diameter of the external member")
_MAJOR = Symbol("Dee", "m", "major diameter of the external member")
_SHARE = Symbol("Kc", "-", "share of the tooth height that counts for the diameter")


def _in_range(ultimate_strength: Numeric) -> FloatArray:
    low, high = NOTCH_RANGE
    if np.any(np.less(ultimate_strength, low) | np.greater(ultimate_strength, high)):
        raise DomainError("ultimate_strength must lie between 345 and 1517 MPa (50 to 220 ksi)")
    return np.asarray(np.divide(ultimate_strength, KSI))


@formula(
    "sqrt(A) = 0.190 - 2.51e-3 Su + 1.35e-5 Su^2 - 2.67e-8 Su^3,  sqrt(in), Su in ksi",
    result=_NOTCH_CONSTANT,
    source=HANDBOOK,
    ultimate_strength=ULTIMATE,
)
def notch_constant_in_torsion(ultimate_strength: Numeric) -> Numeric:
    """
    Neuber's notch constant of steel in torsion, its square root.

    ::

        sqrt(A) = 0.190 - 2.51e-3 Su + 1.35e-5 Su^2 - 2.67e-8 Su^3,  sqrt(in), Su in ksi

    Parameters
    ----------
    ultimate_strength : float or array, Pa
        Sut.

    Returns
    -------
    float or array, m^0.5
        sqrt(A).

    Raises
    ------
    DomainError
        If ultimate_strength lies outside ``NOTCH_RANGE`` anywhere: beyond it the polynomial turns
        negative.

    Notes
    -----
    NaN gives NaN.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 296,
       eq 6-35b; the range from memory. Mark: published.

    Examples
    --------
    >>> print(f"{notch_constant_in_torsion(945e6) / 0.0254**0.5:.5f} sqrt(in)")
    0.03084 sqrt(in)
    """
    Su = _in_range(ultimate_strength)
    root: Numeric = (_ROOT_INCH * (0.190 + Su * (-2.51e-3 + Su * (1.35e-5 - Su * 2.67e-8))))[()]
    return root


@formula(
    "sqrt(A) = 0.246 - 3.08e-3 Su + 1.51e-5 Su^2 - 2.67e-8 Su^3,  sqrt(in), Su in ksi",
    result=_NOTCH_CONSTANT,
    source=HANDBOOK,
    ultimate_strength=ULTIMATE,
)
def notch_constant_in_bending(ultimate_strength: Numeric) -> Numeric:
    """
    Neuber's notch constant of steel in bending or axial load, its square root.

    ::

        sqrt(A) = 0.246 - 3.08e-3 Su + 1.51e-5 Su^2 - 2.67e-8 Su^3,  sqrt(in), Su in ksi

    Parameters
    ----------
    ultimate_strength : float or array, Pa
        Sut.

    Returns
    -------
    float or array, m^0.5
        sqrt(A).

    Raises
    ------
    DomainError
        If ultimate_strength lies outside ``NOTCH_RANGE`` anywhere.

    Notes
    -----
    NaN gives NaN.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 296,
       eq 6-35a; the range from memory. Mark: published.

    Examples
    --------
    >>> print(f"{notch_constant_in_bending(100 * KSI) / 0.0254**0.5:.4f} sqrt(in)")
    0.0623 sqrt(in)
    """
    Su = _in_range(ultimate_strength)
    root: Numeric = (_ROOT_INCH * (0.246 + Su * (-3.08e-3 + Su * (1.51e-5 - Su * 2.67e-8))))[()]
    return root


@formula(
    "qs = 1 / (1 + sqrt(A)/sqrt(r))",
    result=Symbol("qs", "-", "notch sensitivity"),
    source=HANDBOOK,
    fillet_radius=FILLET,
    notch_constant=_NOTCH_CONSTANT,
)
def notch_sensitivity(fillet_radius: Numeric, notch_constant: Numeric) -> Numeric:
    """
    Share of the elastic stress concentration that fatigue feels.

    ::

        qs = 1 / (1 + sqrt(A)/sqrt(r))

    Parameters
    ----------
    fillet_radius : float or array, m
        r, radius of the notch.
    notch_constant : float or array, m^0.5
        sqrt(A), see ``notch_constant_in_torsion``.

    Returns
    -------
    float or array, -
        qs, from 0 to 1.

    Raises
    ------
    DomainError
        If fillet_radius is not above zero or notch_constant is negative, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 296.
       Mark: published.

    Examples
    --------
    >>> print(f"{notch_sensitivity(0.4e-3, notch_constant_in_torsion(945e6)):.5f}")
    0.80274
    """
    require_positive(fillet_radius=fillet_radius)
    require_not_negative(notch_constant=notch_constant)
    return 1.0 / (1.0 + notch_constant / np.sqrt(fillet_radius))


@formula(
    "Kfs = 1 + qs (Kts - 1)",
    result=Symbol("Kfs", "-", "fatigue notch factor in torsion"),
    source=HANDBOOK,
    stress_concentration=_CONCENTRATION,
    sensitivity=Symbol("qs", "-", "notch sensitivity"),
)
def fatigue_notch_factor(stress_concentration: Numeric, sensitivity: Numeric) -> Numeric:
    """
    Factor by which a notch lowers the fatigue strength.

    ::

        Kfs = 1 + qs (Kts - 1)

    Parameters
    ----------
    stress_concentration : float or array, -
        Kts, elastic, 1 or more.
    sensitivity : float or array, -
        qs, 0 to 1.

    Returns
    -------
    float or array, -
        Kfs, laid on the stress.

    Raises
    ------
    DomainError
        If stress_concentration is below 1, or sensitivity outside 0 to 1, anywhere.

    Notes
    -----
    In doubt Kfs = Kts. Never multiplied into the guide method, whose allowables contain the notch.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 296.
       Mark: published.

    Examples
    --------
    >>> print(f"{fatigue_notch_factor(2.8, 0.80274):.5f}")
    2.44493
    """
    if np.any(np.less(stress_concentration, 1.0)):
        raise DomainError("stress_concentration must be at least 1")
    if np.any(np.less(sensitivity, 0.0) | np.greater(sensitivity, 1.0)):
        raise DomainError("sensitivity must lie between 0 and 1")
    return 1.0 + np.multiply(sensitivity, np.subtract(stress_concentration, 1.0))


def diameter_share(involute: bool) -> float:
    """
    Kc of the spline standards, the low end of what they give for a kind of spline.

    0.15 for an involute spline (many teeth; 0.3 with few), 0.45 for a straight-sided one (medium
    series; 0.5 in the light one). The lower share gives the higher stress. Mark: from memory.
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
    result=_CONCENTRATION,
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
