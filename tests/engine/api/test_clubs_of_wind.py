"""A wind told in clubs costs that many clubs.

What a club of wind is: the wind into which one club more is taken (common practice, no source).
"""

import pytest

from engine import PlaysAsQuestion, WindFacts, quantity, shot_plays_as, si, wind_of_clubs
from tests.support.flights import player


def mph(clubs: float) -> float:
    return si(wind_of_clubs(golfer=player(), clubs=clubs), "mph")


@pytest.mark.parametrize("clubs", [0.5, 1, 2, 3])
def test_against_it_the_middle_club_falls_back_by_so_many(clubs: float) -> None:
    bag = sorted(c.carry_m for c in player().clubs)
    middle = len(bag) // 2
    asked = PlaysAsQuestion(
        golfer=player(),
        distance=quantity(bag[middle], "m"),
        wind=WindFacts(
            speed=wind_of_clubs(golfer=player(), clubs=clubs), comes_from=quantity(0, "deg")
        ),
    )
    gap = (bag[middle + 1] - bag[middle - 1]) / 2
    assert si(shot_plays_as(asked).total, "m") == pytest.approx(bag[middle] + clubs * gap, abs=0.3)


def test_one_club_is_about_ten_miles_an_hour() -> None:
    assert 7 <= mph(1) <= 14  # common practice, no source


def test_more_clubs_are_more_wind_up_to_the_strongest() -> None:
    assert mph(0.5) < mph(1) < mph(2) < mph(3)
    assert mph(40) == pytest.approx(si(quantity(22.5, "m/s"), "mph"))
