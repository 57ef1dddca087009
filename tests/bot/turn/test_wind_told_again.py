"""Is a wind that was told kept as it was, and changed by what is said of it alone?"""

import pytest

from bot.model.measure import Measure
from bot.model.reading import Facts, Hazard, Wind
from bot.turn.memory import follow
from tests.support.chats import said

INTO = Wind(speed=Measure(value=10), from_deg=0.0)


@pytest.mark.parametrize(
    ("change", "by", "now"),
    [
        ("more", Measure(value=5), 15.0),
        ("less", Measure(value=4), 6.0),
        ("less", Measure(value=14), 0.0),
        ("half", None, 5.0),
        ("double", None, 20.0),
    ],
)
def test_a_wind_changes_by_what_is_told(change, by, now) -> None:
    told = Wind(change=change) if by is None else Wind(change=change, speed=by)
    wind = follow(Facts(wind=INTO), Facts(wind=told)).wind
    assert wind is not None
    assert wind.speed is not None
    assert wind.speed.value == now
    assert wind.from_deg == 0.0


def test_a_wind_told_in_miles_stays_in_them_behind_a_shot_in_metres() -> None:
    kept = said("160 into 12", "150 metres")[0]
    assert kept == said("160 into 12 mph", "150 metres")[0]
    assert kept != said("160 into 12 km/h", "150 metres")[0]


def test_a_side_of_trouble_put_right_leaves_the_wind() -> None:
    before = Facts(wind=Wind(speed=Measure(value=10), from_deg=90.0))
    water = Facts(hazards=(Hazard(kind="water", side="left"),))
    assert follow(before, water, "right", correct=True).wind == before.wind
    assert follow(before, Facts(), "right", correct=True).wind != before.wind


def test_a_number_behind_the_question_of_its_side_is_its_strength() -> None:
    assert said("150, crosswind", "10", "off the left") == said("150, 10 off the left")


def test_a_plugged_ball_in_sand_is_said_not_to_be_weighed() -> None:
    assert "Not weighed: plugged ball." in said("150 fairway bunker", "plugged")[1]


def test_a_wind_without_strength_or_way_is_not_called_calm() -> None:
    assert said("150, crosswind") == ["Is that wind off the left or off the right?"]
    assert "Wind left out, no direction told." in said("150, it's windy")[1]
    assert "Taking calm." in said("150")[1]
