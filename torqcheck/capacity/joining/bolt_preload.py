"""From the torque of a wrench to the preload of a bolt, and what scatter makes of it."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.capacity._sources import DERIVED
from torqcheck.capacity.joining._bolt_symbols import (
    BOLT_DIAMETER,
    NUT,
    NUT_FACTOR,
    PRELOAD,
    TIGHTENING,
)
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.errors import DomainError
from torqcheck.formulas import Symbol, formula

__all__ = [
    "greatest_preload",
    "least_preload",
    "preload_from_torque",
    "tightening_torque",
]

_SCATTER = Symbol("s", "-", "scatter of the preload, a share of it either way")


@formula(
    "Fi = Tw / (K d)",
    result=PRELOAD,
    source=NUT,
    torque=TIGHTENING,
    diameter=BOLT_DIAMETER,
    nut_factor=NUT_FACTOR,
)
def preload_from_torque(torque: Numeric, diameter: Numeric, nut_factor: Numeric) -> Numeric:
    """
    Preload that a tightening torque gives a bolt.

    ::

        Fi = Tw / (K d)

    Parameters
    ----------
    torque : float or array, N m
        Tw, at the wrench.
    diameter : float or array, m
        d, nominal.
    nut_factor : float or array, -
        K, by the lubrication of thread and head.

    Returns
    -------
    float or array, N
        Fi, the mean; single bolts scatter about it.

    Raises
    ------
    DomainError
        If torque is negative, or another argument is not above zero, anywhere.

    Notes
    -----
    K gathers the friction of thread and head and the slope of the thread: 0.10 waxed to 0.30 dry. The
    same torque gives three times the preload on a waxed bolt. NaN in any argument gives NaN in the
    same place.

    References
    ----------
    .. [1] Instructor's solutions to Budynas and Nisbett, Mechanical Engineering Design, 8-29. Mark:
       published.

    Examples
    --------
    >>> print(f"{preload_from_torque(476.0, 0.020, 0.18) / 1e3:.1f} kN")
    132.2 kN
    """
    require_not_negative(torque=torque)
    require_positive(diameter=diameter, nut_factor=nut_factor)
    return torque / (nut_factor * diameter)


@formula(
    "Tw = K Fi d",
    result=TIGHTENING,
    source=NUT,
    preload=PRELOAD,
    diameter=BOLT_DIAMETER,
    nut_factor=NUT_FACTOR,
)
def tightening_torque(preload: Numeric, diameter: Numeric, nut_factor: Numeric) -> Numeric:
    """
    Torque of the wrench that gives a bolt its preload.

    ::

        Tw = K Fi d

    Parameters
    ----------
    preload : float or array, N
        Fi.
    diameter : float or array, m
        d, nominal.
    nut_factor : float or array, -
        K, by the lubrication of thread and head.

    Returns
    -------
    float or array, N m
        Tw.

    Raises
    ------
    DomainError
        If preload is negative, or another argument is not above zero, anywhere.

    Notes
    -----
    The inverse of ``preload_from_torque``. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Instructor's solutions to Budynas and Nisbett, Mechanical Engineering Design, 8-29. Mark:
       published.

    Examples
    --------
    >>> print(f"{tightening_torque(132.3e3, 0.020, 0.18):.0f} N m")
    476 N m
    """
    require_not_negative(preload=preload)
    require_positive(diameter=diameter, nut_factor=nut_factor)
    return nut_factor * preload * diameter


@formula(
    "Fi_min = Fi (1 - s) - Fz",
    result=Symbol("Fi_min", "N", "least preload of a bolt in service"),
    source=DERIVED,
    preload=PRELOAD,
    scatter=_SCATTER,
    preload_loss=Symbol("Fz", "N", "preload lost by settling"),
)
def least_preload(preload: Numeric, scatter: Numeric, preload_loss: Numeric = 0.0) -> Numeric:
    """
    Preload that is left of the worst bolt when the faces have settled.

    ::

        Fi_min = Fi (1 - s) - Fz

    Parameters
    ----------
    preload : float or array, N
        Fi, as meant.
    scatter : float or array, -
        s, from 0 to below 1.
    preload_loss : float or array, N, optional
        Fz.

    Returns
    -------
    float or array, N
        Fi_min; 0 where nothing is left.

    Raises
    ------
    DomainError
        If an argument is negative, or scatter is not below 1, anywhere.

    Notes
    -----
    Most of the scatter of a torque wrench is friction that all bolts of one joint share, so that it does
    not average out over many bolts. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Definition of the scatter. Mark: derived.

    Examples
    --------
    >>> print(f"{least_preload(25e3, 0.25, 2e3) / 1e3:.2f} kN")
    16.75 kN
    """
    _require_scatter(scatter)
    require_not_negative(preload=preload, preload_loss=preload_loss)
    left = preload * np.subtract(1.0, scatter) - preload_loss
    return np.maximum(left, 0.0) if isinstance(left, np.ndarray) else float(np.maximum(left, 0.0))


@formula(
    "Fi_max = Fi (1 + s)",
    result=Symbol("Fi_max", "N", "greatest preload of a bolt"),
    source=DERIVED,
    preload=PRELOAD,
    scatter=_SCATTER,
)
def greatest_preload(preload: Numeric, scatter: Numeric) -> Numeric:
    """
    Preload of the bolt that the tightening stretched most.

    ::

        Fi_max = Fi (1 + s)

    Parameters
    ----------
    preload : float or array, N
        Fi, as meant.
    scatter : float or array, -
        s, from 0 to below 1.

    Returns
    -------
    float or array, N
        Fi_max, before anything settles.

    Raises
    ------
    DomainError
        If an argument is negative, or scatter is not below 1, anywhere.

    Notes
    -----
    It should stay below the proof load. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] Definition of the scatter. Mark: derived.

    Examples
    --------
    >>> print(f"{greatest_preload(25e3, 0.25) / 1e3:.2f} kN")
    31.25 kN
    """
    _require_scatter(scatter)
    require_not_negative(preload=preload)
    return preload * np.add(1.0, scatter)


def _require_scatter(scatter: Numeric) -> None:
    """Refuse a scatter that is negative or takes everything."""
    require_not_negative(scatter=scatter)
    if np.any(np.greater_equal(scatter, 1.0)):
        raise DomainError("scatter must be below 1")
