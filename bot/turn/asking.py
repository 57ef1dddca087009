"""Which one question is worth asking before a shot is answered?

A question is asked only where the answer would save strokes: the engine prices the shot
under every answer, and under none.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bot.model.measure import Measure
from bot.turn.measures import MODERATE_WIND
from bot.turn.memory import CHANGED
from bot.turn.question import setting_of
from bot.turn.weigh import table_of
from engine import value_of_knowing

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bot.model.reading import Facts, Hazard, Reading, Wind
    from bot.model.state import Units
    from bot.turn.desk import Desk
    from engine import Golfer

WORTH = 0.05  # strokes from which a question is worth its seconds (judgement)
WORTH_SIDE = 0.003  # a wrong side is the worst advice there is, so ask sooner (judgement)
# Rise or fall of a hole told by a word alone, per cent of the way: common practice, no source.
_RISES = {"little": 1.5, None: 3.0, "big": 6.0}
_MUST = ("units", "side", "break_side")
_ACROSS = (90.0, 270.0)
_QUARTERING = (45.0, 135.0, 225.0, 315.0)
_STRENGTHS = tuple(Measure(value=mph, unit="mph") for mph in (5.0, 10.0, 20.0))
_ANYWHERE = (0.0, 90.0, 180.0, 270.0)


def needed(facts: Facts, reading: Reading, *, answered: bool) -> str | None:
    """Return what no shot can be answered without."""
    if facts.distance is None:
        return "distance"
    if answered:
        return None
    if any(c.about == "distance" for c in reading.open):
        return "distance"
    return next((c.about for c in reading.open if c.about in _MUST), None)


def worth_asking(
    facts: Facts, *, desk: Desk, golfer: Golfer, units: Units, tee: bool
) -> str | None:  # fmt: skip
    """Return the question whose answer would save the most strokes, None if none saves enough."""
    found = [
        (weight * _value(answers, desk, golfer, units, tee), about)
        for about, answers, weight in _open(facts)
    ]
    best = max(found, default=(0.0, ""))
    return best[1] if best[0] >= WORTH else None


def _open(facts: Facts) -> Iterator[tuple[str, list[Facts], float]]:
    """Yield what was left open, the facts under each answer, and how dear a wrong guess is."""
    wind, hazards = facts.wind, facts.hazards
    slanted = wind is not None and (wind.across or wind.quartering)
    if wind is not None and wind.from_deg is None and (wind.speed is not None or slanted):
        ways = _ACROSS if wind.across else _QUARTERING if wind.quartering else _ANYWHERE
        speed = wind.speed or MODERATE_WIND["imperial"]  # told without: as strong as any
        blowing = [wind.model_copy(update={"from_deg": way, "speed": speed}) for way in ways]
        about = "wind_side" if wind.across else "wind_dir"
        yield about, [facts.model_copy(update={"wind": w}) for w in blowing], 1.0
    if wind is not None and wind.speed is None and wind.from_deg is not None:
        blowing = [wind.model_copy(update={"speed": strength}) for strength in _STRENGTHS]
        yield "wind_speed", [facts.model_copy(update={"wind": w}) for w in blowing], 1.0
    if guessed_change(wind) and wind is not None and wind.speed is not None:
        was = wind.speed.value / CHANGED[wind.change or ""]
        ends = (0.0, was) if wind.change == "down" else (was, 2.0 * was)
        blown = [
            wind.model_copy(update={"speed": wind.speed.model_copy(update={"value": v})})
            for v in (ends[0], wind.speed.value, ends[1])
        ]
        yield "wind_speed", [facts.model_copy(update={"wind": w}) for w in blown], 1.0
    if any(_nowhere(h) for h in hazards):
        lying = [sided(hazards, side) for side in ("left", "right")]
        answers = [facts.model_copy(update={"hazards": h}) for h in lying]
        yield "side", answers, WORTH / WORTH_SIDE
    if any(h.reach_or_carry is not None for h in hazards):
        lying = [ranged(hazards, end) for end in ("start", "end")]
        yield "reach_or_carry", [facts.model_copy(update={"hazards": h}) for h in lying], 1.0


def guessed_change(wind: Wind | None) -> bool:
    """Say whether a wind was told to have dropped or picked up, and not to what."""
    if wind is None or wind.speed is None or wind.from_deg is None:
        return False
    return wind.change in CHANGED and wind.speed.about


def with_strength(facts: Facts, units: Units) -> Facts:
    """Return the facts with a moderate wind where only its direction was told."""
    wind = facts.wind
    if wind is None or wind.speed is not None or wind.change not in (None, *CHANGED):
        return facts
    if wind.from_deg is None and wind.compass is None:
        return facts
    usual = MODERATE_WIND[units]
    share = CHANGED.get(wind.change or "", 1.0)
    speed = usual.model_copy(update={"value": usual.value * share, "about": True})
    return facts.model_copy(update={"wind": wind.model_copy(update={"speed": speed})})


def with_rise(facts: Facts) -> Facts:
    """Return the facts with a usual height where only up or down was told, by the word for it."""
    raised, told = facts.elevation, facts.plays_as or facts.plays_delta
    if raised is None or raised.size is not None or not raised.direction or told is not None:
        return facts
    share = Measure(value=_RISES[raised.word], unit="%", about=True)
    return facts.model_copy(update={"elevation": raised.model_copy(update={"size": share})})


def sided(hazards: tuple[Hazard, ...], side: str) -> tuple[Hazard, ...]:
    """Return the trouble with the side of what had none."""
    return tuple(h.model_copy(update={"side": side}) if _nowhere(h) else h for h in hazards)


def ranged(hazards: tuple[Hazard, ...], end: str) -> tuple[Hazard, ...]:
    """Return the trouble with a number that may be either as its start or its end."""
    return tuple(
        h
        if h.reach_or_carry is None
        else h.model_copy(update={end: h.reach_or_carry, "reach_or_carry": None})
        for h in hazards
    )


def _nowhere(hazard: Hazard) -> bool:
    told = (hazard.side, hazard.start, hazard.end, hazard.reach_or_carry)
    return all(value is None for value in told)


def _value(answers: list[Facts], desk: Desk, golfer: Golfer, units: Units, tee: bool) -> float:
    share = 1.0 / len(answers)
    shots = [
        (share, setting_of(a, desk.trip.day, units, tee=tee, protect=False).shot) for a in answers
    ]
    return value_of_knowing(golfer=golfer, table=table_of(desk, golfer), answers=shots)
