"""What does the log say of a hole played before, or of a club's misses?"""

from __future__ import annotations

from typing import Any

from bot.model.answer import Answer, CannotYet
from bot.model.entry import Entry
from bot.model.measure import Measure
from bot.model.reading import Review
from bot.model.review import FoundShot, LogFound, NothingToReview
from bot.model.state import Played
from bot.turn.desk import Desk
from bot.turn.ledger import told_words
from bot.turn.review import entry_hole, played_by

_DEPTHS = ("short", "long")
_SIDES = ("left", "right")


def take(desk: Desk, act: Review) -> Answer:
    """Answer a question about the log."""
    if act.about == "hit" and act.hole is not None:
        return _hole(desk, act.hole)
    if act.about is not None and act.club is not None:
        return _misses(desk, act.about, act.club)
    return CannotYet(reason="not_read")


def _hole(desk: Desk, number: int) -> Answer:
    """Return how the hole was played last, on this course where that is known."""
    here = desk.round
    course = None if here is None else here.course
    for played in reversed(played_by(desk)):
        if here is not None and played.ids == here.ids and number == here.hole:
            continue  # the one being played now is not last time
        if course is not None and played.course != course:
            continue
        shots = _shots(desk, played, number)
        if shots:
            return LogFound(about="hit", hole=number, course=played.course or "", shots=shots)
    return NothingToReview(why="no_hole", hole=number)


def _shots(desk: Desk, played: Played, number: int) -> tuple[FoundShot, ...]:
    entries = [
        e
        for e in desk.shelf.entries(
            player=desk.who, kinds=("answer", "result"), round=played.ids[0]
        )
        if entry_hole(e) == number
    ]
    asked = {e.message_id: e.body for e in entries if e.kind == "answer"}
    found: list[FoundShot] = []
    stroke = 1
    for entry in entries:
        if entry.kind != "result":
            continue
        told = entry.body["told"]
        if not told.get("putt"):
            found.append(_shot(entry, number, stroke, asked.get(entry.body.get("shot") or "")))
        made = int(told.get("putts") or 1) if told.get("putt") else 1
        stroke += made + int(entry.body.get("penalty") or 0)
    return tuple(found)


def _shot(entry: Entry, number: int, stroke: int, asked: dict[str, Any] | None) -> FoundShot:
    distance = None if asked is None else asked["advice"].get("distance")
    return FoundShot(
        at=entry.at,
        hole=number,
        stroke=stroke,
        club=entry.body.get("club") or "",
        distance=None if distance is None else Measure.model_validate(distance),
        told=told_words(entry.body["told"]),
    )


def _misses(desk: Desk, about: str, club: str) -> Answer:
    """Count how often a club's shots went so, of those of which that kind of thing was told."""
    told = [
        e.body["told"]
        for e in desk.shelf.entries(player=desk.who, kinds=("result",))
        if e.body.get("club") == club and not e.body["told"].get("putt")
    ]
    told = [t for t in told if not t.get("implied")]
    if about in _DEPTHS:
        of = [t for t in told if t.get("depth") or t.get("contact") in ("fat", "top")]
        count = sum(
            t.get("depth") == about or (about == "short" and t.get("depth") is None) for t in of
        )
    elif about in _SIDES:
        of = told
        count = sum(t.get("side") == about for t in of)
    elif about in ("fat", "thin"):
        of = told
        count = sum(t.get("contact") == about for t in of)
    else:
        of = told
        count = sum(about in t.get("lie", ()) for t in of)
    return LogFound(about=about, club=club, count=count, of=len(of))
