"""Ranking of ways on, with a table printed for the best players in the world."""

import numpy as np
import pytest

from engine.core.relief import rank_relief
from engine.core.strokes import DISTANCE_M, LIES, LIES_AND_DROP, MOST, StrokeTable
from engine.errors import OutOfRange

YD = 0.9144
# M. Broadie, Every Shot Counts (2014), average strokes to hole out of tour players, from
# memory: yards, tee, fairway, rough. Used for differences between options only.
ROWS = (
    (40, 2.60, 2.60, 2.78), (60, 2.70, 2.70, 2.91), (80, 2.75, 2.75, 2.96),
    (100, 2.92, 2.80, 3.02), (120, 2.99, 2.85, 3.08), (140, 2.97, 2.91, 3.15),
    (160, 2.99, 2.98, 3.23), (180, 3.05, 3.08, 3.31), (200, 3.12, 3.19, 3.42),
    (260, 3.45, 3.58, 3.74), (300, 3.71, 3.78, 3.90), (400, 3.99, 4.11, 4.30),
    (520, 4.54, 4.66, 4.85),
)  # fmt: skip


def tour() -> StrokeTable:
    yards = np.array([r[0] for r in ROWS]) * YD
    strokes = np.full((LIES_AND_DROP, len(DISTANCE_M)), 9.0)
    for column, lie in enumerate(("tee", "fairway", "rough"), start=1):
        values = np.array([r[column] for r in ROWS])
        strokes[LIES.index(lie)] = np.interp(DISTANCE_M, yards, values)
    none = np.zeros((MOST, LIES_AND_DROP, len(DISTANCE_M)))
    flat = np.zeros(2)
    return StrokeTable(strokes, none, flat, flat, np.zeros((MOST, 2)))


def test_a_drop_beats_playing_again_by_the_printed_difference() -> None:
    # From the same table by hand: tee at 400 yd 3.99; drop at 160 yd in rough 3.23. Both with
    # one stroke: 4.99 against 4.23, a difference of 0.76 for the drop.
    best, other = rank_relief(
        table=tour(), area="yellow", crossing_m=160 * YD, previous_m=400 * YD, previous_lie="tee"
    )
    assert (best.option, other.option) == ("line", "replay")
    assert other.strokes - best.strokes == pytest.approx(0.76, abs=0.02)


def test_a_penalty_costs_one_stroke_and_the_distance() -> None:
    # Stroke and distance is exactly 2 strokes against the shot not played (arithmetic).
    (again,) = [
        r
        for r in rank_relief(table=tour(), area="red", crossing_m=100 * YD, previous_m=200 * YD)
        if r.option == "replay"
    ]
    assert again.strokes == pytest.approx(1 + 3.19, abs=0.01)


def test_sideways_stands_for_the_front_of_the_line() -> None:
    ranked = rank_relief(table=tour(), area="red", crossing_m=150 * YD, previous_m=None)
    assert [r.option for r in ranked] == ["sideways"]


def test_the_line_goes_back_to_a_better_number() -> None:
    table = tour()
    worse_near = table.strokes.copy()
    worse_near[LIES.index("rough"), DISTANCE_M < 70] = 4.0
    dull = StrokeTable(
        worse_near, table.over, table.putt_distance_m, table.putts, table.putts_over
    )
    best = rank_relief(table=dull, area="red", crossing_m=40.0, previous_m=None)[0]
    assert best.option == "line"
    assert best.distance_m >= 68


def test_refuses_a_distance_no_hole_has() -> None:
    with pytest.raises(OutOfRange):
        rank_relief(table=tour(), area="red", crossing_m=900, previous_m=None)
