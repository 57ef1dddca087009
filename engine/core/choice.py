"""Which swing, started where, takes the fewest strokes from here?

The priced grid round the ball (`engine.core.scene`) is put into angular harmonics once.
Turning the aim is a shift in angle, so a swing's expected strokes at every aim are one sum
over its rows and one inverse transform. A swing that goes out of bounds is played again
from the same spot, so its strokes E solve ``E = 1 + C + p (1 + E)`` exactly, with C the
cost of what stays in and p the chance of going out.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from engine.core.finish import ROLL_NODES, finish_mass, reach_weights, roll_rows
from engine.core.pattern import SOLID, Pattern
from engine.core.scene import ANGLES, ROWS, Board, Scene, lay
from engine.core.strokes import MOST, StrokeTable
from engine.errors import NoSolution

F64 = npt.NDArray[np.float64]
C128 = npt.NDArray[np.complex128]

HARMONICS = 80  # a spread of 1.5 degrees still has them below 1e-5 there
FINER = 2  # aims per grid angle
AIM_MOST_RAD = 0.75  # no aim further off the line than this
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
    """
    fields = [board.strokes, board.out] if board.out.any() else [board.strokes]
    used = np.flatnonzero(share.sum(axis=0) > 0.0)
    waves = _waves(fields, board, used)
    wave_no = np.arange(HARMONICS) * (np.pi / (-board.a_rad[0]))
    spectra = np.empty((len(fields), len(pattern), HARMONICS), dtype=np.complex128)
    step = float(board.r_m[1] - board.r_m[0])
    narrow = step * step / 12.0
    for s in range(len(pattern)):
        total = np.zeros((len(fields), HARMONICS), dtype=np.complex128)
        nodes = np.flatnonzero(share[s, used] > 0.0)
        roll = share[s, used[nodes]]
        for c in range(pattern.share.shape[1]):
            mean, sd = float(pattern.reach_m[s, c]), float(pattern.reach_sd_m[s, c])
            rows, w = reach_weights(board.r_m, mean, max(sd * sd - narrow, narrow) ** 0.5)
            spread = float(pattern.bearing_sd_rad[s, c])
            tilt = float(pattern.tilt[s]) if c == SOLID else 0.0
            part = waves[:, nodes[0] : nodes[-1] + 1, rows]
            mixed = np.einsum("n,fnrk->frk", roll, part) if len(nodes) > 1 else part[:, 0] * roll
            if tilt:
                lean = tilt * spread / sd
                turn = np.exp(1j * wave_no * (lean * step))
                phase = np.empty((len(w), HARMONICS), dtype=np.complex128)
                phase[0] = np.exp(1j * wave_no * (lean * (board.r_m[rows.start] - mean)))
                phase[1:] = turn
                np.cumprod(phase, axis=0, out=phase)
                summed = np.einsum("r,rk,frk->fk", w, phase, mixed)
            else:
                summed = np.einsum("r,frk->fk", w, mixed)
            kept = spread * spread * (1.0 - tilt * tilt)
            centre = float(pattern.bearing_rad[s, c])
            turned = np.exp(1j * wave_no * centre - 0.5 * wave_no**2 * kept)
            total += float(pattern.share[s, c]) * turned * summed
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


def _waves(fields: list[F64], board: Board, used: npt.NDArray[np.intp]) -> C128:
    """Return the fields as a landing ball sees them, by roll, in angular harmonics."""
    smooth = np.sinc(np.arange(HARMONICS) / ANGLES)
    rows = np.arange(ROWS)
    turned = [np.fft.rfft(f, axis=1)[:, :HARMONICS] / smooth for f in fields]
    out = np.empty((len(fields), len(used), ROWS, HARMONICS), dtype=np.complex128)
    columns = np.arange(ANGLES)
    for i, node in enumerate(used):
        on = np.minimum(rows + ROLL_NODES[node], ROWS - 1)
        if board.stop_row is None:
            for f, wave in enumerate(turned):
                out[f, i] = wave[on]
        else:
            end = np.minimum(on[:, None], board.stop_row)
            for f, values in enumerate(fields):
                out[f, i] = np.fft.rfft(values[end, columns], axis=1)[:, :HARMONICS] / smooth
    return out


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
    chance = {name: float(np.einsum("ra,ra->", mass, part)) for name, part in board.parts.items()}
    out = min(float(np.einsum("ra,ra->", mass, board.out)), _SURE_OUT)
    cost = float(np.einsum("ra,ra->", mass, board.strokes))
    left = float(np.einsum("ra,ra,ra->", mass, 1.0 - board.out, board.to_pin_m))
    over = np.ones(MOST)
    for k in range(1, MOST):
        again = over[k - 2] if k >= 2 else 1.0
        over[k] = float(np.einsum("ra,ra->", mass, board.over(k - 1))) + out * again
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
