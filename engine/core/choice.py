"""Which swing, started where, takes the fewest strokes from here?

The priced grid round the ball (`engine.core.scene`) is put into angular harmonics once.
Turning the aim is a shift in angle, so a swing's expected strokes at every aim are one sum
over its rows and one inverse transform. A swing that goes out of bounds is played again
from the same spot, so its strokes E solve ``E = 1 + C + p (1 + E)`` exactly, with C the
cost of what stays in and p the chance of going out.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from engine.core.finish import ROLL_NODES, finish_mass, reach_weights, roll_rows
from engine.core.pattern import SOLID, WILD_LEFT, Pattern
from engine.core.scene import ANGLES, ROWS, Board, Scene, lay
from engine.core.strokes import MOST, StrokeTable
from engine.errors import NoSolution

F64 = npt.NDArray[np.float64]
C128 = npt.NDArray[np.complex128]

MOST_HARMONICS = 96
FINER = 2  # aims per grid angle
AIM_MOST_RAD = 0.75  # no aim further off the line than this
_COARSE = [0, 3, 4, 5, 6, 8, 10, 13, 16, 20, 24, 28, 33, 38, 45, 52]  # of the nodes of rolls
_SURE_OUT = 0.98


@dataclass(frozen=True, slots=True, eq=False)
class Option:
    """One swing at its best aim.

    Attributes
    ----------
    swing : int
        Row of the pattern.
    start_rad : float
        Start line against the line to the target, right positive. [rad]
    finish_m : (float, float)
        Where a solid one ends on average: along the line and right of it. [m]
    strokes : float
        Expected strokes to hole out, this one counted. [-]
    chance : dict
        Chance of ending on each ground, by name; out of bounds under its trouble's name. [-]
    out : float
        Chance of going out of bounds with this swing. [-]
    left_m : float
        Mean distance left to the pin after a ball in play. [m]
    over : ndarray (MOST,)
        Chance of needing more than k strokes from here, k the index. [-]
    """

    swing: int
    start_rad: float
    finish_m: tuple[float, float]
    strokes: float
    chance: dict[str, float]
    out: float
    left_m: float
    over: F64


@dataclass(frozen=True, slots=True, eq=False)
class Surface:
    """Expected strokes of every swing at every aim.

    Attributes
    ----------
    aim_rad : ndarray (m,)
        Start lines. [rad]
    strokes : ndarray (n, m)
        Expected strokes by swing and aim. [-]
    """

    aim_rad: F64
    strokes: F64


def reach_needed(*, pattern: Pattern) -> float:
    """Return how far out the grid must go for these swings. [m]"""
    far = pattern.reach_m[:, SOLID] + 4.0 * pattern.reach_sd_m[:, SOLID]
    return float(np.max(far + pattern.run_m + 2.0 * pattern.run_sd_m)) + 5.0


def surface(*, board: Board, pattern: Pattern, share: F64) -> Surface:
    """Return expected strokes of every swing at every aim.

    Parameters
    ----------
    board : Board
        The priced grid.
    pattern : Pattern
        The swings, n of them.
    share : ndarray (n, nodes)
        Chance of each roll, from `roll_rows`.

    Returns
    -------
    Surface
        Strokes by swing and aim.

    Notes
    -----
    Where nothing stops a rolling ball, carry and roll add to one normal length. What stops
    balls is added as a correction on the few rows from which a roll can be stopped.
    """
    fields = [board.strokes, board.out] if board.out.any() else [board.strokes]
    base = np.pi / (-board.a_rad[0])
    count = _harmonics(pattern, base)
    wave_no = np.arange(count) * base
    smooth = np.sinc(np.arange(count) / ANGLES)
    waves = np.stack([np.fft.rfft(f, axis=1)[:, :count] / smooth for f in fields])
    held = _held(fields, board, share, smooth)
    spectra = np.empty((len(fields), len(pattern), count), dtype=np.complex128)
    for s in range(len(pattern)):
        total = np.zeros((len(fields), count), dtype=np.complex128)
        summed = total
        for c in range(WILD_LEFT + 1):
            tilt = float(pattern.tilt[s]) if c == SOLID else 0.0
            if c != WILD_LEFT:  # both wild clouds have the same reach
                summed = _over_rows(board, pattern, s, c, tilt, wave_no, waves)
                if held is not None:
                    summed = summed + _over_held(board, pattern, s, c, tilt, wave_no, held)
            spread = float(pattern.bearing_sd_rad[s, c])
            if c == SOLID:
                carried = float(pattern.reach_sd_m[s, c])
                tilt *= carried / math.hypot(carried, float(pattern.run_sd_m[s]))
            kept = spread * spread * (1.0 - tilt * tilt)
            turned = np.exp(
                wave_no * (1j * float(pattern.bearing_rad[s, c]) - 0.5 * kept * wave_no)
            )
            total = total + float(pattern.share[s, c]) * turned * summed
        spectra[:, s] = total
    fine = ANGLES * FINER
    values = np.fft.irfft(spectra, n=fine, axis=2) * FINER
    aim = board.a_rad[0] + (board.a_rad[1] - board.a_rad[0]) / FINER * np.arange(fine)
    keep = np.abs(aim) <= AIM_MOST_RAD
    cost = values[0][:, keep]
    if len(fields) == 1:
        return Surface(aim[keep], 1.0 + cost)
    out = np.clip(values[1][:, keep], 0.0, _SURE_OUT)
    return Surface(aim[keep], (1.0 + cost + out) / (1.0 - out))


def _harmonics(pattern: Pattern, base: float) -> int:
    """Return how many angular harmonics the narrowest swing still has."""
    narrowest = float(pattern.bearing_sd_rad[:, SOLID].min()) * 0.96
    return int(min(max(math.ceil(4.6 / (narrowest * base)), 24), MOST_HARMONICS))


def _over_rows(
    board: Board, pattern: Pattern, s: int, c: int, tilt: float, wave_no: F64, waves: C128
) -> C128:
    """Return the fields summed over the rows where a swing ends if nothing stops it."""
    step = float(board.r_m[1] - board.r_m[0])
    carried, rolled = float(pattern.reach_sd_m[s, c]), float(pattern.run_sd_m[s])
    mean = float(pattern.reach_m[s, c] + pattern.run_m[s])
    sd = math.hypot(carried, rolled)
    rows, w = reach_weights(board.r_m, mean, math.sqrt(max(sd * sd - step * step / 12.0, 0.01)))
    if not tilt:
        return np.asarray(np.einsum("r,frk->fk", w, waves[:, rows]))
    lean = tilt * float(pattern.bearing_sd_rad[s, c]) * carried / (sd * sd)
    phase = _phase(lean, board.r_m[rows.start] - mean, step, len(w), wave_no)
    return np.asarray(np.einsum("r,frk->fk", w, waves[:, rows] * phase))


def _over_held(
    board: Board, pattern: Pattern, s: int, c: int, tilt: float, wave_no: F64, held: Held
) -> C128:  # fmt: skip
    """Return what is changed by trouble that stops a rolling ball."""
    step = float(board.r_m[1] - board.r_m[0])
    mean, sd = float(pattern.reach_m[s, c]), float(pattern.reach_sd_m[s, c])
    rows, w = reach_weights(board.r_m, mean, math.sqrt(max(sd * sd - step * step / 12.0, 0.01)))
    lo, hi = max(rows.start, held.rows.start), min(rows.stop, held.rows.stop)
    if lo >= hi:
        return np.zeros((held.change.shape[1], len(wave_no)), dtype=np.complex128)
    mixed = held.change[s, :, lo - held.rows.start : hi - held.rows.start]
    if tilt:
        lean = tilt * float(pattern.bearing_sd_rad[s, c]) / sd
        mixed = mixed * _phase(lean, board.r_m[lo] - mean, step, hi - lo, wave_no)
    return np.asarray(np.einsum("r,frk->fk", w[lo - rows.start : hi - rows.start], mixed))


def _phase(lean: float, first_m: float, step_m: float, count: int, wave_no: F64) -> C128:
    """Return the turn of each row whose bearings lean with the reach, (rows, harmonics)."""
    phase = np.empty((count, len(wave_no)), dtype=np.complex128)
    phase[0] = np.exp(1j * wave_no * (lean * first_m))
    phase[1:] = np.exp(1j * wave_no * (lean * step_m))
    return np.cumprod(phase, axis=0, out=phase)


class Held(NamedTuple):
    """What stopping trouble changes for each swing: (swings, fields, rows, harmonics)."""

    rows: slice
    change: C128


def _held(fields: list[F64], board: Board, share: F64, smooth: F64) -> Held | None:
    """Return the difference between where balls end and where they would roll to."""
    if board.stop is None:
        return None
    rolls, coarse = _coarse(share)
    rows, columns = np.arange(ROWS)[:, None], np.arange(ANGLES)
    ends = [board.stop.end(roll) for roll in rolls]
    on = [np.clip(rows + roll, 0, ROWS - 1) for roll in rolls]
    touched = np.flatnonzero(
        np.any([(e != o).any(axis=1) for e, o in zip(ends, on, strict=True)], axis=0)
    )
    if not len(touched):
        return None
    span = slice(int(touched[0]), int(touched[-1]) + 1)
    shape = (len(rolls), len(fields), span.stop - span.start, len(smooth))
    change = np.empty(shape, dtype=np.complex128)
    for i, (end, free) in enumerate(zip(ends, on, strict=True)):
        for f, values in enumerate(fields):
            moved = values[end[span], columns] - values[free[span, 0]]
            change[i, f] = np.fft.rfft(moved, axis=1)[:, : len(smooth)] / smooth
    flat = np.einsum("sn,nx->sx", coarse, change.reshape(len(rolls), -1).view(np.float64))
    return Held(span, flat.view(np.complex128).reshape(len(share), *shape[1:]))


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


def best_aims(*, found: Surface) -> F64:
    """Return the best aim of each swing, between the grid's aims by a parabola, (n,)."""
    e = found.strokes
    at = np.clip(np.argmin(e, axis=1), 1, e.shape[1] - 2)
    i = np.arange(len(e))
    a, b, c = e[i, at - 1], e[i, at], e[i, at + 1]
    bend = a - 2.0 * b + c
    shift = np.where(bend > 1e-12, 0.5 * (a - c) / np.maximum(bend, 1e-12), 0.0)
    step = found.aim_rad[1] - found.aim_rad[0]
    return np.asarray(found.aim_rad[at] + step * np.clip(shift, -1.0, 1.0), dtype=np.float64)


def option(*, board: Board, pattern: Pattern, share: F64, swing: int, aim_rad: float) -> Option:
    """Return everything about one swing at one aim.

    Parameters
    ----------
    board : Board
        The priced grid.
    pattern, share
        The swings, and the chance of each roll.
    swing : int
        Which swing.
    aim_rad : float
        Start line. [rad]

    Returns
    -------
    Option
        Strokes, chances and finish.
    """
    mass = finish_mass(
        board=board, pattern=pattern, share=share[swing], swing=swing, aim_rad=aim_rad
    )
    span, ended = mass
    chance = {
        name: float(np.einsum("ra,ra->", ended, part[span])) for name, part in board.parts.items()
    }
    out = min(float(np.einsum("ra,ra->", ended, board.out[span])), _SURE_OUT)
    kept = ended * (1.0 - board.out[span])
    left = float(np.einsum("ra,ra->", kept, board.to_pin_m[span]))
    cost = float(np.einsum("ra,ra->", ended, board.strokes[span]))
    spots = board.spots(ended, span)
    over = np.ones(MOST)
    for k in range(1, MOST):
        again = over[k - 2] if k >= 2 else 1.0
        over[k] = board.over_spots(k - 1, spots) + out * again
    bearing = aim_rad + float(pattern.bearing_rad[swing, SOLID])
    total = float(pattern.reach_m[swing, SOLID] + pattern.run_m[swing])
    return Option(
        swing=swing,
        start_rad=aim_rad,
        finish_m=(total * float(np.cos(bearing)), total * float(np.sin(bearing))),
        strokes=(1.0 + cost + out) / (1.0 - out),
        chance=chance,
        out=out,
        left_m=left / max(1.0 - out, 1e-9),
        over=over,
    )


class Decider:
    """One shot, priced once, asked as often as needed."""

    def __init__(
        self,
        *,
        scene: Scene,
        pattern: Pattern,
        table: StrokeTable,
        too_many: int | None = None,
        weight: float = 0.0,
    ) -> None:
        """Price every swing; `weight` strokes are added for needing over `too_many` from here."""
        if not len(pattern):
            raise NoSolution("choice", "there is no swing to choose from")
        # One hand only is ever computed, so that a mirrored question is the same sum.
        self._flip = -1.0 if float(pattern.tilt[0]) > 0.0 else 1.0
        if self._flip < 0.0:
            scene, pattern = scene.mirrored(), pattern.mirrored()
        self._pattern = pattern
        self.board = lay(scene=scene, table=table, reach_m=reach_needed(pattern=pattern))
        step = float(self.board.r_m[1] - self.board.r_m[0])
        self._rolls = roll_rows(run_m=pattern.run_m, run_sd_m=pattern.run_sd_m, step_m=step)
        priced = self.board
        if too_many is not None and weight:
            dear = weight * (self.board.over(too_many - 1) + self.board.out)
            priced = replace(self.board, strokes=self.board.strokes + dear)
        self._surface = surface(board=priced, pattern=pattern, share=self._rolls)
        self._aims = best_aims(found=self._surface)
        self.strokes: F64 = self._surface.strokes.min(axis=1)
        self.start_rad: F64 = self._flip * self._aims

    @property
    def surface(self) -> Surface:
        """Expected strokes of every swing at every aim."""
        if self._flip > 0.0:
            return self._surface
        return Surface(-self._surface.aim_rad[::-1], self._surface.strokes[:, ::-1])

    def option(self, swing: int, *, aim_rad: float | None = None) -> Option:
        """Return one swing in full, at its best aim or at one that is asked for. [rad]"""
        aim = float(self._aims[swing]) if aim_rad is None else self._flip * aim_rad
        found = option(
            board=self.board, pattern=self._pattern, share=self._rolls, swing=swing, aim_rad=aim
        )
        if self._flip > 0.0:
            return found
        x, y = found.finish_m
        return Option(
            found.swing, -found.start_rad, (x, -y), found.strokes, found.chance, found.out,
            found.left_m, found.over,
        )  # fmt: skip

    def leading(self, count: int) -> tuple[Option, ...]:
        """Return the best swings in full, fewest strokes first."""
        order = np.argsort(self.strokes, kind="stable")[:count]
        return tuple(sorted((self.option(int(s)) for s in order), key=lambda o: o.strokes))
