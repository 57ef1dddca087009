"""Which swing, started where, takes the fewest strokes from here?

Only swings that can still be the answer are priced at every aim (`engine.core.aims`): the
others are known not to get below a bound that costs next to nothing.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from engine.core.aims import SURE_OUT, Aims
from engine.core.board import Board, lay
from engine.core.finish import Block, finish_mass, roll_rows
from engine.core.pattern import SOLID, Pattern
from engine.core.scene import Scene
from engine.core.strokes import StrokeTable
from engine.errors import NoSolution

F32 = npt.NDArray[np.float32]
F64 = npt.NDArray[np.float64]
Swings = npt.NDArray[np.bool_]


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
    over : dict
        Chance of needing more than k strokes from here, for the k that were asked for. [-]
    """

    swing: int
    start_rad: float
    finish_m: tuple[float, float]
    strokes: float
    chance: dict[str, float]
    out: float
    left_m: float
    over: dict[int, float]


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


def option(
    *, board: Board, pattern: Pattern, share: F64, swing: int, aim_rad: float,
    tails: Sequence[int] = (),
) -> Option:  # fmt: skip
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
    tails : sequence of int
        Strokes whose chance of being too few is wanted.

    Returns
    -------
    Option
        Strokes, chances and finish.
    """
    block, ended = finish_mass(
        board=board, pattern=pattern, share=share[swing], swing=swing, aim_rad=aim_rad
    )
    chance = {
        name: float(np.einsum("ra,ra->", ended, part[block])) for name, part in board.parts.items()
    }
    out = min(float(np.einsum("ra,ra->", ended, board.out[block])), SURE_OUT)
    kept = ended * (1.0 - board.out[block])
    left = float(np.einsum("ra,ra->", kept, board.to_pin_m[block]))
    cost = float(np.einsum("ra,ra->", ended, board.strokes[block]))
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
        over={k: _over(board, block, ended, out, k) for k in tails},
    )


def _over(board: Board, block: Block, ended: F32, out: float, k: int) -> float:
    """Return the chance of needing more than `k` strokes, the one that ends here counted."""
    if k <= 0:
        return 1.0
    here = float(np.einsum("ra,ra->", ended, board.over(k - 1)[block]))
    return here + out * _over(board, block, ended, out, k - 2) if out else here


class Decider:
    """One shot, laid out once, asked as often as needed."""

    def __init__(
        self,
        *,
        scene: Scene,
        pattern: Pattern,
        table: StrokeTable,
        too_many: int | None = None,
        weight: float = 0.0,
    ) -> None:
        """Lay the shot out; `weight` strokes are added for needing over `too_many` from here."""
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
            dear = weight * (self.board.over(max(too_many - 1, 0)) + self.board.out)
            priced = replace(self.board, strokes=self.board.strokes + dear)
        self._aims = Aims(board=priced, pattern=pattern, share=self._rolls)
        self.at_least: F64 = self._aims.at_least()  # of every swing
        self._priced: dict[int, tuple[float, float, F64]] = {}

    def _price(self, swing: int) -> tuple[float, float, F64]:
        """Return the least strokes of a swing, the aim that takes them, and all aims'."""
        found = self._priced.get(swing)
        if found is None:
            strokes = self._aims.strokes(swing)
            aim = _lowest(self._aims.aim_rad, strokes)
            found = self._priced[swing] = float(strokes.min()), aim, strokes
        return found

    @property
    def strokes(self) -> F64:
        """Expected strokes of every swing at its best aim, (n,)."""
        return np.array([self._price(s)[0] for s in range(len(self._pattern))])

    def from_near(self, x_m: float, y_m: float, within_m: float) -> float | None:
        """Return the mean strokes from spots round one, which a ball out of bounds plays again.

        Parameters
        ----------
        x_m, y_m : float
            The middle of the spots, ahead and to the right of the ball. [m]
        within_m : float
            How far from it they lie. [m]

        Returns
        -------
        float or None
            Expected strokes to hole out; None where the priced ground does not go that far.
        """
        r, a = self.board.r_m[:, None], self._flip * self.board.a_rad
        apart = np.hypot(r * np.cos(a) - x_m, r * np.sin(a) - y_m)
        area = np.where(apart <= within_m, r, 0.0)  # of a cell
        if not area.any():
            return None
        share = area / area.sum()
        out = float(np.einsum("ra,ra->", share, self.board.out))
        again = 1.0 + float(self.strokes.min()) if out else 0.0
        return float(np.einsum("ra,ra->", share, self.board.strokes)) + out * again

    @property
    def start_rad(self) -> F64:
        """Best start line of every swing, right positive, (n,). [rad]"""
        return np.array([self._flip * self._price(s)[1] for s in range(len(self._pattern))])

    @property
    def surface(self) -> Surface:
        """Expected strokes of every swing at every aim."""
        every = np.array([self._price(s)[2] for s in range(len(self._pattern))])
        if self._flip > 0.0:
            return Surface(self._aims.aim_rad, every)
        return Surface(-self._aims.aim_rad[::-1], every[:, ::-1])

    def within(self, most: float, *, added: F64) -> list[tuple[float, int]]:
        """Return the swings that take at most so many strokes, `added` (n,) counted, in order."""
        likely = np.flatnonzero(self.at_least + added <= most)
        scores = ((self._price(int(s))[0] + float(added[s]), int(s)) for s in likely)
        return sorted(one for one in scores if one[0] <= most)

    def best(self, *, added: F64, among: Swings | None = None) -> tuple[float, int]:
        """Return the fewest strokes and the swing that takes them, the first of equals.

        Parameters
        ----------
        added : ndarray (n,)
            Strokes to add to each swing's own. [-]
        among : ndarray of bool (n,), optional
            Which swings count, at least one; all if left out.

        Returns
        -------
        tuple of (float, int)
            Strokes with what was added, and the swing.
        """
        floor = self.at_least + added
        rows = np.arange(len(floor)) if among is None else np.flatnonzero(among)
        found = math.inf, 0
        for s in (int(rows[i]) for i in np.argsort(floor[rows], kind="stable")):
            if floor[s] > found[0]:
                break
            found = min(found, (self._price(s)[0] + float(added[s]), s))
        return found

    def option(
        self, swing: int, *, aim_rad: float | None = None, tails: Sequence[int] = ()
    ) -> Option:
        """Return one swing in full, at its best aim or at one that is asked for. [rad]"""
        aim = self._price(swing)[1] if aim_rad is None else self._flip * aim_rad
        found = option(
            board=self.board, pattern=self._pattern, share=self._rolls, swing=swing, aim_rad=aim,
            tails=tails,
        )  # fmt: skip
        if self._flip > 0.0:
            return found
        x, y = found.finish_m
        return replace(found, start_rad=-found.start_rad, finish_m=(x, -y))

    def leading(self, count: int) -> tuple[Option, ...]:
        """Return the best swings in full, fewest strokes first."""
        added, among = np.zeros(len(self._pattern)), np.ones(len(self._pattern), dtype=bool)
        found: list[Option] = []
        while len(found) < count and among.any():
            _, swing = self.best(added=added, among=among)
            among[swing] = False
            found.append(self.option(swing))
        return tuple(sorted(found, key=lambda o: o.strokes))


def _lowest(aim_rad: F64, strokes: F64) -> float:
    """Return the best aim, between the grid's aims by a parabola."""
    at = min(max(int(np.argmin(strokes)), 1), len(strokes) - 2)
    a, b, c = (float(v) for v in strokes[at - 1 : at + 2])
    bend = a - 2.0 * b + c
    shift = 0.5 * (a - c) / bend if bend > 1e-12 else 0.0
    step = float(aim_rad[1] - aim_rad[0])
    return float(aim_rad[at]) + step * min(max(shift, -1.0), 1.0)
