"""What is carried from one message to the next, and for how long: one table."""

from __future__ import annotations

import math
from datetime import datetime, timedelta
from typing import Literal, cast

from bot.model.measure import Measure
from bot.model.reading import Elevation, Facts, Green, Hazard, Lie, Side, Wind
from bot.model.state import Memory

Life = Literal["shot", "hole", "day"]

# How long each fact lives. "shot": until the ball lies elsewhere. "hole": until another hole,
# since it is told against this hole's line. "day": until told anew.
LIVES: dict[str, Life] = {
    "distance": "shot",
    "reference": "shot",
    "front": "shot",
    "middle": "shot",
    "back": "shot",
    "plays_as": "shot",
    "plays_delta": "shot",
    "elevation": "shot",
    "lie": "shot",
    "lie_angle": "shot",
    "hazards": "shot",
    "safe": "shot",
    "pin": "shot",
    "putt": "shot",
    "leave": "shot",
    "protect": "shot",
    "club": "shot",
    "clubs_compare": "shot",
    "club_excluded": "shot",
    "swing": "shot",
    "shape": "shot",
    "beside": "shot",
    "wind": "hole",
    "hole": "hole",
    "air": "day",
    "green": "day",
}

ONCE = frozenset({"club", "clubs_compare", "club_excluded", "swing", "shape"})  # questions
# What a wind is taken to be that was told to have dropped or picked up, and by how much it may
# have, as shares of what it was: judgement.
CHANGED = {"down": 0.5, "up": 1.5}
_SITS = frozenset({"sitting_up", "sitting_down", "flyer", "buried", "wet"})
_OPPOSED = (
    frozenset({"above_feet", "below_feet"}), frozenset({"upslope", "downslope"}),
    frozenset({"sitting_up", "sitting_down", "buried"}),
)  # fmt: skip
_STANCE = _SITS | _OPPOSED[0] | _OPPOSED[1]
OF_WIND = ("wind_side", "wind_dir", "wind_speed")  # questions about a wind that was told
_TIMES = {"half": 0.5, "double": 2.0}
_BY = {"more": 1.0, "less": -1.0}  # by so much, told with it
ALIKE = 3.0  # a number put right is within this ratio of the wrong one: judgement
STALE_AFTER = timedelta(hours=5)  # an older talk is another round: common practice, no source


def talked_of(memory: Memory, at: datetime) -> Facts | None:
    """Return the shot being talked about: the one that waits for an answer, or the last."""
    if _stale(memory, at) and memory.asked_for is None:
        return None
    return memory.asked_for or memory.shot


def follow(
    old: Facts,
    new: Facts,
    not_side: Side | Literal["told"] | None = None,
    *,
    correct: bool = False,
) -> Facts:
    """Return the facts of the same shot after a message that changed some of them.

    `not_side` is a side taken back ("right, not left"): trouble told there is on the other;
    ``told`` is the side all trouble of the kinds named was told on, or else the wind's.
    Trouble told later stands beside what was told before; where `correct`, it replaces trouble
    of its kind.
    """
    if not_side == "told":
        not_side = _only_side(old, {h.kind for h in new.hazards})
    if not_side is not None and (not new.hazards or _lies_at(old, not_side)):
        turned = _other_side(old, not_side)
        if turned.hazards != old.hazards:
            new = new.model_copy(update={"hazards": ()})
        old = turned
    if new.gone:
        new = new.model_copy(update={"hazards": _in_place(new, old.hazards)})
        left = tuple(h for h in old.hazards if h.kind not in new.gone)
        old = old.model_copy(update={"hazards": left})
    if new.safe:  # "wrong, left is fine"
        left = tuple(h for h in old.hazards if h.kind != "trouble" or h.side not in new.safe)
        old = old.model_copy(update={"hazards": left})
    new = new.model_copy(update={"hazards": _of_the_one(new.hazards, old.hazards)})
    if new.hazards:
        named = tuple(h for h in new.hazards if not _known(h, old.hazards))
        new = new.model_copy(update={"hazards": named})
    if new.hazards:
        kinds = {h.kind for h in new.hazards}
        places = {(h.kind, h.side) for h in new.hazards}
        kept_hazards = tuple(
            h
            for h in old.hazards
            if (h.kind not in kinds if correct else (h.kind, h.side) not in places)
        )
        new = new.model_copy(update={"hazards": (*kept_hazards, *new.hazards)})
    if new.unit is not None and old.distance is not None:
        new = new.model_copy(
            update={"distance": old.distance.model_copy(update={"unit": new.unit})}
        )
    elif new.farther is not None and old.distance is not None:
        new = new.model_copy(update={"distance": _moved(old.distance, new.farther)})
    elif correct:
        new = _of_what(old, new)
    new = new.model_copy(update={"lie": _lying(old.lie, new.lie)})
    kept = {name: value for name, value in _told(old).items() if name not in ONCE}
    return _merged(kept, new)


def _lying(old: tuple[Lie, ...], new: tuple[Lie, ...]) -> tuple[Lie, ...]:
    """Return the lie of a ball after some of it was told anew: stance and turf are told apart."""
    if not new:
        return old
    turf = set(new) - _STANCE
    lost = {x for pair in _OPPOSED if pair & set(new) for x in pair}
    kept = [x for x in old if x not in lost and (x in _STANCE or not turf)]
    if turf:  # how a ball sits belongs to the turf it was told of
        kept = [x for x in kept if x not in _SITS]
    return tuple(dict.fromkeys((*kept, *new)))


def _in_place(new: Facts, told: tuple[Hazard, ...]) -> tuple[Hazard, ...]:
    """Return trouble named instead of another, where that other lay."""
    other = next((h for h in told if h.kind in new.gone), None)
    if other is None:
        return new.hazards
    return tuple(
        other.model_copy(update={"kind": h.kind}) if h == Hazard(kind=h.kind) else h
        for h in new.hazards
    )


def _of_the_one(new: tuple[Hazard, ...], old: tuple[Hazard, ...]) -> tuple[Hazard, ...]:
    """Return trouble where a carry told alone is that of the one thing known to lie ahead."""
    ahead = [h for h in old if h.side in ("short", "cross")]
    if len(ahead) != 1:
        return new
    known = ahead[0]
    alike = [Hazard(kind="trouble", side="short"), Hazard(kind=known.kind)]
    alike.append(Hazard(kind=known.kind, side="short"))
    return tuple(
        known.model_copy(update={"start": None, "end": h.end})
        if h.end is not None and h.model_copy(update={"end": None}) in alike else h
        for h in new
    )  # fmt: skip


def _known(named: Hazard, told: tuple[Hazard, ...]) -> bool:
    """Whether trouble is only named that was told before: "how far to carry the water"."""
    if any((named.start, named.end, named.reach_or_carry, named.gap)):
        return False
    across = ("short", "cross")
    return any(
        h.kind == named.kind
        and (named.side in (None, h.side) or (named.side in across and h.side in (*across, None)))
        for h in told
    )


def _moved(distance: Measure, by: Measure) -> Measure | None:
    """Return a distance moved by what was told against it; None where the units differ."""
    if by.unit not in ("", distance.unit) and not (
        by.unit in ("yd", "pace") and not distance.unit
    ):
        return None
    return distance.model_copy(update={"value": distance.value + by.value})


def _of_what(old: Facts, new: Facts) -> Facts:
    """Return a correction whose number is no distance as one of the height or the wind."""
    number, before = new.distance, old.distance
    if number is None or before is None or new.reference is not None:
        return new
    if before.value / ALIKE <= number.value <= before.value * ALIKE:
        return new
    height, wind = old.elevation, old.wind
    if new.elevation is None and height is not None and _of_height(number, height, wind):
        mended = height.model_copy(update={"size": number})
        return new.model_copy(update={"distance": None, "elevation": mended})
    if new.wind is None and wind is not None and not number.unit:
        return new.model_copy(update={"distance": None, "wind": Wind(speed=number)})
    return new


def _of_height(number: Measure, height: Elevation, wind: Wind | None) -> bool:
    """Whether a number told anew is the height's, and not rather that of the wind."""
    if height.size is None:
        return False
    if number.unit or wind is None or wind.speed is None:
        return True
    if number.value == height.size.value:
        return False  # said before: it is the other that changed
    apart = (
        abs(math.log(max(number.value, 0.1) / max(told.value, 0.1)))
        for told in (height.size, wind.speed)
    )
    return next(apart) <= next(apart)


def next_shot(memory: Memory, new: Facts, at: datetime) -> Facts:
    """Return the facts of a new shot: what outlives the last one, with what was told now.

    A number that comes while the distance is asked for belongs to the shot that waits for it.
    """
    asked, waiting = memory.expecting, memory.asked_for
    if _stale(memory, at):
        return new
    if asked is not None and asked.about == "distance" and waiting is not None:
        return completed(waiting, new)
    old = memory.shot
    if asked is not None and asked.about in OF_WIND and waiting is not None:
        old = old.model_copy(update={"wind": waiting.wind})  # told, though its way stayed open
    return moved_on(old, new)


def lacks_distance(facts: Facts) -> bool:
    """Say whether nothing told of a shot says how long it is."""
    hole = facts.hole
    numbers = (facts.distance, facts.front, facts.middle, facts.back, facts.putt)
    return facts != Facts() and not any(numbers) and (hole is None or hole.length is None)


def completed(waiting: Facts, new: Facts) -> Facts:
    """Return the facts of a shot that waited for a number, with its questions still open."""
    facts = follow(waiting, new)
    left = {name: getattr(waiting, name) for name in ONCE}
    return facts.model_copy(update={n: v for n, v in left.items() if not getattr(facts, n)})


def moved_on(old: Facts, new: Facts) -> Facts:
    """Return the facts of a ball in another place: what outlives a shot, and what was told."""
    new_hole = new.hole is not None
    lives = {"day"} if new_hole else {"day", "hole"}
    if new_hole and old.green is not None:  # another green is as fast, but not as large
        other = old.green.model_copy(update={"depth": None, "width": None, "falls": None})
        old = old.model_copy(update={"green": None if other == Green() else other})
    return _merged({n: v for n, v in _told(old).items() if LIVES[n] in lives}, new)


def carried(facts: Facts, told: Facts) -> tuple[str, ...]:
    """Return the names of facts that come from memory and not from this message."""
    now = _told(told)
    return tuple(name for name in _told(facts) if name not in now)


def _only_side(facts: Facts, kinds: set[str]) -> Side | None:
    """Return the side on which all trouble (of some kinds) was told, or the wind off it."""
    sides = {h.side for h in facts.hazards if not kinds or h.kind in kinds} & {"left", "right"}
    if not sides and not kinds and facts.wind is not None and facts.wind.from_deg is not None:
        return "right" if 0 < facts.wind.from_deg < 180 else "left"
    return cast(Side, sides.pop()) if len(sides) == 1 else None


def _other_side(facts: Facts, wrong: Side) -> Facts:
    """Return the facts with trouble, or else the wind, moved off the wrong side."""
    right: Side = "left" if wrong == "right" else "right"
    if _lies_at(facts, wrong):
        moved = tuple(
            h.model_copy(update={"side": right}) if h.side == wrong else h for h in facts.hazards
        )
        return facts.model_copy(update={"hazards": moved})
    wind = facts.wind
    if wind is None or wind.from_deg is None:
        return facts
    mirrored = wind.model_copy(update={"from_deg": (360.0 - wind.from_deg) % 360.0})
    return facts.model_copy(update={"wind": mirrored})


def _lies_at(facts: Facts, side: Side) -> bool:
    return any(h.side == side for h in facts.hazards)


def _merged(old: dict[str, object], new: Facts) -> Facts:
    now = _told(new)
    wind_before, wind_now = old.get("wind"), new.wind
    if isinstance(wind_before, Wind):
        if wind_now is not None:
            now["wind"] = _wind(wind_before, wind_now)
        elif wind_before.change in CHANGED:  # said once, not with every shot
            old = {**old, "wind": wind_before.model_copy(update={"change": None})}
    raised_before, raised_now = old.get("elevation"), new.elevation
    if isinstance(raised_before, Elevation) and raised_now is not None and raised_now.size is None:
        now["elevation"] = raised_now.model_copy(update={"size": raised_before.size})
    return Facts(**{**old, **now})


def _wind(before: Wind, now: Wind) -> Wind:
    """Return the wind after a message that told only its strength, or only where it is from."""
    if now.change == "died":
        return now
    if now.change in ("opposite", "mirrored"):
        way = before.from_deg
        if way is None:
            return before
        turned = way + 180.0 if now.change == "opposite" else -way
        return before.model_copy(update={"from_deg": turned % 360.0, "compass": None})
    told = {n: getattr(now, n) for n in now.model_fields_set}
    directed = {"from_deg", "compass", "across", "quartering"}
    if directed & now.model_fields_set:
        kept = {n: getattr(before, n) for n in ("speed", "gust", "at_flag")}
    else:
        kept = {n: getattr(before, n) for n in before.model_fields_set - {"change", "gust"}}
    speed = before.speed
    if now.change in CHANGED and now.speed is None and speed is not None:
        changed = speed.value * CHANGED[now.change]
        told["speed"] = Measure(value=changed, unit=speed.unit, about=True)
    if now.change in _BY and now.speed is not None:
        told |= _stronger(speed, now.speed, _BY[now.change])
    if now.change in _TIMES and now.speed is None and speed is not None:
        told["speed"] = _times(speed, _TIMES[now.change])
    return Wind(**{**kept, **told})


def _times(speed: Measure, factor: float) -> Measure:
    ends = {n: None if (v := getattr(speed, n)) is None else factor * v for n in ("low", "high")}
    return speed.model_copy(update={"value": factor * speed.value, **ends})


def _stronger(before: Measure | None, by: Measure, sign: float) -> dict[str, object]:
    """Return what is told of a wind by so much stronger or weaker than it was `before`."""
    if before is None or (by.unit != before.unit and by.unit and before.unit):
        return {"speed": None, "change": None}
    value = max(before.value + sign * by.value, 0.0)
    return {"speed": Measure(value=value, unit=before.unit or by.unit), "change": None}


def _told(facts: Facts) -> dict[str, object]:
    """Return the fields of `facts` that were told."""
    return {
        name: getattr(facts, name)
        for name in LIVES
        if getattr(facts, name) is not None and getattr(facts, name) != ()
    }


def _stale(memory: Memory, at: datetime) -> bool:
    return memory.shot_at is None or at - memory.shot_at > STALE_AFTER
