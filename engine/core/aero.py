"""How hard does the air pull and lift a spinning golf ball?"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Ball:
    """A golf ball and its drag and lift law.

    Attributes
    ----------
    mass_kg, radius_m : float
        [kg, m]
    drag : float
        Drag coefficient without spin above the drag crisis. [-]
    induced : float
        Drag coefficient per squared lift coefficient. [-]
    lift, lift_half : float
        Lift coefficient at high spin, and the spin ratio at which half of it acts. [-]
    crisis : float
        Drag coefficient added below the drag crisis. [-]
    crisis_re, crisis_width_re : float
        Reynolds number of the crisis and its width. [-]
    decay : float
        Spin decay: d(omega)/dt = -decay * omega * V / r. [-]
    """

    mass_kg: float
    radius_m: float
    drag: float
    induced: float
    lift: float
    lift_half: float
    crisis: float
    crisis_re: float
    crisis_width_re: float
    decay: float

    @property
    def area_m2(self) -> float:
        """Frontal area. [m2]."""
        return pi * self.radius_m**2


def coefficients(*, ball: Ball, reynolds: Array, spin_ratio: Array) -> tuple[Array, Array]:
    """Drag and lift coefficients on the frontal area.

    Parameters
    ----------
    ball : Ball
        Constants of the law.
    reynolds : ndarray (n,)
        rho V d / mu. [-]
    spin_ratio : ndarray (n,)
        r omega / V. [-]

    Returns
    -------
    tuple of ndarray (n,)
        Drag and lift coefficients. [-]

    Notes
    -----
    Lift saturates with spin, drag grows with the square of lift as on any lifting body,
    and drag steps up below the drag crisis. The form is ours; its constants are fitted to
    launch rows within what [1]_ and [2]_ measured, see ``engine/data/ball.csv``.

    References
    ----------
    .. [1] P. W. Bearman, J. K. Harvey, "Golf ball aerodynamics", Aeronautical Quarterly 27
       (1976) 112-122.
    .. [2] A. J. Smits, D. R. Smith, "A new aerodynamic model of a golf ball in flight",
       Science and Golf II (1994) 340-347.
    """
    lift = spin_ratio / (spin_ratio + ball.lift_half)
    lift *= ball.lift
    step = reynolds * (1.0 / ball.crisis_width_re)
    step -= ball.crisis_re / ball.crisis_width_re
    np.exp(step, out=step)
    step += 1.0
    np.divide(ball.crisis, step, out=step)
    drag = lift * lift
    drag *= ball.induced
    drag += step
    drag += ball.drag
    return drag, lift
