"""What is answered where it is our own code that breaks, and what stays as it was."""

from datetime import UTC, datetime

import pytest

from bot import conversation
from bot.conversation import Conversation
from bot.model.answer import Answer, Noted
from bot.model.message import Message
from bot.model.reading import Reading
from bot.model.state import Trip
from bot.storage.memory import MemoryStore
from bot.turn.desk import Desk


def said(text: str, message_id: str, by: str = "ann") -> Message:
    return Message(
        chat=by, kind="private", sender=by, name=by.title(), text=text, message_id=message_id,
        sent_at=datetime(2031, 5, 4, 12, tzinfo=UTC),
    )  # fmt: skip


def overwrite(desk: Desk, reading: Reading) -> tuple[Desk, tuple[Answer, ...]]:
    """Write a document that was never read: it may hold what others told."""
    return desk.put(Trip(ids=("bea",), course="Nowhere")), (Noted(what="joined"),)


def breaks(desk: Desk, reading: Reading) -> tuple[Desk, tuple[Answer, ...]]:
    raise ZeroDivisionError


@pytest.mark.parametrize("turn", [overwrite, breaks])
def test_a_bug_is_answered_once_and_changes_nothing(
    turn: object, monkeypatch: pytest.MonkeyPatch
) -> None:
    store = MemoryStore()
    bot = Conversation(store)
    for player in ("ann", "bea"):
        bot.handle(said("course Gull Head", "1", by=player))
    before = store.load(["trip/ann", "trip/bea"])
    monkeypatch.setattr(conversation, "take_turn", turn)
    reply = bot.handle(said("160", "2"))
    assert "broke on my side" in reply.text
    monkeypatch.undo()
    assert bot.handle(said("160", "2")) == reply
    assert store.load(["trip/ann", "trip/bea"]) == before
