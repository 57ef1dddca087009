"""Which stored numbers a golfer's shots say are wrong, and how surely."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import NormalDist
from typing import Final, Literal

import numpy as np

from engine.core.belief import Belief
from engine.core.golfer import Golfer
from engine.core.learn import Learned

Value = Literal[
    "carry_m", "spread_long", "spread_side_rad", "lean_rad", "mishit", "miss", "wind_feel",
    "height_feel",
]  # fmt: skip

FEW: Final = 10  # solid shots below which a club is not well known (strategy of sample sizes)
_LEAST: Final = 5  # solid shots below which nothing is suggested
_SURE: Final = 0.80
_EIGHTY: Final = NormalDist().inv_cdf(0.90)
# Differences too small to matter to a choice (judgement), relative or in radians.
_CARRY: Final = 0.012
_SPREAD: Final = 0.12
_LEAN: Final = math.radians(0.6)
_MISHIT: Final = 0.02
_FEEL: Final = 0.05
_MISS: Final = 0.10
_MISSES: Final = 8  # mishits with a known side below which no usual side is suggested
_PICKED: Final = 0.03


@dataclass(frozen=True, slots=True)
class Suggestion:
    """One stored value that logged shots contradict.

    Attributes
    ----------
    club : str
        Club, empty for a value of the golfer.
    value : Value
        Which value; its unit is in its name, feels and shares have none.
    stored, learned : float
        As stored, and as the shots say.
    half : float
        The learned value is within this of the truth four times in five.
    solid : float
        Expected number of solid shots behind it.
    """

    club: str
    value: Value
    stored: float
    learned: float
    half: float
    solid: float

    @property
    def few(self) -> bool:
        """Whether fewer than ten solid shots stand behind it."""
        return round(self.solid) < FEW


def sure(*, stored: float, learned: float, sd: float, matters: float) -> bool:
    """Whether the truth surely lies further from what is stored than matters.

    Parameters
    ----------
    stored, learned, sd, matters : float
        Stored value, mean and standard deviation of what was learned, and the least
        difference that matters; one unit.

    Returns
    -------
    bool
        True where that has a chance of at least four in five.
    """
    off = abs(learned - stored) - matters
    return off > 0.0 and NormalDist().cdf(off / max(sd, 1e-12)) >= _SURE


def suggestions(
    golfer: Golfer, learned: Learned, *, wind_feel: float = 1.0, height_feel: float = 1.0
) -> tuple[Suggestion, ...]:
    """List the stored values that logged shots contradict, carries first.

    Parameters
    ----------
    golfer : Golfer
        As stored, learned values taken over before included.
    learned : Learned
        Posterior from all shots.
    wind_feel, height_feel : float
        Stored factors of true over called. [-]

    Returns
    -------
    tuple of Suggestion
        In order of clubs, then the golfer's own values.
    """
    carries: list[Suggestion] = []
    rest: list[Suggestion] = []
    row = {name: i for i, name in enumerate(learned.names)}
    for club in golfer.clubs:
        i = row.get(club.name)
        if i is None or learned.solid[i] < _LEAST:
            continue
        solid, bad = float(learned.solid[i]), float(learned.bad[i])
        carry, sd = float(learned.carry_m[i]), float(learned.carry_sd_m[i])
        if sure(stored=club.carry_m, learned=carry, sd=sd, matters=_CARRY * club.carry_m):
            carries.append(
                Suggestion(club.name, "carry_m", club.carry_m, carry, _EIGHTY * sd, solid)
            )
        if solid < 2 * FEW:  # a spread needs about three times the shots a mean does
            continue
        long, side = float(learned.spread_long[i]), float(learned.spread_side[i])
        share = float(learned.mishit[i])
        others: tuple[tuple[Value, float, float, float, float], ...] = (
            ("spread_long", club.spread_long, long, long * float(learned.spread_doubt[i]),
             _SPREAD * club.spread_long),
            ("spread_side_rad", club.spread_side_rad, side,
             side * float(learned.spread_side_doubt[i]), _SPREAD * club.spread_side_rad),
            ("lean_rad", club.lean_rad, float(learned.lean[i]), float(learned.lean_sd[i]), _LEAN),
            ("mishit", club.mishit, share,
             math.sqrt(share * (1 - share) / (solid + bad + 50.0)), _MISHIT),
        )  # fmt: skip
        rest.extend(
            Suggestion(club.name, value, stored, new, _EIGHTY * doubt, solid)
            for value, stored, new, doubt, matters in others
            if sure(stored=stored, learned=new, sd=doubt, matters=matters)
        )
    return (*carries, *rest, *_of_player(golfer, learned, wind_feel, height_feel))


def _of_player(
    golfer: Golfer, learned: Learned, wind_feel: float, height_feel: float
) -> list[Suggestion]:
    """Suggestions that belong to no club."""
    total = float(np.sum(learned.solid))
    feels: tuple[tuple[Value, float, tuple[float, float]], ...] = (
        ("wind_feel", wind_feel, learned.wind_feel),
        ("height_feel", height_feel, learned.height_feel),
    )
    out = [
        Suggestion("", value, stored, new, _EIGHTY * sd, total)
        for value, stored, (new, sd) in feels
        if sure(stored=stored, learned=new, sd=sd, matters=_FEEL)
    ]
    right, left = learned.missed_right, learned.missed_left
    n = right + left
    share = (right + 2.0) / (n + 4.0)  # beta prior worth four mishits, two a side
    sd = math.sqrt(share * (1.0 - share) / (n + 5.0))
    side = 1 if share > 0.5 else -1
    if (
        n >= _MISSES
        and side != golfer.miss
        and sure(stored=0.5, learned=share, sd=sd, matters=_MISS)
    ):
        out.append(Suggestion("", "miss", golfer.miss, side, 0.0, n))
    return out


def looks_picked(belief: Belief, learned: Learned) -> bool:
    """Whether so few mishits were logged that only good shots seem to get logged.

    Notes
    -----
    Poisson chance of that few or fewer mishits among at least 25 shots, under 3 %.
    """
    count = learned.solid + learned.bad
    if count.sum() < 25:
        return False
    expected = float(belief.mishit @ count)
    seen = math.floor(float(learned.bad.sum()))
    chance = sum(math.exp(-expected) * expected**k / math.factorial(k) for k in range(seen + 1))
    return chance < _PICKED
