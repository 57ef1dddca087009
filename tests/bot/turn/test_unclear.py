"""Is a small number behind a shot in the wind asked about, and taken for what it is said to be?"""

import pytest

from tests.support.chats import play, said

QUESTION = ["Is that the wind now, or the distance to the pin?"]


def head(*messages: str) -> str:
    return said(*messages)[0]


@pytest.mark.parametrize("number", ["now 20", "about 20", "20 now", "it's 20 now", "20 stronger"])
def test_a_number_that_may_be_the_wind_is_asked_about(number: str) -> None:
    assert said("150, into 10", number) == QUESTION
    assert head("150, into 10", number, "wind") == head("150, into 20")


def test_the_same_number_can_be_the_distance() -> None:
    lines = said("150, into 10", "now 15", "distance")
    assert "Last: 6-iron, 135." in lines[0]
    assert lines[1] == said("15 yards")[1]


@pytest.mark.parametrize(
    ("answer", "same"), [("wind 18", "150, into 18"), ("18 mph", "150, into 18")]
)
def test_an_answer_that_tells_the_wind_whole_is_taken(answer: str, same: str) -> None:
    assert head("150, into 10", "now 20", answer) == head(same)


@pytest.mark.parametrize(
    "talk",
    [
        ("150", "now 20"),  # no wind was told
        ("30 yards, chip", "now 20"),
        ("150, into 10", "20 out"),
        ("150, into 10", "now 120"),
        ("150, into 10", "20"),
    ],
)
def test_nothing_is_asked_where_it_is_plain(talk: tuple[str, ...]) -> None:
    assert said(*talk) != QUESTION


def test_the_question_keeps_no_result_of_the_last_shot() -> None:
    played, _ = play("# t\n@ demo\n> 150, into 10\n> now 20\n> wind\n")
    assert "Last:" not in played


def test_a_wind_stronger_by_so_much_in_another_unit_is_not_added_up() -> None:
    line = head("150, into 10 mph", "5 knots stronger")
    assert line != head("150, into 15 mph")
    assert "if" in line or "How strong" in line
