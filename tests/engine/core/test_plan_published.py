"""Whole holes planned, against published figures for scores and aims."""

import numpy as np
import pytest

from engine import HoleFacts, PlanDay, PlayerFacts, plan_holes, quantity, solve_player, start_bag
from engine.core.golfer import Golfer
from engine.core.told import ToldTrouble
from tests.engine.core.test_plan import YD, hole, solver
from tests.support.golfers import bogey, scratch

# Four threes, four fives and ten fours without named trouble; lengths of an ordinary course.
LENGTHS = (
    165,
    180,
    200,
    215,
    505,
    525,
    545,
    560,
    350,
    370,
    385,
    395,
    405,
    415,
    425,
    435,
    445,
    455,
)
PARS = (3,) * 4 + (5,) * 4 + (4,) * 10
CALM = PlanDay(wind_speed=quantity(10.0, "mph"))


def score(golfer: Golfer, scale: float = 1.0) -> float:
    holes = [
        HoleFacts(length=quantity(yards * scale, "yd"), par=par)
        for yards, par in zip(LENGTHS, PARS, strict=True)
    ]
    plans = plan_holes(golfer=golfer, table=solve_player(golfer), holes=holes, day=CALM)
    return sum(p.conditions[0].strokes for p in plans)


def test_players_of_the_rated_lengths_score_what_the_course_is_rated() -> None:
    # Course Rating System, yardage ratings from memory: scratch length / 220 + 40.9, bogey
    # length / 160 + 50.7. A rating is the better half of a player's rounds; the average is some
    # two to three strokes more (D. Knuth, USGA), hence the one-sided bands.
    yards = sum(LENGTHS)
    full, bogey_full = score(scratch()), score(bogey())
    assert 0.0 < full - (yards / 220 + 40.9) < 3.5
    assert -2.0 < bogey_full - (yards / 160 + 50.7) < 4.0
    # Yards of length worth one stroke: 220 for scratch (USGA yardage rating, as quoted by a
    # teachers' federation), 160 for bogey (from memory).
    shorter = 0.92
    assert yards * (1 - shorter) / (full - score(scratch(), shorter)) == pytest.approx(
        220, rel=0.1
    )
    per = yards * (1 - shorter) / (bogey_full - score(bogey(), shorter))
    assert per == pytest.approx(160, rel=0.15)


@pytest.mark.parametrize(
    ("usual", "centre", "gain"),
    [(80, 4.7, 0.1), (100, 5.9, 0.2)],
)
def test_out_of_bounds_right_of_a_four_of_400(usual: int, centre: float, gain: float) -> None:
    # M. Broadie, Every Shot Counts (2014), as excerpted in Golf Digest: aiming down the middle
    # of a 400-yard four with out of bounds right the 80-shooter averages 4.7 (7 % out) and at
    # the left edge of the fairway 4.6; the 100-shooter 5.9, and 5.7 from the left rough. Where
    # the fence stands is not told: 24 yards off the middle gives the 80-shooter's share out.
    golfer = start_bag(PlayerFacts(score=usual, miss=0)).golfer
    fence = ToldTrouble("ob", "out", "right", gap_m=24 * YD, gap_of="line")
    made = solver(hole(400, fence), golfer, solve_player(golfer))[0]
    spot = {"condition": 0, "x_m": 0.0, "y_m": 0.0, "along_m": 0.0, "lie": 0}
    middle = made.options(**spot, aims_m=np.array([0.0]))
    best = made.options(**spot, aims_m=np.arange(-40.0, 41.0, 2.0))
    plain = next(o for o in middle if o.swing == 0)
    moved = next(o for o in best if o.swing == 0)
    assert plain.strokes == pytest.approx(centre, abs=0.25)
    assert plain.strokes - moved.strokes == pytest.approx(gain, abs=0.1)
    assert moved.aside_m < -4.0
    if usual == 80:
        assert made.odds(condition=0, option=plain).chance["ob"] == pytest.approx(0.07, abs=0.05)


def test_a_wilder_player_aims_farther_from_the_fence() -> None:
    fence = ToldTrouble("ob", "out", "right", gap_m=24 * YD, gap_of="line")
    aside = []
    for usual in (80, 100):
        golfer = start_bag(PlayerFacts(score=usual, miss=0)).golfer
        made = solver(hole(400, fence), golfer, solve_player(golfer))[0]
        options = made.options(
            condition=0, x_m=0.0, y_m=0.0, along_m=0.0, lie=0, aims_m=np.arange(-40.0, 41.0, 2.0)
        )
        aside.append(next(o.aside_m for o in options if o.swing == 0))
    assert aside[1] < aside[0] < 0.0
