"""Type aliases shared by the physics.

numpy's typing module takes longer to load than all of our own kernels, and only a type checker
needs it; at run time the aliases are plain arrays.
"""

from typing import TYPE_CHECKING, TypeAlias

import numpy as np

if TYPE_CHECKING:
    import numpy.typing as npt

    FloatArray: TypeAlias = npt.NDArray[np.float64]
    BoolArray: TypeAlias = npt.NDArray[np.bool_]
    IntArray: TypeAlias = npt.NDArray[np.int64]
    ArrayLike: TypeAlias = npt.ArrayLike
else:
    FloatArray = BoolArray = IntArray = ArrayLike = np.ndarray

Numeric: TypeAlias = float | FloatArray
