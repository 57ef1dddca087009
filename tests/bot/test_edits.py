"""An edited message takes back what its first text logged, and is answered once."""

from datetime import UTC, datetime, timedelta

from bot.conversation import Conversation
from bot.model.message import Message
from bot.storage.memory import MemoryStore

NOON = datetime(2031, 5, 4, 12, tzinfo=UTC)


def test_an_edit_takes_the_first_answer_back_and_is_answered_itself() -> None:
    store = MemoryStore()
    chat = Conversation(store)
    first = Message(chat="c", sender="ann", text="160, 8 mph into", sent_at=NOON, message_id="7")
    chat.handle(first)
    before = [e for e in store.entries() if e.kind == "answer"]
    edit = first.model_copy(
        update={"text": "170, 8 mph into", "message_id": "7.99", "edit_of": "7"}
    )
    edit = edit.model_copy(update={"sent_at": NOON + timedelta(seconds=9)})
    reply = chat.handle(edit)
    assert chat.handle(edit) == reply
    after = [e for e in store.entries() if e.kind == "answer"]
    assert len(after) == len(before)
    assert {e.message_id for e in after} <= {"7.99"}
