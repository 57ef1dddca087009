"""How far each club of a bag carries, once the driver's carry is known.

The ball speeds of a tour player's set, scaled to the golfer, go through the launch law and the
flight itself; nothing of a carry is tabulated.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from engine.core.air import REFERENCE
from engine.core.flight import Launch, fly
from engine.core.golfer import Club, Family
from engine.core.physics import Physics
from engine.core.swing import typical_launch
from engine.core.wind import CALM

Floats = NDArray[np.float64]

# Ball speed over head speed of the tour's driver: 167.7 mph from 113.2 mph (USGA and R&A,
# driving distance report 2015).
_SMASH: Final = 167.7 / 113.2
# A slower player's irons lose less speed than the driver: with a driver at 84 % of the men's
# tour, the women's 5- to 9-irons leave at 85 to 87 % (averages as reprinted by teachers, from
# memory). The ratio of speeds is raised to this power from 30 degrees of loft on.
_IRON_POWER: Final = 0.85
_IRON_FROM_RAD: Final = math.radians(30.0)
_RATIOS: Final = np.geomspace(0.36, 1.19, 12)  # of the tour's driver ball speed
_LOFTS_RAD: Final = np.radians(np.arange(12.0, 67.1, 3.0))

_WOODS: Final = {"D": 10.5, "2w": 13, "3w": 15, "4w": 17, "5w": 18.5, "7w": 21.5, "9w": 24.5,
                 "11w": 27.5}  # fmt: skip
_HYBRIDS: Final = {"1h": 15, "2h": 17.5, "3h": 19.5, "4h": 22, "5h": 25, "6h": 28, "7h": 31.5,
                   "8h": 35.5}  # fmt: skip
_IRONS: Final = {"1i": 16, "2i": 18, "3i": 21, "4i": 24, "5i": 27, "6i": 30.5, "7i": 34, "8i": 38,
                 "9i": 42}  # fmt: skip
_WEDGES: Final[dict[str, float]] = {"PW": 46, "GW": 51, "SW": 56, "LW": 60}
_FAMILIES: Final[tuple[tuple[Family, dict[str, float]], ...]] = (
    ("wood", _WOODS), ("hybrid", _HYBRIDS), ("iron", _IRONS), ("wedge", _WEDGES),
)  # fmt: skip


def club_type(name: str) -> tuple[Family, float] | None:
    """Family and usual loft of a club by its short name.

    Parameters
    ----------
    name : str
        ``D``, ``3w``, ``4h``, ``7i``, ``PW``, or a wedge's loft in degrees such as ``56``.

    Returns
    -------
    (Family, float) or None
        Family and loft [rad]; None for a name that is no club.

    Notes
    -----
    Lofts are common practice, no source; sets differ by 3 to 4 degrees.
    """
    if name == "D":
        return "driver", math.radians(_WOODS["D"])
    for family, lofts in _FAMILIES:
        if name in lofts:
            return family, math.radians(lofts[name])
    if name.isdecimal() and 44 <= int(name) <= 66:
        return "wedge", math.radians(int(name))
    return None


@lru_cache(maxsize=4)
def _flown(physics: Physics) -> tuple[Floats, Floats]:
    """Log carries for each speed ratio: of the driver (r,), and by loft (r, l)."""
    driver, rest = physics.tour[0], physics.tour[1:]
    loft = np.concatenate([[driver.loft_rad], _LOFTS_RAD])
    usual = np.interp(loft, [r.loft_rad for r in rest], [r.speed_mps for r in rest])
    usual[0] = driver.speed_mps
    share = np.clip((loft - driver.loft_rad) / (_IRON_FROM_RAD - driver.loft_rad), 0.0, 1.0)
    power = 1.0 - (1.0 - _IRON_POWER) * share
    speed = usual * _RATIOS[:, None] ** power
    clubs = tuple(
        Club("", "iron" if i else "driver", float(x), 1.0, 0.0, 0.0) for i, x in enumerate(loft)
    )
    launch, grip = np.empty_like(speed), np.empty_like(speed)
    for row, at in enumerate(speed):
        launch[row], grip[row] = typical_launch(clubs=clubs, speed_mps=at, tour=physics.tour)
    nought = np.zeros(speed.size)
    balls = Launch(
        speed_mps=speed.ravel(),
        launch_rad=launch.ravel(),
        azimuth_rad=nought,
        spin_radps=(grip * speed).ravel() / physics.ball.radius_m,
        tilt_rad=nought,
    )
    down = fly(launch=balls, air=REFERENCE, wind=CALM, ball=physics.ball)
    log_carry = np.log(down.carry_m).reshape(speed.shape)
    return log_carry[:, 0], log_carry[:, 1:]


def carry_curve(*, driver_m: ArrayLike, clubs: tuple[Club, ...], physics: Physics) -> Floats:
    """Carries of clean shots with these clubs by a player of this driver carry.

    Parameters
    ----------
    driver_m : array_like (m,)
        Carry of the driver. [m]
    clubs : tuple of n Club
        Only family and loft are looked at.
    physics : Physics
        Constants.

    Returns
    -------
    ndarray (m, n)
        Calm, level carries in reference air. [m]

    Notes
    -----
    Every club's ball speed is the tour's for its loft times one ratio, a little nearer to the
    tour's for irons; launch and spin follow from loft and speed, and the ball is flown. The
    flights are made once, on a grid of ratio and loft, and their logarithms interpolated.
    """
    of_driver, by_loft = _flown(physics)
    log_driver = np.log(np.atleast_1d(np.asarray(driver_m, dtype=float)))
    row = np.interp(log_driver, of_driver, np.arange(_RATIOS.size))
    low = np.minimum(row.astype(int), _RATIOS.size - 2)
    part = (row - low)[:, None]
    table = by_loft[low] * (1.0 - part) + by_loft[low + 1] * part
    out = np.empty((log_driver.size, len(clubs)))
    for i, club in enumerate(clubs):
        if club.family == "driver":
            out[:, i] = log_driver
            continue
        at = np.interp(club.loft_rad, _LOFTS_RAD, np.arange(_LOFTS_RAD.size))
        left = min(int(at), _LOFTS_RAD.size - 2)
        out[:, i] = table[:, left] * (1 - at + left) + table[:, left + 1] * (at - left)
    return np.exp(out)


def driver_carry_of_speed(*, head_mps: float, physics: Physics) -> float:
    """Carry [m] of a driver swung at this head speed [m/s].

    Notes
    -----
    The tour's ratio of ball to head speed; most players' is a little lower.
    """
    of_driver, _ = _flown(physics)
    ratio = head_mps * _SMASH / physics.tour[0].speed_mps
    return math.exp(float(np.interp(ratio, _RATIOS, of_driver)))
