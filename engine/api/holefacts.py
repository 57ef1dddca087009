"""What is known of a hole, and the scene it makes from its tee."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from engine.api.shotfacts import TroubleFacts, told_trouble
from engine.core.line import Line
from engine.core.scene import Kind, Scene, Trouble
from engine.core.shapes import Area
from engine.core.told import TURN_RAD, Told, scene_of
from engine.units import si, si_or_none

if TYPE_CHECKING:
    from engine.units import Q

IN_REACH_M = 205.0  # a hole this short is thought of as one shot to the green


@dataclass(frozen=True, slots=True)
class MapArea:
    """A mapped piece of ground: ``green``, ``fairway``, or what it does to a ball.

    Corners are metres from the tee: along the first leg, and right of it.
    """

    name: str
    kind: Kind | Literal["green", "fairway"]
    corners_m: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class HoleFacts:
    """A hole as told or mapped; None is unknown and gets a stated default.

    Attributes
    ----------
    length : Quantity
        Along its line. [length]
    par : int or None
        Taken from the length where it is None.
    bend : int
        Side it bends to, +1 right, -1 left, 0 straight.
    bend_at, turn : Quantity or None
        Where it bends, and by how much. [length, angle]
    climb : Quantity or None
        Green above the tee, below it negative. [length]
    fairway, green_depth, green_width : Quantity or None
        [length]
    trouble : tuple of TroubleFacts
        As told from the tee.
    line_m : tuple of (float, float)
        Mapped line of play from the tee; more than one bend is drawn as its largest. [m]
    areas : tuple of MapArea
        Mapped ground.
    wind : Wind-like pair or None
        Today's wind on this hole: speed, and where it comes from clockwise from the first leg.
    """

    length: Q
    par: int | None = None
    bend: int = 0
    bend_at: Q | None = None
    turn: Q | None = None
    climb: Q | None = None
    fairway: Q | None = None
    green_depth: Q | None = None
    green_width: Q | None = None
    trouble: tuple[TroubleFacts, ...] = ()
    line_m: tuple[tuple[float, float], ...] = ()
    areas: tuple[MapArea, ...] = ()
    wind: tuple[Q, Q] | None = None


@dataclass(frozen=True, slots=True)
class Sketch:
    """A hole as the planner sees it; `assumed` names what was not told."""

    scene: Scene
    fairways: tuple[Area, ...]
    line: Line
    turn_rad: float
    assumed: tuple[str, ...]


def draw(hole: HoleFacts) -> Sketch:
    """Return the hole as a scene from its tee."""
    length = si(hole.length, "m")
    bend, at, turn = hole.bend, si_or_none(hole.bend_at, "m"), TURN_RAD
    if hole.turn is not None:
        turn = si(hole.turn, "rad")
    if hole.line_m:
        bend, at, turn = _largest_bend(hole.line_m)
    depth = si_or_none(hole.green_depth, "m")
    scene, assumed = scene_of(
        Told(
            pin_m=length,
            front_m=None if depth is None else length - 0.5 * depth,
            back_m=None if depth is None else length + 0.5 * depth,
            width_m=si_or_none(hole.green_width, "m"),
            lie="tee",
            in_reach=length <= IN_REACH_M,
            trouble=tuple(told_trouble(t) for t in hole.trouble),
            fairway_m=si_or_none(hole.fairway, "m"),
            bend=bend,
            bend_m=at,
        ),
        turn_rad=turn,
    )
    mapped = tuple(
        Trouble(a.name, a.kind, Area(a.corners_m))
        for a in hole.areas
        if a.kind != "green" and a.kind != "fairway"
    )
    greens = [Area(a.corners_m) for a in hole.areas if a.kind == "green"]
    scene = Scene(
        pin_m=hole.line_m[-1] if hole.line_m else scene.pin_m,
        green=greens[0] if greens else scene.green,
        trouble=scene.trouble + mapped,
        lie="tee",
        fairway_half_m=scene.fairway_half_m,
        fairway_from_m=scene.fairway_from_m,
        bend=scene.bend,
    )
    line = Line(pin_m=scene.pin_m, bend=scene.bend)
    unknown = set() if greens else {"depth", "width"} & set(assumed)
    gaps = {a for a in assumed if a.startswith("gap:")}
    return Sketch(
        scene=scene,
        fairways=tuple(Area(a.corners_m) for a in hole.areas if a.kind == "fairway"),
        line=line,
        turn_rad=line.turn_rad,
        assumed=tuple(sorted(unknown | gaps | ({"bend"} & set(assumed)))),
    )


def _largest_bend(line_m: tuple[tuple[float, float], ...]) -> tuple[int, float | None, float]:
    """Return side, distance and size of the turn that stands farthest off the straight way."""
    end_x, end_y = line_m[-1]
    long = math.hypot(end_x, end_y) or 1.0
    best, at = 0.0, None
    for x, y in line_m[1:-1]:
        off = abs(x * end_y - y * end_x) / long
        if off > max(best, 3.0):
            best, at = off, (x, y)
    if at is None:
        return 0, None, TURN_RAD
    turn = math.atan2(end_y - at[1], end_x - at[0]) - math.atan2(at[1], at[0])
    return (1 if turn > 0 else -1), math.hypot(*at), abs(turn)
