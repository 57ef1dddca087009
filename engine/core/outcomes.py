"""What comes of a swing from here? Points of a pattern laid on a priced hole and summed."""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from engine.core.dots import Dots
from engine.core.fields import Fields
from engine.core.ribbon import Ribbon
from engine.core.strokes import LIES, RECOVERY_FREE

F32 = npt.NDArray[np.float32]
F64 = npt.NDArray[np.float64]
Index = npt.NDArray[np.integer[Any]]

RECOVERY = LIES.index("recovery")
SURE_OUT = 0.98
ROLL_PARTS = (0.75, 0.5, 0.25, 0.0)  # the last first: what holds a ball first has the say
BATCH = 512  # actions summed at a time: what they need stays in the fast memory


class Outcomes:
    """Sums over what may come of actions on one hole.

    In all methods M actions are told by flat arrays (M,): `c` the condition, `x`, `y` where
    the ball lies [m], `book` the set of points, `swing` the row in it, `start` the start
    line [rad].
    """

    def __init__(self, *, ribbon: Ribbon, fields: Fields) -> None:
        self._r, self._fields = ribbon, fields
        self._to_stop = ribbon.to_stop()

    def rest(
        self, dots: Dots, x: F64, y: F64, book: Index, swing: Index, start: F64
    ) -> tuple[Index, F32]:  # fmt: skip
        """Return the cell and the weight of each point of M actions, (M, q)."""
        per = 1.0 / self._r.cell_m
        turn_c = (np.cos(start) * per).astype(np.float32)[:, None]
        turn_s = (np.sin(start) * per).astype(np.float32)[:, None]
        row = dots.row(book, swing)
        rx, ry = dots.of(dots.rest_x_m, row), dots.of(dots.rest_y_m, row)
        du, dv = turn_c * rx - turn_s * ry, turn_s * rx + turn_c * ry
        u, v = (w.astype(np.float32)[:, None] for w in self._r.steps(x, y))
        cell = self._r.cell_at(u + du, v + dv)
        if self._r.stops is not None:
            self._hold(cell, u, v, du, dv, dots, row)
        return cell, dots.of(dots.weight, row)

    def _hold(
        self, cell: Index, u: F32, v: F32, du: F32, dv: F32, dots: Dots, row: Index
    ) -> None:  # fmt: skip
        """Let rolling balls stay in the first thing that holds them, in place.

        Looked at are where each lands and parts of its roll, where something is near.
        """
        stops = self._r.stops
        if stops is None:
            return
        live = np.flatnonzero(self._to_stop.take(cell) <= dots.of(dots.roll_cells, row))
        m, q = np.divmod(live, cell.shape[1])
        landed = dots.landed.ravel().take(row.take(m) * cell.shape[1] + q)
        u, v = u.ravel().take(m), v.ravel().take(m)
        du, dv, rest = du.ravel().take(live), dv.ravel().take(live), cell.ravel().take(live)
        for part in ROLL_PARTS:
            share = landed + part * (1.0 - landed)
            on_way = self._r.cell_at(u + share * du, v + share * dv)
            rest = np.where(stops.take(on_way), on_way, rest)
        cell.ravel()[live] = rest

    def price(
        self, dots: Dots, c: Index, x: F64, y: F64, book: Index, swing: Index, start: F64
    ) -> tuple[F64, F64]:  # fmt: skip
        """Return the mean cost of what stays in, and the chance of going out, of M actions."""
        cost, out = np.empty(len(c)), np.zeros(len(c))
        for lo in range(0, len(c), BATCH):
            of = slice(lo, lo + BATCH)
            cell, weight = self.rest(dots, x[of], y[of], book[of], swing[of], start[of])
            cost[of] = np.einsum("mq,mq->m", weight, self._fields.priced(c[of], cell))
            if self._fields.any_out:
                out[of] = np.einsum("mq,mq->m", weight, self._fields.out.take(cell))
        return cost, np.minimum(out, SURE_OUT, out=out)

    def judged(
        self, dots: Dots, c: Index, x: F64, y: F64, book: Index, swing: Index, start: F64, lie: int
    ) -> tuple[F64, F64]:  # fmt: skip
        """Return expected strokes (M,) and the chance of needing more than k (most, M)."""
        cell, weight = self.rest(dots, x, y, book, swing, start)
        cost = np.einsum("mq,mq->m", weight, self._fields.priced(c, cell)).astype(np.float64)
        out = np.einsum("mq,mq->m", weight, self._fields.out.take(cell)).astype(np.float64)
        np.minimum(out, SURE_OUT, out=out)
        return played(cost, out, lie), self.spend(c, cell, weight, lie, out)

    def spend(self, c: Index, cell: Index, weight: F32, lie: int, out: F64) -> F64:
        """Return the chance of needing more than k strokes, from where points rest, (most, M)."""
        most = self._fields.over.shape[0]
        after = np.einsum("mq,kmq->km", weight, self._fields.over[:, c[:, None], cell])
        over = np.ones((most, len(c)))
        free = RECOVERY_FREE if lie == RECOVERY else 1.0
        for k in range(1, most):
            again = over[k - 2] if k >= 2 else 1.0
            over[k] = free * (after[k - 1] + out * again) + (1.0 - free) * over[k - 1]
        return over


def played(cost: F64, out: F64, lie: int) -> F64:
    """Return expected strokes of an action that is tried again from the same spot when out."""
    free = RECOVERY_FREE if lie == RECOVERY else 1.0
    return np.asarray((1.0 + free * (cost + out)) / (free * (1.0 - out)), dtype=np.float64)
