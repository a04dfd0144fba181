"""The axial stack: sums of lengths along the shaft, their tolerances, and what heat does to them."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = [
    "axial_holding_force",
    "statistical_tolerance",
    "thermal_growth",
    "usable_engagement",
    "worst_case_tolerance",
]

_GROWTH = Source("Growth of a bar of even temperature", "", "derived")
_WORST = Source("Every dimension at the end of its tolerance that hurts", "", "derived")
_STATISTICAL = Source(
    "Sum of independent deviations; the factor 1.5 is called after A. Bender, 1962", "", "from memory"
)
_USABLE = Source("Overlap of two cut lengths, less what does not bear", "", "derived")
_HELD = Source("Friction of flanks under torque, mean radius D/2", "", "derived")
_TOLERANCES = Symbol("ti", "m", "tolerance of each length, one side; along the first axis")


@formula(
    "dL = alpha L dT",
    result=Symbol("dL", "m", "growth of the length"),
    source=_GROWTH,
    expansion=Symbol("alpha", "1/K", "thermal expansion of the material"),
    length=Symbol("L", "m", "length at assembly"),
    temperature_rise=Symbol("dT", "K", "temperature in service above that at assembly"),
)
def thermal_growth(expansion: Numeric, length: Numeric, temperature_rise: Numeric) -> Numeric:
    """
    Growth of a length from assembly to service.

    ::

        dL = alpha L dT

    Parameters
    ----------
    expansion : float or array, 1/K
        alpha, linear, of the material.
    length : float or array, m
        L, at the temperature of assembly.
    temperature_rise : float or array, K
        dT, negative where it gets colder.

    Returns
    -------
    float or array, m
        dL, negative where the part shrinks.

    Raises
    ------
    DomainError
        If expansion or length is negative anywhere.

    Notes
    -----
    One temperature along the part and an expansion that does not change with it: good to a few
    percent up to some 200 K. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Definition of linear expansion. Mark: derived.

    Examples
    --------
    An aluminium bell of 150 mm, 60 K warmer:

    >>> print(f"{thermal_growth(23.0e-6, 0.150, 60.0) * 1e3:.3f} mm")
    0.207 mm
    """
    require_not_negative(expansion=expansion, length=length)
    return expansion * length * temperature_rise


@formula(
    "t = sum |ti|",
    result=Symbol("t", "m", "tolerance of the sum, one side, if all are at their ends"),
    source=_WORST,
    tolerances=_TOLERANCES,
)
def worst_case_tolerance(tolerances: Numeric) -> Numeric:
    """
    Tolerance of a sum of lengths in the worst case.

    ::

        t = sum |ti|

    Parameters
    ----------
    tolerances : float or array, m
        ti, one side, along the first axis.

    Returns
    -------
    float or array, m
        t; no set of lengths within their tolerances takes the sum farther from its middle.

    Raises
    ------
    DomainError
        If a tolerance is negative.

    Notes
    -----
    Signs do not matter. Nothing is assumed about how the lengths scatter, which is why it decides for
    a coupler of which only one is made. NaN gives NaN.

    References
    ----------
    .. [1] Interval arithmetic of a sum. Mark: derived.

    Examples
    --------
    >>> print(f"{worst_case_tolerance(np.array([0.10, 0.20, 0.50, 0.30, 0.25]) * 1e-3) * 1e3:.2f} mm")
    1.35 mm
    """
    require_not_negative(tolerances=tolerances)
    total: Numeric = np.sum(np.atleast_1d(tolerances), axis=0, dtype=np.float64)
    return total


@formula(
    "t = K sqrt(sum ti^2)",
    result=Symbol("t", "m", "tolerance of the sum, one side, if the lengths scatter independently"),
    source=_STATISTICAL,
    tolerances=_TOLERANCES,
    inflation=Symbol("K", "-", "1, or 1.5 for tolerances that are not all centred and normal"),
)
def statistical_tolerance(tolerances: Numeric, inflation: Numeric = 1.0) -> Numeric:
    """
    Tolerance of a sum of independent lengths by the root of the sum of squares.

    ::

        t = K sqrt(sum ti^2)

    Parameters
    ----------
    tolerances : float or array, m
        ti, one side, along the first axis.
    inflation : float or array, -, optional
        K: 1 for centred normal scatter, 1.5 to allow for what is neither.

    Returns
    -------
    float or array, m
        t, as many standard deviations of the sum as each ti is of its length (with K = 1).

    Raises
    ------
    DomainError
        If a tolerance is negative, or inflation is not above zero.

    Notes
    -----
    It needs independence and many dimensions; a one-off coupler has one of each, so that the worst
    case decides and this stands beside it. NaN gives NaN.

    References
    ----------
    .. [1] A. Bender, Statistical tolerancing as it relates to quality control and the designer, 1962,
       for the factor 1.5. Mark: from memory.

    Examples
    --------
    >>> tolerances = np.array([0.10, 0.20, 0.50, 0.30, 0.25]) * 1e-3
    >>> print(*(f"{statistical_tolerance(tolerances, K) * 1e3:.2f} mm" for K in (1.0, 1.5)))
    0.67 mm 1.01 mm
    """
    require_not_negative(tolerances=tolerances)
    require_positive(inflation=inflation)
    squares = np.sum(np.square(np.atleast_1d(tolerances)), axis=0, dtype=np.float64)
    return inflation * np.sqrt(squares)


@formula(
    "Le = min(x - c, Fe, Fi)",
    result=Symbol("Le", "m", "length over which the teeth carry"),
    source=_USABLE,
    overlap=Symbol("x", "m", "overlap of the two parts, end to end"),
    lost_length=Symbol("c", "m", "chamfers, run-out of the teeth and seal lands within the overlap"),
    external_cut=Symbol("Fe", "m", "length of full teeth on the shaft; inf if they run through"),
    internal_cut=Symbol("Fi", "m", "length of full teeth in the hub; inf if they run through"),
)
def usable_engagement(
    overlap: Numeric, lost_length: Numeric, external_cut: Numeric = np.inf, internal_cut: Numeric = np.inf
) -> Numeric:
    """
    Length over which the teeth of a joint carry.

    ::

        Le = min(x - c, Fe, Fi)

    Parameters
    ----------
    overlap : float or array, m
        x: how far the shaft sticks out, plus where the hub opens, less the distance of the two faces.
    lost_length : float or array, m
        c, what of the overlap does not bear.
    external_cut : float or array, m, optional
        Fe, length of full teeth on the shaft; infinite where they run through.
    internal_cut : float or array, m, optional
        Fi, likewise in the hub.

    Returns
    -------
    float or array, m
        Le; negative where the teeth do not reach each other, by the gap between them.

    Raises
    ------
    DomainError
        If lost_length is negative, or a cut length is not above zero, anywhere.

    Notes
    -----
    The nose can lie beyond the cut of the hub without harm as long as nothing is in its way; the
    overlap then grows and the engagement does not. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Geometry of two bars that overlap. Mark: derived.

    Examples
    --------
    A shaft sticks 46 mm out of the gearbox, the coupler opens 10 mm beyond the motor's face, the faces
    are 20 mm apart; two chamfers of 1 mm; the hub is cut over 32 mm:

    >>> print(f"{usable_engagement(0.046 + 0.010 - 0.020, 0.002, internal_cut=0.032) * 1e3:.1f} mm")
    32.0 mm
    """
    require_not_negative(lost_length=lost_length)
    require_positive(external_cut=external_cut, internal_cut=internal_cut)
    return np.minimum(np.subtract(overlap, lost_length), np.minimum(external_cut, internal_cut))


@formula(
    "Fa = 2 mu T / D",
    result=Symbol("Fa", "N", "axial force that the joint holds before it slides"),
    source=_HELD,
    torque=Symbol("T", "N m", "torque in the joint"),
    pitch_diameter=Symbol("D", "m", "pitch diameter"),
    friction=Symbol("mu", "-", "coefficient of friction of the flanks"),
)
def axial_holding_force(torque: Numeric, pitch_diameter: Numeric, friction: Numeric) -> Numeric:
    """
    Axial force that a splined joint under torque holds before it slides.

    ::

        Fa = 2 mu T / D

    Parameters
    ----------
    torque : float or array, N m
        T. The sign is ignored.
    pitch_diameter : float or array, m
        D.
    friction : float or array, -
        mu, of the flanks.

    Returns
    -------
    float or array, N
        Fa, which the bearings on both sides must take while the parts grow against each other.

    Raises
    ------
    DomainError
        If pitch_diameter is not above zero or friction is negative, anywhere.

    Notes
    -----
    The flanks are taken to lie along the tangent: at a pressure angle a the force is 1/cos(a) times as
    large, 15 percent at 30 degrees, well within what is known of the friction. NaN gives NaN.

    References
    ----------
    .. [1] Coulomb's friction at the pitch circle. Mark: derived.

    Examples
    --------
    >>> print(f"{axial_holding_force(300.0, 0.030, 0.15):.0f} N")
    3000 N
    """
    require_positive(pitch_diameter=pitch_diameter)
    require_not_negative(friction=friction)
    return 2.0 * friction * np.abs(torque) / pitch_diameter
