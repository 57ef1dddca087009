"""Strokes lost to choices, swings and penalties, and what a place was worth."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

import numpy as np

from engine.core.split import Parts, split
from engine.core.strokes import DISTANCE_M, LIES, StrokeTable
from engine.units import si

if TYPE_CHECKING:
    from collections.abc import Sequence

    from engine.units import Q

Ground = Literal["tee", "fairway", "rough", "sand", "recovery", "green"]


@dataclass(frozen=True, slots=True)
class Leg:
    """A stroke, or several that nothing is known between.

    Attributes
    ----------
    before, played, after : float
        Expected strokes with the best on offer, as played, and from where it ended.
    made, penalty : int
        Strokes made and penalty strokes.
    """

    before: float
    played: float
    after: float
    made: int = 1
    penalty: int = 0


@dataclass(frozen=True, slots=True)
class Lost:
    """Strokes lost by one leg; positive is lost, negative gained."""

    choice: float
    execution: float
    penalty: float

    @property
    def total(self) -> float:
        """All three together."""
        return self.choice + self.execution + self.penalty


def strokes_lost(legs: Sequence[Leg]) -> tuple[Lost, ...]:
    """Return what each leg lost by choice, in execution and in penalties.

    Parameters
    ----------
    legs : sequence of Leg
        In any order.

    Returns
    -------
    tuple of Lost
        One a leg. Where the legs of a hole join, they add up to its score less the
        expectation before its first leg.
    """
    columns = np.array(
        [(x.before, x.played, x.after, x.made, x.penalty) for x in legs], dtype=np.float64
    ).reshape(-1, 5)
    before, played, after, made, penalty = columns.T
    parts: Parts = split(before=before, played=played, after=after, made=made, penalty=penalty)
    rows = zip(*(p.tolist() for p in parts), strict=True)
    return tuple(Lost(*row) for row in rows)


def expected_strokes(*, table: StrokeTable, ground: Ground, distance: Q) -> float:
    """Return a player's expected strokes to hole out from a place nobody asked about.

    Parameters
    ----------
    table : StrokeTable
        The player's, from `solve_player`.
    ground : {"tee", "fairway", "rough", "sand", "recovery", "green"}
        Where the ball lies.
    distance : Quantity
        To the hole; taken at the ends of the table's range beyond them. [length]

    Returns
    -------
    float
        Expected strokes, the next one counted; 0 for no distance.
    """
    at = si(distance, "m")
    if at <= 0.0:
        return 0.0
    if ground == "green":
        return float(table.putts_at(distance_m=np.array(at)))
    at = min(max(at, float(DISTANCE_M[0])), float(DISTANCE_M[-1]))
    return float(table.at(row=LIES.index(ground), distance_m=np.array(at)))
