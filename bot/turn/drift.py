"""Which stored numbers does the log contradict? Worked out once a change of the log."""

from __future__ import annotations

import hashlib
import json

from bot.model.entry import EntryKind
from bot.model.golfer import Changed
from bot.turn import learning
from bot.turn.desk import Desk
from engine import ENGINE_VERSION

_COUNTS: tuple[EntryKind, ...] = ("result", "learned", "profile")  # what a lesson rests on


def drifted(desk: Desk) -> tuple[Changed, ...]:
    """Return what the log says against the profile, the surest first.

    Refitting a long log takes a good part of a second; the outcome is kept as a computed table
    until the log, the profile or the day is another.
    """
    made = desk.tables("drift", _key(desk), lambda: _worked_out(desk))
    return tuple(Changed.model_validate(one) for one in json.loads(made))


def _worked_out(desk: Desk) -> bytes:
    found = learning.suggested(desk, learning.lesson(desk)[0])
    return json.dumps([one.model_dump(mode="json") for one in found]).encode()


def _key(desk: Desk) -> str:
    """Return a name of all that the outcome rests on; it tells nobody's id."""
    newest = [
        next((e.id for e in desk.shelf.entries(
            player=desk.who, kinds=(kind,), newest_first=True, limit=1)), None)
        for kind in _COUNTS
    ]  # fmt: skip
    today = len([e for e in desk.entries if e.kind in _COUNTS])
    named = (
        ENGINE_VERSION, desk.who, newest, today, desk.player.profile, desk.units,
        desk.now.date().isoformat(),
    )  # fmt: skip
    return hashlib.sha256(repr(named).encode()).hexdigest()
