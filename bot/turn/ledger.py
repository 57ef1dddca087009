"""How was each hole played, stroke by stroke, as far as the log tells?"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any

from bot.model.entry import Entry
from bot.model.measure import Measure
from bot.model.reading import Aim
from bot.model.review import Cause, HoleShown, LegShown, Part
from bot.model.state import HoleScore, Units
from bot.turn.measures import quantity_of, settle
from bot.turn.priced import CHEAP
from engine import Ground, Leg, Lost, quantity, si, strokes_lost

Worth = Callable[[Ground, float], float]  # ground and metres -> expected strokes

# Length of a hole nobody told the length of, by par, in metres: judgement.
USUAL_M: dict[int, float] = {3: 150.0, 4: 345.0, 5: 460.0}
_SHORT_M = 30.0  # nearer than this off the green is the short game: common practice, no source
_LONG_M = 230.0  # a ball farther out than this on a hole of unknown par is on the tee
_GROUNDS: tuple[tuple[str, Ground], ...] = (
    ("green", "green"), ("fringe", "fairway"), ("trees", "recovery"), ("blocked", "recovery"),
    ("bunker", "sand"), ("fairway_bunker", "sand"), ("greenside_bunker", "sand"),
    ("rough", "rough"), ("deep_rough", "rough"), ("first_cut", "rough"), ("pine_straw", "rough"),
    ("tee", "tee"),
)  # fmt: skip
_HERE_AGAIN = ("ob", "lost")  # played again from where it was: Rules of Golf 2023, 18.2b


@dataclass
class _Open:
    """A leg being told: from where, what was played, and the strokes of it so far."""

    before: float
    played: float
    part: Part
    made: int = 0
    penalty: int = 0
    club: str = ""
    told: list[str] = field(default_factory=list)
    priced: dict[str, Any] | None = None
    asked: bool = False
    untold: bool = False
    aim: dict[str, Any] | None = None


@dataclass
class _Hole:
    """A hole being read: closed legs, the one open, and what the ball's place is worth."""

    worth: Worth
    units: Units
    legs: list[tuple[_Open, float]] = field(default_factory=list)
    open: _Open | None = None
    here: float | None = None  # expected strokes from where the ball lies
    part: Part = "tee"
    asked: bool = False
    holed: bool = False

    def close(self, after: float) -> None:
        if self.open is not None:
            self.legs.append((self.open, after))
            self.open = None

    def arrive(self, value: float, part: Part, *, asked: bool) -> None:
        """The ball lies where an answer was given, or where a result said.

        A place told anew is worth what was told last, also as the end of the leg before.
        """
        if self.open is None and self.legs:
            self.legs[-1] = (self.legs[-1][0], value)
        self.close(value)
        self.here, self.part, self.asked, self.holed = value, part, asked, False


def hole_of(
    number: int,
    entries: Iterable[Entry],
    score: HoleScore,
    *,
    par: int | None,
    length_m: float | None,
    worth: Worth,
    units: Units,
) -> HoleShown | None:
    """Return a hole from its entries in order of time; None where nothing of it can be valued.

    The score rules: strokes nobody told are put where the telling has a gap, and the parts of
    the hole always add up to the score less what was to be expected.
    """
    if score.strokes is None:
        return None
    told = _in_order(e for e in entries if e.kind in ("answer", "result", "withheld"))
    usual = length_m if length_m is not None else USUAL_M.get(par or 4, USUAL_M[4])
    hole = _Hole(worth, units)
    start = worth("tee", usual)
    gap = bool(told) and _begins_late(told[0], par, units)
    first = told[0] if told else None
    if first is not None and first.kind == "answer" and not gap:
        start = _value(first.body["advice"], hole)[0]
    hole.here, hole.part = start, "approach" if par == 3 else "tee"
    if gap:
        hole.open = _Open(start, start, hole.part, untold=True)
        hole.here = None
    for entry in told:
        if entry.kind == "result":
            _play(hole, entry.body)
        elif entry.kind == "answer":
            value, part = _value(entry.body["advice"], hole)
            tee = not hole.legs and hole.open is None and par != 3
            hole.arrive(value, "tee" if tee else part, asked=True)
        else:
            _withheld(hole, entry.body)
    doubt = _settle(hole, score.strokes)
    legs = _shown(number, hole.legs)
    expected = legs[0].before if legs else start
    return HoleShown(
        hole=number, par=par, score=score.strokes, expected=expected, legs=legs, doubt=doubt,
        length_taken=length_m is None and (gap or first is None or first.kind != "answer"),
    )  # fmt: skip


def _in_order(entries: Iterable[Entry]) -> list[Entry]:
    """Put a result told late, after the putts, back behind the shot it belongs to."""
    out: list[Entry] = []
    for entry in entries:
        shot = entry.body.get("shot") if entry.kind == "result" else None
        asked = next((i for i, e in enumerate(out) if shot and e.message_id == shot), None)
        if asked is None or entry.body["told"].get("putt"):
            out.append(entry)
            continue
        after = (i for i in range(asked + 1, len(out)) if out[i].kind == "result")
        first = next(after, None)
        late = first is not None and bool(out[first].body["told"].get("putt"))
        out.insert(first if first is not None and late else len(out), entry)
    return out


def _begins_late(first: Entry, par: int | None, units: Units) -> bool:
    """Whether the first thing told of a hole is a ball that was played to there."""
    if first.kind != "answer":
        return False
    advice = first.body["advice"]
    if advice["kind"] != "shot":
        return True
    if advice["shot_kind"] == "tee" or par == 3:
        return False
    return _metres(Measure.model_validate(advice["distance"]), units) < _LONG_M


def _value(advice: dict[str, Any], hole: _Hole) -> tuple[float, Part]:
    """Return the expected strokes an answer gave, and the part of the game it is of."""
    match advice["kind"]:
        case "putt":
            return float(advice["expected"]), "putting"
        case "chip":
            putter = advice["best"].get("how") == "putter"
            return float(advice["best"]["expected"]), "putting" if putter else "short"
        case "shot":
            near = _metres(Measure.model_validate(advice["distance"]), hole.units) < _SHORT_M
            return float(advice["best"]["strokes"]), "short" if near else "approach"
        case _:
            at = _metres(Measure.model_validate(advice["distance"]), hole.units)
            return hole.worth("fairway", at), "short" if at < _SHORT_M else "approach"


def _withheld(hole: _Hole, act: dict[str, Any]) -> None:
    """Take the place of a shot that was told in a round by the Rules."""
    facts = act.get("facts", {})
    putt = (facts.get("putt") or {}).get("length") if act.get("kind") == "putt" else None
    told = putt or facts.get("distance") or facts.get("middle")
    if told is None:
        return
    measure = Measure.model_validate(told)
    if act.get("kind") == "putt":
        at = _in_metres(*_settled(measure, "putt", hole.units))
        hole.arrive(hole.worth("green", at), "putting", asked=False)
        return
    at = _metres(measure, hole.units)
    ground = _ground(facts.get("lie", ())) or "fairway"
    part: Part = "short" if at < _SHORT_M else "approach"
    if not hole.legs and hole.open is None and hole.part == "tee":
        ground, part = "tee", "tee"
    hole.arrive(hole.worth(ground, at), part, asked=False)


def _play(hole: _Hole, body: dict[str, Any]) -> None:
    """Take one result: the strokes it counts, and where the ball came to if that was told."""
    told = body["told"]
    if told.get("provisional"):
        return  # counts only if it becomes the ball in play, which its next stroke shows
    putts = bool(told.get("putt"))
    made = int(told.get("putts") or 1) if putts else 1
    if hole.open is None:
        priced = body.get("priced") if hole.asked else None
        before = hole.here if hole.here is not None else 0.0
        dearer = 0.0 if priced is None else priced["played"] - priced["best"]
        unsaid = putts and hole.here is not None and hole.part != "putting"
        part: Part = "putting" if putts and not unsaid else hole.part
        hole.open = _Open(before, before + dearer, part, priced=priced, asked=hole.asked)
        hole.open.made += unsaid  # the shot that brought the ball to the green
    hole.holed = False
    leg = hole.open
    leg.made += made
    leg.penalty += int(body.get("penalty") or 0)
    leg.club = leg.club or (body.get("club") or "")
    leg.aim = leg.aim or told.get("aim")
    leg.told.append(told_words(told))
    came = _after(hole, told, leg, putter=body.get("club") == "P")
    hole.asked, hole.here = False, None
    if came is not None:
        worth, to = came
        hole.arrive(worth, to or "putting", asked=False)
        hole.holed = to is None


def _after(
    hole: _Hole, told: dict[str, Any], leg: _Open, *, putter: bool
) -> tuple[float, Part | None] | None:
    """Return what the place a result told is worth; no part for in the hole."""
    lies = told.get("lie", ())
    if told.get("holed") or told.get("conceded"):
        return 0.0, None
    if any(lie in _HERE_AGAIN for lie in lies):
        return leg.before, leg.part
    if told.get("contact") == "whiff":
        return leg.before, leg.part
    near, left = told.get("proximity"), told.get("left")
    if told.get("putt") and near is None and told.get("holed") is not False:
        return 0.0, None
    if near is not None:
        away = _in_metres(*_settled(Measure.model_validate(near), "putt", hole.units))
        # "Putter from the fringe to 2 feet": the lie is the one it was played from.
        ground = "green" if putter else _ground(lies) or "green"
        return hole.worth(ground, away), "putting" if ground == "green" else "short"
    if left is not None:
        at = _metres(Measure.model_validate(left), hole.units)
        ground = _ground(lies) or "fairway"
        return hole.worth(ground, at), "short" if at < _SHORT_M else "approach"
    beside, known = _beside(told, hole.units), _ground(lies)
    if beside is None or known is None or putter:
        return None
    return hole.worth(known, beside), "putting" if known == "green" else "short"


def _beside(told: dict[str, Any], units: Units) -> float | None:
    """Return how far from the hole a ball is that was told as so much short, long or wide."""
    along, across = (
        None if told.get(name) is None else _metres(Measure.model_validate(told[name]), units)
        for name in ("by", "side_by")
    )
    if told.get("depth") == "pin_high" and along is None:
        along = 0.0
    if told.get("side") is None and across is None:
        across = 0.0
    if along is None or across is None or told.get("putt"):
        return None
    away = math.hypot(along, across)
    return away if 0.0 < away < _SHORT_M else None


def _settle(hole: _Hole, score: int) -> bool:
    """Bring the strokes told in line with the score; say whether they contradicted it."""
    counted = sum(leg.made + leg.penalty for leg, _ in hole.legs)
    counted += 0 if hole.open is None else hole.open.made + hole.open.penalty
    late = hole.legs[0][0] if hole.legs and hole.legs[0][0].untold else None
    rest = score - counted
    if late is not None and late.made == 0:
        late.made = max(rest, 1) if hole.holed else 1  # one swing got there, at the least
        rest -= late.made
    if hole.open is not None:
        hole.open.made += max(rest, 0)
        rest = min(rest, 0)
        hole.close(0.0)
    elif not hole.holed and hole.here is not None and (rest > 0 or not hole.legs):
        hole.open = _Open(hole.here, hole.here, hole.part, made=rest, untold=True)
        hole.close(0.0)
        rest = 0
    elif not hole.holed and hole.legs:
        leg, _ = hole.legs.pop()  # the score leaves no stroke for the place told last
        hole.legs.append((leg, 0.0))
    if rest and hole.legs:
        leg, after = hole.legs.pop()
        hole.legs.append((replace(leg, made=leg.made + rest, untold=True), after))
    return rest != 0


def _shown(number: int, legs: list[tuple[_Open, float]]) -> tuple[LegShown, ...]:
    lost = strokes_lost(
        [Leg(leg.before, leg.played, after, leg.made, leg.penalty) for leg, after in legs]
    )
    shown, first = [], 1
    for (leg, after), parts in zip(legs, lost, strict=True):
        shown.append(_leg(number, first, leg, after, parts))
        first += leg.made + leg.penalty
    return tuple(shown)


def _leg(number: int, first: int, leg: _Open, after: float, lost: Lost) -> LegShown:
    priced = leg.priced or {}
    taken = priced.get("taken") if priced.get("of") != "putt" else None
    advised = priced.get("advised", {})
    aim = float((priced.get("aim") or {}).get("cost", 0.0))
    return LegShown(
        hole=number,
        first=first,
        made=leg.made,
        penalty=leg.penalty,
        part=leg.part,
        before=leg.before,
        played=leg.played,
        after=after,
        club="" if leg.part == "putting" else leg.club,
        told=", ".join(w for w in leg.told if w),
        cause=_cause(priced, lost.choice, aim),
        aimed=None if leg.aim is None else Aim.model_validate(leg.aim),
        aim=aim,
        advised=advised.get("club", ""),
        asked=leg.asked and bool(priced),
        taken=None if priced.get("unknown") else taken,
        choice=lost.choice,
        execution=lost.execution,
        untold=leg.untold,
    )


def _cause(priced: dict[str, Any], cost: float, aim: float) -> Cause:
    """Name how a choice departed from the advice, its aim apart."""
    if not priced or max(abs(cost), abs(aim)) < CHEAP:
        return ""
    if priced.get("hero"):
        return "hero"
    if abs(cost - aim) < CHEAP:
        return "side"
    advised, took = priced["advised"], priced["took"]
    return "club" if advised["club"] != took["club"] else "swing"


def told_words(told: dict[str, Any]) -> str:
    """Return where a shot went in a word or two."""
    words = [told.get("depth"), told.get("side"), told.get("contact"), *told.get("lie", ())]
    return " ".join(str(w).replace("_", " ") for w in words if w)


def _ground(lies: Iterable[str]) -> Ground | None:
    known = set(lies)
    return next((ground for lie, ground in _GROUNDS if lie in known), None)


def _metres(measure: Measure, units: Units) -> float:
    return _in_metres(*_settled(measure, "distance", units))


@lru_cache(maxsize=8192)
def _in_metres(value: float, unit: str) -> float:
    return si(quantity_of(value, unit), "m")


def _settled(measure: Measure, of: str, units: Units) -> tuple[float, str]:
    settled = settle(measure, of, units)
    return settled.value, settled.unit


def metres_of(measure: Measure | None, units: Units) -> float | None:
    """Return a told length in metres."""
    return None if measure is None else _metres(measure, units)


def worth_of(lookup: Callable[[Ground, Any], float]) -> Worth:
    """Return the value of a place in metres from one that takes quantities."""

    @lru_cache(maxsize=8192)
    def worth(ground: Ground, at_m: float) -> float:
        return lookup(ground, quantity(at_m, "m"))

    return worth
