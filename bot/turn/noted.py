"""What do the notes of the hole add to a shot that was told, seen from where the ball lies?

A hole's notes are told from its tee along its line. How far is left to the pin says how far
along that line the ball lies: what is behind it drops out, the rest keeps its side and comes
nearer by as much. What the message said wins over the notes.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bot.model.advice import NotedTrouble, ShotAdvice, UsedNotes
from bot.model.measure import Measure
from bot.model.reading import Elevation, Facts, Green, Hazard, Hole
from bot.turn.card import course_here, running, set_fields
from bot.turn.desk import Desk, hole_of
from bot.turn.holefacts import placed
from bot.turn.measures import in_metres, measured, to_quantity
from bot.turn.question import HALF_DEPTH_M, SEVERAL

if TYPE_CHECKING:
    from bot.model.state import HoleNote, Units

TO_PIN = (None, "pin", "front", "middle", "back", "green")  # references that tell what is left
SLACK_M = 15.0  # tees and pins move this much from where a hole was measured: judgement
FARTHER_M = 30.0  # a ball so much farther from the pin than the last one is on another hole
BUNKER_M = 14.0  # a bunker told by one number, as the engine takes it
SAME_M = 25.0  # trouble told this near to noted trouble of its kind is that trouble: judgement
BEND_AT = 0.6  # of the length: where the engine takes a bend told by its side alone
CLIMB_M = 230.0  # the height of a green farther off says little of the next shot: judgement
ONE_SHOT_M = 205.0  # as the plan takes a hole for one shot
LIVE = 0.01  # chance with one of the best swings from which trouble mattered


def note_of(facts: Facts, desk: Desk) -> tuple[int, HoleNote] | None:
    """Return the notes of the hole a shot is on: named with it, or the one being played."""
    number = None if facts.hole is None else facts.hole.number
    if number is None:
        number = hole_of(running(desk), desk.who)
    course = course_here(desk)
    if number is None or course is None or number not in course.holes:
        return None
    return number, course.holes[number]


def from_tee(facts: Facts, kind: str, desk: Desk) -> Facts:
    """Return facts of a shot said to be from the tee, with the hole's noted length."""
    if kind != "tee" and "tee" not in facts.lie:
        return facts
    if facts.distance is not None or facts.middle is not None:
        return facts
    found = note_of(facts, desk)
    length = None if found is None else found[1].hole.length
    if length is None or (facts.hole is not None and facts.hole.length is not None):
        return facts
    return facts.model_copy(update={"distance": length})


def with_notes(
    facts: Facts, kind: str, desk: Desk, units: Units, *, again: bool = False
) -> tuple[Facts, str]:  # fmt: skip
    """Return facts with the hole's notes laid under them, and the kind of shot that makes it.

    Notes that do not fit the distance told are left out: the ball is on another hole. `again`
    says that the shot is the last one, changed.
    """
    found = note_of(facts, desk)
    if found is None or facts.distance is None or facts.reference not in TO_PIN:
        return facts, kind
    number, note = found
    if kind != "tee" and not again and _moved_back(facts, desk, units):
        return facts, kind
    left_m = in_metres(facts.distance, units) + _to_middle(facts, note, units)
    length = note.hole.length
    along_m = None
    if length is not None:
        along_m = in_metres(length, units) - left_m
        if along_m < -2.0 * SLACK_M:
            return facts, kind
        if abs(along_m) <= SLACK_M and (kind == "tee" or not facts.lie or "tee" in facts.lie):
            kind, along_m = ("tee" if kind == "shot" else kind), 0.0
    told = facts.hazards
    ahead = [h for n in _hazards(note) if (h := _ahead(n, along_m, length, units)) is not None]
    kept = [
        one
        for h in ahead
        for one in _sides(h)
        if not _safe(one, facts) and not any(_same(one, t, units) for t in told)
    ]
    news: dict[str, object] = {
        "hazards": (*told, *kept),
        "hole": _hole(facts.hole or Hole(), note, number, along_m, units),
        "green": _green(facts.green, note.green),
    }
    if facts.elevation is None and note.climb is not None and length is not None:
        share = min(left_m / in_metres(length, units), 1.0)
        if left_m <= CLIMB_M and note.climb.value:
            size = note.climb.model_copy(update={"value": abs(note.climb.value) * share})
            way = 1 if note.climb.value > 0 else -1
            news["elevation"] = Elevation(size=size, direction=way)
    return facts.model_copy(update=news), kind


def used(advice: ShotAdvice, laid: Facts, units: Units) -> UsedNotes | None:
    """Return the noted trouble that the choice had to reckon with."""
    plays = (advice.best, *advice.others)
    found = tuple(
        NotedTrouble(
            name=noted_name(h), kind=h.kind, side=h.side,
            start=_said(h.start, units), end=_said(h.end, units),
        )
        for h in laid.hazards
        if h.noted and max(p.chances.get(noted_name(h), 0.0) for p in plays) >= LIVE
    )  # fmt: skip
    number = None if laid.hole is None else laid.hole.number
    return UsedNotes(hole=number, trouble=found) if found and number is not None else None


def noted_name(hazard: Hazard) -> str:
    """Return what noted trouble is called among the chances: its kind and its side."""
    side = "across" if hazard.side in (None, "cross") else hazard.side
    return f"{hazard.kind} {side}"


def _moved_back(facts: Facts, desk: Desk, units: Units) -> bool:
    """Whether the ball lies farther from the pin than the last one: on another hole, or lost."""
    memory = desk.memory
    last = memory.shot
    if memory.shot_at is None or facts.distance is None or "tee" in facts.lie:
        return False
    if last.putt is not None or memory.shot_kind == "putt":
        return True
    if last.distance is None or last.reference not in TO_PIN:
        return False
    return in_metres(facts.distance, units) > in_metres(last.distance, units) + FARTHER_M


def _to_middle(facts: Facts, note: HoleNote, units: Units) -> float:
    """Return how far the middle of the green is past what the distance was told to. [m]"""
    depth = None if note.green is None else note.green.depth
    half = HALF_DEPTH_M if depth is None else 0.5 * in_metres(depth, units)
    return {"front": half, "back": -half}.get(facts.reference or "", 0.0)


def _hazards(note: HoleNote) -> tuple[Hazard, ...]:
    """Return noted trouble that has a place: in words, or the map's in words."""
    words = note.hazards if note.map is None else (*note.map.hazards, *note.hazards)
    return tuple(h for h in words if h.side or h.start or h.end or h.reach_or_carry)


def _ahead(
    hazard: Hazard, along_m: float | None, length: Measure | None, units: Units
) -> Hazard | None:
    """Return trouble as seen from the ball; None where it is behind, or no one knows where."""
    hazard = placed(hazard)
    start, end = hazard.start, hazard.end
    if start is None and end is None:
        # Along the whole of a hole that is longer than a shot, else by the green.
        whole = hazard.side in ("left", "right", "both") and hazard.kind != "bunker"
        if whole and length is not None and in_metres(length, units) > ONE_SHOT_M:
            start = length.model_copy(update={"value": 0.0})
        return hazard.model_copy(update={"noted": True, "start": start})
    if along_m is None:
        return None
    far = end
    if far is None and start is not None and (hazard.kind == "bunker" or hazard.side == "cross"):
        far = start.model_copy(update={"value": start.value + _back(BUNKER_M, start, units)})
    if far is not None and in_metres(far, units) - along_m <= 0.0:
        return None
    moved = {
        "start": None if start is None else _nearer(start, along_m, units),
        "end": None if end is None else _nearer(end, along_m, units),
    }
    return hazard.model_copy(update={**moved, "noted": True})


def _sides(hazard: Hazard) -> tuple[Hazard, ...]:
    """Return trouble on several sides as one piece a side."""
    several = SEVERAL.get(hazard.side or "", (hazard.side,))
    return tuple(hazard.model_copy(update={"side": s}) for s in several)


def _safe(hazard: Hazard, facts: Facts) -> bool:
    return bool({hazard.side, "all"} & set(facts.safe)) or (
        "both" in facts.safe and hazard.side in ("left", "right")
    )


def _same(noted: Hazard, told: Hazard, units: Units) -> bool:
    """Whether the message told this very trouble, so that its word on it counts."""
    if noted.kind != told.kind:
        return False
    if noted.side != told.side and not {noted.side, told.side} & {None, "both", "all"}:
        return False
    one, other = noted.start or noted.end, told.start or told.reach_or_carry or told.end
    if one is None or other is None or noted.kind != "bunker":
        return True
    return abs(in_metres(one, units) - in_metres(other, units)) <= SAME_M


def _hole(told: Hole, note: HoleNote, number: int, along_m: float | None, units: Units) -> Hole:
    """Return the hole's facts from the ball on: a bend that is behind it is none."""
    noted = note.hole.model_copy(update={"number": number, "dogleg_deg": note.turn_deg})
    if noted.dogleg is not None:
        at, length = noted.dogleg_at, noted.length
        if at is None and length is not None:
            at = length.model_copy(update={"value": BEND_AT * length.value})
        bent: dict[str, object] = {"dogleg": None, "dogleg_at": None, "dogleg_deg": None}
        if at is not None and along_m is not None and in_metres(at, units) - along_m > 0.0:
            bent = {"dogleg_at": _nearer(at, along_m, units)}
        noted = noted.model_copy(update=bent)
    if told.dogleg is not None and told.dogleg != noted.dogleg:
        noted = noted.model_copy(update={"dogleg_at": None, "dogleg_deg": None})
    return noted.model_copy(update=set_fields(told))


def _green(told: Green | None, noted: Green | None) -> Green | None:
    if noted is None:
        return told
    now = {} if told is None else {n: getattr(told, n) for n in Green.model_fields}
    return noted.model_copy(update={n: v for n, v in now.items() if v is not None})


def _back(metres: float, like: Measure, units: Units) -> float:
    """Return a length in the unit of another."""
    return metres / in_metres(like.model_copy(update={"value": 1.0}), units)


def _nearer(measure: Measure, along_m: float, units: Units) -> Measure:
    """Return a place along the hole as seen from the ball; never behind it."""
    value = max(measure.value - _back(along_m, measure, units), 0.0)
    return measure.model_copy(update={"value": value})


def _said(measure: Measure | None, units: Units) -> Measure | None:
    return None if measure is None else measured(to_quantity(measure, "distance", units),
                                                 "distance", units)  # fmt: skip
