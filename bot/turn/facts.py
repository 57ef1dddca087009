"""What was understood of a message, flat and in plain units, for gateways and logs?"""

from __future__ import annotations

from typing import Any

from bot.courses.compass import POINTS
from bot.model import reading as read
from bot.model.measure import Measure
from bot.model.state import Units
from bot.turn.desk import Desk
from bot.turn.measures import settle
from bot.turn.memory import completed, follow, lacks_distance, moved_on, talked_of
from bot.turn.reduced import side_of
from engine import quantity, si

KINDS = {
    "shot": "shot", "followup": "followup", "result": "result", "score": "result",
    "profile": "profile", "round": "round", "day": "followup", "course": "round",
    "review": "review", "rules": "round", "safety": "safety", "answered": "followup",
    "talk": "smalltalk", "nonsense": "nonsense",
}  # fmt: skip
ONCE = frozenset({"club_asked", "clubs_compare", "club_excluded", "swing", "shape"})
_TALK = {"thanks", "greeting", "help", "mood_low", "undo", "forget_me", "privacy"}
_FOLLOW = {"what_if", "why", "why_not", "compare", "alternatives"}


def plain_facts(reading: read.Reading, desk: Desk) -> dict[str, Any]:
    """Flat names and plain numbers of `reading`, on the desk as it was before the message.

    Lengths end in ``_yd``, ``_m`` or ``_ft``; winds are in miles per hour, ``wind_from`` in
    degrees clockwise from the target line, where it comes from; heights are in feet, plus for
    a target above. ``carried`` names what was not said now, ``ask`` what is open.
    """
    before = talked_of(desk.memory, desk.now)
    hand = -1 if desk.player.profile.hand == "left" else 1
    return told_facts(reading, desk.units, before, hand)


def told_facts(
    reading: read.Reading, units: Units, before: read.Facts | None = None, hand: int = 1
) -> dict[str, Any]:
    """The same for a reading alone, `before` being the shot talked of last."""
    out: dict[str, Any] = {}
    asked = any(isinstance(act, read.Shot) for act in reading.acts)
    for act in reading.acts:
        next_hole = isinstance(act, read.Round) and act.intent == "next_hole"
        if next_hole and before is not None and not any(map(_turned, reading.acts)):
            before = moved_on(before, read.Facts(hole=read.Hole()))
        told = _act(act, units, before, hand)
        if asked and isinstance(act, read.Profile | read.Round):
            told.pop("intent", None)  # told beside the shot
        else:
            out.setdefault("kind", _kind(act, before))
        if "result" in out and "result" in told:
            told["result"] = {**out["result"], **told["result"]}
        out.update(told)
    if not reading.acts:
        out["kind"] = "unclear"
        if any(choice.about == "clarify" for choice in reading.open):
            out["ask"] = "clarify"
    if "ask" not in out:
        question = _question(reading, out)
        if question:
            out["ask"] = question
    return out


def _turned(act: read.Act) -> bool:
    """Whether a shot is told with where the wind blows now, and is as strong as before."""
    wind = act.facts.wind if isinstance(act, read.Shot) else None
    return wind is not None and wind.from_deg is not None and wind.speed is None


def _kind(act: read.Act, before: read.Facts | None) -> str:
    if isinstance(act, read.FollowUp) and act.ask in ("change", "correct") and before is None:
        news = act.facts == read.Facts(green=act.facts.green)
        return "shot" if act.facts.distance is not None else "round" if news else "unclear"
    if isinstance(act, read.Shot):
        return "shot" if act.kind == "recovery" else act.kind
    return KINDS[act.act]


def _question(reading: read.Reading, out: dict[str, Any]) -> str | None:
    """The question a careful caddie would put first, by what stayed open."""
    asking = [a for a in reading.acts if isinstance(a, read.Shot | read.FollowUp)]
    if not asking:
        return None
    distance = any(
        k in out for k in ("distance_yd", "distance_m", "hole_yd", "hole_m", "putt", "plays_as_yd")
    )
    distance = (
        distance or ({"front_yd", "back_yd"} <= set(out)) or ({"front_m", "back_m"} <= set(out))
    )
    leaning = any(
        isinstance(a, read.FollowUp)
        and (a.ask not in ("change", "correct") or a.facts == read.Facts(green=a.facts.green))
        for a in asking
    )
    if not distance and not leaning:
        return "distance"
    if "wind_from" not in out:
        for choice in reading.open:
            if choice.about in ("wind_dir", "wind_side"):
                return choice.about
    for choice in reading.open:
        if choice.about in (
            "distance",
            "units",
            "height_or_wind",
            "side",
            "break_side",
            "clarify",
        ):
            return choice.about
    return None


def _act(act: read.Act, units: Units, before: read.Facts | None, hand: int) -> dict[str, Any]:
    match act:
        case read.Shot() | read.FollowUp():
            return _asked(act, units, before)
        case read.Result():
            return {"result": _result(act, units, hand), **_named(act.player)}
        case read.Score():
            return {"result": _score(act), **_named(act.player), **_given(hole=act.hole)}
        case read.Profile():
            return _profile(act, units)
        case read.Round():
            return _round(act, units)
        case read.Review():
            return {"intent": act.intent, **_given(club=act.club, part=act.part, hole=act.hole)}
        case read.RulesHelp():
            return {"intent": "rules", "topic": act.topic}
        case read.Safety():
            return {"safety": act.danger}
        case read.Talk():
            return {"intent": act.intent} if act.intent in _TALK else {}
        case read.Nonsense():
            ask = {
                "distance": "confirm_distance",
                "wind": "confirm_wind",
                "height": "confirm_elevation",
            }.get(act.why)
            return {"reject": True, **_given(ask=ask)}
        case read.Answered() if before is not None and before != read.Facts():
            told = act.facts
            if act.number is not None and before.distance is None and told.distance is None:
                told = told.model_copy(update={"distance": act.number})
            return _asked(read.FollowUp(facts=told), units, before)
        case _:
            return {}


def _asked(
    act: read.Shot | read.FollowUp, units: Units, before: read.Facts | None
) -> dict[str, Any]:
    told = flat(act.facts, units)
    if isinstance(act, read.Shot) and act.kind == "tee" and told.get("lie") == ["tee"]:
        del told["lie"]
    if before is None or (isinstance(act, read.Shot) and act.kind == "putt"):
        full = told  # a breeze told for a full shot is not meant for a putt
    elif isinstance(act, read.FollowUp):
        correct = act.ask == "correct"
        full = flat(follow(before, act.facts, act.not_side, correct=correct), units)
    else:
        joined = completed if lacks_distance(before) else moved_on
        full = flat(joined(before, act.facts), units)
    # A number put right may turn out to be the height's or the wind's.
    told = {k: v for k, v in told.items() if k != "distance_yd" or full.get(k) == v}
    out = dict(told)
    if before is not None:  # what was told against the old is not carried
        old = flat(before, units)
        by = act.facts.wind is not None and act.facts.wind.change in ("more", "less")
        moved = ("distance_yd", "distance_m", "wind_from", *(("wind_mph",) if by else ()))
        told.update({k: full[k] for k in moved if k in full and old.get(k) != full[k]})
        out.update(told)
    carried = [k for k in full if k not in told and k not in ONCE]
    out.update({k: full[k] for k in carried})
    if isinstance(act, read.FollowUp) and act.not_side is not None and "hazards" not in told:
        turned = "hazards" if "hazards" in carried else "wind_from"
        carried = [k for k in carried if k != turned]
    if "hazards" in full and "hazards" in told:
        out["hazards"] = full["hazards"]
    if "elevation_dir" in told and "elevation_ft" in full:  # "it's uphill, not downhill"
        del out["elevation_dir"]
        carried = [k for k in carried if k != "elevation_ft"]
    if carried:
        out["carried"] = carried
    if isinstance(act, read.FollowUp) and act.ask == "reach" and act.facts.club:
        out["intent"] = "what_if"
    elif isinstance(act, read.FollowUp) and (act.ask in _FOLLOW or act.supposed):
        out["intent"] = "what_if" if act.supposed else act.ask
    if out.get("wind_mph") == 0 and "wind_from" in carried:  # a calm comes from nowhere
        del out["wind_from"]
        out["carried"] = [k for k in carried if k != "wind_from"]
    out.update(_named(act.player))
    return out


def flat(facts: read.Facts, units: Units) -> dict[str, Any]:
    """The facts of a shot under flat names."""
    out: dict[str, Any] = {}
    if facts.distance is not None:
        out.update(_far("distance", facts.distance, units))
    if facts.reference not in (None, "layup", "corner"):
        out["reference"] = facts.reference
    for name in ("front", "middle", "back"):
        said = getattr(facts, name)
        if said is not None and not (name == facts.reference and said == facts.distance):
            out.update(_far(name, said, units))
    if facts.plays_as is not None:
        out.update(_far("plays_as", facts.plays_as, units))
    if facts.plays_delta is not None:
        out.update(_far("plays_delta", facts.plays_delta, units))
    if facts.wind is not None:
        out.update(_wind(facts.wind, units))
        bearing = None if facts.hole is None else facts.hole.bearing_deg
        if bearing is not None and facts.wind.compass in POINTS and facts.wind.from_deg is None:
            out["wind_from"] = (POINTS.index(facts.wind.compass) * 22.5 - bearing) % 360
    if facts.elevation is not None:
        out.update(_height(facts, units))
    if facts.air is not None:
        out.update(_air(facts.air, units))
    for name in ("lie", "safe", "pin", "clubs_compare"):
        said = getattr(facts, name)
        if said:
            kept = [s for s in said if s != "tucked"]
            out.update({name: kept} if kept else {})
    if facts.hazards:
        # Of "short left" the side across the line stands for both.
        flank = [h for h in facts.hazards if not (h.corner and h.side in ("short", "long"))]
        out["hazards"] = [_hazard(h, units) for h in flank]
    if facts.green is not None:
        out.update(_green(facts.green, units))
    if facts.hole is not None:
        out.update(_hole(facts.hole, units))
    if facts.putt is not None:
        out["putt"] = _putt(facts.putt, units)
    if facts.leave is not None:
        out.update(_far("leave", facts.leave, units))
    out.update(
        _given(
            club_asked=facts.club, club_excluded=facts.club_excluded,
            swing=facts.swing if facts.club or facts.clubs_compare else None,
            shape=facts.shape if facts.putt is None else None,
        )
    )  # fmt: skip
    return out


def _given(**values: Any) -> dict[str, Any]:
    return {k: v for k, v in values.items() if v is not None}


def _named(player: str | None) -> dict[str, Any]:
    return _given(player=player)


def _far(name: str, said: Measure, units: Units) -> dict[str, Any]:
    """A length of a shot in the unit it was said in."""
    measure = settle(said, "distance", units)
    if measure.unit in ("m", "cm"):
        return {f"{name}_m": _in(measure, "m")}
    return {f"{name}_yd": _in(measure, "yd")}


def _in(measure: Measure, unit: str) -> float:
    """The number in another unit, without noise in the last digits."""
    said = "yd" if measure.unit == "pace" else measure.unit
    if said == unit or not said:
        return measure.value
    return round(si(quantity(measure.value, said), unit), 1)


def _wind(wind: read.Wind, units: Units = "imperial") -> dict[str, Any]:
    out: dict[str, Any] = {}
    if wind.speed is not None:
        if wind.speed.unit == "club":
            out["wind_clubs"] = wind.speed.value
        else:
            calm = wind.speed.high is not None and wind.speed.high <= 2
            out["wind_mph"] = 0 if calm else _in(settle(wind.speed, "wind", units), "mph")
    if wind.gust is not None:
        out["wind_gust_mph"] = _in(settle(wind.gust, "wind", units), "mph")
    out.update(_given(wind_from=wind.from_deg, wind_compass=wind.compass))
    return out


def _height(facts: read.Facts, units: Units) -> dict[str, Any]:
    height = facts.elevation
    if height is None:
        return {}
    sign = height.direction or 0
    if height.size is None:
        return (
            {"elevation_ft": 0} if sign == 0 else {"elevation_dir": "up" if sign > 0 else "down"}
        )
    if height.size.unit == "%":
        out: dict[str, Any] = {"slope_pct": sign * height.size.value}
        if facts.distance is not None:
            feet = _in(settle(facts.distance, "distance", units), "ft")
            out["elevation_ft"] = round(sign * height.size.value / 100 * feet, 1)
        return out
    return {"elevation_ft": sign * _in(settle(height.size, "height", units), "ft")}


def _air(air: read.Air, units: Units) -> dict[str, Any]:
    out: dict[str, Any] = {}
    if air.temperature is not None:
        warm = settle(air.temperature, "temperature", units)
        out["temperature_F"] = _in(warm, "degF")
    if air.altitude is not None:
        out["altitude_ft"] = _in(settle(air.altitude, "height", units), "ft")
    out.update(_given(rain=air.rain))
    return out


def _hazard(hazard: read.Hazard, units: Units) -> dict[str, Any]:
    out: dict[str, Any] = {"kind": hazard.kind, **_given(side=hazard.side)}
    start = hazard.start or hazard.reach_or_carry
    if start is not None:
        out.update(_far("from", start, units))
    if hazard.end is not None:
        out.update(_far("to", hazard.end, units))
    return out


def _green(green: read.Green, units: Units) -> dict[str, Any]:
    out: dict[str, Any] = {}
    if green.depth is not None:
        out.update(_far("green_depth", green.depth, units))
    speed = "fast" if green.speed_word == "very_fast" else green.speed_word
    word = {"baked": "firm"}.get(green.firmness or "", green.firmness) or speed
    out.update(_given(green=word, stimp=green.stimp))
    return out


def _hole(hole: read.Hole, units: Units) -> dict[str, Any]:
    out = _given(hole=hole.number, par=hole.par, dogleg=hole.dogleg)
    if hole.length is not None:
        out.update(_far("hole", hole.length, units))
    return out


# Rules of Golf and Equipment Rules: hole 4.25 in, ball 1.68 in across.
_INCHES = {"cup": 4.25, "ball": 1.68, "cm": 1 / 2.54, "ft": 12.0, "m": 1 / 0.0254}


def _putt(putt: read.Putt, units: Units) -> dict[str, Any]:
    out: dict[str, Any] = {}
    if putt.length is not None:
        out["length_ft"] = _in(settle(putt.length, "putt", units), "ft")
    out.update(_given(slope=putt.slope))
    if putt.slope_size is not None and putt.slope_size.unit == "%":
        out["slope_pct"] = putt.slope_size.value
    out.update({"break": putt.break_to} if putt.break_to else {})
    out.update(_given(second_break=putt.second_break_to))
    if putt.break_to is None:
        out.update(_given(break_word=putt.break_word))
    size = putt.break_size
    if size is not None and size.about and size.unit == "cup":
        return out  # an edge is no told width
    if size is not None and size.unit == "%":
        out["break_pct"] = size.value
    elif size is not None:
        out["break_in"] = size.value * _INCHES.get(size.unit, 1.0)
    return out


def _result(result: read.Result, units: Units, hand: int) -> dict[str, Any]:
    out: dict[str, Any] = _given(
        club=result.club, side=side_of(result, hand), depth=result.depth,
        contact="pure" if result.contact == "solid" else result.contact,
        penalty=result.penalty, putts=result.putts, holed=result.holed,
    )  # fmt: skip
    for name, said in (("carry", result.carry), ("total", result.total)):
        if said is not None:
            out.update(_far(name, said, units))
    by = result.by or result.side_by
    if by is not None:
        out.update(_far("by", by, units))
    if result.aim is not None:
        out["aim"] = result.aim.at
        out.update(_given(aim_side=result.aim.side))
        if result.aim.by is not None:
            out.update(_far("aim_by", result.aim.by, units))
    if result.lie:
        out["lie"] = list(result.lie)
    if result.proximity is not None:
        out["proximity_ft"] = _in(settle(result.proximity, "putt", units), "ft")
    return out


def _score(score: read.Score) -> dict[str, Any]:
    out = _given(score=score.strokes, score_rel=score.to_par, putts=score.putts)
    if score.picked_up:
        out["picked_up"] = True
    return out


def _profile(profile: read.Profile, units: Units) -> dict[str, Any]:
    out: dict[str, Any] = {"intent": profile.intent}
    out.update(
        _given(
            club=profile.club, shape=profile.shape, miss=profile.miss,
            handicap=profile.handicap, hand=profile.hand, units=profile.units, name=profile.name,
        )
    )  # fmt: skip
    for name in ("carry", "total", "leave"):
        said = getattr(profile, name)
        if said is not None:
            out.update(_far(name, said, units))
    if profile.speed is not None:
        out["speed_mph"] = _in(settle(profile.speed, "wind", units), "mph")
    out.update(_named(profile.player))
    return out


def _round(steer: read.Round, units: Units) -> dict[str, Any]:
    out: dict[str, Any] = {"intent": steer.intent}
    out.update(_given(course=steer.course, holes=steer.holes, competition=steer.competition))
    if steer.players:
        out["players"] = list(steer.players)
    if steer.hole is not None:
        out.update(_hole(steer.hole, units))
    return out
