"""A wind told by its direction alone counts, and what was taken for its strength is said.

That it must not be taken for calm is common practice, no source.
"""

import re

import pytest

from tests.support.chats import said


@pytest.mark.parametrize(
    ("message", "sign"),
    [("155 into the wind", 1), ("155 downwind", -1), ("155, wind in our faces", 1)],
)
def test_the_number_moves_the_way_the_wind_blows(message: str, sign: int) -> None:
    number = said(message)[0]
    found = re.search(r"wind ([+-]\d+) if \d+ mph", number)
    assert found, number
    assert int(found[1]) * sign > 0


def test_a_strength_told_next_is_that_wind_s() -> None:
    told_at_once = said("155 into 20")[0]
    assert said("155 into the wind", "20 mph")[0] == told_at_once


def test_no_strength_is_made_up_for_a_wind_that_has_one() -> None:
    number, aim = said("155 into 20")
    assert " if " not in number
    assert "Taking" not in aim


def test_a_change_without_a_number_is_asked_for_where_it_counts() -> None:
    assert said("155 into 20", "wind's dropped")[0] == "How strong is that wind?"
    assert said("155 into 20", "wind's dropped", "8") == said("155 into 8")


def test_a_change_that_counts_little_moves_the_wind_and_says_to_what() -> None:
    number = said("155 into 8", "wind's dropped")[0]
    found = re.search(r"wind \+\d+ if (\d+) mph", number)
    assert found, number
    assert 0 < int(found[1]) < 8


@pytest.mark.parametrize(
    ("question", "club"),
    [("one more club?", "6-iron"), ("club down", "8-iron"), ("why not one club less", "8-iron"),
     ("should i take two clubs more?", "5-iron"), ("what about less club", "8-iron")],
)  # fmt: skip
def test_a_club_more_or_less_is_compared_with_the_one_advised(question: str, club: str) -> None:
    assert "7-iron" in said("155 into 5")[0]
    assert club in " ".join(said("155 into 5", question))


def test_the_bag_ends() -> None:
    assert "longest club" in said("hole 3 par 4 400 no wind", "club up?")[0]
