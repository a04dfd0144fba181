"""Large batches in parts, so that only one part at a time needs room to work in."""

from collections.abc import Iterator
from typing import Any

import numpy as np

from torqcheck._types import Numeric

__all__ = ["CHUNK", "FEW", "is_handful", "is_large", "parts_of", "single_cases"]

CHUNK = 65_536
"""Cases advanced together: bounds the memory, and hides numpy's overhead in the last rounds."""


FEW = 12
"""Cases, or fewer, that are done sooner one by one on floats than together on arrays."""


def _cases_in(arguments: dict[str, Numeric | None]) -> int:
    """Return how many cases the broadcast arguments hold; 0 if none of them is an array."""
    shapes = [np.shape(value) for value in arguments.values() if value is not None and np.ndim(value)]
    try:
        return int(np.prod(np.broadcast_shapes(*shapes))) if shapes else 0
    except ValueError:  # shapes that do not fit together are reported where the arguments are checked
        return 0


def is_large(arguments: dict[str, Numeric | None]) -> bool:
    """Whether the broadcast arguments hold more cases than are followed together."""
    return _cases_in(arguments) > CHUNK


def is_handful(arguments: dict[str, Numeric | None]) -> bool:
    """Whether the broadcast arguments are arrays of so few cases that each is better done alone."""
    return 0 < _cases_in(arguments) <= FEW


def single_cases(arguments: dict[str, Numeric | None]) -> tuple[tuple[int, ...], list[dict[str, Any]]]:
    """Shape of the batch, and the arguments of each case as single numbers."""
    given = {name: value for name, value in arguments.items() if value is not None}
    columns = np.broadcast_arrays(*given.values())
    rows = zip(*(column.ravel().tolist() for column in columns), strict=True)
    return columns[0].shape, [dict(zip(given, row, strict=True)) for row in rows]


def parts_of(arguments: dict[str, Numeric | None]) -> tuple[tuple[int, ...], Iterator[dict[str, Any]]]:
    """Shape of the batch, and its arguments part by part; single numbers stay single."""
    shape = np.broadcast_shapes(*(np.shape(value) for value in arguments.values() if value is not None))
    size = int(np.prod(shape))
    flat = {
        name: value if value is None or np.ndim(value) == 0 else np.ravel(np.broadcast_to(value, shape))
        for name, value in arguments.items()
    }
    parts = (
        {
            name: value if value is None or np.ndim(value) == 0 else np.asarray(value)[first : first + CHUNK]
            for name, value in flat.items()
        }
        for first in range(0, size, CHUNK)
    )
    return shape, parts
