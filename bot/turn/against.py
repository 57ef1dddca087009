"""What did the plan that was made before a round expect of its holes?"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import NamedTuple

from bot.model.entry import Entry
from bot.model.state import Played
from bot.turn.desk import Desk


class Expected(NamedTuple):
    """Strokes a plan expected, by hole, and when it was made."""

    holes: dict[int, float]
    made_at: datetime | None = None


def plans(desk: Desk) -> tuple[Entry, ...]:
    """Return what the log holds of this player's plans, oldest first."""
    kept = desk.shelf.entries(player=desk.who, kinds=("plan",))
    return tuple(e for e in kept if "strokes" in e.body)


def plan_before(made: Sequence[Entry], played: Played) -> Expected:
    """Return the newest plan of a round's course from before it began.

    The kept plan itself may have been made anew since; nothing counts that was written later.
    """
    begun = played.started_at
    if begun is None or played.course is None:
        return Expected({})
    here = (played.course, played.tee or "")
    told = [e for e in made if e.at <= begun and _place(e) == here]
    if not told:
        return Expected({})
    newest = told[-1]
    holes: dict[int, float] = {}
    for entry in told:
        if entry.body["made_for"] == newest.body["made_for"]:
            holes |= {int(n): float(v) for n, v in entry.body["strokes"].items()}
    return Expected(holes, newest.at)


def _place(entry: Entry) -> tuple[str, str]:
    return str(entry.body["course"]), str(entry.body.get("tee") or "")
