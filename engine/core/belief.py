"""What is believed of a golfer's clubs before any shot is logged."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from engine.core.bag import StartBag
from engine.core.heavy import Floats

# Players quote their better shots. Told carries are believed too long by this much, rising
# with the handicap, the same for the whole bag but for the doubts below. Judgement, set so
# that a 90-shooter's shots from 150 yd centre well short, as published (M. Broadie, "Clubbing
# up": 13 yd, mishits included).
_TOO_LONG: Final = 0.025
_TOO_LONG_PER_STROKE: Final = 0.003
_SHARED_DOUBT: Final = 0.03
_OWN_DOUBT: Final = 0.025
FEEL_DOUBT: Final = np.array([0.25, 0.25])  # of the wind and the height as called (judgement)
LEAN_SHARED_RAD: Final = 0.030
LEAN_OWN_RAD: Final = 0.012


@dataclass(frozen=True, slots=True, eq=False)
class Belief:
    """Prior of the learner, one row a club.

    Attributes
    ----------
    names : tuple of str
        Clubs, longest first.
    carry_m : ndarray (n,)
        Carry on the bag's card, the unit of everything relative. [m]
    offset : ndarray (n,)
        Believed true carry over that, less one. [-]
    cov : ndarray (n, n)
        Covariance of the true carries over the card's. [-]
    spread_long, spread_side, mishit : ndarray (n,)
        As in `Club`. [-, rad, -]
    miss : int
        Side of the usual miss.
    """

    names: tuple[str, ...]
    carry_m: Floats
    offset: Floats
    cov: Floats
    spread_long: Floats
    spread_side: Floats
    mishit: Floats
    miss: int


def belief_of(start: StartBag) -> Belief:
    """Return the prior that goes with a bag of told and guessed values.

    Notes
    -----
    The bag must not hold learned values, or shots would be counted twice.
    """
    clubs = start.golfer.clubs
    told = np.array([start.of("carry_m", c.name) == "told" for c in clubs], dtype=float)
    cov = np.array(start.carry_cov)
    offset = np.zeros(len(clubs))
    if told.any():
        offset -= _TOO_LONG + _TOO_LONG_PER_STROKE * max(start.handicap, 0.0)
        cov = cov + _SHARED_DOUBT**2 + np.diag(_OWN_DOUBT**2 * told)
    return Belief(
        names=tuple(c.name for c in clubs),
        carry_m=np.array([c.carry_m for c in clubs]),
        offset=offset,
        cov=cov,
        spread_long=np.array([c.spread_long for c in clubs]),
        spread_side=np.array([c.spread_side_rad for c in clubs]),
        mishit=np.array([c.mishit for c in clubs]),
        miss=start.golfer.miss,
    )
