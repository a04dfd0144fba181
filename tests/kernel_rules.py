"""What every kernel must do whatever it works out: take arrays, hand on NaN, refuse what cannot be."""

import inspect
from collections.abc import Callable, Mapping
from math import isnan
from typing import Any

import numpy as np
import pytest

from torqcheck.errors import DomainError

Kernel = Callable[..., Any]
Sample = Mapping[str, float]


def label(value: object) -> str:
    """Name a case of a kernel, or of a kernel and an argument, in the list of tests."""
    return value if isinstance(value, str) else getattr(value, "__name__", "?")


def gives_a_finite_number(function: Kernel, sample: Sample) -> float:
    """The sample names every argument in its order; what comes out is a plain float."""
    assert list(sample) == list(inspect.signature(function).parameters)
    value = function(**sample)
    assert isinstance(value, float)
    assert np.isfinite(value)
    return value


def hands_on_nan(function: Kernel, sample: Sample, name: str) -> None:
    """NaN in one argument gives NaN."""
    assert isnan(function(**{**sample, name: float("nan")}))


def gives_for_an_array_what_its_members_give(
    function: Kernel, sample: Sample, name: str, *, step: float, rtol: float
) -> None:
    """An array with NaN in it gives what each of its members gives alone."""
    several = sample[name] * np.array([1.0, step, np.nan])
    ours = function(**{**sample, name: several})
    singly = [function(**{**sample, name: float(value)}) for value in several]
    assert isnan(singly[2])
    assert ours.shape == (3,)
    np.testing.assert_allclose(ours, singly, rtol=rtol)


def broadcasts(function: Kernel, sample: Sample, *, step: float) -> None:
    """A column and a row of values give a table."""
    first, second, *_ = sample
    column, row = sample[first] * np.array([[1.0], [step]]), sample[second] * np.array([1.0, step, 1.0])
    assert function(**{**sample, first: column, second: row}).shape == (2, 3)


def ignores_the_sign(function: Kernel, sample: Sample, name: str) -> None:
    """The other sign gives the same."""
    assert function(**{**sample, name: -sample[name]}) == function(**sample)


def refuses_the_other_sign(function: Kernel, sample: Sample, name: str) -> None:
    """A size of the wrong sign is refused."""
    refuses(function, sample, {name: -sample[name]})


def refuses(function: Kernel, sample: Sample, arguments: Mapping[str, Any]) -> None:
    """The arguments are outside the range; one bad member spoils an array."""
    among_good = {name: np.append(value, sample[name]) for name, value in arguments.items()}
    for bad in (arguments, among_good):
        with pytest.raises(DomainError, match=r"must"):
            function(**{**sample, **bad})
