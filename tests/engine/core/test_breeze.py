"""Wind on a rolling ball: signs, symmetry, and a path with drag followed step by step."""

import math

import numpy as np
import pytest

from engine.api.standard import physics
from engine.core.air import REFERENCE
from engine.core.breeze import wind_push_mps2
from engine.core.roll import green_deceleration_mps2, resting_place_m, stretch
from engine.core.wind import Wind

STIMP_M = 3.0


def push(speed, from_deg, pace=1.2):
    return wind_push_mps2(
        wind=Wind(speed, math.radians(from_deg)), air=REFERENCE, ball=physics().ball, pace_mps=pace
    )


def test_no_wind_no_push():
    assert push(0.0, 0.0) == pytest.approx((0.0, 0.0))


def test_into_slows_helping_speeds_and_hurts_more():
    into, helping = push(9.0, 0.0)[0], push(9.0, 180.0)[0]
    assert into < 0 < helping
    assert -into > helping


def test_a_wind_from_the_left_pushes_right_and_mirrors():
    left, right = push(9.0, 270.0), push(9.0, 90.0)
    assert left[1] > 0
    assert left == pytest.approx((right[0], -right[1]))


def test_a_ball_at_rest_feels_the_square_of_the_wind():
    one, two = push(5.0, 270.0, pace=0.0)[1], push(10.0, 270.0, pace=0.0)[1]
    assert two == pytest.approx(4 * one)


def test_a_fresh_wind_is_worth_less_than_a_per_cent_of_slope():
    # 20 mph across: sanity of size only, no source.
    slope = push(8.94, 270.0)[1] / (5 / 7 * 9.80665)
    assert 0.002 < slope < 0.02


@pytest.mark.parametrize(("speed", "from_deg"), [(7.0, 270.0), (10.0, 0.0), (10.0, 180.0)])
def test_steady_push_against_drag_that_follows_the_ball(speed, from_deg):
    # scipy's DOP853 on the same drag law with the ball's own speed at every instant.
    solve_ivp = pytest.importorskip("scipy.integrate").solve_ivp
    slow, ball = green_deceleration_mps2(stimp_m=STIMP_M), physics().ball
    start = math.sqrt(2 * slow * 6.0)
    still = push(1.0, 270.0, pace=0.0)[1]  # what a metre a second at 10 m does to a still ball
    size = 0.5 * 0.5 * REFERENCE.density_kgpm3 * ball.area_m2 / ball.mass_kg * 5 / 7
    at_ball = math.sqrt(still / size) * speed
    wx, wy = (
        -at_ball * math.cos(math.radians(from_deg)),
        -at_ball * math.sin(math.radians(from_deg)),
    )

    def motion(_, s):
        v = max(math.hypot(s[2], s[3]), 1e-9)
        rx, ry = wx - s[2], wy - s[3]
        past = math.hypot(rx, ry)
        ax = size * (past * rx + v * s[2]) - slow * s[2] / v
        ay = size * (past * ry + v * s[3]) - slow * s[3] / v
        return [s[2], s[3], ax, ay]

    def rest(_, s):
        return math.hypot(s[2], s[3]) - 2e-3

    rest.terminal = True
    run = solve_ivp(motion, (0, 30), [0, 0, start, 0], method="DOP853", events=rest, rtol=1e-8)
    px, py = push(speed, from_deg, pace=0.5 * start)
    on = stretch(stimp_m=STIMP_M, up=0.0, right=0.0, push_x_mps2=px, push_y_mps2=py)
    x, y = resting_place_m(green=(on,), speed_mps=np.array([start]), heading_rad=np.zeros(1))
    calm = 6.0
    assert x[0] - calm == pytest.approx(run.y[0, -1] - calm, rel=0.25, abs=0.03)
    assert y[0] == pytest.approx(run.y[1, -1], rel=0.25, abs=0.01)
