"""Which wind or height stands behind a number that a player has worked out already?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.api.conditions import WindFacts
from engine.api.flight import PlaysAsQuestion, shot_plays_as
from engine.units import quantity, si

if TYPE_CHECKING:
    from collections.abc import Callable

    from engine.core.golfer import Golfer
    from engine.units import Q

_FIRST_MPS = 4.5  # a club's wind, to begin from
_MOST_MPS = 22.5  # the strongest wind of the model
_GAP = 0.075  # of a carry, for a bag with no neighbours to compare
_HIGHEST_M = 50.0  # beyond this a number is not about a slope


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

    speed_mps = _solved(
        over, at_zero=-wanted, first=_FIRST_MPS * clubs, least=0.0, most=_MOST_MPS,
        close=0.1, steps=6,
    )  # fmt: skip
    return quantity(speed_mps, "m/s")


def height_that_plays(*, golfer: Golfer, distance: Q, plays: Q) -> Q:
    """Return how far the target is above the ball if a shot plays so long in calm, usual air.

    Parameters
    ----------
    golfer : Golfer
        On whose flight the height is solved.
    distance, plays : Quantity
        How far it is, and what it plays. [length]

    Returns
    -------
    Quantity
        Height, positive for a target above, at most 50 m either way. [length]

    Raises
    ------
    OutOfRange
        A distance outside the range of the model.
    NoSolution
        The bag cannot be calibrated.
    """
    pin, wanted = si(distance, "m"), si(plays, "m")

    def over(height_m: float) -> float:
        question = PlaysAsQuestion(
            golfer=golfer, distance=distance, height=quantity(height_m, "m")
        )
        return si(shot_plays_as(question).total, "m") - wanted

    height_m = _solved(
        over, at_zero=pin - wanted, first=wanted - pin, least=-_HIGHEST_M, most=_HIGHEST_M,
        close=0.2, steps=4,
    )  # fmt: skip
    return quantity(height_m, "m")


def _solved(
    over: Callable[[float], float], *, at_zero: float, first: float, least: float, most: float,
    close: float, steps: int,
) -> float:  # fmt: skip
    """Return where `over` is nearly 0 by the secant rule, from 0 and a first guess, in bounds."""
    low, f_low = 0.0, at_zero
    high = min(max(first, least), most)
    for _ in range(steps):
        f_high = over(high)
        if abs(f_high) < close or f_high == f_low:
            break
        step = f_high * (high - low) / (f_high - f_low)
        low, high, f_low = high, min(max(high - step, least), most), f_high
    return high
