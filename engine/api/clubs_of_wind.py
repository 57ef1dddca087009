"""How hard does a wind blow that a player calls by the clubs it costs?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.api.conditions import WindFacts
from engine.api.flight import PlaysAsQuestion, shot_plays_as
from engine.units import quantity, si

if TYPE_CHECKING:
    from engine.core.golfer import Golfer
    from engine.units import Q

_FIRST_MPS = 4.5  # a club's wind, to begin from
_MOST_MPS = 22.5  # the strongest wind of the model
_CLOSE_M = 0.1
_STEPS = 6
_GAP = 0.075  # of a carry, for a bag with no neighbours to compare


def wind_of_clubs(*, golfer: Golfer, clubs: float) -> Q:
    """Return the wind that, dead against, makes the middle of a bag play `clubs` longer.

    Parameters
    ----------
    golfer : Golfer
        Whose bag: a club is the gap between its neighbouring carries at the middle club.
    clubs : float
        How many clubs the wind costs, above 0.

    Returns
    -------
    Quantity
        Speed at 10 m, at most the strongest that the model knows. [speed]

    Raises
    ------
    NoSolution
        The bag cannot be calibrated.
    """
    carries = sorted(club.carry_m for club in golfer.clubs)
    middle = len(carries) // 2
    near = carries[max(middle - 1, 0) : middle + 2]
    gap = (near[-1] - near[0]) / (len(near) - 1) if len(near) > 1 else _GAP * near[0]
    target, wanted = quantity(carries[middle], "m"), clubs * gap

    def over(speed_mps: float) -> float:
        wind = WindFacts(speed=quantity(speed_mps, "m/s"), comes_from=quantity(0.0, "deg"))
        asked = PlaysAsQuestion(golfer=golfer, distance=target, wind=wind)
        return si(shot_plays_as(asked).wind, "m") - wanted

    low, f_low = 0.0, -wanted
    high = min(_FIRST_MPS * clubs, _MOST_MPS)
    for _ in range(_STEPS):
        f_high = over(high)
        if abs(f_high) < _CLOSE_M or f_high == f_low:
            break
        step = f_high * (high - low) / (f_high - f_low)
        low, high, f_low = high, min(max(high - step, 0.0), _MOST_MPS), f_high
    return quantity(high, "m/s")
