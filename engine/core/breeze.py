"""How hard does a wind push a ball that rolls on a green?"""

from __future__ import annotations

import math

from engine.core.aero import Ball
from engine.core.air import Air
from engine.core.roll import ROLLING_SHARE
from engine.core.wind import Wind, profile

# Wind at a man's height follows the open country's profile; below it a mown green's own, whose
# roughness is about an eighth of its 4 mm of grass (canopy rule of thumb, from memory). [m]
_JOIN_M, _GREEN_ROUGHNESS_M = 2.0, 0.0005
# A ball rolls below the drag crisis, as a smooth sphere does (any text on fluids). [-]
_DRAG = 0.5


def wind_push_mps2(*, wind: Wind, air: Air, ball: Ball, pace_mps: float) -> tuple[float, float]:
    """Steady push of a wind on a ball that rolls along the line.

    Parameters
    ----------
    wind : Wind
        At 10 m, from where it comes against the line of the putt.
    air : Air
        Air on the green.
    ball : Ball
        Mass and size.
    pace_mps : float
        Mean speed of the ball. [m s-1]

    Returns
    -------
    tuple of float
        Acceleration along the line and to the right, less the drag in calm air, which the
        Stimpmeter has already counted. [m s-2]

    Notes
    -----
    Quadratic drag on the air's speed past a ball at its mean pace, with the 5/7 of a rolling
    sphere. No measurement of wind on putts was found: the size of the push is good to perhaps
    a third, its direction is sure.
    """
    centre = math.log(ball.radius_m / _GREEN_ROUGHNESS_M) / math.log(_JOIN_M / _GREEN_ROUGHNESS_M)
    speed_mps = wind.speed_mps * profile(height_m=_JOIN_M, roughness_m=wind.roughness_m) * centre
    along = -speed_mps * math.cos(wind.from_rad) - pace_mps
    right = -speed_mps * math.sin(wind.from_rad)
    past = math.hypot(along, right)
    size = 0.5 * _DRAG * air.density_kgpm3 * ball.area_m2 / ball.mass_kg * ROLLING_SHARE
    return size * (past * along + pace_mps * pace_mps), size * past * right
