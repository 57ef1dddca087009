"""How does a hole on a map lie, seen from its tee? Geodesics in, metres along and right out."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any, Literal

from bot.model.ground import Ground, GroundKind, HoleMap, Point
from bot.model.measure import Measure
from bot.model.reading import Green, Hazard, HazardKind, Side

CORRIDOR_M = 75.0  # ground farther from the line than this is another hole's
_CLIP_M = 110.0  # what is kept of ground that runs on
_NEAR_TEE_M = 120.0  # a tee belongs to a hole that starts this near
_NEAR_GREEN_M = 40.0
_STREAM_M = 3.0  # width of a watercourse drawn as a line: judgement
_BEND_DEG = 8.0  # a smaller turn is not called a dogleg
_SIMPLE_M = 0.5
WORDS: dict[GroundKind, HazardKind] = {
    "bunker": "bunker",
    "water": "water",
    "penalty": "penalty",
    "ob": "ob",
    "trees": "trees",
}


@dataclass(frozen=True, slots=True)
class Feature:
    """One simple piece of a map: longitude and latitude of its points, in degrees."""

    kind: Literal["point", "line", "area"]
    tags: dict[str, str]
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class MapGround:
    """A feature and the ground it is."""

    kind: GroundKind
    feature: Feature


@dataclass(frozen=True, slots=True)
class Drawn:
    """A hole seen from its tee; `bend` is its side, distance in metres and turn in degrees."""

    length_m: float
    bearing_deg: float
    bend: tuple[Side, float, float] | None
    green: Green | None
    map: HoleMap
    lacks: tuple[str, ...]


def mapped_hole(
    hole: Feature, *, tees: Sequence[Feature], grounds: Sequence[MapGround], tee: str
) -> Drawn:
    """Return a hole in metres from its tee, with what its map lacks."""
    from shapely import LineString, Polygon

    lacks: list[str] = []
    points = list(hole.points)
    greens = [g.feature for g in grounds if g.kind == "green"]
    if greens and _to_nearest(points[0], greens) < _to_nearest(points[-1], greens) - 50.0:
        points.reverse()
        lacks.append("its line was drawn from green to tee: turned round")
    start = _tee_of(points[0], tees, tee, lacks)
    frame = Frame(start, points[1] if len(points) > 1 else points[0])
    line = [(0.0, 0.0), *(frame.local(p) for p in points[1:])]
    way = LineString(line)
    corridor, clip = way.buffer(CORRIDOR_M), way.buffer(_CLIP_M)
    kept: list[Ground] = []
    own_green = None
    for ground in grounds:
        if frame.far(ground.feature.points, way.length + 300.0):
            continue
        corners = [frame.local(p) for p in ground.feature.points]
        if ground.feature.kind == "line":
            shape = LineString(corners).buffer(_STREAM_M / 2.0, cap_style="flat")
            if shape.intersects(corridor):
                lacks.append("a watercourse is drawn as a line: 3 m wide is taken")
        elif len(corners) < 4:
            continue
        else:
            shape = Polygon(corners).buffer(0.0)
        if ground.kind == "green":
            if shape.distance(_end(line)) <= _NEAR_GREEN_M and (
                own_green is None or shape.distance(_end(line)) < own_green.distance(_end(line))
            ):
                own_green = shape
            continue
        if shape.intersects(corridor):
            kept += _grounds(ground.kind, shape.intersection(clip))
    if own_green is None:
        lacks.append("no green on the map")
    else:
        kept += _grounds("green", own_green)
    if not any(g.kind == "fairway" for g in kept) and way.length > 250.0:
        lacks.append("no fairway on the map: a usual width is taken")
    hazards = tuple(h for g in kept if (h := _hazard(g, line)))
    return Drawn(
        length_m=way.length,
        bearing_deg=frame.bearing_deg % 360.0,
        bend=_bend(line),
        green=None if own_green is None else _green(own_green, line),
        map=HoleMap(
            line=tuple(line),
            grounds=tuple(kept),
            hazards=hazards,
            tee=start,
            bearing_deg=frame.bearing_deg % 360.0,
        ),
        lacks=tuple(dict.fromkeys(lacks)),
    )


class Frame:
    """Metres along the first leg and right of it, from longitude and latitude."""

    def __init__(self, origin: tuple[float, float], ahead: tuple[float, float]) -> None:
        from geographiclib.geodesic import Geodesic  # C. F. F. Karney's geodesics on WGS84

        self._earth = Geodesic.WGS84
        self._origin = origin
        self.bearing_deg = float(self._inverse(ahead)["azi1"])

    @classmethod
    def of(cls, tee: tuple[float, float], bearing_deg: float) -> Frame:
        """Return the frame of a hole that was drawn before."""
        frame = cls(tee, tee)
        frame.bearing_deg = bearing_deg
        return frame

    def _inverse(self, place: tuple[float, float]) -> dict[str, float]:
        (lon, lat), (lon2, lat2) = self._origin, place
        found: dict[str, float] = self._earth.Inverse(lat, lon, lat2, lon2)
        return found

    def local(self, place: tuple[float, float]) -> Point:
        """Return where a place is: along and right, in metres, distances from the tee exact."""
        found = self._inverse(place)
        turn = math.radians(found["azi1"] - self.bearing_deg)
        return found["s12"] * math.cos(turn), found["s12"] * math.sin(turn)

    def far(self, places: Sequence[tuple[float, float]], most_m: float) -> bool:
        """Return whether all places are farther than this, roughly; spares exact geodesics."""
        lon, lat = self._origin
        high = most_m / 110_000.0
        wide = high / max(math.cos(math.radians(lat)), 0.05)
        return all(abs(y - lat) > high or abs(x - lon) > wide for x, y in places)


def _tee_of(
    start: tuple[float, float], tees: Sequence[Feature], tee: str, lacks: list[str]
) -> tuple[float, float]:
    """Return where play starts: the middle of the tee asked for, else the line's first point."""
    if not tee:
        return start
    frame = Frame(start, (start[0], start[1] + 1e-3))
    named = [
        t for t in tees
        if tee.casefold() in {v.casefold() for k in ("tee", "tees", "ref", "name", "colour")
                              for v in t.tags.get(k, "").split(";")}
        and math.hypot(*frame.local(_middle(t))) <= _NEAR_TEE_M
    ]  # fmt: skip
    if not named:
        lacks.append(f"no {tee} tee on the map: the line's start is taken")
        return start
    return _middle(min(named, key=lambda t: math.hypot(*frame.local(_middle(t)))))


def _middle(feature: Feature) -> tuple[float, float]:
    if feature.kind != "area":
        return feature.points[0]
    from shapely import Polygon

    centre = Polygon(feature.points).centroid
    return centre.x, centre.y


def _to_nearest(place: tuple[float, float], features: Sequence[Feature]) -> float:
    frame = Frame(place, (place[0], place[1] + 1e-3))
    return min(math.hypot(*frame.local(_middle(f))) for f in features)


def _end(line: Sequence[Point]) -> Any:
    from shapely import Point as At

    return At(line[-1])


def _grounds(kind: GroundKind, shape: Any) -> list[Ground]:
    """Return the outlines of a shape's pieces, a little simplified."""
    pieces = getattr(shape, "geoms", [shape])
    outlines = [
        tuple((round(x, 2), round(y, 2)) for x, y in p.simplify(_SIMPLE_M).exterior.coords[:-1])
        for p in pieces
        if p.geom_type == "Polygon" and p.area > 1.0
    ]
    return [Ground(kind=kind, corners=corners) for corners in outlines if len(corners) >= 3]


def along(line: Sequence[Point], point: Point) -> Point:
    """Return how far along a line a point lies, and how far right of it; ends run on.

    >>> along([(0.0, 0.0), (100.0, 0.0), (100.0, 50.0)], (90.0, 20.0))
    (120.0, 10.0)
    """
    best, walked = (math.inf, 0.0, 0.0), 0.0
    last = len(line) - 2
    for i, ((x0, y0), (x1, y1)) in enumerate(pairwise(line)):
        long = math.hypot(x1 - x0, y1 - y0) or 1e-9
        ux, uy = (x1 - x0) / long, (y1 - y0) / long
        t = (point[0] - x0) * ux + (point[1] - y0) * uy
        held = min(max(t, -math.inf if i == 0 else 0.0), math.inf if i == last else long)
        right = (point[1] - y0) * ux - (point[0] - x0) * uy
        gap = math.hypot(point[0] - x0 - held * ux, point[1] - y0 - held * uy)
        if gap < best[0] - 1e-9:
            best = (gap, walked + held, math.copysign(gap, right))
        walked += long
    return best[1], best[2]


def _hazard(ground: Ground, line: Sequence[Point]) -> Hazard | None:
    """Return a piece of trouble in words: side, from, to and gap from the line."""
    if ground.kind not in WORDS:
        return None
    spots = [along(line, c) for c in ground.corners]
    first, last = min(s[0] for s in spots), max(s[0] for s in spots)
    left, right = min(s[1] for s in spots), max(s[1] for s in spots)
    crosses = left < 0.0 < right
    gap = 0.0 if crosses else min(abs(left), abs(right))
    return Hazard(
        kind=WORDS[ground.kind],
        side="cross" if crosses else ("left" if right < 0.0 else "right"),
        start=Measure(value=round(max(first, 0.0), 1), unit="m"),
        end=Measure(value=round(last, 1), unit="m"),
        gap=None if crosses else Measure(value=round(gap, 1), unit="m"),
    )


def _green(shape: Any, line: Sequence[Point]) -> Green:
    spots = [along(line, c) for c in shape.exterior.coords]
    deep = max(s[0] for s in spots) - min(s[0] for s in spots)
    wide = max(s[1] for s in spots) - min(s[1] for s in spots)
    return Green(
        depth=Measure(value=round(deep, 1), unit="m"),
        width=Measure(value=round(wide, 1), unit="m"),
    )


def _bend(line: Sequence[Point]) -> tuple[Side, float, float] | None:
    """Return the largest turn of a line, if it is one."""
    best: tuple[Side, float, float] | None = None
    walked = 0.0
    for (x0, y0), (x1, y1), (x2, y2) in zip(line, line[1:], line[2:], strict=False):
        walked += math.hypot(x1 - x0, y1 - y0)
        turn = math.degrees(math.atan2(y2 - y1, x2 - x1) - math.atan2(y1 - y0, x1 - x0))
        turn = (turn + 180.0) % 360.0 - 180.0
        if abs(turn) >= _BEND_DEG and (best is None or abs(turn) > best[2]):
            best = ("right" if turn > 0 else "left", walked, abs(turn))
    return best
