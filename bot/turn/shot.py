"""Which club and aim for a shot that was told, and what the last answer rests on."""

from __future__ import annotations

from datetime import timedelta

from bot.model.advice import ShotAdvice
from bot.model.answer import Answer, Ask, CannotYet
from bot.model.reading import (
    NO_GAP,
    Answered,
    Expecting,
    Facts,
    FollowUp,
    Hazard,
    Reading,
    Shot,
    Wind,
)
from bot.model.state import DayFacts, Units
from bot.turn import memory as remembered
from bot.turn import steps
from bot.turn.adjusted import own_number, with_adjusted
from bot.turn.answered import keep
from bot.turn.asking import (
    guessed_change,
    needed,
    ranged,
    sided,
    with_rise,
    with_strength,
    worth_asking,
)
from bot.turn.bag import bag_of
from bot.turn.compass import faced
from bot.turn.day import differing, filled
from bot.turn.desk import Desk
from bot.turn.left_out import left_out
from bot.turn.measures import in_metres, measured, settle, spoken_units
from bot.turn.noted import from_tee, used, with_notes
from bot.turn.question import Setting, height_of, setting_of
from bot.turn.refused import refused
from bot.turn.weigh import Asked, advice_of, changes, table_of
from engine import Golfer, NoSolution, OutOfRange, ShotChoice, choose

_ASKS: dict[str, Asked] = {
    "why_not": "why_not", "compare": "compare", "reach": "reach", "what_if": "what_if",
    "miss": "miss",
}  # fmt: skip
ON_ONE_HOLE = timedelta(minutes=15)  # a longer gap is another hole: common practice, no source
_SETTLED = ("side", "reach_or_carry", "units")  # not asked again
_SECOND = 0.9  # of the longest carry: with more left, a par five was hit but once: judgement


def take(desk: Desk, act: Shot, reading: Reading) -> tuple[Desk, Answer]:
    """Advise on a shot, in the day's wind and air where none was told with it."""
    act = filled(desk, act)
    facts = remembered.next_shot(desk.memory, act.facts, desk.now)
    ask: Asked = "reach" if act.reach else ""
    return _advise(desk, facts, act.facts, act.kind, reading, ask=ask)


def take_followup(desk: Desk, act: FollowUp, reading: Reading) -> tuple[Desk, Answer]:
    """Advise again after something changed, compare what was asked, or explain."""
    if desk.memory.shot_at is None:
        return desk, CannotYet(reason="nothing_to_follow")
    if act.ask == "why":
        return desk, _explained(desk)
    if act.step:
        stepped = steps.club_named(desk, act)
        if isinstance(stepped, CannotYet):
            return desk, stepped
        act = stepped
    before = desk.memory
    about = _asked_about(before.shot, act)
    if about:  # a question adds nothing to what was told
        act = act.model_copy(update={"facts": Facts()})
    facts = remembered.follow(before.shot, act.facts, act.not_side, correct=act.ask == "correct")
    desk, answer = _advise(
        desk, facts, act.facts, before.shot_kind, reading, ask=_ASKS.get(act.ask, ""), again=True
    )
    if act.supposed and desk.memory.expecting is None:
        real = {"shot": before.shot, "open_shot": before.open_shot}
        desk = desk.put(desk.memory.model_copy(update=real))
    if about and isinstance(answer, ShotAdvice):
        answer = answer.model_copy(update={"about": about})
    return desk, answer


def _asked_about(told: Facts, act: FollowUp) -> str:
    """Return the kind of trouble, told before, that is only asked about: "chance of water?"."""
    named = act.facts.hazards
    if len(named) != 1 or act.facts != Facts(hazards=named):
        return ""
    kind = named[0].kind
    bare = named[0] == Hazard(kind=kind) or act.ask == "carry"
    return kind if bare and any(h.kind == kind for h in told.hazards) else ""


def take_answered(desk: Desk, act: Answered, reading: Reading) -> tuple[Desk, Answer]:
    """Go on with the shot that the last question held up."""
    waiting = desk.memory.asked_for
    if waiting is None:
        return desk, CannotYet(reason="not_read", said=reading.text[:40])
    told, asked = act.facts, desk.memory.expecting
    about = None if asked is None else asked.about
    if act.number is not None and told.distance is None and about == "distance":
        told = told.model_copy(update={"distance": act.number})
    if act.number is not None and about == "wind_speed":
        told = told.model_copy(update={"wind": Wind(speed=act.number)})
    side = act.words if act.words in ("left", "right") else None
    if side is not None and about in ("wind_side", "wind_dir"):
        told = told.model_copy(update={"wind": Wind(from_deg=90.0 if side == "right" else 270.0)})
    if side is not None and about == "side":
        waiting = waiting.model_copy(update={"hazards": sided(waiting.hazards, side)})
    if about == "reach_or_carry" and act.words in ("start", "end"):
        waiting = waiting.model_copy(update={"hazards": ranged(waiting.hazards, act.words)})
    if about == "units" and act.words in ("yd", "m"):
        told = told.model_copy(update={"unit": act.words})
    facts = remembered.completed(waiting, told)
    return _advise(desk, facts, told, desk.memory.shot_kind, reading, answered=about in _SETTLED)


def _advise(
    desk: Desk, facts: Facts, told: Facts, kind: str, reading: Reading, *, ask: Asked = "",
    answered: bool = False, again: bool = False,
) -> tuple[Desk, Answer]:  # fmt: skip
    player = desk.player
    facts = from_tee(facts, kind, desk)
    length = None if facts.hole is None else facts.hole.length
    if facts.distance is None and facts.middle is None and length is not None:
        facts, kind = facts.model_copy(update={"distance": length}), "tee"
    if facts.distance is None and facts.middle is None:
        facts = _between_edges(facts)
    if facts.distance is None and facts.middle is not None:
        facts = facts.model_copy(update={"distance": facts.middle, "reference": "middle"})
    facts = _carry_apart(facts)
    question = needed(facts, reading, answered=answered)
    if question is not None:
        return _ask(desk, question, facts, kind)
    units = spoken_units(facts.distance, player.units)
    facts = _wind_as_told(desk, facts, told, units)
    laid, kind = with_notes(facts, kind, desk, units, again=again)
    tee = _on_tee(laid, kind)
    golfer = bag_of(player.profile).golfer
    seen = faced(laid, desk, tee=tee)  # kept as told: the next hole lies another way
    try:
        if not answered:
            question = worth_asking(seen, desk=desk, golfer=golfer, units=units, tee=tee)
        if question in remembered.OF_WIND and _asked_enough(desk, facts, kind):
            question = None  # a wind whose way stays open is left out, and the reply says so
        if question is not None:
            return _ask(desk, question, facts, kind)
        blown = with_strength(laid, units)
        guessed = ("strength",) if blown != laid or guessed_change(laid.wind) else ()
        raised = with_rise(blown)
        rise = height_of(raised, units) if raised != blown else None
        laid = raised
        seen = faced(laid, desk, tee=tee)
        advice = advice_of(
            _setting(desk, seen, units, tee=tee), seen, desk=desk, golfer=golfer, kind=kind,
            units=units, ask=ask,
        )  # fmt: skip
    except (OutOfRange, NoSolution) as error:
        return desk, refused(error)
    if isinstance(advice, ShotAdvice):
        carried = remembered.carried(facts, told)
        advice = advice.model_copy(
            update={
                "carried": carried,
                "unread": tuple(s.text for s in reading.unread),
                "notes": used(advice, laid, units),
                "assumed": (
                    *advice.assumed,
                    *guessed,
                    *_unit_taken(seen.wind, units, carried),
                    *_way_kept(seen.wind, reading),
                ),
                "wind": _in_unit(seen.wind, units),
                "rise": None if rise is None else measured(rise, "height", units),
                "shut": NO_GAP in facts.beside,
                "left_out": (*left_out(facts, player.profile.shape), *_not_dug(facts)),
                **_day_of(desk, facts, reading, tee=tee),
            }
        )
    return keep(desk, facts, kind, advice, laid=laid), advice


def _wind_as_told(desk: Desk, facts: Facts, told: Facts, units: Units) -> Facts:
    """Return facts whose wind keeps the unit of its shot, where the next is told in another."""
    wind, before = facts.wind, desk.memory.shot
    if wind is None or wind.speed is None or told.wind is not None:
        return facts
    then = spoken_units(before.distance, desk.player.units)
    if before.distance is None or then == units:
        return facts
    speed = settle(wind.speed, "wind", then)
    return facts.model_copy(update={"wind": wind.model_copy(update={"speed": speed})})


def _not_dug(facts: Facts) -> tuple[str, ...]:
    """Return that a ball is plugged where sand alone is weighed, as it is of a full swing."""
    sand = any(lie.endswith("bunker") for lie in facts.lie)
    return ("plugged ball",) if sand and "buried" in facts.lie else ()


def _in_unit(wind: Wind | None, units: Units) -> Wind | None:
    """Return the wind with the unit it is taken in, where metres leave a choice of two."""
    if wind is None or wind.speed is None or units != "metric":
        return wind
    return wind.model_copy(update={"speed": settle(wind.speed, "wind", units)})


def _unit_taken(wind: Wind | None, units: Units, carried: tuple[str, ...]) -> tuple[str, ...]:
    """Return that a unit was taken for a wind told now, where it may be another as well."""
    speed = None if wind is None or "wind" in carried else wind.speed
    bare = speed is not None and not speed.unit and speed.value > 0.0
    return ("wind_unit",) if bare and units == "metric" else ()


def _way_kept(wind: Wind | None, reading: Reading) -> tuple[str, ...]:
    """Return that a wind told anew without where it is from was taken to be from where it was."""
    told = next((a.facts.wind for a in reading.acts if isinstance(a, Shot)), None)
    if told is None or wind is None or wind.from_deg is None or told.speed is None:
        return ()
    open_ = told.from_deg is None and told.compass is None and told.change is None
    return ("way",) if open_ and told.speed.value > 0.0 else ()


def _told_now(reading: Reading) -> Wind | None:
    """Return the wind that this message told."""
    acts = (a for a in reading.acts if isinstance(a, Shot | FollowUp | Answered))
    return next((a.facts.wind for a in acts if a.facts.wind is not None), None)


def _day_of(desk: Desk, facts: Facts, reading: Reading, *, tee: bool) -> dict[str, object]:
    """Return how the wind of a shot stands to the day's: the same, or told anew against it."""
    told = _told_now(reading)
    of_day = desk.trip.day.wind
    holds = of_day is not None and facts.wind == of_day
    return {
        "of_day": holds,
        "day_now": holds and told is None,
        "day_was": None if holds else differing(desk, told, facts, tee=tee),
    }


def _between_edges(facts: Facts) -> Facts:
    """Return facts with the middle of a green of which only front and back were told.

    Where one of them alone was told, it is what the distance is to.
    """
    front, back = facts.front, facts.back
    edge = front or back
    if edge is not None and (front is None or back is None):
        reference = "back" if front is None else "front"
        return facts.model_copy(
            update={"distance": edge, "reference": reference, "front": None, "back": None}
        )
    if front is None or back is None or front.unit != back.unit:
        return facts
    middle = front.model_copy(update={"value": (front.value + back.value) / 2.0})
    return facts.model_copy(update={"middle": middle})


def _carry_apart(facts: Facts) -> Facts:
    """Return facts in which trouble ahead ends short of the target: the carry is the lesser."""
    told = facts.distance
    if told is None or facts.reference != "carry":
        return facts
    for i, hazard in enumerate(facts.hazards):
        end = hazard.end
        if hazard.side in ("short", "cross") and end is not None and end.value > told.value:
            mended = hazard.model_copy(update={"end": told})
            hazards = (*facts.hazards[:i], mended, *facts.hazards[i + 1 :])
            return facts.model_copy(
                update={"distance": end, "reference": "pin", "hazards": hazards}
            )
    return facts


def _asked_enough(desk: Desk, facts: Facts, kind: str) -> bool:
    """Say whether a question was put on this hole: play goes on, and what is taken is said."""
    memory, here = desk.memory, facts.hole and facts.hole.number
    before = memory.shot.hole and memory.shot.hole.number
    another = kind == "tee" or here != before or memory.shot_at is None
    stale = memory.shot_at is not None and desk.now - memory.shot_at > ON_ONE_HOLE
    return bool(memory.asked_this_hole) and not another and not stale


def _on_tee(facts: Facts, kind: str) -> bool:
    """Whether the ball is on a tee: said so, or the whole of a par three is left."""
    par = None if facts.hole is None else facts.hole.par
    return kind == "tee" or "tee" in facts.lie or (par == 3 and not facts.lie)


def _setting(desk: Desk, facts: Facts, units: Units, *, tee: bool) -> Setting:
    player = desk.player
    golfer = bag_of(player.profile).golfer
    setting = setting_of(
        facts, desk.trip.day, units, tee=tee,
        protect=player.protect_card if facts.protect is None else facts.protect,
        stroke=_stroke(facts, units, golfer, tee=tee), wind_feel=player.profile.wind_feel,
        height_feel=player.profile.height_feel,
    )  # fmt: skip
    return with_adjusted(setting, own_number(facts), golfer, units)


def _stroke(facts: Facts, units: Units, golfer: Golfer, *, tee: bool) -> int:
    """Return the number of the stroke to be played, taken from par where it was not told."""
    par = None if facts.hole is None else facts.hole.par
    if tee or par is None or facts.distance is None:
        return 1
    if par == 5:
        left_m = in_metres(facts.distance, units)
        longest_m = max(club.carry_m for club in golfer.clubs)
        return 2 if left_m > _SECOND * longest_m else 3
    return 2


def advice_for(desk: Desk, facts: Facts, kind: str) -> Answer:
    """Return the advice on a shot as it was told; raises what the engine raises."""
    units = spoken_units(facts.distance, desk.player.units)
    setting = _setting(desk, facts, units, tee=_on_tee(facts, kind))
    golfer = bag_of(desk.player.profile).golfer
    return advice_of(setting, facts, desk=desk, golfer=golfer, kind=kind, units=units, ask="")


def choice_of(desk: Desk, facts: Facts, kind: str) -> ShotChoice:
    """Return the choice for a shot as it was told; raises what the engine raises."""
    units = spoken_units(facts.distance, desk.player.units)
    setting = _setting(desk, facts, units, tee=_on_tee(facts, kind))
    golfer = bag_of(desk.player.profile).golfer
    return choose(golfer=golfer, table=table_of(desk, golfer), facts=setting.shot)


def _ask(desk: Desk, about: str, facts: Facts, kind: str) -> tuple[Desk, Answer]:
    question = Expecting.model_validate({"about": about})
    memory = desk.memory.model_copy(
        update={
            "expecting": question,
            "asked_for": facts,
            "shot_kind": kind,
            "shot_at": desk.now,
            "asked_this_hole": desk.memory.asked_this_hole + 1,
        }
    )
    return desk.put(memory), Ask(about=question)


def _explained(desk: Desk) -> Answer:
    """Return the last advice again, to be worded at length, with what would change it."""
    found = steps.last_answer(desk)
    if found is None:
        return CannotYet(reason="nothing_to_explain")
    advice, facts = (
        ShotAdvice.model_validate(found["advice"]),
        Facts.model_validate(found["facts"]),
    )
    units: Units = "metric" if advice.distance.unit == "m" else "imperial"
    tee = _on_tee(facts, advice.shot_kind)
    then = DayFacts.model_validate(found.get("day") or {})  # as the advice was given
    desk = desk.put(desk.trip.model_copy(update={"day": then}))
    facts = faced(facts, desk, tee=tee)
    setting = _setting(desk, facts, units, tee=tee)
    changed = changes(
        setting, facts, desk=desk, golfer=bag_of(desk.player.profile).golfer, units=units,
        best=advice.best,
    )  # fmt: skip
    return advice.model_copy(update={"explain": True, "ask": "", "changes": changed})
