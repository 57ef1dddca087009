"""The outbox against the platform's limits, refusals and faults."""

import asyncio
import contextlib
from collections.abc import AsyncIterator, Callable
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from bot.settings import Settings
from bot.storage import MemoryStore, Send
from bot.storage.errors import StoreFull
from bot.transports.telegram.client import make_bot
from bot.transports.telegram.pace import Pacer
from bot.transports.telegram.sender import Sender
from tests.support.platform import TOKEN, Platform

pytestmark = pytest.mark.filterwarnings("ignore:.*retry_after")


class Office:
    """A sender at work over a store in memory."""

    def __init__(self, platform: Platform) -> None:
        self.platform, self.store = platform, MemoryStore()
        self.clock: Callable[[], datetime] = lambda: datetime.now(UTC)
        self.bot = make_bot(Settings(api_url=platform.url), TOKEN)
        pacer = Pacer(500.0, 100.0, 1000)
        self.sender = Sender(self.bot, self.on_mail, pacer, lambda: self.clock(), self.draw)

    async def on_mail(self, do: Callable[[Any], Any]) -> Any:
        done = do(self.store)
        await asyncio.sleep(0.002)  # as a thread takes a moment to hand it back
        return done

    async def draw(self, chat: str, message_id: str, name: str) -> bytes | None:
        return None if name == "none.png" else f"{chat} {message_id} {name}".encode()

    def post(self, *texts: str, chat: int = 7, **more: Any) -> None:
        for text in texts:
            payload = {"text": text, **more}
            self.store.post([Send(chat=f"tg:{chat}", kind="say", payload=payload)])
        self.sender.wake()

    def states(self) -> list[str]:
        return [s for (s,) in self.store._rows("SELECT state FROM outbox ORDER BY id").fetchall()]


@pytest.fixture
async def office() -> AsyncIterator[Office]:
    platform = Platform()
    await platform.start()
    made = Office(platform)
    await made.bot.initialize()
    task = asyncio.create_task(made.sender.run())
    yield made
    await made.sender.stop(0.5)
    await task
    await made.bot.shutdown()
    await platform.stop()
    assert platform.refused == [] or made.platform.refused[0][1].startswith("Bad Request")


async def done(office: Office, *states: str) -> None:
    await office.platform.until(lambda: office.states() == list(states), 15)


async def test_sends_of_a_chat_arrive_in_order(office: Office) -> None:
    words = [str(n) for n in range(5)]
    office.post(*words)
    office.post("other", chat=8)
    await done(office, *["sent"] * 6)
    assert office.platform.texts(7) == words


async def test_a_slow_chat_holds_up_no_other(office: Office) -> None:
    slow = asyncio.Event()
    real = office.platform.carry_out

    async def carry_out(method: str, fields: dict[str, Any]) -> Any:
        if fields.get("chat_id") == 7:
            await slow.wait()
        return await real(method, fields)

    office.platform.carry_out = carry_out  # type: ignore[method-assign]
    office.post("slow")
    office.post("quick", chat=8)
    await office.platform.until(lambda: office.platform.texts(8) == ["quick"])
    assert office.platform.texts(7) == []
    slow.set()
    await done(office, "sent", "sent")


async def test_asked_to_wait_it_waits_and_sends_once(office: Office) -> None:
    answers = iter(["429", None])
    office.platform.fault = lambda method: next(answers, None)
    office.post("one")
    await done(office, "sent")
    first, second = [at for method, at in office.platform.requests if method == "sendmessage"]
    assert second - first >= 1.0
    assert office.platform.texts(7) == ["one"]


@pytest.mark.parametrize("fault", ["500", "cut", "garbage"])
async def test_after_a_fault_it_is_sent(office: Office, fault: str) -> None:
    answers = iter([fault, fault])
    office.platform.fault = lambda method: next(answers, None)
    office.post("one", "two")
    await done(office, "sent", "sent")
    assert office.platform.texts(7) == ["one", "two"]


async def test_a_blocked_chat_is_given_up(office: Office) -> None:
    office.platform.blocked.add(7)
    office.post("one", "two")
    office.post("other", chat=8)
    await done(office, "dropped", "dropped", "sent")


async def test_an_upgraded_group_gets_its_messages_under_its_new_number(office: Office) -> None:
    office.platform.migrated[-5] = -1005
    office.post("one", "two", chat=-5)
    await done(office, "sent", "sent")
    assert office.platform.texts(-1005) == ["one", "two"]


async def test_what_is_refused_for_good_is_dropped_and_the_next_goes(office: Office) -> None:
    office.post("in a thread that is none", thread=9)
    office.post("next")
    await done(office, "dropped", "sent")


async def test_what_grew_old_is_dropped(office: Office) -> None:
    office.clock = lambda: datetime.now(UTC) + timedelta(hours=2)
    office.post("150 plays 156")
    await done(office, "dropped")
    assert office.platform.texts(7) == []


async def test_trouble_with_the_store_after_a_send_does_not_send_again(
    office: Office, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("bot.transports.telegram.sender.STORE_PAUSE", 0.05)
    real, failures = office.store.sent, iter(range(3))

    def sent(*words: Any) -> None:
        with contextlib.suppress(StopIteration):
            next(failures)
            raise StoreFull("x")
        real(*words)

    monkeypatch.setattr(office.store, "sent", sent)
    office.post("one", "two")
    await done(office, "sent", "sent")
    assert office.platform.texts(7) == ["one", "two"]


async def test_stopped_at_any_moment_it_marks_what_arrived(office: Office) -> None:
    for n in range(20):
        sender = Sender(
            office.bot, office.on_mail, Pacer(500.0, 100.0, 1000), office.clock, office.draw
        )
        task = asyncio.create_task(sender.run())
        office.store.post([Send(chat="tg:7", kind="say", payload={"text": str(n)})])
        sender.wake()
        await office.platform.until(lambda n=n: len(office.platform.texts(7)) > n)  # type: ignore[misc]
        await asyncio.sleep(n / 4000)
        await sender.stop(5)
        await task
        assert office.states() == ["sent"] * (n + 1)


async def test_every_kind_of_send_is_allowed(office: Office) -> None:
    office.post("pick", buttons=[[{"text": "8 iron", "data": "7|8 iron"}]], to=3)
    await done(office, "sent")
    pick = office.platform.sent[-1]
    press = office.platform.press(pick, "7|8 iron")
    drawn = {"in": "tg:7", "of": "4"}
    sends = (
        Send(chat="tg:7", kind="press", payload={"press": press, "text": ""}),
        Send(chat="tg:7", kind="unbutton", payload={"message": pick.message_id}),
        Send(chat="tg:7", kind="unbutton", payload={"message": pick.message_id}),
        Send(chat="tg:-9", kind="nod", payload={"message": 3, "emoji": "\N{THUMBS UP SIGN}"}),
        Send(chat="tg:-9", kind="leave", payload={}),
        Send(chat="tg:7", kind="photo", payload={**drawn, "name": "parts.png"}),
        Send(chat="tg:7", kind="document", payload={**drawn, "name": "a.csv", "to": 3}),
        Send(chat="tg:7", kind="photo", payload={**drawn, "name": "none.png"}),
        Send(chat="tg:7", kind="nothing known", payload={}),
    )
    office.store.post(sends)
    office.sender.wake()
    await done(office, *["sent"] * 8, "dropped", "dropped")
    assert office.platform.refused == []
