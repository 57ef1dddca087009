from dataclasses import replace

import numpy as np

from engine.api.standard import physics
from engine.core.air import air_of
from engine.core.aloft import landings
from engine.core.flown import fly_bag
from engine.core.lie import Lie
from engine.core.wind import Wind
from tests.support.flights import player


def test_doubt_of_the_wind_widens_a_pattern_and_does_not_move_it() -> None:
    steady = Wind(7.0, 0.6, doubt=0.0)
    sure = fly_bag(golfer=player(), physics=physics(), wind=steady)
    unsure = fly_bag(golfer=player(), physics=physics(), wind=replace(steady, doubt=0.4))
    np.testing.assert_array_equal(unsure.pattern.reach_m, sure.pattern.reach_m)
    np.testing.assert_array_equal(unsure.carry_m, sure.carry_m)
    assert np.all(unsure.pattern.reach_sd_m[:, 0] > sure.pattern.reach_sd_m[:, 0])
    assert np.all(unsure.pattern.bearing_sd_rad[:, 0] > sure.pattern.bearing_sd_rad[:, 0])


def test_the_bag_flies_from_the_air_its_carries_belong_to() -> None:
    home = air_of(air_k=290.0, pressure_pa=82000.0, humidity=0.3)
    golfer = player()
    found = fly_bag(golfer=golfer, physics=physics(), air=home, reference=home)
    first = next(i for i, s in enumerate(found.swings) if s.kind == "full")
    stated = {c.name: c.carry_m for c in golfer.clubs}
    assert abs(found.carry_m[first] - stated[found.swings[first].club]) < 0.05


def test_only_the_same_conditions_share_flights() -> None:
    blow = Wind(6.0, 0.6)
    first = fly_bag(golfer=player(), physics=physics(), wind=blow, green_at_m=140.0)
    flown = landings.cache_info().misses
    again = fly_bag(golfer=player(), physics=physics(), wind=blow, green_at_m=120.0)
    assert landings.cache_info().misses == flown
    np.testing.assert_array_equal(again.pattern.bearing_rad[:5], first.pattern.bearing_rad[:5])
    others = (
        {"wind": replace(blow, from_rad=0.7)}, {"wind": blow, "height_m": 3.0},
        {"wind": blow, "lie": Lie(kind="rough")}, {"wind": blow, "golfer": player(hand=-1)},
        {"wind": blow, "air": air_of(air_k=290.0, pressure_pa=82000.0, humidity=0.3)},
    )  # fmt: skip
    for n, other in enumerate(others, start=1):
        fly_bag(**{"golfer": player(), "physics": physics(), **other})
        assert landings.cache_info().misses == flown + n
