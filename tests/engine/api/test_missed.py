"""Is a miss beside the green priced where a ruler puts it, and dear where trouble lies?"""

from __future__ import annotations

import numpy as np
import pytest

from engine import TroubleFacts, si, solve_player, start_bag
from engine.core.strokes import LIES
from tests.engine.api.test_aimed import FADER, WIDTH, chosen, yd

OFF_M = 8.0  # outside the green's edge, as documented


def test_on_open_ground_a_miss_costs_what_is_left_from_the_rough() -> None:
    """A green 26 yd wide: a ball 8 m off its side is 13 yd and 8 m from the pin."""
    table = solve_player(start_bag(FADER).golfer)
    away = si(yd(WIDTH / 2.0), "m") + OFF_M
    left = float(table.at(row=LIES.index("rough"), distance_m=np.array(away)))
    missed = chosen().missed()
    assert missed["left"] == pytest.approx(left, abs=0.1)
    assert missed["left"] == pytest.approx(missed["right"], abs=1e-6)


@pytest.mark.parametrize(("side", "other"), [("left", "right"), ("right", "left")])
def test_water_beside_the_green_costs_at_least_the_penalty(side: str, other: str) -> None:
    """A penalty stroke is one (Rules of Golf 2023, 17.1d)."""
    water = TroubleFacts(name="water", kind="penalty", side=side, gap=yd(1))
    missed = chosen(trouble=(water,)).missed()
    assert missed[side] - missed[other] > 0.95


def test_a_bunker_short_makes_short_the_dear_side() -> None:
    sand = TroubleFacts(name="bunker", kind="sand", side="short", gap=yd(1))
    missed = chosen(trouble=(sand,)).missed()
    assert missed["short"] == max(missed.values())


def test_where_the_green_is_out_of_reach_the_fairway_has_two_sides() -> None:
    trees = TroubleFacts(name="trees", kind="trees", side="left", gap=yd(5))
    missed = chosen(pin=yd(420), tee=True, par=4, trouble=(trees,)).missed()
    assert set(missed) == {"left", "right"}
    assert missed["left"] > missed["right"]
