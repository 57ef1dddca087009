"""How many strokes are left from here? A player's expected strokes by distance and lie.

References
----------
.. [1] M. Broadie, "Assessing golfer performance on the PGA Tour", Interfaces 42 (2012)
   146-165: expected strokes by distance and lie as the measure of a position.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from engine.core.pattern import Lie, Widening
from engine.errors import BadTable

F64 = npt.NDArray[np.float64]

LIES: tuple[Lie, ...] = ("tee", "fairway", "rough", "sand", "recovery")
DROP = len(LIES)  # a row after the lies: rough, with a penalty stroke to pay first
LIES_AND_DROP = DROP + 1
DISTANCE_M = np.concatenate(
    [np.arange(2.0, 41.0, 2.0), np.arange(45.0, 126.0, 5.0), np.arange(135.0, 681.0, 10.0)]
)
STIMP_M = 3.048  # a green of ordinary speed, 10 ft
MOST = 12  # strokes counted in the distribution
REACH_FROM: dict[Lie, float] = {
    "tee": 1.0, "fairway": 1.0, "rough": 0.94, "sand": 0.88, "recovery": 0.9,
}  # judgement: share of the carry kept  # fmt: skip
# Judgement: how lies widen a swing when the whole hole is thought through.
WIDENS: dict[Lie, Widening] = {
    "tee": Widening(0.92, 0.97, -0.01), "fairway": Widening(), "rough": Widening(1.55, 1.5, 0.06),
    "sand": Widening(1.8, 1.6, 0.14), "recovery": Widening(2.0, 1.6, 0.16),
}  # fmt: skip
LEAST_LOFT_RAD: dict[Lie, float] = {
    "tee": 0.0, "fairway": 0.218, "rough": 0.297, "sand": 0.349, "recovery": 0.349,
}  # straight faces a lie rules out: common practice, no source  # fmt: skip
# Judgement, held against the published column from trees: which is nearly the fairway's of some
# hundred yards nearer, and little cheaper beside the green.
RECOVERY_FREE = 0.6  # chance that a ball in trees has a way on
SIDEWAYS_OUT = 0.9  # chance that a ball played out sideways or on to safety does get out
_MAGIC = 20261125.0


@dataclass(frozen=True, slots=True, eq=False)
class StrokeTable:
    """Expected strokes to hole out, and their distribution.

    Attributes
    ----------
    strokes : ndarray (6, n)
        Expected strokes by row (tee, fairway, rough, sand, recovery, drop) and distance.
    over : ndarray (m, 6, n)
        Chance of needing more than k strokes, k the first index. [-]
    putt_distance_m, putts : ndarray (p,)
        Expected putts by distance. [m, -]
    putts_over : ndarray (m, p)
        Chance of needing more than k putts. [-]
    """

    strokes: F64
    over: F64
    putt_distance_m: F64
    putts: F64
    putts_over: F64

    def at(self, *, row: int, distance_m: F64) -> F64:
        """Return expected strokes from a row of the table at distances. [m]"""
        return np.asarray(np.interp(distance_m, DISTANCE_M, self.strokes[row]))

    def chance_over(self, *, k: int, row: int, distance_m: F64) -> F64:
        """Return the chance of needing more than `k` strokes from a row at distances. [m]"""
        return np.asarray(np.interp(distance_m, DISTANCE_M, self.over[k, row]))

    def putts_at(self, *, distance_m: F64) -> F64:
        """Return expected putts at distances. [m]"""
        return np.asarray(np.interp(distance_m, self.putt_distance_m, self.putts))

    def to_bytes(self) -> bytes:
        """Return the table as bytes that `from_bytes` reads."""
        head = [_MAGIC, self.strokes.shape[1], self.over.shape[0], len(self.putts)]
        parts = (self.strokes, self.over, self.putt_distance_m, self.putts, self.putts_over)
        return np.concatenate([head, *(p.ravel() for p in parts)]).astype("<f8").tobytes()

    @classmethod
    def from_bytes(cls, data: bytes) -> StrokeTable:
        """Return the table that `to_bytes` wrote.

        Raises
        ------
        BadTable
            The bytes are not a table of this version.
        """
        name = "strokes table"
        if len(data) % 8 or len(data) < 32:
            raise BadTable(name, "its length fits no table")
        flat = np.frombuffer(data, dtype="<f8").astype(np.float64)
        if flat[0] != _MAGIC or flat[1] != len(DISTANCE_M):
            raise BadTable(name, "it was made by another version")
        n, m, p = (int(v) for v in flat[1:4])
        shapes = ((LIES_AND_DROP, n), (m, LIES_AND_DROP, n), (p,), (p,), (m, p))
        sizes = [int(np.prod(s)) for s in shapes]
        if 4 + sum(sizes) != len(flat):
            raise BadTable(name, "its length fits no table")
        cuts = np.cumsum(sizes)[:-1]
        parts = np.split(flat[4:], cuts)
        return cls(*(part.reshape(s) for part, s in zip(parts, shapes, strict=True)))
