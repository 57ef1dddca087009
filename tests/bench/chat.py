"""Is anything lost, doubled or slow between the chat platform and the bot? Real processes.

Runs the service against the stand-in platform on this machine. About four minutes; with
``--full`` (100 kills each way, two minutes of faults) about fifteen. ``--only NAME`` runs one
of: kills, twice, faults, pace.
"""

from __future__ import annotations

import asyncio
import functools
import json
import random
import statistics
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Awaitable, Callable
from pathlib import Path

from tornado.httpclient import AsyncHTTPClient, HTTPRequest

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.bench._table import Row, finish
from tests.support.platform import FAULTS, Platform
from tests.support.service import Service

FAST = {"CADDIE_SENDS_PER_SECOND": "500", "CADDIE_SENDS_PER_CHAT": "100", "CADDIE_LOG": "INFO"}
BACKLOG = 60  # messages under way at most: always some, and never more than can be caught up
PLAYER = ("hello", "skip", "handicap 14", "my 7 iron goes 150")
UNDER_WAY = 40  # messages, two a chat, while it is measured how many are kept up


def shot(n: int) -> str:
    """One of many shots: none has the wind, or the height, of another asked shortly before."""
    yards, told = 130 + 7 * n % 59, 5 + n % 17
    return (
        f"{yards}, {told} mph into, water left",
        f"{yards}, helping {told}, bunker right",
        f"{yards} uphill {told} ft, back pin",
        f"{yards}, {told} mph off the left",
    )[n % 4]


def roomy() -> Platform:
    """A platform whose limits on speed do not hide the bot's own."""
    return Platform(overall=10**6, chat_burst=10**6, group_minute=10**6)


async def kills(folder: Path, mode: str, count: int) -> list[Row]:
    """Kill the process at random moments under load; every message has a chat of its own."""
    chance = random.Random(20310504)
    platform = roomy()
    await platform.start()
    service = Service(platform, folder, mode, FAST)
    await service.start()
    offered = 0
    stop = asyncio.Event()

    async def load() -> None:
        nonlocal offered
        while not stop.is_set():
            if offered - len(platform.texts()) < BACKLOG:
                offered += 1
                platform.say(shot(offered), user=1000 + offered)
            await asyncio.sleep(chance.expovariate(40))

    loading = asyncio.create_task(load())
    kills_at = []
    waits: list[float] = []  # from a start to its first reply
    began = time.monotonic()
    for _ in range(count):
        if chance.random() < 0.8:  # else it may die before it has begun to serve
            seen = len(platform.sent)
            await platform.until(functools.partial(_beyond, platform, seen), 60)
            waits.append(time.monotonic() - began)
        await asyncio.sleep(chance.uniform(0.0, 1.2))
        await service.kill()
        kills_at.append(len(platform.sent))
        began = time.monotonic()
        await service.start()
    stop.set()
    await loading
    answered: Counter[int] = Counter()

    def everyone() -> bool:
        answered.clear()
        answered.update(s.chat for s in platform.sent if s.method == "sendmessage")
        return len(answered) == offered

    try:
        await platform.until(everyone, 180)
    except AssertionError as error:
        print(error, file=sys.stderr)
    await asyncio.sleep(1)
    everyone()
    await service.stop()
    effects = service.rows("SELECT count(*), count(DISTINCT chat) FROM messages")[0]
    versions = service.rows("SELECT count(*) FROM documents WHERE key LIKE 'memory/%'")
    twice_changed = service.rows(
        "SELECT count(*) FROM documents WHERE key LIKE 'memory/%' AND version > 1"
    )[0][0]
    assert versions[0][0], "the messages of the load change documents"
    last: dict[int, int] = {}
    doubled: Counter[int] = Counter()  # by the kill that came after the send it doubled
    for at, sent in enumerate(platform.sent):
        if sent.method == "sendmessage":
            if sent.chat in last:
                doubled[sum(1 for k in kills_at if k <= last[sent.chat])] += 1
            last[sent.chat] = at
    await platform.stop()
    told = f"{mode}, {count} kills, {offered} messages"
    return [
        Row(f"lost replies ({told})", offered - len(answered), 0),
        Row(f"lost effects ({told})", offered - int(str(effects[1])), 0),
        Row(f"doubled effects ({told})", int(str(twice_changed)), 0),
        Row(
            f"doubled sends after one kill, at most ({told})", max(doubled.values(), default=0), 1
        ),
        Row(f"start to first reply, median ({told})", statistics.median(waits or [0.0]), 2, "s"),
        Row(f"requests refused ({told})", len(platform.refused), 0),
    ]


async def twice(folder: Path, count: int) -> list[Row]:
    """Offer every update twice and out of order, sixteen requests at a time."""
    platform = roomy()
    await platform.start()
    service = Service(platform, folder, "webhook", FAST)
    await service.start()
    await platform.until(lambda: bool(platform.hook))
    secret = str(platform.hook["secret_token"])
    updates = [
        {"update_id": 5000 + n, "message": platform.message(shot(n), user=1000 + n)}
        for n in range(count)
    ]
    both = updates * 2
    random.Random(7).shuffle(both)
    AsyncHTTPClient.configure(None, max_clients=16)
    client = AsyncHTTPClient(force_instance=True)

    async def post(update: dict[str, object]) -> None:
        headers = {"X-Telegram-Bot-Api-Secret-Token": secret}
        request = HTTPRequest(
            str(platform.hook["url"]), method="POST", body=json.dumps(update), headers=headers,
            request_timeout=120, connect_timeout=120,
        )  # fmt: skip
        await client.fetch(request)

    started = time.monotonic()
    await asyncio.gather(*(post(u) for u in both))
    stored = time.monotonic() - started
    await platform.until(lambda: len(platform.texts()) >= count, 300)
    await asyncio.sleep(1)
    await service.stop()
    effects = service.rows("SELECT count(*) FROM messages")[0][0]
    await platform.stop()
    return [
        Row(
            f"effects off by ({count} updates, twice)",
            abs(int(str(effects)) - count),
            0,
        ),
        Row("replies missing or doubled", abs(len(platform.texts()) - count), 0),
        Row("updates confirmed a second", 2 * count / stored, 100, "/s", "above"),
    ]


async def faults(folder: Path, seconds: float) -> list[Row]:
    """Let the platform answer with errors, cut connections and garbage, then work again."""
    platform = roomy()
    await platform.start()
    service = Service(platform, folder, "polling", FAST)
    await service.start()
    platform.say(shot(0), user=999)
    await platform.until(lambda: bool(platform.texts(999)))
    chance = random.Random(3)
    platform.fault = lambda method: chance.choice(FAULTS)
    began = time.monotonic()
    offered = 0
    while time.monotonic() - began < seconds:
        offered += 1
        platform.say(shot(offered), user=1000 + offered % 40)
        await asyncio.sleep(0.5)
    platform.fault = lambda method: None
    ended = time.monotonic()
    during = [at for _, at in platform.requests if began + 1 <= at <= ended]
    busiest = max((sum(1 for at in during if t <= at < t + 1) for t in during), default=0)
    before = len(platform.texts())
    await platform.until(lambda: len(platform.texts()) > before, 60)
    recovered = time.monotonic() - ended
    await platform.until(lambda: len(platform.texts()) >= offered + 1, 120)
    await asyncio.sleep(0.5)
    await service.stop()
    replies = len(platform.texts())
    await platform.stop()
    return [
        Row(
            f"lost replies ({offered} in {seconds:.0f} s of faults)",
            offered + 1 - replies,
            0,
        ),
        Row("requests in the busiest second while failing", busiest, 5),
        Row("first reply after the faults end", recovered, 10, "s"),
    ]


async def pace(folder: Path, seconds: float) -> list[Row]:
    """Measure the first reply after a start, replies one by one, and a steady stream."""
    platform = roomy()
    await platform.start()
    service = Service(platform, folder, "webhook", FAST)
    await service.start()
    await platform.until(lambda: bool(platform.hook))
    players = range(1, 21)
    for line in PLAYER:
        for user in players:
            platform.say(line, user=user)
    await platform.until(lambda: not platform.pending, 60)
    for user in players:
        platform.say(shot(0), user=user)
    await platform.until(lambda: len(platform.texts()) >= 5 * len(players), 120)

    waits = []
    for n in range(80):
        user = 1 + n % 20
        seen = len(platform.texts(user))
        began = time.monotonic()
        platform.say(shot(n), user=user)
        await platform.until(functools.partial(_more, platform, user, seen))
        waits.append(1e3 * (time.monotonic() - began))
        await asyncio.sleep(0.02)

    # A stream at the goal's own rate could never be found to be kept up faster than that.
    seen, offered = len(platform.texts()), 0
    began = time.monotonic()
    while time.monotonic() - began < seconds:
        for _ in range(UNDER_WAY - (offered - len(platform.texts()) + seen)):
            offered += 1
            platform.say(shot(offered), user=1 + offered % 20)
        await asyncio.sleep(0.05)
    await platform.until(lambda: len(platform.texts()) >= seen + offered, 120)
    last = max(s.at for s in platform.sent)
    rate = offered / (last - began)

    await service.stop()
    platform.say(shot(0), user=1)
    seen = len(platform.texts(1))
    began = time.monotonic()
    await service.start()
    await platform.until(lambda: len(platform.texts(1)) > seen, 30)
    first = time.monotonic() - began
    await service.stop()
    await platform.stop()
    waits.sort()
    alone = handled_alone()
    return [
        Row("update to reply, p50", statistics.median(waits), 40, "ms", baseline=alone),
        Row("update to reply, p95", waits[int(0.95 * len(waits))], 90, "ms", baseline=alone),
        Row("sustained shot messages", rate, 40, "/s", "above", baseline=1e3 / alone),
        Row("first reply after start", first, 2, "s"),
        Row("requests refused", len(platform.refused), 0),
    ]


def _beyond(platform: Platform, seen: int) -> bool:
    return len(platform.sent) > seen


def _more(platform: Platform, user: int, seen: int) -> bool:
    return len(platform.texts(user)) > seen


def handled_alone() -> float:
    """Milliseconds for the same shots without platform and files: the work itself."""
    from datetime import UTC, datetime

    from bot.conversation import Conversation
    from bot.model.message import Message
    from bot.storage.memory import MemoryStore

    bot, times = Conversation(MemoryStore()), []
    for n, text in enumerate((*PLAYER, *map(shot, range(33)))):
        now = datetime.now(UTC)
        message = Message(chat="c", sender="s", text=text, sent_at=now, message_id=str(n))
        began = time.perf_counter()
        bot.handle(message)
        times.append(1e3 * (time.perf_counter() - began))
    return statistics.median(times[len(PLAYER) + 1 :])


async def main(argv: list[str]) -> int:
    full = "--full" in argv
    count = 100 if full else 10
    wanted = argv[argv.index("--only") + 1] if "--only" in argv else None
    runs: list[tuple[str, Callable[[Path], Awaitable[list[Row]]]]] = [
        ("pace", lambda folder: pace(folder, 10)),
        ("faults", lambda folder: faults(folder, 120 if full else 20)),
        ("twice", lambda folder: twice(folder, 1500)),
        ("kills", lambda folder: kills(folder, "polling", count)),
        ("kills", lambda folder: kills(folder, "webhook", count)),
    ]
    rows: list[Row] = []
    for name, run in runs:
        if wanted in (None, name):
            with tempfile.TemporaryDirectory() as folder:
                rows += await run(Path(folder))
    return finish("Chat: nothing lost, nothing doubled, quick", rows, argv)


if __name__ == "__main__":
    sys.exit(asyncio.run(main(sys.argv[1:])))
