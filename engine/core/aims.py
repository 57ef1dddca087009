"""What does a swing cost at every aim? Expected strokes by start line, one swing at a time.

The priced grid round the ball (`engine.core.board`) is put into angular harmonics once.
Turning the aim is a shift in angle, so a swing's expected strokes at every aim are one sum
over its rows and one inverse transform. A swing that goes out of bounds is played again
from the same spot, so its strokes E solve ``E = 1 + C + p (1 + E)`` exactly, with C the
cost of what stays in and p the chance of going out.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from engine.core.board import ANGLES, Board
from engine.core.finish import ROLL_NODES, reach_weights
from engine.core.pattern import SHORT, SOLID, WILD_LEFT, WILD_RIGHT, Pattern
from engine.core.shapes import Field
from engine.core.stop import ROWS, around

F64 = npt.NDArray[np.float64]
F32 = npt.NDArray[np.float32]
C64 = npt.NDArray[np.complex64]
C128 = npt.NDArray[np.complex128]

MOST_HARMONICS = 96
FINER = 2  # aims per grid angle
AIM_MOST_RAD = 0.75  # no aim further off the line than this
_COARSE = [0, 3, 4, 5, 6, 8, 10, 13, 16, 20, 24, 28, 33, 38, 45, 52]  # of the nodes of rolls
SURE_OUT = 0.98
_DEAR, _TRIES = 12.0, 4  # strokes out of bounds to begin with, and how often to try
_SLACK = 0.005  # strokes a lower bound is lowered by for what the grid rounds


class Aims:
    """Every swing at every aim over one priced grid."""

    def __init__(self, *, board: Board, pattern: Pattern, share: F64) -> None:
        """Transform the grid.

        Parameters
        ----------
        board : Board
            The priced grid.
        pattern : Pattern
            The swings, n of them.
        share : ndarray (n, nodes)
            Chance of each roll, from `roll_rows`.

        Notes
        -----
        Where nothing stops a rolling ball, carry and roll add to one normal length. What stops
        balls is added as a correction on the few rows from which a roll can be stopped.
        """
        self._pattern, self._board = pattern, board
        fields = [board.strokes, board.out] if board.out.any() else [board.strokes]
        base = np.pi / (-board.a_rad[0])
        count = _harmonics(pattern, base)
        self._wave_no = np.arange(count) * base
        self._smooth = np.sinc(np.arange(count) / ANGLES).astype(np.float32)
        self._waves: C64 = _waves(np.stack(fields), self._smooth)
        self._held = _held(fields, board, share)
        fine = board.a_rad[0] + (board.a_rad[1] - board.a_rad[0]) / FINER * np.arange(
            ANGLES * FINER
        )
        self._keep = np.abs(fine) <= AIM_MOST_RAD
        self.aim_rad: F64 = fine[self._keep]

    def strokes(self, swing: int) -> F64:
        """Return expected strokes of a swing at each of `aim_rad`."""
        pattern, board, s = self._pattern, self._board, swing
        total = np.zeros((len(self._waves), len(self._wave_no)), dtype=np.complex128)
        summed = np.zeros_like(self._waves[:, 0])
        held = self._held
        change = summed if held is None else held.waves(s, self._smooth)
        for c in range(WILD_LEFT + 1):
            tilt = float(pattern.tilt[s]) if c == SOLID else 0.0
            if c != WILD_LEFT:  # both wild clouds have the same reach
                summed = _over_rows(board, pattern, s, c, tilt, self._wave_no, self._waves)
                if held is not None:
                    summed = summed + _over_held(
                        board, pattern, s, c, tilt, self._wave_no, held.rows, change
                    )
            spread = float(pattern.bearing_sd_rad[s, c])
            if c == SOLID:
                carried = float(pattern.reach_sd_m[s, c])
                tilt *= carried / math.hypot(carried, float(pattern.run_sd_m[s]))
            kept = spread * spread * (1.0 - tilt * tilt)
            bearing = float(pattern.bearing_rad[s, c])
            turned = np.exp(self._wave_no * (1j * bearing - 0.5 * kept * self._wave_no))
            total = total + float(pattern.share[s, c]) * turned * summed
        values = np.fft.irfft(total, n=ANGLES * FINER, axis=1) * FINER
        cost = values[0, self._keep]
        if len(values) == 1:
            return np.asarray(1.0 + cost)
        out = np.clip(values[1, self._keep], 0.0, SURE_OUT)
        return np.asarray((1.0 + cost + out) / (1.0 - out))

    def at_least(self) -> F64:
        """Return what no aim of each swing gets below, (n,).

        Every row counts at its cheapest bearing, after the scatter of the straightest swing:
        a wilder one only averages that further.
        """
        if len(self._waves) == 1:
            return self._at_least(out=0.0)
        # A ball out of bounds costs a stroke and all strokes again. A bound B that holds if
        # they are taken for B does hold: if strokes E were fewer, E would be short of B by
        # only the chance of going out times what it is short.
        again = float(self._at_least(out=_DEAR).min())
        for _ in range(_TRIES):
            found = self._at_least(out=1.0 + again)
            if found.min() >= again:
                return found
            again = float(found.min()) - _SLACK
        return np.zeros(len(self._pattern))

    def _at_least(self, *, out: float) -> F64:
        """Return the same with the cost of a ball out of bounds known from below."""
        pattern, board = self._pattern, self._board
        solid = pattern.bearing_sd_rad[:, SOLID] * np.sqrt(1.0 - np.square(pattern.tilt))
        least = min(float(solid.min()), float(pattern.bearing_sd_rad[:, SHORT:].min()))
        cost = self._waves[0]
        if len(self._waves) > 1:
            cost = cost + out * self._waves[1]
        blurred = cost * np.exp(-0.5 * np.square(least * self._wave_no)).astype(np.float32)
        low = np.fft.irfft(blurred, n=ANGLES, axis=1).min(axis=1)
        total = np.hypot(pattern.reach_sd_m, pattern.run_sd_m[:, None])
        found = _expected(board.r_m, pattern.reach_m + pattern.run_m[:, None], total, pattern, low)
        if self._held is not None:
            lost = self._held.at_least(out)
            found = found + _expected(
                board.r_m, pattern.reach_m, pattern.reach_sd_m, pattern, lost
            )
        return np.asarray(1.0 + found - _SLACK)


def _waves(fields: Field, smooth: F32) -> C64:
    """Return as many angular harmonics of fields (..., A) as `smooth` has, undoing the cells."""
    return np.asarray(np.fft.rfft(fields)[..., : len(smooth)] / smooth, dtype=np.complex64)


def _expected(r_m: F64, mean_m: F64, sd_m: F64, pattern: Pattern, value: F64) -> F64:
    """Return the mean of a value by row, (rows,) or (n, rows), over where swings end, (n,)."""
    found = np.zeros(len(pattern))
    for c in (SOLID, SHORT, WILD_RIGHT):
        share = pattern.share[:, c]
        if c == WILD_RIGHT:
            share = share + pattern.share[:, WILD_LEFT]
        z = (r_m - mean_m[:, c, None]) / sd_m[:, c, None]
        bell = np.exp(-0.5 * np.square(z))
        mean = np.einsum("sr,sr->s", bell, np.broadcast_to(value, bell.shape))
        found += share * mean / bell.sum(axis=1)
    return found


def _harmonics(pattern: Pattern, base: float) -> int:
    """Return how many angular harmonics the narrowest swing still has."""
    narrowest = float(pattern.bearing_sd_rad[:, SOLID].min()) * 0.96
    return int(min(max(math.ceil(4.6 / (narrowest * base)), 24), MOST_HARMONICS))


def _over_rows(
    board: Board, pattern: Pattern, s: int, c: int, tilt: float, wave_no: F64, waves: C64
) -> C64:
    """Return the fields summed over the rows where a swing ends if nothing stops it."""
    step = float(board.r_m[1] - board.r_m[0])
    carried, rolled = float(pattern.reach_sd_m[s, c]), float(pattern.run_sd_m[s])
    mean = float(pattern.reach_m[s, c] + pattern.run_m[s])
    sd = math.hypot(carried, rolled)
    rows, w = reach_weights(board.r_m, mean, math.sqrt(max(sd * sd - step * step / 12.0, 0.01)))
    w = w.astype(np.float32)
    if not tilt:
        return np.asarray(np.einsum("r,frk->fk", w, waves[:, rows]))
    lean = tilt * float(pattern.bearing_sd_rad[s, c]) * carried / (sd * sd)
    phase = _phase(lean, board.r_m[rows.start] - mean, step, len(w), wave_no)
    return np.asarray(np.einsum("r,frk->fk", w, waves[:, rows] * phase))


def _over_held(
    board: Board, pattern: Pattern, s: int, c: int, tilt: float, wave_no: F64,
    held: slice, change: C64,
) -> C64:  # fmt: skip
    """Return what is changed by trouble that stops a rolling ball."""
    step = float(board.r_m[1] - board.r_m[0])
    mean, sd = float(pattern.reach_m[s, c]), float(pattern.reach_sd_m[s, c])
    rows, w = reach_weights(board.r_m, mean, math.sqrt(max(sd * sd - step * step / 12.0, 0.01)))
    lo, hi = max(rows.start, held.start), min(rows.stop, held.stop)
    if lo >= hi:
        return np.zeros((len(change), len(wave_no)), dtype=np.complex64)
    mixed = change[:, lo - held.start : hi - held.start]
    if tilt:
        lean = tilt * float(pattern.bearing_sd_rad[s, c]) / sd
        mixed = mixed * _phase(lean, board.r_m[lo] - mean, step, hi - lo, wave_no)
    w = w[lo - rows.start : hi - rows.start].astype(np.float32)
    return np.asarray(np.einsum("r,frk->fk", w, mixed))


def _phase(lean: float, first_m: float, step_m: float, count: int, wave_no: F64) -> C64:
    """Return the turn of each row whose bearings lean with the reach, (rows, harmonics)."""
    phase = np.empty((count, len(wave_no)), dtype=np.complex64)
    phase[0] = np.exp(1j * wave_no * (lean * first_m))
    phase[1:] = np.exp(1j * wave_no * (lean * step_m))
    return np.cumprod(phase, axis=0, out=phase)


@dataclass(frozen=True, slots=True, eq=False)
class _Held:
    """What stopping trouble changes, on the block of the grid where it can.

    Attributes
    ----------
    rows : slice
        Rows a ball may land on and be stopped.
    columns : slice
        Bearings where something stops balls.
    moved : ndarray (rolls, fields, rows, columns)
        Where a ball is held against where it would have rolled to, by how far it rolls.
    share : ndarray (n, rolls)
        Chance of each of these rolls, by swing. [-]
    """

    rows: slice
    columns: slice
    moved: F32
    share: F32

    def waves(self, swing: int, smooth: F32) -> C64:
        """Return the change for one swing in harmonics, (fields, rows, harmonics)."""
        mixed = np.einsum("n,nfrc->frc", self.share[swing], self.moved)
        whole = np.zeros((*mixed.shape[:2], ANGLES), dtype=np.float32)
        whole[:, :, self.columns] = mixed
        return _waves(whole, smooth)

    def at_least(self, out: float) -> F64:
        """Return the least change of each swing on each row of the grid, (n, R)."""
        cost = self.moved[:, 0]
        if self.moved.shape[1] > 1:
            cost = cost + out * self.moved[:, 1]
        least = np.zeros((len(self.share), ROWS))
        gained = np.minimum(cost.min(axis=2), 0.0)
        least[:, self.rows] = np.einsum("sn,nr->sr", self.share, gained)
        return least


def _held(fields: list[Field], board: Board, share: F64) -> _Held | None:
    """Return the difference between where balls end and where they would roll to."""
    if board.stop is None:
        return None
    rolls, chance = _coarse(share)
    met = board.stop.first - np.arange(ROWS)[:, None] <= max(*rolls, 0)
    rows, columns = around(np.any(met, axis=1)), around(np.any(met, axis=0))
    if columns is None or rows is None:
        return None
    row, column = np.arange(ROWS)[rows], np.arange(ANGLES)[columns]
    moved = np.empty((len(rolls), len(fields), len(row), len(column)), dtype=np.float32)
    for i, roll in enumerate(rolls):
        end = board.stop.end(roll, rows, columns)
        free = np.clip(row + roll, 0, ROWS - 1)
        for f, values in enumerate(fields):
            moved[i, f] = values[end, column] - values[free, columns]
    return _Held(rows, columns, moved, chance.astype(np.float32))


def _coarse(share: F64) -> tuple[list[int], F64]:
    """Return rolls at growing steps, and each swing's chances shared out among them."""
    last = int(np.flatnonzero(share.sum(axis=0))[-1])
    at = [i for i in _COARSE if i <= last]
    if at[-1] < last:
        at.append(_COARSE[len(at)])
    out = np.zeros((len(share), len(at)))
    for i in range(last + 1):
        hi = next(j for j, node in enumerate(at) if node >= i)
        t = 1.0 if at[hi] == i else (i - at[hi - 1]) / (at[hi] - at[hi - 1])
        out[:, hi] += t * share[:, i]
        if t < 1.0:
            out[:, hi - 1] += (1.0 - t) * share[:, i]
    return [int(ROLL_NODES[i]) for i in at], out
