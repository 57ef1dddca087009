"""Which way of taking relief costs the fewest strokes, with quantities."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine.core.relief import Option, ReliefArea, rank_relief
from engine.units import quantity, si

__all__ = ["ReliefArea", "ReliefPlay", "relief_plays"]

if TYPE_CHECKING:
    from engine.core.strokes import StrokeTable
    from engine.units import Q


@dataclass(frozen=True, slots=True)
class ReliefPlay:
    """One way on.

    Attributes
    ----------
    option : {"replay", "line", "sideways"}
        Again from the last spot, back on the line, or within two club-lengths.
    distance : Quantity
        Left to the pin after the drop. [length]
    strokes : float
        Expected strokes to hole out from now, penalty counted. [-]
    """

    option: Option
    distance: Q
    strokes: float


def relief_plays(
    *, table: StrokeTable, area: ReliefArea, crossing: Q, previous: Q | None, from_tee: bool
) -> tuple[ReliefPlay, ...]:
    """Rank the ways on after a penalty area or an unplayable ball, fewest strokes first.

    Parameters
    ----------
    table : StrokeTable
        The player's strokes to hole out, from `solve_player`.
    area : {"yellow", "red", "unplayable"}
        What the ball is in.
    crossing : Quantity
        From the point of crossing, or the unplayable ball, to the pin. [length]
    previous : Quantity or None
        From the last stroke's spot to the pin; None leaves playing again out. [length]
    from_tee : bool
        The last stroke was played from a tee.

    Returns
    -------
    tuple of ReliefPlay
        Fewest strokes first.

    Raises
    ------
    OutOfRange
        A distance outside 1 to 650 m.
    """
    ranked = rank_relief(
        table=table,
        area=area,
        crossing_m=si(crossing, "m"),
        previous_m=None if previous is None else si(previous, "m"),
        previous_lie="tee" if from_tee else "fairway",
    )
    return tuple(ReliefPlay(r.option, quantity(r.distance_m, "m"), r.strokes) for r in ranked)
