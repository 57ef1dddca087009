"""Where can swings end, as points with weights? Patterns sampled on fixed nodes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from statistics import NormalDist
from typing import Any, TypeVar

import numpy as np
import numpy.typing as npt

from engine.core.golfer import ShortGame
from engine.core.pattern import SOLID, Lie, Pattern
from engine.core.ribbon import CELL_M, FAR_CELLS
from engine.core.touch import FLUFFED, THINNED, TOUCH_SIDE, touch_scatter

F32 = npt.NDArray[np.float32]
F64 = npt.NDArray[np.float64]

Index = npt.NDArray[np.integer[Any]]
T = TypeVar("T", bound=np.generic)
Nodes = tuple[int, int]  # points of the solid cloud and of each mishit cloud
_NORMAL = NormalDist()
COARSE: Nodes = (21, 3)
FINE: Nodes = (89, 13)
JUDGE: Nodes = (144, 21)  # of what was chosen: other points than those it was chosen on


@dataclass(frozen=True, slots=True, eq=False)
class Dots:
    """Points with weights, about the start line; q of them to each action.

    Attributes
    ----------
    weight : ndarray (..., q)
        Chance of each point; they sum to 1. [-]
    rest_x_m, rest_y_m : ndarray (..., q)
        Where the ball ends, along the start line and right of it. [m]
    landed : ndarray (..., q)
        Where it landed, as a share of the way to where it ends. [-]
    roll_cells : ndarray (..., q)
        Its roll in cells of a hole's grid, and one more. [-]
    """

    weight: F32
    rest_x_m: F32
    rest_y_m: F32
    landed: F32
    roll_cells: npt.NDArray[np.uint8]

    def row(self, book: Index, swing: Index) -> Index:
        """Return the row of each swing of each set, all sets being one."""
        return np.asarray(book * self.weight.shape[-2] + swing)

    def of(self, values: npt.NDArray[T], row: Index) -> npt.NDArray[T]:
        """Return these values of the points of some rows, (m, q)."""
        return values.reshape(-1, values.shape[-1]).take(row, axis=0)


def dots_of(p: Pattern, nodes: Nodes) -> Dots:
    """Return the points of the n swings of a pattern, (n, q)."""
    level = np.zeros(len(p))
    weight, reach, bearing = [], [], []
    for c in range(p.share.shape[1]):
        w, r, a = _cloud(
            p.share[:, c], p.reach_m[:, c] + p.run_m, np.hypot(p.reach_sd_m[:, c], p.run_sd_m),
            p.bearing_rad[:, c], p.bearing_sd_rad[:, c],
            p.tilt if c == SOLID else level, nodes[0] if c == SOLID else nodes[1],
        )  # fmt: skip
        weight.append(w)
        reach.append(r)
        bearing.append(a)
    r, a = np.concatenate(reach, axis=1), np.concatenate(bearing, axis=1)
    landed = np.clip(1.0 - p.run_m[:, None] / np.maximum(r, 1.0), 0.0, 1.0)
    return _narrow(np.concatenate(weight, axis=1), r, a, landed)


def touch_dots(*, short: ShortGame, lie: Lie, distance_m: F64) -> Dots:
    """Return the points of a touch shot at a target, (d, q).

    Parameters
    ----------
    short : ShortGame
        The player's touch.
    lie : Lie
        What the ball lies on.
    distance_m : ndarray (d,)
        To the target. [m]

    Returns
    -------
    Dots
        About the line to the target.
    """
    d = distance_m
    rel, mishit = touch_scatter(short=short, lie=lie, distance_m=d)
    level = np.zeros(len(d))
    side = TOUCH_SIDE * rel
    parts = [
        _cloud(1.0 - mishit, d, rel * d, level, side, level, 55),
        _cloud(0.5 * mishit, FLUFFED * d, 0.15 * d, level, 2.0 * side, level, 13),
        _cloud(0.5 * mishit, THINNED * d, 0.2 * d, level, side, level, 13),
    ]
    w, r, a = (np.concatenate(cols, axis=1) for cols in zip(*parts, strict=True))
    return _narrow(w, r, a, np.ones_like(r))


@lru_cache(maxsize=16)
def _lattice(k: int) -> tuple[F64, F64]:
    """Return k points that fill the plane as two unit normals do; k is a Fibonacci number.

    A Fibonacci lattice, each axis through the inverse of the normal law: every point has a
    different reach and a different bearing, so a straight edge cuts few at a time. [1]_

    References
    ----------
    .. [1] H. Niederreiter, Random Number Generation and Quasi-Monte Carlo Methods, SIAM, 1992,
       chapter 5.
    """
    before, at = 1, 1
    while at < k:
        before, at = at, before + at
    i = np.arange(k)
    u, v = (i + 0.5) / k, (i * before / k + 0.5 / k) % 1.0
    z = np.array([_NORMAL.inv_cdf(p) for p in u]), np.array([_NORMAL.inv_cdf(p) for p in v])
    return z[0] / z[0].std(), z[1] / z[1].std()


def _cloud(
    share: F64, reach_m: F64, reach_sd_m: F64, bearing_rad: F64, bearing_sd_rad: F64,
    tilt: F64, nodes: int,
) -> tuple[F64, F64, F64]:  # fmt: skip
    """Return weight, reach and bearing of the points of n normal clouds, (n, q) each."""
    zr, za = _lattice(nodes)
    weight = np.full(nodes, 1.0 / nodes)
    side = tilt[:, None] * zr + np.sqrt(1.0 - tilt[:, None] ** 2) * za
    return (
        share[:, None] * weight,
        np.maximum(reach_m[:, None] + reach_sd_m[:, None] * zr, 0.0),
        bearing_rad[:, None] + bearing_sd_rad[:, None] * side,
    )


def _narrow(w: F64, r: F64, a: F64, landed: F64) -> Dots:
    x, y = r * np.cos(a), r * np.sin(a)
    cells = np.minimum((1.0 - landed) * r / CELL_M + 1.0, FAR_CELLS - 1.0).astype(np.uint8)
    return Dots(
        w.astype(np.float32), x.astype(np.float32), y.astype(np.float32),
        landed.astype(np.float32), cells,
    )  # fmt: skip


def stacked(dots: Sequence[Dots]) -> Dots:
    """Return several sets of points as one, with the set as the first index."""
    return Dots(
        np.stack([d.weight for d in dots]),
        np.stack([d.rest_x_m for d in dots]),
        np.stack([d.rest_y_m for d in dots]),
        np.stack([d.landed for d in dots]),
        np.stack([d.roll_cells for d in dots]),
    )
