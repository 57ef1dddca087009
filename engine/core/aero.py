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


class Pull:
    """What the air does to flights, ready to be asked a hundred times.

    Notes
    -----
    Lift saturates with the spin ratio ``s = r omega / V``, ``C_L = lift s / (s + lift_half)``;
    drag grows with the square of lift as on any lifting body, and steps up below the drag
    crisis, ``C_D = drag + induced C_L^2 + crisis / (1 + exp((Re - crisis_re) / width))``. The
    form is ours; its constants are fitted to launch rows within what [1]_ and [2]_ measured,
    see ``engine/data/ball.csv``. Forces over mass and velocity are ``rho A V C / 2 m``: what
    does not change on the way is multiplied once.

    References
    ----------
    .. [1] P. W. Bearman, J. K. Harvey, "Golf ball aerodynamics", Aeronautical Quarterly 27
       (1976) 112-122.
    .. [2] A. J. Smits, D. R. Smith, "A new aerodynamic model of a golf ball in flight",
       Science and Golf II (1994) 340-347.
    """

    def __init__(self, *, ball: Ball, density: Array, viscosity: Array) -> None:
        """Prepare for balls in air; density [kg m-3] and viscosity [Pa s] are (n,)."""
        dense = 0.5 * density * ball.area_m2 / ball.mass_kg
        self._drag, self._crisis = dense * ball.drag, dense * ball.crisis
        self._lift = dense * ball.lift
        self._induced = dense * ball.induced * ball.lift**2
        self._half = np.full_like(density, ball.lift_half / ball.radius_m)
        self._per_speed = 2.0 * ball.radius_m * density / viscosity / ball.crisis_width_re
        self._crisis_at = np.full_like(density, ball.crisis_re / ball.crisis_width_re)
        self._one = np.ones_like(density)
        self._room = np.empty((3, density.size))

    def __call__(self, *, speed: Array, spin: Array) -> tuple[Array, Array]:
        """Drag and lift over mass and velocity.

        Parameters
        ----------
        speed : ndarray (n,)
            Through the air. [m s-1]
        spin : ndarray (n,)
            [rad s-1]

        Returns
        -------
        tuple of ndarray (n,)
            Drag against the velocity, and lift across it. [s-1]
        """
        multiply, add = np.multiply, np.add
        share, step, drag = self._room
        multiply(self._half, speed, share)  # of the most lift
        add(share, spin, share)
        np.divide(spin, share, share)
        multiply(self._per_speed, speed, step)
        np.subtract(step, self._crisis_at, step)
        np.exp(step, step)
        add(step, self._one, step)
        np.divide(self._crisis, step, step)
        multiply(share, share, drag)
        multiply(drag, self._induced, drag)
        add(drag, step, drag)
        add(drag, self._drag, drag)
        multiply(drag, speed, drag)
        multiply(share, self._lift, share)
        multiply(share, speed, share)
        return drag, share
