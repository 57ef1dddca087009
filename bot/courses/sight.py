"""What lies between a place on a hole and its green? Straight lines over the map, in metres."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from bot.courses.mapped import WORDS, Frame
from bot.model.ground import Ground, HoleMap, Point
from bot.model.reading import HazardKind, HazardSide

NEAR_M = 35.0  # trouble farther from the line to the green is not told: judgement
BEYOND_M = 20.0  # nor is trouble farther behind the green's back edge


@dataclass(frozen=True, slots=True)
class Trouble:
    """A piece of trouble from where the player stands; `gap_m` is off the line to the green."""

    kind: HazardKind
    side: HazardSide
    start_m: float
    end_m: float
    gap_m: float


@dataclass(frozen=True, slots=True)
class Sight:
    """Distances to the green along the line to its middle, and what lies beside that line."""

    front_m: float
    middle_m: float
    back_m: float
    trouble: tuple[Trouble, ...]


def sight(hole: HoleMap, place: tuple[float, float]) -> Sight | None:
    """Return what is seen from longitude and latitude `place`; None without tee or green."""
    from shapely import LineString, Polygon
    from shapely import Point as At

    greens = [g for g in hole.grounds if g.kind == "green"]
    if hole.tee is None or not greens:
        return None
    here = Frame.of(hole.tee, hole.bearing_deg).local(place)
    green = Polygon(greens[0].corners)
    centre = (green.centroid.x, green.centroid.y)
    middle = math.dist(here, centre)
    if middle < 1.0 or green.contains(At(here)):
        return Sight(0.0, middle, 0.0, ())
    reach = (middle + 200.0) / middle
    far = tuple(h + (c - h) * reach for h, c in zip(here, centre, strict=True))
    cut = LineString([here, far]).intersection(green)
    front, back = (At(here).distance(cut), At(here).hausdorff_distance(cut))
    found = [t for g in hole.grounds if (t := _trouble(g, here, centre)) is not None]
    kept = [t for t in found if t.end_m > 0.0 and t.start_m < back + BEYOND_M]
    return Sight(front, middle, back, tuple(sorted(kept, key=lambda t: (t.gap_m, t.start_m))))


def _trouble(ground: Ground, here: Point, centre: Point) -> Trouble | None:
    """Return a piece of trouble if it lies near the line from `here` to `centre`."""
    if ground.kind not in WORDS:
        return None
    spots = [_seen(c, here, centre) for c in _dense(ground.corners)]
    ahead = [s for s in spots if s[0] > 0.0]
    if not ahead:
        return None
    left, right = min(s[1] for s in ahead), max(s[1] for s in ahead)
    crosses = left < 0.0 < right
    gap = 0.0 if crosses else min(abs(left), abs(right))
    if gap > NEAR_M:
        return None
    side: HazardSide = "cross" if crosses else ("left" if right <= 0.0 else "right")
    return Trouble(
        WORDS[ground.kind], side, min(s[0] for s in ahead), max(s[0] for s in ahead), gap
    )


def _seen(spot: Point, here: Point, centre: Point) -> Point:
    """How far along the line from `here` to `centre` a spot lies, and how far right of it."""
    dx, dy = centre[0] - here[0], centre[1] - here[1]
    long = math.hypot(dx, dy)
    x, y = spot[0] - here[0], spot[1] - here[1]
    return (x * dx + y * dy) / long, (y * dx - x * dy) / long


def _dense(corners: Sequence[Point]) -> list[Point]:
    """Corners with points every few metres between them, so that long edges count as well."""
    out: list[Point] = []
    for (x0, y0), (x1, y1) in zip(corners, (*corners[1:], corners[0]), strict=True):
        steps = max(1, math.ceil(math.hypot(x1 - x0, y1 - y0) / 5.0))
        out += [(x0 + (x1 - x0) * i / steps, y0 + (y1 - y0) * i / steps) for i in range(steps)]
    return out
