"""Rolling on slopes against an independent integrator, published rules and mirror laws."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.core.aim import aim_to_arrive
from engine.core.capture import BALL_RADIUS_M
from engine.core.roll import (
    Stretch,
    green_deceleration_mps2,
    level_stimp_m,
    resting_place_m,
    rolling_speed_mps,
    stretch,
)

FT = 0.3048


def integrate(green, speed, heading, stop_at_x=None):
    """Resting place or crossing by scipy's DOP853 on the equations of motion."""
    solve_ivp = pytest.importorskip("scipy.integrate").solve_ivp

    def motion(_, s):
        on = next(g for g in green if s[0] < g.until_m)
        speed = math.hypot(s[2], s[3])
        return [
            s[2],
            s[3],
            on.pull_x_mps2 - on.slow_mps2 * s[2] / speed,
            on.pull_y_mps2 - on.slow_mps2 * s[3] / speed,
        ]

    def rest(_, s):
        return math.hypot(s[2], s[3]) - 1e-4

    def across(_, s):
        return s[0] - stop_at_x

    rest.terminal = across.terminal = True
    events = [rest] if stop_at_x is None else [rest, across]
    start = [0.0, 0.0, speed * math.cos(heading), speed * math.sin(heading)]
    run = solve_ivp(
        motion, (0, 60), start, method="DOP853", events=events, rtol=1e-9, atol=1e-10, max_step=0.1
    )
    return run.y[:, -1]


def aim(green, stimp_m, length_m, past_m):
    slow = green_deceleration_mps2(stimp_m=stimp_m)
    return aim_to_arrive(
        green=green,
        level_mps2=slow,
        hole_x_m=np.array([length_m]),
        hole_y_m=np.zeros(1),
        arrival_mps=np.array([math.sqrt(2 * slow * past_m)]),
    )


@pytest.mark.parametrize("stimp_ft", [8, 10, 12])
@pytest.mark.parametrize(("up", "right"), [(0, 0.01), (0, 0.03), (0.02, -0.02), (-0.02, 0.03)])
@pytest.mark.parametrize("ft", [5, 15, 40])
def test_aim_against_an_independent_integration(stimp_ft, up, right, ft):
    green = (stretch(stimp_m=stimp_ft * FT, up=up, right=right),)
    found = aim(green, stimp_ft * FT, ft * FT, 0.4)
    assert found.found.all()
    slow = green_deceleration_mps2(stimp_m=stimp_ft * FT)
    speed = math.sqrt(2 * slow * found.roll_m[0])
    x, y, vx, vy = integrate(green, speed, found.heading_rad[0], stop_at_x=ft * FT)
    brk = ft * FT * math.tan(found.heading_rad[0])
    assert x == pytest.approx(ft * FT, abs=1e-3)
    assert abs(y) < 0.03 * abs(brk)
    assert math.hypot(vx, vy) == pytest.approx(math.sqrt(2 * slow * 0.4), rel=0.01)


@pytest.mark.parametrize("heading", [-0.5, 0.0, 0.3])
def test_resting_place_on_a_green_that_changes_slope(heading):
    green = (
        stretch(stimp_m=3.0, up=0.03, right=0.01, until_m=1.2),
        stretch(stimp_m=3.0, up=-0.01, right=-0.02, until_m=2.5),
        stretch(stimp_m=3.0, up=0.01, right=0.025),
    )
    x, y = resting_place_m(green=green, speed_mps=np.array([2.2]), heading_rad=np.array([heading]))
    expected = integrate(green, 2.2, heading)
    assert (x[0], y[0]) == pytest.approx(tuple(expected[:2]), abs=2e-3)


def test_a_ball_that_cannot_climb_a_tier_comes_back_to_its_foot():
    green = (
        stretch(stimp_m=3.0, up=0.0, right=0.0, until_m=2.0),
        stretch(stimp_m=3.0, up=0.15, right=0.0, until_m=4.0),
        stretch(stimp_m=3.0, up=0.0, right=0.0),
    )
    x, _ = resting_place_m(green=green, speed_mps=np.array([1.7, 4.0]), heading_rad=np.zeros(2))
    assert x[0] == pytest.approx(2.0)
    assert x[1] > 4.0


@pytest.mark.parametrize(
    ("ft", "percent", "stimp_ft"), [(5, 1, 9), (6, 2, 10), (10, 2, 10), (10, 1, 11)]
)
def test_break_near_the_teaching_rule(ft, percent, stimp_ft):
    # A published teaching rule (2015), common practice: slope per cent x stimp / 20 inches of
    # break a foot, inside ten feet; held to 20 % for a ball that would run a foot past.
    green = (stretch(stimp_m=stimp_ft * FT, up=0.0, right=percent / 100),)
    found = aim(green, stimp_ft * FT, ft * FT, 1 * FT)
    inches = ft * 12 * math.tan(found.heading_rad[0])
    assert inches == pytest.approx(percent * stimp_ft / 20 * ft, rel=0.20)


def test_two_way_reading():
    # Brede, USGA Green Section Record 28(6) (1990): 14 ft down and 9 ft up read 10 ft 11 in
    # level (worked value, not the mean 11.5).
    assert level_stimp_m(up_m=9 * FT, down_m=14 * FT) / FT == pytest.approx(10 + 11 / 12, abs=0.05)


def test_two_way_reading_agrees_with_rolling_up_and_down_a_slope():
    stimp = 3.0
    speed = math.sqrt(2 * green_deceleration_mps2(stimp_m=stimp) * stimp)
    up, down = (
        resting_place_m(
            green=(stretch(stimp_m=stimp, up=grade, right=0.0),),
            speed_mps=np.array([speed]),
            heading_rad=np.zeros(1),
        )[0][0]
        for grade in (0.02, -0.02)
    )
    assert level_stimp_m(up_m=up, down_m=down) == pytest.approx(stimp, rel=1e-3)


def test_a_struck_ball_without_spin_rolls_at_five_sevenths():
    # Angular momentum about the contact point of a solid sphere, any mechanics text.
    rolling = rolling_speed_mps(speed_mps=2.0, spin_radps=0.0, radius_m=BALL_RADIUS_M)
    assert rolling == pytest.approx(2.0 * 5 / 7)
    assert rolling_speed_mps(speed_mps=2.0, spin_radps=2.0 / 0.02, radius_m=0.02) == 2.0


@settings(max_examples=60, deadline=None)
@given(
    up=st.floats(-0.03, 0.03),
    right=st.floats(-0.03, 0.03),
    heading=st.floats(-1.2, 1.2),
    speed=st.floats(0.2, 4.0),
)
def test_mirrored_ground_mirrors_the_ball_exactly(up, right, heading, speed):
    def run(sign):
        return resting_place_m(
            green=(
                stretch(stimp_m=3.0, up=-up, right=sign * right / 2, until_m=0.8),
                stretch(stimp_m=3.0, up=up, right=sign * right),
            ),
            speed_mps=np.array([speed]),
            heading_rad=np.array([sign * heading]),
        )

    (x, y), (mx, my) = run(1), run(-1)
    assert mx[0] == pytest.approx(x[0], rel=1e-9, abs=1e-7)
    assert my[0] == pytest.approx(-y[0], rel=1e-9, abs=1e-7)


@settings(max_examples=40, deadline=None)
@given(
    up=st.floats(-0.03, 0.03),
    right=st.floats(-0.03, 0.03),
    heading=st.floats(-1.2, 1.2),
    scale=st.floats(0.3, 3.0),
)
def test_lengths_scale_with_the_square_of_speed(up, right, heading, scale):
    green = (stretch(stimp_m=3.0, up=up, right=right),)
    x, y = resting_place_m(
        green=green, speed_mps=np.array([1.0, scale]), heading_rad=np.full(2, heading)
    )
    assert x[1] == pytest.approx(scale**2 * x[0], rel=1e-9, abs=1e-9)
    assert y[1] == pytest.approx(scale**2 * y[0], rel=1e-9, abs=1e-9)


def test_an_even_green_runs_straight_for_its_stimp_reading():
    green = (Stretch(math.inf, green_deceleration_mps2(stimp_m=3.2), 0.0, 0.0),)
    x, y = resting_place_m(green=green, speed_mps=np.array([6 * FT]), heading_rad=np.array([0.0]))
    assert (x[0], y[0]) == pytest.approx((3.2, 0.0))
