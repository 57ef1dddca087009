"""What of a day's wind, air and greens holds for everybody in a chat, told once by anyone."""

from __future__ import annotations

from datetime import timedelta

from bot.model.answer import Answer, CannotYet
from bot.model.company import DayKept
from bot.model.reading import Act, Day, Facts, FollowUp, Green, Shot, Wind
from bot.model.state import DayFacts
from bot.turn.compass import faced
from bot.turn.desk import Desk
from bot.turn.measures import to_quantity
from bot.turn.metar import read_metar
from engine import si

LASTS = timedelta(hours=12)  # common practice, no source: nobody plays longer
_ALIKE_MPS, _ALIKE_DEG = 1.4, 60.0  # winds told within this are one wind: judgement
_OF_A_DAY = frozenset({"wind", "air", "green"})


def fresh(desk: Desk) -> Desk:
    """Return a desk on which a day that is over says nothing any more."""
    trip = desk.trip
    at = trip.day.at
    if at is None or desk.now - at <= LASTS:
        return desk
    return desk.put(trip.model_copy(update={"day": DayFacts()}))


def meant(desk: Desk, act: Act) -> Act:
    """Return the act as news of the day where it tells nothing else and no shot is under way."""
    if not isinstance(act, Shot | FollowUp) or act.player is not None:
        return act
    if (act.kind if isinstance(act, Shot) else act.ask) not in ("shot", "change"):
        return act
    facts, pending = act.facts, desk.memory.shot
    told = {n for n in facts.model_fields_set if getattr(facts, n) not in (None, ())}
    under_way = pending.distance is not None or pending.putt is not None
    pace = facts.green is not None and facts == Facts(
        green=Green(stimp=facts.green.stimp, speed_word=facts.green.speed_word)
    )
    if pace and desk.memory.shot_kind not in ("chip", "putt"):
        under_way = False  # it moves no full shot
    if not told or not told <= _OF_A_DAY or under_way or desk.memory.expecting is not None:
        return act
    if facts.wind is not None and not _for_all(facts.wind):
        return act
    return Day(wind=facts.wind, air=facts.air, green=facts.green)


def take(desk: Desk, act: Day) -> tuple[Desk, Answer]:
    """Keep what was told of the day."""
    if act.metar is not None:
        report = read_metar(act.metar, desk.now)
        if report is None:
            return desk, CannotYet(reason="no_metar")
        act = act.model_copy(update={"wind": report.wind, "air": report.air})
    desk = _kept(desk, act.wind, act.air, act.green, act.turf, act.metar)
    body = act.model_dump(mode="json", exclude_defaults=True)
    desk = desk.log("day", body)
    shared = desk.message.kind == "group"
    return desk, DayKept(shared=shared, wind=act.wind, air=act.air, green=act.green, turf=act.turf)


def share(desk: Desk, act: Shot | FollowUp) -> Desk:
    """Keep for all what a shot's message told of the day beside the shot."""
    facts = act.facts
    wind = facts.wind if facts.wind is not None and _for_all(facts.wind) else None
    stimp = None if facts.green is None else facts.green.stimp
    if wind is None and facts.air is None and stimp is None:
        return desk
    return _kept(desk, wind, facts.air, facts.green, None, None)


def filled(desk: Desk, act: Shot) -> Shot:
    """Return the shot with what it did not tell and somebody here told for the day."""
    day = desk.trip.day
    if day.at is None or desk.now - day.at > LASTS:
        return act
    facts, before = act.facts, desk.memory.shot
    more: dict[str, object] = {}
    if facts.air is None and day.air is not None:
        more["air"] = day.air
    if facts.wind is None and before.wind is None and day.wind is not None:
        more["wind"] = day.wind
    green = facts.green or Green()
    if green.stimp is None and green.speed_word is None and day.stimp is not None:
        more["green"] = green.model_copy(update={"stimp": day.stimp})
    if not more:
        return act
    return act.model_copy(update={"facts": Facts(**{**_set(facts), **more})})


def differing(desk: Desk, told: Wind | None, facts: Facts, *, tee: bool) -> Wind | None:
    """Return the day's wind where the one told for a shot is another: in strength, or from where.

    A wind told by the compass becomes the day's and differs from none.
    """
    of_day = desk.trip.day.wind
    if told is None or of_day is None or told.compass is not None:
        return None
    seen = faced(facts.model_copy(update={"wind": of_day}), desk, tee=tee).wind
    from_deg = None if seen is None else seen.from_deg
    if told.speed is not None and of_day.speed is not None:
        mps = [si(to_quantity(m, "wind", desk.units), "m/s") for m in (told.speed, of_day.speed)]
        if abs(mps[0] - mps[1]) > _ALIKE_MPS:
            return of_day
    if told.from_deg is None or from_deg is None:
        return None
    apart = abs((told.from_deg - from_deg + 180.0) % 360.0 - 180.0)
    return of_day if apart > _ALIKE_DEG else None


def _set(facts: Facts) -> dict[str, object]:
    return {name: getattr(facts, name) for name in facts.model_fields_set}


def _for_all(wind: Wind) -> bool:
    """A wind named by the compass holds for all; one named by the line only for that hole."""
    return wind.compass is not None


def _kept(
    desk: Desk, wind: Wind | None, air: object, green: Green | None, turf: object, metar: object
) -> Desk:
    trip = desk.trip
    told = {
        "wind": wind,
        "air": air,
        "stimp": None if green is None else green.stimp,
        "turf": turf,
        "metar": metar,
    }
    news = {name: value for name, value in told.items() if value is not None}
    day: DayFacts = trip.day.model_copy(update={**news, "at": desk.now})
    return desk.put(trip.model_copy(update={"day": day}))
