"""A compass wind turns to the line of play where that is known, and is asked for elsewhere."""

import pytest

from bot import app
from bot.storage.memory import MemoryStore
from tests.support.chats import DEMO, Speaker, say


def answers(*said: str) -> list[dict]:
    store = MemoryStore()
    app.load_demo(store, DEMO)
    conversation = app.conversation(store)
    return [
        conversation.process(say(Speaker(), text, str(n))).answers[-1]
        for n, text in enumerate(said)
    ]


# Where a south-west wind (from 225 deg) comes from, seen along a bearing.
@pytest.mark.parametrize(
    ("bearing", "sign"),
    [("bearing 225", 1), ("bearing 45", -1)],
)
def test_a_told_bearing_turns_the_wind(bearing: str, sign: int) -> None:
    (shot,) = answers(f"{bearing}, 160, wind SW 15")
    assert sign * shot["plays"]["wind"]["value"] > 5.0


def test_the_side_is_right() -> None:
    # Going north, a wind from the west is off the left.
    (shot,) = answers("bearing 360, 160, wind W 15, water right")
    assert shot["wind"]["from_deg"] == pytest.approx(270.0)
    (shot,) = answers("bearing 180, 160, wind W 15, water right")
    assert shot["wind"]["from_deg"] == pytest.approx(90.0)


def test_the_holes_of_a_course_turn_one_wind_their_own_way() -> None:
    # The demo course: hole 1 plays to the north-east, hole 2 to the north.
    first, second = answers(
        "start round", "practice", "hole 1", "tee 160, wind NE 15", "hole 2", "tee 160, wind NE 15"
    )[3::2]
    assert first["wind"]["from_deg"] == pytest.approx(0.0)
    assert second["wind"]["from_deg"] == pytest.approx(45.0)


def test_without_a_line_the_direction_is_asked_for() -> None:
    (asked,) = answers("160, wind SW 15")
    assert asked["kind"] == "ask"
