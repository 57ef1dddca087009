"""Where does this swing at this aim end up? Chances over the grid, after the roll."""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from engine.core.board import ANGLES, Board
from engine.core.pattern import SHORT, SOLID, Pattern
from engine.core.stop import ROWS

F64 = npt.NDArray[np.float64]
F32 = npt.NDArray[np.float32]
Block = tuple[slice, slice]  # rows and columns of the grid
# Spreads either side past which nothing is counted: of solid balls, and of the fewer others.
_FAR_SD = np.array([5.0, 4.4, 4.4, 4.4])
_FAR_REACH_SD = 4.2

ROLL_NODES = np.arange(-4, 49)  # rows, one after the other
_FARTHEST = int(ROLL_NODES[-1]) + 2  # a gap that no roll crosses
_ROLL_Z = np.array([-2.0, -1.4, -0.9, -0.4, 0.0, 0.4, 0.9, 1.4, 2.0])
_ROLL_BELL = np.exp(-0.5 * _ROLL_Z * _ROLL_Z) * np.gradient(_ROLL_Z)
_ROLL_SHARE = _ROLL_BELL / _ROLL_BELL.sum()


class Reaches(NamedTuple):
    """How normal reaches fall on the rows of the grid; beyond 4.2 spreads nothing is counted.

    Attributes
    ----------
    mean_m : ndarray (...)
        What was asked for. [m]
    weight : ndarray (..., R)
        Chance of each row; a reach's sum to 1. [-]
    first, end : ndarray (...)
        The rows with any chance, and the one after the last of them.
    """

    mean_m: F64
    weight: F32
    first: npt.NDArray[np.intp]
    end: npt.NDArray[np.intp]


def reaches(*, r_m: F64, mean_m: F64, sd_m: F64) -> Reaches:
    """Return how normal reaches, of means and spreads of any one shape, fall on rows. [m]"""
    step, last = float(r_m[1] - r_m[0]), len(r_m) - 1
    # A row is as wide as a step itself: that much of the spread is in it already.
    sd = np.sqrt(np.maximum(sd_m * sd_m - step * step / 12.0, 0.01))
    place = (mean_m - r_m[0]) / step
    away = _FAR_REACH_SD * sd / step
    first = np.minimum(np.maximum(np.floor(place - away), 0.0), last - 1.0)
    end = np.minimum(np.maximum(np.ceil(place + away), first + 1.0), last) + 1.0
    first, end = first.astype(np.float32), end.astype(np.float32)
    rows = np.arange(last + 1, dtype=np.float32)
    bell = rows - place.astype(np.float32)[..., None]
    bell *= (step / sd).astype(np.float32)[..., None]
    bell *= bell
    bell *= -0.5
    np.exp(bell, out=bell)
    bell *= (rows >= first[..., None]) & (rows < end[..., None])
    bell *= 1.0 / bell.sum(axis=-1, keepdims=True)
    return Reaches(mean_m, bell, first.astype(np.intp), end.astype(np.intp))


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
    count, last = len(ROLL_NODES), len(ROLL_NODES) - 1
    roll = (run_m[:, None] + run_sd_m[:, None] * _ROLL_Z) / step_m - float(ROLL_NODES[0])
    np.clip(roll, 0.0, float(last), out=roll)
    below = np.minimum(roll.astype(np.intp), last - 1)
    past = (roll - below) * _ROLL_SHARE
    node = (below + count * np.arange(len(run_m))[:, None]).ravel()
    most = count * len(run_m)
    found = np.bincount(node, (_ROLL_SHARE - past).ravel(), minlength=most)
    found += np.bincount(node + 1, past.ravel(), minlength=most)
    return np.asarray(found.reshape(len(run_m), count), dtype=np.float64)


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
    width = float(board.a_rad[1] - board.a_rad[0])
    columns = _columns(board, pattern, swing, aim_rad)
    bearings = board.a_rad[columns].astype(np.float32)
    reach, reach_sd = pattern.reach_m[swing], pattern.reach_sd_m[swing]
    _, weight, first, end = reaches(r_m=board.r_m, mean_m=reach, sd_m=reach_sd)
    spread, tilt = pattern.bearing_sd_rad[swing], float(pattern.tilt[swing])
    kept = spread * spread
    kept[SOLID] *= 1.0 - tilt * tilt
    kept = np.sqrt(np.maximum(kept - width * width / 12.0, width * width / 12.0))
    centre = aim_rad + pattern.bearing_rad[swing]
    scale = pattern.share[swing] * width / (kept * math.sqrt(2.0 * math.pi))
    weight *= scale.astype(np.float32)[:, None]
    # Only solid balls lean: the others' rows all have the same bearings.
    rest = _bell(bearings, centre[SHORT:, None], kept[SHORT:, None])
    land = np.einsum("cr,ca->ra", weight[SHORT:], rest)
    rows = slice(int(first[SOLID]), int(end[SOLID]))
    lean = tilt * float(spread[SOLID] / reach_sd[SOLID])
    middle = centre[SOLID] + lean * (board.r_m[rows, None] - reach[SOLID])
    solid = _bell(bearings, middle, kept[SOLID])
    solid *= weight[SOLID, rows, None]
    land[rows] += solid

    nodes = np.flatnonzero(share > 0.0)
    rolls = [int(ROLL_NODES[node]) for node in nodes]
    lo, hi = int(first.min()), int(end.max())
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
    last = min(hi + max(rolls[-1], 1) + 1, ROWS)
    span = slice(max(lo + min(rolls[0], 0), 0), last if hi + rolls[-1] < ROWS else ROWS)
    return (span, columns), mass[span]


def _bell(bearing_rad: F32, middle_rad: F64, sd_rad: F64) -> F32:
    """Return normal bells, 1 at their middles, at bearings."""
    z = (bearing_rad - middle_rad.astype(np.float32)) * (1.0 / sd_rad).astype(np.float32)
    z *= z
    z *= -0.5
    return np.exp(z, out=z)


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
