"""What the engine makes of a shot: the advice with everything behind it."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING, Literal, cast

from bot.model.advice import Change, NoBagYet, PlaysAs, ShotAdvice, Weighed
from bot.model.measure import Measure
from bot.turn.bag import knows_bag
from bot.turn.measures import distance_of, measured, to_quantity
from bot.turn.question import plays_question, setting_of
from engine import (
    ENGINE_VERSION,
    NoSolution,
    OutOfRange,
    StrokeTable,
    choose,
    quantity,
    shot_plays_as,
    si,
    solve_player,
)

if TYPE_CHECKING:
    from bot.model.answer import Answer
    from bot.model.reading import Facts
    from bot.model.state import Units
    from bot.turn.desk import Desk
    from bot.turn.question import Setting
    from engine import Golfer, Play, PlaysAsAnswer, Q, ShotChoice, SwingKind

Asked = Literal["", "compare", "why_not", "reach", "what_if", "miss"]

LONGEST_M = 350.0  # what a distance longer than this plays is no number to swing to
LIKED_M = 5.0  # a lay-up this near the yardage liked leaves it: judgement
GOES_FROM = 0.25  # chance to reach the front from which a swing is a go at the green: judgement
SELDOM = 0.1  # chance of trouble below which a shot is short of it: judgement
OUT_OF_REACH_M = 20.0  # trouble this far past the longest swing keeps nobody short of it
SHORT_OF = 0.85  # a lay-up ends this share of the way to the trouble or less: judgement
_SWINGS = ("full", "choked", "three_quarter", "half", "knocked_down", "high")


def advice_of(
    setting: Setting, facts: Facts, *, desk: Desk, golfer: Golfer, kind: str, units: Units,
    ask: Asked,
) -> Answer:  # fmt: skip
    """Return the advice on a shot; what it plays alone where the player's clubs are unknown."""
    profile = desk.player.profile
    one_shot = si(setting.shot.pin, "m") <= LONGEST_M
    distance = measured(setting.shot.pin, "distance", units)
    if one_shot and not knows_bag(profile):
        found = shot_plays_as(plays_question(setting, golfer))
        return NoBagYet(distance=distance, plays=_plays(found, units))
    table, golfer = table_of(desk, golfer), without(golfer, facts.club_excluded)
    choice = choose(golfer=golfer, table=table, facts=setting.shot, plays=one_shot)
    best = choice.best
    compared, refused = _compared(choice, facts, ask)
    other = _other_way(choice, setting) if kind == "layup" else None
    leave = distance_of(facts.leave, units)
    leaving = None if leave is None else choice.leaving(leave)
    left = None if profile.leave is None else to_quantity(profile.leave, "distance", units)
    return ShotAdvice(
        shot_kind=kind,
        distance=distance,
        reference=facts.reference or "pin",
        plays=None if choice.plays is None else _plays(choice.plays, units),
        best=weighed(best, units),
        others=tuple(weighed(p, units) for p in choice.others),
        compared=tuple(weighed(p, units) for p in compared),
        near=choice.near,
        in_reach=choice.in_reach,
        pin_from_middle=measured(choice.pin_from_middle, "distance", units),
        wind=facts.wind,
        troubles=setting.sides,
        assumed=choice.assumed,
        blocked=setting.shot.blocked,
        sideways=choice.sideways,
        short_of=_short_of(setting, best, choice),
        liked=left is not None and not choice.in_reach and _near(best.left, left),
        card=setting.shot.protect,
        ask=ask,
        refused=refused,
        farthest=weighed(_going(choice, setting), units) if ask == "reach" else None,
        missed=dict(choice.missed()) if ask == "miss" else {},
        leave=None if leave is None else measured(leave, "distance", units),
        leaving=None if leaving is None else weighed(leaving, units),
        other_way=None if other is None else weighed(other, units),
    )


def without(golfer: Golfer, name: str | None) -> Golfer:
    """Return the golfer with a club left in the bag for this shot: "not the 7"."""
    kept = tuple(c for c in golfer.clubs if c.name != name)
    return replace(golfer, clubs=kept) if kept and len(kept) < len(golfer.clubs) else golfer


def changes(
    setting: Setting, facts: Facts, *, desk: Desk, golfer: Golfer, units: Units, best: Weighed
) -> tuple[Change, ...]:
    """Return which small changes of what was told would change the club."""
    found = []
    for fact, by, changed in _changed(setting, facts, units):
        again = setting_of(
            changed, desk.trip.day, units, tee=setting.shot.tee, protect=setting.shot.protect,
            stroke=setting.shot.stroke, wind_feel=desk.player.profile.wind_feel,
            height_feel=desk.player.profile.height_feel,
        )  # fmt: skip
        try:
            play = choose(golfer=golfer, table=table_of(desk, golfer), facts=again.shot).best
        except (OutOfRange, NoSolution):
            continue  # a little more would be too much for the model
        if play.club != best.club:
            found.append(Change(fact=fact, by=by, club=play.club, swing=play.kind))
    return tuple(found)


_Fact = Literal["wind_less", "wind_more", "shorter", "longer"]


def _changed(setting: Setting, facts: Facts, units: Units) -> list[tuple[_Fact, Measure, Facts]]:
    """Return the facts with a little less and more wind and distance."""
    metric = units == "metric"
    gust = Measure(value=8.0 if metric else 5.0, unit="km/h" if metric else "mph")
    step = Measure(value=5.0, unit="m" if metric else "yd")
    out: list[tuple[_Fact, Measure, Facts]] = []
    wind = facts.wind
    if wind is not None and wind.speed is not None and wind.from_deg is not None:
        now = measured(to_quantity(wind.speed, "wind", units), "wind", units).value
        for more, fact in ((-gust.value, "wind_less"), (gust.value, "wind_more")):
            told = gust.model_copy(update={"value": max(now + more, 0.0)})
            blown = wind.model_copy(update={"speed": told})
            out.append((cast("_Fact", fact), gust, facts.model_copy(update={"wind": blown})))
    distance = measured(setting.shot.pin, "distance", units)
    for more, fact in ((-step.value, "shorter"), (step.value, "longer")):
        told = distance.model_copy(update={"value": distance.value + more})
        out.append((cast("_Fact", fact), step, facts.model_copy(update={"distance": told})))
    return out


def _plays(found: PlaysAsAnswer, units: Units) -> PlaysAs:
    """Return what the shot plays in the player's units."""
    return PlaysAs(
        total=measured(found.total, "distance", units),
        wind=measured(found.wind, "distance", units),
        height=measured(found.height, "distance", units),
        air=measured(found.air, "distance", units),
        lie=measured(found.lie, "distance", units),
        thumb=measured(found.thumb, "distance", units),
        beyond=found.beyond,
    )


def _compared(
    choice: ShotChoice, facts: Facts, ask: Asked
) -> tuple[list[Play], dict[str, str]]:  # fmt: skip
    """Return the swings the player named, and those that cannot be used with the reason."""
    told = facts.clubs_compare or ((facts.club,) if facts.club else ())
    names = [one for name in told for one in choice.family(name)]
    if ask == "what_if" and not names:
        names = [choice.best.club]
    swing = cast("SwingKind", facts.swing) if facts.swing in _SWINGS else None
    if swing not in (None, "full") and not names:  # "punch it": the best club for such a swing
        best = choice.kind(swing)
        names = [] if best is None else [best.club]
    plays: list[Play] = []
    refused: dict[str, str] = {}
    for name in names:
        # A club named alone means its stock swing.
        play = choice.play(name, swing or "full") or choice.play(name, swing)
        if play is not None:
            plays.append(play)
        else:
            refused[name] = choice.ruled_out.get((name, swing or "full"), "unknown")
    return plays, refused


def _other_way(choice: ShotChoice, setting: Setting) -> Play | None:
    """Return the best lay-up where going was chosen, or the best go where laying up was."""
    ahead = [t.start or t.end for t in setting.shot.trouble if t.side in ("short", "across")]
    edge = next((q for q in ahead if q is not None), None) or setting.shot.pin
    if choice.best.past_front >= GOES_FROM:
        return choice.short_of(quantity(SHORT_OF * si(edge, "m"), "m"))
    return choice.past(quantity(si(setting.shot.pin, "m") - 15.0, "m"))


def _going(choice: ShotChoice, setting: Setting) -> Play:
    """Return the best swing that gets to the green on average, or else the longest."""
    return choice.past(quantity(si(setting.shot.pin, "m") - 12.0, "m")) or choice.farthest()


def _short_of(setting: Setting, best: Play, choice: ShotChoice) -> str:
    """Return the trouble across the line that the choice stays short of, if any."""
    total = si(best.total, "m")
    for trouble in setting.shot.trouble:
        start = trouble.start or trouble.end
        if trouble.side not in ("across", "short") or start is None:
            continue
        if si(start, "m") > si(setting.shot.pin, "m"):
            continue
        if si(start, "m") > si(choice.farthest().total, "m") + OUT_OF_REACH_M:
            continue
        if total < si(start, "m") and best.chance.get(trouble.name, 0.0) < SELDOM:
            return trouble.name
    return ""


def _near(a: Q, b: Q) -> bool:
    return abs(si(a, "m") - si(b, "m")) < LIKED_M


def table_of(desk: Desk, golfer: Golfer) -> StrokeTable:
    """Return the player's strokes to hole out, solved once and kept."""
    key = _named(golfer)
    return _table(desk.tables("strokes", key, lambda: solve_player(golfer).to_bytes()))


@lru_cache(maxsize=512)
def _named(golfer: Golfer) -> str:
    settled = replace(golfer, swings=frozenset())  # a set has no order to rely on
    named = f"{ENGINE_VERSION} {settled!r} {sorted(golfer.swings)}"
    return hashlib.sha256(named.encode()).hexdigest()


@lru_cache(maxsize=64)
def _table(body: bytes) -> StrokeTable:
    return StrokeTable.from_bytes(body)


def weighed(play: Play, units: Units) -> Weighed:
    """Return one swing in the player's units."""

    def m(q: Q) -> Measure:
        return measured(q, "distance", units)

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
