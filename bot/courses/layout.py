"""Which course does this file describe? Our own plain TOML layout, read and checked.

A file names the course and its tees, the unit of its lengths, and one ``[[hole]]`` table a
hole; DEVELOPERS.md shows one. Lengths are numbers in that unit, or text with a unit of
their own ("480 m"). Points of an area are distances along the first leg and right of it.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Sequence
from dataclasses import replace
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, ValidationError, ValidationInfo

from bot.courses.check import Problem, check, yards
from bot.courses.compass import bearing_of
from bot.model.base import Frozen
from bot.model.ground import Ground, GroundKind, HoleMap
from bot.model.measure import Measure
from bot.model.reading import Green, Hazard, HazardKind, HazardSide, Hole, Side
from bot.model.state import Course, HoleNote

_YARD_M = 0.9144  # exactly, international yard and pound agreement of 1959


class BadCourse(Exception):
    """A file that cannot be used; `problems` says why, line by line."""

    def __init__(self, problems: Sequence[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("; ".join(str(p) for p in problems))


def _length(value: Any, info: ValidationInfo) -> Measure:
    unit = (info.context or {}).get("unit", "yd")
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        msg = "a length is a number or text such as '480 m'"
        raise ValueError(msg)  # noqa: TRY004  pydantic turns only ValueError into a finding
    if isinstance(value, str):
        said = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*(yd|m|ft)\s*", value)
        if said is None:
            msg = f"{value!r} is no length; write a number or text such as '480 m'"
            raise ValueError(msg)
        return Measure(value=float(said[1]), unit=said[2])
    return Measure(value=float(value), unit=unit)


def _bearing(value: Any) -> float:
    if isinstance(value, str):
        bearing = bearing_of(value)
        if bearing is None:
            msg = f"{value!r} is no bearing; write degrees or a compass point such as 'NE'"
            raise ValueError(msg)
        return bearing
    return float(value)


Length = Annotated[Measure, BeforeValidator(_length)]
Corner = tuple[float, float]


class _Dogleg(Frozen):
    side: Side
    at: Length
    turn: float | None = Field(default=None, gt=0, le=120)  # degrees


class _Fairway(Frozen):
    width: Length


class _GreenPart(Frozen):
    depth: Length | None = None
    width: Length | None = None
    front: Length | None = None  # from the tee, as the hole is walked
    back: Length | None = None
    falls: Literal["front", "back", "left", "right"] | None = None
    firmness: Literal["soft", "normal", "firm", "baked"] | None = None
    stimp: float | None = Field(default=None, ge=4, le=16)


class _Trouble(Frozen):
    kind: HazardKind
    side: HazardSide
    start: Length | None = Field(default=None, alias="from")
    end: Length | None = Field(default=None, alias="to")
    at: Length | None = None
    gap: Length | None = None


class _Area(Frozen):
    kind: GroundKind
    corners: tuple[Corner, ...] = Field(min_length=3)


class _Hole(Frozen):
    number: int
    par: int | None = None
    length: Length | None = None
    stroke_index: int | None = None
    bearing: Annotated[float, BeforeValidator(_bearing)] | None = None
    dogleg: _Dogleg | None = None
    rise: Length | None = None
    drop: Length | None = None
    fairway: _Fairway | None = None
    green: _GreenPart | None = None
    trouble: tuple[_Trouble, ...] = ()
    line: tuple[Corner, ...] = Field(default=(), max_length=12)
    area: tuple[_Area, ...] = ()
    text: str = ""


class _File(Frozen):
    name: str = Field(min_length=1, max_length=60)
    tee: str = Field(default="", max_length=20)
    units: Literal["yd", "m"] = "yd"
    country: str | None = Field(default=None, pattern="^[A-Z]{2}$")  # ISO 3166-1
    rating: float | None = Field(default=None, ge=20, le=90)
    slope: int | None = None
    hole: tuple[_Hole, ...]


def read_course(text: str, *, owner: str) -> tuple[Course, tuple[Problem, ...]]:
    """Return the course a file describes and what it lacks; raise `BadCourse` on grave faults."""
    try:
        tables = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise BadCourse([Problem(f"not TOML: {error}", grave=True)]) from error
    unit = tables.get("units", "yd")
    try:
        file = _File.model_validate(tables, context={"unit": unit})
    except ValidationError as error:
        raise BadCourse(
            [_placed(text, tables, tuple(e["loc"]), e["msg"]) for e in error.errors()]
        ) from error
    twice = [h.number for i, h in enumerate(file.hole) if h.number in _numbers(file.hole[:i])]
    found = [Problem(f"hole {n} is there twice", hole=n, grave=True) for n in twice]
    for i, hole in enumerate(file.hole):
        found += [_at(text, i, hole.number, field, what) for field, what in _faults(hole)]
    course = Course(
        ids=(owner, course_key(file.name, file.tee)),
        name=file.name,
        tee=file.tee,
        country=file.country,
        rating=file.rating,
        slope=file.slope,
        holes={h.number: _note(h, file.units) for h in file.hole},
    )
    order = {h.number: i for i, h in enumerate(file.hole)}
    for problem in check(course):
        at = order.get(problem.hole) if problem.hole is not None else None
        line = None if at is None else _line(text, ("hole", at, problem.field))
        found.append(replace(problem, line=line))
    if any(p.grave for p in found):
        raise BadCourse(sorted((p for p in found if p.grave), key=lambda p: p.line or 0))
    return course, tuple(found)


def course_key(name: str, tee: str) -> str:
    """Return the second id of a course document."""
    return f"{name.casefold().strip()}/{tee.casefold().strip()}"


def _numbers(holes: Sequence[_Hole]) -> set[int]:
    return {h.number for h in holes}


def _faults(hole: _Hole) -> list[tuple[str, str]]:
    """Return faults that the notes can no longer show."""
    faults = []
    green = hole.green
    if green and green.front and green.back and yards(green.front) >= yards(green.back):
        faults.append(
            ("green", f"green front {green.front.value:g} is past its back {green.back.value:g}")
        )
    if hole.rise and hole.drop:
        faults.append(("rise", "it cannot both rise and drop"))
    crossed = [area.kind for area in hole.area if _crosses(area.corners)]
    return faults + [("area", f"the edge of the {kind} crosses itself") for kind in crossed]


def _note(hole: _Hole, unit: str) -> HoleNote:
    bend = hole.dogleg
    climb = hole.rise or hole.drop
    return HoleNote(
        hole=Hole(
            number=hole.number,
            par=hole.par,
            length=hole.length,
            stroke_index=hole.stroke_index,
            bearing_deg=hole.bearing,
            dogleg=bend.side if bend else None,
            dogleg_at=bend.at if bend else None,
            fairway_width=hole.fairway.width if hole.fairway else None,
        ),
        turn_deg=bend.turn if bend else None,
        climb=climb and climb.model_copy(update={"value": climb.value * (1 if hole.rise else -1)}),
        hazards=tuple(_hazard(t) for t in hole.trouble),
        green=_green(hole.green) if hole.green else None,
        map=_map(hole, unit),
        text=hole.text,
    )


def _hazard(trouble: _Trouble) -> Hazard:
    return Hazard(
        kind=trouble.kind,
        side=trouble.side,
        start=trouble.start,
        end=trouble.end,
        reach_or_carry=trouble.at,
        gap=trouble.gap,
    )


def _green(part: _GreenPart) -> Green:
    depth = part.depth
    if depth is None and part.front and part.back and part.front.unit == part.back.unit:
        depth = part.back.model_copy(update={"value": part.back.value - part.front.value})
    return Green(
        depth=depth, width=part.width, firmness=part.firmness, stimp=part.stimp, falls=part.falls
    )


def _map(hole: _Hole, unit: str) -> HoleMap | None:
    if not hole.line and not hole.area:
        return None
    scale = 1.0 if unit == "m" else _YARD_M
    line = tuple((x * scale, y * scale) for x, y in hole.line)
    grounds = tuple(
        Ground(kind=a.kind, corners=tuple((x * scale, y * scale) for x, y in a.corners))
        for a in hole.area
    )
    return HoleMap(line=line, grounds=grounds)


def _crosses(corners: Sequence[Corner]) -> bool:
    from shapely import LinearRing  # only files with areas need it

    return not LinearRing(corners).is_simple


def _at(text: str, index: int, number: int, field: str, what: str) -> Problem:
    return Problem(what, hole=number, line=_line(text, ("hole", index, field)), grave=True)


def _placed(text: str, tables: dict[str, Any], loc: tuple[int | str, ...], msg: str) -> Problem:
    """Return a finding of the layout with its line, its hole and the field in words."""
    number = None
    holes = tables.get("hole")
    if len(loc) > 1 and loc[0] == "hole" and isinstance(loc[1], int) and isinstance(holes, list):
        said = holes[loc[1]].get("number") if isinstance(holes[loc[1]], dict) else None
        number = said if isinstance(said, int) else loc[1] + 1
    names = [str(p) for p in loc if isinstance(p, str) and p != "hole"]
    what = msg.removeprefix("Value error, ")
    field = " ".join(names)
    return Problem(
        f"{field}: {what}" if field else what, hole=number, line=_line(text, loc), grave=True
    )


def _line(text: str, loc: Sequence[int | str]) -> int | None:
    """Return the line a value stands on: its own key's, or that of the table it is in."""
    lines = text.splitlines()
    low, high = 0, len(lines)
    path = [p for p in loc if p != ""]
    if len(path) > 1 and path[0] == "hole" and isinstance(path[1], int):
        heads = [i for i, line in enumerate(lines) if re.match(r"\s*\[\[\s*hole\s*\]\]", line)]
        if path[1] >= len(heads):
            return None
        low = heads[path[1]]
        high = heads[path[1] + 1] if path[1] + 1 < len(heads) else len(lines)
        path = path[2:]
    if not path or not isinstance(path[0], str):
        return low + 1
    key = re.compile(rf"\s*(\[*\s*hole\.)?{re.escape(path[0])}\b")
    hits = [i for i in range(low, high) if key.match(lines[i])]
    if not hits:
        return low + 1
    item = path[1] if len(path) > 1 and isinstance(path[1], int) else 0
    if len(hits) > item > 0:
        return hits[item] + 1
    row = hits[0] + 1 + item
    in_list = row < high and lines[row].lstrip().startswith("{")
    return (row if in_list else hits[0]) + 1
