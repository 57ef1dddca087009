"""How likely a normal variate is to stay below a value, for whole arrays."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

_Z = np.linspace(-6.0, 6.0, 6001)
_CDF = np.array([0.5 * math.erfc(-z / math.sqrt(2.0)) for z in _Z])


def normal_cdf(z: NDArray[np.float64]) -> NDArray[np.float64]:
    """Probability that a standard normal variate is below `z`.

    Parameters
    ----------
    z : ndarray
        Standard score. [-]

    Returns
    -------
    ndarray
        Probability, of the shape of `z`. [-]

    Notes
    -----
    Linear interpolation of the exact function at steps of 0.002: within 2e-7; 0 or 1
    within 1e-9 beyond 6.
    """
    return np.asarray(np.interp(z, _Z, _CDF), dtype=np.float64)
