"""Where along a hole is this, and what lies ahead? The line of play with one bend."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from engine.core.shapes import Bend

F64 = npt.NDArray[np.float64]

STEP_M = 3.0
_TURN_EARLY_M = 25.0  # a ball this far short of the bend is already played along the second leg


class Line:
    """The line of a hole from its tee at the origin to its pin.

    Parameters
    ----------
    pin_m : (float, float)
        The pin, x along the first leg and y right of it. [m]
    bend : Bend
        Where the line turns.
    """

    def __init__(self, *, pin_m: tuple[float, float], bend: Bend) -> None:
        self.pin_m = pin_m
        bent = math.isfinite(bend.at_m) and bool(bend.turn_rad)
        self.turn_rad = bend.turn_rad if bent else 0.0
        self._corner = (bend.at_m, 0.0) if bent else pin_m
        first = math.hypot(*self._corner)
        second = math.hypot(pin_m[0] - self._corner[0], pin_m[1] - self._corner[1])
        self.length_m = first + second
        self.turn_at_m = first - _TURN_EARLY_M if bent else math.inf
        self._first_m = first
        self._mesh = np.arange(0.0, self.length_m + STEP_M, STEP_M)
        self._mesh_x, self._mesh_y = self.place(self._mesh, np.zeros_like(self._mesh))

    def place(self, along_m: F64, off_m: F64) -> tuple[F64, F64]:
        """Return the point this far along the line and right of it. [m]"""
        ux, uy = self._unit((0.0, 0.0), self._corner)
        vx, vy = self._unit(self._corner, self.pin_m) if self.turn_rad else (ux, uy)
        past = np.maximum(along_m - self._first_m, 0.0)
        before = along_m - past
        second = past > 0.0
        nx, ny = np.where(second, vx, ux), np.where(second, vy, uy)
        return (
            before * ux + past * vx - off_m * ny,
            before * uy + past * vy + off_m * nx,
        )

    def ahead(self, x_m: F64, y_m: F64, along_m: F64, reach_m: F64) -> F64:
        """Return the bearing to the point of the line that is this far off.

        Parameters
        ----------
        x_m, y_m : ndarray (S,)
            Where the balls lie. [m]
        along_m : ndarray (S,)
            How far along the line that is. [m]
        reach_m : ndarray (S, K)
            How far off. [m]

        Returns
        -------
        ndarray (S, K)
            Bearing against the first leg, right positive. [rad]
        """
        px, py = self._mesh_x, self._mesh_y
        gap = np.hypot(px[None, :] - x_m[:, None], py[None, :] - y_m[:, None])
        gap[self._mesh[None, :] < along_m[:, None] - STEP_M] = 0.0
        # Distances grow along what is ahead: the place is where the reach falls among them.
        gap = np.maximum.accumulate(gap, axis=1)
        at = np.array([np.searchsorted(g, r) for g, r in zip(gap, reach_m, strict=True)])
        at = np.minimum(at, len(px) - 1)
        return np.asarray(np.arctan2(py[at] - y_m[:, None], px[at] - x_m[:, None]))

    @staticmethod
    def _unit(a: tuple[float, float], b: tuple[float, float]) -> tuple[float, float]:
        long = math.hypot(b[0] - a[0], b[1] - a[1]) or 1.0
        return (b[0] - a[0]) / long, (b[1] - a[1]) / long
