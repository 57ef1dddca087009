"""What all carries of a bag are most plausibly, from the few that were told."""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from engine.core.facts import Facts
from engine.core.gapping import Floats, carry_curve, driver_carry_of_speed
from engine.core.golfer import Club, Family
from engine.core.physics import Physics
from engine.core.skill import MEAN_HANDICAP, SD_HANDICAP, driver_carry

# How log carries of one player depart from the clean gapping curve (judgement).
_TILT: Final = 0.05  # irons as a whole against the driver
_BEND: Final = 0.025  # smooth along the bag
_BEND_RAD: Final = math.radians(12.0)
_OWN: Final = 0.02  # one club by itself: another loft, a bad fit
_TOLD: Final = 0.015  # rounding of a told carry
_TOLD_SPEED: Final = 0.04
_BEST: Final = 0.03  # doubt in how far above the mean a quoted best lies
# Run as a share of the whole length: 20 yd of the 230 of a drive is the model tee shot of course
# rating (USGA/WHS Course Rating System); the rest is judgement.
_RUN: Final[dict[Family, float]] = {
    "driver": 0.085, "wood": 0.07, "hybrid": 0.05, "iron": 0.03, "wedge": 0.015, "putter": 0.0,
}  # fmt: skip
_GOOD_SD: Final = 0.80  # mean of the better half of normal values, in standard deviations
_BEST_OF_SD: Final = 1.87  # mean of the largest of 20 normal values, in standard deviations
_GRID_M: Final = np.geomspace(75.0, 300.0, 90)


def departures(loft_rad: Floats) -> Floats:
    """Covariance of one player's log carries about the clean gapping curve.

    Parameters
    ----------
    loft_rad : ndarray (n,)
        Lofts. [rad]

    Returns
    -------
    ndarray (n, n)
        Covariance of relative departures. [-]
    """
    along = (loft_rad - math.radians(10.5)) / math.radians(36.0)
    apart = (loft_rad[:, None] - loft_rad[None, :]) / _BEND_RAD
    out: Floats = (
        _TILT**2 * np.outer(along, along)
        + _BEND**2 * np.exp(-0.5 * apart**2)
        + _OWN**2 * np.eye(loft_rad.size)
    )
    return out


def carries(
    *, facts: Facts, clubs: tuple[Club, ...], handicap: float | None, physics: Physics
) -> tuple[Floats, Floats, float]:
    """Carries of all clubs of a bag from those told, and how sure they are.

    Parameters
    ----------
    facts : Facts
        Told carries and head speed.
    clubs : tuple of n Club
        Name, family, loft and spread of every club; their carries are not looked at.
    handicap : float or None
        Handicap, None if not known. [-]
    physics : Physics
        Constants.

    Returns
    -------
    mean : ndarray (n,)
        Mean of the logarithm of each carry in metres.
    cov : ndarray (n, n)
        Covariance of the logarithms. [-]
    driver : float
        Mean of the logarithm of the driver's carry in metres, in the bag or not.

    Notes
    -----
    See `engine.core.bag.build_bag`.
    """
    names = [c.name for c in clubs]
    loft = np.array([c.loft_rad for c in clubs])
    spreads = {c.name: c.spread_long for c in clubs}
    families = {c.name: c.family for c in clubs}
    level = MEAN_HANDICAP if handicap is None else handicap
    mean_m, sd = driver_carry(level)
    if handicap is None:
        step = math.log(driver_carry(level - SD_HANDICAP)[0] / mean_m)
        sd = math.hypot(sd, step)
    grid = np.log(_GRID_M)
    weight = -0.5 * ((grid - math.log(mean_m)) / sd) ** 2
    if facts.driver_speed_mps is not None:
        at = math.log(driver_carry_of_speed(head_mps=facts.driver_speed_mps, physics=physics))
        weight = weight - 0.5 * ((grid - at) / (1.2 * _TOLD_SPEED)) ** 2
    curve = np.log(carry_curve(driver_m=_GRID_M, clubs=clubs, physics=physics))
    cov = departures(loft)
    seen, value, noise = [], [], []
    for fact in facts.clubs:
        if fact.carry_m is None or fact.name not in names:
            continue
        seen.append(names.index(fact.name))
        over = {
            "usual": 0.0,
            "good": math.log1p(_GOOD_SD * spreads[fact.name]),
            "best": math.log1p(_BEST_OF_SD * spreads[fact.name]),
            "total": -math.log1p(-_RUN[families[fact.name]]),
        }[fact.carry_is]
        value.append(math.log(fact.carry_m) - over)
        noise.append(_TOLD if fact.carry_is == "usual" else _BEST)
    if seen:
        resid = np.array(value)[None, :] - curve[:, seen]
        inside = cov[np.ix_(seen, seen)] + np.diag(np.square(noise))
        solved = np.linalg.solve(inside, resid.T).T
        weight = weight - 0.5 * np.sum(resid * solved, axis=1)
        curve = curve + solved @ cov[seen, :]
        cov = cov - cov[:, seen] @ np.linalg.solve(inside, cov[seen, :])
    share = np.exp(weight - weight.max())
    share /= share.sum()
    mean = share @ curve
    off = curve - mean
    return mean, cov + (share[:, None] * off).T @ off, float(share @ grid)
