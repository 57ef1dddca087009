"""A hole as a map shows it: polygons in metres, seen from the tee."""

from __future__ import annotations

from typing import Literal

from bot.model.base import Frozen
from bot.model.reading import Hazard

GroundKind = Literal[
    "green", "fairway", "rough", "bunker", "water", "penalty", "ob", "trees"
]  # fmt: skip
Point = tuple[float, float]  # metres from the tee: along the first leg, and right of it


class Ground(Frozen):
    """One closed piece of ground; the first corner is not repeated at the end."""

    kind: GroundKind
    corners: tuple[Point, ...]


class HoleMap(Frozen):
    """The line of play from tee to green, what lies along it, and the same in words."""

    line: tuple[Point, ...]
    grounds: tuple[Ground, ...] = ()
    hazards: tuple[Hazard, ...] = ()
    tee: tuple[float, float] | None = None  # longitude and latitude, where the map has them
    bearing_deg: float = 0.0  # of the first leg, clockwise from true north
