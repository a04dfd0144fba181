"""Mean stress: the reversed amplitude that does the same damage."""

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_not_negative, require_positive
from torqcheck.fatigue._sources import HANDBOOK, MEMORY
from torqcheck.fatigue._symbols import AMPLITUDE, MEAN, REVERSED, STRENGTH, YIELD
from torqcheck.formulas import Symbol, formula

__all__ = [
    "elliptic_amplitude",
    "gerber_amplitude",
    "goodman_amplitude",
    "mean_share",
    "morrow_amplitude",
    "soderberg_amplitude",
]

_TRUE = Symbol("sf'", "Pa", "true strength at fracture of the same kind, sf' or tf'")


def mean_share(amplitude: Numeric, mean: Numeric, strength: Numeric) -> Numeric:
    """
    Mean over strength, its sign dropped: torsion knows no better direction.

    Parameters
    ----------
    amplitude, mean : float or array, Pa
        Of the stress.
    strength : float or array, Pa
        Of the same kind as the stress.

    Raises
    ------
    DomainError
        If amplitude is negative or strength not above zero, anywhere.
    """
    require_not_negative(amplitude=amplitude)
    require_positive(strength=strength)
    return np.asarray(np.abs(mean) / strength)


def _over(amplitude: Numeric, left: Numeric) -> Numeric:
    """Amplitude over what the mean leaves of the strength; infinite where it leaves nothing."""
    some = np.where(np.less_equal(left, 0.0), 1.0, left)
    reversed_amplitude = np.where(np.less_equal(left, 0.0), np.inf, np.divide(amplitude, some))
    return np.where(np.isnan(amplitude), np.nan, reversed_amplitude)[()]


@formula(
    "sr = sa / (1 - |sm|/Su)",
    result=REVERSED,
    source=HANDBOOK,
    amplitude=AMPLITUDE,
    mean=MEAN,
    strength=STRENGTH,
)
def goodman_amplitude(amplitude: Numeric, mean: Numeric, strength: Numeric) -> Numeric:
    """
    Reversed amplitude that does the same damage, after Goodman.

    ::

        sr = sa / (1 - |sm|/Su)

    Parameters
    ----------
    amplitude : float or array, Pa
        sa.
    mean : float or array, Pa
        sm; its sign is ignored.
    strength : float or array, Pa
        Su, ultimate strength of the same kind, Ssu in torsion.

    Returns
    -------
    float or array, Pa
        sr; infinite where the mean alone reaches the strength.

    Raises
    ------
    DomainError
        If amplitude is negative or strength not above zero, anywhere.

    Notes
    -----
    The rule for a notch: 72 torsion tests collected by Smith show no effect of the mean on polished
    bars and a steady fall of the limit at notches. NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 317 and
       347. Mark: published.

    Examples
    --------
    >>> print(f"{goodman_amplitude(138.355, 138.355, 633.15):.3f}")
    177.042
    """
    return _over(amplitude, 1.0 - mean_share(amplitude, mean, strength))


@formula(
    "sr = sa / (1 - (sm/Su)^2)",
    result=REVERSED,
    source=HANDBOOK,
    amplitude=AMPLITUDE,
    mean=MEAN,
    strength=STRENGTH,
)
def gerber_amplitude(amplitude: Numeric, mean: Numeric, strength: Numeric) -> Numeric:
    """
    Reversed amplitude that does the same damage, after Gerber.

    ::

        sr = sa / (1 - (sm/Su)^2)

    Parameters
    ----------
    amplitude : float or array, Pa
        sa.
    mean : float or array, Pa
        sm; its sign is ignored.
    strength : float or array, Pa
        Su, ultimate strength of the same kind.

    Returns
    -------
    float or array, Pa
        sr; infinite where the mean alone reaches the strength.

    Raises
    ------
    DomainError
        If amplitude is negative or strength not above zero, anywhere.

    Notes
    -----
    Through the middle of tests on smooth ductile bars. NaN in any argument gives NaN.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, p 347.
       Mark: published.

    Examples
    --------
    >>> print(f"{gerber_amplitude(138.355, 138.355, 633.15):.3f}")
    145.293
    """
    return _over(amplitude, 1.0 - mean_share(amplitude, mean, strength) ** 2)


@formula(
    "sr = sa / (1 - |sm|/Sy)",
    result=REVERSED,
    source=HANDBOOK,
    amplitude=AMPLITUDE,
    mean=MEAN,
    yield_strength=YIELD,
)
def soderberg_amplitude(amplitude: Numeric, mean: Numeric, yield_strength: Numeric) -> Numeric:
    """
    Reversed amplitude that does the same damage, after Soderberg.

    ::

        sr = sa / (1 - |sm|/Sy)

    Parameters
    ----------
    amplitude : float or array, Pa
        sa.
    mean : float or array, Pa
        sm; its sign is ignored.
    yield_strength : float or array, Pa
        Sy, yield strength of the same kind.

    Returns
    -------
    float or array, Pa
        sr; infinite where the mean alone reaches yield.

    Raises
    ------
    DomainError
        If amplitude is negative or yield_strength not above zero, anywhere.

    Notes
    -----
    Keeps below yield as well, and is the most cautious. NaN in any argument gives NaN.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, chapter 6.
       Mark: published.

    Examples
    --------
    >>> print(f"{soderberg_amplitude(138.355, 138.355, 457.561):.3f}")
    198.323
    """
    return _over(amplitude, 1.0 - mean_share(amplitude, mean, yield_strength))


@formula(
    "sr = sa / sqrt(1 - (sm/Sy)^2)",
    result=REVERSED,
    source=HANDBOOK,
    amplitude=AMPLITUDE,
    mean=MEAN,
    yield_strength=YIELD,
)
def elliptic_amplitude(amplitude: Numeric, mean: Numeric, yield_strength: Numeric) -> Numeric:
    """
    Reversed amplitude that does the same damage, after the ellipse through limit and yield.

    ::

        sr = sa / sqrt(1 - (sm/Sy)^2)

    Parameters
    ----------
    amplitude : float or array, Pa
        sa.
    mean : float or array, Pa
        sm; its sign is ignored.
    yield_strength : float or array, Pa
        Sy, yield strength of the same kind.

    Returns
    -------
    float or array, Pa
        sr; infinite where the mean alone reaches yield.

    Raises
    ------
    DomainError
        If amplitude is negative or yield_strength not above zero, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th ed., 2011, chapter 6.
       Mark: published.

    Examples
    --------
    >>> print(f"{elliptic_amplitude(138.355, 138.355, 457.561):.3f}")
    145.150
    """
    left = 1.0 - mean_share(amplitude, mean, yield_strength) ** 2
    return _over(amplitude, np.sqrt(np.maximum(left, 0.0)))


@formula(
    "sr = sa / (1 - |sm|/sf')",
    result=REVERSED,
    source=MEMORY,
    amplitude=AMPLITUDE,
    mean=MEAN,
    true_strength=_TRUE,
)
def morrow_amplitude(amplitude: Numeric, mean: Numeric, true_strength: Numeric) -> Numeric:
    """
    Reversed amplitude that does the same damage, after Morrow.

    ::

        sr = sa / (1 - |sm|/sf')

    Parameters
    ----------
    amplitude : float or array, Pa
        sa.
    mean : float or array, Pa
        sm; its sign is ignored.
    true_strength : float or array, Pa
        sf', true strength at fracture; in shear that of tension over sqrt(3).

    Returns
    -------
    float or array, Pa
        sr; infinite where the mean alone reaches the strength.

    Raises
    ------
    DomainError
        If amplitude is negative or true_strength not above zero, anywhere.

    Notes
    -----
    NaN in any argument gives NaN in the same place.

    References
    ----------
    .. [1] J. Morrow, as textbooks on fatigue give it. Mark: from memory.

    Examples
    --------
    >>> print(f"{morrow_amplitude(138.355, 138.355, 745.0):.3f}")
    169.909
    """
    return _over(amplitude, 1.0 - mean_share(amplitude, mean, true_strength))
