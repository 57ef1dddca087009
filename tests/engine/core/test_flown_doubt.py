from dataclasses import replace

import numpy as np

from engine.api.standard import physics
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
