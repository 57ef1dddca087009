"""What lies where along a whole hole? A scene seen from its tee, laid on a square grid.

The grid is in metres from the tee. Each cell holds the chance of each ground, so that a
ball may come to rest on a doubtful edge, and where a ball lost in a penalty area is dropped.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from engine.core.scene import HALF_COVER, ORDER, RELIEF_M, STOPS, Scene, unnamed
from engine.core.shapes import Field, Shape
from engine.core.strokes import LIES

F64 = npt.NDArray[np.float64]
Floats = npt.NDArray[np.floating[Any]]
Index = npt.NDArray[np.integer[Any]]

CELL_M = 3.0
ASIDE_M = 80.0  # the grid looks this far to either side of the line
BEHIND_M, PAST_M = 25.0, 70.0  # behind the tee and past the pin
GREEN, LOST = 0, 5  # columns of `share`; those between are LIES[1:]
GROUNDS = 6
FAR_CELLS = 30  # farther than any roll


@dataclass(frozen=True, slots=True, eq=False)
class Ribbon:
    """A hole on its grid; cells are in one flat row, N of them.

    Attributes
    ----------
    x0_m, y0_m, cell_m : float
        Centre of the first cell, and the size of one. [m]
    rows, cols : int
        Cells along x and along y.
    x_m, y_m : ndarray (N,)
        Centres of the cells. [m]
    along_m, off_m : ndarray (N,)
        Where each lies along the line of the hole, and right of it. [m]
    to_pin_m : ndarray (N,)
        Distance to the pin. [m]
    length_m : float
        Of the hole, along its line. [m]
    share : ndarray (6, N)
        Chance of green, fairway, rough, sand, recovery, and of a ball lost where nothing
        was named. [-]
    penalty, out : ndarray (N,)
        Chance of a penalty area, and of out of bounds. [-]
    drop : ndarray (N,) of int
        Cell where a ball from a penalty area is dropped; the cell itself elsewhere.
    stops : ndarray (N,) of bool or None
        Cells that hold a rolling ball; None if there are none.
    named : dict
        Chance of each named trouble, by name, (N,). [-]
    """

    x0_m: float
    y0_m: float
    cell_m: float
    rows: int
    cols: int
    x_m: F64
    y_m: F64
    along_m: Field
    off_m: Field
    to_pin_m: F64
    length_m: float
    share: F64
    penalty: F64
    out: F64
    drop: Index
    stops: npt.NDArray[np.bool_] | None
    named: dict[str, F64]

    def cell_of(self, x_m: Floats, y_m: Floats) -> Index:
        """Return the cell each point lies in; points off the grid go to its edge."""
        return self.cell_at(*self.steps(x_m, y_m))

    def steps(self, x_m: Floats, y_m: Floats) -> tuple[Floats, Floats]:
        """Return how many cells from the grid's first corner each point lies, along x and y."""
        per = 1.0 / self.cell_m
        return (x_m - self.x0_m) * per + 0.5, (y_m - self.y0_m) * per + 0.5

    def cell_at(self, u: Floats, v: Floats) -> Index:
        """Return the cell of each point told in `steps`."""
        i, j = u.astype(np.int32), v.astype(np.int32)
        np.minimum(np.maximum(i, 0, out=i), self.rows - 1, out=i)
        np.minimum(np.maximum(j, 0, out=j), self.cols - 1, out=j)
        i *= self.cols
        i += j
        return i

    def to_stop(self) -> npt.NDArray[np.uint8]:
        """Return how many cells off the nearest one is that holds a ball; FAR_CELLS if farther."""
        gap = np.full((self.rows, self.cols), FAR_CELLS, dtype=np.uint8)
        grown = np.zeros((self.rows, self.cols), dtype=bool)
        if self.stops is not None:
            grown |= self.stops.reshape(self.rows, self.cols)
        for k in range(FAR_CELLS):
            gap[grown & (gap == FAR_CELLS)] = k
            wider = grown.copy()
            wider[1:] |= grown[:-1]
            wider[:-1] |= grown[1:]
            grown = wider.copy()
            grown[:, 1:] |= wider[:, :-1]
            grown[:, :-1] |= wider[:, 1:]
        return gap.ravel()


def lay_hole(
    *, scene: Scene, fairways: tuple[Shape, ...] = (), cell_m: float = CELL_M
) -> Ribbon:  # fmt: skip
    """Lay a hole on its grid.

    Parameters
    ----------
    scene : Scene
        The hole as seen from its tee: the ball is at the origin.
    fairways : tuple of Shape
        Mapped fairway; without any, a usual one follows the line.
    cell_m : float
        Size of a cell. [m]

    Returns
    -------
    Ribbon
        The grid.
    """
    pin_x, pin_y = scene.pin_m
    bend = scene.bend
    corner = (bend.at_m, 0.0) if np.isfinite(bend.at_m) and bend.turn_rad else (pin_x, pin_y)
    xs, ys = (0.0, corner[0], pin_x), (0.0, corner[1], pin_y)
    x = np.arange(min(xs) - BEHIND_M, max(xs) + PAST_M, cell_m)
    y = np.arange(min(ys) - ASIDE_M, max(ys) + ASIDE_M, cell_m)
    grid_x, grid_y = np.meshgrid(x, y, indexing="ij")
    gx, gy = grid_x.ravel(), grid_y.ravel()
    cell = np.full(gx.shape, cell_m)
    to_pin = np.hypot(gx - pin_x, gy - pin_y)
    along, off = bend.along(gx, gy)
    legs = np.hypot(*corner) + np.hypot(pin_x - corner[0], pin_y - corner[1])

    share = np.zeros((GROUNDS, gx.size))
    share[GREEN] = scene.green.cover(gx, gy, cell)
    free = 1.0 - share[GREEN]
    penalty, out = np.zeros(gx.size), np.zeros(gx.size)
    held = np.zeros(gx.size)
    named: dict[str, F64] = {}
    for trouble in sorted(scene.trouble, key=lambda t: (ORDER.index(t.kind), t.name)):
        weight = free * trouble.shape.cover(gx, gy, cell)
        free = free - weight
        named[trouble.name] = named.get(trouble.name, 0.0) + weight
        if trouble.kind in STOPS and not getattr(trouble.shape, "guess_m", 0.0):
            held += weight
        if trouble.kind == "out":
            out += weight
        elif trouble.kind == "penalty":
            penalty += weight
        elif trouble.kind == "heavy":
            share[LIES.index("rough")] += 0.5 * weight
            share[LIES.index("recovery")] += 0.5 * weight
        else:
            share[LIES.index("sand" if trouble.kind == "sand" else "recovery")] += weight
    for row, part in enumerate(unnamed(scene=scene, x_m=gx, y_m=gy, to_pin_m=to_pin), start=1):
        share[row] += free * part
    for shape in fairways:
        mown = shape.cover(gx, gy, cell)
        share[1] += mown * (share[2] + share[4])
        share[2] *= 1.0 - mown
        share[4] *= 1.0 - mown
    stops = held > HALF_COVER
    ribbon = Ribbon(
        x0_m=float(x[0]), y0_m=float(y[0]), cell_m=cell_m, rows=len(x), cols=len(y),
        x_m=gx, y_m=gy, along_m=along, off_m=off, to_pin_m=to_pin, length_m=float(legs),
        share=share, penalty=penalty, out=out, drop=np.arange(gx.size),
        stops=stops if stops.any() else None, named=named,
    )  # fmt: skip
    if penalty.any():
        ribbon.drop[:] = _drops(ribbon)
    return ribbon


def _drops(r: Ribbon) -> Index:
    """Return where a ball from each cell of a penalty area is dropped.

    That is two club-lengths outside the nearest edge which is no nearer the hole, since
    where the ball crossed the edge depends on where it came from.
    """
    wet = r.penalty > HALF_COVER
    drop = np.arange(r.x_m.size)
    if not wet.any():
        return drop
    grid = wet.reshape(r.rows, r.cols)
    edge = np.zeros_like(grid)
    for axis in (0, 1):
        for way in (1, -1):
            edge |= np.roll(grid, way, axis=axis)
    dry = np.flatnonzero((edge & ~grid).ravel() & (r.out < HALF_COVER))
    if not dry.size:
        return drop
    inside = np.flatnonzero(wet)
    for part in np.array_split(inside, max(1, inside.size * dry.size // 2_000_000)):
        gap = np.hypot(
            r.x_m[dry][None, :] - r.x_m[part][:, None], r.y_m[dry][None, :] - r.y_m[part][:, None]
        )
        nearer = r.to_pin_m[dry][None, :] + RELIEF_M < r.to_pin_m[part][:, None]
        drop[part] = dry[np.argmin(gap + 1e6 * nearer, axis=1)]
    return drop
