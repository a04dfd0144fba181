"""Clearances of the tooth pairs of a spline: errors of spacing, a shaft off its centre, and what they do.

All clearances are measured along the pitch circle, like the stiffness of a tooth pair.
"""

import math

import numpy as np

from torqcheck._types import FloatArray, Numeric
from torqcheck.capacity._sources import DERIVED
from torqcheck.capacity._symbols import TEETH
from torqcheck.domain import require_angle, require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = [
    "DISPLACED_FLANKS",
    "SIX_SIGMA",
    "drawn_clearances",
    "expected_maximum",
    "full_engagement_share",
    "load_parameter",
    "off_centre_clearance",
    "pair_clearance_sigma",
]

SIX_SIGMA = Source(
    "Both members alike, total index variation taken as six standard deviations", "", "assumed"
)
DISPLACED_FLANKS = Source(
    "Geometry of a displaced spline; the notes of the function hold the derivation", "", "derived"
)

_SIGMA = Symbol("s", "m", "standard deviation of the clearance of a tooth pair")
_SHARE = Symbol("s1", "-", "mean share of the force that the first tooth carries")
_LOAD = Symbol(
    "Lambda", "-", "deflection if all teeth shared evenly, in standard deviations of the clearance"
)
_REACH, _STEP = 9.0, 1.0 / 64.0  # grid of the normal variable: more of either changes no digit


@formula(
    "s = sqrt(2) Fp / 6",
    result=_SIGMA,
    source=SIX_SIGMA,
    index_variation=Symbol("Fp", "m", "total index variation of one member"),
)
def pair_clearance_sigma(index_variation: Numeric) -> Numeric:
    """
    Standard deviation of the clearance of a tooth pair from the spacing errors that a class allows.

    ::

        s = sqrt(2) Fp / 6

    Parameters
    ----------
    index_variation : float or array, m
        Fp, total index variation of one member, from its tolerance class.

    Returns
    -------
    float or array, m
        s, along the pitch circle.

    Raises
    ------
    DomainError
        If index_variation is negative anywhere.

    Notes
    -----
    Assumes that both members are alike and independent, that the total variation spans six standard
    deviations, and that neighbouring teeth err independently; a real error has a part that goes
    once around, which makes neighbours more alike but not the range. NaN in gives NaN out.

    References
    ----------
    .. [1] Declared assumption. Mark: assumed.

    Examples
    --------
    Class 5, 20 teeth of module 2.5 mm, 40.5 um of total index variation:

    >>> print(f"{pair_clearance_sigma(40.5e-6) * 1e6:.1f} um")
    9.5 um
    """
    require_not_negative(index_variation=index_variation)
    return math.sqrt(2.0) / 6.0 * np.asarray(index_variation, dtype=np.float64)[()]


@formula(
    "c = e sin(u) / cos(a)",
    result=Symbol("c", "m", "clearance along the pitch circle beyond that of a centred shaft"),
    source=DISPLACED_FLANKS,
    offset=Symbol("e", "m", "distance of the two axes"),
    pressure_angle=Symbol("a", "rad", "pressure angle at the pitch circle"),
    position=Symbol("u", "rad", "position of the tooth around, from where the offset changes nothing"),
)
def off_centre_clearance(offset: Numeric, pressure_angle: Numeric, position: Numeric) -> Numeric:
    """
    Clearance that a shaft off its centre adds to the loaded flank of each tooth.

    ::

        c = e sin(u) / cos(a)

    Parameters
    ----------
    offset : float or array, m
        e, distance of the axes of shaft and hub; half the radial play at most.
    pressure_angle : float or array, rad
        a, at the pitch circle; of straight sides the angle between flank and radius.
    position : float or array, rad
        u, of the tooth around the axis; neighbours differ by 2 pi/N.

    Returns
    -------
    float or array, m
        c along the pitch circle; negative where the tooth has come closer.

    Raises
    ------
    DomainError
        If offset is negative or the pressure angle is not below a right angle, anywhere.

    Notes
    -----
    The flanks of an involute pair are arcs of one involute, so that on one axis all loaded flanks
    touch together and over their whole height. Moving the shaft by e changes the gap along the
    normal of a flank by the part of e that lies along it; the normals of the loaded flanks stand 360/N
    deg apart. Turning the shaft closes a gap along the normal by cos(a) of the way along the pitch
    circle. So the amplitude is e along the normal and e/cos(a) along the pitch circle. With e half
    the radial play c0 cos(a) of a clearance c0, the amplitude is c0/2: the tightest tooth touches
    half a clearance early. The same holds for straight sides, whose normals stand at the angle
    a with sin(a) = b/(2 r).

    Taken at the pitch point. Towards tip and root the normal of an involute turns, by 4 deg either way
    on 26 teeth and 11 deg on 10: the tooth that is tightest is as tight as said, those beside
    it touch at an edge a little before their pitch point does. NaN in gives NaN out.

    References
    ----------
    .. [1] Derived; held against moved profiles. Mark: derived.

    Examples
    --------
    0.05 mm off centre, 30 deg, the loosest tooth:

    >>> print(f"{off_centre_clearance(0.05e-3, np.radians(30.0), np.radians(90.0)) * 1e3:.4f} mm")
    0.0577 mm
    """
    require_not_negative(offset=offset)
    require_angle(pressure_angle=pressure_angle)
    return offset * np.sin(position) / np.cos(pressure_angle)


@formula(
    "Lambda = F / (N K s)",
    result=_LOAD,
    source=DERIVED,
    force=Symbol("F", "N", "tangential force of all teeth together"),
    teeth=TEETH,
    pair_stiffness=Symbol("K", "N/m", "tangential stiffness of one tooth pair"),
    clearance_sigma=_SIGMA,
)
def load_parameter(
    force: Numeric, teeth: Numeric, pair_stiffness: Numeric, clearance_sigma: Numeric
) -> Numeric:
    """
    Load parameter of the sharing between teeth with random clearances.

    ::

        Lambda = F / (N K s)

    Parameters
    ----------
    force : float or array, N
        F = 2 T/D.
    teeth : float or array, -
        N.
    pair_stiffness : float or array, N/m
        K.
    clearance_sigma : float or array, m
        s, standard deviation of the clearance of a tooth pair.

    Returns
    -------
    float or array, -
        Lambda. With normal clearances the sharing depends on it and on N alone: about half the teeth
        are effective near 2, a tenth of them near 0.1.

    Raises
    ------
    DomainError
        If an argument is not above zero anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: the only number without a unit in the problem besides N. Mark: derived.

    Examples
    --------
    >>> print(f"{load_parameter(33333.0, 18, 450e6, 10e-6):.5f}")
    0.41152
    """
    require_positive(force=force, teeth=teeth, pair_stiffness=pair_stiffness, clearance_sigma=clearance_sigma)
    return force / (teeth * pair_stiffness * clearance_sigma)


@formula(
    "e_N = integral of N x phi(x) Phi(x)^(N-1) over all x",
    result=Symbol("e_N", "-", "expected maximum of N standard normal values"),
    source=Source("Order statistics of the normal distribution", "definition of the expectation", "derived"),
    teeth=TEETH,
)
def expected_maximum(teeth: Numeric) -> Numeric:
    """
    Expected maximum of N independent standard normal values.

    ::

        e_N = integral of N x phi(x) Phi(x)^(N-1) over all x

    Parameters
    ----------
    teeth : float or array, -
        N, a whole number of 1 or more.

    Returns
    -------
    float or array, -
        e_N, to rounding for any number of teeth that a spline has.

    Raises
    ------
    DomainError
        If the teeth are not whole numbers of 1 or more.

    Notes
    -----
    phi and Phi are density and distribution of the standard normal. NaN in gives NaN out.

    References
    ----------
    .. [1] Definition of an expected order statistic. Mark: derived. Tables of it: H. L. Harter,
       Biometrika 48, 1961, 151. Mark: from memory.

    Examples
    --------
    >>> print(f"{expected_maximum(10):.5f}")
    1.53875
    """
    N = np.asarray(teeth, dtype=np.float64)
    if np.any(np.less(N, 1.0) | np.isinf(N) | (np.isfinite(N) & (np.round(N) != N))):
        raise DomainError("teeth must be a whole number, 1 or more")
    x = np.arange(-_REACH, _REACH + 0.5 * _STEP, _STEP)
    below = np.array([0.5 * math.erfc(-value / math.sqrt(2.0)) for value in x])
    density = np.exp(-0.5 * x**2) / math.sqrt(2.0 * math.pi)
    # the trapezoidal rule is exact to rounding for what falls off like this
    N = N[..., np.newaxis]
    return np.asarray(_STEP * np.sum(N * x * density * below ** (N - 1.0), axis=-1))[()]


@formula(
    "s1 = (1 + e_N/Lambda) / N",
    result=_SHARE,
    source=DERIVED,
    teeth=TEETH,
    load=_LOAD,
)
def full_engagement_share(teeth: Numeric, load: Numeric) -> Numeric:
    """
    Mean share of the first tooth once all teeth touch, clearances being normal.

    ::

        s1 = (1 + e_N/Lambda) / N

    Parameters
    ----------
    teeth : float or array, -
        N, a whole number of 1 or more.
    load : float or array, -
        Lambda, from ``load_parameter``.

    Returns
    -------
    float or array, -
        s1; more than 1 where the load is far too low for all teeth to touch.

    Raises
    ------
    DomainError
        If the teeth are not whole numbers of 1 or more, or the load is not above zero.

    Notes
    -----
    Exact while all teeth touch (with Lambda of 5 nearly always); below that the true mean is
    smaller, so that the form is on the safe side. NaN in gives NaN out.

    References
    ----------
    .. [1] Derived: expectation of the exact share with n = N. Mark: derived.

    Examples
    --------
    >>> print(f"{full_engagement_share(10, 5.0):.4f}")
    0.1308
    """
    require_positive(load=load)
    return (1.0 + expected_maximum(teeth) / load) / teeth


def drawn_clearances(
    teeth: int, clearance_sigma: float, amplitude: Numeric, *, draws: int, seed: int
) -> FloatArray:
    """
    Draw the clearances of all tooth pairs: normal errors of spacing, and a shaft off centre any way.

    Parameters
    ----------
    teeth : int, -
        N.
    clearance_sigma : float, m
        Standard deviation of the clearance of a tooth pair.
    amplitude : float or array, m
        Largest clearance that the offset adds, e/cos(a): see ``off_centre_clearance``; 0 for a
        centred shaft.
    draws : int, -
        How many splines.
    seed : int
        Of the generator; equal seeds give equal errors and directions whatever the amplitude.

    Returns
    -------
    array, m
        Shape: that of the amplitude, then draws, then teeth. The mean clearance is 0.

    Raises
    ------
    DomainError
        If a count is below 1, or sigma or amplitude is negative.

    Notes
    -----
    The direction of the offset is drawn evenly around.

    Examples
    --------
    >>> print(drawn_clearances(18, 10e-6, 0.0, draws=200, seed=1).shape)
    (200, 18)
    """
    if teeth < 1 or draws < 1:
        raise DomainError("teeth and draws must be 1 or more")
    require_not_negative(clearance_sigma=clearance_sigma, amplitude=amplitude)
    generator = np.random.default_rng(seed)
    errors = clearance_sigma * generator.standard_normal((draws, teeth))
    start = generator.uniform(0.0, 2.0 * np.pi, (draws, 1))
    around = np.sin(start + 2.0 * np.pi / teeth * np.arange(teeth))
    return np.asarray(errors + np.asarray(amplitude, dtype=np.float64)[..., np.newaxis, np.newaxis] * around)
