from dataclasses import replace

import pytest

from engine import (
    AirFacts,
    LieFacts,
    PlaysAsQuestion,
    WindFacts,
    bag_flights,
    quantity,
    shot_plays_as,
    si,
)
from engine.api.conditions import air_today, lie_today, wind_today
from engine.core.air import REFERENCE
from engine.core.wind import CALM
from tests.support.flights import player

Q = quantity
ASK = PlaysAsQuestion(golfer=player(), distance=Q(160, "yd"))


def density(facts: AirFacts, **kw: AirFacts) -> float:
    return air_today(facts, **kw).air.density_kgpm3


def test_nothing_told_is_the_usual_day() -> None:
    today = air_today(AirFacts())
    assert today.air == REFERENCE
    assert today.assumed == ("temperature", "humidity", "pressure", "altitude")


def test_altitude_alone_thins_the_air_as_the_standard_atmosphere_does() -> None:
    # ISO 2533:1975: rho/rho0 = 0.8637 at 1500 m.
    high = density(AirFacts(altitude=Q(1500, "m")))
    assert high / density(AirFacts()) == pytest.approx(0.8637, rel=5e-3)


def test_the_cold_of_altitude_counts_once() -> None:
    # CIPM-2007 at 20 C, 30 %, 843.10 hPa, which is the standard pressure at about 1525 m.
    told = AirFacts(altitude=Q(1525, "m"), temperature=Q(20, "degC"), humidity=Q(30, "%"))
    assert density(told) == pytest.approx(0.99907, rel=1e-3)


def test_a_barometer_at_the_course_needs_no_altitude() -> None:
    told = AirFacts(
        station_pressure=Q(843.1, "hPa"), temperature=Q(20, "degC"), humidity=Q(30, "%")
    )
    assert density(told) == pytest.approx(0.99907, rel=2e-4)
    assert density(replace(told, altitude=Q(2000, "m"))) == density(told)
    assert air_today(told).assumed == ()


def test_a_forecasts_pressure_is_brought_up_to_the_course() -> None:
    low = density(AirFacts(sea_level_pressure=Q(1013.25, "hPa"), altitude=Q(1525, "m")))
    assert low == pytest.approx(density(AirFacts(altitude=Q(1525, "m"))), rel=1e-6)


def test_carries_can_belong_to_a_place_high_up() -> None:
    home = AirFacts(altitude=Q(1600, "m"), temperature=Q(15, "degC"))
    assert density(AirFacts(), usual=home) == pytest.approx(density(home))
    found = shot_plays_as(replace(ASK, usual=home))
    assert si(found.total, "yd") == pytest.approx(160.0)
    down = shot_plays_as(replace(ASK, usual=home, air=AirFacts(altitude=Q(0, "m"))))
    assert si(down.air, "yd") > 3.0  # the thick air at the sea costs


def test_units_do_not_matter() -> None:
    yards = shot_plays_as(
        replace(ASK, wind=WindFacts(Q(18, "mph"), Q(0, "deg")), height=Q(8, "ft"))
    )
    metres = shot_plays_as(
        replace(
            ASK,
            distance=Q(160 * 0.9144, "m"),
            wind=WindFacts(Q(18 * 1.609344, "km/h"), Q(0, "deg")),
            height=Q(8 * 0.3048, "m"),
        )
    )
    assert si(metres.total, "yd") == pytest.approx(si(yards.total, "yd"), abs=1e-6)


def test_parts_and_distance_are_the_total() -> None:
    found = shot_plays_as(
        replace(
            ASK,
            wind=WindFacts(Q(12, "mph"), Q(30, "deg")),
            height=Q(-20, "ft"),
            air=AirFacts(temperature=Q(45, "degF")),
            lie=LieFacts(kind="rough"),
        )
    )
    parts = sum(si(q, "yd") for q in (found.wind, found.height, found.air, found.lie))
    assert si(found.total, "yd") == pytest.approx(160.0 + parts, abs=1e-9)


def test_rules_of_thumb_stand_beside_the_model() -> None:
    # Common practice: 1 % of distance a mph into the wind, a yard for three feet up.
    found = shot_plays_as(
        replace(ASK, wind=WindFacts(Q(10, "mph"), Q(0, "deg")), height=Q(9, "ft"))
    )
    assert si(found.thumb, "yd") == pytest.approx(160 * 1.1 + 3)
    helped = shot_plays_as(replace(ASK, wind=WindFacts(Q(10, "mph"), Q(180, "deg"))))
    assert si(helped.thumb, "yd") == pytest.approx(160 * 0.95)


def test_a_wind_felt_at_the_flag_is_another_case() -> None:
    told = WindFacts(Q(10, "mph"), Q(0, "deg"))
    felt = replace(told, felt_at_flag=True)
    assert wind_today(felt).speed_mps > wind_today(told).speed_mps
    assert wind_today(None) == CALM


def test_gusts_and_guesses_are_doubt_and_not_wind() -> None:
    told = WindFacts(Q(10, "mph"), Q(0, "deg"))
    gusty = wind_today(replace(told, gust=Q(25, "mph"), guessed=True))
    assert gusty.speed_mps == wind_today(told).speed_mps
    assert gusty.doubt > wind_today(told).doubt


def test_a_lie_told_becomes_slopes() -> None:
    lie = lie_today(LieFacts(kind="rough", uphill=Q(5, "deg"), above_feet=Q(-3, "deg")))
    assert lie.kind == "rough"
    assert lie.uphill_rad == pytest.approx(0.0872665)
    assert lie.above_rad == pytest.approx(-0.0523599)


def test_the_bag_flies_in_the_order_of_the_bag() -> None:
    golfer = player()
    full = bag_flights(golfer, wind=Q(10, "mph"))
    assert [f.club for f in full] == [c.name for c in golfer.clubs]
    every = bag_flights(golfer, wind=Q(10, "mph"), full_only=False)
    assert len(every) > len(full)
