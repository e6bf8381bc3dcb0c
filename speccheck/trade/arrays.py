"""The array types that the whole floor speaks of."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]
"""An array of double-precision numbers."""

Flags = NDArray[np.bool_]
"""An array of yes and no."""

Numbers = ArrayLike
"""What a caller may hand in where an array is wanted: a number, a sequence, an array."""


def as_array(values: Numbers) -> Array:
    """Return `values` as an array of doubles, without a copy where it is one already."""
    return np.asarray(values, dtype=np.float64)
