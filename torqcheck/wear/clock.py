"""The clock of the grease: running hours, and how much wear they bring while it works and after."""

from dataclasses import dataclass

import numpy as np

from torqcheck._types import Numeric
from torqcheck.domain import require_not_negative, require_positive

__all__ = ["GreaseClock"]


@dataclass(frozen=True, slots=True, kw_only=True)
class GreaseClock:
    """
    Running hours against exposure: the hours that would wear as much if the grease always worked.

    Parameters
    ----------
    working : float or array, h
        For how long fresh grease works; inf for a lubricant that does not end.
    ratio : float, -
        Rate of wear after that over the rate before.
    renewal : float, h, optional
        Between renewals, each of which gives the grease its full time again.
    regreased : tuple of float, h, optional
        When it was renewed besides, rising; the regular renewals count anew from the last.

    Raises
    ------
    DomainError
        If a number is out of its range.

    Notes
    -----
    Renewed grease sets the clock back, not the worn depth.

    Examples
    --------
    >>> clock = GreaseClock(working=62.5, ratio=10.0)
    >>> print(clock.exposure(156.25), clock.hours(1000.0))
    1000.0 156.25
    """

    working: Numeric = np.inf
    ratio: float = 1.0
    renewal: float | None = None
    regreased: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        require_not_negative(working=self.working)
        require_positive(ratio=self.ratio)
        if self.renewal is not None:
            require_positive(renewal=self.renewal)
        require_positive(regreased=np.diff((0.0, *self.regreased)) if self.regreased else 1.0)

    def exposure(self, hours: Numeric) -> Numeric:
        """
        Exposure after some running hours, h.

        Parameters
        ----------
        hours : float or array, h
            Since the hours began.

        Raises
        ------
        DomainError
            If hours is negative, anywhere.
        """
        require_not_negative(hours=hours)
        total: Numeric = 0.0
        begin = 0.0
        for end in self.regreased:
            total = total + self._since_greased(np.clip(np.subtract(hours, begin), 0.0, end - begin))
            begin = end
        return total + self._since_greased(np.maximum(np.subtract(hours, begin), 0.0))

    def hours(self, exposure: Numeric) -> Numeric:
        """
        Running hours until an exposure is reached, h: the inverse of `exposure`.

        Parameters
        ----------
        exposure : float or array, h
            At median rates with the lubricant working.

        Raises
        ------
        DomainError
            If exposure is negative, anywhere.
        """
        require_not_negative(exposure=exposure)
        total: Numeric = 0.0
        left, begin = exposure, 0.0
        for end in self.regreased:
            taken = np.minimum(left, self._since_greased(end - begin))
            total = total + np.where(np.less(taken, left), end - begin, self._hours_since_greased(taken))
            left, begin = np.subtract(left, taken), end
        return np.add(total, self._hours_since_greased(left))[()]

    def _since_greased(self, hours: Numeric) -> Numeric:
        """Exposure since the grease was fresh, renewed in its intervals or not at all."""
        if self.renewal is None:
            return self._one_filling(hours)
        intervals = np.floor(np.divide(hours, self.renewal))
        rest = np.maximum(np.subtract(hours, intervals * self.renewal), 0.0)
        return intervals * self._one_filling(self.renewal) + self._one_filling(rest)

    def _hours_since_greased(self, exposure: Numeric) -> Numeric:
        if self.renewal is None:
            return self._hours_of_one_filling(exposure)
        each = self._one_filling(self.renewal)
        intervals = np.floor(np.divide(exposure, each))
        rest = np.maximum(np.subtract(exposure, intervals * each), 0.0)
        return intervals * self.renewal + self._hours_of_one_filling(rest)

    def _one_filling(self, hours: Numeric) -> Numeric:
        return np.minimum(hours, self.working) + self.ratio * np.maximum(
            np.subtract(hours, self.working), 0.0
        )

    def _hours_of_one_filling(self, exposure: Numeric) -> Numeric:
        beyond = np.maximum(np.subtract(exposure, self.working), 0.0)
        return np.minimum(exposure, self.working) + beyond / self.ratio
