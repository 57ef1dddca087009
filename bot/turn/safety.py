"""What to do in a danger told by a player, and how long the group stays in after thunder."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Literal

from bot.model.answer import Answer
from bot.model.danger import Danger, StormHold, StormOver
from bot.model.measure import Measure
from bot.model.reading import Air, Safety, Wind
from bot.model.state import Played, Player, Trip
from bot.turn.card import course_here
from bot.turn.desk import Desk
from bot.turn.measures import measured, to_quantity
from bot.turn.places import emergency_numbers
from engine import felt_cold, felt_heat, strike_distance
from engine.errors import OutOfRange
from engine.units import quantity

# Bands at which nobody has to ask first.
_GRAVE: dict[Literal["heat", "cold"], tuple[str, ...]] = {
    "heat": ("danger", "extreme danger"), "cold": ("frostbite",),
}  # fmt: skip
# Half an hour after the last thunder or flash: US National Weather Service, lightning safety.
HOLD = timedelta(minutes=30)


def take(desk: Desk, act: Safety) -> tuple[Desk, Answer]:
    """Answer a danger; thunder starts the clock that everybody in this chat shares."""
    desk = desk.log("safety", {"danger": act.danger})
    if act.danger == "all_clear":
        return desk, _all_clear(desk)
    if act.danger == "lightning":
        desk = _restart(desk)
    numbers = emergency_numbers(_country(desk))
    felt, band, missing = _felt(desk, act)
    units = desk.units
    strike = None
    if act.flash_to_bang is not None:
        strike = measured(strike_distance(seconds=act.flash_to_bang), "way", units)
    return desk, Danger(
        peril=act.danger,
        emergency=numbers,
        felt=felt,
        band=band,
        missing=missing,
        ill=is_ill(act),
        strike=strike,
    )


def is_ill(act: Safety) -> bool:
    """Say whether heat or cold was told as a symptom and not as weather."""
    return act.danger in ("heat", "cold") and not act.asked and act.facts.air is None


def is_mild(act: Safety) -> bool:
    """Say whether golf may go on beside it: weather asked about, and nobody ill."""
    return act.danger in ("heat", "cold") and not is_ill(act)


def hold(desk: Desk) -> StormHold | None:
    """Return the hold that is on for the sender's group, if any."""
    left = max(_left(trip, desk.now) for trip in _trips(desk))
    return StormHold(minutes_left=left / timedelta(minutes=1)) if left > timedelta(0) else None


def warning(desk: Desk) -> Danger | None:
    """Return the word of care that the weather told for the day calls for, if any."""
    for peril, grave in _GRAVE.items():
        felt, band, _ = _felt(desk, Safety(danger=peril))
        if band in grave:
            numbers = emergency_numbers(_country(desk))
            return Danger(peril=peril, emergency=numbers, felt=felt, band=band, brief=True)
    return None


def _all_clear(desk: Desk) -> Answer:
    known = any(trip.thunder_at is not None for trip in _trips(desk))
    return hold(desk) or StormOver(known=known)


def _trips(desk: Desk) -> tuple[Trip, ...]:
    """Return what this chat shares, and what the chat of the sender's round shares."""
    playing = desk.get(Player, desk.message.sender).playing
    chat = desk.get(Played, playing).chat if playing else ""
    return (desk.trip, desk.get(Trip, chat)) if chat else (desk.trip,)


def _left(trip: Trip, now: datetime) -> timedelta:
    """Return what is left of the half hour; a late message never turns the clock back."""
    if trip.thunder_at is None:
        return timedelta(0)
    return trip.thunder_at + HOLD - max(now, trip.thunder_at)


def _restart(desk: Desk) -> Desk:
    for trip in _trips(desk):
        last = max(desk.now, trip.thunder_at or desk.now)
        desk = desk.put(trip.model_copy(update={"thunder_at": last}))
    return desk


def _country(desk: Desk) -> str | None:
    course = course_here(desk)
    return course.country if course else None


def _felt(desk: Desk, act: Safety) -> tuple[Measure | None, str, tuple[str, ...]]:
    """Return how the air feels, its band, and what would be needed to say so."""
    if act.danger not in ("heat", "cold"):
        return None, "none", ()
    units = desk.units
    day = desk.trip.day
    told, kept = act.facts.air or Air(), day.air or Air()
    air, damp = told.temperature or kept.temperature, told.humidity or kept.humidity
    wind = (act.facts.wind or Wind()).speed or (day.wind or Wind()).speed
    if wind is not None and wind.unit == "club":
        wind = None  # "a one-club wind" is no speed
    other = damp if act.danger == "heat" else wind
    missing = tuple(
        name
        for name, value in (
            ("temperature", air),
            ("humidity" if act.danger == "heat" else "wind", other),
        )
        if value is None
    )
    if air is None or other is None:
        return None, "none", missing
    warm = to_quantity(air, "temperature", units)
    try:
        if act.danger == "heat":
            heat = felt_heat(air=warm, humidity=quantity(other.value, "%"))
            return measured(heat.felt, "temperature", units), heat.band, ()
        cold = felt_cold(air=warm, wind=to_quantity(other, "wind", units))
        return measured(cold.felt, "temperature", units), cold.band, ()
    except OutOfRange:
        return None, "none", missing
