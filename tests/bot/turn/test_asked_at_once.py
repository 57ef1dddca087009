"""A question that comes with the shot is answered in the same two lines.

What a caddie answers to it is common practice, no source.
"""

import re

import pytest

from tests.support.chats import said


@pytest.mark.parametrize("message", ["7 or 8? 150", "150, 7 or 8, into 10", "160 8 iron?"])
def test_every_club_named_with_a_shot_is_answered(message: str) -> None:
    number = said(message)[0]
    assert "plays" in number
    for club in re.findall(r"\b[78]\b", message):
        assert f"{club}-iron" in number


def test_a_family_of_clubs_means_the_one_in_the_bag() -> None:
    assert "4-hybrid" in said("192 hybrid?")[0]


def test_a_club_that_is_best_is_said_to_be() -> None:
    first = said("192, into 12")[0].rpartition(". ")[2].rstrip(".").split(",")[0]
    assert said(f"192, into 12, {first}?")[0].endswith(f"Yes, {first}.")


@pytest.mark.parametrize(
    "message",
    ["235 to the front, water short 215, can I get there", "go or lay up? 230, water short"],
)
def test_whether_to_go_is_answered_with_its_chance_and_the_way_to_play(message: str) -> None:
    number, _ = said(message)
    assert re.match(r"(Yes: .*|No: .*|.* gets there (\d+%|1 in \d+))", number)
    assert "leaves" in number or number.startswith("Yes")


def test_a_yardage_to_leave_is_named_with_its_price_or_its_distance() -> None:
    number = said("255 to go, water short", "lay up to 100")[0]
    assert re.search(r"to (9\d|10\d) (costs 0\.\d\d|as good)|leaves (9[4-9]|10[0-6])\b", number)
    beyond = said("355 left, par 5, sand 245 out, leave 80")[0]
    assert "nearest to 80" in beyond


@pytest.mark.parametrize("length", [3, 9, 30])
def test_trouble_that_was_not_read_is_never_left_out_in_silence(length: int) -> None:
    thing = "zq" * length
    number, aim = said(f"210, water right 190 to 210, {thing} left of the green")
    assert "Did not get" in aim
    assert max(len(number), len(aim)) <= 64


def test_a_hole_told_with_its_length_gets_its_tee_shot() -> None:
    first, *_ = said("practice round", "hole 7 par 4 428")
    assert first.startswith("428 to go. ")
    assert "competition" in said("par 4 428")[0]


def test_notes_of_the_hole_being_begun_bring_its_tee_shot() -> None:
    note = "hole 1 par 4 388 si 7, water right 220 to 260"
    number, aim = said("practice round", note)
    assert number.startswith("388 to go. ")
    assert "Noted." in number + aim
    assert said(note)[0].startswith("Kept 1, ")  # no round: the evening before


def test_why_is_told_at_the_edge_of_what_the_model_knows() -> None:
    assert said("150 into 48", "why")[0].startswith("150 plays ")


def test_a_shot_pasted_several_times_is_answered_once() -> None:
    once, often = said("160, into 10"), said("160, into 10\n" * 8)
    assert often == once
