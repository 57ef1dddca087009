"""What would rules of thumb say this shot plays? Shown beside the model, never in it."""

from __future__ import annotations

from math import cos

from engine.core.wind import Wind

# Common practice, no source: 1 % of the distance a mph into the wind, half of that with it,
# a yard of distance for three feet of height.
_HURT_PER_MPS = 0.01 / 0.44704
_HELP_PER_MPS = 0.005 / 0.44704


def thumb_m(*, target_m: float, wind: Wind, height_m: float) -> float:
    """Plays-as distance by rules of thumb for wind and height. [m].

    Parameters
    ----------
    target_m : float
        Distance to the target as it lies. [m]
    wind : Wind
        Only its part along the line counts.
    height_m : float
        Target above the ball. [m]

    Returns
    -------
    float
        [m]
    """
    against = wind.speed_mps * cos(wind.from_rad)
    share = _HURT_PER_MPS if against > 0.0 else _HELP_PER_MPS
    return target_m * (1.0 + share * against) + height_m
