"""Where does every swing of this bag finish in today's conditions?"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from engine.core.air import REFERENCE, Air
from engine.core.calibrate import Swing, bag_launches
from engine.core.flight import Landing, fly
from engine.core.golfer import Golfer
from engine.core.pattern import Habits, Pattern, Widening, pattern_of
from engine.core.physics import Physics
from engine.core.wind import CALM, Wind

F64 = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Flown:
    """The bag in the air.

    Attributes
    ----------
    swings : tuple of n Swing
        What is swung.
    habits : Habits
        How each scatters from a good lie.
    pattern : Pattern
        Where each finishes here and now.
    carry_m : ndarray (n,)
        Mean carry of a solid one here and now. [m]
    """

    swings: tuple[Swing, ...]
    habits: Habits
    pattern: Pattern
    carry_m: F64


def habits_of(*, golfer: Golfer, swings: tuple[Swing, ...]) -> Habits:
    """Return how the swings of a golfer scatter."""
    by_name = {club.name: club for club in golfer.clubs}
    return Habits(
        spread_long=np.array([s.spread_long for s in swings]),
        spread_side_rad=np.array([s.spread_side_rad for s in swings]),
        lean_rad=np.array([by_name[s.club].lean_rad for s in swings]),
        mishit=np.array([by_name[s.club].mishit for s in swings]),
        driver=np.array([s.family == "driver" for s in swings]),
        hand=golfer.hand,
        miss=golfer.miss,
    )


def fly_bag(
    *,
    golfer: Golfer,
    physics: Physics,
    air: Air = REFERENCE,
    wind: Wind = CALM,
    height_m: float = 0.0,
    widening: Widening = Widening(),
) -> Flown:
    """Fly every swing in the conditions and spread it into the player's pattern.

    Parameters
    ----------
    golfer : Golfer
        Whose bag.
    physics : Physics
        Constants.
    air, wind
        Today's.
    height_m : float
        Target above the ball. [m]
    widening : Widening
        What the lie does to the scatter.

    Returns
    -------
    Flown
        Swings, scatter and pattern.

    Raises
    ------
    OutOfRange, NoSolution
        As `bag_launches` and `fly`.
    """
    swings, launch = bag_launches(golfer, physics=physics)
    habits = habits_of(golfer=golfer, swings=swings)
    down = fly(launch=launch, air=air, wind=wind, height_m=height_m, ball=physics.ball)
    still = down
    if wind.speed_mps:
        still = fly(launch=launch, air=air, wind=CALM, height_m=height_m, ball=physics.ball)
    reach, bearing = _polar(down)
    calm_reach, calm_bearing = _polar(still)
    run = _roll(down)
    return Flown(
        swings=swings,
        habits=habits,
        pattern=pattern_of(
            habits=habits,
            reach_m=reach,
            bearing_rad=bearing - launch.azimuth_rad,
            run_m=run,
            run_sd_m=0.4 * run,
            calm_reach_m=calm_reach,
            calm_bearing_rad=calm_bearing - launch.azimuth_rad,
            head_mps=wind.speed_mps * math.cos(wind.from_rad),
            widening=widening,
        ),
        carry_m=reach,
    )


def _polar(down: Landing) -> tuple[F64, F64]:
    """Return distance and bearing of landings."""
    return np.hypot(down.carry_m, down.side_m), np.arctan2(down.side_m, down.carry_m)


def _roll(down: Landing) -> F64:
    """Return the roll on ordinary turf from the speed along the ground at landing.

    A drive rolls some 20 yards and a mid iron some 5 (common practice, no source).
    """
    along = down.speed_mps * np.cos(down.descent_rad)
    return np.asarray(18.0 * (along / 25.0) ** 3.6, dtype=np.float64)
