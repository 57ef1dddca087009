"""Is a result kept with the shot it belongs to, and refused where it cannot be?"""

from bot import app
from bot.storage.memory import MemoryStore
from tests.support.chats import DEMO, Speaker, say


def talk(*texts: str) -> tuple[MemoryStore, list[tuple[str, ...]]]:
    store = MemoryStore()
    app.load_demo(store, DEMO)
    conversation = app.conversation(store)
    return store, [
        conversation.handle(say(Speaker(), text, str(n))).lines for n, text in enumerate(texts)
    ]


def test_a_result_is_tied_to_the_advice_before_it() -> None:
    store, _ = talk("160, into 10", "7 iron, short right, bunker")
    (entry,) = store.entries(player="me", kinds=("result",))
    assert entry.body["shot"] == "0"
    assert entry.body["club"] == "7i"
    assert entry.body["seen"] is not None


def test_a_club_not_named_is_the_one_advised() -> None:
    store, _ = talk("160, into 10", "came up short right")
    (advised,) = store.entries(player="me", kinds=("answer",))
    (entry,) = store.entries(player="me", kinds=("result",))
    assert entry.body["club"] == advised.body["advice"]["best"]["club"]


def test_water_costs_a_stroke() -> None:
    """Rules of Golf 2023, 17.1d: relief from a penalty area costs one stroke."""
    store, _ = talk("160, into 10", "7 iron, right, water")
    (entry,) = store.entries(player="me", kinds=("result",))
    assert entry.body["penalty"] == 1


def test_a_seven_iron_of_320_is_not_kept() -> None:
    store, lines = talk("160, into 10", "hit 7 iron 320")
    assert not list(store.entries(player="me", kinds=("result",))), lines
