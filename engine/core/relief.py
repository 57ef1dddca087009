"""Which way of taking relief costs the fewest strokes from here?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from engine.core.strokes import LIES, StrokeTable
from engine.errors import OutOfRange

Option = Literal["replay", "line", "sideways"]
ReliefArea = Literal["yellow", "red", "unplayable"]

BACK_MOST_M = 120.0  # how far back along the line a drop is thought through; judgement
BACK_STEP_M = 2.0
SAME = 0.03  # strokes: within this two spots are as good as each other; judgement
ONE = 1.0  # every option costs one penalty stroke: Rules of Golf 2023, 17.1d and 19.2

_OPTIONS: dict[ReliefArea, tuple[Option, ...]] = {
    "yellow": ("replay", "line"),  # Rules of Golf 2023, 17.1d(1), (2)
    "red": ("replay", "line", "sideways"),  # 17.1d(1), (2), (3)
    "unplayable": ("replay", "line", "sideways"),  # 19.2a, b, c
}


@dataclass(frozen=True, slots=True)
class Relief:
    """One way on.

    Attributes
    ----------
    option : str
        "replay", "line" (back on the line) or "sideways" (two club-lengths).
    distance_m : float
        Left to the pin after the drop. [m]
    strokes : float
        Expected strokes to hole out from now, penalty counted. [-]
    """

    option: Option
    distance_m: float
    strokes: float


def rank_relief(
    *,
    table: StrokeTable,
    area: ReliefArea,
    crossing_m: float,
    previous_m: float | None,
    previous_lie: str = "fairway",
    drop_lie: str = "rough",
) -> tuple[Relief, ...]:
    """Rank the ways on after a penalty area or an unplayable ball.

    Parameters
    ----------
    table : StrokeTable
        The player's strokes to hole out.
    area : {"yellow", "red", "unplayable"}
        What the ball is in.
    crossing_m : float
        From where the ball last crossed the edge, or from the unplayable ball, to the pin. [m]
    previous_m : float or None
        From where the last stroke was played to the pin; None where not known, and then
        playing again from there is left out. [m]
    previous_lie, drop_lie : str
        Lies of `engine.core.strokes.LIES`, at the last stroke and at the drop.

    Returns
    -------
    tuple of Relief
        Fewest strokes first.

    Raises
    ------
    OutOfRange
        A distance outside 1 to 650 m.

    Notes
    -----
    Going back costs nothing but distance, so the best point of the line is the one from which
    the player needs the fewest strokes: often a full swing, not the nearest.
    """
    for name, value in (("crossing_m", crossing_m), ("previous_m", previous_m)):
        if value is not None and not 1 <= value <= 650:
            raise OutOfRange(name, value, 1, 650, "m")
    drop = LIES.index(drop_lie)
    back = np.arange(crossing_m, crossing_m + BACK_MOST_M, BACK_STEP_M)
    costs = table.at(row=drop, distance_m=back)
    best = int(np.argmax(costs <= costs.min() + SAME))  # the nearest that is as good
    found: dict[Option, tuple[float, float]] = {
        "line": (float(back[best]), float(costs[best])),
        "sideways": (crossing_m, float(costs[0])),
    }
    if previous_m is not None:
        row = LIES.index(previous_lie)
        again = table.at(row=row, distance_m=np.array([previous_m]))
        found["replay"] = (previous_m, float(again[0]))
    ranked = [
        Relief(option, found[option][0], ONE + found[option][1])
        for option in _OPTIONS[area]
        if option in found
    ]
    # Dropping sideways and at the front of the line is the same spot but for two club-lengths.
    if area != "yellow" and best == 0:
        ranked = [r for r in ranked if r.option != "line"]
    return tuple(sorted(ranked, key=lambda r: r.strokes))
