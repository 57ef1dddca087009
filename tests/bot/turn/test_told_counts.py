"""Whatever was told and read moves the advice, or the reply says that it does not count.

That a caddie drops nothing in silence is common practice, no source.
"""

import re

import pytest

from tests.support.chats import said

PLAIN = said("165 to the pin, calm")


@pytest.mark.parametrize(
    ("more", "sign"),
    [
        ("downhill", -1), ("steep uphill", 1), ("a bit up", 1), ("plays 8 more", 1),
        ("into 10 gusting 20", 1), ("2 clubs into", 1), ("altitude 5000 ft", -1),
        ("5000 ft up", -1), ("cold", 1), ("deep rough", 1), ("up 5 percent", 1),
    ],
)  # fmt: skip
def test_it_moves_the_number(more: str, sign: int) -> None:
    number = said(f"165 to the pin, {more}")[0]
    found = re.search(r"plays (\d+)", number)
    assert found, number
    assert (int(found[1]) - 165) * sign > 0, number


@pytest.mark.parametrize(
    ("more", "named"),
    [
        ("raining", "rain"), ("mud on the ball", "mud"), ("false front", "false front"),
        ("green slopes right to left", "slope"), ("swirling wind", "swirling"),
        ("hard 6", "hard swing"), ("draw it in", "draw"),
    ],
)  # fmt: skip
def test_what_has_no_weight_is_named(more: str, named: str) -> None:
    reply = " ".join(said(f"165 to the pin, {more}"))
    assert f"Not weighed: {named}" in reply


def test_a_green_that_slopes_is_no_wind() -> None:
    assert "wind" not in said("165 to the pin, green slopes right to left")[0]


def test_a_club_left_in_the_bag_is_not_named() -> None:
    usual = re.search(r"(\d-iron)", PLAIN[0])
    assert usual
    number = usual[1].split("-")[0]
    assert usual[1] not in said(f"165 to the pin, not the {number}")[0]


def test_more_told_by_a_word_is_more_height() -> None:
    played = [
        int(re.search(r"plays (\d+)", said(f"165 to the pin, {word}")[0])[1])  # type: ignore[index]
        for word in ("slightly uphill", "uphill", "steep uphill")
    ]
    assert played == sorted(set(played))


def chance(message: str) -> float:
    found = re.search(r"Bunker 1 in (\d+)", said(message)[1])
    return 1 / int(found[1]) if found else 0.0


def test_trouble_at_a_corner_is_less_than_along_two_sides() -> None:
    # Common practice, no source: "short left" is one bunker, not two walls of sand.
    assert chance("210, bunker short left") < chance("210, bunker short, bunker left") / 2
