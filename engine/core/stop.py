"""Where on the grid round the ball is a rolling ball held?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from engine.core.scene import HALF_COVER
from engine.core.shapes import Band, Field, Shape, Strip

ROWS = 144  # of the grid
ROLLS_MOST = 100  # rows, more than any roll
SOME_COVER = 0.02


@dataclass(frozen=True, slots=True, eq=False)
class Stop:
    """Where a rolling ball is held.

    Attributes
    ----------
    first : ndarray (R, A) of int
        First row at or past this one that stops a ball; past the grid if none does.
    hold : ndarray (R, A) of int
        Row where it then lies.
    """

    first: npt.NDArray[np.intp]
    hold: npt.NDArray[np.intp]

    def end(self, roll: int, rows: slice, columns: slice) -> npt.NDArray[np.intp]:
        """Return the row where a ball that lands in a cell and rolls so many rows ends."""
        row = np.arange(ROWS)[rows, None]
        on = np.clip(row + roll, 0, ROWS - 1)
        met = self.first[rows, columns] <= row + max(roll, 0)
        return np.asarray(np.where(met, self.hold[rows, columns], on))

    def on(self, rows: slice, columns: slice, roll: int) -> Stopped | None:
        """Return what stops balls that land on a block and roll so far, None if nothing does."""
        gap = self.first[rows, columns] - np.arange(ROWS)[rows, None]
        met = around(np.any(gap <= max(roll, 0), axis=0))
        if met is None:
            return None
        return Stopped(met, gap[:, met], self.hold[rows, columns][:, met])


class Stopped(NamedTuple):
    """Columns of a block that stop balls; by cell the rows rolled until then and the row held."""

    columns: slice
    gap: npt.NDArray[np.intp]
    hold: npt.NDArray[np.intp]


def around(wanted: npt.NDArray[np.bool_]) -> slice | None:
    """Return the slice from the first wanted to the last; None if there is none."""
    found = np.flatnonzero(wanted)
    return slice(int(found[0]), int(found[-1]) + 1) if len(found) else None


def holds(shape: Shape) -> bool:
    """Whether a ball may roll across a shape and out again, so that it matters where it stops.

    One that rolls over the edge of ground without an end on its side stays in it anyway.
    """
    if isinstance(shape, Strip):
        return not shape.guess_m and math.isfinite(min(shape.wide_m, shape.to_m))
    return not (isinstance(shape, Band) and bool(shape.guess_m))


def stop_of(held: Field) -> Stop | None:
    """Return what stops rolling balls, from the cover of all trouble that does."""
    inside = held > HALF_COVER
    # Of balls that land across a far edge, those still in it stay: hold the whole cell.
    inside[1:] |= (held[1:] > SOME_COVER) & (held[:-1] > held[1:])
    if not inside.any():
        return None
    first = np.where(inside, np.arange(ROWS)[:, None], ROWS + ROLLS_MOST)
    first = np.minimum.accumulate(first[::-1], axis=0)[::-1]
    # A ball that gets in is held where the cover is fuller: at the edge cell or the next.
    fuller = np.zeros_like(inside)
    fuller[:-1] = held[1:] > held[:-1]
    hold = np.arange(ROWS)[:, None] + fuller
    kept = np.take_along_axis(hold, np.minimum(first, ROWS - 1), axis=0)
    return Stop(first=first, hold=kept)
