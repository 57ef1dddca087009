"""Take back the last thing a player put on record: a result, a score, or a change of the bag."""

from __future__ import annotations

from bot.model.answer import Answer, CannotYet, Noted
from bot.model.entry import Entry, EntryKind
from bot.model.state import Played
from bot.turn import course, versions
from bot.turn.desk import Desk

KINDS: tuple[EntryKind, ...] = ("result", "score", "profile", "note", "withheld")
LOOK_BACK = 20  # entries of this player looked through for one that can be taken back


def take(desk: Desk) -> tuple[Desk, Answer]:
    """Take back the newest result, score or change; say what it was."""
    entry = next(
        (
            e
            for e in desk.shelf.entries(
                player=desk.who, kinds=KINDS, newest_first=True, limit=LOOK_BACK
            )
            if e.body.get("why") != "undo"
            and (e.kind != "withheld" or e.body.get("act") == "result")
        ),
        None,
    )  # fmt: skip
    if entry is None:
        return desk, CannotYet(reason="nothing_to_undo")
    if entry.kind == "note":
        return course.undo(desk) or (desk, CannotYet(reason="nothing_to_undo"))
    if entry.kind == "profile":
        return versions.take_back(desk) or (desk, CannotYet(reason="nothing_to_undo"))
    desk = desk.log("undo", {"why": "asked"}, undoes=entry.id)
    if entry.kind == "score":
        return _unscored(desk, entry), Noted(what="undone", detail=f"the score of {entry.hole}")
    if entry.chat == desk.message.chat:
        memory = desk.memory.model_copy(update={"open_shot": entry.body.get("shot")})
        desk = desk.put(memory)
    return desk, Noted(what="undone", detail="the last result")


def _unscored(desk: Desk, entry: Entry) -> Desk:
    """Return a desk on which a score is off the card, and the round on again if it ended it."""
    played = desk.get(Played, entry.round) if entry.round else None
    if played is None or entry.hole is None:
        return desk
    left = {n: s for n, s in played.scores.get(entry.player, {}).items() if n != entry.hole}
    return desk.put(
        played.model_copy(
            update={
                "scores": {**played.scores, entry.player: left},
                "done": tuple(p for p in played.done if p != entry.player),
                "hole": entry.hole,
                "been": {**played.been, entry.player: entry.hole},
                "ended_at": None,
            }
        )
    )
