"""Which launch does a club of this loft and speed give, and what do other swings change?"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.core.aero import Array
from engine.core.golfer import Club, Family, SwingKind

# How launch and spin ratio grow as a player is slower than the tour row of that loft.
# Fitted by eye to women's tour and average amateur figures, both from memory.
_LAUNCH_SLOWER = ((0.18, 0.26, 0.59, 0.80, 1.05), (1.25, 1.25, 1.15, 0.4, 0.2))  # loft rad, -
_SPIN_SLOWER_DRIVER, _SPIN_SLOWER = 1.4, 0.6
_FASTER, _SLOWER = -0.05, 0.45  # the law is held beyond these shares of the tour speed
_DRIVER_LAUNCH_PER_LOFT = 0.7  # common practice, no source


@dataclass(frozen=True, slots=True)
class TourRow:
    """Full swing of a tour player with one loft: rad, m/s, rad and r omega / V."""

    loft_rad: float
    speed_mps: float
    launch_rad: float
    spin_ratio: float


@dataclass(frozen=True, slots=True)
class SwingRule:
    """Factors of one kind of swing on the full swing's launch, and who can make it."""

    kind: SwingKind
    speed: float
    launch: float
    spin: float
    tilt: float
    spread_long: float
    spread_side: float
    families: frozenset[Family]


def typical_launch(
    *, clubs: tuple[Club, ...], speed_mps: Array, tour: tuple[TourRow, ...]
) -> tuple[Array, Array]:
    """Launch angle and spin ratio a full swing with each club gives at a ball speed.

    Parameters
    ----------
    clubs : tuple of n Club
        Family and loft decide; measured launch or spin is not looked at.
    speed_mps : ndarray (n,)
        Ball speed. [m s-1]
    tour : tuple of TourRow
        The driver's row first, then by loft.

    Returns
    -------
    tuple of ndarray (n,)
        Launch angle [rad] and spin ratio r omega / V [-].

    Notes
    -----
    Between the rows launch angle runs with loft and spin ratio with the tangent of loft. A
    player slower than the row launches higher and with more spin for the speed, because the
    club meets the ball with more of its loft.
    """
    driver, rest = tour[0], tour[1:]
    loft = np.array([club.loft_rad for club in clubs])
    is_driver = np.array([club.family == "driver" for club in clubs])
    at = np.array([row.loft_rad for row in rest])
    usual = np.interp(loft, at, [row.speed_mps for row in rest])
    launch = np.interp(loft, at, [row.launch_rad for row in rest])
    grip = np.tan(loft) * np.interp(loft, at, [r.spin_ratio / np.tan(r.loft_rad) for r in rest])
    by_loft = driver.launch_rad + _DRIVER_LAUNCH_PER_LOFT * (loft - driver.loft_rad)
    by_tan = driver.spin_ratio * np.tan(loft) / np.tan(driver.loft_rad)
    usual = np.where(is_driver, driver.speed_mps, usual)
    launch = np.where(is_driver, by_loft, launch)
    grip = np.where(is_driver, by_tan, grip)
    slower = np.clip(1.0 - speed_mps / usual, _FASTER, _SLOWER)
    launch = launch * (1.0 + np.interp(loft, *_LAUNCH_SLOWER) * slower)
    grip = grip * (1.0 + np.where(is_driver, _SPIN_SLOWER_DRIVER, _SPIN_SLOWER) * slower)
    return np.clip(launch, 0.05, 0.75), np.clip(grip, 0.04, 0.75)
