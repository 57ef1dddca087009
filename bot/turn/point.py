"""Where a shared point lies on the hole being played, and how far everything is from there."""

from __future__ import annotations

from bot.courses.sight import Trouble, sight
from bot.model.answer import Answer, Say
from bot.model.measure import Measure
from bot.model.message import Point
from bot.model.place import FarAway, Placed
from bot.model.reading import Facts, Hazard
from bot.turn.card import course_here
from bot.turn.desk import Desk
from bot.turn.measures import measured
from engine import quantity

FAR_M = 700.0  # no hole is longer: the point is on another one
MOST = 2  # pieces of trouble that are told


def take(desk: Desk, point: Point) -> tuple[Desk, tuple[Answer, ...]]:
    """Return the distances; the shot they belong to stays open for wind and lie.

    The point itself is not kept anywhere.
    """
    played, course = desk.round, course_here(desk)
    number = None if played is None or played.ended_at is not None else played.hole
    note = course.holes.get(number) if course is not None and number is not None else None
    seen = None
    if note is not None and note.map is not None:
        seen = sight(note.map, (point.longitude, point.latitude))
    if seen is None or number is None:
        return desk, (Say(topic="point"),)
    units = desk.units

    def said(metres: float) -> Measure:
        return measured(quantity(metres, "m"), "distance", units)

    if seen.middle_m > FAR_M:
        return desk, (FarAway(hole=number, distance=said(seen.middle_m)),)
    hazards = tuple(_hazard(t, said(t.start_m), said(t.end_m)) for t in seen.trouble[:MOST])
    answer = Placed(
        hole=number,
        front=said(seen.front_m),
        middle=said(seen.middle_m),
        back=said(seen.back_m),
        hazards=hazards,
        give_or_take=None if point.accuracy_m is None else said(point.accuracy_m),
    )
    facts = Facts(
        distance=answer.middle,
        reference="middle",
        front=answer.front,
        back=answer.back,
        hazards=hazards,
    )
    news = {"shot": facts, "shot_kind": "shot", "shot_at": desk.now, "expecting": None}
    return desk.put(desk.memory.model_copy(update=news)), (answer,)


def _hazard(trouble: Trouble, start: Measure, end: Measure) -> Hazard:
    return Hazard(kind=trouble.kind, side=trouble.side, start=start, end=end)
