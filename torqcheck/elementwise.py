"""Choices between numbers that hold for arrays as well, element by element.

With plain numbers they are what Python does, so that a scalar run stays a run on plain floats; with
arrays they broadcast. Whatever is written with them serves one scenario and a column of many alike.
"""

from typing import Any

import numpy as np

__all__ = ["chosen", "greatest", "least", "number"]


def least(first: Any, second: Any) -> Any:
    """
    Return the smaller of two numbers or, element by element, of two arrays.

    Parameters
    ----------
    first, second : float or array
        One against the other.
    """
    if isinstance(first, np.ndarray) or isinstance(second, np.ndarray):
        return np.minimum(first, second)
    return min(first, second)


def greatest(first: Any, second: Any) -> Any:
    """
    Return the larger of two numbers or, element by element, of two arrays.

    Parameters
    ----------
    first, second : float or array
        One against the other.
    """
    if isinstance(first, np.ndarray) or isinstance(second, np.ndarray):
        return np.maximum(first, second)
    return max(first, second)


def chosen(condition: Any, yes: Any, no: Any) -> Any:
    """
    Return `yes` where the condition holds and `no` where it does not.

    Parameters
    ----------
    condition : bool or array
        Which of the two is wanted.
    yes, no : float or array
        What is chosen from; both are already worked out.
    """
    if isinstance(condition, np.ndarray):
        return np.where(condition, yes, no)
    return yes if condition else no


def number(value: Any) -> Any:
    """
    Return a single value as a plain float; an array stays one.

    Parameters
    ----------
    value : float or array
        Of any kind of float.
    """
    return value if isinstance(value, np.ndarray) else float(value)
