"""How does a short shot played by feel scatter? Pitches to any length below a half swing.

All figures are judgement: a touch shot's length scatters by the player's own share, more from
worse lies; mishits are fluffed or thinned in equal parts; loft decides how much of it flies.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from engine.core.golfer import ShortGame
from engine.core.pattern import SOLID, Lie, Pattern

F64 = npt.NDArray[np.float64]

# Lie -> (spread, mishit share) against the player's own.
_LIES: dict[Lie, tuple[float, float]] = {
    "tee": (1.0, 1.0), "fairway": (1.0, 1.0), "rough": (1.5, 2.0),
    "sand": (1.1, 2.0), "recovery": (4.0, 12.0),
}  # fmt: skip
TOUCH_MOST_M = 75.0
TOUCH_LOFT_RAD = 0.75  # 43 degrees: clubs that pitch
TOUCH_SIDE = 0.45  # bearing spread over the relative length spread
FLOOR_M = 0.35  # nobody is better than this
# A player's share of scatter is that of a chip of this length, and eases as shots grow
# longer: fitted to the published strokes from 10 to 60 yards (M. Broadie, "Every Shot
# Counts", 2014, from memory).
USUAL_M, EASES, SAND_EASES = 18.0, 0.22, -0.25
FLUFFED, THINNED = 0.35, 1.5  # of the length meant
_MOST_MISHIT = 0.6
_FLIES = (0.62, 1.35)  # share of the way in the air at 43 degrees, and more per radian of loft


def touch_scatter(*, short: ShortGame, lie: Lie, distance_m: F64) -> tuple[F64, F64]:
    """Return the relative spread of length, and the share of mishits, by distance.

    Parameters
    ----------
    short : ShortGame
        Touch.
    lie : Lie
        What the ball lies on.
    distance_m : ndarray (n,)
        Length meant. [m]

    Returns
    -------
    tuple of ndarray (n,)
        Spread over length, and chance of a mishit. [-]
    """
    spread, mishits = _LIES[lie]
    sand = lie == "sand"
    own, eases = (short.sand_spread, SAND_EASES) if sand else (short.chip_spread, EASES)
    rel = np.hypot(own * spread * (USUAL_M / distance_m) ** eases, FLOOR_M / distance_m)
    return rel, np.full(len(distance_m), min(short.chip_mishit * mishits, _MOST_MISHIT))


def touch_pattern(
    *, short: ShortGame, lie: Lie, distance_m: F64, loft_rad: F64, hand: int
) -> Pattern:  # fmt: skip
    """Return the pattern of pitches, one a row.

    Parameters
    ----------
    short : ShortGame
        Touch.
    lie : Lie
        What the ball lies on.
    distance_m, loft_rad : ndarray (n,)
        Length meant, roll included, and loft of the club. [m, rad]
    hand : int
        +1 right-handed, -1 left-handed.

    Returns
    -------
    Pattern
        Fluffed balls as short ones, thinned ones as the two wild ways, straight on.
    """
    rel, mishit = touch_scatter(short=short, lie=lie, distance_m=distance_m)
    flies = np.clip(_FLIES[0] + _FLIES[1] * (loft_rad - TOUCH_LOFT_RAD), 0.5, 0.92)
    carry = flies * distance_m
    run = distance_m - carry
    long_sd = rel * distance_m
    side = TOUCH_SIDE * rel
    level = np.zeros_like(carry)
    thin = 0.25 * mishit
    pattern = Pattern(
        share=np.stack([1.0 - mishit, 0.5 * mishit, thin, thin], axis=1),
        reach_m=np.stack(
            [carry, FLUFFED * carry, THINNED * distance_m - run, THINNED * distance_m - run],
            axis=1,
        ),
        reach_sd_m=np.stack(
            [long_sd, 0.15 * distance_m, 0.2 * distance_m, 0.2 * distance_m], axis=1
        ),
        bearing_rad=np.stack([level, level, level, level], axis=1),
        bearing_sd_rad=np.stack([side, 2.0 * side, side, side], axis=1),
        tilt=np.full(len(carry), -1e-12 * hand),
        run_m=run,
        run_sd_m=0.1 * run,
    )
    pattern.reach_m[:, SOLID] = carry
    return pattern
