"""Strokes lost to choices, swings and penalties, and what a place was worth."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import NormalDist
from typing import TYPE_CHECKING, Literal

import numpy as np

from engine.core.split import Parts, split
from engine.core.strokes import DISTANCE_M, LIES, StrokeTable
from engine.units import quantity, si

if TYPE_CHECKING:
    from collections.abc import Sequence

    from engine.core.golfer import Club
    from engine.core.seen import Seen
    from engine.units import Q

_ROUGH = 1.5  # standard deviations: ends farther apart are a sense, not a place (judgement)
_FAR = 1e-4  # chance below which the stored pattern hardly gets there (judgement)

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


@dataclass(frozen=True, slots=True)
class Finish:
    """Where a shot likely ended against the line meant and the stored carry.

    Attributes
    ----------
    side, long : Quantity
        Right of the line, and beyond the carry; calm and level. [length]
    rough : bool
        A direction or a length was told by its sense only, or not at all.
    """

    side: Q
    long: Q
    rough: bool


def likely_finish(*, seen: Seen, club: Club) -> Finish | None:
    """Return where a shot likely ended, from what was told and the club's stored pattern.

    Parameters
    ----------
    seen : Seen
        The shot as far as it was seen.
    club : Club
        Its stored carry and spread.

    Returns
    -------
    Finish or None
        The mean of the stored pattern between the ends told; None where neither the
        direction nor the length was told.
    """
    side = _between(seen.left_rad, seen.right_rad, club.lean_rad, club.spread_side_rad)
    sd = club.spread_long * club.carry_m
    reach = _between(seen.low_m, seen.high_m, club.carry_m, sd)
    if (
        math.isinf(seen.left_rad)
        and math.isinf(seen.right_rad)
        and math.isinf(seen.low_m)
        and (math.isinf(seen.high_m))
    ):
        return None
    rough = (
        seen.right_rad - seen.left_rad > _ROUGH * club.spread_side_rad
        or seen.high_m - seen.low_m > _ROUGH * sd
    )
    return Finish(quantity(side * reach, "m"), quantity(reach - club.carry_m, "m"), rough)


def _between(low: float, high: float, mean: float, sd: float) -> float:
    """Return the mean of a normal between two ends; nearest end where it hardly reaches."""
    law = NormalDist(mean, sd)
    a, b = (0.0 if math.isinf(low) else law.cdf(low)), (1.0 if math.isinf(high) else law.cdf(high))
    if b - a < _FAR:
        ends = [end for end in (low, high) if not math.isinf(end)]
        return min(ends, key=lambda end: abs(end - mean)) if ends else mean
    heights = [0.0 if math.isinf(end) else law.pdf(end) for end in (low, high)]
    return mean + sd * sd * (heights[0] - heights[1]) / (b - a)
