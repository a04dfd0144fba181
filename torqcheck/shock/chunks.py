"""Large batches in parts, so that only one part at a time needs room to work in."""

from collections.abc import Iterator
from typing import Any

import numpy as np

from torqcheck._types import Numeric

__all__ = ["CHUNK", "is_large", "parts_of"]

CHUNK = 65_536
"""Cases advanced together: bounds the memory, and hides numpy's overhead in the last rounds."""


def is_large(arguments: dict[str, Numeric | None]) -> bool:
    """Whether the broadcast arguments hold more cases than are followed together."""
    shapes = [np.shape(value) for value in arguments.values() if isinstance(value, np.ndarray)]
    try:
        return bool(shapes) and int(np.prod(np.broadcast_shapes(*shapes))) > CHUNK
    except ValueError:  # shapes that do not fit together are reported where the arguments are checked
        return False


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
