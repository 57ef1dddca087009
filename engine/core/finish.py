"""Where does this swing at this aim end up? Chances over the grid, after the roll."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from engine.core.board import ANGLES, Board
from engine.core.pattern import SOLID, Pattern
from engine.core.stop import ROWS

F64 = npt.NDArray[np.float64]
F32 = npt.NDArray[np.float32]
Block = tuple[slice, slice]  # rows and columns of the grid
# Spreads either side past which nothing is counted: of solid balls, and of the fewer others.
_FAR_SD = np.array([5.0, 4.4, 4.4, 4.4])

ROLL_NODES = np.arange(-4, 49)  # rows
_FARTHEST = int(ROLL_NODES[-1]) + 2  # a gap that no roll crosses
_ROLL_Z = np.array([-2.0, -1.4, -0.9, -0.4, 0.0, 0.4, 0.9, 1.4, 2.0])


def reach_weights(r_m: F64, mean_m: float, sd_m: float) -> tuple[slice, F64]:
    """Return the rows a normal reach touches and their weights, summing to 1."""
    first, last = float(r_m[0]), len(r_m) - 1
    step = float(r_m[1]) - first
    lo = min(max(math.floor((mean_m - 4.2 * sd_m - first) / step), 0), last - 1)
    hi = min(max(math.ceil((mean_m + 4.2 * sd_m - first) / step), lo + 1), last)
    z = (r_m[lo : hi + 1] - mean_m) * (1.0 / sd_m)
    w = np.exp(-0.5 * z * z)
    return slice(lo, hi + 1), w * (1.0 / float(w.sum()))


def roll_rows(*, run_m: F64, run_sd_m: F64, step_m: float) -> F64:
    """Return the chance of each roll of `ROLL_NODES` rows.

    Parameters
    ----------
    run_m, run_sd_m : ndarray (n,)
        Mean and spread of the roll; below nought it spins back. [m]
    step_m : float
        Length of a row. [m]

    Returns
    -------
    ndarray (n, nodes)
        Chances; rows sum to 1. [-]
    """
    bell = np.exp(-0.5 * _ROLL_Z * _ROLL_Z) * np.gradient(_ROLL_Z)
    bell /= bell.sum()
    last = len(ROLL_NODES) - 1
    roll = np.clip(
        (run_m[:, None] + run_sd_m[:, None] * _ROLL_Z) / step_m,
        float(ROLL_NODES[0]),
        float(ROLL_NODES[last]),
    )
    hi = np.clip(np.searchsorted(ROLL_NODES, roll), 1, last)
    t = (roll - ROLL_NODES[hi - 1]) / (ROLL_NODES[hi] - ROLL_NODES[hi - 1])
    out = np.zeros((len(run_m), last + 1))
    rows = np.repeat(np.arange(len(run_m)), roll.shape[1])
    np.add.at(out, (rows, hi.ravel()), (bell * t).ravel())
    np.add.at(out, (rows, hi.ravel() - 1), (bell * (1.0 - t)).ravel())
    return out


def finish_mass(
    *, board: Board, pattern: Pattern, share: F64, swing: int, aim_rad: float
) -> tuple[Block, F32]:  # fmt: skip
    """Return the chance of ending in each cell of the grid.

    Parameters
    ----------
    board : Board
        The grid, with what stops a rolling ball.
    pattern : Pattern
        The swings.
    share : ndarray (nodes,)
        Chance of each roll of this swing.
    swing : int
        Which swing.
    aim_rad : float
        Start line. [rad]

    Returns
    -------
    tuple of (Block, ndarray (rows, columns))
        The rows and columns that are touched, and the chance of each cell; together 1. [-]
    """
    step = float(board.r_m[1] - board.r_m[0])
    width = float(board.a_rad[1] - board.a_rad[0])
    narrow_r, narrow_a = step * step / 12.0, width * width / 12.0
    columns = _columns(board, pattern, swing, aim_rad)
    bearings = board.a_rad[columns].astype(np.float32)
    land = np.zeros((ROWS, len(bearings)), dtype=np.float32)
    for c in range(pattern.share.shape[1]):
        mean, sd = float(pattern.reach_m[swing, c]), float(pattern.reach_sd_m[swing, c])
        rows, w = reach_weights(board.r_m, mean, max(sd * sd - narrow_r, narrow_r) ** 0.5)
        spread = float(pattern.bearing_sd_rad[swing, c])
        tilt = float(pattern.tilt[swing]) if c == SOLID else 0.0
        kept = max(spread * spread * (1.0 - tilt * tilt) - narrow_a, narrow_a) ** 0.5
        centre = aim_rad + float(pattern.bearing_rad[swing, c])
        scale = float(pattern.share[swing, c]) * width / (kept * 2.5066282746310002)
        if tilt:
            middle = (centre + tilt * spread / sd * (board.r_m[rows] - mean)).astype(np.float32)
            z = (bearings - middle[:, None]) * (1.0 / kept)
        else:
            z = ((bearings - centre) * (1.0 / kept))[None, :]
        z *= z
        z *= -0.5
        bell = np.exp(z, out=z)
        land[rows] += (scale * w).astype(np.float32)[:, None] * bell

    touched = np.flatnonzero(land.any(axis=1))
    nodes = np.flatnonzero(share > 0.0)
    rolls = [int(ROLL_NODES[node]) for node in nodes]
    lo, hi = int(touched[0]), int(touched[-1]) + 1
    land, mass = land[lo:hi], np.zeros_like(land)
    stopped = None if board.stop is None else board.stop.on(slice(lo, hi), columns, rolls[-1])
    for node, roll in zip(nodes, rolls, strict=True):
        moved = float(share[node]) * land
        if stopped is not None:
            moved[:, stopped.columns] *= stopped.gap > max(roll, 0)
        to, at = min(hi + roll, ROWS), max(lo + roll, 0)
        mass[at:to] += moved[at - lo - roll : to - lo - roll]
        if to < hi + roll:
            mass[ROWS - 1] += moved[to - lo - roll :].sum(axis=0)
    if stopped is not None:
        # Every roll that is long enough for the gap ends in what stops it.
        far = np.array(
            [share[nodes[np.maximum(rolls, 0) >= g]].sum() for g in range(_FARTHEST)],
            dtype=np.float32,
        )
        held = land[:, stopped.columns] * far[np.minimum(stopped.gap, _FARTHEST - 1)]
        width = held.shape[1]
        cell = stopped.hold * width + np.arange(width)
        ended = np.bincount(cell.ravel(), held.ravel(), minlength=ROWS * width)
        mass[:, stopped.columns] += ended.reshape(ROWS, width)
    first = max(lo + min(rolls[0], 0), 0)
    last = min(hi + max(rolls[-1], 1) + 1, ROWS)
    span = slice(first, last if hi + rolls[-1] < ROWS else ROWS)
    return (span, columns), mass[span]


def _columns(board: Board, pattern: Pattern, swing: int, aim_rad: float) -> slice:
    """Return the bearings that a swing at an aim touches, all but one ball in a million."""
    width = float(board.a_rad[1] - board.a_rad[0])
    centre = aim_rad + pattern.bearing_rad[swing]
    away = _FAR_SD * pattern.bearing_sd_rad[swing]
    first, last = float(np.min(centre - away)), float(np.max(centre + away))
    lo = math.floor((first - float(board.a_rad[0])) / width)
    hi = math.ceil((last - float(board.a_rad[0])) / width)
    lo = min(max(lo, 0), ANGLES - 2)
    return slice(lo, min(max(hi + 1, lo + 2), ANGLES))
