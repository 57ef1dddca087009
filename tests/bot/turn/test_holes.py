"""Is what was told of one hole forgotten on the next? A wind by the clock turns with it."""

from bot import app
from bot.storage.memory import MemoryStore
from tests.support.chats import DEMO, Speaker, say


def test_a_wind_told_on_one_hole_is_not_carried_to_the_next() -> None:
    store = MemoryStore()
    app.load_demo(store, DEMO)
    conversation = app.conversation(store)
    said = ("start round", "practice", "hole 1 par 4", "150, into 18", "made 5", "150")
    answers = [
        conversation.process(say(Speaker(), text, str(n))).answers for n, text in enumerate(said)
    ]
    into, calm = answers[3][0]["plays"], answers[5][0]["plays"]
    assert into["wind"]["value"] > 10.0
    assert calm["wind"]["value"] == 0.0


def test_up_for_down_keeps_the_size_told_before() -> None:
    store = MemoryStore()
    app.load_demo(store, DEMO)
    conversation = app.conversation(store)
    down, up = (
        conversation.process(say(Speaker(), text, str(n))).answers[0]["plays"]
        for n, text in enumerate(("150, downhill 10 ft", "no wait uphill not downhill"))
    )
    assert down["height"]["value"] < -2.0
    assert up["height"]["value"] > 2.0
