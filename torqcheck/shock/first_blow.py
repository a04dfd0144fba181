"""Closed forms for the first blow of a path with lash, undamped."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula
from torqcheck.shock._symbols import DRIVEN, DRIVING, LASH, MODEL, STIFFNESS
from torqcheck.shock.factors import natural_frequency, torque_share

__all__ = ["first_blow_on_ramp", "step_peak_with_lash"]


@formula(
    "Tp = s T (1 + sqrt(1 + 2 k b/(s T)))",
    result=Symbol("Tp", "N m", "peak torque of the blow in the path"),
    source=MODEL,
    torque=Symbol("T", "N m", "motor torque, there at once and constant"),
    driving_inertia=DRIVING,
    driven_inertia=DRIVEN,
    stiffness=STIFFNESS,
    lash=LASH,
)
def step_peak_with_lash(
    torque: Numeric, driving_inertia: Numeric, driven_inertia: Numeric, stiffness: Numeric, lash: Numeric
) -> Numeric:
    """
    Peak torque when a constant torque takes up the lash from rest, undamped.

    ::

        Tp = s T (1 + sqrt(1 + 2 k b/(s T))),  s = J2/(J1 + J2)

    Parameters
    ----------
    torque : float or array, N m
        T.
    driving_inertia : float or array, kg m^2
        J1.
    driven_inertia : float or array, kg m^2
        J2; inf if the driven side is held.
    stiffness : float or array, N m/rad
        k.
    lash : float or array, rad
        b.

    Returns
    -------
    float or array, N m
        Tp. Shape: the broadcast shape of the arguments.

    Raises
    ------
    DomainError
        If torque, an inertia or the stiffness is not above 0, or lash is negative, anywhere.

    Notes
    -----
    The falling-weight formula with the static twist s T/k. NaN gives NaN in the same place.

    References
    ----------
    .. [1] Energy balance of the two-inertia torsional model. Mark: derived.

    Examples
    --------
    >>> print(f"{step_peak_with_lash(240.0, 0.05, 1.2, 12000.0, 0.02):.5f} N m")
    634.96910 N m
    """
    if np.any(np.less_equal(torque, 0.0) | np.less_equal(stiffness, 0.0) | np.less(lash, 0.0)):
        raise DomainError("torque and stiffness must be above 0, and lash 0 or more")
    steady = torque_share(driving_inertia, driven_inertia) * torque
    return steady * (1.0 + np.sqrt(1.0 + 2.0 * stiffness * np.divide(lash, steady)))


@formula(
    "Tp = (s S/w) (u^2/2 + u + 2 atan2(u, u - 2))",
    result=Symbol("Tp", "N m", "first maximum of the torque in the path"),
    source=MODEL,
    torque_rise=Symbol("S", "N m/s", "rise of the motor torque"),
    driving_inertia=DRIVING,
    driven_inertia=DRIVEN,
    stiffness=STIFFNESS,
    lash=LASH,
)
def first_blow_on_ramp(
    torque_rise: Numeric, driving_inertia: Numeric, driven_inertia: Numeric, stiffness: Numeric, lash: Numeric
) -> Numeric:
    """
    First maximum of the path torque when a rising torque takes up the lash from rest, undamped.

    ::

        Tp = (s S/w) (u^2/2 + u + 2 atan2(u, u - 2))

        u = w (6 J1 b/S)^(1/3),  w = sqrt(k (J1 + J2)/(J1 J2)),  s = J2/(J1 + J2)

    Parameters
    ----------
    torque_rise : float or array, N m/s
        S, finite.
    driving_inertia : float or array, kg m^2
        J1.
    driven_inertia : float or array, kg m^2
        J2; inf if the driven side is held.
    stiffness : float or array, N m/rad
        k.
    lash : float or array, rad
        b.

    Returns
    -------
    float or array, N m
        Tp. Shape: the broadcast shape of the arguments.

    Raises
    ------
    DomainError
        If torque_rise, an inertia, the stiffness or the lash is not above 0 and finite (J2 may be inf).

    Notes
    -----
    Holds if the torque still rises at the maximum, 2 atan2(u, u - 2)/w after closing. Contact opens
    again on the ramp only if u is above 4.34142. NaN gives NaN in the same place.

    References
    ----------
    .. [1] Two-inertia torsional model with lash. Mark: derived.

    Examples
    --------
    >>> print(f"{first_blow_on_ramp(4000.0, 0.05, 1.2, 12000.0, 0.02):.5f} N m")
    185.02079 N m
    """
    if np.any(np.less_equal(torque_rise, 0.0) | np.less_equal(lash, 0.0)):
        raise DomainError("torque_rise and lash must be above 0")
    if np.any(np.isinf(torque_rise)):
        raise DomainError(
            "torque_rise must be finite; use step_peak_with_lash for a torque that is there at once"
        )
    w = 2.0 * np.pi * natural_frequency(driving_inertia, driven_inertia, stiffness)
    u = w * np.cbrt(6.0 * driving_inertia * np.divide(lash, torque_rise))
    unit = torque_share(driving_inertia, driven_inertia) * torque_rise / w
    return unit * (0.5 * u**2 + u + 2.0 * np.arctan2(u, u - 2.0))
