"""Which club and aim for a shot that was told, and what the last answer rests on."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from datetime import timedelta
from functools import lru_cache

from bot.model.advice import NoBagYet, PlaysAs, ShotAdvice, Weighed
from bot.model.answer import Answer, Ask, CannotYet
from bot.model.measure import Measure
from bot.model.reading import Answered, Expecting, Facts, FollowUp, Reading, Shot
from bot.model.state import Units
from bot.turn import memory as remembered
from bot.turn.bag import bag_of
from bot.turn.desk import Desk
from bot.turn.measures import measured, spoken_units, to_quantity
from bot.turn.question import Setting, plays_question, setting_of
from engine import (
    ENGINE_VERSION,
    Golfer,
    NoSolution,
    OutOfRange,
    Play,
    ShotChoice,
    StrokeTable,
    choose,
    shot_plays_as,
    si,
    solve_player,
)

STILL_MPS = 1.5  # a wind this light moves no ball by a yard worth a question; judgement
ON_ONE_HOLE = timedelta(minutes=15)  # a longer gap is another hole: common practice, no source


def take(desk: Desk, act: Shot, reading: Reading) -> tuple[Desk, Answer]:
    """Advise on a shot."""
    facts = remembered.next_shot(desk.memory, act.facts, desk.now)
    return _advise(desk, facts, act.facts, act.kind, reading)


def take_followup(desk: Desk, act: FollowUp, reading: Reading) -> tuple[Desk, Answer]:
    """Advise again after something changed, or explain the last answer."""
    if desk.memory.shot_at is None:
        return desk, CannotYet(reason="nothing_to_follow")
    if act.ask == "why":
        return desk, _explained(desk)
    facts = remembered.follow(desk.memory.shot, act.facts, act.not_side)
    return _advise(desk, facts, act.facts, desk.memory.shot_kind, reading)


def take_answered(desk: Desk, act: Answered, reading: Reading) -> tuple[Desk, Answer]:
    """Go on with the shot that the last question held up."""
    waiting = desk.memory.asked_for
    if waiting is None:
        return desk, CannotYet(reason="not_read", said=reading.text[:40])
    told = act.facts
    if act.number is not None and told.distance is None and _asked(desk) == "distance":
        told = told.model_copy(update={"distance": act.number})
    facts = remembered.follow(waiting, told)
    return _advise(desk, facts, told, desk.memory.shot_kind, reading)


def _asked(desk: Desk) -> str | None:
    asked = desk.memory.expecting
    return None if asked is None else asked.about


def _advise(
    desk: Desk, facts: Facts, told: Facts, kind: str, reading: Reading
) -> tuple[Desk, Answer]:
    player = desk.player
    length = None if facts.hole is None else facts.hole.length
    if facts.distance is None and facts.middle is None and length is not None:
        facts, kind = facts.model_copy(update={"distance": length}), "tee"
    if facts.distance is None and facts.middle is not None:
        facts = facts.model_copy(update={"distance": facts.middle, "reference": "middle"})
    question = _question(desk, facts, reading)
    if question in ("wind_side", "wind_dir") and _asked_enough(desk, facts, kind):
        facts, question = facts.model_copy(update={"wind": None}), None
    if question is not None:
        return _ask(desk, question, facts, kind)
    units = spoken_units(facts.distance, player.units)
    tee = kind == "tee" or "tee" in facts.lie
    try:
        setting = setting_of(
            facts, desk.trip.day, units, tee=tee, protect=player.protect_card,
            wind_feel=player.profile.wind_feel, height_feel=player.profile.height_feel,
        )  # fmt: skip
        advice = _advice(desk, setting, facts, told, kind, units, reading)
    except OutOfRange as error:
        return desk, CannotYet(
            reason="out_of_range", value=error.value, low=error.low, high=error.high,
            unit=error.unit, said=error.name,
        )  # fmt: skip
    except NoSolution as error:
        return desk, CannotYet(reason="no_flight", said=error.name)
    memory = desk.memory.model_copy(
        update={
            "shot": facts,
            "shot_kind": kind,
            "shot_at": desk.now,
            "expecting": None,
            "asked_for": None,
            "last_answer": desk.message.message_id,
            "open_shot": desk.message.message_id,
        }
    )
    desk = desk.put(memory).log(
        "answer",
        {"facts": facts.model_dump(mode="json", exclude_defaults=True),
         "advice": advice.model_dump(mode="json")},
        profile_version=player.profile.version,
        engine_version=ENGINE_VERSION,
    )  # fmt: skip
    return desk, advice


def _question(desk: Desk, facts: Facts, reading: Reading) -> str | None:
    """Return what must be asked before this shot can be answered, if anything."""
    if facts.distance is None:
        return "distance"
    wind = facts.wind
    speed = None if wind is None else wind.speed
    units = desk.player.units or "imperial"
    blows = speed is not None and si(to_quantity(speed, "wind", units), "m/s") > STILL_MPS
    if wind is not None and blows and wind.from_deg is None:
        return "wind_side" if wind.across or wind.quartering else "wind_dir"
    return next((c.about for c in reading.open if c.about in ("side", "break_side")), None)


def _asked_enough(desk: Desk, facts: Facts, kind: str) -> bool:
    """Say whether a question was put on this hole: play goes on, and what is taken is said."""
    memory, here = desk.memory, facts.hole and facts.hole.number
    before = memory.shot.hole and memory.shot.hole.number
    another = kind == "tee" or here != before or memory.shot_at is None
    stale = memory.shot_at is not None and desk.now - memory.shot_at > ON_ONE_HOLE
    return bool(memory.asked_this_hole) and not another and not stale


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


def _advice(
    desk: Desk,
    setting: Setting,
    facts: Facts,
    told: Facts,
    kind: str,
    units: Units,
    reading: Reading,
) -> Answer:
    profile = desk.player.profile
    golfer = bag_of(profile).golfer
    found = shot_plays_as(plays_question(setting, golfer))
    plays = PlaysAs(
        total=measured(found.total, "distance", units),
        wind=measured(found.wind, "distance", units),
        height=measured(found.height, "distance", units),
        air=measured(found.air, "distance", units),
        lie=measured(found.lie, "distance", units),
        thumb=measured(found.thumb, "distance", units),
        beyond=found.beyond,
    )
    distance = measured(setting.shot.pin, "distance", units)
    if not profile.clubs and profile.handicap is None and profile.usual_score is None:
        return NoBagYet(distance=distance, plays=plays)
    choice = choose(golfer=golfer, table=table_of(desk, golfer), facts=setting.shot)
    return ShotAdvice(
        shot_kind=kind,
        distance=distance,
        reference=facts.reference or "pin",
        plays=plays,
        best=weighed(choice.best, units),
        others=tuple(weighed(p, units) for p in choice.others),
        compared=_compared(choice, facts, units),
        near=choice.near,
        in_reach=choice.in_reach,
        pin_from_middle=measured(choice.pin_from_middle, "distance", units),
        wind=facts.wind,
        troubles=setting.sides,
        assumed=choice.assumed,
        carried=remembered.carried(facts, told),
        unread=tuple(s.text for s in reading.unread),
    )


def _compared(choice: ShotChoice, facts: Facts, units: Units) -> tuple[Weighed, ...]:
    names = facts.clubs_compare or ((facts.club,) if facts.club else ())
    plays = [choice.play(name) for name in names]
    return tuple(weighed(p, units) for p in plays if p is not None)


def _explained(desk: Desk) -> Answer:
    """Return the last advice again, to be worded at length."""
    for entry in desk.shelf.entries(
        player=desk.who, chat=desk.message.chat, kinds=("answer",), newest_first=True, limit=1
    ):
        if entry.body["advice"]["kind"] == "shot":
            advice = ShotAdvice.model_validate(entry.body["advice"])
            return advice.model_copy(update={"explain": True})
    return CannotYet(reason="nothing_to_explain")


def table_of(desk: Desk, golfer: Golfer) -> StrokeTable:
    """Return the player's strokes to hole out, solved once and kept."""
    settled = replace(golfer, swings=frozenset())  # a set has no order to rely on
    named = f"{ENGINE_VERSION} {settled!r} {sorted(golfer.swings)}"
    key = hashlib.sha256(named.encode()).hexdigest()
    return _table(desk.tables("strokes", key, lambda: solve_player(golfer).to_bytes()))


@lru_cache(maxsize=64)
def _table(body: bytes) -> StrokeTable:
    return StrokeTable.from_bytes(body)


def weighed(play: Play, units: Units) -> Weighed:
    """Return one swing in the player's units."""

    def m(q: object) -> Measure:
        return measured(q, "distance", units)  # type: ignore[arg-type]

    return Weighed(
        club=play.club,
        swing=play.kind,
        carry=m(play.carry),
        total=m(play.total),
        start=m(play.start_at),
        finish=m(play.finish_at),
        seen_at=m(play.seen_at),
        start_from_middle=m(play.start_from_middle),
        finish_from_middle=m(play.finish_from_middle),
        half_width=m(play.half_width),
        strokes=play.strokes,
        chances=play.chance,
        left=m(play.left),
        past_front=play.past_front,
        par_or_better=play.par_or_better,
        double_or_worse=play.double_or_worse,
    )
