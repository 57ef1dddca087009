"""The main job, end to end: it must run after every change."""

from bot import app
from bot.storage.memory import MemoryStore
from tests.support.chats import DEMO, Speaker, say


def test_a_message_gets_a_reply_once() -> None:
    store = MemoryStore()
    app.load_demo(store, DEMO)
    conversation = app.conversation(store)
    message = say(Speaker(), "160, into 18 mph, uphill 8 ft, water right", "1")
    first = conversation.process(message)
    again = conversation.process(message)
    assert first.reply.lines == again.reply.lines
    assert not first.repeated
    assert again.repeated
