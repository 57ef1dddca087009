"""How is this hole played in the fewest strokes? Dynamic programming from the green back.

The state is where the ball lies (a node of a net along the line of the hole) and what it
lies on. From the green backwards, every node's best swing and aim is found on the values
of the ground ahead, and the ground behind it is then priced from that node. Near the pin
the player's strokes table takes over. Several conditions are solved side by side.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from engine.core.dots import stacked, touch_dots
from engine.core.fields import Fields, Node
from engine.core.golfer import ShortGame
from engine.core.line import Line
from engine.core.outcomes import RECOVERY, SURE_OUT, Outcomes, played
from engine.core.pattern import SOLID
from engine.core.playbook import Page
from engine.core.ribbon import Ribbon
from engine.core.strokes import (
    LIES,
    SIDEWAYS_OUT,
    StrokeTable,
)
from engine.core.touch import TOUCH_MOST_M

F64 = npt.NDArray[np.float64]
Index = npt.NDArray[np.integer[Any]]

TEE, FAIRWAY, ROUGH, SAND = range(4)  # in the order of `LIES`
NEAREST_M = 30.0  # the first row of nodes stands this far short of the pin
ROW_M = 22.0
OFFS_M = np.array([-54.0, -34.0, -20.0, -10.0, 0.0, 10.0, 20.0, 34.0, 54.0])
SIDEWAYS_M = 10.0  # a ball knocked out sideways ends this far off the line
CLOSER = 4  # so many swings and aims of each node get a closer look
SKIP = 0.01  # a lie rarer than this round a node is not solved there
AIMS_M = np.array([-20.0, -12.0, -6.0, 0.0, 6.0, 12.0, 20.0])
_HALF_AIMS_M = np.array([2.0, 4.0, 6.5, 9.0, 12.0, 16.0, 20.0, 26.0, 32.0])
FIRST_AIMS, MORE_AIMS = np.array([1, 3, 5]), np.array([0, 2, 4, 6])  # of every swing; of the best
TEE_AIMS_M = np.concatenate([-_HALF_AIMS_M[::-1], [0.0], _HALF_AIMS_M])
NEAREST = 6  # swings looked at whose reach is nearest the pin
LEAVES_M = (65.0, 110.0)  # and those that leave this much
AT_GREEN = 0.12  # a swing whose reach is this close to the distance is sent at the green
SHORT_SHARE = 0.35  # a swing shorter than this share of the need is not looked at
PAST_M = 45.0  # and one that ends this far past the pin neither
FAR_M = 1e4  # puts a swing the lie rules out behind every other
TOUCH, SIDEWAYS = -1, -2  # in place of a swing's number


@dataclass(frozen=True, slots=True, eq=False)
class Option:
    """One swing from one spot at its best line, in one condition.

    Attributes
    ----------
    swing : int
        Row of the book.
    aside_m : float
        How far right of its plain target a solid one is meant to end: of the pin where it
        reaches, of the line of the hole elsewhere. [m]
    start_rad : float
        Start line against the first leg, right positive. [rad]
    finish_m : (float, float)
        Where a solid one ends on average, from the tee. [m]
    strokes : float
        Expected strokes from here. [-]
    """

    swing: int
    aside_m: float
    start_rad: float
    finish_m: tuple[float, float]
    strokes: float


@dataclass(frozen=True, slots=True, eq=False)
class Odds:
    """What may come of a swing from the tee.

    Attributes
    ----------
    over : ndarray (most,)
        Chance of needing more than k strokes for the hole, k the index. [-]
    chance : dict
        Chance of ending in each named trouble, by name. [-]
    """

    over: F64
    chance: dict[str, float]


class HoleSolver:
    """One hole for one player; see the module's docstring."""

    def __init__(
        self,
        *,
        ribbon: Ribbon,
        line: Line,
        pages: tuple[tuple[Page, Page], ...],
        short: ShortGame,
        table: StrokeTable,
        most: int,
    ) -> None:
        self._r, self._line, self._short = ribbon, line, short
        self.fields = Fields(ribbon=ribbon, table=table, conditions=len(pages), most=most)
        flat = [p for pair in pages for p in pair]
        self._distinct = list(dict.fromkeys(flat))
        self._page = np.array(
            [[self._distinct.index(p) for p in pair] for pair in pages], dtype=np.intp
        )
        lies = range(len(LIES))
        self._coarse = stacked([dots for p in self._distinct for dots in p.coarse])
        self._judge = stacked([dots for p in self._distinct for dots in p.judge])
        self._fine = stacked([dots for p in self._distinct for dots in p.fine])
        self._out = Outcomes(ribbon=ribbon, fields=self.fields)
        self._total = np.array([p.total_m(lie) for p in self._distinct for lie in lies])
        self._allowed = np.array([p.allowed[lie] for p in self._distinct for lie in lies])
        self._bearing = np.array(
            [p.patterns[lie].bearing_rad[:, SOLID] for p in self._distinct for lie in lies]
        )
        self._conditions = len(pages)

    def solve(self, *, from_m: float) -> None:
        """Price the hole; nodes stand from the green back to `from_m` along the line."""
        last = self._line.length_m - NEAREST_M
        rows = np.arange(last, min(from_m, last) - 1e-6, -ROW_M)
        for i, along in enumerate(rows):
            self._row(float(along))
            self.fields.spread(rows[: i + 1], OFFS_M)
        if rows.size:
            self.fields.carry_back(float(rows[-1]), OFFS_M)

    def decide(
        self, *, condition: int, x_m: F64, y_m: F64, along_m: F64, lie: int
    ) -> tuple[Index, F64]:
        """Return the swing and start line the plan takes from each of S spots.

        Parameters
        ----------
        condition : int
            Which pair of pages.
        x_m, y_m, along_m : ndarray (S,)
            Where the balls lie, from the tee and along the line. [m]
        lie : int
            What they lie on, in the order of `LIES`.

        Returns
        -------
        tuple of ndarray (S,)
            Row of the book, TOUCH for a touch shot, or SIDEWAYS; and the start line. [-, rad]
        """
        found = self._best(np.full(len(x_m), condition), x_m, y_m, along_m, lie)
        if lie == RECOVERY:
            side = np.sign(self._r.off_m[self._r.cell_of(x_m, y_m)])
            out = self._r.cell_of(*self._line.place(along_m, side * SIDEWAYS_M))
            back = self.fields.fairway[condition, out]
            found.swing[(1.0 + SIDEWAYS_OUT * back) / SIDEWAYS_OUT < found.strokes] = SIDEWAYS
        return found.swing, found.start

    def _row(self, along_m: float) -> None:
        """Solve one row of nodes and hand its values to the fields."""
        x, y = self._line.place(np.full(len(OFFS_M), along_m), OFFS_M)
        at = self._r.cell_of(x, y)
        node = self.fields.new_row(at)
        for lie in (FAIRWAY, ROUGH, SAND, RECOVERY):
            offs = np.flatnonzero(self.fields.around(at, lie) > SKIP)
            if not offs.size:
                continue
            c, o = (v.ravel() for v in np.meshgrid(np.arange(self._conditions), offs,
                                                   indexing="ij"))  # fmt: skip
            found = self._best(c, x[o], y[o], np.full(len(o), along_m), lie)
            if lie == RECOVERY:
                self._sideways(found, c, o, node)
            node.put(lie, c, o, found.strokes, found.over)

    def _best(self, c: Index, x: F64, y: F64, along_m: F64, lie: int) -> _Found:
        """Return the best swing and aim from each of S states."""
        leg = (along_m >= self._line.turn_at_m).astype(np.intp)
        book = self._page[c, leg] * len(LIES) + lie
        to_pin = np.hypot(x - self._line.pin_m[0], y - self._line.pin_m[1])
        picks = self._picks(book, to_pin)  # (S, K)
        base = self._towards(x, y, along_m, self._total[book[:, None], picks], to_pin)
        total = np.maximum(self._total[book[:, None], picks], 1.0)
        start = (
            base[..., None]
            + np.arctan(AIMS_M / total[..., None])
            - self._bearing[book[:, None], picks][..., None]
        )  # (S, K, A)
        states = len(c)
        each = np.full(start.shape, np.inf)
        worth = self._worth(picks, total, to_pin)
        for aims in (FIRST_AIMS, MORE_AIMS):
            s, pick = np.nonzero(worth)
            aim = np.tile(aims, len(s))
            s, pick = np.repeat(s, len(aims)), np.repeat(pick, len(aims))
            cost, out = self._out.price(
                self._coarse, c[s], x[s], y[s], book[s], picks[s, pick], start[s, pick, aim]
            )
            each[s, pick, aim] = played(cost, out, lie)
            least = each.min(axis=2)
            worth &= least <= np.partition(least, CLOSER, axis=1)[:, CLOSER : CLOSER + 1]
        best = np.argpartition(each.reshape(states, -1), CLOSER, axis=1)[:, :CLOSER]
        s = np.repeat(np.arange(states), CLOSER)
        pick, aim = np.divmod(best.ravel(), len(AIMS_M))
        k = picks[s, pick]
        first = start[s, pick, aim]
        cost, out = self._out.price(self._fine, c[s], x[s], y[s], book[s], k, first)
        close = played(cost, out, lie).reshape(states, CLOSER)
        which = np.argmin(close, axis=1)
        row = np.arange(states) * CLOSER + which
        # The least of noisy values is too low: what was chosen is priced anew on other points.
        strokes, over = self._out.judged(self._judge, c, x, y, book, k[row], first[row], lie)
        found = _Found(strokes=strokes, swing=k[row], start=first[row], over=over)
        near = np.flatnonzero(to_pin <= TOUCH_MOST_M)
        if near.size:
            self._touch(found, near, c, x, y, to_pin, lie)
        return found

    def _picks(self, book: Index, to_pin: F64) -> Index:
        """Return the swings worth a look from each state: at the pin, far, or to lay up."""
        total = np.where(self._allowed[book], self._total[book], -FAR_M)
        order = np.argsort(np.abs(total - to_pin[:, None]), axis=1, kind="stable")
        longest = np.argmax(total, axis=1)[:, None]
        lay = [
            np.argmin(np.abs(total - (to_pin[:, None] - leave)), axis=1)[:, None]
            for leave in LEAVES_M
        ]
        return np.concatenate([order[:, :NEAREST], longest, *lay], axis=1)

    def _worth(self, picks: Index, total: F64, to_pin: F64) -> npt.NDArray[np.bool_]:
        """Say which picks are looked at: each swing once, and none far past the pin."""
        near = total <= np.maximum(to_pin + PAST_M, total.min(axis=1))[:, None]
        fresh = np.ones(picks.shape, dtype=bool)
        for k in range(1, picks.shape[1]):
            fresh[:, k] = (picks[:, :k] != picks[:, k : k + 1]).all(axis=1)
        return np.asarray(near & fresh)

    def _towards(self, x: F64, y: F64, along_m: F64, total: F64, to_pin: F64) -> F64:
        """Return the bearing of each swing's plain target: the pin, or a place on the line."""
        pin_x, pin_y = self._line.pin_m
        at_pin = np.arctan2(pin_y - y, pin_x - x)[:, None]
        ahead = self._line.ahead(x, y, along_m, total)
        close = np.abs(total - to_pin[:, None]) <= np.maximum(AT_GREEN * to_pin, 15.0)[:, None]
        return np.where(close | (total > to_pin[:, None]), at_pin, ahead)

    def _touch(
        self, found: _Found, near: Index, c: Index, x: F64, y: F64, to_pin: F64, lie: int
    ) -> None:
        """Let a touch shot win where it is better."""
        dots = touch_dots(short=self._short, lie=LIES[lie], distance_m=to_pin[near])
        pin_x, pin_y = self._line.pin_m
        base = np.arctan2(pin_y - y[near], pin_x - x[near])
        best = np.full(near.size, np.inf)
        for aside in (-6.0, -3.0, 0.0, 3.0, 6.0):
            start = base + np.arctan(aside / to_pin[near])
            turn_c = np.cos(start).astype(np.float32)[:, None]
            turn_s = np.sin(start).astype(np.float32)[:, None]
            dx = turn_c * dots.rest_x_m - turn_s * dots.rest_y_m
            dy = turn_s * dots.rest_x_m + turn_c * dots.rest_y_m
            cell = self._r.cell_of(
                x[near].astype(np.float32)[:, None] + dx, y[near].astype(np.float32)[:, None] + dy
            )
            cost = np.einsum("mq,mq->m", dots.weight, self.fields.cost[c[near][:, None], cell])
            out = np.minimum(np.einsum("mq,mq->m", dots.weight, self.fields.out[cell]), SURE_OUT)
            each = (1.0 + cost + out) / (1.0 - out)
            better = np.flatnonzero((each < best) & (each < found.strokes[near]))
            best = np.minimum(best, each)
            if better.size:
                to = near[better]
                found.strokes[to] = each[better]
                found.swing[to], found.start[to] = TOUCH, start[better]
                found.over[:, to] = self._out.spend(
                    c[to], cell[better], dots.weight[better], FAIRWAY, out[better].astype(float)
                )

    def _sideways(self, found: _Found, c: Index, o: Index, node: Node) -> None:
        """Let a ball in trees be knocked out sideways where that is better."""
        back = self.fields.fairway_beside(node, c, OFFS_M[o])
        each = (1.0 + SIDEWAYS_OUT * back.strokes) / SIDEWAYS_OUT
        to = np.flatnonzero(each < found.strokes)
        found.strokes[to] = each[to]
        found.swing[to] = SIDEWAYS
        for k in range(1, found.over.shape[0]):
            found.over[k, to] = (
                SIDEWAYS_OUT * back.over[k - 1, to] + (1.0 - SIDEWAYS_OUT) * found.over[k - 1, to]
            )

    def options(
        self, *, condition: int, x_m: float, y_m: float, along_m: float, lie: int,
        aims_m: F64 = TEE_AIMS_M,
    ) -> tuple[Option, ...]:  # fmt: skip
        """Return every swing from one spot at its best aim, fewest strokes first.

        Parameters
        ----------
        condition : int
            Which pair of pages.
        x_m, y_m : float
            Where the ball lies, from the tee. [m]
        along_m : float
            How far along the line that is. [m]
        lie : int
            What it lies on, in the order of `LIES`.
        aims_m : ndarray (a,)
            Aims to choose from, right of the plain target. [m]

        Returns
        -------
        tuple of Option
            One a swing.
        """
        leg = 1 if along_m >= self._line.turn_at_m else 0
        book = int(self._page[condition, leg]) * len(LIES) + lie
        to_pin = math.hypot(self._line.pin_m[0] - x_m, self._line.pin_m[1] - y_m)
        total = np.maximum(self._total[book], 1.0)
        worth = total >= SHORT_SHARE * min(float(total.max()), to_pin)
        rows = np.flatnonzero(self._allowed[book] & worth)
        many, aims = len(rows), len(aims_m)
        x, y = np.array([x_m]), np.array([y_m])
        base = self._towards(x, y, np.array([along_m]), total[None, rows], np.array([to_pin]))[0]
        start = base[:, None] + np.arctan(aims_m / total[rows, None])
        start -= self._bearing[book, rows][:, None]
        cost, out = self._out.price(
            self._fine, np.full(many * aims, condition), np.full(many * aims, x_m),
            np.full(many * aims, y_m), np.full(many * aims, book), np.repeat(rows, aims),
            start.ravel(),
        )  # fmt: skip
        each = played(cost, out, lie).reshape(many, aims)
        best = np.argmin(each, axis=1)
        one, here = np.ones(many, dtype=np.intp), np.ones(many)
        strokes, _ = self._out.judged(
            self._judge, condition * one, x_m * here, y_m * here, book * one, rows,
            start[np.arange(many), best], lie,
        )  # fmt: skip
        order = np.argsort(strokes, kind="stable")
        return tuple(
            Option(
                swing=int(rows[k]), aside_m=float(aims_m[best[k]]),
                start_rad=float(start[k, best[k]]),
                finish_m=self._finish(x_m, y_m, book, int(rows[k]), float(start[k, best[k]])),
                strokes=float(strokes[k]),
            )
            for k in order
        )  # fmt: skip

    def tee(self, condition: int) -> tuple[Option, ...]:
        """Return every swing from the tee at its best line, fewest strokes first."""
        return self.options(condition=condition, x_m=0.0, y_m=0.0, along_m=0.0, lie=TEE)

    def odds(self, *, condition: int, option: Option) -> Odds:
        """Return what may come of one swing from the tee."""
        book = np.array([self._page[condition, 0] * len(LIES) + TEE])
        c, k = np.array([condition]), np.array([option.swing])
        zero, start = np.zeros(1), np.array([option.start_rad])
        cell, weight = self._out.rest(self._judge, zero, zero, book, k, start)
        out = np.minimum(np.einsum("mq,mq->m", weight, self.fields.out[cell]), SURE_OUT)
        over = self._out.spend(c, cell, weight, TEE, out.astype(np.float64))[:, 0]
        chance = {
            name: float(np.dot(weight[0], part[cell[0]])) for name, part in self._r.named.items()
        }
        return Odds(over=over, chance=chance)

    def _finish(
        self, x: float, y: float, book: int, swing: int, start: float
    ) -> tuple[float, float]:
        """Return where a solid one ends on average."""
        bearing = start + float(self._bearing[book, swing])
        total = float(self._total[book, swing])
        return x + total * math.cos(bearing), y + total * math.sin(bearing)


@dataclass(slots=True, eq=False)
class _Found:
    """The best of S states: strokes (S,), swing (S,), start (S,), over (most, S)."""

    strokes: F64
    swing: Index
    start: F64
    over: F64
