"""Straight teeth of a tilted joint: how uneven the elastic contact is, and how much of it is left.

Not to be multiplied into the guide's stresses, whose own factor for misalignment is another scale.
"""

import numpy as np

from torqcheck._types import BoolArray, FloatArray, Numeric
from torqcheck.capacity._sources import DERIVED
from torqcheck.capacity._symbols import LENGTH
from torqcheck.domain import require_angle, require_not_negative, require_positive
from torqcheck.formulas import Symbol, formula

__all__ = ["tilt_contact_share", "tilt_load_factor", "tilt_parameter"]

MOST_STEPS = 80
"""Newton's steps; they come down on the root from one side, some 15 of them up to a parameter of 1000."""
_NEXT_TO_NOTHING = 1e-300
_TILT_PARAMETER = Symbol(
    "eta", "-", "end gap of the tilt over twice the deflection of teeth that share evenly"
)


@formula(
    "eta = c ga L / (2 w cos(a))",
    result=_TILT_PARAMETER,
    source=DERIVED,
    tilt=Symbol("ga", "rad", "angle between the two axes, fixed in space"),
    length=LENGTH,
    line_load=Symbol("w", "N/m", "tangential load of a tooth per length"),
    tooth_stiffness=Symbol("c", "N/m2", "tangential stiffness of a tooth pair per length"),
    pressure_angle=Symbol("a", "rad", "pressure angle at the pitch diameter"),
)
def tilt_parameter(
    tilt: Numeric, length: Numeric, line_load: Numeric, tooth_stiffness: Numeric, pressure_angle: Numeric
) -> Numeric:
    """
    Tilt of a joint against the elastic deflection of its teeth.

    ::

        eta = c ga L / (2 w cos(a))          w = F/(N L), load even over all teeth

    Parameters
    ----------
    tilt : float or array, rad
        ga, angle between the two axes. The sign is ignored.
    length : float or array, m
        L, length of engagement.
    line_load : float or array, N/m
        w, tangential load of a tooth per length if all teeth share evenly.
    tooth_stiffness : float or array, N/m2
        c, tangential stiffness of a tooth pair per length.
    pressure_angle : float or array, rad
        a, at the pitch diameter; of straight sides the angle between flank and radius.

    Returns
    -------
    float or array, -
        eta. Up to 1 all flanks stay in contact over their whole length.

    Raises
    ------
    DomainError
        If a size, the load or the stiffness is not above zero, or an angle is a right angle or more.

    Notes
    -----
    The gap that a tilt opens is normal to the flank; along the pitch circle, as load and stiffness
    are taken here, it is larger by 1/cos(a). NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Derived: a tilted axis is one whose offset grows along the engagement. Mark: derived.

    Examples
    --------
    62 N/mm on 25.4 mm of face, 10 N/(mm um), a tilt of 0.004 with a right angle of flank and radius:

    >>> print(f"{tilt_parameter(0.004, 0.0254, 62e3, 10e9, 0.0):.1f}")
    8.2
    """
    require_positive(length=length, line_load=line_load, tooth_stiffness=tooth_stiffness)
    require_angle(tilt=tilt, pressure_angle=pressure_angle)
    return tooth_stiffness * np.abs(tilt) * length / (2.0 * line_load * np.cos(pressure_angle))


def _on_the_grazing_tooth(ratio: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Mean load over eta, and share of the contact, where the approach is `ratio` times eta, |ratio| < 1.

    The tooth at the angle g is loaded along its whole length up to sin(g) = ratio, partly beyond it.
    """
    size = np.abs(ratio)
    start = np.arcsin(size)
    left = 0.5 * np.pi - start
    cosine = np.sqrt((1.0 - size) * (1.0 + size))
    # -ln tan(start/2), the integral of 1/sin; it is multiplied by 0 where it has no bound
    slow = np.log((1.0 + cosine) / np.maximum(size, _NEXT_TO_NOTHING))
    part = 0.25 * (ratio**2 * slow + 2.0 * ratio * left + cosine)
    touching = 0.5 * left + 0.5 * ratio * slow
    whole = np.where(ratio > 0.0, start, 0.0)
    return (part + ratio * whole) * 2.0 / np.pi, (touching + whole) * 2.0 / np.pi


def _approach(eta: FloatArray) -> tuple[FloatArray, BoolArray]:
    """Approach over eta at which the mean load is 1, where flanks part; and where they do part."""
    parted = eta > 1.0
    wanted = 1.0 / np.where(parted, eta, 2.0)
    # the mean load is convex in the approach and not below this start's: every step comes from above
    ratio = wanted.copy()
    for _ in range(MOST_STEPS):
        load, touching = _on_the_grazing_tooth(ratio)
        step = (load - wanted) / touching
        ratio = ratio - step
        if np.all(np.abs(step) <= 1e-14):
            break
    return ratio, parted


@formula(
    "Kt = 1 + eta up to eta = 1; Kt = d + eta with mean(max(0, d + eta x sin(g))) = 1 beyond",
    result=Symbol("Kt", "-", "largest over mean load per length in a tilted joint"),
    source=DERIVED,
    parameter=_TILT_PARAMETER,
)
def tilt_load_factor(parameter: Numeric) -> Numeric:
    """
    Largest over mean load per length of the teeth of a tilted joint.

    ::

        Kt = 1 + eta up to eta = 1; Kt = d + eta with mean(max(0, d + eta x sin(g))) = 1 beyond

    Parameters
    ----------
    parameter : float or array, -
        eta, from ``tilt_parameter``.

    Returns
    -------
    float or array, -
        Kt, at least 1.

    Raises
    ------
    DomainError
        If the parameter is negative anywhere.

    Notes
    -----
    The mean runs over the length, x from -1 to 1, and over the tooth positions g all around, so that
    the number of teeth does not enter; it is found in closed form but for the approach d. Rigid
    members, equal linear teeth without errors of spacing, tilted about the middle of the engagement.
    NaN in gives NaN out.

    References
    ----------
    .. [1] Derived: equilibrium of torque over all teeth. Mark: derived. A single tooth with a lead
       error would have 2 sqrt(eta) beyond 1; teeth near the axis of the tilt, which lose load, make
       it more here.

    Examples
    --------
    >>> print(f"{tilt_load_factor(0.5):.3f}, {tilt_load_factor(4.0):.3f}")
    1.500, 4.607
    """
    require_not_negative(parameter=parameter)
    eta = np.asarray(parameter, dtype=np.float64)
    ratio, parted = _approach(eta)
    return np.where(parted, (1.0 + ratio) * eta, 1.0 + eta)[()]


@formula(
    "share = mean(d + eta x sin(g) > 0)",
    result=Symbol("share", "-", "share of the flanks that is in contact"),
    source=DERIVED,
    parameter=_TILT_PARAMETER,
)
def tilt_contact_share(parameter: Numeric) -> Numeric:
    """
    Share of all flanks that is in contact when a joint is tilted.

    ::

        share = mean(d + eta x sin(g) > 0)          d from the balance of ``tilt_load_factor``

    Parameters
    ----------
    parameter : float or array, -
        eta, from ``tilt_parameter``.

    Returns
    -------
    float or array, -
        1 up to eta = 1, falling beyond.

    Raises
    ------
    DomainError
        If the parameter is negative anywhere.

    Notes
    -----
    As for ``tilt_load_factor``. NaN in gives NaN out.

    References
    ----------
    .. [1] Derived. Mark: derived.

    Examples
    --------
    >>> print(f"{tilt_contact_share(4.0):.3f}")
    0.673
    """
    require_not_negative(parameter=parameter)
    eta = np.asarray(parameter, dtype=np.float64)
    ratio, parted = _approach(eta)
    touching = np.where(parted, _on_the_grazing_tooth(ratio)[1], 1.0)
    return np.where(np.isnan(eta), np.nan, touching)[()]
