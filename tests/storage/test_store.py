"""The promises of a store, over every store."""

import json
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bot.model.entry import Entry
from bot.model.message import Message, Reply
from bot.storage import Change, SqliteStore, StaleState, Store
from bot.storage.memory import MemoryStore

NOON = datetime(2031, 5, 4, 12, 0, tzinfo=UTC)


@pytest.fixture(params=["file", "memory"])
def store(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[SqliteStore]:
    made = MemoryStore() if request.param == "memory" else SqliteStore(tmp_path / "caddie.db")
    yield made
    made.close()


def said(n: int = 1, *, chat: str = "c", sender: str = "ann", minutes: int = 0) -> Message:
    at = NOON + timedelta(minutes=minutes)
    return Message(chat=chat, sender=sender, text=f"{n} to go", sent_at=at, message_id=str(n))


def fact(m: Message, kind: str = "answer", n: int = 0, **more: object) -> Entry:
    return Entry.model_validate(
        {
            "kind": kind,
            "chat": m.chat,
            "message_id": m.message_id,
            "n": n,
            "player": m.sender,
            "at": m.sent_at,
            **more,
        }
    )


def put(store: Store, m: Message, *entries: Entry, **more: object) -> bool:
    change = {"message": m, "reply": Reply(lines=("one", "two")), "entries": entries, **more}
    return store.commit(Change.model_validate(change))


def test_satisfies_the_protocol(store: SqliteStore) -> None:
    kept: Store = store
    assert kept.check() == []


def test_a_message_is_logged_with_reading_and_reply(store: SqliteStore) -> None:
    m = said(150)
    assert put(store, m, reading={"acts": [{"act": "shot"}]}, answers=[{"carry": 150}])
    logged = store.said("c", "150")
    assert logged is not None
    assert logged.message == m
    assert logged.reply.lines == ("one", "two")
    assert logged.answers == ({"carry": 150},)
    assert logged.reading == {"acts": [{"act": "shot"}]}
    assert store.said("c", "151") is None
    assert store.said("d", "150") is None


def test_a_message_handled_before_changes_nothing(store: SqliteStore) -> None:
    m = said()
    assert put(store, m, fact(m), documents={"player/ann": (0, '{"a":1}')})
    assert not put(store, m, fact(m), documents={"player/ann": (0, '{"a":2}')})
    assert store.load(["player/ann"])["player/ann"].body == '{"a":1}'
    assert len(list(store.entries())) == 1


def test_documents_count_versions_and_refuse_stale_ones(store: SqliteStore) -> None:
    put(store, said(1), documents={"player/ann": (0, "1")})
    put(store, said(2), documents={"player/ann": (1, "2")})
    assert store.load(["player/ann", "player/bo"])["player/ann"].version == 2
    m = said(3)
    with pytest.raises(StaleState) as stale:
        put(store, m, fact(m), documents={"trip/c": (0, "x"), "player/ann": (1, "3")})
    assert (stale.value.key, stale.value.expected, stale.value.found) == ("player/ann", 1, 2)
    assert store.load(["trip/c"]) == {}, "nothing of a refused change stays"
    assert store.said("c", "3") is None
    assert list(store.entries()) == []


def test_a_document_can_be_deleted(store: SqliteStore) -> None:
    put(store, said(1), documents={"memory/c/ann": (0, "1"), "memory/c/bo": (0, "2")})
    assert store.keys("memory/c/") == ["memory/c/ann", "memory/c/bo"]
    put(store, said(2), documents={"memory/c/ann": (1, None)})
    assert store.keys("memory/") == ["memory/c/bo"]
    put(store, said(3), documents={"memory/c/ann": (0, "3")})
    assert store.load(["memory/c/ann"])["memory/c/ann"].version == 1


def test_entries_come_in_their_own_time_and_can_be_chosen(store: SqliteStore) -> None:
    late, early, other = said(1, minutes=9), said(2, minutes=3), said(3, sender="bo", minutes=5)
    put(store, late, fact(late, "result", round="r1", hole=7))
    put(store, early, fact(early, round="r1", hole=7), fact(early, "day", 1))
    put(store, other, fact(other, "score"))
    assert [e.kind for e in store.entries()] == ["answer", "day", "score", "result"]
    assert [e.kind for e in store.entries(player="ann", newest_first=True, limit=1)] == ["result"]
    assert [e.hole for e in store.entries(round="r1", kinds=["answer", "result"])] == [7, 7]
    since = NOON + timedelta(minutes=5)
    assert [e.player for e in store.entries(since=since)] == ["bo", "ann"]
    assert list(store.entries(chat="elsewhere")) == []


def test_an_entry_comes_back_as_it_went_in(store: SqliteStore) -> None:
    m = said()
    whole = fact(
        m,
        round="r",
        hole=3,
        profile_version=2,
        engine_version="0.1.0",
        body={"club": "7 iron", "chance": 0.125, "said": "nach rechts ⛳", "none": None},
    )
    put(store, m, whole)
    (back,) = store.entries()
    assert back.id is not None
    assert back.model_copy(update={"id": None}) == whole


def test_what_was_taken_back_is_left_out_unless_asked_for(store: SqliteStore) -> None:
    shot, undo, redo = said(1), said(2, minutes=1), said(3, minutes=2)
    put(store, shot, fact(shot))
    (first,) = store.entries()
    put(store, undo, fact(undo, "undo", undoes=first.id))
    assert list(store.entries()) == []
    assert [e.kind for e in store.entries(undone=True)] == ["answer", "undo"]
    taken_back = list(store.entries(undone=True))[-1]
    put(store, redo, fact(redo, "undo", undoes=taken_back.id))
    assert [e.kind for e in store.entries()] == ["answer"]


def test_every_profile_version_can_be_found(store: SqliteStore) -> None:
    for version in (1, 2):
        m = said(version)
        put(store, m, fact(m, "profile", profile_version=version, body={"hand": version}))
    used = said(3)
    put(store, used, fact(used, "answer", profile_version=1))
    first = store.profile("ann", 1)
    assert first is not None
    assert first.body == {"hand": 1}
    assert store.profile("ann", 3) is None
    assert store.profile("bo", 1) is None


def test_blobs_are_kept_by_kind_and_key(store: SqliteStore) -> None:
    store.put_blob("pattern", "ann", b"\x00\x01")
    store.put_blob("pattern", "ann", b"\x02")
    assert store.get_blob("pattern", "ann") == b"\x02"
    assert store.get_blob("strokes", "ann") is None


def test_forgetting_removes_a_player_and_nobody_else(store: SqliteStore) -> None:
    mine, theirs = said(1), said(2, sender="bo")
    put(store, mine, fact(mine), documents={"player/ann": (0, "1"), "memory/c/ann": (0, "1")})
    put(store, theirs, fact(theirs), documents={"player/bo": (0, "1"), "trip/c": (0, "1")})
    last = said(9, minutes=1)
    put(store, last, forget="ann", documents={"trip/c": (1, "without ann")})
    exported = store.export("ann")
    assert (exported["documents"], exported["messages"], exported["entries"]) == ({}, [], [])
    assert store.keys("") == ["player/bo", "trip/c"]
    assert [e.player for e in store.entries()] == ["bo"]
    assert all("ann" not in m.model_dump_json() for m in store.messages())
    assert not put(store, mine, fact(mine)), "a repeated message is still known"
    logged = store.said("c", "9")
    assert logged is not None
    assert logged.reply.lines == ("one", "two")
    assert logged.message.text == ""


def test_what_others_hold_of_a_forgotten_player_stays_without_the_name(store: SqliteStore) -> None:
    card = '{"players":["ann","bo"],"scores":{"ann":{"1":5}},"names":{"ann":"Ann","bo":"Bo"}}'
    theirs = said(2, sender="bo")
    entry = fact(theirs, "score", body={"marker": "ann", "strokes": 4})
    put(store, theirs, entry, documents={"round/1": (0, card)})
    put(store, said(3), forget="ann")
    kept = json.loads(store.load(["round/1"])["round/1"].body)
    (nobody,) = set(kept["players"]) - {"bo"}
    assert kept["scores"] == {nobody: {"1": 5}}
    assert kept["names"] == {nobody: "somebody", "bo": "Bo"}
    assert [e.body for e in store.entries()] == [{"marker": nobody, "strokes": 4}]


def test_export_holds_everything_of_a_player(store: SqliteStore) -> None:
    m = said()
    put(store, m, fact(m), documents={"player/ann": (0, '{"hand":"left"}')})
    exported = store.export("ann")
    assert exported["documents"] == {"player/ann": {"hand": "left"}}
    assert exported["messages"][0]["message"]["text"] == "1 to go"
    assert exported["entries"][0]["kind"] == "answer"


def test_messages_can_be_listed(store: SqliteStore) -> None:
    for n in range(3):
        put(store, said(n, minutes=-n))
    assert [x.message.message_id for x in store.messages(player="ann")] == ["2", "1", "0"]
    newest = store.messages(chat="c", newest_first=True, limit=1)
    assert [x.message.message_id for x in newest] == ["0"]
