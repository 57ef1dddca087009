"""What did the aim that was told cost, against the best aim of the same swing?"""

from __future__ import annotations

from typing import Any

from bot.model.advice import ShotAdvice
from bot.model.reading import Aim
from bot.model.state import Units
from bot.turn.measures import in_metres, measured, spoken_units
from engine import Mark, Play, Q, ShotChoice, quantity

# Half widths right of the middle; the middle of a half for one told as such (judgement).
_HALVES = {"left_edge": -1.0, "left_half": -0.5, "middle": 0.0, "right_half": 0.5,
           "right_edge": 1.0}  # fmt: skip


def weigh_aim(
    choice: ShotChoice, play: Play, aim: Aim, advice: ShotAdvice
) -> dict[str, Any] | None:
    """Return what an aim cost and where it was, as JSON; None where it says too little.

    Words that may mean the start line as well as the finish are taken the way that cost less:
    nothing is held against a player on a guess.
    """
    units = spoken_units(advice.distance, None)
    spot = _spot(choice, aim, units)
    if spot is None or advice.blocked:
        return None
    mark, halves, off = spot
    ways = {"start": (False,), "finish": (True,), "either": (False, True)}[aim.of]
    found = [
        (p, way) for way in ways
        if (p := choice.aimed(play, mark=mark, halves=halves, off=off, finish=way)) is not None
    ]  # fmt: skip
    if not found:
        return None
    aimed, finish = min(found, key=lambda one: one[0].strokes)
    return {
        "cost": aimed.strokes - play.strokes,
        "of": "finish" if finish else "start",
        "start": measured(aimed.start_at, "distance", units).model_dump(mode="json"),
        "finish": measured(aimed.finish_at, "distance", units).model_dump(mode="json"),
    }


def _spot(choice: ShotChoice, aim: Aim, units: Units) -> tuple[Mark, float, Q] | None:
    """Return the mark, half widths off it and how far right of there."""
    off = quantity(0.0, "m")
    if aim.by is not None:
        size = in_metres(aim.by, units)
        off = quantity(size if aim.side == "right" else -size, "m")
    match aim.at:
        case "advised" | "other":
            return None
        case "pin":
            # So far off a flag out of reach: nobody knows where that is across a fairway.
            return ("pin", 0.0, off) if choice.in_reach or aim.by is None else None
        case "halfway":
            return ("pin", 0.0, -0.5 * choice.pin_from_middle) if choice.in_reach else None
        case at:
            return "middle", _HALVES[at], off
