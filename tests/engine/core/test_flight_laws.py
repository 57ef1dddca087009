"""What must hold for every launch and wind, whatever the constants."""

from dataclasses import replace
from math import pi

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.api.standard import physics
from engine.core.air import air_of, standard_pressure
from engine.core.calibrate import bag_launches
from engine.core.flight import Landing, Launch, fly
from engine.core.wind import CALM, Wind
from tests.support.flights import MPH, player

P = physics()
SWINGS, EVERY = bag_launches(player(), physics=P)
FULL = np.array([s.kind == "full" for s in SWINGS])
BAG = Launch(*(getattr(EVERY, name)[FULL] for name in Launch.__slots__))
STRAIGHT = replace(BAG, tilt_rad=0.0 * BAG.tilt_rad, azimuth_rad=0.0 * BAG.azimuth_rad)
# Below about 33 m/s a ball flies in the drag crisis, where thinner air can drag more: what warmth
# does to a short wedge is then too small to have a sure sign.
FAST = BAG.speed_mps > 33.0
few = settings(max_examples=20, deadline=None)
speeds = st.floats(3.0, 13.0)  # m/s
temperatures = st.floats(268.0, 308.0)
turns = st.floats(0.0, 2.0 * pi)


def day(air_k: float = 293.15, height_m: float = 0.0, humidity: float = 0.5):
    return air_of(air_k=air_k, pressure_pa=standard_pressure(height_m=height_m), humidity=humidity)


def go(launch: Launch, wind: object = CALM, air: object = None, height_m: float = 0.0) -> Landing:
    return fly(launch=launch, air=air or day(), wind=wind, ball=P.ball, height_m=height_m)


@few
@given(speeds, turns)
def test_a_mirrored_shot_in_a_mirrored_wind_lands_mirrored(speed: float, turn: float) -> None:
    mirror = replace(BAG, tilt_rad=-BAG.tilt_rad, azimuth_rad=-BAG.azimuth_rad)
    here, there = go(BAG, Wind(speed, turn)), go(mirror, Wind(speed, 2.0 * pi - turn))
    np.testing.assert_allclose(there.carry_m, here.carry_m, atol=1e-6)
    np.testing.assert_allclose(there.side_m, -here.side_m, atol=1e-6)


@few
@given(speeds)
def test_hurt_costs_more_than_help_gives(speed: float) -> None:
    calm, hurt, help_ = go(BAG), go(BAG, Wind(speed, 0.0)), go(BAG, Wind(speed, pi))
    assert np.all(calm.carry_m - hurt.carry_m > np.abs(help_.carry_m - calm.carry_m))


@few
@given(speeds)
def test_loss_grows_faster_than_the_wind_and_help_saturates(speed: float) -> None:
    winds = [Wind(share * speed, turn) for turn in (0.0, pi) for share in (0.5, 1.0)]
    calm, blown = go(BAG).carry_m, go(BAG, winds).carry_m
    assert np.all(calm - blown[1] > 2.0 * (calm - blown[0]))
    assert np.all(blown[3] - calm < 2.0 * (blown[2] - calm))


@few
@given(speeds)
def test_a_cross_wind_drifts_the_way_the_air_moves_and_hardly_changes_carry(speed: float) -> None:
    calm, left, right = (
        go(STRAIGHT),
        go(STRAIGHT, Wind(speed, 0.5 * pi)),
        go(STRAIGHT, Wind(speed, 1.5 * pi)),
    )
    assert np.all(left.side_m < 0.0)
    np.testing.assert_allclose(right.side_m, -left.side_m, atol=1e-6)
    hurt = calm.carry_m - go(STRAIGHT, Wind(speed, 0.0)).carry_m
    assert np.all(np.abs(left.carry_m - calm.carry_m) < 0.3 * hurt)


@few
@given(st.floats(1.0, 12.0))
def test_up_costs_more_than_down_gives(height_m: float) -> None:
    level = go(BAG).carry_m
    up, down = go(BAG, height_m=height_m), go(BAG, height_m=-height_m)
    assert np.all(level - up.carry_m > down.carry_m - level)
    assert np.all(down.carry_m > level)


@few
@given(temperatures, st.floats(3.0, 15.0))
def test_hot_flies_further_than_cold(air_k: float, warmer_k: float) -> None:
    cold, hot = day(air_k), day(min(air_k + warmer_k, 320.0))
    gain = go(BAG, air=hot).carry_m - go(BAG, air=cold).carry_m
    assert np.all(gain[FAST] > 0.0)
    assert np.all(gain[~FAST] > -0.3)


@few
@given(st.floats(273.0, 300.0), st.floats(0.0, 900.0), st.floats(100.0, 600.0))
def test_high_flies_further_than_low(air_k: float, height_m: float, more_m: float) -> None:
    low, high = go(BAG, air=day(air_k, height_m)), go(BAG, air=day(air_k, height_m + more_m))
    assert np.all(high.carry_m > low.carry_m)
    assert np.all(high.apex_m < low.apex_m)  # and flatter


@few
@given(st.floats(288.0, 308.0), st.floats(0.0, 0.5))
def test_humid_is_a_touch_longer(air_k: float, humidity: float) -> None:
    dry, humid = day(air_k, humidity=humidity), day(air_k, humidity=humidity + 0.5)
    gain = go(BAG, air=humid).carry_m - go(BAG, air=dry).carry_m
    assert np.all((gain > -0.1) & (gain < 2.0))
    assert np.all(gain[FAST] > 0.0)


@few
@given(st.floats(0.0, 30.0 * MPH), turns, st.floats(-20.0, 15.0), temperatures)
def test_never_not_a_number(speed: float, turn: float, height_m: float, air_k: float) -> None:
    down = go(EVERY, Wind(speed, turn), day(air_k), height_m)
    for name in Landing.__slots__:
        assert np.all(np.isfinite(getattr(down, name)))
