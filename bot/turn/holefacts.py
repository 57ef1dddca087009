"""How the notes of a hole become the engine's question about it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bot.model.ground import GroundKind
from bot.model.measure import Measure
from bot.model.reading import Hazard
from bot.model.state import HoleNote, Units
from bot.turn.measures import distance_of, to_quantity
from bot.turn.question import troubles
from engine import HoleFacts, MapArea, TroubleKind, quantity

if TYPE_CHECKING:
    pass

_GROUNDS: dict[GroundKind, TroubleKind] = {
    "bunker": "sand", "water": "penalty", "penalty": "penalty", "ob": "out", "trees": "trees",
    "rough": "heavy",
}  # fmt: skip


def hole_facts(
    note: HoleNote, units: Units, *, wind: tuple[Measure, float] | None = None
) -> HoleFacts | None:
    """Return the hole for the engine; None where its length is not known.

    `wind` is the day's: its speed, and the true bearing it comes from in degrees.
    """
    hole, green = note.hole, note.green
    if hole.length is None:
        return None
    blowing = None
    if wind is not None and hole.bearing_deg is not None:
        speed = to_quantity(wind[0], "wind", units)
        blowing = speed, quantity((wind[1] - hole.bearing_deg) % 360.0, "deg")
    bend = {None: 0, "left": -1, "right": 1}[hole.dogleg]
    grounds = () if note.map is None else note.map.grounds
    return HoleFacts(
        length=to_quantity(hole.length, "distance", units),
        par=hole.par,
        bend=bend,
        bend_at=distance_of(hole.dogleg_at, units),
        turn=None if note.turn_deg is None else quantity(note.turn_deg, "deg"),
        climb=None if note.climb is None else to_quantity(note.climb, "height", units),
        fairway=distance_of(hole.fairway_width, units),
        green_depth=None if green is None else distance_of(green.depth, units),
        green_width=None if green is None else distance_of(green.width, units),
        trouble=tuple(
            replace(t, gap_of="line") for h in note.hazards for t in troubles(placed(h), units)
        ),
        line_m=() if note.map is None else note.map.line,
        areas=tuple(
            MapArea(
                name=g.kind,
                kind=g.kind if g.kind == "green" or g.kind == "fairway" else _GROUNDS[g.kind],
                corners_m=g.corners,
            )
            for g in grounds
        ),
        wind=blowing,
    )


def placed(hazard: Hazard) -> Hazard:
    """Return noted trouble told by one number as starting there: notes are read off a map."""
    one = hazard.reach_or_carry
    if one is None or hazard.start is not None:
        return hazard
    return hazard.model_copy(update={"start": one, "reach_or_carry": None})
