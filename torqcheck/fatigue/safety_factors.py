"""Safety factor of one cycle with a mean stress, against endurance limit and static strength."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_positive
from torqcheck.fatigue._sources import HANDBOOK
from torqcheck.fatigue._symbols import AMPLITUDE, ENDURANCE, MEAN, STRENGTH, YIELD
from torqcheck.fatigue.mean_stress import mean_share
from torqcheck.formulas import Symbol, formula

__all__ = [
    "elliptic_safety_factor",
    "gerber_safety_factor",
    "linear_safety_factor",
]

_FACTOR = Symbol("n", "-", "safety factor, amplitude and mean growing together")


@formula(
    "1/n = sa/Se + |sm|/S",
    result=_FACTOR,
    source=HANDBOOK,
    amplitude=AMPLITUDE,
    mean=MEAN,
    endurance_limit=ENDURANCE,
    strength=STRENGTH,
)
def linear_safety_factor(
    amplitude: Numeric, mean: Numeric, endurance_limit: Numeric, strength: Numeric
) -> Numeric:
    """
    Safety factor against the endurance limit on a straight line of amplitude against mean.

    ::

        1/n = sa/Se + |sm|/S

    Parameters
    ----------
    amplitude : float or array, Pa
        sa.
    mean : float or array, Pa
        sm; its sign is ignored.
    endurance_limit : float or array, Pa
        Se.
    strength : float or array, Pa
        S: the ultimate strength gives Goodman, yield Soderberg, true fracture strength Morrow.

    Returns
    -------
    float or array, -
        n; infinite without stress.

    Raises
    ------
    DomainError
        If amplitude is negative, or a strength not above zero, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 347.
       Mark: published.

    Examples
    --------
    >>> print(f"{linear_safety_factor(206.5, 178.4, 276.0, 551.0):.2f}")
    0.93
    """
    share = mean_share(amplitude, mean, strength)
    require_positive(endurance_limit=endurance_limit)
    total = np.asarray(amplitude / endurance_limit + share)
    return np.where(np.equal(total, 0.0), np.inf, 1.0 / np.where(np.equal(total, 0.0), 1.0, total))[()]


@formula(
    "n sa/Se + (n sm/Su)^2 = 1",
    result=_FACTOR,
    source=HANDBOOK,
    amplitude=AMPLITUDE,
    mean=MEAN,
    endurance_limit=ENDURANCE,
    strength=STRENGTH,
)
def gerber_safety_factor(
    amplitude: Numeric, mean: Numeric, endurance_limit: Numeric, strength: Numeric
) -> Numeric:
    """
    Safety factor against the endurance limit, after Gerber.

    ::

        n sa/Se + (n sm/Su)^2 = 1

    Parameters
    ----------
    amplitude : float or array, Pa
        sa.
    mean : float or array, Pa
        sm; its sign is ignored.
    endurance_limit : float or array, Pa
        Se.
    strength : float or array, Pa
        Su, ultimate strength of the same kind.

    Returns
    -------
    float or array, -
        n; infinite without stress.

    Raises
    ------
    DomainError
        If amplitude is negative, or a strength not above zero, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 347.
       Mark: published.

    Examples
    --------
    >>> print(f"{gerber_safety_factor(172.0, 178.4, 276.0, 551.0):.2f}")
    1.31
    """
    share = mean_share(amplitude, mean, strength)
    require_positive(endurance_limit=endurance_limit)
    linear = np.asarray(amplitude / endurance_limit)
    # the root written without cancellation, so that it holds at no mean as well
    total = linear + np.sqrt(linear**2 + 4.0 * share**2)
    return np.where(np.equal(total, 0.0), np.inf, 2.0 / np.where(np.equal(total, 0.0), 1.0, total))[()]


@formula(
    "1/n^2 = (sa/Se)^2 + (sm/Sy)^2",
    result=_FACTOR,
    source=HANDBOOK,
    amplitude=AMPLITUDE,
    mean=MEAN,
    endurance_limit=ENDURANCE,
    yield_strength=YIELD,
)
def elliptic_safety_factor(
    amplitude: Numeric, mean: Numeric, endurance_limit: Numeric, yield_strength: Numeric
) -> Numeric:
    """
    Safety factor against endurance limit and yield, on an ellipse.

    ::

        1/n^2 = (sa/Se)^2 + (sm/Sy)^2

    Parameters
    ----------
    amplitude : float or array, Pa
        sa.
    mean : float or array, Pa
        sm; its sign is ignored.
    endurance_limit : float or array, Pa
        Se.
    yield_strength : float or array, Pa
        Sy, yield strength of the same kind.

    Returns
    -------
    float or array, -
        n; infinite without stress.

    Raises
    ------
    DomainError
        If amplitude is negative, or a strength not above zero, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 347.
       Mark: published.

    Examples
    --------
    >>> print(f"{elliptic_safety_factor(172.0, 178.4, 276.0, 413.0):.2f}")
    1.32
    """
    share = mean_share(amplitude, mean, yield_strength)
    require_positive(endurance_limit=endurance_limit)
    total = np.asarray(np.hypot(amplitude / endurance_limit, share))
    return np.where(np.equal(total, 0.0), np.inf, 1.0 / np.where(np.equal(total, 0.0), 1.0, total))[()]
