"""How would this player launch a ball to carry any distance, between the clubs and beyond?"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from engine.core.aero import Array
from engine.core.air import REFERENCE, Air
from engine.core.calibrate import SpeedHunt, bag_launches, finish_on_line
from engine.core.flight import MOST_SPIN_RADPS, Launch, fly, picked
from engine.core.golfer import Golfer
from engine.core.physics import Physics
from engine.core.wind import CALM

# Rungs below the shortest full swing and above the longest, as shares of them.
_BELOW = (0.12, 0.2, 0.3, 0.36, 0.42, 0.49, 0.56, 0.63, 0.7, 0.78, 0.86, 0.93)
_ABOVE = (1.08, 1.2)
_TRIES = 30
_LEAST_GAP = 1.02  # rungs closer than this would make slopes of noise


@dataclass(frozen=True, slots=True)
class Ladder:
    """The player's flight as a function of calm carry.

    Attributes
    ----------
    carry_m : ndarray (n,)
        Calm, level, reference air, good lie; rising. [m]
    loft_rad : ndarray (n,)
        Loft in hand. [rad]
    launch : Launch
        Fields (n,).
    lag_s : ndarray (n,)
        How much later than without air the ball comes down: what a wind across has to push it. [s]
    longest_m : float
        Calm carry of the longest full swing. [m]
    """

    carry_m: Array
    loft_rad: Array
    launch: Launch
    lag_s: Array
    longest_m: float


@lru_cache(maxsize=64)
def ladder(golfer: Golfer, *, physics: Physics, reference: Air = REFERENCE) -> Ladder:
    """Rungs of calm carry from a short pitch to past the longest club; kept per golfer.

    Parameters
    ----------
    golfer : Golfer
        Whose flight.
    physics : Physics
        Constants.
    reference : Air
        Air the stated carries belong to.

    Returns
    -------
    Ladder
        Full swings at their own carries; below them the shortest club swung slower with the
        same launch and spin ratio; above them the longest club swung faster, a shot the
        player does not have and that only gives a number to what is out of reach.

    Raises
    ------
    OutOfRange, NoSolution
        See `bag_launches`.
    """
    swings, every = bag_launches(golfer, physics=physics, reference=reference)
    full = [(s.carry_m, i) for i, s in enumerate(swings) if s.kind == "full"]
    kept: list[tuple[float, int]] = []
    for length, index in sorted(full):
        if not kept or length > _LEAST_GAP * kept[-1][0]:
            kept.append((length, index))
    low, high = kept[0], kept[-1]
    rungs = [(share * low[0], low[1]) for share in _BELOW]
    rungs += kept
    rungs += [(share * high[0], high[1]) for share in _ABOVE]
    carry = np.array([rung[0] for rung in rungs])
    pick = np.array([rung[1] for rung in rungs])
    usual = np.array([swings[i].carry_m for i in pick])
    ratio = every.spin_radps[pick] / every.speed_mps[pick]
    hunt = SpeedHunt(wanted_m=carry, speed_mps=every.speed_mps[pick] * (carry / usual) ** 0.6)
    for _ in range(_TRIES):
        launch = Launch(
            speed_mps=hunt.speed_mps,
            launch_rad=every.launch_rad[pick],
            azimuth_rad=np.zeros(pick.size),
            spin_radps=np.minimum(ratio * hunt.speed_mps, MOST_SPIN_RADPS),
            tilt_rad=every.tilt_rad[pick],
        )
        down = fly(launch=launch, air=reference, wind=CALM, ball=physics.ball)
        found = hunt.close(np.hypot(down.carry_m, down.side_m))
        if found.all():
            break
    # A rung no ball speed reaches is left out: a very short pitch, or far past a long driver.
    launch, _ = finish_on_line(launch=picked(launch, found), physics=physics, air=reference)
    loft = np.array([swings[i].loft_rad for i in pick])
    in_vacuum_s = carry[found] / (launch.speed_mps * np.cos(launch.launch_rad))
    return Ladder(
        carry_m=carry[found],
        loft_rad=loft[found],
        launch=launch,
        lag_s=down.time_s[found] - in_vacuum_s,
        longest_m=high[0],
    )
