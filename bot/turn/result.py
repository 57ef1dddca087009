"""What became of a shot: tied to the advice it followed, kept, and reduced for learning."""

from __future__ import annotations

from bot.model.advice import ShotAdvice
from bot.model.answer import Answer
from bot.model.reading import Facts, Result
from bot.model.result import ResultDoubted, ResultKept
from bot.turn.desk import Desk
from bot.turn.learning import seen_body
from bot.turn.reduced import club_of, impossible, reduced

_LOOK_BACK = 12  # answers of this player looked through for the open one
_COST = {"water": 1, "penalty": 1, "ob": 1, "lost": 1}  # Rules of Golf 2023, 17.1 and 18.2


def take(desk: Desk, act: Result) -> tuple[Desk, Answer]:
    """Keep one result; several in a message come one after the other."""
    opened = desk.memory.open_shot
    advice, facts = _asked(desk, opened) if opened and not act.putt else (None, None)
    club = club_of(act, advice)
    seen = reduced(act, advice=advice, facts=facts, player=desk.player)
    if seen is not None and club is not None and impossible(act, seen, desk.player):
        return desk, ResultDoubted(club=club)
    penalty = act.penalty
    if penalty is None:
        penalty = max((_COST.get(lie, 0) for lie in act.lie), default=0)
    body = {
        "shot": opened,
        "club": club,
        "told": act.model_dump(mode="json", exclude_defaults=True),
        "penalty": penalty,
        "seen": None if seen is None else seen_body(seen),
    }
    hole = None if desk.round is None else desk.round.hole
    desk = desk.log("result", body, hole=hole, profile_version=desk.player.profile.version)
    desk = desk.put(desk.memory.model_copy(update={"open_shot": None}))
    return desk, ResultKept(
        club=club,
        side=act.side,
        depth=act.depth,
        lie=act.lie,
        putts=act.putts,
        penalty=penalty,
        of_advice=advice is not None,
    )


def _asked(desk: Desk, message_id: str) -> tuple[ShotAdvice | None, Facts | None]:
    """Return the advice of a message and the facts it was given for."""
    entries = desk.shelf.entries(
        player=desk.who,
        chat=desk.message.chat,
        kinds=("answer",),
        newest_first=True,
        limit=_LOOK_BACK,
    )
    for entry in entries:
        if entry.message_id == message_id and entry.body["advice"]["kind"] == "shot":
            return (
                ShotAdvice.model_validate(entry.body["advice"]),
                Facts.model_validate(entry.body["facts"]),
            )
    return None, None
