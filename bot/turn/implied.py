"""What does a message about the next ball, or a bare club, say of the shot before it?"""

from __future__ import annotations

from datetime import timedelta
from itertools import chain
from typing import NamedTuple

from bot.model.measure import Measure
from bot.model.reading import Act, Facts, FollowUp, Lie, Reading, Result, Score, Shot, Side
from bot.model.state import DayFacts, Units
from bot.turn import tallied
from bot.turn.bag import bag_of
from bot.turn.chip import off_green
from bot.turn.desk import Desk
from bot.turn.measures import in_metres, measured, settle, to_quantity
from bot.turn.unclear import is_unclear
from engine import quantity, si

LOOK_BACK = 12  # answers of this player looked through for the open one
SAME_HOLE = timedelta(minutes=40)  # an older question is of another hole: judgement
_MOVED_M, _MOVED_SHARE = 12.0, 0.12  # a ball nearer by less is the same ball told anew
_FARTHEST = 1.4  # of the longest carry, with run and wind: judgement
_HOLDABLE = 0.7  # a putt this much shorter than the last is the next one
_INTO = frozenset({"club", "hazards"})  # "driver, trees right"
_LANDS: dict[str, Lie] = {
    "water": "water", "bunker": "bunker", "trees": "trees", "ob": "ob", "penalty": "penalty",
    "long_grass": "deep_rough",
}  # fmt: skip
_ON_THE_WAY = frozenset({"club", "lie"})  # what a bare result names


class Open(NamedTuple):
    """Advice whose result is not known yet."""

    message_id: str
    kind: str  # "shot", "putt" or "chip"
    advice: dict[str, object]
    facts: Facts
    hole: int | None = None
    day: DayFacts = DayFacts()  # what was known of the day when it was given


def opened(desk: Desk) -> Open | None:
    """Return the advice that waits for its result, with the facts it was given for."""
    message_id = desk.memory.open_shot
    if message_id is None:
        return None
    kept = desk.shelf.entries(
        player=desk.who,
        chat=desk.message.chat,
        kinds=("answer",),
        newest_first=True,
        limit=LOOK_BACK,
    )
    mine = (e for e in desk.entries if e.kind == "answer" and e.player == desk.who)
    for entry in chain(mine, kept):
        if entry.message_id == message_id:
            advice = entry.body["advice"]
            facts = Facts.model_validate(entry.body["facts"])
            told = None if facts.hole is None else facts.hole.number
            day = DayFacts.model_validate(entry.body.get("day") or {})
            return Open(message_id, str(advice["kind"]), advice, facts, told or entry.hole, day)
    return None


def unfolded(desk: Desk, act: Act, reading: Reading) -> tuple[Act, ...]:
    """Return the acts that a message really holds: a result may stand inside another act."""
    match act:
        case Result() if _aim_alone(act) and any(isinstance(a, Shot) for a in reading.acts):
            return ()  # told with the shot that follows it
        case Result():
            return apart(act)
        case Score():
            return tallied.unfolded(desk, act, reading)
        case FollowUp() if _bare_result(desk, act, reading):
            return (_went(act),)
        case Shot() if is_unclear(desk, act, reading):
            return (act,)  # what it says of the last shot waits for the answer
        case Shot() if act.player is None:
            return _with_aim(_with_result(desk, act), reading)
        case _:
            return (act,)


def _went(act: FollowUp) -> Result:
    """Return where the ball of a bare club and lie, or club and trouble, went."""
    facts = act.facts
    if not facts.hazards:
        return Result(club=facts.club, lie=facts.lie, player=act.player)
    one = facts.hazards[0]
    lie: tuple[Lie, ...] = (_LANDS[one.kind],) if one.kind in _LANDS else ()
    side: Side | None = "left" if one.side == "left" else "right"
    return Result(club=facts.club, side=side, lie=lie, player=act.player)


def apart(act: Result) -> tuple[Result, ...]:
    """Return one result a stroke, all putts of a hole counting as one.

    "Short right, bunker, out to 8 feet, two putts" is the swing, the shot out and the putts.
    """
    found: list[Result] = []
    ending = {"putts": None, "holed": None, "conceded": None}
    rest = act
    off = [lie for lie in act.lie if lie not in ("green", "fringe", "fairway")]
    if off and act.proximity is not None and not act.putt:
        found.append(act.model_copy(update={**ending, "proximity": None}))
        kept = {name: getattr(act, name) for name in (*ending, "proximity", "player")}
        rest = Result(**kept)
    ends = rest.putts is not None or (rest.holed and rest.proximity is not None)
    swing = rest.model_copy(update=ending)
    if ends and not rest.putt:
        if swing != Result(player=act.player):
            found.append(swing)
        rest = Result(
            putts=rest.putts or 1, putt=True, holed=True, conceded=rest.conceded,
            player=act.player,
        )  # fmt: skip
    return (*found, rest)


def _bare_result(desk: Desk, act: FollowUp, reading: Reading) -> bool:
    """Whether "driver, fairway" tells where a ball went, and does not ask about a club."""
    facts = act.facts
    told = {n for n in facts.model_fields_set if getattr(facts, n) not in (None, ())}
    last = opened(desk)
    if told == _INTO and last is not None and len(facts.hazards) == 1:
        one = facts.hazards[0]
        new = one not in last.facts.hazards and one.side in ("left", "right")
        return new and act.ask == "what_if" and not reading.text.rstrip().endswith("?")
    if told != _ON_THE_WAY or reading.text.rstrip().endswith("?"):
        return False
    if act.ask not in ("what_if", "change", "compare") or facts.lie == ("tee",):
        return False
    if last is None:
        played = desk.round
        return played is not None and played.ended_at is None
    return not set(facts.lie) <= set(last.facts.lie)


def _with_result(desk: Desk, act: Shot) -> tuple[Act, ...]:
    """Return the shot, after the result that its new distance implies for the one before."""
    last = opened(desk)
    if last is None or act.kind == "tee" or _elsewhere(desk, act.facts):
        return (act,)
    units = desk.units
    if act.kind == "putt" and not off_green(act.facts):
        found = _before_putt(last, act.facts, units)
        return (act,) if found is None else (found, act)
    if last.kind != "shot":
        return (act,)
    return _before_shot(desk, last, act, units)


def _aim_alone(act: Result) -> bool:
    return act.aim is not None and act == Result(aim=act.aim, player=act.player)


def _with_aim(acts: tuple[Act, ...], reading: Reading) -> tuple[Act, ...]:
    """Put an aim that was told alone in front of a shot to the result of the one before."""
    alone = next((a for a in reading.acts if isinstance(a, Result) and _aim_alone(a)), None)
    if alone is None:
        return acts
    first, *rest = acts
    if isinstance(first, Result) and not first.putt:
        return (first.model_copy(update={"aim": alone.aim}), *rest)
    return (alone, *acts)


def _elsewhere(desk: Desk, facts: Facts) -> bool:
    """Whether the shot is on another hole than the last, or so much later that it may be."""
    memory = desk.memory
    if memory.shot_at is None or desk.now - memory.shot_at > SAME_HOLE:
        return True
    if facts.hole is not None and facts.hole.par == 3:
        return True  # whoever tells a par three stands on its tee
    number = None if facts.hole is None else facts.hole.number
    told = memory.shot.hole
    return number is not None and number != (memory.hole or (told.number if told else None))


def _before_putt(last: Open, facts: Facts, units: Units) -> Result | None:
    putt = facts.putt
    length = (None if putt is None else putt.length) or facts.distance
    if length is None:
        return None
    settled = settle(length, "putt", units)
    if last.kind != "putt":
        return Result(lie=("green",), proximity=settled, implied=True)
    before = Measure.model_validate(last.advice["length"])
    feet = [si(to_quantity(m, "putt", units), "ft") for m in (settled, before)]
    if feet[0] > _HOLDABLE * feet[1]:
        return None
    return Result(putt=True, holed=False, putts=1, proximity=settled, implied=True)


def _before_shot(desk: Desk, last: Open, act: Shot, units: Units) -> tuple[Act, ...]:
    facts = act.facts
    left = facts.distance or facts.middle
    if left is None or facts.reference in ("front", "back", "carry", "layup", "corner"):
        return (act,)
    now = in_metres(left, units)
    before = in_metres(Measure.model_validate(last.advice["distance"]), units)
    gained = before - now
    if gained < max(_MOVED_M, _MOVED_SHARE * before) or gained > _FARTHEST * _longest_m(desk):
        return (act,)
    club = facts.club if facts.club and _fits(desk, facts.club, gained, now) else None
    lies: tuple[Lie, ...] = tuple(lie for lie in facts.lie if lie != "tee")
    found = Result(
        club=club,
        total=measured(quantity(gained, "m"), "distance", units),
        left=settle(left, "distance", units),
        lie=lies,
        implied=True,
    )
    if club is not None:
        act = act.model_copy(update={"facts": facts.model_copy(update={"club": None})})
    return (found, act)


def _longest_m(desk: Desk) -> float:
    """Return the longest carry of the player's bag: farther is more than one stroke."""
    return max(club.carry_m for club in bag_of(desk.player.profile).golfer.clubs)


def _fits(desk: Desk, club: str, gained_m: float, next_m: float) -> bool:
    """Whether a club named beside a new distance went the way there, not asks about it."""
    carry = next(
        (c.carry_m for c in bag_of(desk.player.profile).golfer.clubs if c.name == club), None
    )
    return carry is not None and abs(carry - gained_m) < abs(carry - next_m)
