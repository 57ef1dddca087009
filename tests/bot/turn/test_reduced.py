"""A told result becomes evidence about a full swing, or nothing."""

from __future__ import annotations

import math

import pytest

from bot.model.advice import PlaysAs, ShotAdvice, Weighed
from bot.model.measure import Measure
from bot.model.reading import Facts, Hazard, Profile, Result, Wind
from bot.model.state import ClubFact, DayFacts, Player
from bot.model.state import Profile as Stored
from bot.turn.profile_change import changed
from bot.turn.question import setting_of
from bot.turn.reduced import impossible, reduced
from engine import si

YD = 0.9144


def yd(value: float) -> Measure:
    return Measure(value=value, unit="yd")


def player(**facts: object) -> Player:
    clubs = (ClubFact(name="7i", carry=yd(150)),)
    profile = Stored(version=1, hand="right", handicap=14, clubs=clubs, **facts)  # type: ignore[arg-type]
    return Player(ids=("me",), units="imperial", profile=profile)


def advice(*, swing: str = "full", finish: float = 0.0, wind: float = 0.0) -> ShotAdvice:
    nought = yd(0)
    best = Weighed(
        club="7i", swing=swing, carry=yd(146), total=yd(152), start=Measure(value=0, unit="deg"),
        finish=yd(finish), seen_at=yd(150), start_from_middle=nought, finish_from_middle=nought,
        half_width=nought, strokes=3.0, chances={}, left=nought, past_front=0.9,
    )  # fmt: skip
    plays = PlaysAs(
        total=yd(150 + wind), wind=yd(wind), height=nought, air=nought, lie=nought, thumb=nought
    )
    return ShotAdvice(
        shot_kind="shot", distance=yd(150), plays=plays, best=best, pin_from_middle=nought
    )


def interval(act: Result, given: ShotAdvice | None = None, facts: Facts | None = None):  # type: ignore[no-untyped-def]
    seen = reduced(act, advice=given, facts=facts, player=player())
    assert seen is not None
    return seen.low_m / YD, seen.high_m / YD


def test_a_carry_told_alone_teaches_its_club() -> None:
    low, high = interval(Result(club="7i", carry=yd(148)))
    assert low < 148 < high


def test_short_of_the_flag_into_wind_is_brought_back_to_calm() -> None:
    calm = interval(Result(depth="short", by=yd(10)), advice())
    windy = interval(Result(depth="short", by=yd(10)), advice(wind=15))
    assert windy[1] == pytest.approx(calm[1] * 165 / 150)


def test_run_worked_out_is_taken_off_what_finished_pin_high() -> None:
    low, high = interval(Result(depth="pin_high"), advice())
    assert low < 144 < high < 155


def test_the_side_is_told_from_where_the_ball_was_meant_to_finish() -> None:
    act = Result(depth="pin_high", side="left", side_by=yd(8))
    seen = reduced(act, advice=advice(finish=-8), facts=None, player=player())
    assert seen is not None
    assert (seen.left_rad + seen.right_rad) / 2 == pytest.approx(0, abs=1e-9)


def test_in_the_told_water_is_between_its_edges() -> None:
    water = Hazard(kind="water", side="short", start=yd(120), end=yd(138))
    facts = Facts(hazards=(water,))
    low, high = interval(Result(lie=("water",), depth="short"), advice(), facts)
    assert 112 < low <= 120
    assert high == pytest.approx(138)


def test_near_the_hole_is_between_two_distances() -> None:
    low, high = interval(Result(proximity=Measure(value=15, unit="ft")), advice())
    assert low == pytest.approx(145 - 6)  # six yards of run worked out
    assert high == pytest.approx(155)


def test_a_word_of_contact_teaches_even_alone() -> None:
    seen = reduced(Result(club="7i", contact="fat"), advice=None, facts=None, player=player())
    assert seen is not None
    assert (seen.contact, seen.low_m, seen.high_m) == ("mishit", -math.inf, math.inf)


@pytest.mark.parametrize(
    ("act", "given"),
    [
        (Result(depth="short"), None),
        (Result(depth="short"), advice(swing="knocked_down")),
        (Result(club="7i", carry=yd(120), swing="three_quarter"), None),
        (Result(putt=True, depth="short"), advice()),
    ],
)
def test_what_is_no_full_swing_teaches_nothing(act: Result, given: ShotAdvice | None) -> None:
    assert reduced(act, advice=given, facts=None, player=player()) is None


def test_a_seven_iron_of_320_is_impossible() -> None:
    act = Result(club="7i", carry=yd(320))
    seen = reduced(act, advice=None, facts=None, player=player())
    assert seen is not None
    assert impossible(act, seen, player())


def test_feel_scales_called_winds_and_heights_but_no_weather_report() -> None:
    wind = Wind(speed=Measure(value=20, unit="mph"), from_deg=0)
    facts = Facts(distance=yd(150), wind=wind)

    def speed(facts: Facts, day: DayFacts) -> float:
        setting = setting_of(facts, day, "imperial", tee=False, protect=False, wind_feel=0.8)
        assert setting.wind is not None
        return si(setting.wind.speed, "mph")

    assert speed(facts, DayFacts()) == pytest.approx(16)
    reported = DayFacts(wind=wind, metar="METAR")
    assert speed(Facts(distance=yd(150)), reported) == pytest.approx(20)


def test_a_left_handers_big_slice_misses_left() -> None:
    # The reader names the side a right-hander's slice goes to.
    lefty = Player(ids=("me",), profile=Stored(hand="left"))
    told = Profile(intent="set_miss", miss="right", shape="slice")
    result = changed(lefty, (told,))
    assert isinstance(result, tuple)
    assert result[0].profile.miss == "left"
