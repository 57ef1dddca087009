from dataclasses import replace

import numpy as np

from engine.api.standard import physics
from engine.core.air import air_of
from engine.core.flown import fly_bag
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
