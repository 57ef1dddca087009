"""Is a number the player adjusted for the slope taken as it is, neither ignored nor doubled?"""

import pytest

from bot import app
from bot.storage.memory import MemoryStore
from tests.support.chats import DEMO, Speaker, say


def plays(text: str) -> tuple[float, dict[str, float]]:
    store = MemoryStore()
    app.load_demo(store, DEMO)
    answer = app.conversation(store).process(say(Speaker(), text, "1")).answers[0]
    found = answer["plays"]
    return found["total"]["value"], {n: found[n]["value"] for n in ("wind", "height")}


@pytest.mark.parametrize(
    ("told", "wanted"), [("172, plays like 180", 180.0), ("181, slope number 174", 174.0)]
)
def test_the_players_own_number_is_what_the_shot_plays(told: str, wanted: float) -> None:
    total, _ = plays(told)
    assert total == pytest.approx(wanted, abs=0.5)


def test_height_is_not_counted_twice() -> None:
    total, _ = plays("172, plays like 180, up 24 ft")
    assert total == pytest.approx(180.0, abs=0.5)


def test_wind_comes_on_top() -> None:
    total, parts = plays("172, plays like 180, into 10")
    assert parts["wind"] > 8.0
    assert total == pytest.approx(172.0 + parts["wind"] + parts["height"], abs=0.5)
