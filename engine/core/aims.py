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
from engine.core.finish import ROLL_NODES, Reaches, reaches
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
        self._held = _held(fields, board, pattern, share)
        fine = board.a_rad[0] + (board.a_rad[1] - board.a_rad[0]) / FINER * np.arange(
            ANGLES * FINER
        )
        kept = np.flatnonzero(np.abs(fine) <= AIM_MOST_RAD)
        self._keep = slice(int(kept[0]), int(kept[-1]) + 1)
        self.aim_rad: F64 = fine[self._keep]
        carry_m, carry_sd_m = _carries(pattern)
        self._total_sd = np.hypot(carry_sd_m, pattern.run_sd_m[:, None])
        total_m = carry_m + pattern.run_m[:, None]
        self._free = reaches(r_m=board.r_m, mean_m=total_m, sd_m=self._total_sd)
        self._ends = _by_row(self._free, pattern)

    def strokes(self, swing: int) -> F64:
        """Return expected strokes of a swing at each of `aim_rad`."""
        pattern, held, s = self._pattern, self._held, swing
        change = self._waves if held is None else held.waves(s, self._smooth)
        spread, tilt = pattern.bearing_sd_rad[s], float(pattern.tilt[s])
        lean = tilt * float(spread[SOLID])  # of a solid ball's bearing with its reach, in spreads
        carried, total_sd = float(pattern.reach_sd_m[s, SOLID]), float(self._total_sd[s, SOLID])
        kept = spread * spread
        kept[SOLID] *= 1.0 - (tilt * carried / total_sd) ** 2
        bearing = 1j * pattern.bearing_rad[s, :, None]
        turned = np.exp(self._wave_no * (bearing - 0.5 * kept[:, None] * self._wave_no))
        turned *= pattern.share[s, :, None]
        turned[WILD_RIGHT] += turned[WILD_LEFT]
        total = np.zeros((len(self._waves), len(self._wave_no)), dtype=np.complex128)
        for c in (SOLID, SHORT, WILD_RIGHT):
            leans = lean if c == SOLID else 0.0
            over_total = leans * carried / total_sd**2
            summed = self._over_rows(self._free, s, c, over_total, self._waves)
            if held is not None:
                summed = summed + self._over_rows(
                    held.reach, s, c, leans / carried, change, held.rows.start
                )
            total += turned[c] * summed
        values = np.fft.irfft(total, n=ANGLES * FINER, axis=1) * FINER
        cost = values[0, self._keep]
        if len(values) == 1:
            return np.asarray(1.0 + cost)
        out = np.clip(values[1, self._keep], 0.0, SURE_OUT)
        return np.asarray((1.0 + cost + out) / (1.0 - out))

    def _over_rows(
        self, reach: Reaches, s: int, c: int, lean: float, waves: C64, start: int = 0
    ) -> C64:
        """Return fields, whose rows begin at one of the grid's, summed over a cloud's rows."""
        lo = max(int(reach.first[s, c]), start)
        hi = min(int(reach.end[s, c]), start + waves.shape[1])
        if lo >= hi:
            return np.zeros_like(waves[:, 0])
        here, r_m = waves[:, lo - start : hi - start], self._board.r_m
        if lean:
            first_m, step_m = float(r_m[lo] - reach.mean_m[s, c]), float(r_m[1] - r_m[0])
            here = here * _phase(lean, first_m, step_m, hi - lo, self._wave_no)
        weight = reach.weight[s, c, lo:hi]
        # Complex numbers are summed as the pairs they are: several times faster.
        return np.asarray(np.einsum("r,frk->fk", weight, here.view(np.float32)).view(np.complex64))

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
        pattern = self._pattern
        solid = pattern.bearing_sd_rad[:, SOLID] * np.sqrt(1.0 - np.square(pattern.tilt))
        least = min(float(solid.min()), float(pattern.bearing_sd_rad[:, SHORT:].min()))
        cost = self._waves[0]
        if len(self._waves) > 1:
            cost = cost + out * self._waves[1]
        blurred = cost * np.exp(-0.5 * np.square(least * self._wave_no)).astype(np.float32)
        low = np.fft.irfft(blurred, n=ANGLES, axis=1).min(axis=1)
        found = np.einsum("sr,r->s", self._ends, low)
        if self._held is not None:
            lands = _by_row(self._held.reach, pattern)
            found = found + np.einsum("sr,sr->s", lands, self._held.at_least(out))
        return np.asarray(1.0 + found - _SLACK)


def _waves(fields: Field, smooth: F32) -> C64:
    """Return as many angular harmonics of fields (..., A) as `smooth` has, undoing the cells."""
    return np.asarray(np.fft.rfft(fields)[..., : len(smooth)] / smooth, dtype=np.complex64)


def _carries(pattern: Pattern) -> tuple[F64, F64]:
    """Return mean and spread of the carry by cloud; both wild clouds have the same. [m]"""
    return pattern.reach_m[:, :WILD_LEFT], pattern.reach_sd_m[:, :WILD_LEFT]


def _by_row(reach: Reaches, pattern: Pattern) -> F64:
    """Return the chance of each row by swing, whatever the cloud, (n, rows)."""
    share = pattern.share[:, :WILD_LEFT].copy()
    share[:, WILD_RIGHT] += pattern.share[:, WILD_LEFT]
    return np.asarray(np.einsum("sc,scr->sr", share, reach.weight))


def _harmonics(pattern: Pattern, base: float) -> int:
    """Return how many angular harmonics the narrowest swing still has."""
    narrowest = float(pattern.bearing_sd_rad[:, SOLID].min()) * 0.96
    return int(min(max(math.ceil(4.6 / (narrowest * base)), 24), MOST_HARMONICS))


def _phase(lean: float, first_m: float, step_m: float, count: int, wave_no: F64) -> C64:
    """Return the turn of each row whose bearings lean with the reach, (rows, harmonics)."""
    phase = np.empty((count, len(wave_no)), dtype=np.complex64)
    phase[0] = np.exp(1j * wave_no * (lean * first_m))
    turn, done = np.exp(1j * wave_no * (lean * step_m)), 1
    while done < count:  # as many rows again, turned by as many rows
        more = min(done, count - done)
        np.multiply(phase[:more], turn.astype(np.complex64), out=phase[done : done + more])
        turn, done = turn * turn, done + more
    return phase


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
    reach : Reaches
        Where balls land, by swing and cloud, (n, 3, R).
    """

    rows: slice
    columns: slice
    moved: F32
    share: F32
    reach: Reaches

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


def _held(fields: list[Field], board: Board, pattern: Pattern, share: F64) -> _Held | None:
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
    carry_m, carry_sd_m = _carries(pattern)
    reach = reaches(r_m=board.r_m, mean_m=carry_m, sd_m=carry_sd_m)
    return _Held(rows, columns, moved, chance.astype(np.float32), reach)


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
