"""What is only supposed is answered and leaves no trace in the shots that follow.

That an "if" tells nothing of the day is common practice, no source.
"""

import re

import pytest

from tests.support.chats import said


def wind_part(*messages: str) -> int:
    found = re.search(r"wind ([+-]\d+)", said(*messages)[0])
    return int(found[1]) if found else 0


@pytest.mark.parametrize("supposed", ["and if there was no wind?", "what if it dropped to 4"])
def test_the_answer_is_for_what_was_supposed(supposed: str) -> None:
    assert wind_part("152 into 14", supposed) < wind_part("152 into 14")


@pytest.mark.parametrize("supposed", ["and if there was no wind?", "what if it was 20 helping?"])
def test_the_next_shot_is_played_in_the_wind_that_blows(supposed: str) -> None:
    assert said("152 into 14", supposed, "140")[0] == said("152 into 14", "140")[0]


def test_what_is_told_as_it_is_stays() -> None:
    assert wind_part("152 into 14", "the wind has died", "140") < wind_part("152 into 14", "140")


@pytest.mark.parametrize(
    ("news", "named"),
    [("greens are slow today", "slow greens"), ("greens are running 11", "greens 11")],
)
def test_the_pace_of_the_greens_is_noted_beside_a_full_shot(news: str, named: str) -> None:
    assert said("152 into 14", news) == [f"Noted today: {named}."]


def test_cold_hands_do_not_cost_the_shot() -> None:
    care, number = said("my fingers are numb, 38F, 147, into 9")
    assert "cold" in care
    assert number.startswith("147 plays")
