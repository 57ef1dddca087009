"""The promises of the mail: nothing lost, nothing twice, order within a chat."""

import json
from datetime import timedelta

import pytest

from bot.storage import Delivery, Mail, Send, SqliteStore
from bot.storage.store import Update, Waiting
from tests.storage.test_store import NOON, fact, put, said, store

__all__ = ["store"]


def update(n: int, queue: str = "c", seconds: int = 0) -> Update:
    at = NOON + timedelta(seconds=seconds)
    return Update(source="tg", update_id=n, queue=queue, at=at, raw=f'{{"n":{n}}}')


def delivery(n: int, *sends: Send) -> Delivery:
    return Delivery(source="tg", update_id=n, sends=sends)


def text(words: str, chat: str = "c") -> Send:
    return Send(chat=chat, payload={"text": words}, answers="1")


def take(mail: Mail) -> list[int]:
    """Work everything, round the queues."""
    seen, after = [], ""
    while work := mail.claim(after):
        seen.append(work.update_id)
        after = work.queue
        mail.finish(delivery(work.update_id))
    return seen


def test_satisfies_the_protocol(store: SqliteStore) -> None:
    mail: Mail = store
    assert mail.waiting() == Waiting()


def test_an_update_is_received_once(store: SqliteStore) -> None:
    assert store.receive([update(1), update(2)]) == 2
    assert store.receive([update(2), update(3)]) == 1
    assert take(store) == [1, 2, 3]
    assert store.receive([update(1)]) == 0, "a worked update stays known"
    assert take(store) == []


def test_a_queue_is_worked_in_the_order_of_its_own_time(store: SqliteStore) -> None:
    store.receive([update(5, seconds=9), update(6, seconds=2), update(4, seconds=2)])
    assert take(store) == [4, 6, 5]


def test_a_busy_queue_is_passed_over(store: SqliteStore) -> None:
    store.receive([update(1, "a"), update(2, "b"), update(3, "b")])
    first = store.claim("", {"a"})
    assert first is not None
    assert first.queue == "b"
    assert store.claim("", {"a", "b"}) is None


def test_queues_take_turns(store: SqliteStore) -> None:
    store.receive([update(n, "busy") for n in range(1, 5)])
    store.receive([update(10, "a"), update(11, "z")])
    assert take(store) == [10, 1, 11, 2, 3, 4]


def test_a_claim_that_dies_is_claimed_again_and_counted(store: SqliteStore) -> None:
    store.receive([update(1)])
    first, second = store.claim(), store.claim()
    assert first is not None
    assert second is not None
    assert (first.attempts, second.attempts) == (1, 2)
    store.park("tg", 1, "it cannot be read")
    assert store.claim() is None
    assert store.waiting().parked == 1


def test_effects_and_sends_are_one_change(store: SqliteStore) -> None:
    store.receive([update(1)])
    m = said()
    assert put(store, m, fact(m), delivery=delivery(1, text("two lines")))
    assert store.claim() is None
    (due,) = store.due(NOON)
    assert due.send == text("two lines")


def test_a_repeated_message_completes_its_update_without_a_second_send(
    store: SqliteStore,
) -> None:
    store.receive([update(1), update(2)])
    m = said()
    put(store, m, delivery=delivery(1, text("once")))
    put(store, m, delivery=delivery(1, text("once")))
    assert len(list(store.due(NOON))) == 1
    assert not put(store, m, delivery=delivery(2))
    assert store.claim() is None


def test_a_refused_change_sends_nothing(store: SqliteStore) -> None:
    store.receive([update(1)])
    with pytest.raises(Exception, match="version"):
        put(store, said(), documents={"a": (3, "x")}, delivery=delivery(1, text("no")))
    assert list(store.due(NOON)) == []
    assert store.claim() is not None


def test_sends_of_a_chat_go_in_order_and_chats_do_not_wait_for_each_other(
    store: SqliteStore,
) -> None:
    store.post([text("first"), text("second"), text("other", "d")])
    first, other = store.due(NOON)
    assert [d.send.payload["text"] for d in (first, other)] == ["first", "other"]
    store.put_off(first.id, NOON + timedelta(seconds=30), "asked to wait")
    assert [d.id for d in store.due(NOON)] == [other.id]
    later = NOON + timedelta(seconds=31)
    assert next(store.due(later)).attempts == 1
    store.sent(first.id, "77", NOON)
    store.drop(other.id, "blocked")
    assert [d.send.payload["text"] for d in store.due(NOON)] == ["second"]
    assert store.answered("c", "77") == "1"
    assert store.answered("c", "78") is None


def test_a_renamed_chat_keeps_everything(store: SqliteStore) -> None:
    body = json.dumps({"ids": ["c", "ann"], "x": 1})
    m = said()
    put(store, m, fact(m), documents={
        "memory/c/ann": (0, body), "trip/c": (0, "{}"), "round/r": (0, '{"chat": "c"}'),
        "round/other": (0, '{"chat": "d"}'),
    })  # fmt: skip
    store.post([text("waits")])
    store.receive([update(3)])
    store.rename_chat("c", "-100c")
    kept = store.load(["memory/-100c/ann", "trip/-100c"])
    assert json.loads(kept["memory/-100c/ann"].body) == {"ids": ["-100c", "ann"], "x": 1}
    assert len(kept) == 2
    rounds = store.load(["round/r", "round/other"])
    assert json.loads(rounds["round/r"].body)["chat"] == "-100c", "its round moves with it"
    assert json.loads(rounds["round/other"].body)["chat"] == "d"
    assert [e.player for e in store.entries(chat="-100c")] == ["ann"]
    assert next(store.due(NOON)).send.chat == "-100c"
    work = store.claim()
    assert work is not None
    assert work.queue == "-100c"
    again = said(chat="-100c")
    assert put(store, again), "ids of the new chat start afresh"


def test_what_waits_is_counted(store: SqliteStore) -> None:
    store.receive([update(1, seconds=4), update(2, seconds=3)])
    store.post([text("x")])
    waiting = store.waiting()
    assert (waiting.inbox, waiting.outbox) == (2, 1)
    assert waiting.inbox_since == NOON + timedelta(seconds=3)
    assert waiting.outbox_since is not None


def test_completed_mail_is_tidied_away_and_open_mail_is_not(store: SqliteStore) -> None:
    store.receive([update(1), update(2)])
    store.finish(delivery(1))
    assert store.tidy(NOON + timedelta(days=3)) == 1
    assert store.waiting().inbox == 1
    assert store.receive([update(2)]) == 0
