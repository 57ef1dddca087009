"""No chat waits for a slow one, and no chat is worked by two lanes at once."""

import asyncio
import threading
from collections.abc import AsyncIterator, Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bot.conversation import Conversation
from bot.model.message import Handled, Message, Reply
from bot.storage import SqliteStore
from bot.storage.errors import StoreFull
from bot.storage.store import Change, Delivery, Store
from bot.transports.telegram import lanes
from bot.transports.telegram.adapter import Me
from bot.transports.telegram.envelope import envelope
from bot.transports.telegram.lanes import Lanes
from bot.transports.telegram.turns import Turns
from bot.transports.telegram.worker import Rules, Worker
from tests.support.platform import ME, Platform


class Slow(Conversation):
    """Answers "slow" once it is let go, anything else at once; notes who is at work."""

    def __init__(self, store: Store, go: threading.Event, at_work: list[str]) -> None:
        super().__init__(store)
        self.go, self.at_work = go, at_work
        self.twice = False  # two at once in a chat

    def process(
        self, message: Message, deliver: Callable[[Reply], Delivery] | None = None
    ) -> Handled:
        self.twice |= message.chat in self.at_work
        self.at_work.append(message.chat)
        if message.text == "slow":
            assert self.go.wait(20)
        reply = Reply(lines=(message.text,))
        delivery = None if deliver is None else deliver(reply)
        self._store.commit(Change(message=message, reply=reply, delivery=delivery))
        self.at_work.remove(message.chat)
        return Handled(reply=reply)


class Office:
    """Lanes at work over a file, and people who write."""

    def __init__(self, path: Path) -> None:
        self.path, self.store = path, SqliteStore(path)
        self.people = Platform()
        self.go = threading.Event()
        self.at_work: list[str] = []
        self.talks: list[Slow] = []
        self.worked = 0
        self.typing: list[str] = []
        self.lanes = Lanes(self.make, self.count, self.show)

    def make(self, turns: Turns) -> Worker:
        store = SqliteStore(self.path)
        rules = Rules(True, frozenset(), b"secret", timedelta(seconds=300))
        talk = Slow(store, self.go, self.at_work)
        self.talks.append(talk)
        me = Me(ME.id, ME.username or "")
        return Worker(store, talk, me, rules, lambda: datetime.now(UTC), turns)

    def count(self) -> None:
        self.worked += 1

    async def show(self, chat: str) -> None:
        self.typing.append(chat)

    def say(self, text: str, user: int) -> None:
        now = datetime.now(UTC)
        number = next(self.people._ids)
        message = self.people.message(text, user=user, date=now)
        kept = envelope({"update_id": number, "message": message}, now)
        assert kept is not None
        self.store.receive([kept])
        self.lanes.wake()

    def said(self, chat: int) -> list[str]:
        rows = self.store._rows(
            "SELECT text FROM messages WHERE chat = ? ORDER BY rowid", (f"tg:{chat}",)
        )
        return [text for (text,) in rows.fetchall()]

    async def until(self, done: Callable[[], bool]) -> None:
        async with asyncio.timeout(20):
            while not done():  # noqa: ASYNC110
                await asyncio.sleep(0.01)


@pytest.fixture
async def office(tmp_path: Path) -> AsyncIterator[Office]:
    made = Office(tmp_path / "caddie.sqlite")
    task = asyncio.create_task(made.lanes.run())
    yield made
    made.go.set()
    task.cancel()
    await asyncio.gather(task, return_exceptions=True)
    await made.lanes.stop()
    made.store.close()
    assert not any(talk.twice for talk in made.talks)


async def test_no_chat_waits_for_a_slow_one(office: Office) -> None:
    office.say("slow", 7)
    office.say("next", 7)
    await office.until(lambda: office.at_work == ["tg:7"])
    for n in range(5):
        office.say(f"quick {n}", 8 + n)
    await office.until(lambda: office.worked == 5)
    assert office.said(7) == []
    office.go.set()
    await office.until(lambda: office.worked == 7)
    assert office.said(7) == ["slow", "next"]


async def test_more_slow_chats_than_lanes_only_wait(office: Office) -> None:
    for user in range(1, lanes.LANES + 3):
        office.say("slow", user)
        office.say("next", user)
    await office.until(lambda: len(office.at_work) == lanes.LANES)
    office.go.set()
    await office.until(lambda: office.worked == 2 * (lanes.LANES + 2))
    for user in range(1, lanes.LANES + 3):
        assert office.said(user) == ["slow", "next"]


async def test_a_slow_chat_is_shown_that_its_answer_is_on_the_way(
    office: Office, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(lanes, "TYPING_AFTER", 0.1)
    office.say("slow", 7)
    await office.until(lambda: bool(office.typing))
    await asyncio.sleep(0.3)
    assert office.typing == ["tg:7"], "once"


async def test_told_to_stop_at_the_moment_of_news_it_stops(office: Office) -> None:
    office.say("slow", 7)
    await office.until(lambda: office.at_work == ["tg:7"])
    task = asyncio.create_task(office.lanes.run())
    await asyncio.sleep(0.02)
    office.lanes.wake()
    task.cancel()
    done, _ = await asyncio.wait({task}, timeout=5)
    assert done == {task}


async def test_a_store_in_trouble_is_waited_for(
    office: Office, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(lanes, "STORE_PAUSE", 0.05)
    real, failures = SqliteStore.claim, iter(range(3))

    def claim(self: SqliteStore, *words: object) -> object:
        if next(failures, None) is not None:
            raise StoreFull("x")
        return real(self, *words)  # type: ignore[arg-type]

    monkeypatch.setattr(SqliteStore, "claim", claim)
    office.say("hello", 7)
    await office.until(lambda: office.said(7) == ["hello"])
