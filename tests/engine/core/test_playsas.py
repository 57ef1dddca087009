from dataclasses import replace
from math import pi, radians

import numpy as np
import pytest

from engine.api.standard import physics
from engine.core.air import REFERENCE, STANDARD_PA, air_of, standard_pressure
from engine.core.calibrate import bag_launches
from engine.core.flight import fly
from engine.core.ladder import ladder
from engine.core.lie import Lie, from_lie, rule_for, ruled_out
from engine.core.playsas import PlaysAs, plays_as
from engine.core.wind import CALM, Wind
from engine.errors import OutOfRange
from tests.support.flights import FT, MPH, YD, player

P = physics()
GOLFER = player(curve_deg=0.0)


def ask(yards: float, **kw: object) -> PlaysAs:
    return plays_as(golfer=GOLFER, physics=P, target_m=yards * YD, **kw)


def wind(mph: float, from_deg: float = 0.0) -> Wind:
    return Wind(mph * MPH, radians(from_deg))


def test_nothing_told_is_the_distance_itself() -> None:
    assert ask(150).total_m == pytest.approx(150 * YD, abs=1e-9)


def test_ten_miles_an_hour_into_a_mid_iron() -> None:
    # Published and trade figures for a 145 yd mid iron: 12 to 15 yd of carry lost.
    swings, launch = bag_launches(player(scale=145 / 150), physics=P)
    i = next(i for i, s in enumerate(swings) if s.club == "7i" and s.kind == "full")
    down = fly(launch=launch, air=REFERENCE, wind=[CALM, wind(10), wind(20)], ball=P.ball)
    lost = (down.carry_m[0, i] - down.carry_m[1:, i]) / YD
    assert 12.0 <= lost[0] <= 15.0
    assert lost[1] / 20 > lost[0] / 10  # and a mile an hour costs more as it blows harder


@pytest.mark.parametrize("from_deg", [60.0, 100.0, 250.0])
def test_a_wind_across_against_starts_turned_until_the_ball_is_on_line(from_deg: float) -> None:
    # Against the definition: the rung that reaches the target, started so that it ends on line.
    rungs, blow = ladder(GOLFER, physics=P), wind(25, from_deg)
    start = rungs.launch
    for _ in range(20):
        down = fly(launch=start, air=REFERENCE, wind=blow, ball=P.ball)
        off = np.arctan2(down.side_m, down.carry_m)
        start = replace(start, azimuth_rad=start.azimuth_rad - off)
    assert np.all(np.abs(down.side_m) < 1e-6)
    calm_m = np.interp(160 * YD, down.carry_m, rungs.carry_m)
    assert ask(160, wind=blow).total_m == pytest.approx(float(calm_m), abs=0.03 * YD)


def test_help_is_worth_about_half_of_hurt() -> None:
    # Common practice, no source.
    hurt, help_ = ask(150, wind=wind(10)).wind_m, -ask(150, wind=wind(10, 180)).wind_m
    assert 0.4 <= help_ / hurt <= 0.75


def test_a_yard_for_three_feet() -> None:
    # Common practice, no source: 24 ft up adds about 8 yd.
    assert ask(150, height_m=24 * FT).height_m / YD == pytest.approx(8.0, abs=2.0)


def test_altitude_helps_about_a_per_cent_a_thousand_feet() -> None:
    # Common practice: 1 to 1.2 % of carry a thousand feet; less on shorter shots.
    thin = air_of(air_k=293.15, pressure_pa=standard_pressure(height_m=5000 * FT), humidity=0.5)
    assert 0.03 <= -ask(220, air=thin).air_m / (220 * YD) <= 0.065
    assert 0.03 <= -ask(150, air=thin).air_m / (150 * YD) <= 0.065


def test_ten_degrees_are_a_yard_or_two_on_a_drive() -> None:
    # Common practice: about 2 yd for 10 F on a drive, all causes; air alone is part of it.
    cold = air_of(air_k=293.15 - 10 / 1.8, pressure_pa=STANDARD_PA, humidity=0.5)
    assert 0.5 <= ask(220, air=cold).air_m / YD <= 2.5


@pytest.mark.parametrize("reverse", [False, True])
def test_parts_add_up_exactly(reverse: bool) -> None:
    air = air_of(air_k=283.15, pressure_pa=97000.0, humidity=0.8)
    found = ask(
        165, wind=wind(14, 300 if reverse else 40), height_m=-5.0, air=air, lie=Lie(kind="rough")
    )
    parts = found.wind_m + found.height_m + found.air_m + found.lie_m
    assert found.total_m == pytest.approx(found.target_m + parts, abs=1e-9)
    assert all((found.wind_m, found.height_m, found.air_m, found.lie_m))


def test_the_number_reaches_the_target() -> None:
    # A bag whose 7 iron carries exactly the answer lands on the target in these conditions.
    found = ask(140, wind=wind(15, 20), height_m=6.0)
    golfer = replace(
        GOLFER,
        clubs=tuple(
            replace(c, carry_m=found.total_m) if c.name == "6i" else c for c in GOLFER.clubs
        ),
    )
    swings, launch = bag_launches(golfer, physics=P)
    i = next(i for i, s in enumerate(swings) if s.club == "6i" and s.kind == "full")
    down = fly(launch=launch, air=REFERENCE, wind=wind(15, 20), ball=P.ball, height_m=6.0)
    assert np.hypot(down.carry_m[i], down.side_m[i]) == pytest.approx(140 * YD, abs=1.5 * YD)


def test_one_part_alone_takes_the_whole_difference() -> None:
    found = ask(150, wind=wind(12, 30))
    assert found.total_m - found.target_m == pytest.approx(found.wind_m)
    assert found.height_m == found.air_m == found.lie_m == 0.0


def test_says_what_is_out_of_reach() -> None:
    found = ask(260, wind=wind(20))
    assert found.beyond
    assert found.total_m > 260 * YD


def test_left_and_right_wind_play_the_same_for_a_straight_hitter() -> None:
    left, right = ask(150, wind=wind(15, 270)), ask(150, wind=wind(15, 90))
    assert left.total_m == pytest.approx(right.total_m, abs=0.02)
    assert abs(left.wind_m) < 3 * YD  # a cross wind hardly changes carry


@pytest.mark.parametrize("rule", P.lies, ids=lambda rule: rule.kind)
def test_no_lie_moves_a_carry_by_more_than_a_fifth(rule: object) -> None:
    lie = Lie(kind=rule.kind)
    swings, launch = bag_launches(GOLFER, physics=P)
    loft = np.array([s.loft_rad for s in swings])
    lain = from_lie(launch=launch, loft_rad=loft, hand=1, lie=lie, rule=rule)
    fine = np.array([not why for why in ruled_out(launch=lain, loft_rad=loft, lie=lie, rule=rule)])
    down = fly(launch=lain, air=REFERENCE, wind=CALM, ball=P.ball)
    carries = np.array([s.carry_m for s in swings])
    full = np.array([s.kind == "full" for s in swings])
    share = down.carry_m / carries - 1.0
    assert np.all(np.abs(share[fine & full]) <= 0.20)


def test_a_flyer_goes_further_and_sand_shorter() -> None:
    # Common practice, no source: a flyer 5 to 10 % longer, fairway sand 5 to 10 % shorter.
    assert -0.10 <= ask(150, lie=Lie(kind="flyer")).lie_m / (150 * YD) <= -0.05
    assert 0.05 <= ask(150, lie=Lie(kind="fairway_bunker")).lie_m / (150 * YD) <= 0.10


def test_half_to_a_club_for_five_degrees_uphill() -> None:
    # Common practice, no source.
    assert 4.0 <= ask(150, lie=Lie(uphill_rad=radians(5))).lie_m / YD <= 11.0


def test_ball_above_the_feet_starts_to_the_closed_side() -> None:
    _, launch = bag_launches(GOLFER, physics=P)
    loft = np.full(launch.speed_mps.size, radians(34))
    lie = Lie(above_rad=radians(5))
    rule = rule_for(lie=lie, rules=P.lies)
    right = from_lie(launch=launch, loft_rad=loft, hand=1, lie=lie, rule=rule)
    left = from_lie(launch=launch, loft_rad=loft, hand=-1, lie=lie, rule=rule)
    # Geometry: 3.4 deg for 34 deg of loft on 5 deg of slope is the upper bound; left = negative.
    turn = np.degrees(right.azimuth_rad - launch.azimuth_rad)
    assert np.all((turn < 0.0) & (turn > -3.4))
    np.testing.assert_allclose(left.azimuth_rad, -right.azimuth_rad)


def test_clubs_are_ruled_out_by_loft_and_by_the_lip() -> None:
    swings, launch = bag_launches(GOLFER, physics=P)
    loft = np.array([s.loft_rad for s in swings])
    lie = Lie(kind="fairway_bunker", lip_rad=radians(18))
    rule = rule_for(lie=lie, rules=P.lies)
    lain = from_lie(launch=launch, loft_rad=loft, hand=1, lie=lie, rule=rule)
    why = dict(
        zip(
            ((s.club, s.kind) for s in swings),
            ruled_out(launch=lain, loft_rad=loft, lie=lie, rule=rule),
            strict=True,
        )
    )
    assert why["D", "full"] == "loft"
    assert why["6i", "full"] == "lip"
    assert why["PW", "full"] == ""


@pytest.mark.parametrize(
    "kw",
    [{"height_m": 90.0}, {"wind": Wind(50.0, pi)}, {"lie": Lie(uphill_rad=1.0)}],
)
def test_refuses_what_nobody_plays(kw: dict[str, object]) -> None:
    with pytest.raises(OutOfRange):
        ask(150, **kw)


def test_refuses_absurd_distances() -> None:
    for yards in (2.0, 900.0, float("nan")):
        with pytest.raises(OutOfRange):
            ask(yards)


def test_a_target_high_above_needs_a_club_that_climbs() -> None:
    low, high = ask(60, height_m=5.0), ask(60, height_m=15.0)
    assert high.total_m > low.total_m > 60 * YD
    assert high.total_m < 200 * YD
