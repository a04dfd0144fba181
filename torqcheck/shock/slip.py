"""Closed forms for a slip element (a wheel on the ground, a clutch) behind an inertia."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula
from torqcheck.provenance import Source

__all__ = ["sliding_torque", "slip_onset_torque"]

MODEL = Source(
    "Three-inertia torsional model with a slip element, closed form and independent integration",
    "",
    "derived",
)
FRICTION = Symbol("Ts", "N m", "torque at which the slip element slips")
BEFORE = Symbol("Ja", "kg m^2", "part of the driven inertia before the slip element")


@formula(
    "Y = Ts/(1 - Ja/J2)",
    result=Symbol("Y", "N m", "torque in the path at which the slip element lets go"),
    source=MODEL,
    slip_torque=FRICTION,
    inertia_before_slip=BEFORE,
    driven_inertia=Symbol("J2", "kg m^2", "whole driven inertia; inf if it is held"),
)
def slip_onset_torque(slip_torque: Numeric, inertia_before_slip: Numeric, driven_inertia: Numeric) -> Numeric:
    """
    Torque in the path at which a slip element lets go.

    ::

        Y = Ts/(1 - Ja/J2)

    Parameters
    ----------
    slip_torque : float or array, N m
        Ts.
    inertia_before_slip : float or array, kg m^2
        Ja, 0 or more and below J2.
    driven_inertia : float or array, kg m^2
        J2; inf if what lies behind the element is held.

    Returns
    -------
    float or array, N m
        Y, at least Ts: part of the path torque is used up in speeding up Ja. Shape: the broadcast
        shape of the arguments.

    Raises
    ------
    DomainError
        If slip_torque is not above 0, or Ja does not lie between 0 and J2, anywhere.

    Notes
    -----
    While it grips, the element carries the path torque times Jb/J2 with Jb = J2 - Ja. NaN gives NaN.

    References
    ----------
    .. [1] Three-inertia torsional model with a slip element. Mark: derived.

    Examples
    --------
    >>> print(f"{slip_onset_torque(150.0, 0.3, 2.4):.5f} N m")
    171.42857 N m
    """
    if np.any(np.less_equal(slip_torque, 0.0)):
        raise DomainError("slip_torque must be above 0 N m")
    if np.any(np.less(inertia_before_slip, 0.0) | np.greater_equal(inertia_before_slip, driven_inertia)):
        raise DomainError("inertia_before_slip must be 0 or more and below driven_inertia")
    return np.divide(slip_torque, 1.0 - np.divide(inertia_before_slip, driven_inertia))


@formula(
    "m = (T Ja + Ts J1)/(J1 + Ja)",
    result=Symbol("m", "N m", "mean torque in the path while the element slips"),
    source=MODEL,
    torque=Symbol("T", "N m", "motor torque"),
    slip_torque=FRICTION,
    driving_inertia=Symbol("J1", "kg m^2", "inertia of the driving side"),
    inertia_before_slip=BEFORE,
)
def sliding_torque(
    torque: Numeric, slip_torque: Numeric, driving_inertia: Numeric, inertia_before_slip: Numeric
) -> Numeric:
    """
    Mean torque in the path while a slip element behind an inertia slips.

    ::

        m = (T Ja + Ts J1)/(J1 + Ja)

    Parameters
    ----------
    torque : float or array, N m
        T, of the motor, constant.
    slip_torque : float or array, N m
        Ts.
    driving_inertia : float or array, kg m^2
        J1.
    inertia_before_slip : float or array, kg m^2
        Ja.

    Returns
    -------
    float or array, N m
        m; above Ts if T is. Shape: the broadcast shape of the arguments.

    Raises
    ------
    DomainError
        If slip_torque or an inertia is not above 0, anywhere.

    Notes
    -----
    A motor torque above what slips goes on to speed up J1 and Ja together, so the path carries more
    than the element lets through. NaN gives NaN in the same place.

    References
    ----------
    .. [1] Three-inertia torsional model with a slip element. Mark: derived.

    Examples
    --------
    >>> print(f"{sliding_torque(240.0, 150.0, 0.05, 0.3):.5f} N m")
    227.14286 N m
    """
    parts = (slip_torque, driving_inertia, inertia_before_slip)
    if any(np.any(np.less_equal(part, 0.0)) for part in parts):
        raise DomainError("slip_torque and the inertias must be above 0")
    share = 1.0 / (1.0 + np.divide(driving_inertia, inertia_before_slip))
    return share * torque + (1.0 - share) * slip_torque
