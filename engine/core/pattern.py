"""Where can this swing finish? A player's pattern as a mixture of four normal clouds.

Every swing ends in one of four ways: solid, short (fat or thin), or wild to the right or
to the left. Each is a normal cloud in polar coordinates from the ball: reach of the carry
and bearing against the start line, right positive. The roll after landing is a normal
length, never below nought. That tails are heavy and mixtures fit is from [1]_; the shares
and factors are judgement, named here once so that learning can replace them.

References
----------
.. [1] S. Ko, "Modeling and simulation of golf", PhD thesis, Columbia University, 2012.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple

import numpy as np
import numpy.typing as npt

from engine.core.normal import normal_cdf

F64 = npt.NDArray[np.float64]
Lie = Literal["tee", "fairway", "rough", "sand", "recovery"]

SOLID, SHORT, WILD_RIGHT, WILD_LEFT = range(4)

# Judgement: a mishit is short more often than wild, and finishes where these say.
SHORT_SHARE = 0.6  # of mishits
SHORT_REACH = 0.80  # of the solid reach
SHORT_REACH_SPREAD = 0.10  # of the solid reach
SHORT_LEAN = 0.7  # solid bearing spreads, towards the usual miss
SHORT_BEARING_SPREAD = 1.5  # solid bearing spreads
WILD_REACH = 0.95
WILD_REACH_SPREAD = 1.5  # solid reach spreads
WILD_LEAN = 2.3  # solid bearing spreads
WILD_BEARING_SPREAD = 1.2
WILD_TO_USUAL_SIDE = 0.85  # of wild balls, where the player has a usual miss
TILT = -0.25  # correlation of reach and bearing for a right-hander: pulled balls go farther
HEAD_WIND_WIDENS = 0.018  # of the spread per m/s of wind into the face (0.8 % per mph)


@dataclass(frozen=True, slots=True, eq=False)
class Habits:
    """How a player's swings scatter from a good lie in still air, one entry a swing.

    Attributes
    ----------
    spread_long : ndarray (n,)
        Standard deviation of solid carries over the mean. [-]
    spread_side_rad : ndarray (n,)
        Standard deviation of the finishing direction of solid shots. [rad]
    lean_rad : ndarray (n,)
        Mean finishing direction against the line meant, right positive. [rad]
    mishit : ndarray (n,)
        Share of shots that are not solid. [-]
    loft_rad : ndarray (n,)
        Loft of the club; poor lies rule out the straight faces. [rad]
    hand : int
        +1 right-handed, -1 left-handed.
    miss : int
        Side of the big miss, -1 left, 0 both, +1 right.
    """

    spread_long: F64
    spread_side_rad: F64
    lean_rad: F64
    mishit: F64
    loft_rad: F64
    hand: int
    miss: int


class Widening(NamedTuple):
    """What a lie does to scatter: factors on both spreads, and mishits added. [-]"""

    long: float = 1.0
    side: float = 1.0
    mishit: float = 0.0


PLAIN = Widening()


@dataclass(frozen=True, slots=True, eq=False)
class Pattern:
    """Where swings finish, one row a swing, one column a way of ending.

    Attributes
    ----------
    share : ndarray (n, 4)
        Probability of each way: solid, short, wild right, wild left; rows sum to 1. [-]
    reach_m, reach_sd_m : ndarray (n, 4)
        Mean and spread of the distance from the ball to where it lands. [m]
    bearing_rad, bearing_sd_rad : ndarray (n, 4)
        Mean and spread of the direction of landing against the start line. [rad]
    tilt : ndarray (n,)
        Correlation of reach and bearing among solid shots. [-]
    run_m, run_sd_m : ndarray (n,)
        Mean and spread of the roll after landing. [m]
    """

    share: F64
    reach_m: F64
    reach_sd_m: F64
    bearing_rad: F64
    bearing_sd_rad: F64
    tilt: F64
    run_m: F64
    run_sd_m: F64

    def __len__(self) -> int:
        """Return the number of swings."""
        return int(self.share.shape[0])

    def mirrored(self) -> Pattern:
        """Return the same pattern seen in a mirror; exact to the bit."""
        swap = [SOLID, SHORT, WILD_LEFT, WILD_RIGHT]
        return Pattern(
            share=self.share[:, swap],
            reach_m=self.reach_m[:, swap],
            reach_sd_m=self.reach_sd_m[:, swap],
            bearing_rad=-self.bearing_rad[:, swap],
            bearing_sd_rad=self.bearing_sd_rad[:, swap],
            tilt=-self.tilt,
            run_m=self.run_m,
            run_sd_m=self.run_sd_m,
        )

    def joined(self, other: Pattern) -> Pattern:
        """Return the swings of both, these first."""
        return Pattern(*(np.concatenate([getattr(self, f), getattr(other, f)]) for f in _FIELDS))

    def taken(self, rows: list[int] | F64 | npt.NDArray[np.intp]) -> Pattern:
        """Return the pattern of some of the swings only."""
        return Pattern(*(getattr(self, f)[rows] for f in _FIELDS))


_FIELDS = (
    "share", "reach_m", "reach_sd_m", "bearing_rad", "bearing_sd_rad", "tilt", "run_m", "run_sd_m"
)  # fmt: skip


def chance_past(*, pattern: Pattern, swing: int, distance_m: float) -> float:
    """Return the chance that a swing ends at least `distance_m` out, roll included."""
    mean = pattern.reach_m[swing] + pattern.run_m[swing]
    sd = np.hypot(pattern.reach_sd_m[swing], pattern.run_sd_m[swing])
    past = 1.0 - normal_cdf((distance_m - mean) / sd)
    return float(np.einsum("c,c->", pattern.share[swing], past))


def pattern_of(
    *,
    habits: Habits,
    reach_m: F64,
    bearing_rad: F64,
    run_m: F64,
    run_sd_m: F64,
    calm_reach_m: F64 | None = None,
    calm_bearing_rad: F64 | None = None,
    head_mps: float = 0.0,
    wind_doubt: float = 0.0,
    widening: Widening = PLAIN,
) -> Pattern:
    """Spread mean landings into the pattern of this golfer.

    Parameters
    ----------
    habits : Habits
        How the swings scatter.
    reach_m, bearing_rad : ndarray (n,)
        Mean landing of a solid shot in the conditions: distance, and direction against the
        start line without the player's lean. [m, rad]
    run_m, run_sd_m : ndarray (n,)
        Mean and spread of the roll. [m]
    calm_reach_m, calm_bearing_rad : ndarray (n,), optional
        The same landing without wind; the difference is doubted. [m, rad]
    head_mps : float
        Wind into the face, negative when it helps. [m/s]
    wind_doubt : float
        Share of the wind's effect that is in doubt, see `Wind`. [-]
    widening : Widening
        What the lie does to the scatter.

    Returns
    -------
    Pattern
        One row a swing.
    """
    head = 1.0 + HEAD_WIND_WIDENS * max(head_mps, 0.0)
    long_sd = habits.spread_long * widening.long * head * reach_m
    side_sd = habits.spread_side_rad * widening.side * head
    mishit = np.clip(habits.mishit + widening.mishit, 0.0, 0.6)
    centre = bearing_rad + habits.lean_rad
    if calm_reach_m is not None:
        long_sd = np.hypot(long_sd, wind_doubt * (reach_m - calm_reach_m))
    if calm_bearing_rad is not None:
        side_sd = np.hypot(side_sd, wind_doubt * (bearing_rad - calm_bearing_rad))

    miss = habits.miss
    usual = WILD_TO_USUAL_SIDE if miss else 0.5
    right = usual if miss >= 0 else 1.0 - usual
    left = usual if miss <= 0 else 1.0 - usual
    wild = mishit * (1.0 - SHORT_SHARE)
    return Pattern(
        share=np.stack([1.0 - mishit, mishit * SHORT_SHARE, wild * right, wild * left], axis=1),
        reach_m=np.stack(
            [reach_m, SHORT_REACH * reach_m, WILD_REACH * reach_m, WILD_REACH * reach_m], axis=1
        ),
        reach_sd_m=np.stack(
            [
                long_sd,
                SHORT_REACH_SPREAD * reach_m,
                WILD_REACH_SPREAD * long_sd,
                WILD_REACH_SPREAD * long_sd,
            ],
            axis=1,
        ),
        bearing_rad=np.stack(
            [
                centre,
                centre + SHORT_LEAN * miss * side_sd,
                centre + WILD_LEAN * side_sd,
                centre - WILD_LEAN * side_sd,
            ],
            axis=1,
        ),
        bearing_sd_rad=np.stack(
            [
                side_sd,
                SHORT_BEARING_SPREAD * side_sd,
                WILD_BEARING_SPREAD * side_sd,
                WILD_BEARING_SPREAD * side_sd,
            ],
            axis=1,
        ),
        tilt=np.full(len(reach_m), TILT * habits.hand),
        run_m=run_m,
        run_sd_m=run_sd_m,
    )
