"""Which height stands behind a number that a player has already adjusted for the slope?"""

from __future__ import annotations

from dataclasses import replace

from bot.model.measure import Measure
from bot.model.reading import Facts
from bot.model.state import Units
from bot.turn.measures import in_metres
from bot.turn.question import Setting
from engine import Golfer, PlaysAsQuestion, quantity, shot_plays_as, si

_CLOSE_M = 0.2
_STEPS = 4
_HIGHEST_M = 50.0  # beyond this the number is not about a slope


def own_number(facts: Facts) -> Measure | None:
    """Return what the player says the shot plays, told whole or as so much more or less."""
    delta, told = facts.plays_delta, facts.distance
    if facts.plays_as is not None or delta is None or told is None:
        return facts.plays_as
    if delta.unit not in ("", told.unit):
        return None
    return told.model_copy(update={"value": told.value + delta.value})


def with_adjusted(
    setting: Setting, plays: Measure | None, golfer: Golfer, units: Units
) -> Setting:
    """Return the setting with the height that makes the shot play `plays` in calm, usual air.

    The player's own number replaces a height told beside it; the height is solved on the
    player's own flight, so that wind and air act on the ball that really goes up or down.
    """
    if plays is None:
        return setting
    wanted = in_metres(plays, units)
    pin = si(setting.shot.pin, "m")

    def over(height_m: float) -> float:
        question = PlaysAsQuestion(
            golfer=golfer, distance=setting.shot.pin, height=quantity(height_m, "m")
        )
        return si(shot_plays_as(question).total, "m") - wanted

    low, high = 0.0, wanted - pin
    f_low = pin - wanted
    for _ in range(_STEPS):
        high = min(max(high, -_HIGHEST_M), _HIGHEST_M)
        f_high = over(high)
        if abs(f_high) < _CLOSE_M or f_high == f_low:
            break
        low, high, f_low = high, high - f_high * (high - low) / (f_high - f_low), f_high
    height = quantity(min(max(high, -_HIGHEST_M), _HIGHEST_M), "m")
    return replace(setting, shot=replace(setting.shot, height=height))
