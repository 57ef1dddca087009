"""An edited message takes back what its first text logged, and is answered once."""

from datetime import UTC, datetime, timedelta

from bot.conversation import Conversation
from bot.model.message import Message
from bot.storage.memory import MemoryStore

NOON = datetime(2031, 5, 4, 12, tzinfo=UTC)


def test_an_edit_takes_the_first_answer_back_and_is_answered_itself() -> None:
    store = MemoryStore()
    chat = Conversation(store)
    for n, text in enumerate(("hello", "7 iron 150", "handicap 14", "skip")):
        at = NOON - timedelta(minutes=9 - n)
        chat.handle(Message(chat="c", sender="ann", text=text, sent_at=at, message_id=f"s{n}"))
    first = Message(chat="c", sender="ann", text="160, 8 mph into", sent_at=NOON, message_id="7")
    chat.handle(first)
    before = [e.kind for e in store.entries() if e.message_id[0] == "7"]
    edit = first.model_copy(
        update={"text": "170, 8 mph into", "message_id": "7.99", "edit_of": "7"}
    )
    edit = edit.model_copy(update={"sent_at": NOON + timedelta(seconds=9)})
    reply = chat.handle(edit)
    assert chat.handle(edit) == reply
    after = [(e.kind, e.message_id) for e in store.entries() if e.message_id[0] == "7"]
    assert before == ["answer"]
    assert after == [("answer", "7.99")]
