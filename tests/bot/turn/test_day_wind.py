"""Is the day's wind weighed, named by why, and said where a shot's own wind is another?"""

import pytest

from bot.model.measure import Measure
from bot.model.message import Message
from bot.model.reading import Facts, Hole, Wind
from bot.model.state import DayFacts, Trip
from bot.turn.day import differing
from bot.turn.desk import Desk
from tests.support.chats import said
from tests.support.turns import Bench

DAY = "wind SW 12 today"
NORTH = "hole plays due north"


def test_a_shot_in_the_days_wind_says_so() -> None:
    assert "Day's wind." in said(DAY, f"150, {NORTH}")[1]
    assert "Day's wind." not in said(DAY, f"150, wind SW 12, {NORTH}")[1]


def test_why_names_the_days_wind_and_what_it_does() -> None:
    lines = said(DAY, f"150, {NORTH}", "why")
    assert "The day's wind: 12 from SW, helping off the left." in lines
    assert any("mph more wind" in line or "mph less wind" in line for line in lines)


def test_why_names_a_wind_told_for_the_shot_alone() -> None:
    lines = said("150, into 10", "why")
    assert "Wind: 10 into." in lines
    assert not any("day's" in line for line in lines)


def test_why_names_no_wind_where_none_blows() -> None:
    assert not any(line.startswith("Wind") for line in said("150", "why"))


@pytest.mark.parametrize("told", ["wind 10 into", "calm", "25 off the left"])
def test_a_wind_that_contradicts_the_day_is_said(told: str) -> None:
    talk = (DAY, f"150, {told}, {NORTH}")
    assert "Day's wind was 12 from SW." in said(*talk)[1]
    assert "The day's wind was 12 from SW." in said(*talk, "why")


def test_the_days_wind_told_again_contradicts_nothing() -> None:
    assert "was" not in said(DAY, f"150, 12 helping off the left, {NORTH}")[1]


@pytest.mark.parametrize(
    ("told", "differs"),
    [
        (Wind(from_deg=225.0), False),
        (Wind(from_deg=180.0), False),
        (Wind(from_deg=0.0), True),
        (Wind(from_deg=45.0), True),
        (Wind(from_deg=225.0, speed=Measure(value=14, unit="mph")), False),
        (Wind(from_deg=225.0, speed=Measure(value=20, unit="mph")), True),
        (Wind(compass="N", speed=Measure(value=20, unit="mph")), False),
        (None, False),
    ],
)
def test_which_winds_are_another(told: Wind | None, differs: bool) -> None:
    day = Wind(compass="SW", speed=Measure(value=12, unit="mph"))
    bench = Bench()
    message = Message(chat="me", sender="me", message_id="1", sent_at=bench.now, text="")
    desk = Desk(message=message, shelf=bench, tables=lambda _k, _n, make: make())
    desk = desk.put(Trip(ids=("me",), day=DayFacts(wind=day, at=bench.now)))
    found = differing(desk, told, Facts(hole=Hole(bearing_deg=0.0)), tee=False)
    assert (found == day) is differs
