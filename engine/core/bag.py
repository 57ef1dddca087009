"""Which bag a golfer most plausibly carries, from the few facts they told."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, Literal

import numpy as np

from engine.core.gapping import Floats, carry_curve, club_type, driver_carry_of_speed
from engine.core.golfer import Club, Family, Golfer, ShortGame, SwingKind
from engine.core.skill import (
    MEAN_HANDICAP,
    SD_HANDICAP,
    Spread,
    club_spread,
    driver_carry,
    handicap_of_score,
    short_game,
)

Origin = Literal["told", "guessed", "learned"]
CarryIs = Literal["usual", "good", "best", "total"]

USUAL_SET: Final = ("D", "3w", "5w", "4h", "5i", "6i", "7i", "8i", "9i", "PW", "GW", "SW", "LW")
USUAL_SWINGS: Final[frozenset[SwingKind]] = frozenset(
    {"full", "choked", "three_quarter", "knocked_down"}
)
MOST_CLUBS: Final = 13  # fourteen with the putter, Rules of Golf 4.1b

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


@dataclass(frozen=True, slots=True)
class ClubFact:
    """What is known of one club; None is unknown.

    Attributes
    ----------
    name : str
        Short name as `club_type` knows it.
    carry_m : float or None
        Carry. [m]
    carry_is : {"usual", "good", "best", "total"}
        Whether it is the player's usual carry, that of the good ones, the best one
        remembered, or the usual length with its run.
    loft_rad, spread_long, spread_side_rad, lean_rad, mishit : float or None
        As in `Club`. [rad, -, rad, rad, -]
    learned : frozenset of str
        Names of the values above that came out of logged shots; the rest were told.
    """

    name: str
    carry_m: float | None = None
    carry_is: CarryIs = "usual"
    loft_rad: float | None = None
    spread_long: float | None = None
    spread_side_rad: float | None = None
    lean_rad: float | None = None
    mishit: float | None = None
    learned: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Facts:
    """What is known of one golfer; None is unknown.

    Attributes
    ----------
    clubs : tuple of ClubFact
        Clubs spoken of.
    only : bool
        True if these are all the clubs there are.
    without : frozenset of str
        Clubs the player said they do not carry.
    handicap, score : float or None
        Handicap index, or the usual score over 18 holes. [-]
    driver_speed_mps : float or None
        Speed of the driver's head. [m/s]
    hand : int or None
        +1 right-handed, -1 left-handed.
    curve_rad, miss : float or None, int or None
        As in `Golfer`.
    short : mapping of str to float
        Values of `ShortGame` that are known.
    swings : frozenset of SwingKind or None
        Swings owned.
    learned : frozenset of str
        Names of the values above that came out of logged shots.
    """

    clubs: tuple[ClubFact, ...] = ()
    only: bool = False
    without: frozenset[str] = frozenset()
    handicap: float | None = None
    score: float | None = None
    driver_speed_mps: float | None = None
    hand: int | None = None
    curve_rad: float | None = None
    miss: int | None = None
    short: Mapping[str, float] = field(default_factory=dict)
    swings: frozenset[SwingKind] | None = None
    learned: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class StartBag:
    """A full golfer, and where each value came from.

    Attributes
    ----------
    golfer : Golfer
        Every value filled.
    handicap : float
        Handicap told, worked out from the score, or guessed from the carries. [-]
    origin : mapping of (str, str) to Origin
        Keys are (club name, value name) for a club, ("", value name) for the golfer,
        ("short", value name) for touch. A value without a key was guessed.
    carry_cov : ndarray (n, n)
        Covariance of the relative errors of the carries, clubs as in the golfer. [-]
    """

    golfer: Golfer
    handicap: float
    origin: Mapping[tuple[str, str], Origin]
    carry_cov: Floats = field(compare=False, repr=False)

    def of(self, value: str, club: str = "") -> Origin:
        """Return where a value came from: told, learned or guessed."""
        return self.origin.get((club, value), "guessed")

    def doubt(self, club: str) -> float:
        """Return the relative standard deviation of a club's carry. [-]"""
        at = [c.name for c in self.golfer.clubs].index(club)
        return math.sqrt(self.carry_cov[at, at])


def build_bag(facts: Facts) -> StartBag:
    """Build a full, plausible golfer from any subset of facts.

    Parameters
    ----------
    facts : Facts
        Whatever is known; nothing at all gives an average player.

    Returns
    -------
    StartBag
        Golfer with clubs longest first, each value's origin, and the doubt in each carry.

    Notes
    -----
    Carries: the driver's carry is uncertain with the spread usual at the handicap; given it,
    log carries depart from the clean gapping curve by a tilt, a smooth bend and each club's
    own part, all normal. Told carries and head speed are observations of that; the posterior
    is closed form for each driver carry on a grid and averaged over the grid. A told usual
    carry stands as told. A carry told as the best one is the largest of some twenty shots, so
    the mean lies 1.87 standard deviations below it; a carry of the good ones is the mean of
    the better half, 0.80 above (order statistics of the normal). A told total loses its usual
    run. None of them is then a told carry.

    An unknown handicap is inferred from the driver's carry through the same published
    averages. An unknown hand is right, an unknown curve or miss is none: a side is never
    guessed.
    """
    told = {c.name: c for c in facts.clubs}
    families = {name: _type(name) for name in _names(facts)}
    names = sorted(families, key=lambda n: _loft(told.get(n), families[n][1]))
    loft = np.array([_loft(told.get(n), families[n][1]) for n in names])
    stated = facts.handicap
    if stated is None and facts.score is not None:
        stated = handicap_of_score(facts.score)
    spreads = _spreads(stated, families)
    log_carry, cov, driver_log_m = _carries(facts, names, loft, stated, spreads)
    handicap = _handicap_of_driver(driver_log_m) if stated is None else stated
    spreads = _spreads(handicap, families)

    origin: dict[tuple[str, str], Origin] = {}
    clubs = []
    for i, name in enumerate(names):
        fact = told.get(name, ClubFact(name))
        usual = fact.carry_m if fact.carry_is == "usual" else None
        known = {
            "carry_m": usual, "loft_rad": fact.loft_rad, "spread_long": fact.spread_long,
            "spread_side_rad": fact.spread_side_rad, "lean_rad": fact.lean_rad,
            "mishit": fact.mishit,
        }  # fmt: skip
        for key, value in known.items():
            if value is not None:
                origin[name, key] = "learned" if key in fact.learned else "told"
        spread = spreads[name]
        clubs.append(
            Club(
                name=name,
                family=families[name][0],
                loft_rad=float(loft[i]),
                carry_m=_or(usual, math.exp(log_carry[i])),
                spread_long=_or(fact.spread_long, spread.long),
                spread_side_rad=_or(fact.spread_side_rad, spread.side_rad),
                lean_rad=_or(fact.lean_rad, 0.0),
                mishit=_or(fact.mishit, spread.mishit),
            )
        )
    for key in ("handicap", "score", "driver_speed_mps", "hand", "curve_rad", "miss", "swings"):
        if getattr(facts, key) is not None:
            origin["", key] = "learned" if key in facts.learned else "told"
    for key in facts.short:
        origin["short", key] = "learned" if key in facts.learned else "told"
    order = sorted(range(len(clubs)), key=lambda i: -clubs[i].carry_m)
    usual_touch = short_game(handicap)
    golfer = Golfer(
        clubs=tuple(clubs[i] for i in order),
        hand=facts.hand or 1,
        curve_rad=_or(facts.curve_rad, 0.0),
        miss=facts.miss or 0,
        short=ShortGame(
            **{k: facts.short.get(k, getattr(usual_touch, k)) for k in ShortGame.__slots__}
        ),
        swings=USUAL_SWINGS if facts.swings is None else facts.swings | {"full"},
    )
    return StartBag(
        golfer=golfer,
        handicap=handicap,
        origin=origin,
        carry_cov=cov[np.ix_(order, order)],
    )


def _or(value: float | None, otherwise: float) -> float:
    return otherwise if value is None else value


def _type(name: str) -> tuple[Family, float]:
    found = club_type(name)
    if found is None:
        msg = f"no such club: {name}"
        raise ValueError(msg)
    return found


def _loft(fact: ClubFact | None, usual: float) -> float:
    return usual if fact is None or fact.loft_rad is None else fact.loft_rad


def _names(facts: Facts) -> list[str]:
    """Clubs in the bag: those spoken of, filled up from the usual set where it leaves gaps."""
    names = [c.name for c in facts.clubs]
    if facts.only:
        return names
    lofts = [_loft(c, _type(c.name)[1]) for c in facts.clubs]
    spare = [n for n in USUAL_SET if n not in names and n not in facts.without]
    spare = [n for n in spare if all(abs(_type(n)[1] - x) > math.radians(2.4) for x in lofts)]
    room = max(MOST_CLUBS - len(names), 0)
    if len(spare) > room:  # keep those furthest from any club spoken of
        spare.sort(key=lambda n: -min(abs(_type(n)[1] - x) for x in lofts))
    return names + spare[:room]


def _spreads(
    handicap: float | None, families: Mapping[str, tuple[Family, float]]
) -> dict[str, Spread]:
    level = MEAN_HANDICAP if handicap is None else handicap
    return {n: club_spread(handicap=level, family=f) for n, (f, _) in families.items()}


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


def _carries(
    facts: Facts,
    names: list[str],
    loft: Floats,
    handicap: float | None,
    spreads: Mapping[str, Spread],
) -> tuple[Floats, Floats, float]:
    """Posterior mean and covariance of log carries, and the mean log of the driver's carry."""
    level = MEAN_HANDICAP if handicap is None else handicap
    mean_m, sd = driver_carry(level)
    if handicap is None:
        step = math.log(driver_carry(level - SD_HANDICAP)[0] / mean_m)
        sd = math.hypot(sd, step)
    grid = np.log(_GRID_M)
    weight = -0.5 * ((grid - math.log(mean_m)) / sd) ** 2
    if facts.driver_speed_mps is not None:
        at = math.log(driver_carry_of_speed(facts.driver_speed_mps))
        weight = weight - 0.5 * ((grid - at) / (1.2 * _TOLD_SPEED)) ** 2
    curve = np.log(carry_curve(driver_m=_GRID_M, loft_rad=loft))
    cov = departures(loft)
    seen, value, noise = [], [], []
    for fact in facts.clubs:
        if fact.carry_m is None or fact.name not in names:
            continue
        seen.append(names.index(fact.name))
        over = {
            "usual": 0.0,
            "good": math.log1p(_GOOD_SD * spreads[fact.name].long),
            "best": math.log1p(_BEST_OF_SD * spreads[fact.name].long),
            "total": -math.log1p(-_RUN[_type(fact.name)[0]]),
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


def _handicap_of_driver(log_m: float) -> float:
    """Handicap best matching a driver carry, pulled to the average by what is not known."""
    mean_m, sd = driver_carry(MEAN_HANDICAP)
    step = math.log(driver_carry(MEAN_HANDICAP + 1.0)[0] / mean_m)
    pull = SD_HANDICAP**2 * step / (sd**2 + (SD_HANDICAP * step) ** 2)
    return min(max(MEAN_HANDICAP + pull * (log_m - math.log(mean_m)), 0.0), 40.0)
