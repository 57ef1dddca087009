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


class Outcomes:
    """Sums over what may come of actions on one hole.

    In all methods M actions are told by flat arrays (M,): `c` the condition, `x`, `y` where
    the ball lies [m], `book` the set of points, `swing` the row in it, `start` the start
    line [rad].
    """

    def __init__(self, *, ribbon: Ribbon, fields: Fields) -> None:
        self._r, self._fields = ribbon, fields

    def rest(
        self, dots: Dots, x: F64, y: F64, book: Index, swing: Index, start: F64,
        *, quick: bool = False,
    ) -> tuple[Index, F32]:  # fmt: skip
        """Return the cell and the weight of each point of M actions, (M, q)."""
        turn_c = np.cos(start).astype(np.float32)[:, None]
        turn_s = np.sin(start).astype(np.float32)[:, None]
        rx, ry = dots.rest_x_m[book, swing], dots.rest_y_m[book, swing]
        dx, dy = turn_c * rx - turn_s * ry, turn_s * rx + turn_c * ry
        x32, y32 = x.astype(np.float32)[:, None], y.astype(np.float32)[:, None]
        if self._r.stops is None:
            return self._r.cell_of(x32 + dx, y32 + dy), dots.weight[book, swing]
        cell = self.cells(x32, y32, dx, dy, dots.landed[book, swing], quick=quick)
        return cell, dots.weight[book, swing]

    def cells(
        self, x: F32, y: F32, dx: F32, dy: F32, landed: F32, *, quick: bool = False
    ) -> Index:  # fmt: skip
        """Return where balls rest: a rolling one stays in the first thing that holds it.

        Looked at are where it lands and, unless `quick`, half-way through its roll.
        """
        cell = self._r.cell_of(x + dx, y + dy)
        stops = self._r.stops
        if stops is None:
            return cell
        for share in (landed,) if quick else (0.5 * (1.0 + landed), landed):
            on_way = self._r.cell_of(x + share * dx, y + share * dy)
            cell = np.where(stops[on_way], on_way, cell)
        return cell

    def price(
        self, dots: Dots, c: Index, x: F64, y: F64, book: Index, swing: Index, start: F64,
        *, quick: bool = False,
    ) -> tuple[F64, F64]:  # fmt: skip
        """Return the mean cost of what stays in, and the chance of going out, of M actions."""
        cell, weight = self.rest(dots, x, y, book, swing, start, quick=quick)
        cost = np.einsum("mq,mq->m", weight, self._fields.cost[c[:, None], cell])
        if not self._fields.any_out:
            return cost.astype(np.float64), np.zeros(len(c))
        out = np.einsum("mq,mq->m", weight, self._fields.out[cell])
        return cost.astype(np.float64), np.minimum(out.astype(np.float64), SURE_OUT)

    def over(
        self, dots: Dots, c: Index, x: F64, y: F64, book: Index, swing: Index, start: F64,
        lie: int, out: F64,
    ) -> F64:  # fmt: skip
        """Return the chance of needing more than k strokes by M actions, (most, M)."""
        cell, weight = self.rest(dots, x, y, book, swing, start)
        return self.spend(c, cell, weight, lie, out)

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
