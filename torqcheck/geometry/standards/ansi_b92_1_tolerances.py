"""Tolerances of tooth thickness and space width of ANSI B92.1, by fit class."""

from torqcheck.errors import DomainError

__all__ = ["FIT_CLASSES", "machining_tolerance", "variation_allowance"]

# Class 5, in 0.0001 in, as remembered from the standard's tolerance table (mark: from memory); linear
# in the number of teeth: value at 10 teeth and rise per tooth.
# coarsest pitch of the group: (machining at 10, rise, variation at 10, rise)
_CLASS_5 = (
    (24.0, (11.7, 0.07, 12.2, 0.12)),
    (16.0, (11.7, 0.07, 14.2, 0.12)),
    (10.0, (12.0, 0.10, 15.7, 0.17)),
    (6.0, (12.5, 0.15, 17.0, 0.20)),
    (4.0, (14.5, 0.15, 20.3, 0.23)),
    (0.0, (15.8, 0.18, 23.5, 0.35)),
)
_TEN_THOUSANDTH = 0.0254e-4

FIT_CLASSES = {4: 0.71, 5: 1.00, 6: 1.40, 7: 2.00}
"""Factor of each fit class on the values of class 5 (mark: from memory)."""


def _row(diametral_pitch: float) -> tuple[float, float, float, float]:
    """Return the row of the pitch group; finer than 48/96 keeps the last group."""
    return next(row for coarsest, row in _CLASS_5 if diametral_pitch >= coarsest)


def _factor(fit_class: int) -> float:
    """Return the factor of a fit class."""
    if fit_class not in FIT_CLASSES:
        raise DomainError(f"fit class {fit_class!r} is not one of {', '.join(map(str, FIT_CLASSES))}")
    return FIT_CLASSES[fit_class]


def machining_tolerance(teeth: int, diametral_pitch: float, fit_class: int = 5) -> float:
    """
    Machining tolerance on tooth thickness or space width, m.

    Parameters
    ----------
    teeth : int, -
        Number of teeth.
    diametral_pitch : float
        Teeth per inch of pitch diameter.
    fit_class : int, optional
        4 (closest) to 7.

    Raises
    ------
    DomainError
        If the fit class does not exist.
    """
    at_ten, rise, _, _ = _row(diametral_pitch)
    return _factor(fit_class) * (at_ten + rise * (teeth - 10)) * _TEN_THOUSANDTH


def variation_allowance(teeth: int, diametral_pitch: float, fit_class: int = 5) -> float:
    """
    Part of the space that errors of spacing, profile and lead may take up, m.

    Parameters
    ----------
    teeth : int, -
        Number of teeth.
    diametral_pitch : float
        Teeth per inch of pitch diameter.
    fit_class : int, optional
        4 (closest) to 7.

    Raises
    ------
    DomainError
        If the fit class does not exist.
    """
    _, _, at_ten, rise = _row(diametral_pitch)
    return _factor(fit_class) * (at_ten + rise * (teeth - 10)) * _TEN_THOUSANDTH
