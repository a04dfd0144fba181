"""Crossing the lash from rest: time, closing speed, energy of the blow, and the gentle closing torque."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source
from torqcheck.shock._symbols import DRIVEN, DRIVING, LASH

__all__ = ["blow_energy", "closing_speed", "closing_time", "closing_torque_from_blow"]

DERIVED = Source("Newton's law for the driving side alone, from rest on the coast flank", "", "derived")
RISE = Symbol("S", "N m/s", "rise of the motor torque; inf for a torque that is there at once")
PEAK = Symbol("Tm", "N m", "motor torque after the rise")


def _rise_part(
    torque_rise: Numeric, peak_torque: Numeric, driving_inertia: Numeric, lash: Numeric
) -> tuple[Numeric, Numeric, Numeric]:
    """Rise time, and way and speed at its end if the gap were wide enough."""
    wrong = (
        np.less_equal(torque_rise, 0.0),
        np.less_equal(peak_torque, 0.0),
        np.less_equal(driving_inertia, 0.0),
    )
    if any(np.any(bad) for bad in wrong) or np.any(np.less(lash, 0.0)):
        raise DomainError(
            "torque_rise, peak_torque and driving_inertia must be above 0, and lash not negative"
        )
    rise_time = np.divide(peak_torque, torque_rise)
    speed = peak_torque * rise_time / (2.0 * driving_inertia)
    return rise_time, speed * rise_time / 3.0, speed


@formula(
    "tc = (6 J1 b/S)^(1/3)",
    result=Symbol("tc", "s", "time from the beginning of the rise until the drive flanks meet"),
    source=DERIVED,
    torque_rise=RISE,
    peak_torque=PEAK,
    driving_inertia=DRIVING,
    lash=LASH,
)
def closing_time(
    torque_rise: Numeric, peak_torque: Numeric, driving_inertia: Numeric, lash: Numeric
) -> Numeric:
    """
    Time in which the motor takes up the lash, from rest.

    ::

        tc = (6 J1 b/S)^(1/3)                                      while the torque still rises
        tc = tr + (vc - vr) J1/Tm,  tr = Tm/S,  vr = S tr^2/(2 J1)     if it is at its peak before

    Parameters
    ----------
    torque_rise : float or array, N m/s
        S; inf gives tc = sqrt(2 J1 b/Tm).
    peak_torque : float or array, N m
        Tm.
    driving_inertia : float or array, kg m^2
        J1. The driven inertia has no part in it: nothing pushes it in the gap.
    lash : float or array, rad
        b.

    Returns
    -------
    float or array, s
        tc. Shape: the broadcast shape of the arguments.

    Raises
    ------
    DomainError
        If torque_rise, peak_torque or driving_inertia is not above 0, or lash is negative, anywhere.

    Notes
    -----
    The driven side stands still or moves evenly, and is not loaded. vc is the closing speed.
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Newton's law for the driving side alone. Mark: derived.

    Examples
    --------
    >>> print(f"{1e3 * closing_time(4000.0, 240.0, 0.05, 0.02):.6f} ms")
    11.447142 ms
    """
    rise_time, way, speed = _rise_part(torque_rise, peak_torque, driving_inertia, lash)
    on_ramp = np.cbrt(6.0 * driving_inertia * np.divide(lash, torque_rise))
    gain = closing_speed(torque_rise, peak_torque, driving_inertia, lash) - speed
    result = np.where(np.less_equal(lash, way), on_ramp, rise_time + gain * driving_inertia / peak_torque)
    return result[()]


@formula(
    "vc = (9 S b^2/(2 J1))^(1/3)",
    result=Symbol("vc", "rad/s", "speed at which the drive flanks meet"),
    source=DERIVED,
    torque_rise=RISE,
    peak_torque=PEAK,
    driving_inertia=DRIVING,
    lash=LASH,
)
def closing_speed(
    torque_rise: Numeric, peak_torque: Numeric, driving_inertia: Numeric, lash: Numeric
) -> Numeric:
    """
    Speed of the driving side against the driven side when the lash has been taken up, from rest.

    ::

        vc = (9 S b^2/(2 J1))^(1/3)                                    while the torque still rises
        vc = sqrt(vr^2 + 2 Tm (b - br)/J1),  br = S tr^3/(6 J1)        if it is at its peak before

    Parameters
    ----------
    torque_rise : float or array, N m/s
        S; inf gives vc = sqrt(2 Tm b/J1).
    peak_torque : float or array, N m
        Tm.
    driving_inertia : float or array, kg m^2
        J1, not the reduced inertia: nothing pushes the driven side in the gap.
    lash : float or array, rad
        b.

    Returns
    -------
    float or array, rad/s
        vc. Shape: the broadcast shape of the arguments.

    Raises
    ------
    DomainError
        If torque_rise, peak_torque or driving_inertia is not above 0, or lash is negative, anywhere.

    Notes
    -----
    tr = Tm/S is the rise time, vr = S tr^2/(2 J1) the speed at its end. A ramp 8 times slower halves
    the closing speed. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Newton's law for the driving side alone. Mark: derived.

    Examples
    --------
    >>> print(f"{closing_speed(4000.0, 240.0, 0.05, 0.02):.6f} rad/s")
    5.241483 rad/s
    """
    _, way, speed = _rise_part(torque_rise, peak_torque, driving_inertia, lash)
    short = np.minimum(lash, way)  # the part of the lash that is crossed on the ramp
    finite = np.where(np.isinf(torque_rise), 0.0, torque_rise)
    on_ramp = np.cbrt(4.5 * finite * np.square(short) / driving_inertia)
    after = np.sqrt(np.square(speed) + 2.0 * peak_torque * (lash - short) / driving_inertia)
    return np.where(np.less_equal(lash, way), on_ramp, after)[()]


@formula(
    "E = (J1 J2/(J1 + J2)) vc^2/2",
    result=Symbol("E", "J", "kinetic energy of the relative motion when the flanks meet"),
    source=Source("Two bodies in central impact, kinetic energy of the relative motion", "", "derived"),
    closing_speed=Symbol("vc", "rad/s", "speed at which the flanks meet"),
    driving_inertia=DRIVING,
    driven_inertia=DRIVEN,
)
def blow_energy(closing_speed: Numeric, driving_inertia: Numeric, driven_inertia: Numeric) -> Numeric:
    """
    Energy that the path must take up, beside what the motor goes on delivering.

    ::

        E = (J1 J2/(J1 + J2)) vc^2/2

    Parameters
    ----------
    closing_speed : float or array, rad/s
        vc.
    driving_inertia : float or array, kg m^2
        J1.
    driven_inertia : float or array, kg m^2
        J2; inf if the driven side is held.

    Returns
    -------
    float or array, J
        E. Shape: the broadcast shape of the arguments.

    Raises
    ------
    DomainError
        If an inertia is not above 0, anywhere.

    Notes
    -----
    Speed with J1 alone, energy with the reduced inertia. For a constant torque from rest
    E = s T b with s = J2/(J1 + J2). NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Kinetic energy of the relative motion of two bodies. Mark: derived.

    Examples
    --------
    >>> print(f"{blow_energy(5.241483, 0.05, 1.2):.6f} J")
    0.659355 J
    """
    if np.any(np.less_equal(driving_inertia, 0.0) | np.less_equal(driven_inertia, 0.0)):
        raise DomainError("driving_inertia and driven_inertia must be above 0 kg m^2")
    return 0.5 * driving_inertia / (1.0 + np.divide(driving_inertia, driven_inertia)) * closing_speed**2


@formula(
    "T0 = P^2/(2 s (P + k b))",
    result=Symbol("T0", "N m", "constant motor torque that closes the lash with a first blow of P"),
    source=Source("Energy balance of the first blow under constant torque, undamped", "", "derived"),
    blow_torque=Symbol("P", "N m", "peak torque of the first blow that is allowed"),
    driving_inertia=DRIVING,
    driven_inertia=DRIVEN,
    stiffness=Symbol("k", "N m/rad", "torsional stiffness of the path in contact"),
    lash=LASH,
)
def closing_torque_from_blow(
    blow_torque: Numeric,
    driving_inertia: Numeric,
    driven_inertia: Numeric,
    stiffness: Numeric,
    lash: Numeric,
) -> Numeric:
    """
    Constant motor torque that takes up the lash with a first blow of a given height.

    ::

        T0 = P^2/(2 s (P + k b)),  s = J2/(J1 + J2)

    Parameters
    ----------
    blow_torque : float or array, N m
        P, peak torque in the path that the first blow may reach.
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
        T0. Shape: the broadcast shape of the arguments.

    Raises
    ------
    DomainError
        If blow_torque, an inertia or the stiffness is not above 0, or lash is negative, anywhere.

    Notes
    -----
    Inverse of the step peak with lash. Undamped, so the real blow is a little lower. The torque is
    to be held until the flanks have come to rest on each other. NaN in any argument gives NaN in
    the same place.

    References
    ----------
    .. [1] Energy balance of the first blow. Mark: derived.

    Examples
    --------
    >>> print(f"{closing_torque_from_blow(260.0, 0.05, 1.2, 12000.0, 0.02):.3f} N m")
    70.417 N m
    """
    for value in (blow_torque, driving_inertia, driven_inertia, stiffness):
        if np.any(np.less_equal(value, 0.0)):
            raise DomainError("blow_torque, inertias and stiffness must be above 0")
    if np.any(np.less(lash, 0.0)):
        raise DomainError("lash must be 0 rad or more")
    s = 1.0 / (1.0 + np.divide(driving_inertia, driven_inertia))
    return blow_torque**2 / (2.0 * s * (blow_torque + stiffness * lash))
