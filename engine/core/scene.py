"""What does each spot round the ball cost this player? A scene laid on a polar grid.

The grid is in single precision: right to a millionth of a stroke, for two thirds of the work.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import Literal, NamedTuple

import numpy as np
import numpy.typing as npt

from engine.core.pattern import Lie
from engine.core.shapes import Area, Band, Bend, Field, Oval, Shape, Strip, green_before_pin
from engine.core.strokes import DISTANCE_M, DROP, LIES, MOST, StrokeTable
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
ROLLS_MOST = 100  # rows, more than any roll
HALF_COVER, SOME_COVER = 0.5, 0.02
QUIET = 0.4  # judgement: wildness of a side when trouble is named on the other only
RELIEF_M = 2.3  # two club-lengths (Rules of Golf 17.1d)

ROWS = 144
ANGLES = 216
FAN_RAD = math.radians(81.0)  # the grid looks this far to either side


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
class Stop:
    """Where a rolling ball is held.

    Attributes
    ----------
    first : ndarray (R, A) of int
        First row at or past this one that stops a ball; past the grid if none does.
    hold : ndarray (R, A) of int
        Row where it then lies.
    """

    first: npt.NDArray[np.intp]
    hold: npt.NDArray[np.intp]

    def end(self, roll: int, rows: slice, columns: slice) -> npt.NDArray[np.intp]:
        """Return the row where a ball that lands in a cell and rolls so many rows ends."""
        row = np.arange(ROWS)[rows, None]
        on = np.clip(row + roll, 0, ROWS - 1)
        met = self.first[rows, columns] <= row + max(roll, 0)
        return np.asarray(np.where(met, self.hold[rows, columns], on))

    def on(self, rows: slice, columns: slice, roll: int) -> Stopped | None:
        """Return what stops balls that land on a block and roll so far, None if nothing does."""
        gap = self.first[rows, columns] - np.arange(ROWS)[rows, None]
        met = around(np.any(gap <= max(roll, 0), axis=0))
        if met is None:
            return None
        return Stopped(met, gap[:, met], self.hold[rows, columns][:, met])


class Stopped(NamedTuple):
    """Columns of a block that stop balls; by cell the rows rolled until then and the row held."""

    columns: slice
    gap: npt.NDArray[np.intp]
    hold: npt.NDArray[np.intp]


def around(wanted: npt.NDArray[np.bool_]) -> slice | None:
    """Return the slice from the first wanted to the last; None if there is none."""
    found = np.flatnonzero(wanted)
    return slice(int(found[0]), int(found[-1]) + 1) if len(found) else None


class Priced(NamedTuple):
    """Spots of one row of the table: its number (-1 putts), their shares and distances.

    `slot` and `part` say between which two distances of the table a spot lies, and how far
    past the first.
    """

    row: int
    weight: Field
    slot: npt.NDArray[np.intp]
    part: Field


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
    stop : Stop or None
        What stops a rolling ball; None if nothing does.
    parts : dict
        Chance of each ground at each spot: ``green``, ``fairway``, ``rough`` ... and every
        trouble under its name.
    to_pin_m : ndarray (R, A)
        Distance to the pin. [m]
    priced : list of Priced
        The spots behind `strokes`, by row of the table.
    """

    r_m: F64
    a_rad: F64
    strokes: Field
    out: Field
    stop: Stop | None
    parts: dict[str, Field]
    to_pin_m: Field
    priced: list[Priced]
    table: StrokeTable
    _over: dict[int, Field] = field(default_factory=dict, repr=False)

    def over(self, k: int) -> Field:
        """Return the chance of needing more than `k` strokes from each spot, (R, A); kept.

        Spots out of bounds are left out.
        """
        found = self._over.get(k)
        if found is None:
            found = np.zeros_like(self.strokes)
            for p in self.priced:
                tail = self.table.putts_over if p.row < 0 else self.table.over[:, p.row]
                part = _between(tail[min(k, MOST - 1)], p.slot, p.part)
                part *= p.weight
                found += part
            self._over[k] = found
        return found


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
    away = r.astype(np.float32)[:, None]
    x, y = away * np.cos(a).astype(np.float32), away * np.sin(a).astype(np.float32)
    cell = np.broadcast_to(0.5 * (away * width + step), x.shape)
    to_pin = _apart(x - scene.pin_m[0], y - scene.pin_m[1])

    parts: dict[str, Field] = {"green": scene.green.cover(x, y, cell)}
    free = 1.0 - parts["green"]
    out, held = np.zeros_like(x), np.zeros_like(x)
    by_row = {row: np.zeros_like(x) for row in range(1, DROP + 1)}
    dropped: list[tuple[Field, Field]] = []
    ranked = sorted(scene.trouble, key=lambda t: (ORDER.index(t.kind), t.name, repr(t.shape)))
    for trouble in ranked:
        cover = trouble.shape.cover(x, y, cell)
        weight = free * cover
        free = free * (1.0 - cover)
        named = parts.get(trouble.name)
        parts[trouble.name] = weight if named is None else named + weight
        if trouble.kind in STOPS and _holds(trouble.shape):
            held += weight
        if trouble.kind == "out":
            out += weight
        elif trouble.kind == "penalty":
            entry = to_pin[_entry_row(cover), np.arange(ANGLES)] + RELIEF_M
            dropped.append((weight, entry))
        elif trouble.kind == "heavy":
            by_row[LIES.index("rough")] += 0.5 * weight
            by_row[LIES.index("recovery")] += 0.5 * weight
        else:
            by_row[LIES.index("sand" if trouble.kind == "sand" else "recovery")] += weight

    ground = unnamed(scene=scene, x_m=x, y_m=y, to_pin_m=to_pin)
    for row, (name, share) in enumerate(zip(Ground._fields, ground, strict=True), start=1):
        weight = free * share
        by_row[row] += weight
        parts[name if name in ("fairway", "rough") else f"unnamed {name}"] = weight

    slot, part = _slots(to_pin)
    putting = _putt_slots(table, _putted(scene, table, r, a, step, width, parts["green"] > 0.0))
    priced = [Priced(-1, parts["green"], *putting)]
    priced += [Priced(row, weight, slot, part) for row, weight in by_row.items()]
    priced += [Priced(DROP, weight, *_slots(entry)) for weight, entry in dropped]
    strokes = np.zeros_like(x)
    for p in priced:
        found = _between(table.putts if p.row < 0 else table.strokes[p.row], p.slot, p.part)
        found *= p.weight
        strokes += found
    work = green_before_pin(shape=scene.green, pin_m=scene.pin_m, x_m=x, y_m=y, away_m=to_pin)
    strokes += (1.0 - parts["green"] - out) * short_sided(to_pin_m=to_pin, green_m=work)
    return Board(
        r_m=r, a_rad=a, strokes=strokes, out=out, stop=_stop_of(held), parts=parts,
        to_pin_m=to_pin, priced=priced, table=table,
    )  # fmt: skip


def _apart(x_m: Field, y_m: Field) -> Field:
    """Return the length of vectors; lengths here are far from what would overflow."""
    x_m *= x_m
    y_m *= y_m
    x_m += y_m
    return np.sqrt(x_m, out=x_m)


def _slots(distance_m: Field) -> tuple[npt.NDArray[np.intp], Field]:
    """Return between which two of the table's distances points lie, and how far past the first."""
    # The table's distances are whole metres, so a whole metre lies in one slot.
    slot = _SLOT.take(distance_m.astype(np.intp), mode="clip")
    part = distance_m - _SLOT_M.take(slot)
    part *= _PER_SLOT.take(slot)
    return slot, np.clip(part, 0.0, 1.0, out=part)


def _putted(
    scene: Scene, table: StrokeTable, r_m: F64, a_rad: F64, step_m: float, width_rad: float,
    on: npt.NDArray[np.bool_],
) -> F64:  # fmt: skip
    """Return the distances whose putts are the mean of each cell's, nought off the green. [m]

    Putts rise so steeply from the pin that the middle of a cell does not stand for the whole.
    """
    row, column = np.nonzero(on)
    reach, bearing = r_m[row], a_rad[column]
    pin_r, pin_a = math.hypot(*scene.pin_m), math.atan2(scene.pin_m[1], scene.pin_m[0])
    past, beside = reach - pin_r * np.cos(bearing - pin_a), pin_r * np.sin(bearing - pin_a)
    u, v = step_m * _IN_CELL, width_rad * reach[:, None] * _IN_CELL
    far = np.sqrt(
        np.square(past[:, None] + u)[:, :, None] + np.square(beside[:, None] + v)[:, None, :]
    )
    mean = np.einsum("nuv->n", table.putts_at(distance_m=far)) / _IN_CELL.size**2
    found = np.zeros(on.shape)
    found[on] = np.interp(mean, table.putts, table.putt_distance_m)
    return found


def _putt_slots(table: StrokeTable, distance_m: F64) -> tuple[npt.NDArray[np.intp], Field]:
    """Return between which two of the table's putts points lie, and how far past the first."""
    nodes_m = table.putt_distance_m
    slot, part = np.zeros(distance_m.shape, dtype=np.intp), np.zeros(distance_m.shape, np.float32)
    on = distance_m > 0.0
    there = distance_m[on]
    at = np.clip(np.searchsorted(nodes_m, there) - 1, 0, len(nodes_m) - 2)
    slot[on] = at
    past = (there - nodes_m[at]) / (nodes_m[at + 1] - nodes_m[at])
    part[on] = np.clip(past, 0.0, 1.0)
    return slot, part


_IN_CELL = (np.arange(4) - 1.5) / 4.0  # points of a cell either way, in its lengths
_SLOT = np.clip(
    np.searchsorted(DISTANCE_M, np.arange(DISTANCE_M[-1] + 1.0), side="right") - 1,
    0,
    len(DISTANCE_M) - 2,
)
_SLOT_M = DISTANCE_M.astype(np.float32)
_PER_SLOT = (1.0 / np.diff(DISTANCE_M)).astype(np.float32)


def _between(values: F64, slot: npt.NDArray[np.intp], part: Field) -> Field:
    """Return values between nodes."""
    found = np.diff(values).astype(np.float32).take(slot)
    found *= part
    found += values.astype(np.float32).take(slot)
    return found


def unnamed(*, scene: Scene, x_m: Field, y_m: Field, to_pin_m: Field) -> Ground:
    """Return what lies where nothing was told; a side is quiet when only the other is wild."""
    along, off = scene.bend.along(x_m, y_m)
    offline = np.maximum(np.abs(off) - (scene.fairway_half_m - FAIRWAY_HALF_M), 0.0)
    ground = unnamed_ground(to_pin_m=to_pin_m, offline_m=offline, factor=_wildness(scene, off))
    edge = np.clip((along - scene.fairway_from_m) / FAIRWAY_EDGE_M, 0.0, 1.0)
    fairway = ground.fairway * edge
    return ground._replace(fairway=fairway, rough=ground.rough + ground.fairway - fairway)


def _wildness(scene: Scene, off: Field) -> Field | float:
    """Return the wildness of each side of the line."""
    sides = {s for t in scene.trouble for s in (-1, 1) if getattr(t.shape, "side", 0) == s}
    if len(sides) != 1:
        return 1.0
    side = sides.pop()
    return np.where(side * off < 0.0, QUIET, 1.0).astype(off.dtype)


def _entry_row(cover: Field) -> npt.NDArray[np.intp]:
    """Return for each spot the row where the line to it last went in."""
    rows = np.arange(ROWS)[:, None]
    inside = cover > HALF_COVER
    before = np.zeros_like(inside)
    before[1:] = inside[:-1]
    starts = np.where(inside & ~before, rows, 0)
    last = np.maximum.accumulate(starts, axis=0)
    return np.asarray(np.where(inside, np.maximum(last - 1, 0), rows), dtype=np.intp)


def _holds(shape: Shape) -> bool:
    """Whether a ball may roll across a shape and out again, so that it matters where it stops.

    One that rolls over the edge of ground without an end on its side stays in it anyway.
    """
    if isinstance(shape, Strip):
        return not shape.guess_m and math.isfinite(min(shape.wide_m, shape.to_m))
    return not (isinstance(shape, Band) and bool(shape.guess_m))


def _stop_of(held: Field) -> Stop | None:
    """Return what stops rolling balls, from the cover of all trouble that does."""
    inside = held > HALF_COVER
    # Of balls that land across a far edge, those still in it stay: hold the whole cell.
    inside[1:] |= (held[1:] > SOME_COVER) & (held[:-1] > held[1:])
    if not inside.any():
        return None
    first = np.where(inside, np.arange(ROWS)[:, None], ROWS + ROLLS_MOST)
    first = np.minimum.accumulate(first[::-1], axis=0)[::-1]
    # A ball that gets in is held where the cover is fuller: at the edge cell or the next.
    fuller = np.zeros_like(inside)
    fuller[:-1] = held[1:] > held[:-1]
    hold = np.arange(ROWS)[:, None] + fuller
    kept = np.take_along_axis(hold, np.minimum(first, ROWS - 1), axis=0)
    return Stop(first=first, hold=kept)
