"""Is a quantity inside the range the model is valid in?"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from engine.errors import OutOfRange


def within(
    name: str, value: float | NDArray[np.float64], low: float, high: float, unit: str
) -> None:
    """Refuse a value, or an array with any value, that is outside its limits or not a number.

    Raises
    ------
    OutOfRange
        With the first value that is outside.
    """
    if isinstance(value, float) and low <= value <= high:
        return
    worst = np.atleast_1d(np.asarray(value, dtype=np.float64))
    worst = worst[~((worst >= low) & (worst <= high))]
    if worst.size:
        raise OutOfRange(name, float(worst.flat[0]), low, high, unit)
