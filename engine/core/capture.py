"""Will the hole take a ball that reaches it at this speed and this far off its centre?"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

# Rules of Golf, definition of the hole: 4.25 in across. [m]
HOLE_RADIUS_M = 0.5 * 4.25 * 0.0254
# Equipment Rules: a ball is at least 1.680 in across. [m]
BALL_RADIUS_M = 0.5 * 1.680 * 0.0254
# B. W. Holmes, "Putting: how a golf ball and hole interact", Am. J. Phys. 59 (1991) 129-136:
# fastest dead-centre ball that the far rim still stops (value from memory). [m/s]
CENTRE_SPEED_MPS = 1.63
_GRAVITY_MPS2 = 9.80665


def free_fall_speed_mps() -> float:
    """Fastest centred ball that drops half its height before it meets the far rim.

    Returns
    -------
    float
        Speed, (2 R - r) / sqrt(2 r / g). [m/s]

    Notes
    -----
    No help from the rim: a lower bound on what the hole takes, used as a check only.
    """
    fall_s = math.sqrt(2.0 * BALL_RADIUS_M / _GRAVITY_MPS2)
    return (2.0 * HOLE_RADIUS_M - BALL_RADIUS_M) / fall_s


def capture_half_width_m(*, speed_mps: NDArray[np.float64]) -> NDArray[np.float64]:
    """Largest distance off centre at which a ball of this speed is still holed.

    Parameters
    ----------
    speed_mps : ndarray
        Speed of the ball as it passes the middle of the hole. [m/s]

    Returns
    -------
    ndarray
        Half width, hole radius for a dying ball, 0 from 1.63 m/s up. [m]

    Notes
    -----
    Inverse of v <= 1.63 (1 - (d/R)^2), the usual parabola through both ends of Holmes'
    curve. Lip-outs leave along the line they came on: the hole takes no pace off them.

    References
    ----------
    .. [1] B. W. Holmes, "Putting: how a golf ball and hole interact", Am. J. Phys. 59
       (1991) 129-136.
    """
    room = np.maximum(1.0 - speed_mps / CENTRE_SPEED_MPS, 0.0)
    return np.asarray(HOLE_RADIUS_M * np.sqrt(room), dtype=np.float64)
