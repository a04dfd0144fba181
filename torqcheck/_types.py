"""Type aliases shared by the physics."""

from typing import TypeAlias

import numpy as np
import numpy.typing as npt

FloatArray: TypeAlias = npt.NDArray[np.float64]
Numeric: TypeAlias = float | FloatArray
