"""A torque-time series counted into cycles: rainflow after ASTM E1049, and crossings of zero."""

from dataclasses import dataclass

import numpy as np

from torqcheck._types import ArrayLike, FloatArray
from torqcheck.errors import DomainError

__all__ = ["CountedCycles", "counted_cycles"]


@dataclass(frozen=True, slots=True)
class CountedCycles:
    """
    Cycles of a torque-time series, N m, smallest range first.

    ``range``, ``mean`` and ``count`` belong together entry by entry; a count of 0.5 is a half cycle.
    ``crossings`` counts the changes of sign: each takes up the lash once.
    """

    range: FloatArray
    mean: FloatArray
    count: FloatArray
    crossings: int

    @property
    def amplitude(self) -> FloatArray:
        """Half the ranges."""
        return 0.5 * self.range


def counted_cycles(torque: ArrayLike, *, repeats: bool = True) -> CountedCycles:
    """
    Count the cycles of a torque-time series by rainflow.

    Parameters
    ----------
    torque : array-like, N m
        The series, equally spaced or not: only its turning points count.
    repeats : bool, optional
        Whether the series is a duty that repeats, so that its end is followed by its beginning and
        no half cycle is left. False counts it once, with half cycles.

    Returns
    -------
    CountedCycles
        Ranges, means, counts, and crossings of zero. Empty for a torque that never changes.

    Raises
    ------
    DomainError
        If torque is not one row of at least two finite numbers.

    Notes
    -----
    Rainflow pairs the largest and the smallest torque of the whole series even if hours lie between
    them; that is its point: a swing from drive to regeneration is one large cycle. A repeating
    series is turned so that it starts and ends at its largest torque, which closes the residue.

    References
    ----------
    .. [1] ASTM E1049-85, Standard Practices for Cycle Counting in Fatigue Analysis; example as
       quoted by the tests of the library that counts here. Mark: published.

    Examples
    --------
    >>> found = counted_cycles([-2, 1, -3, 5, -1, 3, -4, 4, -2], repeats=False)
    >>> print(found.range, found.count, found.crossings)
    [3. 4. 4. 6. 8. 8. 9.] [0.5 0.5 1.  0.5 0.5 0.5 0.5] 8
    """
    series = np.asarray(torque, dtype=np.float64)
    if series.ndim != 1 or series.size < 2 or not np.all(np.isfinite(series)):
        raise DomainError("torque must be one row of at least two finite numbers")
    if repeats:
        series = np.roll(series, -int(np.argmax(series)))
        series = np.append(series, series[0])
    crossings = _crossings(series)
    turning = _turning_points(series)
    if turning.size < 2:
        empty = np.zeros(0)
        return CountedCycles(empty, empty, empty, crossings)
    if turning.size == 2:  # one way and not back: half a cycle, which the library leaves out
        first, last = turning
        return CountedCycles(
            np.array([abs(last - first)]), np.array([0.5 * (first + last)]), np.array([0.5]), crossings
        )
    # pure Python, and needed only where a series is counted
    import rainflow

    found = [(cycle[0], cycle[1], cycle[2]) for cycle in rainflow.extract_cycles(turning.tolist())]
    cycles = np.array(found).reshape(-1, 3)
    kinds, which = np.unique(cycles[:, :2], axis=0, return_inverse=True)
    counts = np.bincount(which.reshape(-1), weights=cycles[:, 2], minlength=len(kinds))
    return CountedCycles(kinds[:, 0], kinds[:, 1], counts.astype(np.float64), crossings)


def _turning_points(series: FloatArray) -> FloatArray:
    """First, last and every point at which the series turns; plateaus once."""
    steps = np.diff(series)
    moving = np.concatenate(([True], steps != 0.0))
    series = series[moving]
    signs = np.sign(np.diff(series))
    turns = np.concatenate(([True], signs[1:] != signs[:-1], [True])) if signs.size else np.array([True])
    return np.asarray(series[turns])


def _crossings(series: FloatArray) -> int:
    """Changes of sign; to zero and back on the same side is none."""
    signs = np.sign(series[series != 0.0])
    return int(np.count_nonzero(signs[1:] != signs[:-1]))
