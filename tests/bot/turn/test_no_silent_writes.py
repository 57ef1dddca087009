"""Does a question about a shot leave the card and the bag alone?"""

import pytest

from bot import app
from bot.storage.memory import MemoryStore
from tests.support.chats import DEMO, Speaker, say


@pytest.mark.parametrize(
    "text",
    ["355 left on a par 5, sand 245 out", "355 left on a par five, sand 245 out, I like 110 in"],
)
def test_a_shot_on_a_par_five_writes_no_score_and_no_liking(text: str) -> None:
    store = MemoryStore()
    app.load_demo(store, DEMO)
    handled = app.conversation(store).process(say(Speaker(), text, "1"))
    assert [a["kind"] for a in handled.answers] == ["shot"]
    assert not list(store.entries(player="me", kinds=("score", "profile")))


def test_trouble_across_between_two_distances_is_kept() -> None:
    store = MemoryStore()
    app.load_demo(store, DEMO)
    text = "par 4 380, stream across 230 to 245"
    (act,) = app.conversation(store).process(say(Speaker(), text, "1")).reading["acts"]
    (hazard,) = act["facts"]["hazards"]
    assert hazard["side"] == "cross"
    assert (hazard["start"]["value"], hazard["end"]["value"]) == (230.0, 245.0)
