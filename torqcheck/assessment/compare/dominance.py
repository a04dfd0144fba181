"""Which choices others beat in everything, and by which one."""

from collections.abc import Sequence

import numpy as np

from torqcheck._types import BoolArray, FloatArray

__all__ = ["dominated_by"]


def dominated_by(scores: Sequence[Sequence[float | None]]) -> tuple[int | None, ...]:
    """
    Name for each choice one that dominates it.

    Parameters
    ----------
    scores : sequence
        One row for each choice, one column for each thing that is compared; more is better. None
        where there is nothing to state.

    Returns
    -------
    tuple
        For each choice the first one that is not dominated itself and dominates it; None for a
        choice that nothing dominates.

    Notes
    -----
    A choice dominates another if it is at least as good in every column and better in at least one.
    What is not stated is neither better nor worse than a number: two choices compare in a column only
    if both state it or neither does. So equal choices do not dominate each other, and both stay.

    Examples
    --------
    >>> dominated_by([(1.5, -2.0), (1.5, -3.0), (1.8, -3.0), (1.5, -2.0)])
    (None, 0, None, None)
    """
    if not scores:
        return ()
    table = np.array([[np.nan if value is None else value for value in row] for row in scores], dtype=float)
    over = [_over(table, choice) for choice in table]
    best = [index for index, others in enumerate(over) if not others.any()]
    return tuple(next((one for one in best if others[one]), None) for others in over)


def _over(table: FloatArray, choice: FloatArray) -> BoolArray:
    """Which rows of the table dominate a choice."""
    alike = np.isnan(table) & np.isnan(choice)
    as_good = np.all((table >= choice) | alike, axis=1)
    return np.asarray(as_good & np.any(table > choice, axis=1))
