"""Keep a changed profile as the next version, and take a version back."""

from __future__ import annotations

from bot.model.answer import Answer
from bot.model.golfer import ProfileKept
from bot.model.state import Player, Profile
from bot.turn.desk import Desk


def save(desk: Desk, player: Player, *, why: str) -> Desk:
    """Put the player back; a changed profile becomes the next version, and is logged."""
    before = desk.player.profile
    if player.profile.model_copy(update={"version": before.version}) == before:
        return desk.put(player)
    profile = player.profile.model_copy(update={"version": before.version + 1})
    desk = desk.put(player.model_copy(update={"profile": profile}))
    return desk.log(
        "profile",
        {
            "why": why,
            "before": before.model_dump(mode="json", exclude_defaults=True),
            "profile": profile.model_dump(mode="json", exclude_defaults=True),
        },
        profile_version=profile.version,
    )


def take_back(desk: Desk) -> tuple[Desk, Answer] | None:
    """Undo the last standing change of the profile; None if there is none.

    The state before it comes back as a new version, so that every version stays readable.
    """
    for entry in desk.shelf.entries(player=desk.who, kinds=("profile",), newest_first=True):
        if entry.body.get("why") == "undo":
            continue
        before = Profile.model_validate(entry.body["before"])
        desk = desk.log("undo", {"why": "asked"}, undoes=entry.id)
        player = desk.player.model_copy(update={"profile": before})
        return save(desk, player, why="undo"), ProfileKept(undone=True)
    return None
