"""Which height stands behind a number that a player has already adjusted for the slope?"""

from __future__ import annotations

from dataclasses import replace

from bot.model.measure import Measure
from bot.model.reading import Facts
from bot.model.state import Units
from bot.turn.measures import to_quantity
from bot.turn.question import Setting
from engine import Golfer, height_that_plays


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
    height = height_that_plays(
        golfer=golfer, distance=setting.shot.pin, plays=to_quantity(plays, "distance", units)
    )
    return replace(setting, shot=replace(setting.shot, height=height))
