"""What was told of a shot stays told: behind a question, an open question, another stance."""

import pytest

from bot.model.reading import Facts
from bot.turn.memory import follow
from tests.support.chats import said

WATER = "150, water right, bunker short 130 to carry"


@pytest.mark.parametrize(
    ("old", "new", "now"),
    [
        (("rough", "below_feet"), ("above_feet",), ("rough", "above_feet")),
        (("rough",), ("downslope",), ("rough", "downslope")),
        (("rough", "above_feet"), ("fairway",), ("above_feet", "fairway")),
        (("rough", "sitting_down"), ("sitting_up",), ("rough", "sitting_up")),
        (("rough", "sitting_down"), ("fairway",), ("fairway",)),
        (("above_feet", "rough"), ("upslope",), ("above_feet", "rough", "upslope")),
        (("rough",), (), ("rough",)),
    ],
)
def test_stance_and_turf_are_told_apart(old, new, now) -> None:
    assert follow(Facts(lie=old), Facts(lie=new)).lie == now


def test_a_corrected_stance_keeps_the_rough() -> None:
    corrected = said("160 from the rough, ball below feet", "ball above feet actually")
    assert corrected == said("160 from the rough, ball above feet")


@pytest.mark.parametrize(
    "question",
    [
        "what do i need to carry", "chance of the water?", "how far to carry the water",
        "what's the carry", "what does it take to clear the water", "what's the risk", "bunker?",
    ],
)  # fmt: skip
def test_a_question_leaves_the_trouble_as_told(question: str) -> None:
    assert said(WATER, question, "why") == said(WATER, "why")
    assert said(WATER, question, "wind 10 into") == said(WATER, "wind 10 into")


def test_the_trouble_asked_about_is_the_one_that_is_named() -> None:
    assert "Bunker" in said(WATER)[1]
    assert "Water" in said(WATER, "chance of the water?")[1]


def test_trouble_that_was_not_told_before_is_news() -> None:
    assert "Water" in said("150", "chance of the water on the left?")[1]


@pytest.mark.parametrize("wind", ["12 across", "crosswind 12"])
def test_a_wind_whose_side_was_asked_for_is_not_taken_for_calm(wind: str) -> None:
    assert said(f"150, {wind}") == ["Is that wind off the left or off the right?"]
    assert "Wind left out, no side told." in said(f"150, {wind}", "170")[1]


def test_its_side_may_be_told_later() -> None:
    assert said("150, 12 across", "170", "off the left")[0] == said("170, 12 off the left")[0]


def test_a_wind_told_anew_stands_for_the_one_asked_about() -> None:
    assert said("150, 12 across", "170, into 10") == said("170, into 10")


def test_a_wind_without_a_side_stays_on_its_hole() -> None:
    assert "left out" not in said("150, 12 across", "hole 7, par 3, 170")[1]


def test_the_side_of_the_rough_is_not_left_over_and_a_blind_green_is_named() -> None:
    assert "Did not get" not in " ".join(said("150 from the left rough"))
    assert "Not weighed: blind shot." in said("150, can't see the green")[1]
    assert "Not weighed: road." in said("160 over the road")[1]


def test_a_strength_told_alone_names_the_way_it_is_taken_from() -> None:
    assert "Wind still into." in said("150, into 10", "140, wind 15")[1]
    assert "still" not in said("150, into 10", "140, into 15")[1]
    assert "still" not in said("150, into 10", "no, 15 mph")[1]
