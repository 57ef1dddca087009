"""Which way does a wind named by the compass blow across the shot to be played?"""

from __future__ import annotations

from bot.courses.compass import bearing_of
from bot.model.reading import Facts
from bot.turn.card import hole_facts
from bot.turn.desk import Desk
from engine import quantity, si, turned_wind


def faced(facts: Facts, desk: Desk, *, tee: bool) -> Facts:
    """Return facts whose compass wind, told now or for the day, is turned to the line of play.

    Only where the line is known: a bearing told with the shot, or the hole's own bearing from
    its tee, which past the tee of a hole that bends is no longer the line. Elsewhere the facts
    come back as they are, and the direction is asked for.
    """
    wind = facts.wind or desk.trip.day.wind
    if wind is None or wind.compass is None or wind.from_deg is not None:
        return facts
    comes_from = bearing_of(wind.compass)
    bearing_deg = _line_deg(facts, desk, tee=tee)
    if bearing_deg is None or comes_from is None:
        return facts
    told = quantity(comes_from, "deg")
    turned = turned_wind(wind_bearing=told, hole_bearing=quantity(bearing_deg, "deg"))
    return facts.model_copy(
        update={"wind": wind.model_copy(update={"from_deg": si(turned, "deg")})}
    )


def _line_deg(facts: Facts, desk: Desk, *, tee: bool) -> float | None:
    told = facts.hole
    if told is not None and told.bearing_deg is not None:
        return told.bearing_deg
    played = desk.round
    if played is None or played.ended_at is not None:
        return None
    number = played.hole if told is None or told.number is None else told.number
    if number is None:
        return None
    hole = hole_facts(desk, played, number)
    return hole.bearing_deg if tee or hole.dogleg is None else None
