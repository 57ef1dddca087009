"""Which speed has a wind told by the clubs it costs: "two clubs into"?"""

from __future__ import annotations

from bot.model.measure import Measure
from bot.model.reading import Act, Answered, Day, FollowUp, Shot, Wind
from bot.turn.bag import bag_of
from bot.turn.desk import Desk
from bot.turn.measures import measured
from engine import NoSolution, OutOfRange, wind_of_clubs


def in_speed(desk: Desk, act: Act) -> Act:
    """Return the act with a wind of clubs as the speed that costs this player so many."""
    if isinstance(act, Day):
        return act.model_copy(update={"wind": _blown(desk, act.wind)})
    if not isinstance(act, Shot | FollowUp | Answered) or act.facts.wind is None:
        return act
    facts = act.facts.model_copy(update={"wind": _blown(desk, act.facts.wind)})
    return act.model_copy(update={"facts": facts})


def _blown(desk: Desk, wind: Wind | None) -> Wind | None:
    if wind is None or wind.speed is None or wind.speed.unit != "club" or wind.speed.value <= 0:
        return wind
    try:
        speed = wind_of_clubs(golfer=bag_of(desk.player.profile).golfer, clubs=wind.speed.value)
    except (OutOfRange, NoSolution):  # a bag nobody can fly: the shot's own answer says so
        return wind
    told: Measure = measured(speed, "wind", desk.units).model_copy(update={"about": True})
    return wind.model_copy(update={"speed": told})
