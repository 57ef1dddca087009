"""Is a number or a side put right where it was meant, and is what was not read said?"""

from bot import app
from bot.storage.memory import MemoryStore
from tests.support.chats import DEMO, Speaker, say

BEGUN = ("practice at Wexcombe Heath", "hole 1 par 4")


def lines_of(*texts: str) -> list[tuple[str, ...]]:
    store = MemoryStore()
    app.load_demo(store, DEMO)
    conversation = app.conversation(store)
    return [
        conversation.handle(say(Speaker(), text, str(n))).lines for n, text in enumerate(texts)
    ]


def test_a_score_said_again_puts_the_last_one_right() -> None:
    assert lines_of(*BEGUN, "made 5", "no made 4")[-1][0].startswith("Hole 1: 4")


def test_a_small_number_put_right_is_the_height() -> None:
    said = lines_of("155, 12 up", "no, 8 yards")[-1][0]
    assert said.startswith("155 ")
    assert "height +" in said


def test_front_and_back_are_a_shot_to_the_middle() -> None:
    assert lines_of("150, 12 up", "front 132 back 158, pin middle")[-1][0].startswith("145 ")


def test_a_number_nobody_knows_the_unit_of_is_asked_for() -> None:
    assert lines_of("150 but yards or metres, who knows")[-1] == ("Yards or metres?",)


def test_a_number_that_was_not_read_is_said_beside_a_result() -> None:
    assert lines_of(*BEGUN, "160, calm", "7 iron short right 77 12")[-1][1] == 'Did not get "12".'


def test_a_club_and_trouble_after_advice_are_where_the_ball_went() -> None:
    assert lines_of(*BEGUN, "160, calm", "7 iron, trees right")[-1][0].startswith("Kept: 7-iron")
