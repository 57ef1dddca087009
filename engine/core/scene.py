"""What does each spot round the ball cost this player? A scene laid on a polar grid."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import Literal

import numpy as np
import numpy.typing as npt

from engine.core.pattern import Lie
from engine.core.shapes import Area, Bend, Oval, Shape, green_before_pin
from engine.core.strokes import DROP, LIES, MOST, StrokeTable
from engine.core.surround import (
    FAIRWAY_EDGE_M,
    FAIRWAY_HALF_M,
    Ground,
    short_sided,
    unnamed_ground,
)

F64 = npt.NDArray[np.float64]
Kind = Literal["out", "penalty", "sand", "trees", "heavy"]

# What wins where troubles overlap: a total order, so that the order told never matters.
ORDER: tuple[Kind, ...] = ("out", "penalty", "trees", "sand", "heavy")
STOPS: frozenset[Kind] = frozenset({"penalty", "sand"})  # a rolling ball ends in these
SURELY = 0.85  # cover from which a rolling ball is held to be in it
HALF_COVER = 0.5
QUIET = 0.4  # judgement: wildness of a side when trouble is named on the other only
RELIEF_M = 2.3  # two club-lengths (Rules of Golf 17.1d)

ROWS = 150
ANGLES = 256
FAN_RAD = math.radians(96.0)  # the grid looks this far to either side


@dataclass(frozen=True, slots=True)
class Trouble:
    """A named piece of ground to keep out of."""

    name: str
    kind: Kind
    shape: Shape


@dataclass(frozen=True, slots=True)
class Scene:
    """What is known round one shot, in metres from the ball, x down the line, y right.

    Attributes
    ----------
    pin_m : (float, float)
        Where the pin is. [m]
    green : Oval or Area
        The green.
    trouble : tuple of Trouble
        What was told.
    lie : Lie
        What the ball lies on.
    fairway_half_m : float
        Half the width of the fairway. [m]
    fairway_from_m : float
        Where it starts. [m]
    bend : Bend
        The line of the hole.
    """

    pin_m: tuple[float, float]
    green: Oval | Area
    trouble: tuple[Trouble, ...] = ()
    lie: Lie = "fairway"
    fairway_half_m: float = 15.0
    fairway_from_m: float = 0.0
    bend: Bend = field(default_factory=Bend)

    def mirrored(self) -> Scene:
        """Return the scene in a mirror; exact to the bit."""
        return replace(
            self,
            pin_m=(self.pin_m[0], -self.pin_m[1]),
            green=self.green.mirrored(),
            trouble=tuple(replace(t, shape=t.shape.mirrored()) for t in self.trouble),
            bend=self.bend.mirrored(),
        )


@dataclass(frozen=True, slots=True, eq=False)
class Board:
    """A scene on the polar grid, priced for one player.

    Attributes
    ----------
    r_m : ndarray (R,)
        Distances from the ball; the rows. [m]
    a_rad : ndarray (A,)
        Bearings, right positive; the columns. [rad]
    strokes : ndarray (R, A)
        Expected strokes from each spot; what is out of bounds is left out. [-]
    out : ndarray (R, A)
        Chance that the spot is out of bounds. [-]
    stop_row : ndarray (R, A) of int or None
        First row at or past this one that holds a rolling ball; None if nothing does.
    parts : dict
        Chance of each ground at each spot: ``green``, ``fairway``, ``rough`` ... and every
        trouble under its name.
    to_pin_m : ndarray (R, A)
        Distance to the pin. [m]
    priced : list
        Pairs (table row or -1 for the green, weight, distance) behind `strokes`.
    """

    r_m: F64
    a_rad: F64
    strokes: F64
    out: F64
    stop_row: npt.NDArray[np.intp] | None
    parts: dict[str, F64]
    to_pin_m: F64
    priced: list[tuple[int, F64, F64]]
    table: StrokeTable

    def over(self, k: int) -> F64:
        """Return the chance of needing more than `k` strokes from each spot, (R, A).

        Spots out of bounds are left out.
        """
        if k < 0:
            return np.asarray(1.0 - self.out, dtype=np.float64)
        k = min(k, MOST - 1)
        total = np.zeros_like(self.strokes)
        for row, weight, distance in self.priced:
            if row < 0:
                chance = np.interp(distance, self.table.putt_distance_m, self.table.putts_over[k])
            else:
                chance = self.table.chance_over(k=k, row=row, distance_m=distance)
            total += weight * chance
        return total


def lay(*, scene: Scene, table: StrokeTable, reach_m: float) -> Board:
    """Price every spot that a swing of up to `reach_m` can find.

    Parameters
    ----------
    scene : Scene
        The shot.
    table : StrokeTable
        The player's strokes to hole out.
    reach_m : float
        How far out the grid goes. [m]

    Returns
    -------
    Board
        The priced grid.
    """
    step = reach_m / ROWS
    r = np.asarray(step * (np.arange(ROWS) + 0.5), dtype=np.float64)
    width = 2.0 * FAN_RAD / ANGLES
    a = np.asarray(width * (np.arange(ANGLES) - ANGLES // 2), dtype=np.float64)
    x, y = r[:, None] * np.cos(a), r[:, None] * np.sin(a)
    cell = np.broadcast_to(0.5 * (r[:, None] * width + step), x.shape)
    to_pin = np.hypot(x - scene.pin_m[0], y - scene.pin_m[1])

    parts: dict[str, F64] = {"green": scene.green.cover(x, y, cell)}
    priced: list[tuple[int, F64, F64]] = [(-1, parts["green"], to_pin)]
    free = 1.0 - parts["green"]
    out = np.zeros_like(x)
    stops = np.zeros(x.shape, dtype=bool)
    ranked = sorted(scene.trouble, key=lambda t: (ORDER.index(t.kind), t.name, repr(t.shape)))
    for trouble in ranked:
        cover = trouble.shape.cover(x, y, cell)
        weight = free * cover
        free = free * (1.0 - cover)
        parts[trouble.name] = parts.get(trouble.name, 0.0) + weight
        if trouble.kind in STOPS:
            stops |= weight > SURELY
        if trouble.kind == "out":
            out += weight
        elif trouble.kind == "penalty":
            entry = to_pin[_entry_row(cover), np.arange(ANGLES)] + RELIEF_M
            priced.append((DROP, weight, entry))
        elif trouble.kind == "heavy":
            priced.append((LIES.index("rough"), 0.5 * weight, to_pin))
            priced.append((LIES.index("recovery"), 0.5 * weight, to_pin))
        else:
            row = LIES.index("sand" if trouble.kind == "sand" else "recovery")
            priced.append((row, weight, to_pin))

    ground = _unnamed(scene, x, y, to_pin)
    for row, (name, share) in enumerate(zip(Ground._fields, ground, strict=True), start=1):
        weight = free * share
        priced.append((row, weight, to_pin))
        label = name if name in ("fairway", "rough") else f"unnamed {name}"
        parts[label] = weight

    strokes = np.zeros_like(x)
    for row, weight, distance in priced:
        value = (
            table.putts_at(distance_m=distance)
            if row < 0
            else table.at(row=row, distance_m=distance)
        )
        strokes += weight * value
    work = green_before_pin(shape=scene.green, pin_m=scene.pin_m, x_m=x, y_m=y, away_m=to_pin)
    strokes += (1.0 - parts["green"] - out) * short_sided(to_pin_m=to_pin, green_m=work)
    return Board(
        r,
        a,
        strokes,
        out,
        _stop_rows(stops) if stops.any() else None,
        parts,
        to_pin,
        priced,
        table,
    )


def _unnamed(scene: Scene, x: F64, y: F64, to_pin: F64) -> Ground:
    """Return what lies where nothing was told; a side is quiet when only the other is wild."""
    along, off = scene.bend.along(x, y)
    offline = np.maximum(np.abs(off) - (scene.fairway_half_m - FAIRWAY_HALF_M), 0.0)
    ground = unnamed_ground(to_pin_m=to_pin, offline_m=offline, factor=_wildness(scene, off))
    edge = np.clip((along - scene.fairway_from_m) / FAIRWAY_EDGE_M, 0.0, 1.0)
    fairway = ground.fairway * edge
    return ground._replace(fairway=fairway, rough=ground.rough + ground.fairway - fairway)


def _wildness(scene: Scene, off: F64) -> F64 | float:
    """Return the wildness of each side of the line."""
    sides = {s for t in scene.trouble for s in (-1, 1) if getattr(t.shape, "side", 0) == s}
    if len(sides) != 1:
        return 1.0
    side = sides.pop()
    return np.asarray(np.where(side * off < 0.0, QUIET, 1.0), dtype=np.float64)


def _entry_row(cover: F64) -> npt.NDArray[np.intp]:
    """Return for each spot the row where the line to it last went in."""
    rows = np.arange(ROWS)[:, None]
    inside = cover > HALF_COVER
    before = np.zeros_like(inside)
    before[1:] = inside[:-1]
    starts = np.where(inside & ~before, rows, 0)
    last = np.maximum.accumulate(starts, axis=0)
    return np.asarray(np.where(inside, np.maximum(last - 1, 0), rows), dtype=np.intp)


def _stop_rows(stops: npt.NDArray[np.bool_]) -> npt.NDArray[np.intp]:
    """Return for each spot the first row at or past it that stops a rolling ball."""
    rows = np.where(stops, np.arange(ROWS)[:, None], ROWS - 1)
    return np.asarray(np.minimum.accumulate(rows[::-1], axis=0)[::-1], dtype=np.intp)
