from math import cos, exp, radians, sin, sqrt

import numpy as np
import pytest

from engine.api.standard import physics
from engine.core.air import REFERENCE, Air, air_of
from engine.core.calibrate import bag_launches
from engine.core.flight import Batch, Launch, fly, landing, trace
from engine.core.march import march
from engine.core.wind import CALM, Wind
from engine.errors import OutOfRange
from tests.support.flights import FT, MPH, RPM, YD, airless, dop853, one, player
from tests.support.tables import load_table

BALL = physics().ball
TOUR = load_table("tour_launch")
G = 9.80665


def test_vacuum_against_the_worked_example() -> None:
    # D. N. Arnold, "The flight of a golf ball", Princeton Companion to Applied Mathematics:
    # 175 mph at 11 deg without air goes 256 yd; exact by the closed form 255.67 yd.
    down = fly(launch=one(175 * MPH, 11), air=REFERENCE, wind=CALM, ball=airless(BALL))
    assert down.carry_m[0] / YD == pytest.approx(256, abs=0.5)
    assert down.carry_m[0] == pytest.approx((175 * MPH) ** 2 * sin(radians(22)) / G, rel=1e-6)
    assert down.apex_m[0] == pytest.approx((175 * MPH * sin(radians(11))) ** 2 / 2 / G, rel=1e-6)
    assert down.time_s[0] == pytest.approx(2 * 175 * MPH * sin(radians(11)) / G, rel=1e-6)


@pytest.mark.parametrize("height_m", [-30.0, -4.0, 3.0, 9.0])
def test_vacuum_to_a_target_above_or_below(height_m: float) -> None:
    v, up = 50.0, radians(25)
    down = fly(launch=one(v, 25), air=REFERENCE, wind=CALM, ball=airless(BALL), height_m=height_m)
    vz = v * sin(up)
    seconds = (vz + sqrt(vz * vz - 2 * G * height_m)) / G
    assert down.carry_m[0] == pytest.approx(v * cos(up) * seconds, rel=1e-6)
    assert down.speed_mps[0] == pytest.approx(sqrt(v * v - 2 * G * height_m), rel=1e-6)


def test_linear_drag_against_the_closed_form() -> None:
    # Textbook projectile with drag proportional to velocity, a = -c v.
    c, v, up = 0.25, 60.0, radians(20)

    def rate(state: np.ndarray, out: np.ndarray) -> None:
        out[0:3] = state[3:6]
        out[3:6] = -c * state[3:6]
        out[5] -= G
        out[6] = 0.0

    start = np.array([[0.0], [0.0], [0.0], [v * cos(up)], [0.0], [v * sin(up)], [0.0]])
    times, states = march(state=start, rate=rate, lowest_m=np.array([0.0]))
    close = 1e-6 * states[-1, 0, 0]  # of the carry
    for seconds, state in zip(times, states, strict=True):
        fade = 1.0 - exp(-c * seconds)
        assert state[0, 0] == pytest.approx(v * cos(up) * fade / c, abs=close)
        height = (v * sin(up) + G / c) * fade / c - G * seconds / c
        assert state[2, 0] == pytest.approx(height, abs=close)


WINDS = [
    CALM,
    *(Wind(mph * MPH, radians(turn)) for mph in (10, 30) for turn in (0, 70, 180, 270)),
    Wind(30 * MPH, radians(40), 0.5),
]


@pytest.mark.parametrize("wind", WINDS, ids=str)
def test_every_club_against_dop853(wind: Wind) -> None:
    # SciPy's DOP853 at 1e-9 on equations written out separately: 0.02 yd, every club.
    _, launch = bag_launches(player(), physics=physics())
    full = range(0, launch.speed_mps.size, 5)
    for height_m in (0.0, -8.0):
        down = fly(launch=launch, air=REFERENCE, wind=wind, ball=BALL, height_m=height_m)
        for i in full:
            carry, side = dop853(launch, i, air=REFERENCE, wind=wind, ball=BALL, height_m=height_m)
            assert down.carry_m[i] == pytest.approx(carry, abs=0.02 * YD)
            assert down.side_m[i] == pytest.approx(side, abs=0.02 * YD)


def test_published_launches() -> None:
    n = len(TOUR.rows)
    launch = Launch(
        np.array(TOUR.column("ball_mph")) * MPH,
        np.radians(TOUR.column("launch_deg")),
        np.zeros(n),
        np.array(TOUR.column("spin_rpm")) * RPM,
        np.zeros(n),
    )
    down = fly(launch=launch, air=REFERENCE, wind=CALM, ball=BALL)
    share = down.carry_m / YD / np.array(TOUR.column("carry_yd")) - 1.0
    assert np.all(np.abs(share) < 0.04)
    assert sqrt(float(np.mean(share**2))) < 0.02
    assert np.all(np.abs(down.apex_m / YD - TOUR.column("apex_yd")) < 3.0)
    assert np.all(np.abs(np.degrees(down.descent_rad) - TOUR.column("descent_deg")) < 6.0)


def test_batch_of_conditions_is_the_flights_one_by_one() -> None:
    _, launch = bag_launches(player(), physics=physics())
    airs = [REFERENCE, Air(1.0, 1.8e-5), REFERENCE]
    winds = [Wind(8.0, 1.0), CALM, Wind(4.0, 4.0)]
    assert fly(launch=launch, air=airs[:1], wind=CALM, ball=BALL).carry_m.shape[0] == 1
    batch = fly(launch=launch, air=airs, wind=winds, ball=BALL, height_m=-3.0)
    assert batch.carry_m.shape == (3, launch.speed_mps.size)
    for row, (air, wind) in enumerate(zip(airs, winds, strict=True)):
        alone = fly(launch=launch, air=air, wind=wind, ball=BALL, height_m=-3.0)
        np.testing.assert_allclose(batch.carry_m[row], alone.carry_m, atol=1e-9)
        np.testing.assert_allclose(batch.side_m[row], alone.side_m, atol=1e-9)


def test_batches_flown_together_come_down_as_alone() -> None:
    airs = [REFERENCE, air_of(air_k=300.0, pressure_pa=85000.0, humidity=0.2)]
    batches = [
        Batch(one(60.0, 14, 4000), airs[1], Wind(6.0, 1.0)),
        Batch(one(40.0, 25, 6000, 5), airs[0], [CALM, Wind(9.0, -2.0)], -8.0),
    ]
    together = trace(batches=batches, ball=BALL)
    for batch, path in zip(batches, together, strict=True):
        alone = landing(path=trace(batches=[batch], ball=BALL)[0], height_m=batch.lowest_m)
        down = landing(path=path, height_m=batch.lowest_m)
        assert down.carry_m.shape == alone.carry_m.shape
        np.testing.assert_allclose(down.carry_m, alone.carry_m, atol=1e-9)
        np.testing.assert_allclose(down.side_m, alone.side_m, atol=1e-9)


def test_a_ball_that_stays_below_the_target_is_said_so_at_its_apex() -> None:
    path = trace(batches=[Batch(one(30.0, 8), REFERENCE, CALM)], ball=BALL)[0]
    down = landing(path=path, height_m=25.0)
    assert not down.reached[0]
    assert down.apex_m[0] < 25.0
    assert np.isfinite(down.carry_m[0])


def test_spin_tilted_right_curves_right() -> None:
    down = fly(launch=one(60.0, 14, 5000, 8), air=REFERENCE, wind=CALM, ball=BALL)
    assert down.side_m[0] > 1.0
    assert down.heading_rad[0] > 0.0


def test_wind_from_the_right_pushes_left() -> None:
    wind = Wind(5.0, radians(90))
    down = fly(launch=one(60.0, 14, 5000), air=REFERENCE, wind=wind, ball=BALL)
    assert down.side_m[0] < -1.0


@pytest.mark.parametrize(
    ("launch", "wind", "height_m"),
    [
        (one(120.0, 11), CALM, 0.0),
        (one(1.0, 11), CALM, 0.0),
        (one(60.0, 85), CALM, 0.0),
        (one(60.0, 11, 30000), CALM, 0.0),
        (one(float("nan"), 11), CALM, 0.0),
        (one(60.0, 11), Wind(60.0, 0.0), 0.0),
        (one(60.0, 11), CALM, 500 * FT),
    ],
)
def test_refuses_what_it_is_not_valid_for(launch: Launch, wind: Wind, height_m: float) -> None:
    with pytest.raises(OutOfRange) as caught:
        fly(launch=launch, air=REFERENCE, wind=wind, ball=BALL, height_m=height_m)
    assert caught.value.low < caught.value.high
