"""Which bag a golfer most plausibly carries, from the few facts they told."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Final, Literal

import numpy as np

from engine.core.carries import carries
from engine.core.facts import ClubFact, Facts
from engine.core.gapping import Floats, club_type
from engine.core.golfer import Club, Family, Golfer, ShortGame, SwingKind
from engine.core.physics import Physics
from engine.core.skill import (
    MEAN_HANDICAP,
    SD_HANDICAP,
    club_spread,
    driver_carry,
    handicap_of_score,
    short_game,
)

Origin = Literal["told", "guessed", "learned"]

USUAL_SET: Final = ("D", "3w", "5w", "4h", "5i", "6i", "7i", "8i", "9i", "PW", "GW", "SW", "LW")
USUAL_SWINGS: Final[frozenset[SwingKind]] = frozenset(
    {"full", "choked", "three_quarter", "knocked_down"}
)
MOST_CLUBS: Final = 13  # fourteen with the putter, Rules of Golf 4.1b


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


def build_bag(facts: Facts, *, physics: Physics) -> StartBag:
    """Build a full, plausible golfer from any subset of facts.

    Parameters
    ----------
    facts : Facts
        Whatever is known; nothing at all gives an average player.
    physics : Physics
        Constants.

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
    stated = facts.handicap
    if stated is None and facts.score is not None:
        stated = handicap_of_score(facts.score)
    bare = _bare_clubs(facts, MEAN_HANDICAP if stated is None else stated)
    log_carry, cov, driver_log_m = carries(
        facts=facts, clubs=bare, handicap=stated, physics=physics
    )
    handicap = _handicap_of_driver(driver_log_m) if stated is None else stated

    origin: dict[tuple[str, str], Origin] = {}
    clubs = []
    for i, plain in enumerate(_bare_clubs(facts, handicap)):
        name = plain.name
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
        clubs.append(
            replace(
                plain,
                carry_m=_or(usual, math.exp(log_carry[i])),
                spread_long=_or(fact.spread_long, plain.spread_long),
                spread_side_rad=_or(fact.spread_side_rad, plain.spread_side_rad),
                lean_rad=_or(fact.lean_rad, 0.0),
                mishit=_or(fact.mishit, plain.mishit),
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


def _bare_clubs(facts: Facts, handicap: float) -> tuple[Club, ...]:
    """All clubs of the bag by loft, as usual at this handicap; carries are still nought."""
    told = {c.name: c for c in facts.clubs}
    clubs = []
    for name in _names(facts):
        family, usual = _type(name)
        spread = club_spread(handicap=handicap, family=family)
        clubs.append(
            Club(
                name=name,
                family=family,
                loft_rad=_loft(told.get(name), usual),
                carry_m=0.0,
                spread_long=spread.long,
                spread_side_rad=spread.side_rad,
                mishit=spread.mishit,
            )
        )
    return tuple(sorted(clubs, key=lambda c: c.loft_rad))


def _handicap_of_driver(log_m: float) -> float:
    """Handicap best matching a driver carry, pulled to the average by what is not known."""
    mean_m, sd = driver_carry(MEAN_HANDICAP)
    step = math.log(driver_carry(MEAN_HANDICAP + 1.0)[0] / mean_m)
    pull = SD_HANDICAP**2 * step / (sd**2 + (SD_HANDICAP * step) ** 2)
    return min(max(MEAN_HANDICAP + pull * (log_m - math.log(mean_m)), 0.0), 40.0)
