"""Chip, pitch, splash or putt: how to play a ball that lies beside the green."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bot.model.answer import Answer, Ask
from bot.model.green import ChipAdvice, ChipAssumed, ChipPick, ChipRefusal, ChipRefused
from bot.model.measure import Measure
from bot.model.reading import Answered, Expecting, Facts, FollowUp, Putt, Reading, Shot
from bot.model.state import Units
from bot.turn import memory
from bot.turn.answered import keep
from bot.turn.bag import bag_of
from bot.turn.desk import Desk
from bot.turn.green import grade_of, side_of, stimp_of
from bot.turn.left_out import left_out
from bot.turn.measures import in_metres, measured, settle, to_quantity
from bot.turn.putt import as_slope, with_putt
from engine import (
    ChipAnswer,
    ChipChoice,
    ChipLieName,
    ChipQuestion,
    Fall,
    PuttQuestion,
    plan_chip,
    plan_putt,
    quantity,
    si,
)
from engine.errors import NoSolution, OutOfRange

if TYPE_CHECKING:
    from engine.units import Q

REACH_YD = 60.0  # a longer one is a swing for the whole bag
# What a lie is to a short shot, the first match of the list.
_LIES: tuple[tuple[str, ChipLieName], ...] = (
    ("greenside_bunker", "sand"), ("bunker", "sand"), ("fairway_bunker", "sand"),
    ("deep_rough", "deep_rough"), ("buried", "deep_rough"), ("sitting_down", "deep_rough"),
    ("rough", "rough"), ("trees", "rough"), ("hardpan", "tight"), ("divot", "tight"),
    ("pine_straw", "tight"), ("path", "tight"), ("first_cut", "first_cut"),
    ("flyer", "first_cut"), ("sitting_up", "first_cut"), ("fringe", "fringe"),
    ("fairway", "fairway"), ("wet", "fairway"),
)  # fmt: skip
_NO_SHOT = frozenset({"water", "ob", "lost", "penalty", "blocked"})
_SHORT_SIDED = 0.7  # share of the way that is not green where the pin is tucked: judgement
_MARGIN_M = 0.5  # green begins this far beyond trouble whose far side was told: judgement
_STILL = 1.0  # what a told calm is read as, in any unit
_BEFORE = frozenset({"short", "cross"})
_NAMES: dict[str, ChipRefusal] = {
    "chip distance": "distance",
    "green edge": "edge",
    "slope at the hole": "steep",
    "slope": "slope",
    "green speed": "speed",
    "break": "slope",
    "putt length": "distance",
    "height": "height",
}


def near(facts: Facts, units: Units | None) -> bool:
    """Say whether a shot told as a chip is short enough to be one."""
    distance = facts.distance
    if distance is None:
        return True
    return si(to_quantity(distance, "distance", units or "imperial"), "yd") <= REACH_YD


def off_green(facts: Facts) -> bool:
    """Say whether a putt told lies off the green, so that a chip is to be weighed too."""
    return bool(set(facts.lie) & {word for word, _ in _LIES})


def take(desk: Desk, act: Shot, reading: Reading) -> tuple[Desk, Answer]:
    """Advise on a short shot told anew."""
    facts = memory.next_shot(desk.memory, _meant(act.facts), desk.now)
    return _advise(desk, facts, act.facts, reading)


def take_followup(desk: Desk, act: FollowUp, reading: Reading) -> tuple[Desk, Answer]:
    """Advise again after a change, or explain the last answer."""
    facts = with_putt(desk.memory.shot, _meant(act.facts))
    explain = act.ask in ("why", "why_not", "alternatives")
    return _advise(desk, facts, act.facts, reading, explain=explain)


def take_answered(desk: Desk, act: Answered, reading: Reading) -> tuple[Desk, Answer]:
    """Go on with the shot that waited for its distance."""
    facts = with_putt(desk.memory.shot, _meant(act.facts))
    if act.number is not None and facts.distance is None:
        facts = facts.model_copy(update={"distance": act.number})
    return _advise(desk, facts, act.facts, reading)


def _meant(facts: Facts) -> Facts:
    """Return the facts with a grade, or a bare up or down, for the slope of the green.

    A number to the edge of the green alone is where that begins, and no distance to the hole.
    """
    if facts.reference == "front" and facts.front is None:
        edge = {"front": facts.distance, "distance": None, "reference": None}
        facts = facts.model_copy(update=edge)
    size = facts.elevation.size if facts.elevation else None
    return facts if size is not None and size.unit not in ("%", "deg") else as_slope(facts)


def _advise(
    desk: Desk, facts: Facts, told: Facts, reading: Reading, *, explain: bool = False
) -> tuple[Desk, Answer]:
    units = desk.units
    if _NO_SHOT & set(facts.lie):
        return desk, ChipRefused(why="no_shot")
    if facts.distance is None and facts.putt is not None and facts.putt.length is not None:
        facts = facts.model_copy(update={"distance": settle(facts.putt.length, "putt", units)})
    if facts.distance is None:
        return _ask(desk, facts)
    try:
        question, assumed = _question(desk, facts, units)
        found = plan_chip(question)
    except OutOfRange as error:
        return desk, ChipRefused(why=_NAMES[error.name], most=error.high)
    except NoSolution:
        return desk, ChipRefused(why="no_club")
    advice = _advice(facts, question, found, assumed, units).model_copy(
        update={
            "explain": explain,
            "left_out": _left_out(told),
            "not_offered": _not_offered(told, found),
            "unread": tuple(s.text for s in reading.unread),
        }
    )
    return (desk if explain else keep(desk, facts, "chip", advice)), advice


def _ask(desk: Desk, facts: Facts) -> tuple[Desk, Answer]:
    about = Expecting(about="distance")
    kept = desk.memory.model_copy(
        update={"shot": facts, "shot_kind": "chip", "shot_at": desk.now, "expecting": about}
    )
    return desk.put(kept), Ask(about=about)


def _question(
    desk: Desk, facts: Facts, units: Units
) -> tuple[ChipQuestion, tuple[ChipAssumed, ...]]:
    assumed: list[ChipAssumed] = []
    distance = facts.distance
    if distance is None:
        msg = "a short shot needs a distance"
        raise ValueError(msg)
    q_distance = to_quantity(distance, "distance", units)
    lie = _lie(facts)
    if lie is None:
        assumed.append("lie")
    edge, over = _edge(facts, q_distance, units)
    if edge is None:
        assumed.append("edge")
    stimp, guessed = stimp_of(desk, facts)
    if guessed:
        assumed.append("stimp")
    putt = facts.putt or Putt()
    up, guessed = grade_of(putt, q_distance, units)
    if guessed:
        assumed.append("grade")
    right, guessed = side_of(putt, q_distance, up, stimp)
    if guessed:
        assumed.append("side")
    green = facts.green
    question = ChipQuestion(
        golfer=bag_of(desk.player.profile).golfer,
        distance=q_distance,
        lie=lie or "fairway",
        edge=edge,
        over=over,
        stimp=stimp,
        firmness=(green.firmness if green and green.firmness else desk.trip.day.turf) or "normal",
        up=up,
        right=right,
        height=_height(facts, units),
    )
    return question, tuple(assumed)


def _lie(facts: Facts) -> ChipLieName | None:
    told = set(facts.lie)
    found = next((name for word, name in _LIES if word in told), None)
    sand = found == "sand" or any(h.kind == "bunker" and h.side is None for h in facts.hazards)
    return "buried" if sand and told & {"buried", "sitting_down"} else found


def _edge(facts: Facts, distance: Q, units: Units) -> tuple[Q | None, bool]:
    """Return where the green begins, as far as told, and whether trouble lies before it."""
    between = [h for h in facts.hazards if h.side in _BEFORE]
    ends = [h.end or h.reach_or_carry for h in between]
    told_m = [in_metres(m, units) + _MARGIN_M for m in ends if m]
    if facts.front is not None:
        told_m.append(in_metres(facts.front, units))
    if told_m:
        return quantity(max(told_m), "m"), bool(between)
    if "tucked" in facts.pin:
        return quantity(_SHORT_SIDED * si(distance, "m"), "m"), bool(between)
    return None, bool(between)


def _height(facts: Facts, units: Units) -> Q | None:
    height = facts.elevation
    if height is None or height.size is None or height.direction is None:
        return None
    if height.size.unit in ("%", "deg"):
        return None
    size = si(to_quantity(height.size, "height", units), "m")
    return quantity(size * height.direction, "m")


def _advice(
    facts: Facts,
    question: ChipQuestion,
    found: ChipAnswer,
    assumed: tuple[ChipAssumed, ...],
    units: Units,
) -> ChipAdvice:
    picks = tuple(_pick(choice, units) for choice in found.choices)
    aim = _aim(question, found)
    best = picks[0]
    putting = best.how == "putter"
    other = next((p for p in picks if (p.how == "putter") != putting), None)
    return ChipAdvice(
        distance=measured(question.distance, "distance", units),
        lie=question.lie,
        best=best,
        other=other,
        asked=_asked(facts, picks),
        more=picks[:6],
        green_from=measured(found.edge, "distance", units),
        over=question.over,
        grade=_per_cent(question.up),
        side=_per_cent(question.right),
        breaks=(facts.putt or Putt()).break_to,
        aim=None if aim is None else Measure(value=si(aim, "in"), unit="in"),
        aim_far=None if aim is None else measured(aim, "putt", units),
        assumed=assumed,
    )


def _left_out(facts: Facts) -> tuple[str, ...]:
    """Return what was told now and changes nothing here: trouble past the green, and the wind."""
    past = [f"{h.kind} {h.side}" for h in facts.hazards if h.side not in (None, *_BEFORE)]
    wind = facts.wind
    still = wind is not None and wind.speed is not None and wind.speed.value <= _STILL
    blows = wind is not None and not still and wind.change != "died"
    beside = [name for name in left_out(facts, None) if name != "swirling wind"]
    return (*dict.fromkeys(past), *(("wind",) if blows else ()), *beside)


def _not_offered(facts: Facts, found: ChipAnswer) -> tuple[str, ...]:
    """Return clubs and ways that were asked about and that this bag or lie does not offer."""
    offered = {"P" if c.kind == "putter" else c.club for c in found.choices}
    clubs = [c for c in (facts.club, *facts.clubs_compare) if c and c not in offered]
    ways = {c.kind for c in found.choices}
    asked = facts.swing if facts.swing in ("bump", "flop", "chip", "pitch") else None
    return (*clubs, *((asked,) if asked and asked not in ways else ()))


def _per_cent(slope: Q | None) -> Measure:
    return Measure(value=0.0 if slope is None else 100.0 * si(slope, "1"), unit="%")


def _aim(question: ChipQuestion, found: ChipAnswer) -> Q | None:
    """Return where to start it on a side slope: it breaks as a putt does that long as it rolls."""
    up, right, stimp = question.up, question.right, question.stimp
    if up is None or right is None or stimp is None or si(right, "%") == 0.0:
        return None
    best = found.choices[0]
    rolls_m = si(best.run, "m")
    if best.kind == "putter":
        rolls_m = si(question.distance, "m") - si(found.edge, "m")
    putt = PuttQuestion(
        length=quantity(max(rolls_m, 0.5), "m"),
        falls=(Fall(up, right),),
        stimp=stimp,
        short=question.golfer.short,
    )
    return plan_putt(putt).aim


def _asked(facts: Facts, picks: tuple[ChipPick, ...]) -> ChipPick | None:
    """Return the best way with the club or the kind of shot asked about, unless it is best."""
    clubs = {"putter" if c == "P" else c for c in (facts.club, *facts.clubs_compare) if c}
    swing = facts.swing if facts.swing in ("bump", "flop", "chip", "pitch") else None
    wanted = [
        p for p in picks if (not clubs or p.club in clubs) and (swing is None or p.how == swing)
    ]
    if not (clubs or swing) or not wanted or picks[0] in wanted:
        return None
    return wanted[0]


def _pick(choice: ChipChoice, units: Units) -> ChipPick:
    of = "putt" if choice.kind == "putter" else "distance"
    return ChipPick(
        how=choice.kind,
        club=choice.club,
        carry=measured(choice.carry, of, units),
        on=measured(choice.on, "distance", units),
        run=measured(choice.run, "distance", units),
        past=measured(choice.past, "putt", units),
        expected=choice.expected,
        saves=choice.saves,
        short=choice.short,
    )
