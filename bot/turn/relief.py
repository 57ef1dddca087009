"""Which way of taking relief costs this player least: for practice rounds."""

from __future__ import annotations

from bot.model.reading import Facts, RulesHelp
from bot.model.ruling import Relief, ReliefOption
from bot.turn import memory as remembered
from bot.turn.bag import bag_of
from bot.turn.desk import Desk
from bot.turn.measures import measured, to_quantity
from bot.turn.setup import ready
from bot.turn.weigh import table_of
from engine import OutOfRange, ReliefArea, relief_plays

# What each topic allows. Where the colour was not told, only what every penalty area allows.
_AREAS: dict[str, ReliefArea] = {
    "yellow_penalty": "yellow", "penalty_area": "yellow", "red_penalty": "red",
    "unplayable": "unplayable",
}  # fmt: skip


def ranked(desk: Desk, act: RulesHelp, topic: str) -> Relief | None:
    """Rank the ways on from the distance told; None where something needed is not known."""
    told, player = act.facts.distance, desk.player
    if told is None or topic not in _AREAS or not ready(player.profile):
        return None
    units = desk.units
    last = _last_shot(desk)
    previous = None if last.distance is None else to_quantity(last.distance, "distance", units)
    try:
        plays = relief_plays(
            table=table_of(desk, bag_of(player.profile).golfer),
            area=_AREAS[topic],
            crossing=to_quantity(told, "distance", units),
            previous=previous,
            from_tee=desk.memory.shot_kind == "tee" or "tee" in last.lie,
        )
    except OutOfRange:
        return None
    options = tuple(
        ReliefOption(
            option=p.option, distance=measured(p.distance, "distance", units), strokes=p.strokes
        )
        for p in plays
    )
    return Relief(topic=topic, options=options) if len(options) > 1 else None


def _last_shot(desk: Desk) -> Facts:
    """Return the facts of the shot asked about last, if it was of this round."""
    at = desk.memory.shot_at
    fresh = at is not None and desk.now - at <= remembered.STALE_AFTER
    return desk.memory.shot if fresh else Facts()
