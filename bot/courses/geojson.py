"""Which course does an open map extract show? GeoJSON with the open golf tagging scheme.

Read are ``golf=hole`` (a line from tee to green with ``ref``, ``par``, ``handicap``,
``dist``), ``golf=tee|green|fairway|rough|bunker|water_hazard|lateral_water_hazard|
out_of_bounds``, ``natural=water|wood|scrub``, ``landuse=forest`` and ``waterway=*``, with
the tags either as the feature's properties or under ``tags`` in them. What the map lacks
is told and left open, never invented.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from bot.courses.check import Problem, check
from bot.courses.layout import BadCourse, course_key
from bot.courses.mapped import Feature, MapGround, mapped_hole
from bot.model.ground import GroundKind
from bot.model.measure import Measure
from bot.model.reading import Hole
from bot.model.state import Course, HoleNote

_GOLF: dict[str, GroundKind] = {
    "green": "green",
    "fairway": "fairway",
    "rough": "rough",
    "bunker": "bunker",
    "water_hazard": "water",
    "lateral_water_hazard": "water",
    "out_of_bounds": "ob",
}
_DIST_CLOSE = 0.08  # a tagged length this close to the measured one names its unit


@dataclass(frozen=True, slots=True)
class _Extract:
    """The features of one file that matter to a golfer."""

    holes: tuple[Feature, ...]
    tees: tuple[Feature, ...]
    grounds: tuple[MapGround, ...]
    name: str


def read_extract(
    text: str, *, owner: str, name: str = "", tee: str = ""
) -> tuple[Course, tuple[Problem, ...]]:
    """Return the course on a map and what the map lacks; raise `BadCourse` if there is none."""
    extract = _features(text)
    title = name or extract.name
    if not title:
        raise BadCourse([Problem("the map names no course; give its name", grave=True)])
    found: list[Problem] = []
    holes: dict[int, HoleNote] = {}
    for feature in extract.holes:
        ref = feature.tags.get("ref", "")
        if not ref.isdecimal() or not 1 <= int(ref) <= 18:
            found.append(Problem(f"a hole's ref is {ref!r}, not 1 to 18: left out"))
            continue
        number = int(ref)
        if number in holes:
            found.append(Problem("is on the map twice: the first is kept", hole=number))
            continue
        note, lacks = _hole(number, feature, extract, tee)
        holes[number] = note
        found += [Problem(what, hole=number) for what in lacks]
    if not holes:
        raise BadCourse([*found, Problem("no hole with a number is on the map", grave=True)])
    course = Course(ids=(owner, course_key(title, tee)), name=title, tee=tee, holes=holes)
    found += check(course)
    return course, tuple(sorted(found, key=lambda p: p.hole or 0))


def _hole(
    number: int, feature: Feature, extract: _Extract, tee: str
) -> tuple[HoleNote, list[str]]:
    drawn = mapped_hole(feature, tees=extract.tees, grounds=extract.grounds, tee=tee)
    lacks = list(drawn.lacks)
    tags = feature.tags
    par = _number(tags.get("par"))
    index = _number(tags.get("handicap"))
    if index is None:
        lacks.append("no stroke index on the map")
    lacks += _compare(tags.get("dist"), drawn.length_m)
    hole = Hole(
        number=number,
        par=par,
        length=Measure(value=round(drawn.length_m, 1), unit="m"),
        stroke_index=index,
        bearing_deg=round(drawn.bearing_deg, 1),
        dogleg=drawn.bend[0] if drawn.bend else None,
        dogleg_at=Measure(value=round(drawn.bend[1], 1), unit="m") if drawn.bend else None,
    )
    return HoleNote(
        hole=hole,
        turn_deg=round(drawn.bend[2], 1) if drawn.bend else None,
        green=drawn.green,
        map=drawn.map,
        text=tags.get("name", ""),
    ), lacks


def _compare(dist: str | None, length_m: float) -> list[str]:
    """Say what the tagged length means, since the scheme leaves its unit open."""
    said = _number(dist)
    if said is None:
        return []
    if any(abs(said * in_m / length_m - 1.0) < _DIST_CLOSE for in_m in (1.0, 0.9144)):
        return []
    return [f"its tag says {said} and the line measures {length_m:.0f} m: the line is taken"]


def _number(text: str | None) -> int | None:
    return int(text) if text is not None and text.isdecimal() else None


def _features(text: str) -> _Extract:
    try:
        data = json.loads(text)
    except ValueError as error:
        raise BadCourse([Problem(f"not JSON: {error}", grave=True)]) from error
    if not isinstance(data, dict) or data.get("type") != "FeatureCollection":
        raise BadCourse([Problem("not a GeoJSON FeatureCollection", grave=True)])
    listed = data.get("features")
    holes, tees, grounds, name = [], [], [], ""
    for raw in listed if isinstance(listed, list) else []:
        for feature in _parts(raw):
            golf = feature.tags.get("golf")
            if golf == "hole" and feature.kind == "line":
                holes.append(feature)
            elif golf == "tee":
                tees.append(feature)
            elif feature.tags.get("leisure") == "golf_course":
                name = name or feature.tags.get("name", "")
            elif kind := _kind(feature):
                grounds.append(MapGround(kind, feature))
    return _Extract(tuple(holes), tuple(tees), tuple(grounds), name)


def _kind(feature: Feature) -> GroundKind | None:
    """Return which ground a feature is, or None for what does not matter."""
    tags = feature.tags
    if feature.kind == "line":
        return "water" if tags.get("waterway") in ("stream", "ditch", "drain", "river") else None
    if feature.kind != "area":
        return None
    if (golf := tags.get("golf")) in _GOLF:
        return _GOLF[golf]
    if tags.get("natural") == "water":
        return "water"
    if tags.get("natural") in ("wood", "scrub") or tags.get("landuse") == "forest":
        return "trees"
    return None


def _parts(raw: Any) -> list[Feature]:
    """Return the simple pieces of one GeoJSON feature; a malformed one gives none."""
    if not isinstance(raw, dict):
        return []
    shape, said = raw.get("geometry"), raw.get("properties")
    if not isinstance(shape, dict) or not isinstance(said, dict):
        return []
    inner = said.get("tags")
    tags = {k: str(v) for k, v in (inner if isinstance(inner, dict) else said).items()}
    places: Any = shape.get("coordinates")
    try:
        match shape.get("type"):
            case "Point":
                return [Feature("point", tags, _points([places]))]
            case "LineString":
                return [Feature("line", tags, _points(places))]
            case "Polygon":
                return [Feature("area", tags, _points(places[0]))]
            case "MultiPolygon":
                return [Feature("area", tags, _points(rings[0])) for rings in places]
    except (TypeError, ValueError, IndexError):
        return []
    return []


def _points(places: Any) -> tuple[tuple[float, float], ...]:
    """Return longitude and latitude of each place; raise where one is no place on earth."""
    points = tuple((float(p[0]), float(p[1])) for p in places)
    if not points or not all(-180 <= x <= 180 and -90 <= y <= 90 for x, y in points):
        msg = "not a place"
        raise ValueError(msg)
    return points
