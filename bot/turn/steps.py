"""Which club is meant by "one more club" or "club down"?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bot.model.advice import ShotAdvice
from bot.model.answer import CannotYet
from bot.turn.bag import bag_of

if TYPE_CHECKING:
    from bot.model.reading import FollowUp
    from bot.turn.desk import Desk


def club_named(desk: Desk, act: FollowUp) -> FollowUp | CannotYet:
    """Return `act` with the club that is so many longer (+) or shorter (-) than the one advised.

    Where the bag has no such club, or nothing was advised yet, say so.
    """
    found = last_answer(desk)
    advised = "" if found is None else ShotAdvice.model_validate(found["advice"]).best.club
    clubs = [c.name for c in bag_of(desk.player.profile).golfer.clubs]  # longest first
    if advised not in clubs:
        return CannotYet(reason="nothing_to_follow")
    at = clubs.index(advised) - act.step
    if not 0 <= at < len(clubs):
        longest = act.step > 0
        return CannotYet(reason="no_longer_club" if longest else "no_shorter_club")
    facts = act.facts.model_copy(update={"club": clubs[at]})
    return act.model_copy(update={"facts": facts, "step": 0})


def last_answer(desk: Desk) -> dict[str, Any] | None:
    """Return the entry of the newest answer here, where that was advice on a full shot."""
    for entry in desk.shelf.entries(
        player=desk.who, chat=desk.message.chat, kinds=("answer",), newest_first=True, limit=1
    ):
        if entry.body["advice"]["kind"] == "shot":
            return entry.body
    return None
