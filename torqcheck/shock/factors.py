"""Closed forms for a path without lash: natural frequency, torque share, step and ramp factors."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula
from torqcheck.shock._symbols import DRIVEN, DRIVING, MODEL, STIFFNESS

__all__ = [
    "natural_frequency",
    "ramp_factor",
    "ramp_factor_envelope",
    "step_factor",
    "torque_share",
]

RISE_TIME = Symbol("tr", "s", "time in which the torque rises from 0 to its peak")
FREQUENCY = Symbol("f", "Hz", "natural frequency of the path in contact")


@formula(
    "s = J2/(J1 + J2)",
    result=Symbol("s", "-", "steady torque in the path over motor torque"),
    source=MODEL,
    driving_inertia=DRIVING,
    driven_inertia=DRIVEN,
)
def torque_share(driving_inertia: Numeric, driven_inertia: Numeric) -> Numeric:
    """
    Share of the motor torque that the path carries while both sides gather speed together.

    ::

        s = J2/(J1 + J2)

    Parameters
    ----------
    driving_inertia : float or array, kg m^2
        J1.
    driven_inertia : float or array, kg m^2
        J2; inf (held) gives 1.

    Returns
    -------
    float or array, -
        s, between 0 and 1. Shape: the broadcast shape of the arguments.

    Raises
    ------
    DomainError
        If an inertia is not above 0, anywhere.

    Notes
    -----
    The rest of the torque speeds up the driving inertia itself. NaN gives NaN in the same place.

    References
    ----------
    .. [1] Two-inertia torsional model. Mark: derived.

    Examples
    --------
    >>> print(f"{torque_share(0.05, 1.2):.2f}")
    0.96
    """
    require_positive(driving_inertia=driving_inertia, driven_inertia=driven_inertia)
    return 1.0 / (1.0 + np.divide(driving_inertia, driven_inertia))


@formula(
    "f = sqrt(k (J1 + J2)/(J1 J2))/(2 pi)",
    result=FREQUENCY,
    source=MODEL,
    driving_inertia=DRIVING,
    driven_inertia=DRIVEN,
    stiffness=STIFFNESS,
)
def natural_frequency(driving_inertia: Numeric, driven_inertia: Numeric, stiffness: Numeric) -> Numeric:
    """
    Natural frequency of two inertias against each other over one elastic path, undamped.

    ::

        f = sqrt(k (J1 + J2)/(J1 J2))/(2 pi)

    Parameters
    ----------
    driving_inertia : float or array, kg m^2
        J1.
    driven_inertia : float or array, kg m^2
        J2; inf if the driven side is held.
    stiffness : float or array, N m/rad
        k.

    Returns
    -------
    float or array, Hz
        f. Shape: the broadcast shape of the arguments.

    Raises
    ------
    DomainError
        If an inertia or the stiffness is not above 0, anywhere.

    Notes
    -----
    Everything referred to one shaft. NaN gives NaN in the same place.

    References
    ----------
    .. [1] Two-inertia torsional model. Mark: derived.

    Examples
    --------
    >>> print(f"{natural_frequency(0.05, 1.2, 12000.0):.5f} Hz")
    79.57747 Hz
    """
    require_positive(driving_inertia=driving_inertia, driven_inertia=driven_inertia, stiffness=stiffness)
    softness = (1.0 + np.divide(driving_inertia, driven_inertia)) / driving_inertia
    return np.sqrt(stiffness * softness) / (2.0 * np.pi)


@formula(
    "K = 1 + |sin(pi f tr)|/(pi f tr)",
    result=Symbol("K", "-", "peak torque over steady torque in the path"),
    source=MODEL,
    rise_time=RISE_TIME,
    natural_frequency=FREQUENCY,
)
def ramp_factor(rise_time: Numeric, natural_frequency: Numeric) -> Numeric:
    """
    Dynamic factor of a torque that rises along a straight line and stays, no lash, no damping.

    ::

        K = 1 + |sin(pi f tr)|/(pi f tr)

    Parameters
    ----------
    rise_time : float or array, s
        tr, from zero torque to the peak; 0 for a step.
    natural_frequency : float or array, Hz
        f.

    Returns
    -------
    float or array, -
        K, from 1 (whole periods) to 2 (step). Shape: the broadcast shape of the arguments.

    Raises
    ------
    DomainError
        If rise_time is negative or natural_frequency not above 0, anywhere.

    Notes
    -----
    Meaningless with lash. Damping lowers it, except near whole periods, where damping raises it
    above 1. The phase counts, so see ``ramp_factor_envelope`` where f is not well known. NaN gives
    NaN in the same place.

    References
    ----------
    .. [1] Jacobsen and Ayre, chart of the ramp-step maximum, reprinted in Harris' Shock and
       Vibration Handbook, ch. 8; only its wording was at hand, the formula was worked out anew.
       Mark: derived.

    Examples
    --------
    >>> print(f"{ramp_factor(0.5, 1.0):.6f}")
    1.636620
    """
    require_not_negative(rise_time=rise_time)
    require_positive(natural_frequency=natural_frequency)
    return 1.0 + np.abs(np.sinc(np.multiply(rise_time, natural_frequency)))


@formula(
    "Ke = min(2, 1 + 1/(pi f tr))",
    result=Symbol("Ke", "-", "largest dynamic factor at any phase"),
    source=MODEL,
    rise_time=RISE_TIME,
    natural_frequency=FREQUENCY,
)
def ramp_factor_envelope(rise_time: Numeric, natural_frequency: Numeric) -> Numeric:
    """
    Dynamic factor of a ramp without lash and damping, whatever its phase.

    ::

        Ke = min(2, 1 + 1/(pi f tr))

    Parameters
    ----------
    rise_time : float or array, s
        tr, from zero torque to the peak; 0 for a step.
    natural_frequency : float or array, Hz
        f.

    Returns
    -------
    float or array, -
        Ke, never below ``ramp_factor``. Shape: the broadcast shape of the arguments.

    Raises
    ------
    DomainError
        If rise_time is negative or natural_frequency not above 0, anywhere.

    Notes
    -----
    For use where the natural frequency is an estimate. NaN gives NaN in the same place.

    References
    ----------
    .. [1] Envelope of the ramp factor. Mark: derived.

    Examples
    --------
    >>> print(f"{ramp_factor_envelope(1.5, 1.0):.4f}")
    1.2122
    """
    require_not_negative(rise_time=rise_time)
    require_positive(natural_frequency=natural_frequency)
    periods = np.pi * np.multiply(rise_time, natural_frequency)
    return (1.0 + 1.0 / np.maximum(periods, 1.0))[()]


@formula(
    "Ks = 1 + exp(-2 zeta arccos(zeta)/sqrt(1 - zeta^2))",
    result=Symbol("Ks", "-", "peak torque over steady torque in the path"),
    source=MODEL,
    damping_ratio=Symbol("zeta", "-", "damping ratio of the path"),
)
def step_factor(damping_ratio: Numeric) -> Numeric:
    """
    Dynamic factor of a torque that is there at once, no lash, damped below critical.

    ::

        Ks = 1 + exp(-2 zeta arccos(zeta)/sqrt(1 - zeta^2))

    Parameters
    ----------
    damping_ratio : float or array, -
        zeta, from 0 to below 1.

    Returns
    -------
    float or array, -
        Ks, 2 without damping.

    Raises
    ------
    DomainError
        If damping_ratio is negative or not below 1, anywhere.

    Notes
    -----
    For the whole torque k x + c x', which is what the spline feels; the elastic part k x alone peaks
    lower. Ks - 1 is the coefficient of restitution of a free blow on the same path. NaN gives NaN.

    References
    ----------
    .. [1] Two-inertia torsional model. Mark: derived.

    Examples
    --------
    >>> print(f"{step_factor(0.03):.5f}")
    1.91166
    """
    if np.any(np.less(damping_ratio, 0.0) | np.greater_equal(damping_ratio, 1.0)):
        raise DomainError("damping_ratio must be 0 or more and below 1")
    zeta = damping_ratio
    return 1.0 + np.exp(-2.0 * zeta * np.arccos(zeta) / np.sqrt(1.0 - np.square(zeta)))
