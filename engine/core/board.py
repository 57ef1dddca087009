"""What does each spot round the ball cost this player? A scene laid on a polar grid.

The grid is in single precision: right to a millionth of a stroke, for two thirds of the work.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import NamedTuple, TypeVar

import numpy as np
import numpy.typing as npt

from engine.core.scene import HALF_COVER, ORDER, RELIEF_M, STOPS, Scene, unnamed
from engine.core.shapes import Field, Oval, Shape, green_before_pin
from engine.core.stop import ROWS, Stop, around, holds, stop_of
from engine.core.strokes import DISTANCE_M, DROP, LIES, MOST, StrokeTable
from engine.core.surround import Ground, short_sided

F64 = npt.NDArray[np.float64]
Key = TypeVar("Key", int, str)

ANGLES = 216
FAN_RAD = math.radians(81.0)  # the grid looks this far to either side


class Priced(NamedTuple):
    """Spots of one row of the table: its number (-1 putts), their shares and distances.

    `slot` and `part` say between which two whole metres, or distances of putts, a spot lies, and
    how far past the first.
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
            found, most = np.zeros_like(self.strokes), min(k, MOST - 1)
            putts, tails = self.table.putts_over[most], _by_metre(self.table.over[most])
            for p in self.priced:
                part = _between(putts if p.row < 0 else tails[p.row], p.slot, p.part)
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

    parts: dict[str, Field] = {"green": _covered(scene.green, x, y, cell)}
    off_green = free = 1.0 - parts["green"]
    out, held = np.zeros_like(x), np.zeros_like(x)
    by_row: dict[int, Field] = {}
    dropped: list[tuple[Field, Field]] = []
    ranked = sorted(scene.trouble, key=lambda t: (ORDER.index(t.kind), t.name, repr(t.shape)))
    for trouble in ranked:
        cover = _covered(trouble.shape, x, y, cell)
        weight = free * cover
        free = free * (1.0 - cover)
        _put(parts, trouble.name, weight)
        if trouble.kind in STOPS and holds(trouble.shape):
            held += weight
        if trouble.kind == "out":
            out += weight
        elif trouble.kind == "penalty":
            entry = to_pin[_entry_row(cover), np.arange(ANGLES)] + RELIEF_M
            dropped.append((weight, entry))
        elif trouble.kind == "heavy":
            _put(by_row, LIES.index("rough"), 0.5 * weight)
            _put(by_row, LIES.index("recovery"), 0.5 * weight)
        else:
            _put(by_row, LIES.index("sand" if trouble.kind == "sand" else "recovery"), weight)

    ground = unnamed(scene=scene, x_m=x, y_m=y, to_pin_m=to_pin)
    for row, (name, share) in enumerate(zip(Ground._fields, ground, strict=True), start=1):
        weight = free * share
        _put(by_row, row, weight)
        parts[name if name in ("fairway", "rough") else f"unnamed {name}"] = weight

    slot, part = _slots(to_pin)
    putting = _putt_slots(table, _putted(scene, table, r, a, step, width, parts["green"] > 0.0))
    priced = [Priced(-1, parts["green"], *putting)]
    priced += [Priced(row, weight, slot, part) for row, weight in by_row.items()]
    priced += [Priced(DROP, weight, *_slots(entry)) for weight, entry in dropped]
    strokes, tabled = np.zeros_like(x), _by_metre(table.strokes)
    for p in priced:
        found = _between(table.putts if p.row < 0 else tabled[p.row], p.slot, p.part)
        found *= p.weight
        strokes += found
    work = green_before_pin(shape=scene.green, pin_m=scene.pin_m, x_m=x, y_m=y, away_m=to_pin)
    strokes += (off_green - out) * short_sided(to_pin_m=to_pin, green_m=work)
    return Board(
        r_m=r, a_rad=a, strokes=strokes, out=out, stop=stop_of(held), parts=parts,
        to_pin_m=to_pin, priced=priced, table=table,
    )  # fmt: skip


def _covered(shape: Shape, x_m: Field, y_m: Field, cell_m: Field) -> Field:
    """Return the chance that each spot is in a shape; of an oval asked only round it."""
    if not isinstance(shape, Oval):
        return shape.cover(x_m, y_m, cell_m)
    # Farther out by this share of an axis, its edge is more than half a cell away.
    wide = 1.0 + 0.5 * float(cell_m[-1, 0]) / min(shape.long_m, shape.wide_m)
    ahead, aside = np.abs(x_m - shape.x_m), np.abs(y_m - shape.y_m)
    near = (ahead <= wide * shape.long_m) & (aside <= wide * shape.wide_m)
    cover = np.zeros_like(x_m)
    rows, columns = around(near.any(axis=1)), around(near.any(axis=0))
    if rows is not None and columns is not None:
        block = rows, columns
        cover[block] = shape.cover(x_m[block], y_m[block], cell_m[block])
    return cover


def _put(by: dict[Key, Field], key: Key, weight: Field) -> None:
    """Add a weight to what is known under a key; what is there may be shared."""
    by[key] = by[key] + weight if key in by else weight


def _apart(x_m: Field, y_m: Field) -> Field:
    """Return the length of vectors; lengths here are far from what would overflow."""
    x_m *= x_m
    y_m *= y_m
    x_m += y_m
    return np.sqrt(x_m, out=x_m)


def _slots(distance_m: Field) -> tuple[npt.NDArray[np.intp], Field]:
    """Return between which two whole metres points lie, and how far past the first."""
    metre = np.clip(distance_m, 0.0, DISTANCE_M[-1]).astype(np.int32)
    return metre.astype(np.intp), distance_m - metre.astype(np.float32)


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
# The table's distances are whole metres: laid out by the metre it is the same, and finding the
# place of a spot is cutting its distance down.
_METRES = np.arange(DISTANCE_M[-1] + 2.0)
_NODE = np.clip(np.searchsorted(DISTANCE_M, _METRES, side="right") - 1, 0, len(DISTANCE_M) - 2)
_PAST = np.clip((_METRES - DISTANCE_M[_NODE]) / np.diff(DISTANCE_M)[_NODE], 0.0, 1.0)


def _by_metre(values: F64) -> F64:
    """Return values of the table's distances (..., n) at whole metres from nought."""
    return np.asarray(values[..., _NODE] + _PAST * np.diff(values)[..., _NODE])


def _between(values: F64, slot: npt.NDArray[np.intp], part: Field) -> Field:
    """Return values between nodes."""
    found = np.diff(values).astype(np.float32).take(slot)
    found *= part
    found += values.astype(np.float32).take(slot)
    return found


def _entry_row(cover: Field) -> npt.NDArray[np.intp]:
    """Return for each spot the row where the line to it last went in."""
    rows = np.arange(ROWS, dtype=np.uint8)[:, None]
    inside = cover > HALF_COVER
    starts = inside.copy()
    starts[1:] &= ~inside[:-1]
    last = np.maximum.accumulate(starts * rows, axis=0)
    last -= last > 0
    return (inside * last + ~inside * rows).astype(np.intp)
