"""Is a swing at an aim that was told priced where the words put it, and by as much?"""

from __future__ import annotations

import math

import pytest

from engine import (
    PlayerFacts,
    ShotChoice,
    ShotFacts,
    TroubleFacts,
    WindFacts,
    choose,
    quantity,
    si,
    solve_player,
    start_bag,
)
from engine.core.pattern import SOLID
from tests.engine.api.test_scenes import PLAYERS, yd
from tests.support.brute import simulate

FADER = PLAYERS["fader"]
WIDTH = 26.0  # yards, told, so that the edges are known by hand


def chosen(player: PlayerFacts = FADER, **facts: object) -> ShotChoice:
    golfer = start_bag(player).golfer
    return choose(
        golfer=golfer, table=solve_player(golfer),
        facts=ShotFacts(**{"pin": yd(150), "width": yd(WIDTH), **facts}),
    )  # fmt: skip


def test_the_marks_are_where_a_ruler_puts_them() -> None:
    """A green 26 yd wide about its pin, 150 yd away: its edges are 13 yd off the line."""
    choice = chosen()
    for halves, off in ((-1.0, -13.0), (0.0, 0.0), (0.5, 6.5), (1.0, 13.0)):
        start = choice.aimed(choice.best, mark="middle", halves=halves, finish=False)
        finish = choice.aimed(choice.best, mark="middle", halves=halves, finish=True)
        assert start is not None
        assert finish is not None
        assert si(start.start_at, "yd") == pytest.approx(off, abs=0.01)
        assert si(start.start, "deg") == pytest.approx(
            math.degrees(math.atan2(off, 150)), abs=0.01
        )
        assert si(finish.finish_at, "yd") == pytest.approx(off, abs=0.01)


def test_a_fade_started_at_the_flag_finishes_right_of_it() -> None:
    choice = chosen()
    start = choice.aimed(choice.best, mark="pin", finish=False)
    finish = choice.aimed(choice.best, mark="pin", finish=True)
    assert start is not None
    assert finish is not None
    assert si(start.finish_at, "yd") > 2.0
    assert si(finish.start_at, "yd") < -2.0


def test_a_wind_from_the_left_is_allowed_for_by_who_means_the_flag() -> None:
    blown = WindFacts(speed=quantity(15, "mph"), comes_from=quantity(270, "deg"))
    choice, calm = chosen(wind=blown), chosen()
    windy = choice.aimed(choice.best, mark="pin", finish=True)
    still = calm.aimed(calm.best, mark="pin", finish=True)
    assert windy is not None
    assert still is not None
    assert si(windy.start_at, "yd") < si(still.start_at, "yd") - 3.0


def test_no_told_aim_beats_the_best_one() -> None:
    choice = chosen(trouble=(TroubleFacts("water", "penalty", "right"),))
    for halves in (-2.0, -1.0, -0.5, 0.0, 0.5, 1.0, 2.0):
        for finish in (False, True):
            aimed = choice.aimed(choice.best, mark="middle", halves=halves, finish=finish)
            assert aimed is not None
            assert aimed.strokes > choice.best.strokes - 0.002


def test_at_the_flag_with_water_beside_it_costs_what_sampled_balls_say() -> None:
    """Brute force from the model's statement; the error of the difference is under 0.01."""
    choice = chosen(trouble=(TroubleFacts("water", "penalty", "right", gap=yd(4)),))
    flag = choice.aimed(choice.best, mark="pin", finish=False)
    assert flag is not None
    set_up = choice._setting
    swing = next(
        i for i, s in enumerate(set_up.flown.swings)
        if (s.club, s.kind) == (choice.best.club, choice.best.kind)
    )  # fmt: skip
    pattern = set_up.flown.pattern
    assert pattern.bearing_rad[swing, SOLID] > 0.0
    mean = {}
    for play in (choice.best, flag):
        mean[play.strokes], _ = simulate(
            scene=set_up.scene, table=set_up.table, pattern=pattern, swing=swing,
            aim_rad=si(play.start, "rad"), count=150_000, seed=5,
        )  # fmt: skip
    best, aimed = mean.values()
    assert flag.strokes - choice.best.strokes == pytest.approx(aimed - best, abs=0.015)
    assert flag.strokes - choice.best.strokes > 0.1


def test_a_mirrored_shot_has_the_mirrored_aim() -> None:
    left = PlayerFacts(
        handicap=12, hand=-1, miss=-1, curve=quantity(-3, "deg"), clubs=FADER.clubs
    )  # fmt: skip
    right, other = chosen(), chosen(left)
    a = right.aimed(right.best, mark="middle", halves=-1.0, finish=False)
    b = other.aimed(other.best, mark="middle", halves=1.0, finish=False)
    assert a is not None
    assert b is not None
    assert a.strokes == pytest.approx(b.strokes, abs=1e-9)


def test_out_of_reach_the_middle_is_the_fairways() -> None:
    choice = chosen(pin=yd(420), tee=True, fairway=yd(30), bend=1, bend_at=yd(240))
    assert not choice.in_reach
    aimed = choice.aimed(choice.best, mark="middle", halves=-1.0, finish=True)
    assert aimed is not None
    assert si(aimed.finish_from_middle, "yd") == pytest.approx(-15.0, abs=0.05)


def test_an_aim_behind_the_back_is_none() -> None:
    choice = chosen()
    assert choice.aimed(choice.best, mark="pin", off=yd(400), finish=False) is None
