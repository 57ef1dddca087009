"""Is the unit of a wind told without one named to a player of metres?"""

import pytest

from tests.support.chats import said

METRES = "metres please"


@pytest.mark.parametrize(
    "told", ["140, wind 10 into", "140, water left, into 10", "140, bunker short, 10 in my face"]
)
def test_it_is_named_beside_what_the_wind_does(told: str) -> None:
    assert "at 10 km/h)" in said(METRES, told)[0]


def test_it_is_named_where_the_wind_blows_across() -> None:
    assert "Taking 12 km/h of wind." in said(METRES, "140, wind 12 off the left")[1]
    assert "Taking 12 km/h of wind." in said(METRES, "140, wind 12 across", "left")[1]


@pytest.mark.parametrize(
    "told", ["140, into 5 m/s", "140, into 10 km/h", "140, 3 beaufort into", "140"]
)
def test_a_unit_that_was_told_is_not_repeated(told: str) -> None:
    reply = " ".join(said(METRES, told))
    assert "km/h" not in reply
    assert "m/s" not in reply


def test_a_wind_kept_from_before_is_named_once() -> None:
    assert "km/h" not in " ".join(said(METRES, "140, into 10", "130"))


def test_why_names_it() -> None:
    assert "Wind: 10 km/h into." in said(METRES, "140, into 10", "why")


def test_in_yards_a_bare_wind_has_one_unit() -> None:
    assert "mph" not in " ".join(said("150, into 10"))
