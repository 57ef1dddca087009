"""What does each spot of this hole cost? Prices that sharpen as nodes behind are solved.

At first every spot is priced as on an ordinary hole, from the player's strokes table. Each
solved row of nodes then says how much better or worse this hole is there than an ordinary
one, and that difference is spread over the ground up to the row before.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from engine.core.ribbon import GREEN, LOST, Ribbon
from engine.core.strokes import DISTANCE_M, LIES, StrokeTable

F32 = npt.NDArray[np.float32]
F64 = npt.NDArray[np.float64]
Index = npt.NDArray[np.integer[Any]]

TABLE_M = 30.0  # nearer the pin than this the strokes table has the say
FAIRWAY, ROUGH = LIES.index("fairway"), LIES.index("rough")
_AROUND = 1  # cells looked at to either side for a lie


@dataclass(frozen=True, slots=True, eq=False)
class Beside:
    """Values of the fairway beside S spots: strokes (S,), over (most, S)."""

    strokes: F64
    over: F64


@dataclass(frozen=True, slots=True, eq=False)
class Node:
    """Solved values of one row of nodes, less the table's: (C, 5, offs), (most, C, 5, offs)."""

    at: Index
    usual: F64
    usual_over: F64
    extra: F64
    extra_over: F64

    def put(self, lie: int, c: Index, o: Index, strokes: F64, over: F64) -> None:
        """Take the values of nodes `o` in conditions `c`."""
        self.extra[c, lie, o] = strokes - self.usual[lie, o]
        self.extra_over[:, c, lie, o] = over - self.usual_over[:, lie, o]


class Fields:
    """Prices of a hole in C conditions.

    Attributes
    ----------
    cost : ndarray (C, N)
        Expected strokes from each cell; what is out of bounds is left out. [-]
    fairway : ndarray (C, N)
        Expected strokes from each cell were it fairway. [-]
    out : ndarray (N,)
        Chance of out of bounds. [-]
    over : ndarray (most, C, N)
        Chance of needing more than k strokes; what is out of bounds is left out. [-]
    """

    def __init__(self, *, ribbon: Ribbon, table: StrokeTable, conditions: int, most: int) -> None:
        self._r = ribbon
        self._conditions, self._most = conditions, most
        to_go = np.maximum(ribbon.to_pin_m, ribbon.length_m - ribbon.along_m)
        hi = np.clip(np.searchsorted(DISTANCE_M, to_go), 1, len(DISTANCE_M) - 1)
        t = np.clip((to_go - DISTANCE_M[hi - 1]) / (DISTANCE_M[hi] - DISTANCE_M[hi - 1]), 0, 1)
        rows = table.strokes[: len(LIES)]
        self._usual = rows[:, hi - 1] * (1.0 - t) + rows[:, hi] * t
        more = table.over[:most, : len(LIES)]
        self._usual_over = more[..., hi - 1] * (1.0 - t) + more[..., hi] * t
        self._putts = table.putts_at(distance_m=ribbon.to_pin_m)
        self._putts_over = np.stack(
            [np.interp(ribbon.to_pin_m, table.putt_distance_m, row) for row in
             table.putts_over[:most]]
        )  # fmt: skip
        cells = ribbon.x_m.size
        self.out: F32 = ribbon.out.astype(np.float32)
        self.any_out = bool(ribbon.out.any())
        self.cost: F32 = np.empty((conditions, cells), dtype=np.float32)
        self.over: F32 = np.empty((most, conditions, cells), dtype=np.float32)
        self.fairway: F32 = np.empty((conditions, cells), dtype=np.float32)
        self._rough = np.empty((conditions, cells))
        self._rough_over = np.empty((most, conditions, cells))
        self._dry = np.empty((conditions, cells))
        self._dry_over = np.empty((most, conditions, cells))
        self._wet = np.flatnonzero(ribbon.penalty > 0.0)
        self._nodes: list[Node] = []
        open_ground = (ribbon.to_pin_m >= TABLE_M) & (ribbon.along_m <= ribbon.length_m)
        behind = np.flatnonzero(open_ground)
        self._sorted = behind[np.argsort(-ribbon.along_m[behind], kind="stable")]
        self._sorted_along = -ribbon.along_m[self._sorted]
        everywhere = np.arange(cells)
        nothing = np.zeros((1, len(LIES), 1))  # the same in every condition
        self._fill(everywhere, nothing, np.zeros((most, *nothing.shape)))
        self._wade()

    def priced(self, c: Index, cell: Index) -> F32:
        """Return the cost of cells (m, q) in conditions (m,)."""
        at = cell + (c * self.cost.shape[1])[:, None].astype(np.int32)
        return np.asarray(self.cost.ravel().take(at))

    def around(self, at: Index, lie: int) -> F64:
        """Return the largest chance of a lie in the cells about each node."""
        cols, share = self._r.cols, self._r.share[lie]
        near = [
            share[np.clip(at + i * cols + j, 0, share.size - 1)]
            for i in (-_AROUND, 0, _AROUND)
            for j in (-_AROUND, 0, _AROUND)
        ]
        return np.asarray(np.max(near, axis=0), dtype=np.float64)

    def new_row(self, at: Index) -> Node:
        """Return an empty row of nodes at these cells, the next one behind the last."""
        shape = (self._conditions, len(LIES), len(at))
        node = Node(
            at=at,
            usual=self._usual[:, at],
            usual_over=self._usual_over[..., at],
            extra=np.full(shape, np.nan),
            extra_over=np.full((self._most, *shape), np.nan),
        )
        self._nodes.append(node)
        return node

    def fairway_beside(self, node: Node, c: Index, off_m: F64) -> Beside:
        """Return what the fairway beside each spot costs, on the row being solved."""
        middle = node.extra.shape[2] // 2
        j = middle + np.sign(off_m).astype(np.intp)
        extra, over = node.extra[c, FAIRWAY, j], node.extra_over[:, c, FAIRWAY, j]
        return Beside(
            node.usual[FAIRWAY, j] + np.nan_to_num(extra),
            node.usual_over[:, FAIRWAY, j] + np.nan_to_num(over),
        )

    def spread(self, rows_m: F64, offs_m: F64) -> None:
        """Price the ground between the last two rows of nodes."""
        node = self._nodes[-1]
        _complete(node)
        last = len(rows_m) - 1
        near = -np.inf if last == 0 else -rows_m[last - 1]
        lo, hi = np.searchsorted(self._sorted_along, [near, -rows_m[last]])
        cells = self._sorted[lo:hi]
        if not cells.size:
            return
        before = self._nodes[-2] if last else node
        gap = rows_m[last - 1] - rows_m[last] if last else 1.0
        t = np.clip((self._r.along_m[cells] - rows_m[last]) / gap, 0.0, 1.0)
        j, u = self._across(cells, offs_m)

        def between(now: F64, then: F64) -> F64:
            here = now[..., j - 1] * (1.0 - u) + now[..., j] * u
            there = then[..., j - 1] * (1.0 - u) + then[..., j] * u
            return np.asarray(here * (1.0 - t) + there * t)

        self._fill(
            cells,
            between(node.extra, before.extra),
            between(node.extra_over, before.extra_over),
        )
        self._wade()

    def carry_back(self, row_m: float, offs_m: F64) -> None:
        """Price the ground behind the last row of nodes as that row differs from the table."""
        node = self._nodes[-1]
        lo = int(np.searchsorted(self._sorted_along, -row_m))
        cells = self._sorted[lo:]
        if not cells.size:
            return
        j, u = self._across(cells, offs_m)
        self._fill(
            cells,
            node.extra[..., j - 1] * (1.0 - u) + node.extra[..., j] * u,
            node.extra_over[..., j - 1] * (1.0 - u) + node.extra_over[..., j] * u,
        )
        self._wade()

    def _across(self, cells: Index, offs_m: F64) -> tuple[Index, F64]:
        """Return between which two nodes of a row cells lie, and how far past the first."""
        off = self._r.off_m[cells]
        j = np.clip(np.searchsorted(offs_m, off), 1, len(offs_m) - 1)
        return j, np.clip((off - offs_m[j - 1]) / (offs_m[j] - offs_m[j - 1]), 0.0, 1.0)

    def _fill(self, cells: Index, extra: F64, extra_over: F64) -> None:
        """Price cells: `extra` is (C, 5, cells), `extra_over` (most, C, 5, cells)."""
        share = self._r.share[:, cells]
        lies = slice(1, len(LIES))
        value = self._usual[None, :, cells] + extra
        self.fairway[:, cells] = value[:, FAIRWAY]
        self._rough[:, cells] = value[:, ROUGH]
        self._dry[:, cells] = (
            share[GREEN] * self._putts[cells]
            + np.einsum("ln,cln->cn", share[lies], value[:, lies])
            + share[LOST] * (1.0 + value[:, ROUGH])
        )
        self.cost[:, cells] = self._dry[:, cells]
        over = np.clip(self._usual_over[:, None][..., cells] + extra_over, 0.0, 1.0)
        self._rough_over[..., cells] = over[:, :, ROUGH]
        self._dry_over[..., cells] = (
            share[GREEN] * self._putts_over[:, None, cells]
            + np.einsum("ln,kcln->kcn", share[lies], over[:, :, lies])
            + share[LOST] * _one_more(over[:, :, ROUGH])
        )
        self.over[..., cells] = self._dry_over[..., cells]

    def _wade(self) -> None:
        """Price what lies in penalty areas anew: a stroke, and on from where it is dropped."""
        wet = self._wet
        if not wet.size:
            return
        chance, drop = self._r.penalty[wet], self._r.drop[wet]
        self.cost[:, wet] = self._dry[:, wet] + chance * (1.0 + self._rough[:, drop])
        self.over[..., wet] = self._dry_over[..., wet] + chance * _one_more(
            self._rough_over[..., drop]
        )


def _one_more(over: F64) -> F64:
    """Return the chances of needing more than k with one stroke to be added."""
    return np.concatenate([np.ones_like(over[:1]), over[:-1]])


def _complete(node: Node) -> None:
    """Give lies that were too rare to solve the difference of one that was solved."""
    for values in (node.extra[None], node.extra_over):
        known = ~np.isnan(values)
        count = known[..., 1:, :].sum(axis=-2)
        mean = np.where(known, values, 0.0)[..., 1:, :].sum(axis=-2) / np.maximum(count, 1)
        filled = np.where(known, values, mean[..., None, :])
        values[...] = filled
