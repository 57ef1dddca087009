"""Where to start a putt that was told, and how hard to hit it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from bot.model.answer import Answer, Ask, CannotYet
from bot.model.green import Assumed, PuttAdvice, PuttRefused, PuttWhy, Refusal
from bot.model.measure import Measure
from bot.model.reading import Answered, Expecting, Facts, FollowUp, Putt, Reading, Shot
from bot.turn import memory
from bot.turn.answered import keep
from bot.turn.bag import bag_of
from bot.turn.desk import Desk
from bot.turn.green import grade_of, side_of, stimp_of
from bot.turn.measures import measured, to_quantity
from bot.turn.question import wind_facts
from engine import (
    Fall,
    PuttAnswer,
    PuttQuestion,
    ShortGame,
    WindFacts,
    plan_putt,
    quantity,
    si,
    steepest_grade,
    worth_of_reading,
)
from engine.errors import NoSolution, OutOfRange

if TYPE_CHECKING:
    from engine.units import Q

ASK_ABOVE = 0.05  # strokes the slope must be worth before it is asked for
_NAMES: dict[str, Refusal] = {
    "putt length": "length",
    "slope at the hole": "steep",
    "slope": "slope",
    "green speed": "speed",
    "break": "break",
    "steepness": "steep",
    "wind speed": "wind",
}


@dataclass(frozen=True)
class _Read:
    """The putt as the engine takes it, and what was filled in."""

    length: Q
    falls: tuple[Fall, ...]
    stimp: Q
    short: ShortGame
    assumed: tuple[Assumed, ...] = ()
    grade: Q = field(default_factory=lambda: quantity(0.0, "%"))
    side: Q = field(default_factory=lambda: quantity(0.0, "%"))
    wind: WindFacts | None = None


def take(desk: Desk, act: Shot, reading: Reading) -> tuple[Desk, Answer]:
    """Advise on a putt told anew."""
    facts = memory.next_shot(desk.memory, as_slope(act.facts), desk.now)
    # A wind kept from the hole was told against another line.
    facts = facts.model_copy(update={"wind": act.facts.wind})
    if any(choice.about in ("break_side", "side") for choice in reading.open):
        return _ask(desk, facts, Expecting(about="break_side"))
    return _advise(desk, facts)


def take_followup(desk: Desk, act: FollowUp) -> tuple[Desk, Answer]:
    """Advise again after a change, or explain the last putt."""
    if act.ask in ("why", "why_not", "compare", "alternatives"):
        return desk, _explain(desk)
    return _advise(desk, with_putt(desk.memory.shot, as_slope(act.facts)))


def take_answered(desk: Desk, act: Answered) -> tuple[Desk, Answer]:
    """Go on with the putt that waited for an answer."""
    asked = desk.memory.expecting
    about = None if asked is None else asked.about
    facts = with_putt(desk.memory.shot, as_slope(act.facts))
    putt = facts.putt or Putt()
    if about == "distance" and act.number is not None:
        putt = putt.model_copy(update={"length": act.number})
    if about == "break_side" and act.words in ("left", "right"):
        putt = putt.model_copy(update={"break_to": act.words})
    if about == "break_side" and (act.unknown or act.skip):
        putt = putt.model_copy(update={"break_size": None, "break_word": None})
    told = act.facts.putt or (act.facts.shape == "straight")
    ask = bool(told) or about not in ("slope", "break_side")
    return _advise(desk, facts.model_copy(update={"putt": putt}), ask=ask)


def with_putt(old: Facts, new: Facts) -> Facts:
    """Return the facts of the same putt after a message that told some of it."""
    merged = memory.follow(old, new)
    if old.putt is None or new.putt is None:
        return merged
    told = {n: v for n in Putt.model_fields if (v := getattr(new.putt, n)) is not None}
    return merged.model_copy(update={"putt": old.putt.model_copy(update=told)})


def as_slope(facts: Facts) -> Facts:
    """Return the facts with "down 2%" taken for the slope of the putt it was said of."""
    rise = facts.elevation
    putt = facts.putt or Putt()
    if rise is None or putt.slope is not None:
        return facts
    words: dict[int | None, Literal["up", "down", "flat"]] = {1: "up", -1: "down", 0: "flat"}
    told = {"slope": words.get(rise.direction), "slope_size": rise.size}
    return facts.model_copy(update={"elevation": None, "putt": putt.model_copy(update=told)})


def _advise(desk: Desk, facts: Facts, *, ask: bool = True) -> tuple[Desk, Answer]:
    putt = facts.putt or Putt()
    length = putt.length or facts.distance
    if length is None:
        return _ask(desk, facts, Expecting(about="distance"), "putt")
    told = putt.break_word is not None or (
        putt.break_size is not None and putt.break_size.value != 0
    )
    if told and putt.break_to is None:
        return _ask(desk, facts, Expecting(about="break_side"))
    worked = _worked(desk, facts, putt, length)
    if isinstance(worked, PuttRefused):
        return desk, worked
    seen, found = worked
    asks = ask and "level" in seen.assumed and _worth(seen) > ASK_ABOVE
    advice = _advice(desk, putt, seen, found).model_copy(update={"asks": asks})
    about = Expecting(about="slope") if advice.asks else None
    return keep(desk, facts, "putt", advice, about), advice


def _worked(
    desk: Desk, facts: Facts, putt: Putt, length: Measure
) -> tuple[_Read, PuttAnswer] | PuttRefused:
    try:
        seen = _read(desk, facts, putt, length)
        found = plan_putt(PuttQuestion(seen.length, seen.falls, seen.stimp, seen.short, seen.wind))
    except OutOfRange as error:
        return PuttRefused(why=_NAMES[error.name], given=error.value, most=error.high)
    except NoSolution:
        return PuttRefused(why="no_line")
    return seen, found


def _ask(desk: Desk, facts: Facts, about: Expecting, detail: str = "") -> tuple[Desk, Answer]:
    kept = desk.memory.model_copy(
        update={"shot": facts, "shot_kind": "putt", "shot_at": desk.now, "expecting": about}
    )
    return desk.put(kept), Ask(about=about, detail=detail)


def _worth(seen: _Read) -> float:
    return worth_of_reading(length=seen.length, stimp=seen.stimp, short=seen.short, told=None)


def _read(desk: Desk, facts: Facts, putt: Putt, length: Measure) -> _Read:
    units = desk.units
    assumed: list[Assumed] = []
    q_length = to_quantity(length, "putt", units)
    stimp, guessed = stimp_of(desk, facts)
    if guessed:
        assumed.append("stimp")
    grade, guessed = grade_of(putt, q_length, units)
    if guessed:
        assumed.append("grade")
    side, guessed = side_of(putt, q_length, grade, stimp)
    if guessed:
        assumed.append("side")
    straight = facts.shape == "straight"
    if putt.slope is None and putt.break_to is None:
        assumed.append("along" if straight else "level")
    elif putt.break_to is None and putt.slope != "flat" and not straight:
        assumed.append("straight")
    short = bag_of(desk.player.profile).golfer.short
    falls = _falls(putt, q_length, grade, side, stimp)
    if falls is None:
        falls = _tier(grade, side)
        assumed.append("tier")
    wind = wind_facts(facts.wind, units)
    return _Read(q_length, falls, stimp, short, tuple(assumed), grade, side, wind)


def _falls(putt: Putt, length: Q, grade: Q, side: Q, stimp: Q) -> tuple[Fall, ...] | None:
    """Return the slope in stretches; None where a height told can only be a tier."""
    size = putt.slope_size
    height_told = size is not None and size.unit not in ("", "%", "deg")
    if height_told and abs(si(grade, "%")) > si(steepest_grade(stimp), "%"):
        return None
    other = putt.second_break_to
    if other is None or other == putt.break_to:
        return (Fall(grade, side),)
    return (Fall(grade, side, share=0.5), Fall(grade, quantity(-si(side, "%"), "%")))


def _tier(grade: Q, side: Q) -> tuple[Fall, ...]:
    """Return a green that gains all its height in the middle half of the way."""
    level = quantity(0.0, "%")
    steep = quantity(2.0 * si(grade, "%"), "%")
    return (Fall(level, side, share=0.25), Fall(steep, side, share=0.75), Fall(level, side))


def _advice(desk: Desk, putt: Putt, seen: _Read, found: PuttAnswer) -> PuttAdvice:
    units = desk.units
    return PuttAdvice(
        length=measured(seen.length, "putt", units),
        aim=Measure(value=si(found.aim, "in"), unit="in"),
        aim_far=measured(found.aim, "putt", units),
        pace=measured(found.roll, "putt", units),
        breaks=putt.break_to,
        second_breaks=putt.second_break_to,
        one=found.one,
        three=found.three,
        expected=found.expected,
        past=measured(found.past, "putt", units),
        firm=measured(found.firm, "putt", units),
        grade=Measure(value=si(seen.grade, "%"), unit="%"),
        side=Measure(value=si(seen.side, "%"), unit="%"),
        stimp=si(seen.stimp, "ft"),
        wind_aim=Measure(value=si(found.wind_aim, "in"), unit="in"),
        wind_pace=measured(found.wind_roll, "putt", units),
        assumed=seen.assumed,
    )


def _explain(desk: Desk) -> Answer:
    facts = desk.memory.shot
    putt = facts.putt or Putt()
    length = putt.length or facts.distance
    if length is None:
        return CannotYet(reason="nothing_to_explain")
    worked = _worked(desk, facts, putt, length)
    if isinstance(worked, PuttRefused):
        return worked
    seen, found = worked
    units = desk.units
    return PuttWhy(
        putt=_advice(desk, putt, seen, found),
        climb=measured(found.roll - seen.length - found.past, "putt", units),
    )
